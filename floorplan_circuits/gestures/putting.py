"""Putting devices: a click on a wall makes a box that turns to it, on a box the next gang; a drag makes a row."""

from dataclasses import dataclass, field, replace
from math import cos, radians

from floorplan_circuits.edits.boxes import MOUNTS, Place, join_box, put_device, put_devices
from floorplan_circuits.edits.edited import Edited, Refused
from floorplan_circuits.findings import XY, Subject
from floorplan_circuits.gestures.box_spots import ON_WALL, Spot, box_spot
from floorplan_circuits.gestures.events import Context, Event, Key, Outcome, Press, Release
from floorplan_circuits.gestures.lengths_typed import TYPING, typed_further
from floorplan_circuits.gestures.rows import LEAST_MM, along_wall, over_floor, usual_spacing
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.home.lengths import NotALength, parse_length, show_length
from floorplan_circuits.view import Draft

TICK_MM = 120
OVERHEAD = "Shift-click puts it on the ceiling."
MOST_AT_A_CLICK = 4
"""So many gangs can be put at a click: wider boxes are rare, common practice, no source."""
GANG_MORE = {"+": 1, "=": 1, "-": -1}
"""Keys that put one more or one less into a box at each click; the digits take kinds of their own."""
GANGS_TYPED = "+ puts one more in the same box, - one less."
ROW_UNKNOWN = "Their circuits are unknown until you tie or test them."


@dataclass(frozen=True, slots=True)
class PutDevice:
    """The tool that puts devices of one kind, one a click or a row a drag, until Escape.

    `pressed`: the button went down with it, at `start`. `spacing` in mm is what was typed for a row; None: the usual.
    `gangs`: so many go into one box at each click.
    """

    kind: str
    pressed: bool = False
    start: XY | None = field(default=None, repr=False)
    spacing: int | None = field(default=None, repr=False)
    typed: str = field(default="", repr=False)
    gangs: int = field(default=1, repr=False)

    @property
    def takes_letters(self) -> bool:
        """Whether letters are typed for a row's spacing, and take no other tool."""
        return self.start is not None


def step_put(tool: PutDevice, event: Event, context: Context) -> Outcome:
    """Return what comes of one event with a device in hand."""
    label = _called(tool)
    if isinstance(event, Key):
        return _key(tool, event, context)
    spot = box_spot(tool.kind, event.at, context, overhead=isinstance(event, Press | Release) and event.add)
    draft = _draft(tool, spot, event.at)
    row = _row(tool, event.at, context)
    if isinstance(event, Release) and tool.pressed:
        let_go = put_at_rest(tool)
        return _put_row(let_go, row, draft, context) if len(row) > 1 else _put(let_go, spot, draft, context)
    if isinstance(event, Press):
        return Outcome(replace(tool, pressed=True, start=event.at, typed=""), draft=draft, says=_says(label, spot))
    if isinstance(event, Release) or not tool.pressed:
        return Outcome(put_at_rest(tool), draft=draft, says=_says(label, spot))
    going = _row_draft(tool, row, context) if len(row) > 1 else draft
    return Outcome(tool, draft=going, says=_going(tool, row, spot, context))


def put_at_rest(tool: PutDevice) -> PutDevice:
    """Return the tool with nothing begun; what was typed for it stays."""
    return PutDevice(tool.kind, spacing=tool.spacing, gangs=tool.gangs)


def says_of_put(tool: PutDevice) -> str:
    """Return what the tool says of itself when it is taken in hand."""
    where = "Click a wall" if MOUNTS.get(kind_named(tool.kind).mount, "wall") in ON_WALL else "Click where it is"
    return f"{where} to place {_called(tool)}, drag for a row. {GANGS_TYPED} Esc leaves the tool."


def _called(tool: PutDevice) -> str:
    """Return what a click puts, with its article or number."""
    kind = kind_named(tool.kind)
    return f"a {kind.label}" if tool.gangs == 1 else f"{tool.gangs} {kind.plural} in one box"


def _put(tool: PutDevice, spot: Spot | None, draft: Draft, context: Context) -> Outcome:
    if spot is None:
        return Outcome(tool, draft=draft, says=f"Click nearer to a wall to put {_called(tool)}. {OVERHEAD}")
    try:
        edit = _edit(tool, spot, context)
    except Refused as error:
        return Outcome(tool, draft=draft, says=str(error))
    box = Subject("box", spot.joins.id if spot.joins is not None else edit.made[0])
    return Outcome(tool, edit, says=f"{edit.says}. Its circuit is unknown until you tie or test it.", selected=(box,))


def _put_row(tool: PutDevice, row: list[Place], draft: Draft, context: Context) -> Outcome:
    try:
        edit = put_devices(context.home, context.level, row, tool.kind, tool.gangs)
    except Refused as error:
        return Outcome(tool, draft=draft, says=str(error))
    boxes = tuple(Subject("box", box) for box in edit.made[:: tool.gangs + 1])
    return Outcome(tool, edit, says=f"{edit.says}. {ROW_UNKNOWN}", selected=boxes)


def _edit(tool: PutDevice, spot: Spot, context: Context) -> Edited:
    if spot.joins is not None:
        return join_box(context.home, spot.joins.id, tool.kind, tool.gangs)
    if tool.gangs > 1:
        return put_devices(context.home, context.level, [spot.place], tool.kind, tool.gangs)
    return put_device(context.home, context.level, spot.at, spot.angle, tool.kind, spot.mount)


def _says(label: str, spot: Spot | None) -> str:
    if spot is None:
        return f"Click a wall to place {label}. {GANGS_TYPED} Esc leaves the tool."
    if spot.joins is not None:
        return f"Click to add {label.removesuffix(' in one box')} to box {spot.joins.mark}. Esc leaves the tool."
    return f"Click to place {label}, drag for a row; what feeds it stays unknown until told or tested. Esc leaves."


# --- a row ------------------------------------------------------------------------------------------------------------


def _key(tool: PutDevice, event: Key, context: Context) -> Outcome:
    """Type how far apart a row stands while it is dragged; Escape drops the row, then the tool."""
    label = _called(tool)
    if event.name == "escape":
        return Outcome(None if tool.start is None else put_at_rest(tool), says=_says(label, None))
    if tool.start is None and event.text in GANG_MORE:
        more = replace(tool, gangs=min(max(tool.gangs + GANG_MORE[event.text], 1), MOST_AT_A_CLICK))
        return Outcome(more, says=_says(_called(more), None))
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
    first = box_spot(tool.kind, tool.start, context) if tool.start is not None and tool.pressed else None
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
        what = f"{len(row)} boxes of {tool.gangs} {kind.plural}" if tool.gangs > 1 else f"{len(row)} {kind.plural}"
        return f"Let go to put {what}, {apart} apart. Type another distance, or Esc."
    if row:
        return f"Drag on for a row, one every {apart}; type another distance. Let go to put one here."
    return _says(_called(tool), spot)


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


def _draft(tool: PutDevice, spot: Spot | None, at: XY) -> Draft:
    symbol = kind_named(tool.kind).symbol
    if spot is None:
        return Draft(symbol=symbol, at=at, angle=90)
    turn = spot.angle if spot.mount in ON_WALL else 0
    words = f"{tool.gangs} gangs" if tool.gangs > 1 else ""
    return Draft(symbol=symbol, at=spot.at, angle=turn, joins=spot.joins is not None, words=words)
