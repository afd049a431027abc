"""Homes with a hidden truth for the survey: wired oddly, read honestly, and seldom as their map says.

`hidden_home(seed)` builds a panel of 3 to 60 handles, perhaps with a subpanel, and feeds on it in every way that old
houses have. `evening(hidden, ...)` is the log of somebody who goes round with a tester or a lamp and writes down what
is there: strong witnesses, no slips, yet ground-fault devices trip by themselves and lamps go out.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from random import Random
from typing import Any

from floorplan_circuits.home.boxes import Box, Control, Device, Feed, Hangs
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Breaker, Panel
from floorplan_circuits.home.record import change
from floorplan_circuits.home.table import Table
from tests.supply.wiring import UNKNOWN, behind, breaker, elsewhere, main, on, panel, source
from tests.survey.houses import DAY, logged

MAIN_PANEL, SUBPANEL, MAIN, UTILITY, GENERATOR = 1, 2, 3, 4, 5
FIRST_BREAKER, FIRST_FEED, FIRST_BOX, FIRST_DEVICE, FIRST_CONTROL = 100, 1000, 3000, 5000, 7000
FIRST_ENTRY = 20_000
WAYS = (
    *("single",) * 8,
    "chain",
    "chain",
    "loop",
    "two singles",
    "elsewhere",
    "switched",
    "automatic",
    "halves",
)


@dataclass(frozen=True)
class True_:  # noqa: N801  # 'True' is taken
    """What really feeds one feed: any of `on` keeps it live; `across`: one of its hots on each. `device` trips it."""

    on: frozenset[int]
    outside: bool = False
    across: bool = False
    device: int | None = None


@dataclass
class Hidden:
    """A home and what is true of it. `stuck` is a breaker that does not open, `feeder` that of the subpanel."""

    home: Home
    truth: dict[int, True_]
    rng: Random
    feeder: int | None = None
    stuck: int | None = None
    protective: tuple[int, ...] = ()
    automatic: frozenset[int] = frozenset()
    tripped: set[int] = field(default_factory=set)
    burnt: set[int] = field(default_factory=set)

    def is_live(self, breaker_id: int, off: frozenset[int]) -> bool:
        """Whether the load side of a breaker has power while these handles are turned off: circuits in a loop share."""
        return any(self._gives(one, off) for one in self.joined(breaker_id))

    def joined(self, breaker_id: int) -> set[int]:
        """The breakers whose circuits are one, whatever joins them: a loop in some box."""
        group = {breaker_id}
        while more := {
            other for true in self.truth.values() if not true.across and true.on & group for other in true.on - group
        }:
            group |= more
        return group

    def _gives(self, breaker_id: int, off: frozenset[int]) -> bool:
        one = self.home.breakers[breaker_id]
        if breaker_id in off and breaker_id != self.stuck:
            return False
        if one.panel == MAIN_PANEL:
            return MAIN not in off
        has_generator = any(SUBPANEL in one.into for one in self.home.sources)
        return has_generator or (self.feeder is not None and self.is_live(self.feeder, off))

    def hot(self, feed: int, off: frozenset[int]) -> bool:
        """Whether any conductor of the feed is live: what a hand would meet."""
        true = self.truth[feed]
        if true.device is not None and true.device in self.tripped:
            return False
        return true.outside or any(self.is_live(one, off) for one in true.on)

    def works(self, feed: int, off: frozenset[int]) -> bool:
        """Whether a load there works."""
        true = self.truth[feed]
        if feed in self.burnt or (true.device is not None and true.device in self.tripped):
            return False
        return true.outside or (all if true.across else any)(self.is_live(one, off) for one in true.on)

    def single(self, feed: int) -> int | None:
        """The one breaker that feeds it, or None where there is not exactly one."""
        true = self.truth[feed]
        if len(true.on) != 1 or true.outside:
            return None
        (one,) = true.on
        return one if self.joined(one) == {one} else None


# --- building -------------------------------------------------------------------------------------------------------


SIZES = (3, 6, 12, 20, 60)
"""How many handles a hidden home may have."""
SMALL = SIZES[:4]


def hidden_home(seed: int, *, odd: bool = True, right: bool = False, sizes: Sequence[int] = SIZES) -> Hidden:
    """Build one. Not `odd`: nothing sticks, and every feed has one supply. `right`: what the map says is true."""
    rng = Random(seed)
    handles = rng.choice(sizes)
    with_subpanel = handles > 6 and rng.random() < 0.6
    breakers = list(_breakers(rng, handles, with_subpanel))
    feeder = FIRST_BREAKER if with_subpanel else None
    branch = [one.id for one in breakers if one.id != feeder]
    hidden = Hidden(Home(next_id=FIRST_ENTRY), {}, rng, feeder)
    boxes, controls = _wire(hidden, branch, odd=odd, right=right)
    panels: list[Panel] = [panel(MAIN_PANEL, spaces=200, mains=(main(MAIN),), fed_by=_fed_by_source(UTILITY))]
    sources = [source(UTILITY, MAIN_PANEL)]
    if feeder is not None:
        fed_by: Any = ({"kind": "breaker", "breaker": feeder},)
        panels.append(panel(SUBPANEL, spaces=60, prefix="S", fed_by=fed_by, changes_over="by itself"))
        if odd and rng.random() < 0.3:
            sources.append(source(GENERATOR, SUBPANEL, kind="generator", starts="by itself"))
    hidden.home = change(
        hidden.home,
        panels=Table(panels),
        breakers=Table(breakers),
        sources=Table(sources),
        boxes=Table(boxes),
        controls=Table(controls),
    )
    if odd and rng.random() < 0.3:
        hidden.stuck = rng.choice(branch)
    return hidden


def _fed_by_source(number: int) -> Any:
    return ({"kind": "source", "source": number},)


def _breakers(rng: Random, handles: int, with_subpanel: bool) -> Iterable[Breaker]:
    for at in range(handles):
        number = FIRST_BREAKER + at
        in_sub = with_subpanel and at > handles * 2 // 3
        tie = None
        if at % 7 in (2, 3) and 4 <= at < handles - 1 and not in_sub:
            tie = {"group": at // 7 + 1, "made": ("by the factory", "makeshift")[at // 7 % 2]}
        found = {"state": "off"} if at and rng.random() < 0.04 else {}
        spaces = (at - handles * 2 // 3,) if in_sub else (2 * at + 1,)
        yield breaker(number, *spaces, of=SUBPANEL if in_sub else MAIN_PANEL, opens="hot", tie=tie, found=found)


def _wire(hidden: Hidden, branch: Sequence[int], *, odd: bool, right: bool) -> tuple[list[Box], list[Control]]:
    rng, boxes, controls = hidden.rng, list[Box](), list[Control]()
    gfci: int | None = None
    feed = FIRST_FEED
    for at in range(rng.randint(4, 14)):
        way = rng.choice(WAYS) if odd else rng.choice(("single", "single", "chain", "halves"))
        kind, parts = "duplex receptacle", [""]
        mine = rng.sample(branch, 2)
        true = True_(frozenset(mine[:1]))
        hangs_behind: int | None = None
        if way == "chain" and gfci is not None and rng.random() < 0.7:
            true, hangs_behind = True_(hidden.truth[gfci].on, device=gfci), gfci
        elif way == "chain":
            kind, gfci = "ground-fault receptacle", feed
            true = True_(true.on, device=feed)
            hidden.protective = (*hidden.protective, feed)
        elif way == "loop":
            true = True_(frozenset(mine))
        elif way == "two singles":
            kind, true = "240 V appliance", True_(frozenset(mine), across=True)
        elif way == "elsewhere":
            true = True_(frozenset(), outside=True)
        elif way in ("switched", "automatic"):
            kind = "ceiling light"
            by = "hand" if way == "switched" else "photocell"
            controls.append(Control(id=FIRST_CONTROL + at, feeds=(feed,), by=by))
            if way == "automatic":
                hidden.automatic |= {feed}
        elif way == "halves":
            kind, parts = "split receptacle", ["upper", "lower"]
        feeds = []
        for place, part in enumerate(parts):
            own = true if place == 0 else True_(frozenset(mine[1:]))
            hidden.truth[feed] = own
            said = rng.choice(("label", "person", "not said"))
            hangs = _stated(rng, own, hangs_behind, branch, right=right)
            feeds.append(Feed(id=feed, part=part, on=hangs, said_by=said))
            feed += 1
        device = Device(id=FIRST_DEVICE + at, kind=kind, feeds=tuple(feeds))
        boxes.append(Box(id=FIRST_BOX + at, mark=f"B{at + 1}", devices=(device,)))
    return boxes, controls


def _stated(rng: Random, true: True_, hangs_behind: int | None, branch: Sequence[int], *, right: bool) -> Hangs:
    roll = rng.random()
    if roll < 0.4:
        return UNKNOWN
    if roll < 0.55 and not right:
        return on(rng.choice(branch))
    if true.outside:
        return on(elsewhere("the neighbour"))
    if hangs_behind is not None:
        return behind(hangs_behind)
    return on(*sorted(true.on), how="all" if true.across else "any")


# --- an evening -----------------------------------------------------------------------------------------------------


def evening(hidden: Hidden, rounds: int, *, slips: bool = False, solo: bool = False) -> list[dict[str, Any]]:
    """The log of one evening: all on, rounds with some handles off (one at a time if `solo`), all on again.

    With `slips` a ground-fault device may trip or a lamp burn out meanwhile; it stays so to the end.
    """
    home, rng = hidden.home, hidden.rng
    resting = frozenset(one.id for one in home.breakers if one.found.state == "off")
    handles = [one.id for one in home.breakers if one.id not in resting and one.id != hidden.feeder]
    rng.shuffle(handles)
    method = {feed: rng.choice(("two-lead tester", "lamp")) for feed in hidden.truth}
    entries = list(_readings(hidden, resting, method))
    for at in range(rounds):
        if solo and at >= len(handles):
            break
        turned = {handles[at]} if solo else set(rng.sample(handles, max(1, len(handles) // 2)))
        if slips and rng.random() < 0.4:
            _slip(hidden)
        entries += _readings(hidden, resting | _with_tied(home, turned), method)
        if solo and rng.random() < 0.5:
            entries += _readings(hidden, resting, method)
    return [*entries, *_readings(hidden, resting, method)]


def _slip(hidden: Hidden) -> None:
    if hidden.protective and hidden.rng.random() < 0.5:
        hidden.tripped.add(hidden.rng.choice(hidden.protective))
    else:
        hidden.burnt.add(hidden.rng.choice(list(hidden.truth)))


def _with_tied(home: Home, turned: set[int]) -> frozenset[int]:
    groups = {home.breakers[one].tie.group for one in turned if _is_tied(home.breakers[one])}  # type: ignore[union-attr]
    return frozenset(turned | {one.id for one in home.breakers if _is_tied(one) and one.tie.group in groups})  # type: ignore[union-attr]


def _is_tied(one: Breaker) -> bool:
    return one.tie is not None and one.tie.made == "by the factory"


def _readings(hidden: Hidden, off: frozenset[int], method: dict[int, str]) -> Iterable[dict[str, Any]]:
    """One round a way of testing: what the tester, and what a lamp or the thing itself, shows of each feed."""
    by_tester = [feed for feed, way in method.items() if way != "lamp"]
    kinds = {feed.id: device.kind for box in hidden.home.boxes for device in box.devices for feed in device.feeds}
    plugged = [feed for feed, way in method.items() if way == "lamp" and "receptacle" in kinds[feed]]
    itself = [feed for feed, way in method.items() if way == "lamp" and "receptacle" not in kinds[feed]]
    for way, feeds in (("two-lead tester", by_tester), ("lamp plugged in", plugged), ("the fixture itself", itself)):
        yield {
            "kind": "round",
            "off": sorted(off),
            "method": way,
            "date": DAY,
            "tester": {"before": True, "after": True},
            "readings": [_reading(hidden, feed, off, way) for feed in feeds],
        }


def _reading(hidden: Hidden, feed: int, off: frozenset[int], way: str) -> dict[str, Any]:
    by_tester = way == "two-lead tester"
    shows = hidden.hot(feed, off) if by_tester else hidden.works(feed, off)
    says = "live" if shows else "unclear" if feed in hidden.automatic and not by_tester else "dead"
    return {"feed": feed, "says": says, "each_hot": by_tester}


def with_evening(hidden: Hidden, entries: Sequence[dict[str, Any]]) -> Home:
    """The home with this log."""
    return logged(hidden.home, *entries)


__all__ = ["SMALL", "Hidden", "evening", "hidden_home", "with_evening"]
