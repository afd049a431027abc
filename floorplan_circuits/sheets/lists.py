"""The lists beside the plan: boxes with more than one circuit, boxes without a place, what was never tested."""

from collections import Counter
from collections.abc import Iterable, Sequence

from floorplan_circuits.drawing.frame import Frame, is_built
from floorplan_circuits.drawing.ink import Group, Mark, Text
from floorplan_circuits.drawing.lettering import cap_height, width, wrap
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.plan_boxes import contents, plates_of
from floorplan_circuits.drawing.plates import (
    BOX_PLATE_SIZE,
    Plate,
    box_plate,
    box_plate_width,
    plate_row,
    row_width,
    text_height,
)
from floorplan_circuits.findings import Findings
from floorplan_circuits.findings.places import place_of
from floorplan_circuits.home.boxes import Box
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.sheets.furniture import BODY_SIZE, text_lines
from floorplan_circuits.sheets.sections import Block, Section, text_block

BLOCK_GAP = 1.6
PLATE_PITCH = 4.6
PLATE_MIDDLE = 2.4
"""mm from a block's top to the middle of its first row of plates."""
NONE_SHARED = "None found among what is recorded. A box that nobody opened may still hold one."

Scope = frozenset[int | None]
"""The levels a list is about; None stands for boxes on no level."""


def boxes_in(findings: Findings, scope: Scope | None) -> list[Box]:
    """Return the boxes on the levels of the scope, all of them for None; those only planned are left out."""
    return [box for box in findings.home.boxes if (scope is None or box.level in scope) and is_built(box)]


# --- boxes ----------------------------------------------------------------------------------------------------------


def shared_boxes(findings: Findings, wide: float, theme: Theme, scope: Scope | None = None) -> Section:
    """Return the list of shared boxes, worst first."""
    rank = {hazard.box: place for place, hazard in enumerate(findings.hazards) if hazard.kind == "shared box"}
    found = [box for box in boxes_in(findings, scope) if _is_shared(box, findings)]
    found.sort(key=lambda box: rank.get(box.id, len(rank)))
    blocks = [_box_block(box, findings, wide, theme) for box in found]
    return Section(
        "More than one circuit", tuple(blocks or [text_block(wrap(NONE_SHARED, wide, BODY_SIZE), theme)]), wide
    )


def not_placed(findings: Findings, wide: float, theme: Theme, scope: Scope | None = None) -> Section:
    """Return the boxes that have no place on the plan yet, with their circuits; no blocks where all have one."""
    found = [box for box in boxes_in(findings, scope) if box.at is None or box.level is None]
    return Section("Not placed yet", tuple(_box_block(box, findings, wide, theme) for box in found), wide)


def no_room(findings: Findings, wide: float, theme: Theme, boxes: Iterable[int]) -> Section:
    """Return the boxes that are on the plan without their circuits, for want of room there."""
    found = [findings.home.boxes[box] for box in boxes]
    return Section("No room on the plan", tuple(_box_block(box, findings, wide, theme) for box in found), wide)


def _is_shared(box: Box, findings: Findings) -> bool:
    found = findings.boxes.get(box.id)
    return found is not None and found.shared


def _box_block(box: Box, findings: Findings, wide: float, theme: Theme) -> Block:
    """Draw a box's own plate or mark, the plates of its circuits, and where it is, on one line if they fit."""
    marks, lead_wide = _lead(box, findings, theme)
    rows = _rows(plates_of(box, Frame(findings, box.level or 0, 1.0, theme)), wide, wide - lead_wide - 2)
    x, y = lead_wide + 2, PLATE_MIDDLE
    for at, row in enumerate(rows):
        x, y = (0.0, y + PLATE_PITCH) if at else (x, y)
        marks.append(plate_row(row, (x + row_width(row) / 2, y), theme))
    x += row_width(rows[-1]) + 3
    where = _where(box, findings)
    if x + width(where, BODY_SIZE) <= wide:
        marks.append(Text((x, y + 1.0), where, BODY_SIZE, False, theme.ink))
        return Block(Group(tuple(marks)), y + 3.2)
    lines = wrap(where, wide, BODY_SIZE)
    marks += text_lines(lines, 0, y + 2.3, BODY_SIZE, theme)
    return Block(Group(tuple(marks)), y + 2.3 + len(lines) * text_height(BODY_SIZE) + BLOCK_GAP)


