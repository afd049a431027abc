"""`find(home) -> Findings`: everything that can be known about a home, computed one way, nothing stored.

What has the very same inputs as in earlier findings is carried over, so that `find(h, before) == find(h)` always.
"""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TypeGuard

from floorplan_circuits.directory.wording import lines
from floorplan_circuits.findings import BoxFinding, Conclusion, Findings, PanelFinding, Zone
from floorplan_circuits.geometry.colouring import colours
from floorplan_circuits.geometry.nearness import near_boxes
from floorplan_circuits.geometry.rooms import room_of_boxes, room_shapes
from floorplan_circuits.geometry.walls import walls
from floorplan_circuits.geometry.zones import divide
from floorplan_circuits.hazards.all_hazards import hazards
from floorplan_circuits.home.boxes import Box
from floorplan_circuits.home.building import Room
from floorplan_circuits.home.home import Home, existing_feeds
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.supply.graph import supply_graph
from floorplan_circuits.supply.numbering import marks, panel_finding, reading_order
from floorplan_circuits.survey.boxes import Survey, box_findings, placed_again
from floorplan_circuits.survey.conclusions import conclusions, never_proved
from floorplan_circuits.survey.log_book import LogBook
from floorplan_circuits.survey.statements import statements
from floorplan_circuits.survey.troubles import keep_off

SETTLED = ("proved", "traced")
SAME_ROOM, SAME_BOX = 1, 2


def find(home: Home, before: Findings | None = None) -> Findings:
    """Return all findings about `home`; `before` are any earlier findings, whose unchanged parts are carried over."""
    drawn = _drawn(home, before)
    book = LogBook(home)
    surveyed = _surveyed(home, before, drawn, book)
    known, boxes = surveyed.conclusions, surveyed.boxes
    return replace(
        surveyed,
        zones=_zones(home, known, drawn.room_of),
        hazards=hazards(boxes, known, drawn.marks, keep_off(home, book)),
        lines=lines(home, known, boxes),
        colours=_colours(home, known, boxes),
        evidence_to=book.last_date()[:10],
    )


def _surveyed(home: Home, before: Findings | None, drawn: Findings, book: LogBook) -> Findings:
    """Return what is known of every feed and what enters every box. Where boxes only moved, that is what it was."""
    if before is not None and _same_wiring(before, home):
        boxes = placed_again(before.boxes, home, drawn.room_of)
        return replace(drawn, conclusions=before.conclusions, boxes=boxes, never_tested=before.never_tested)
    graph = supply_graph(home)
    stated = statements(home, graph)
    known = conclusions(home, graph, book, stated)
    order = {breaker: place for place, breaker in enumerate(reading_order(home))}
    return replace(
        drawn,
        conclusions=known,
        boxes=box_findings(Survey(home, book, known, stated, drawn.room_of, order)),
        never_tested=never_proved(home, book, stated, known),
    )


def _same_wiring(before: Findings, home: Home) -> bool:
    """Tell whether nothing changed that a conclusion could depend on: of a box, only where it is may have."""
    if not _same(before, home, "controls", "panels", "breakers", "sources", "log", "system"):
        return False
    was, now = before.home.boxes.rows, home.boxes.rows
    return len(was) == len(now) and all(a is b or _same_contents(a, b) for a, b in zip(was, now, strict=True))


def _same_contents(a: Box, b: Box) -> bool:
    return a.id == b.id and a.devices is b.devices and a.passing is b.passing and a.mount == b.mount


def _drawn(home: Home, before: Findings | None) -> Findings:
    """Return what follows from the drawing and the panels alone: what an edit elsewhere leaves as it was."""
    return Findings(
        home=home,
        marks=before.marks if _same(before, home, "panels", "breakers") else marks(home),
        rooms=before.rooms if _same(before, home, "rooms") else room_shapes(home),
        room_of=before.room_of if _same(before, home, "rooms", "boxes") else room_of_boxes(home),
        near=before.near if _same(before, home, "boxes") else near_boxes(home),
        walls=before.walls if _same(before, home, "rooms") else walls(home),
        panels=before.panels if _same(before, home, "panels", "breakers", "system") else _panels(home),
    )


def _same(before: Findings | None, home: Home, *fields: str) -> TypeGuard[Findings]:
    """Tell whether the named fields are the very objects that `before` was computed from."""
    return before is not None and all(getattr(home, name) is getattr(before.home, name) for name in fields)


def _panels(home: Home) -> dict[int, PanelFinding]:
    return {panel.id: panel_finding(home, panel) for panel in home.panels}


# --- zones and colours ----------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Load:
    """What a zone is made from: where it is, the breaker it hangs on (0 for unknown), and how well that is known."""

    at: tuple[int, int]
    breaker: int
    settled: bool
    is_switch: bool


def _zones(home: Home, known: Mapping[int, Conclusion], room_of: Mapping[int, int | None]) -> tuple[Zone, ...]:
    """Divide each room among the circuits of its devices."""
    inside: dict[int, list[_Load]] = {}
    devices = Counter[int]()
    for place in existing_feeds(home):
        room, one = room_of.get(place.box.id), known[place.feed.id]
        breaker = one.breakers[0] if one.breakers and one.standing != "unknown" else 0
        devices[breaker] += 1
        if room is not None and place.box.at is not None and place.device is not None:
            is_switch = kind_named(place.device.kind).group == "switch"
            load = _Load(place.box.at, breaker, bool(breaker) and one.standing in SETTLED, is_switch)
            inside.setdefault(room, []).append(load)
    lone = frozenset(breaker for breaker, count in devices.items() if breaker and count == 1)
    return tuple(zone for room in home.rooms if room.id in inside for zone in _zones_of(room, inside[room.id], lone))


def _zones_of(room: Room, loads: Sequence[_Load], lone: frozenset[int]) -> Iterator[Zone]:
    """Yield the zones of one room by its loads, by switches where it has no other; a lone device takes no area."""
    loads = [load for load in loads if not load.is_switch] or loads
    loads = [load for load in loads if load.breaker not in lone] or loads
    places = tuple((load.at, load.breaker) for load in loads)
    for breaker, rings in divide(room.outline, places).items():
        settled = all(load.settled for load in loads if load.breaker == breaker)
        yield Zone(room.id, breaker or None, rings, settled)


def _colours(home: Home, known: Mapping[int, Conclusion], boxes: Mapping[int, BoxFinding]) -> dict[int, int]:
    """Give each breaker that feeds something a place in the palette, in order of their ids."""
    in_room: dict[int, set[int]] = {}
    used = Counter[int]()
    for found in boxes.values():
        used.update(found.breakers)
        if found.room is not None:
            in_room.setdefault(found.room, set()).update(found.breakers)
    meets: dict[tuple[int, int], int] = {}
    for group in in_room.values():
        meets.update(dict.fromkeys(_pairs(group), SAME_ROOM))
    for found in boxes.values():
        meets.update(dict.fromkeys(_pairs(set(found.breakers)), SAME_BOX))
    given = colours(sorted(home.breakers.ids()), meets)  # all of them, so that a first device moves no other's colour
    return {breaker: place for breaker, place in given.items() if used[breaker]}


def _pairs(group: set[int]) -> list[tuple[int, int]]:
    ordered = sorted(group)
    return [(a, b) for place, a in enumerate(ordered) for b in ordered[place + 1 :]]
