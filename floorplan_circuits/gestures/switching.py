"""Drawing what a switch works: a switch in hand, then lights and halves, one a click or many in a marquee."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from math import hypot

from floorplan_circuits.drawing.arcs import arc_points
from floorplan_circuits.edits.edited import Edited, Refused
from floorplan_circuits.edits.switching import groups_of, is_switch, let_go, let_work, say_by_hand, what_works
from floorplan_circuits.findings import XY, Subject
from floorplan_circuits.gestures.events import Context, Event, Key, Move, Outcome, Press, Release
from floorplan_circuits.home.boxes import Box, Device
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.view import Draft

SAYS = "Click a switch, then what it works. Shift-click another switch to add it. Esc leaves the tool."
WHICH_GANG = "{} has several switches. Click the one that is meant, in its gang."
GATHERING = "Let go to let the switch work all lights and fans inside."
NOT_A_SUPPLY = "It says nothing of what is live."
HAND_ALONE = "Enter if a hand alone works it, no timer, sensor or radio."
HANDS = "What a hand alone works bears witness for its switch when it goes out."
ALL_OF_IT = "all of it"
MOST_BOW_MM = 900.0


@dataclass(frozen=True, slots=True)
class DrawSwitching:
    """The tool that says what switches work. `switches` are those in hand; clicking what they work takes it out."""

    switches: tuple[int, ...] = ()
    start: XY | None = None
    on: Subject | None = None
    dragging: bool = False


def step_switching(tool: DrawSwitching, event: Event, context: Context) -> Outcome:
    """Return what comes of one event with this tool."""
    tool = replace(tool, switches=tuple(one for one in tool.switches if _switch(context.home, one) is not None))
    idle = DrawSwitching(tool.switches)
    if isinstance(event, Key):
        if event.name == "escape":
            held = bool(tool.switches)
            return Outcome(DrawSwitching() if held else None, says=SAYS, selected=() if held else None)
        asked = asked_by_hand(context.home, tool) if event.name == "enter" else None
        if asked is not None:
            return _edited(idle, lambda: say_by_hand(context.home, asked), context, after=HANDS)
        return Outcome(tool, says=_says(tool, context.home))
    if isinstance(event, Press):
        return Outcome(replace(idle, start=event.at, on=event.subject), says=_says(tool, context.home))
    if isinstance(event, Move):
        return _move(tool, event, context)
    if tool.start is None:
        return Outcome(idle, says=_says(idle, context.home))
    if tool.dragging:
        return _worked(idle, _loads_between(tool.start, event.at, context), context)
    return _clicked(idle, tool.on, event, context)


def _says(tool: DrawSwitching, home: Home) -> str:
    if not tool.switches:
        return SAYS
    groups = groups_of(home, tool.switches)
    works = f" works {what_works(home, groups[0].id)}" if groups else " in hand"
    hand = f" {HAND_ALONE}" if asked_by_hand(home, tool) is not None else ""
    return f"{_called(home, tool.switches)}{works}. Click what it works; again to take it out.{hand} Esc lets go of it."


def asked_by_hand(home: Home, tool: DrawSwitching) -> int | None:
    """Return the group of the switches in hand if nobody has said yet how it is worked."""
    groups = groups_of(home, tool.switches)
    return groups[0].id if groups and groups[0].by == "not known" else None


def _called(home: Home, switches: Iterable[int]) -> str:
    ids = set(switches)
    marks = dict.fromkeys(box.mark for box in home.boxes if any(device.id in ids for device in box.devices))
    return f"The switch in {' and '.join(marks)}"


# --- the pointer moves ------------------------------------------------------------------------------------------------


def _move(tool: DrawSwitching, event: Move, context: Context) -> Outcome:
    if not event.held or tool.start is None:
        idle = DrawSwitching(tool.switches)
        return Outcome(idle, draft=_draft(idle, event.at, context.home), says=_says(idle, context.home))
    far = hypot(event.at[0] - tool.start[0], event.at[1] - tool.start[1])
    if not tool.dragging and far < context.reach:
        return Outcome(tool, says=_says(tool, context.home))
    return Outcome(replace(tool, dragging=True), draft=Draft(marquee=(tool.start, event.at)), says=GATHERING)


def _draft(tool: DrawSwitching, at: XY, home: Home) -> Draft | None:
    """Return an arc from each switch in hand to the pointer."""
    places = [found[0].at for one in tool.switches if (found := _switch(home, one)) is not None]
    lines = tuple(arc_points(place, at, MOST_BOW_MM) for place in places if place is not None)
    return Draft(lines=lines) if lines else None


# --- a click ----------------------------------------------------------------------------------------------------------


def _clicked(idle: DrawSwitching, on: Subject | None, event: Release, context: Context) -> Outcome:
    found = _meant(context.home, on)
    if found is None:
        return Outcome(idle, says=_says(idle, context.home))
    box, devices = found
    switches = [device for device in devices if is_switch(device.kind)]
    loads = [device for device in devices if not is_switch(device.kind)]
    if switches and (event.add or not loads or not idle.switches):
        if len(switches) > 1:
            return Outcome(idle, says=WHICH_GANG.format(box.mark))
        return _taken(idle, switches[0], box, event.add, context)
    if not idle.switches:
        return Outcome(idle, says=f"Click a switch first: there is none in {box.mark}.")
    if loads:
        return _toggled(idle, loads, context)
    return _worked(idle, [box.id], context)


def _taken(idle: DrawSwitching, switch: Device, box: Box, add: bool, context: Context) -> Outcome:
    """Take a switch in hand, with all that work the same; with shift held, add it to those in hand."""
    home = context.home
    if not add or not idle.switches:
        groups = groups_of(home, [switch.id])
        taken = DrawSwitching(groups[0].switches if groups else (switch.id,))
        return Outcome(taken, says=_says(taken, home), selected=_boxes_of(home, taken.switches))
    if switch.id in idle.switches:
        fewer = DrawSwitching(tuple(one for one in idle.switches if one != switch.id))
        groups = groups_of(home, [switch.id])
        if not groups:
            return Outcome(fewer, says=_says(fewer, home), selected=_boxes_of(home, fewer.switches))
        return _edited(fewer, lambda: let_go(home, groups[0].id, [switch.id]), context)
    more = DrawSwitching((*idle.switches, switch.id))
    if not groups_of(home, more.switches):
        return Outcome(more, says=_says(more, home), selected=_boxes_of(home, more.switches))
    return _edited(more, lambda: let_work(home, more.switches, []), context, idle)


def _toggled(idle: DrawSwitching, loads: list[Device], context: Context) -> Outcome:
    """Let the switches work what is clicked; of a split device each click goes on to its next part, all, none."""
    home, groups = context.home, groups_of(context.home, idle.switches)
    worked = set(groups[0].feeds) if groups else set[int]()
    parts = [feed.id for feed in loads[0].feeds] if len(loads) == 1 else []
    if len(parts) > 1:
        return _edited(idle, lambda: _next_part(home, idle.switches, parts, worked, loads[0]), context)
    here = {feed.id for device in loads for feed in device.feeds}
    if groups and here and here <= worked:
        return _edited(idle, lambda: let_go(home, groups[0].id, here), context)
    return _worked(idle, [device.id for device in loads], context)


def _next_part(home: Home, switches: tuple[int, ...], parts: list[int], worked: set[int], device: Device) -> Edited:
    """Return the edit to the next of: each part alone, all parts, none."""
    states = [{part} for part in parts] + [set(parts), set[int]()]
    now = worked & set(parts)
    wanted = states[(states.index(now) + 1) % len(states)] if now in states else set(parts)
    edited = let_work(home, switches, wanted) if wanted else None
    after = edited.home if edited is not None else home
    gone = now - wanted
    if gone:
        after = let_go(after, groups_of(after, switches)[0].id, gone).home
    names = " and ".join(feed.part or "part" for feed in device.feeds if feed.id in wanted)
    what = ALL_OF_IT if wanted == set(parts) else f"its {names} part" if wanted else "nothing of it"
    return Edited(after, f"Let the switch work {what} ({kind_named(device.kind).label})")


def _worked(idle: DrawSwitching, things: list[int], context: Context) -> Outcome:
    return _edited(idle, lambda: let_work(context.home, idle.switches, things), context)


def _edited(
    tool: DrawSwitching,
    act: Callable[[], Edited],
    context: Context,
    before: DrawSwitching | None = None,
    after: str = NOT_A_SUPPLY,
) -> Outcome:
    """Return what an edit gives; refused, the hand holds what it held."""
    held = before or tool
    if not held.switches and not tool.switches:
        return Outcome(held, says=SAYS)
    try:
        edit = act()
    except Refused as error:
        return Outcome(held, says=str(error))
    if edit.home is context.home:
        return Outcome(tool, says=_says(tool, context.home))
    hand = f" {HAND_ALONE}" if asked_by_hand(edit.home, tool) is not None else ""
    return Outcome(tool, edit, says=f"{edit.says}. {after}{hand}", selected=_boxes_of(edit.home, tool.switches))


# --- what is meant ----------------------------------------------------------------------------------------------------


def _meant(home: Home, on: Subject | None) -> tuple[Box, tuple[Device, ...]] | None:
    """Return the box that is pointed at and what is meant of it: one device, or all that are built in it."""
    for box in home.boxes if on is not None else ():
        if on is not None and on.kind == "box" and box.id == on.id:
            return box, box.devices
        for device in box.devices:
            if on is not None and on.kind == "device" and device.id == on.id:
                return box, (device,)
    return None


def _switch(home: Home, device: int) -> tuple[Box, Device] | None:
    found = ((box, one) for box in home.boxes for one in box.devices if one.id == device)
    return next((place for place in found if is_switch(place[1].kind)), None)


def _boxes_of(home: Home, devices: Iterable[int]) -> tuple[Subject, ...]:
    ids = set(devices)
    return tuple(Subject("box", box.id) for box in home.boxes if any(one.id in ids for one in box.devices))


def _loads_between(a: XY, b: XY, context: Context) -> list[int]:
    """Return the lights and fans of the level in a rectangle; receptacles there hang on no switch more often."""
    boxes = set(context.boxes_between(a, b))
    found = [one for box in context.home.boxes if box.id in boxes for one in box.devices]
    kinds = {one.id: kind_named(one.kind) for one in found}
    return [one for one, kind in kinds.items() if kind.group == "light" or kind.switched]