def _lead(box: Box, findings: Findings, theme: Theme) -> tuple[list[Mark], float]:
    found = findings.boxes.get(box.id)
    if found is not None and found.shared:
        wide = box_plate_width(box.mark, found.tied)
        return [box_plate(box.mark, found, (wide / 2, PLATE_MIDDLE), theme)], wide
    baseline = PLATE_MIDDLE + cap_height(BOX_PLATE_SIZE) / 2
    return [Text((0, baseline), box.mark, BOX_PLATE_SIZE, True, theme.ink)], width(box.mark, BOX_PLATE_SIZE, True)


def _rows(plates: Sequence[Plate], wide: float, first: float) -> list[list[Plate]]:
    """Part plates into rows no wider than the column; the first, empty if none fits, stands behind the box's mark."""
    rows: list[list[Plate]] = [[]]
    for one in plates:
        room = first if len(rows) == 1 else wide
        if row_width([*rows[-1], one]) > room and (rows[-1] or len(rows) == 1):
            rows.append([])
        rows[-1].append(one)
    return rows


def _where(box: Box, findings: Findings) -> str:
    return ": ".join(words for words in (_room(box, findings), contents(box)) if words)


def _room(box: Box, findings: Findings) -> str:
    return place_of(box.id, findings) or "Not placed"


# --- never tested ---------------------------------------------------------------------------------------------------


def never_tested(findings: Findings, wide: float, theme: Theme, scope: Scope | None = None) -> Section:
    """Return what no test ever proved, by room."""
    rooms = _untested_by_room(findings, scope)
    widest = max((width(room, BODY_SIZE, True) for room in rooms), default=0.0)
    label_wide = min(widest, wide * 0.38) + 2
    blocks = [_room_block(room, items, wide, label_wide, theme) for room, items in rooms.items()]
    if not blocks:
        words = "Everything recorded was tested." if findings.conclusions else "Nothing is recorded here."
        blocks = [text_block(wrap(words, wide, BODY_SIZE), theme)]
    return Section("Never tested", tuple(blocks), wide)


def _untested_by_room(findings: Findings, scope: Scope | None) -> dict[str, list[str]]:
    """Return, by room, the words for each thing that was never tested, several of one kind counted.

    A device of which several feeds were never tested is one thing all the same.
    """
    boxes = {box.id: box for box in boxes_in(findings, scope)}
    counted: dict[str, Counter[tuple[str, str]]] = {}
    told = set[int]()
    for feed in findings.never_tested:
        one = findings.conclusions[feed]
        if one.box in boxes and one.device not in told:
            told |= {one.device} if one.device is not None else set()
            box = boxes[one.box]
            counted.setdefault(_room(box, findings), Counter())[_called(box, one.device)] += 1
    return {
        room: [_counted(one, many, count) for (one, many), count in items.items()] for room, items in counted.items()
    }


def _called(box: Box, device: int | None) -> tuple[str, str]:
    """Return what one and what several of a kind are called; a cable without a device by its box."""
    found = next((one for one in box.devices if one.id == device), None)
    if found is None:
        return f"cable in {box.mark}", f"cables in {box.mark}"
    kind = kind_named(found.kind)
    return (found.name, found.name) if found.name else (kind.label, kind.plural)


def _counted(one: str, many: str, count: int) -> str:
    return one if count == 1 or one == many else f"{count} {many}"


def _room_block(room: str, items: Sequence[str], wide: float, label_wide: float, theme: Theme) -> Block:
    names = wrap(room, label_wide - 1.5, BODY_SIZE, True)
    lines = wrap(", ".join(items), wide - label_wide, BODY_SIZE)
    marks = text_lines(names, 0, 0, BODY_SIZE, theme, bold=True) + text_lines(lines, label_wide, 0, BODY_SIZE, theme)
    return Block(Group(tuple(marks)), max(len(names), len(lines)) * text_height(BODY_SIZE) + 0.7)
