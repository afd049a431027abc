"""The lists of a shut-off's sheet: when to stop, what stays live, is not known, goes dark, and what else would do."""

from collections.abc import Iterable, Iterator, Sequence

from floorplan_circuits.drawing.ink import Group, Mark, Pen, Shape, moved, rectangle
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.phrases import listed
from floorplan_circuits.findings import Findings, GoesDark, ShutOff, Step
from floorplan_circuits.findings.places import OUTDOORS, is_outdoors
from floorplan_circuits.sheets.furniture import BODY_SIZE
from floorplan_circuits.sheets.paragraph import paragraph
from floorplan_circuits.sheets.sections import Block, Section

INDENT, BULLET, LINE_GAP = 3.0, 1.1, 0.7
NO_ROOM_NAME = "In no room"
ALL_OF = "All that is recorded in"
MANY_IN_ROOM = 4
"""Of so many kinds of things that go dark in a room its name says it shorter, if nothing in it stays live."""


def when_to_stop(steps: Sequence[Step], wide: float, theme: Theme) -> Section:
    """Return when to stop and call a licensed electrician."""
    calls = [step for step in steps if step.kind == "call"]
    lines = [words for step in calls for words in step.more]
    title = "Stop, and call a licensed electrician, for"
    return Section(title, tuple(_item("", words, wide, theme) for words in lines), wide)


def stays_live(plan: ShutOff, wide: float, theme: Theme) -> Section:
    """Return what stays live with all of these handles off; that the supply side does stands under each panel."""
    return Section("Stays live", tuple(_item("", words, wide, theme) for words in plan.stays_live), wide)


def not_known(plan: ShutOff, wide: float, theme: Theme) -> Section:
    """Return what nobody knows of these boxes; no blocks for nothing."""
    return Section("Not known: live until tested", tuple(_item("", words, wide, theme) for words in plan.unknown), wide)


def goes_dark(plan: ShutOff, findings: Findings, wide: float, theme: Theme, dense: bool = False) -> Section:
    """Return what goes dark: what is critical first, a line each, then room by room; last, what else would do.

    Where room is short (`dense`) the rooms run on in one paragraph.
    """
    blocks = [_item(*_critical(one, findings), wide, theme) for one in plan.goes_dark if one.critical]
    rooms = _by_room(plan.goes_dark, findings)
    if dense and rooms:
        whole = _wholly_dark(plan.goes_dark, findings)
        rooms = [(ALL_OF, ", ".join(whole)), *(one for one in rooms if one[0] not in whole)] if whole else rooms
        blocks.append(_item("", " ".join(f"{room}: {words}." for room, words in rooms), wide, theme))
    else:
        blocks += [_item(f"{room}:", words, wide, theme) for room, words in rooms]
    nothing = "Nothing else, as far as anybody recorded it."
    blocks = blocks or [_item("", nothing, wide, theme)]
    return Section("Goes dark", (*blocks, *_instead(plan, findings, wide, theme)), wide)


def _instead(plan: ShutOff, findings: Findings, wide: float, theme: Theme) -> Iterator[Block]:
    """Yield what else would do, with what it costs: nothing does for a box that stays shut all the same."""
    for one in () if plan.stay_shut else plan.choices:
        critical = f", {one.critical} of them critical" if one.critical else ""
        marks = {handle: findings.marks.get(handle, "?") for handle in one.handles}
        handles = listed(
            [mark if handle in findings.home.breakers else f"the {mark}" for handle, mark in marks.items()]
        )
        dark = "1 feed goes dark" if one.dark == 1 else f"{one.dark} feeds go dark"
        yield _item("", f"Or turn off {handles} instead: {dark}{critical}.", wide, theme)


def _place(one: GoesDark, findings: Findings) -> str:
    box = findings.home.boxes.get(one.box)
    return OUTDOORS if box is not None and is_outdoors(box, one.room) else one.room or NO_ROOM_NAME


def _critical(one: GoesDark, findings: Findings) -> tuple[str, str]:
    where = f"{_place(one, findings)}: "
    return f"{where}{one.what}", f"({one.critical})" if one.critical.lower() != one.what.lower() else ""


def _by_room(dark: Iterable[GoesDark], findings: Findings) -> list[tuple[str, str]]:
    """Return room by room what goes dark that is not critical, several of a kind counted."""
    rooms: dict[str, dict[str, int]] = {}
    for one in dark:
        if not one.critical:
            things = rooms.setdefault(_place(one, findings), {})
            things[one.what] = things.get(one.what, 0) + 1
    return [
        (room, "; ".join(f"{what} ({count} ×)" if count > 1 else what for what, count in things.items()))
        for room, things in rooms.items()
    ]


def _wholly_dark(dark: Sequence[GoesDark], findings: Findings) -> list[str]:
    """Return the rooms with many things in which all that is recorded goes dark."""
    going, every = {one.feed for one in dark}, findings.conclusions.values()
    lasting = [one.box for one in every if one.feed not in going and one.box in findings.boxes]
    staying = {findings.boxes[box].room_name for box in lasting}
    kinds: dict[str, set[str]] = {}
    for one in dark:
        kinds.setdefault(one.room, set()).add(one.what)
    return [room for room, what in kinds.items() if room and room not in staying and len(what) >= MANY_IN_ROOM]


def _item(bold: str, plain: str, wide: float, theme: Theme) -> Block:
    """Return one line of a list with a small square before it, in as many lines as it takes."""
    told = paragraph(bold, plain, wide - INDENT, BODY_SIZE, theme.ink)
    square = Shape(rectangle(0.2, 1.3, BULLET, BULLET), theme.ink, Pen(0.1, theme.ink))
    marks: tuple[Mark, ...] = (square, *(moved(mark, INDENT, 0) for mark in told.marks))
    return Block(Group(marks), told.height + LINE_GAP)
