"""Putting devices: a click on a wall makes a box that turns to it, on a box the next gang; a drag makes a row."""

from dataclasses import dataclass, field, replace
from math import cos, hypot, radians

from floorplan_circuits.edits.boxes import MOUNTS, Place, join_box, put_device, put_devices
from floorplan_circuits.edits.edited import Edited, Refused
from floorplan_circuits.findings import XY, Subject
from floorplan_circuits.geometry.wall_spots import WallSpot, faces_into, wall_spot
from floorplan_circuits.gestures.events import Context, Event, Key, Outcome, Press, Release
from floorplan_circuits.gestures.lengths_typed import TYPING, typed_further
from floorplan_circuits.gestures.rows import LEAST_MM, along_wall, over_floor, usual_spacing
from floorplan_circuits.home.boxes import Box, Mount
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.home.lengths import NotALength, parse_length, show_length
from floorplan_circuits.home.record import Point
from floorplan_circuits.view import Draft

ON_WALL = ("wall", "outdoor")
WALL_REACH_MM = 700
JOIN_REACH_MM = 180
TICK_MM = 120
OVERHEAD = "Shift-click puts it on the ceiling."
ROW_UNKNOWN = "Their circuits are unknown until you tie or test them."


@dataclass(frozen=True, slots=True)
class PutDevice:
    """The tool that puts devices of one kind, one a click or a row a drag, until Escape.

    `pressed`: the button went down with it, at `start`. `spacing` in mm is what was typed for a row; None: the usual.
    """

    kind: str
    pressed: bool = False
    start: XY | None = field(default=None, repr=False)
    spacing: int | None = field(default=None, repr=False)
    typed: str = field(default="", repr=False)

    @property
    def takes_letters(self) -> bool:
        """Whether letters are typed for a row's spacing, and take no other tool."""
        return self.start is not None


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a click would put the device: into a box that is there, or a new one facing some way."""

    at: Point
    angle: int
    mount: Mount
    joins: Box | None = None

    @property
    def place(self) -> Place:
        """Where a new box goes."""
        return Place(self.at, self.angle, self.mount)


def step_put(tool: PutDevice, event: Event, context: Context) -> Outcome:
    """Return what comes of one event with a device in hand."""
    label = kind_named(tool.kind).label
    if isinstance(event, Key):
        return _key(tool, event, context)
    spot = _spot(tool.kind, event.at, context, overhead=isinstance(event, Press | Release) and event.add)
    draft = _draft(tool, spot, event.at)
    row = _row(tool, event.at, context)
    if isinstance(event, Release) and tool.pressed:
        let_go = PutDevice(tool.kind, spacing=tool.spacing)
        return _put_row(let_go, row, draft, context) if len(row) > 1 else _put(let_go, spot, draft, context)
    if isinstance(event, Press):
        return Outcome(replace(tool, pressed=True, start=event.at, typed=""), draft=draft, says=_says(label, spot))
    if isinstance(event, Release) or not tool.pressed:
        return Outcome(PutDevice(tool.kind, spacing=tool.spacing), draft=draft, says=_says(label, spot))
    going = _row_draft(tool, row, context) if len(row) > 1 else draft
    return Outcome(tool, draft=going, says=_going(tool, row, spot, context))


def _put(tool: PutDevice, spot: Spot | None, draft: Draft, context: Context) -> Outcome:
    if spot is None:
        label = kind_named(tool.kind).label
        return Outcome(tool, draft=draft, says=f"Click nearer to a wall to put a {label}. {OVERHEAD}")
    try:
        edit = _edit(tool.kind, spot, context)
    except Refused as error:
        return Outcome(tool, draft=draft, says=str(error))
    box = Subject("box", spot.joins.id if spot.joins is not None else edit.made[0])
    return Outcome(tool, edit, says=f"{edit.says}. Its circuit is unknown until you tie or test it.", selected=(box,))


def _put_row(tool: PutDevice, row: list[Place], draft: Draft, context: Context) -> Outcome:
    try:
        edit = put_devices(context.home, context.level, row, tool.kind)
    except Refused as error:
        return Outcome(tool, draft=draft, says=str(error))
    boxes = tuple(Subject("box", box) for box in edit.made[::2])
    return Outcome(tool, edit, says=f"{edit.says}. {ROW_UNKNOWN}", selected=boxes)


def _edit(kind: str, spot: Spot, context: Context) -> Edited:
    if spot.joins is not None:
        return join_box(context.home, spot.joins.id, kind)
    return put_device(context.home, context.level, spot.at, spot.angle, kind, spot.mount)


def _says(label: str, spot: Spot | None) -> str:
    if spot is None:
        return f"Click a wall to place a {label}. Esc leaves the tool."
    if spot.joins is not None:
        return f"Click to add a {label} to box {spot.joins.mark}. Esc leaves the tool."
    return f"Click to place a {label}, drag for a row. Its circuit stays unknown until you tell or test it."


# --- a row ------------------------------------------------------------------------------------------------------------


def _key(tool: PutDevice, event: Key, context: Context) -> Outcome:
    """Type how far apart a row stands while it is dragged; Escape drops the row, then the tool."""
    label = kind_named(tool.kind).label
    if event.name == "escape":
        at_rest = PutDevice(tool.kind, spacing=tool.spacing)
        return Outcome(None if tool.start is None else at_rest, says=_says(label, None))
    typed = tool.typed
    if tool.start is not None and event.name == "backspace":
        typed = typed[:-1]
    elif tool.start is not None and event.text and TYPING.issuperset(event.text.lower()):
        typed = typed_further(typed, event.text)
    if typed == tool.typed:
        return Outcome(tool, says=_says(label, None))
    try:
        spacing = parse_length(typed, context.home.units)
    except NotALength:
        go_on = f"{typed}: go on typing how far apart they stand."
        return Outcome(replace(tool, typed=typed, spacing=None), says=go_on)
    if spacing < LEAST_MM:
        too_near = f"{typed}: a row stands at least {LEAST_MM} mm apart."
        return Outcome(replace(tool, typed=typed, spacing=None), says=too_near)
    says = f"{_apart(spacing, context)} apart. Move on to see the row."
    return Outcome(replace(tool, typed=typed, spacing=spacing), says=says)


def _row(tool: PutDevice, at: XY, context: Context) -> list[Place]:
    """Return the places of the row that is being dragged: one or none where it is no row."""
    first = _spot(tool.kind, tool.start, context) if tool.start is not None and tool.pressed else None
    if first is None or first.joins is not None:
        return []
    spacing = _spacing(tool, context)
    if first.mount in ON_WALL:
        return along_wall(first.place, at, spacing, context)
    return over_floor(first.place, at, spacing)


def _spacing(tool: PutDevice, context: Context) -> int:
    return tool.spacing or usual_spacing(tool.kind, context.home.units)


def _apart(spacing: int, context: Context) -> str:
    return show_length(spacing, context.home.units)


def _going(tool: PutDevice, row: list[Place], spot: Spot | None, context: Context) -> str:
    kind, apart = kind_named(tool.kind), _apart(_spacing(tool, context), context)
    if len(row) > 1:
        return f"Let go to put {len(row)} {kind.plural}, {apart} apart. Type another distance, or Esc."
    if row:
        return f"Drag on for a row, one every {apart}; type another distance. Let go to put one here."
    return _says(kind.label, spot)


def _row_draft(tool: PutDevice, row: list[Place], context: Context) -> Draft:
    """Return the row as a line with a tick at each place, and how many there are."""
    symbol, last = kind_named(tool.kind).symbol, row[-1]
    ticks = [_tick(place) for place in row]
    words = f"{len(row)} × {_apart(_spacing(tool, context), context)}"
    turn = last.angle if last.mount in ON_WALL else 0
    return Draft(lines=((row[0].at, last.at), *ticks), symbol=symbol, at=last.at, angle=turn, words=words)


def _tick(place: Place) -> tuple[XY, ...]:
    (x, y), turn = place.at, radians(place.angle)
    dx, dy = TICK_MM * cos(turn), TICK_MM * cos(radians(90) - turn)
    back = 0 if place.mount in ON_WALL else 1
    return (x - back * dx, y - back * dy), (x + dx, y + dy)


# --- where it goes --------------------------------------------------------------------------------------------------


def _spot(kind: str, at: XY, context: Context, overhead: bool = False) -> Spot | None:
    """Return where a click puts a kind; far from any wall nowhere, unless it is meant to be `overhead`."""
    mount: Mount = MOUNTS.get(kind_named(kind).mount, "wall")
    reach = max(WALL_REACH_MM, 3 * context.reach)
    wall = wall_spot(at, context.outlines(), reach) if mount in ON_WALL else None
    box = _box_at(at, mount, wall, context)
    if box is not None and box.at is not None:
        return Spot(box.at, box.angle, box.mount, box)
    if mount not in ON_WALL:
        return Spot((round(at[0]), round(at[1])), 90, mount)
    if wall is None:
        return Spot((round(at[0]), round(at[1])), 90, "ceiling") if overhead else None
    indoors = faces_into(wall.at, wall.angle, context.outlines())
    return Spot(wall.at, wall.angle, "wall" if indoors else "outdoor")


def _box_at(at: XY, mount: Mount, wall: WallSpot | None, context: Context) -> Box | None:
    """Return the nearest box that takes such a device, if it is near enough to be meant."""
    reach = max(JOIN_REACH_MM, 1.5 * context.reach)
    near = [
        (hypot(box.at[0] - at[0], box.at[1] - at[1]), box.id)
        for box in context.home.boxes
        if box.level == context.level and box.at is not None and _takes(box, mount, wall)
    ]
    nearest = min(near, default=None)
    return context.home.boxes[nearest[1]] if nearest is not None and nearest[0] <= reach else None


def _takes(box: Box, mount: Mount, wall: WallSpot | None) -> bool:
    """Tell whether a device goes into a box: it is mounted alike, and faces the same side of a wall.

    Two boxes stand back to back in one wall more often than not; they are two boxes.
    """
    if mount not in ON_WALL:
        return box.mount == mount
    return box.mount in ON_WALL and (wall is None or cos(radians(box.angle - wall.angle)) > 0)


def _draft(tool: PutDevice, spot: Spot | None, at: XY) -> Draft:
    symbol = kind_named(tool.kind).symbol
    if spot is None:
        return Draft(symbol=symbol, at=at, angle=90)
    turn = spot.angle if spot.mount in ON_WALL else 0
    return Draft(symbol=symbol, at=spot.at, angle=turn, joins=spot.joins is not None)
