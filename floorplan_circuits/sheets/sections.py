"""The lists beside the plan: shared boxes, how to read the map, what was never tested. Each flows down a column."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from floorplan_circuits.drawing.frame import Frame
from floorplan_circuits.drawing.ink import Group, Mark, Pen, Shape, Text, moved, polyline, rectangle
from floorplan_circuits.drawing.lettering import fits, width, wrap
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.plan_boxes import plates_of
from floorplan_circuits.drawing.plan_building import fill
from floorplan_circuits.drawing.plates import (
    Plate,
    box_plate,
    box_plate_width,
    plate,
    plate_row,
    row_width,
    text_height,
)
from floorplan_circuits.drawing.symbols import bounds as symbol_bounds
from floorplan_circuits.drawing.symbols import stamp
from floorplan_circuits.findings import BoxFinding, Findings, Standing
from floorplan_circuits.home.boxes import Feed
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.sheets.furniture import BODY_SIZE, section_head, text_lines

HEAD = 6.4
BLOCK_GAP = 1.6
ROOM_SIZE = 8.2


@dataclass(frozen=True, slots=True)
class Block:
    """A piece of a section that is not parted: its ink from its own top left corner, and its height in mm."""

    ink: Group
    height: float


@dataclass(frozen=True, slots=True)
class Section:
    """A titled list; `blocks` were made for the width of its column."""

    title: str
    blocks: tuple[Block, ...]
    width: float

    @property
    def height(self) -> float:
        """Height of the whole list in mm."""
        return HEAD + sum(block.height for block in self.blocks)


def flow(section: Section, height: float) -> tuple[tuple[Block, ...], tuple[Block, ...]]:
    """Part a section's blocks into those that fit `height` mm, room for 'and n more' kept, and the rest."""
    if section.height <= height + 0.01:
        return section.blocks, ()
    used, taken = HEAD + text_height(BODY_SIZE) + 0.6, 0
    for block in section.blocks:
        used += block.height
        if used > height:
            break
        taken += 1
    return section.blocks[:taken], section.blocks[taken:]


# --- more than one circuit ------------------------------------------------------------------------------------------


def shared_boxes(findings: Findings, wide: float, theme: Theme, level: int | None = None) -> Section:
    """Return the list of shared boxes, of one level or of all, worst first."""
    order = [hazard.box for hazard in findings.hazards if hazard.kind == "shared box"]
    boxes = [findings.boxes[box] for box in order if level is None or findings.home.boxes[box].level == level]
    blocks = [_shared_block(found, findings, wide, theme) for found in boxes]
    if not blocks:
        lines = wrap("None found among what is recorded. A box that nobody opened may still hold one.", wide, BODY_SIZE)
        blocks = [_text_block(lines, theme)]
    return Section("More than one circuit", tuple(blocks), wide)


def _shared_block(found: BoxFinding, findings: Findings, wide: float, theme: Theme) -> Block:
    box = findings.home.boxes[found.box]
    frame = Frame(findings, box.level or 0, 1.0, theme)
    plates, plate_wide = plates_of(box, frame), box_plate_width(box.mark, found.tied)
    row = row_width(plates)
    marks: list[Mark] = [box_plate(box.mark, found, (plate_wide / 2, 2.4), theme)]
    beside = plate_wide + 2 + row <= wide
    row_x, row_y = (plate_wide + 2 + row / 2, 2.4) if beside else (row / 2, 7.0)
    marks.append(plate_row(plates, (row_x, row_y), theme))
    below = row_y + 2.3
    where = _where(found, findings)
    inline = beside and plate_wide + row + 5 + width(where, BODY_SIZE) <= wide
    if inline:
        marks.append(Text((plate_wide + row + 5, 3.4), where, BODY_SIZE, False, theme.ink))
        return Block(Group(tuple(marks)), below + 0.9)
    shown, _ = fits((where,), wide, BODY_SIZE)
    marks += text_lines(tuple(shown), 0, below, BODY_SIZE, theme)
    return Block(Group(tuple(marks)), below + text_height(BODY_SIZE) + BLOCK_GAP)


