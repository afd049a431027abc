"""What a generated room holds, how it is really wired, and what the home states of it: right, wrong or nothing."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from random import Random

from floorplan_circuits.home.boxes import (
    NOT_KNOWN,
    Behind,
    FromBreaker,
    FromElsewhere,
    Hangs,
    Mount,
    Supplied,
)

STATED_RIGHT, STATED_WRONG = 0.5, 0.08
SURPRISES = {"none": 0.955, "another circuit": 0.03, "a second supply": 0.01, "from elsewhere": 0.005}
PASSING_SHARE, PLANNED_SHARE = 0.06, 0.01
ELSEWHERE = FromElsewhere(kind="elsewhere", where="the house service")


@dataclass(frozen=True, slots=True)
class Wire:
    """One feed as built: the breakers it is really on (any of them keeps it live), and how it is wired."""

    on: frozenset[int]
    part: str = ""
    outside: bool = False
    two_hots: bool = False
    is_reset: bool = False
    behind_reset: bool = False


@dataclass(frozen=True, slots=True)
class Plan:
    """A device to build."""

    kind: str
    wires: tuple[Wire, ...]
    va: int | None = None
    planned: bool = False


Furnishing = tuple[Mount, tuple[Plan, ...]]


def furnishings(rng: Random, circuits: tuple[int, ...], load_240: int | None) -> Iterator[Furnishing]:
    """Yield the boxes of a room in the order of building, without end: lights first, receptacles last."""
    lights, other_lights, plugs = (Wire(frozenset({circuit})) for circuit in circuits)
    yield "ceiling", (Plan("ceiling light", (lights,), va=60),)
    yield "wall", (Plan("switch", (lights,)), Plan("switch", (other_lights,)))
    yield "ceiling", (Plan("recessed light", (other_lights,), va=30),)
    yield "ceiling", (_alarm_or_fan(rng, lights),)
    if load_240 is not None:
        yield "wall", (Plan("240 V receptacle", (Wire(frozenset({load_240}), two_hots=True),), va=5000),)
    if rng.random() < 0.3:
        yield "wall", (Plan("ground-fault receptacle", (replace(plugs, is_reset=True),)),)
        yield "wall", (Plan("duplex receptacle", (replace(plugs, behind_reset=True),)),)
    if rng.random() < 0.2:
        yield "ceiling", (Plan("junction box", ()),)
    while True:
        yield "wall", (_receptacle(rng, plugs, other_lights),)


def _alarm_or_fan(rng: Random, lights: Wire) -> Plan:
    if rng.random() < 0.5:
        return Plan("smoke alarm", (lights,), va=5)
    return Plan("exhaust fan", (replace(lights, part="light"), replace(lights, part="fan")), va=40)


def _receptacle(rng: Random, plugs: Wire, other: Wire) -> Plan:
    if rng.random() < 0.1:
        return Plan("split receptacle", (replace(plugs, part="upper"), replace(other, part="lower")))
    wire = other if rng.random() < 0.2 else plugs
    return Plan("duplex receptacle", (wire,), planned=rng.random() < PLANNED_SHARE)


def passing_wires(rng: Random, circuits: tuple[int, ...], kind: str) -> tuple[Wire, ...]:
    """Return the cables that pass through a box: two in a junction box, seldom one elsewhere."""
    count = 2 if kind == "junction box" else int(rng.random() < PASSING_SHARE)
    return tuple(Wire(frozenset({rng.choice(circuits)})) for _ in range(count))


def surprised(rng: Random, wire: Wire, circuits: tuple[int, ...]) -> Wire:
    """Return the wire as somebody may have built it long ago: seldom as one would expect."""
    if wire.two_hots or wire.behind_reset:
        return wire
    surprise = rng.choices(tuple(SURPRISES), weights=tuple(SURPRISES.values()))[0]
    other = frozenset({rng.choice(circuits)})
    match surprise:
        case "another circuit":
            return replace(wire, on=other)
        case "a second supply":
            return replace(wire, on=wire.on | other)
        case "from elsewhere":
            return replace(wire, on=frozenset(), outside=True)
        case _:
            return wire


def stated(rng: Random, wire: Wire, circuits: tuple[int, ...], reset: int) -> Hangs:
    """Return what the home says of the wire: rightly, wrongly (one of the room's other circuits), or nothing."""
    roll = rng.random()
    if roll >= STATED_RIGHT + STATED_WRONG:
        return NOT_KNOWN
    if wire.behind_reset:
        return Behind(how="behind", feed=reset)
    if wire.two_hots:
        return Supplied(how="all", supplies=tuple(_pole(breaker, at) for breaker in wire.on for at in (0, 1)))
    wrong = sorted(set(circuits) - wire.on)
    if roll >= STATED_RIGHT and wrong:
        return Supplied(how="any", supplies=(_pole(rng.choice(wrong)),))
    if wire.outside:
        return Supplied(how="any", supplies=(ELSEWHERE,))
    return Supplied(how="any", supplies=tuple(_pole(breaker) for breaker in sorted(wire.on)))


def _pole(breaker: int, pole: int | None = None) -> FromBreaker:
    return FromBreaker(kind="breaker", breaker=breaker, pole=pole)
