"""Small houses with a log: a receptacle a box, three breakers, and the entries of an evening with a tester."""

from collections.abc import Mapping, Sequence
from typing import Any

from floorplan_circuits.find import find
from floorplan_circuits.findings import Conclusion, Findings
from floorplan_circuits.home.boxes import Box, Device, Feed, Hangs
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Breaker, Panel, Source
from floorplan_circuits.home.record import change
from floorplan_circuits.home.table import Table
from floorplan_circuits.supply.graph import supply_graph
from floorplan_circuits.survey.cases import Case, Evidence, case_of
from floorplan_circuits.survey.log_book import LogBook
from floorplan_circuits.survey.proof import Bench, Proof, proofs
from floorplan_circuits.survey.statements import Stated, statements
from tests.supply.wiring import UNKNOWN, breaker, main, panel

A, B, C = 101, 102, 103
"""The breakers of the panel."""
MAIN, PANEL = 200, 1
FEED = 400
DAY = "2026-03-14"
TESTER = "two-lead tester"
FIRST_ENTRY = 60_000


def box_of(feed: int) -> int:
    return 20_000 + feed


def device_of(feed: int) -> int:
    return 10_000 + feed


def house(
    feeds: Mapping[int, Hangs] | None = None,
    *entries: Mapping[str, Any],
    kind: str = "duplex receptacle",
    breakers: Sequence[Breaker] | None = None,
    panels: Sequence[Panel] | None = None,
    sources: Sequence[Source] = (),
    feed_fields: Mapping[str, Any] | None = None,
    **fields: Any,
) -> Home:
    """A box with one device for each feed (one feed of which nobody knows, by default), and a log."""
    hanging = {FEED: UNKNOWN} if feeds is None else feeds
    boxes = [_box(feed, hangs, kind, feed_fields or {}) for feed, hangs in hanging.items()]
    standing = [breaker(number, opens="hot") for number in (A, B, C)] if breakers is None else breakers
    tables = {
        "panels": Table([panel(PANEL, spaces=200, mains=(main(MAIN),))] if panels is None else panels),
        "breakers": Table([change(one, poles=_spaced(one, at)) for at, one in enumerate(standing)]),
        "sources": Table(sources),
        "boxes": Table(boxes),
    }
    home = Home(next_id=FIRST_ENTRY, **{**tables, **fields})
    return logged(home, *entries)


def _spaced(one: Breaker, at: int) -> tuple[Any, ...]:
    return tuple(change(pole, space=4 * at + step + 1) for step, pole in enumerate(one.poles))


def _box(feed: int, hangs: Hangs, kind: str, fields: Mapping[str, Any]) -> Box:
    device = Device(id=device_of(feed), kind=kind, feeds=(Feed(**{"id": feed, "on": hangs, **fields}),))
    return Box(id=box_of(feed), mark=f"B{feed}", devices=(device,))


def logged(home: Home, *entries: Mapping[str, Any]) -> Home:
    """The home with these entries at the end of its log, their ids counted on."""
    numbered = [{"id": home.next_id + at, **entry} for at, entry in enumerate(entries)]
    raw = home.model_dump()["log"]
    done = Home.model_validate({"log": [*raw, *numbered]}, strict=False).log
    return change(home, log=done, next_id=home.next_id + len(numbered))


# --- entries --------------------------------------------------------------------------------------------------------


def went(says: str = "live", *off: int, feed: int = FEED, each_hot: bool = False, **fields: Any) -> dict[str, Any]:
    """A round in which one feed was read while these handles were off."""
    reading = {"feed": feed, "says": says, "each_hot": each_hot}
    tester = {"before": True, "after": True}
    return {
        "kind": "round",
        "off": off,
        "method": TESTER,
        "date": DAY,
        "tester": tester,
        "readings": [reading],
    } | fields


def a_test(*handle: int, resting: tuple[int, ...] = (), **fields: Any) -> tuple[dict[str, Any], ...]:
    """Live with all as usual, dead with one handle off, live again."""
    usual = went("live", *resting, **fields)
    return usual, went("dead", *resting, *handle, **fields), usual


def changed(*boxes: int, panels: tuple[int, ...] = (), **fields: Any) -> dict[str, Any]:
    return {"kind": "change", "what": "rewired", "boxes": boxes, "panels": panels} | fields


def struck(entry: int) -> dict[str, Any]:
    return {"kind": "struck", "entry": entry}


def traced(handle: int, feed: int = FEED, **fields: Any) -> dict[str, Any]:
    """A signal tracer pointed to a handle, in the two passes that it takes."""
    return {"kind": "traced", "feed": feed, "handle": handle, "date": DAY, "passes": 2} | fields


def opened(box: int, *feeds: int | None) -> dict[str, Any]:
    return {"kind": "opened", "box": box, "cables": [{"feed": feed} for feed in feeds]}


def trouble(handle: int, what: str = "did not open") -> dict[str, Any]:
    return {"kind": "trouble", "handle": handle, "what": what, "date": "2026-04-01"}


# --- what follows ---------------------------------------------------------------------------------------------------


def evidence_of(home: Home) -> Evidence:
    return Evidence.of(home, supply_graph(home), LogBook(home))


def stated_of(home: Home, feed: int = FEED) -> Stated:
    return statements(home, supply_graph(home))[feed]


def case(home: Home, feed: int = FEED) -> Case:
    stated = stated_of(home, feed)
    return case_of(stated.chain[0], stated, evidence_of(home))


def proofs_of(home: Home, feed: int = FEED) -> list[Proof]:
    stated = stated_of(home, feed)
    return proofs(stated.chain[0], stated, Bench.of(home, LogBook(home)))


def known(home: Home, feed: int = FEED) -> Conclusion:
    return found(home).conclusions[feed]


def found(home: Home) -> Findings:
    return find(home)