def _where(found: BoxFinding, findings: Findings) -> str:
    box = findings.home.boxes[found.box]
    kinds = ", ".join(device.name or kind_named(device.kind).label for device in box.devices)
    place = found.room_name or found.level_name
    return ": ".join(words for words in (place, kinds) if words)


# --- never tested ---------------------------------------------------------------------------------------------------


def never_tested(findings: Findings, wide: float, theme: Theme, level: int | None = None) -> Section:
    """Return what no test ever proved, by room."""
    rooms = _untested_by_room(findings, level)
    label_wide = min(max((width(room, ROOM_SIZE, True) for room in rooms), default=0.0), wide * 0.38) + 2
    blocks = [_room_block(room, items, wide, label_wide, theme) for room, items in rooms.items()]
    if not blocks:
        blocks = [_text_block(("Everything recorded was tested.",), theme)]
    return Section("Never tested", tuple(blocks), wide)


def _untested_by_room(findings: Findings, level: int | None) -> dict[str, list[str]]:
    home, counted = findings.home, dict[str, Counter[tuple[str, str]]]()
    for feed in findings.never_tested:
        one = findings.conclusions[feed]
        box, found = home.boxes[one.box], findings.boxes.get(one.box)
        if level is not None and box.level != level:
            continue
        device = next((device for device in box.devices if device.id == one.device), None)
        kind = kind_named(device.kind) if device else None
        if device is None or kind is None:
            words = (f"cable in {box.mark}", f"cables in {box.mark}")
        elif device.name:
            words = (device.name, device.name)
        else:
            words = (kind.label, kind.plural)
        room = (found.room_name if found else "") or (found.level_name if found else "") or "Not placed"
        counted.setdefault(room, Counter())[words] += 1
    return {
        room: [_counted(one, many, count) for (one, many), count in items.items()] for room, items in counted.items()
    }


def _counted(one: str, many: str, count: int) -> str:
    return one if count == 1 or one == many else f"{count} {many}"


def _room_block(room: str, items: Sequence[str], wide: float, label_wide: float, theme: Theme) -> Block:
    names = wrap(room, label_wide - 1.5, ROOM_SIZE, True)
    lines = wrap(", ".join(items), wide - label_wide, BODY_SIZE)
    marks = text_lines(names, 0, 0, ROOM_SIZE, theme, bold=True) + text_lines(lines, label_wide, 0, BODY_SIZE, theme)
    return Block(Group(tuple(marks)), max(len(names), len(lines)) * text_height(BODY_SIZE) + 0.7)


# --- how to read it -------------------------------------------------------------------------------------------------

KNOWN: tuple[tuple[Standing, str], ...] = (
    ("proved", "tested"),
    ("traced", "a tracer points to it"),
    ("suggested", "rounds suggest it"),
    ("claimed", "only a label or person says so"),
    ("expired", "tested before a change"),
    ("unknown", "nobody knows"),
    ("contradicted", "tests disagree"),
)
Row = tuple[Group, str]
"""What is drawn about the origin, and its words."""
LEGEND_ROW, LEGEND_COLUMN, LEGEND_SIZE = 4.3, 41.0, 7.5


