"""Shared neutrals: hots that nothing disconnects together, hots on one leg, and more hots than there are legs."""

from collections.abc import Iterator

from floorplan_circuits.findings import Hazard
from floorplan_circuits.hazards.legs import OneLeg, legs_of_panel, on_one_leg
from floorplan_circuits.hazards.phrases import listed, number
from floorplan_circuits.hazards.poles import PoleOf, neutral_groups
from floorplan_circuits.hazards.ranks import AT_TIMES, BY_HEAT
from floorplan_circuits.hazards.scene import Scene

APART_WHY = "With one of them off, their neutral can still carry the other's current: opened, it is live."
APART_RULE = (
    "NEC 2023 210.4(B): the hots of a multiwire circuit are disconnected together where it starts "
    "(for every such circuit since 2008; before, where its legs met on one yoke)."
)
SUM_WHY = "That neutral can carry the sum of both, more than its wire is made for, and no breaker sees it."
SUM_DO = "Keep the panel's cover on and have a licensed electrician look at it."
SUM_RULE = (
    "NEC 2023 210.4(A): the hots of a multiwire circuit have a voltage between them. Legs by the usual layout: common "
    "practice, no source."
)
ELSEWHERE_RULE = (
    "BS 7671 (18th edition) 314.4, where it applies: each circuit is electrically separate from every other."
)


def shared_neutrals(scene: Scene) -> Iterator[Hazard]:
    """Yield the hazards of each group of poles that shares a neutral. One nobody knows of is none of these."""
    for poles in neutral_groups(scene.home):
        breakers = scene.in_order(one.breaker for one in poles)
        if not set(breakers) <= scene.moved_by(breakers[:1]):
            yield _apart(breakers, scene)
        yield from _too_many(poles, breakers, scene)


def _apart(breakers: tuple[int, ...], scene: Scene) -> Hazard:
    both = "both" if len(breakers) == 2 else "all of them"
    says = f"{_circuits(breakers, scene)} share a neutral, and no handle is known to turn off {both}."
    barred = scene.barred(breakers)
    do = f"Turn off {both} before a splice of that neutral is opened, and test it."
    return scene.at_panel(
        "shared neutral, no common handle",
        _named(breakers, scene),
        f"{scene.panel_of(breakers)}: {says}",
        APART_WHY,
        f"Leave its splices closed: {barred}." if barred else do,
        scene.rule(breakers, APART_RULE, ELSEWHERE_RULE),
        AT_TIMES,
        breakers=breakers,
    )


def _too_many(poles: list[PoleOf], breakers: tuple[int, ...], scene: Scene) -> Iterator[Hazard]:
    """Yield why the neutral carries a sum, the surest reason alone."""
    panels = {one.panel for one in poles}
    legs = legs_of_panel(poles[0].panel, scene) if len(panels) == 1 else 0
    pair = on_one_leg(poles, scene)
    if legs and len(poles) > legs:
        many = f"{number(len(poles))} hots share a neutral, and the panel has {_legs(legs)}"
        says = f"{_circuits(breakers, scene)}: {many}."
        yield _sum("more hots than legs on one neutral", says, breakers, scene)
    elif pair is not None:
        both = scene.in_order((pair.first.breaker, pair.second.breaker))
        kind = "halves of one space on one neutral" if pair.how == "halves of one space" else "one leg, one neutral"
        yield _sum(kind, f"{_circuits(both, scene)} share a neutral{_on_one_leg(pair)}.", breakers, scene)


def _on_one_leg(pair: OneLeg) -> str:
    return {
        "measured": " and are on one leg, as somebody measured",
        "halves of one space": " and are the halves of one space, hence on one leg",
        "usual layout": " and may be on one leg: by the usual layout of a panel they are",
    }[pair.how]


def _sum(kind: str, says: str, breakers: tuple[int, ...], scene: Scene) -> Hazard:
    return scene.at_panel(
        kind,
        _named(breakers, scene),
        f"{scene.panel_of(breakers)}: {says}",
        SUM_WHY,
        SUM_DO,
        scene.rule(breakers, SUM_RULE, ELSEWHERE_RULE),
        BY_HEAT,
        breakers=breakers,
    )


def _legs(count: int) -> str:
    return "one leg" if count == 1 else f"{number(count)} legs"


def _circuits(breakers: tuple[int, ...], scene: Scene) -> str:
    """Return breakers as the subject of a sentence; the two poles of one are 'both poles of 2·4'."""
    if len(breakers) == 1:
        return f"the poles of {scene.mark(breakers[0])}"
    return f"circuits {listed([scene.mark(one) for one in breakers])}"


def _named(breakers: tuple[int, ...], scene: Scene) -> str:
    return ", ".join(scene.mark(one) for one in breakers)
