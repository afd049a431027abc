"""Turning on again: which handle before which, and what starts by itself when power is back."""

import re
from collections.abc import Iterator
from typing import NamedTuple

from floorplan_circuits.findings import Findings, ShutOff
from floorplan_circuits.home.critical import kinds
from floorplan_circuits.home.home import FeedPlace, existing_feeds
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.supply.graph import supply_graph
from floorplan_circuits.supply.handles import HANDLE_KINDS
from floorplan_circuits.supply.walks import reached

RUNS = ("pump", "cold", "heating")
"""Kinds of critical loads that run without anybody's hand."""
WORKS_ALONE = ("timer", "photocell", "sensor", "thermostat")


class Loses(NamedTuple):
    """A thing that loses power: where and what it is, and whether somebody called it critical, and why."""

    feed: int
    room: str
    what: str
    critical: str


def loses_power(plan: ShutOff, findings: Findings) -> tuple[Loses, ...]:
    """Return all that is without power while these handles are off: what goes dark, and what is in the boxes."""
    boxes = {*plan.boxes}
    inside = (_in_box(place, findings) for place in existing_feeds(findings.home) if place.box.id in boxes)
    return (*inside, *(Loses(one.feed, one.room, one.what, one.critical) for one in plan.goes_dark))


def _in_box(place: FeedPlace, findings: Findings) -> Loses:
    device, found = place.device, findings.boxes.get(place.box.id)
    what = "a cable" if device is None else device.name or kind_named(device.kind).label
    critical = device.critical if device is not None else ""
    return Loses(place.feed.id, found.room_name if found is not None else "", what, critical)


def mains_first(handles: tuple[int, ...], findings: Findings) -> tuple[int, ...]:
    """Return the handles in the order to turn them on: each after all that feed it, else as they stand."""
    supplies = supply_graph(findings.home).supplies

    def above(handle: int) -> int:
        kind = "breaker" if handle in findings.home.breakers else "main"
        return sum(1 for node in reached(supplies, [(kind, handle)]) if node[0] in HANDLE_KINDS)

    return tuple(sorted(handles, key=above))


def starts_by_itself(losing: tuple[Loses, ...], findings: Findings) -> tuple[str, ...]:
    """Return what may start by itself when power is back, as far as anybody recorded it, each once."""
    worked = {
        feed for control in findings.home.controls if control.by in WORKS_ALONE for feed in control.feeds
    }  # fmt: skip
    return tuple(dict.fromkeys(_called(one) for one in losing if one.feed in worked or _runs(one)))


def _called(one: Loses) -> str:
    return f"{one.what} ({one.room})" if one.room else one.what


def _runs(one: Loses) -> bool:
    told = set(re.findall(r"\w+", f"{one.what} {one.critical}".lower()))
    return any(word in told for word in _words())


def _words() -> Iterator[str]:
    return (word for kind in kinds() if kind.name in RUNS for word in kind.words)