def how_to_read(findings: Findings, wide: float, theme: Theme, level: int) -> Section:
    """Return the legend of what this level shows: symbols, plates, floors."""
    rows = [
        *_symbol_rows(findings, level, theme),
        *_floor_rows(findings, level, theme),
        *_plate_rows(findings, level, theme),
    ]
    columns = max(1, int(wide / LEGEND_COLUMN))
    column_wide, high = wide / columns, -(-len(rows) // columns)
    lines = [[rows[at] for at in range(line, len(rows), high)] for line in range(high)]
    blocks = [_legend_line(line, column_wide, theme) for line in lines]
    foot = wrap("Colour is what the devices are on, not what runs inside walls, floor or ceiling.", wide, LEGEND_SIZE)
    marks = tuple(text_lines(foot, 0, 0.6, LEGEND_SIZE, theme))
    blocks.append(Block(Group(marks), len(foot) * text_height(LEGEND_SIZE) + 1.6))
    return Section("How to read it", tuple(blocks), wide)


def _legend_line(rows: Sequence[Row], column_wide: float, theme: Theme) -> Block:
    marks: list[Mark] = []
    middle = LEGEND_ROW / 2
    for at, (drawn, words) in enumerate(rows):
        x = at * column_wide
        marks.append(moved(drawn, x + 5.0, middle))
        shown, _ = fits((words,), column_wide - 11.5, LEGEND_SIZE)
        marks.append(Text((x + 11, middle + 0.95), shown[0], LEGEND_SIZE, False, theme.ink))
    return Block(Group(tuple(marks)), LEGEND_ROW)


def _symbol_rows(findings: Findings, level: int, theme: Theme) -> Iterator[Row]:
    """Yield each symbol used on the level, in the order of the catalogue, centred on the origin."""
    home = findings.home
    kinds = [kind_named(device.kind) for box in home.boxes if box.level == level for device in box.devices]
    names = dict.fromkeys((kind.symbol, kind.label) for kind in kinds)
    used = dict(reversed(names))
    for symbol, label in reversed(used.items()):
        yield _centred(symbol, theme), label
    if any(panel.level == level and panel.at for panel in home.panels):
        yield _centred("panel", theme, size=0.75), "panel: you stand here"


def _centred(symbol: str, theme: Theme, size: float = 1.0) -> Group:
    radius = 1.45 * size
    left, top, right, bottom = symbol_bounds(symbol, (0, 0), 0, radius)
    at = (-(left + right) / 2, -(top + bottom) / 2)
    return stamp(symbol, at, 0, theme.ink, theme.paper, radius=radius)


def _plate_rows(findings: Findings, level: int, theme: Theme) -> Iterator[Row]:
    boxes = {box.id for box in findings.home.boxes if box.level == level}
    used = {one.standing for one in findings.conclusions.values() if one.box in boxes}
    for standing, words in KNOWN:
        if standing in used:
            yield plate(Plate("?" if standing == "unknown" else "9", standing), (0, 0), theme), words
    if any(findings.conclusions[feed.id].box in boxes for feed in _passing(findings)):
        yield plate(Plate("9", "claimed", passing=True), (0, 0), theme), "passes through"


def _passing(findings: Findings) -> Iterable[Feed]:
    return (feed for box in findings.home.boxes for feed in box.passing if feed.id in findings.conclusions)


def _floor_rows(findings: Findings, level: int, theme: Theme) -> Iterator[Row]:
    rooms = {room.id for room in findings.home.rooms if room.level == level}
    zones = [zone for zone in findings.zones if zone.room in rooms]
    if any(zone.breaker is None for zone in zones):
        path = rectangle(-4, -1.5, 8, 3)
        yield Group((*fill(path, None, theme), Shape(path, None, Pen(0.13, theme.soft)))), "nobody knows"
    if len(zones) > len({zone.room for zone in zones}):
        line = Shape(polyline((-4, 0), (4, 0)), None, Pen(0.18, theme.ink, (1.4, 0.9)))
        yield Group((line,)), "where a circuit’s area ends"


def _text_block(lines: Sequence[str], theme: Theme) -> Block:
    return Block(
        Group(tuple(text_lines(tuple(lines), 0, 0, BODY_SIZE, theme))), len(lines) * text_height(BODY_SIZE) + 1
    )


def put(section: Section, blocks: Sequence[Block], more: str, x: float, y: float, theme: Theme) -> Group:
    """Draw a section's head and the given blocks from (x, y); `more` closes a list that goes on elsewhere."""
    marks: list[Mark] = [section_head(x, y, section.width, section.title, theme)]
    top = y + HEAD
    for block in blocks:
        marks.append(moved(block.ink, x, top))
        top += block.height
    if more:
        marks += [moved(mark, x, top) for mark in text_lines((more,), 0, 0, BODY_SIZE, theme)]
    return Group(tuple(marks))
