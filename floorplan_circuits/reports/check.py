"""What `check` says of a home, as text and as JSON. The JSON's form is documented in the project's `shared/`."""

from collections.abc import Iterable, Iterator
from typing import Any

from floorplan_circuits.by_room import hazards_by_room
from floorplan_circuits.findings import BoxFinding, Findings, Hazard
from floorplan_circuits.home.boxes import Feed
from floorplan_circuits.home.kinds import kind_named


def as_json(findings: Findings) -> dict[str, Any]:
    """Return the report as plain values, in a stable order."""
    return {
        "home": findings.home.name,
        "boxes": _boxes(findings),
        "other_hazards": [
            {"about": hazard.named, "room": hazard.room_name, **_hazard(hazard)}
            for hazard in findings.hazards
            if hazard.box is None
        ],
        "never_tested": [_untested(feed, findings) for feed in findings.never_tested],
        "counts": _counts(findings),
    }


def _boxes(findings: Findings) -> list[dict[str, Any]]:
    in_box: dict[int, list[Hazard]] = {}
    for hazard in findings.hazards:
        if hazard.box is not None:
            in_box.setdefault(hazard.box, []).append(hazard)
    return [_box(found, in_box.get(found.box, []), findings) for found in findings.boxes.values()]


def _box(found: BoxFinding, hazards: list[Hazard], findings: Findings) -> dict[str, Any]:
    return {
        "mark": findings.home.boxes[found.box].mark,
        "room": found.room_name,
        "level": found.level_name,
        "breakers": [findings.marks[breaker] for breaker in found.breakers],
        "unknown": found.unknown,
        "hazards": [_hazard(hazard) for hazard in hazards],
    }


def _hazard(hazard: Hazard) -> dict[str, Any]:
    told = {"kind": hazard.kind, "says": hazard.says, "do": hazard.do, "source": hazard.source}
    return told | {"listed": hazard.listed, "set_aside": hazard.set_aside}


def _untested(feed: int, findings: Findings) -> dict[str, str]:
    one = findings.conclusions[feed]
    found = findings.boxes.get(one.box)
    return {
        "box": findings.home.boxes[one.box].mark,
        "room": found.room_name if found else "",
        "level": found.level_name if found else "",
        "part": part_in_words(feed, findings),
    }


def part_in_words(feed: int, findings: Findings) -> str:
    """Return what the feed is of: the device and its part, or a cable without a device."""
    one = findings.conclusions[feed]
    box = findings.home.boxes[one.box]
    record: Feed = next(record for record in box.feeds() if record.id == feed)
    device = next((device for device in box.devices if device.id == one.device), None)
    if device is None:
        return "a cable without a device" + (f" ({record.part})" if record.part else "")
    called = device.name or kind_named(device.kind).label
    return f"{called}, {record.part}" if record.part else called


def _counts(findings: Findings) -> dict[str, int]:
    return {
        "boxes": len(findings.boxes),
        "devices": sum(not device.planned for box in findings.home.boxes for device in box.devices),
        "feeds": len(findings.conclusions),
        "shared_boxes": sum(found.shared for found in findings.boxes.values()),
        "unknown_boxes": sum(found.unknown > 0 for found in findings.boxes.values()),
        "hazards": len(findings.hazards),
        "tested": sum(one.standing == "proved" for one in findings.conclusions.values()),
        "never_tested": len(findings.never_tested),
    }


# --- text -----------------------------------------------------------------------------------------------------------

CAUTION = "A map can be wrong: test before you touch, and prove the tester before and after. Local codes apply."


def as_text(findings: Findings) -> str:
    """Return the report for a person, why a danger matters told once; its last line counts what was never tested.

    What is told with its box alone is left out.
    """
    listed = [hazard for hazard in findings.hazards if hazard.listed]
    return _page(findings, "Worst first:", _hazard_lines(listed, set()))


def as_text_by_room(findings: Findings) -> str:
    """Return the same dangers room by room, as somebody goes through the house who is to mend them."""
    return _page(findings, "Room by room:", _room_lines(findings))


def _page(findings: Findings, order: str, dangers: Iterable[str]) -> str:
    lines = (_title(findings, order), *dangers, "", *_not_opened(findings), CAUTION, _never_tested(findings))
    return "\n".join(lines)


def _title(findings: Findings, order: str) -> str:
    name, boxes = findings.home.name or "This home", _counted(len(findings.boxes), "box", "boxes")
    listed = [hazard for hazard in findings.hazards if hazard.listed]
    if not listed:
        return f"{name}: no danger found among what is recorded ({boxes})."
    dangerous = {thing for hazard in listed for thing in (hazard.box, *hazard.about) if thing in findings.boxes}
    others = sum(hazard.box is None and hazard.room is None for hazard in listed)
    beside = f", and {_counted(others, 'more', 'more')} at panels" if others else ""
    return f"{name}: dangers are known in {len(dangerous)} of {boxes}{beside}. {order}"


def _room_lines(findings: Findings) -> Iterator[str]:
    told = set[str]()
    for room in hazards_by_room(findings):
        yield f"\n{room.place}{f', {room.level}' if room.level else ''}"
        yield from _hazard_lines(room.hazards, told)


def _hazard_lines(some: Iterable[Hazard], told: set[str]) -> Iterator[str]:
    """Yield the lines of hazards; why they matter only where `told` does not have it yet."""
    for hazard in some:
        yield f"\n{hazard.named}  {hazard.says}"
        if hazard.why not in told:
            yield f"    {hazard.why}"
        told.add(hazard.why)
        yield f"    {hazard.do}"
        if hazard.set_aside:
            yield f"    {hazard.set_aside}"


def _not_opened(findings: Findings) -> Iterator[str]:
    closed = sum(not found.opened for found in findings.boxes.values())
    if closed:
        boxes = _counted(closed, "box", "boxes")
        yield f"Nobody has looked in {boxes}, or not since they changed: more may enter than the map shows."


def _never_tested(findings: Findings) -> str:
    return f"{_counted(len(findings.never_tested), 'feed was', 'feeds were')} never tested."


def _counted(count: int, one: str, many: str) -> str:
    return f"{count} {one if count == 1 else many}"
