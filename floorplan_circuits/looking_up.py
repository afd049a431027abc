"""Looking up: rooms, boxes, devices, breakers, panels and levels by a name, a mark or an old label."""

from collections.abc import Iterator
from typing import NamedTuple

from floorplan_circuits.findings import Findings, Subject
from floorplan_circuits.home.kinds import kind_named

MOST_FOUND = 12


class Found(NamedTuple):
    """Something that was looked up: what it is, and how it is told in a list."""

    subject: Subject
    says: str


def look_up(findings: Findings, words: str) -> tuple[Found, ...]:
    """Return what goes by these words, the best first: the whole name, its beginning, a word of it, a part of it.

    Nothing for no words.
    """
    wanted = " ".join(words.lower().split())
    if not wanted:
        return ()
    ranked = [(_rank(name, wanted), place, found) for place, (name, found) in enumerate(_named(findings))]
    best = sorted((one for one in ranked if one[0] is not None), key=lambda one: one[:2])
    return tuple(dict.fromkeys(found for _, _, found in best))[:MOST_FOUND]


def _rank(name: str, wanted: str) -> int | None:
    """Return how well a name fits, 0 the best; None if it does not."""
    low = name.lower()
    if low == wanted:
        return 0
    if low.startswith(wanted):
        return 1
    return 2 if f" {wanted}" in low else 3 if wanted in low else None


def _named(findings: Findings) -> Iterator[tuple[str, Found]]:
    """Yield every name with what goes by it."""
    home = findings.home
    for room in home.rooms:
        yield room.name, Found(Subject("room", room.id), room.name)
    for box in home.boxes:
        within = home.rooms.get(findings.room_of.get(box.id))
        where = within.name if within is not None else "in no room"
        kinds = ", ".join(device.name or kind_named(device.kind).label for device in box.devices)
        found = Found(Subject("box", box.id), " · ".join(part for part in (box.mark, kinds, where) if part))
        called = [name for one in box.devices for name in (one.name, kind_named(one.kind).label)]
        yield from ((name, found) for name in (box.mark, *called) if name)
    for breaker in home.breakers:
        mark, label = findings.marks.get(breaker.id, ""), breaker.wording or breaker.as_found
        found = Found(Subject("breaker", breaker.id), " · ".join(part for part in (f"breaker {mark}", label) if part))
        yield from ((name, found) for name in (mark, breaker.wording, breaker.as_found) if name)
    for panel in home.panels:
        yield panel.name, Found(Subject("panel", panel.id), f"{panel.name} · panel")
