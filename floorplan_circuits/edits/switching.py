"""Switching: which switches work which lights and halves. A switch is never a supply, and never part of a shut-off."""

from collections.abc import Collection, Iterable, Iterator

from floorplan_circuits.edits.edited import Edited, Refused, counted, edit, only, there
from floorplan_circuits.edits.numbering import counter
from floorplan_circuits.edits.ties import feeds_of
from floorplan_circuits.home.boxes import Box, Control, Device, WorkedBy
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.home.record import change
from floorplan_circuits.survey.witness import WORKED_BY_HAND

OF_A_CONTROL = frozenset({"name", "by", "enters"})
WITHOUT_A_SWITCH = frozenset({"timer", "photocell", "sensor", "thermostat", "radio"})
"""What works a light without any switch that is drawn."""
WORKS_OTHERS = frozenset({"thermostat"})
"""Kinds beside the switches that work something else."""


@edit
def let_work(home: Home, switches: Iterable[int], things: Iterable[int]) -> Edited:
    """Say that switches work devices, boxes or single feeds (a half of a receptacle).

    Switches that work something already keep it: all become one group, such as two three-way switches. How a new
    group is worked is not known, and of one that a switch joins no longer: a lever that looks plain may hide a timer or
    a radio, and a lamp bears witness only for what a hand alone works. Raises `Refused` for what is no switch, for a
    thing that works others itself, and where two groups would become one.
    """
    wanted = _switches(home, switches)
    feeds = tuple(dict.fromkeys(feed.id for feed in feeds_of(home, _worked(home, things))))
    groups = groups_of(home, [device.id for _, device in wanted])
    if len(groups) > 1:
        marks = " and ".join(dict.fromkeys(box.mark for box, _ in wanted))
        raise Refused(f"The switches in {marks} work different things already. Take one out of its group first.")
    if not feeds and (not groups or len(wanted) < 2):
        raise Refused("Choose what the switch works: a light, a fan, a receptacle or half of one.")
    ids = counter(home)
    group = groups[0] if groups else Control(id=ids.new())
    switches = _with(group.switches, [device.id for _, device in wanted])
    joined = switches != group.switches and group.by in WORKED_BY_HAND
    by: WorkedBy = "not known" if joined else group.by
    grown = change(group, switches=switches, feeds=_with(group.feeds, feeds), by=by)
    after = change(home, controls=home.controls.put(grown), next_id=ids.next_id)
    return Edited(after, f"Let {_called(wanted)} work {what_works(after, grown.id)}", (grown.id,))


@edit
def let_go(home: Home, group: int, things: Iterable[int]) -> Edited:
    """Take switches, devices, boxes or feeds out of a group; a group that works nothing goes.

    So does one that nothing works any more: no switch, and no photocell or the like. Raises `Refused` where the group
    has none of them.
    """
    found, named = there(home.controls, group, "group of switches"), set(things)
    named |= {device.id for box in home.boxes if box.id in named for device in box.devices}
    named |= {feed.id for feed in feeds_of(home, named)}
    if named.isdisjoint((*found.switches, *found.feeds)):
        raise Refused("That is not in the group.")
    left = change(
        found,
        switches=tuple(one for one in found.switches if one not in named),
        feeds=tuple(one for one in found.feeds if one not in named),
    )
    stays = left.feeds and (left.switches or left.by in WITHOUT_A_SWITCH)
    controls = home.controls.put(left) if stays else home.controls.without([group])
    return Edited(change(home, controls=controls), f"Take {_taken(home, found, left)} out of its group")


@edit
def set_group(home: Home, group: int, **fields: object) -> Edited:
    """Change fields of a group of switches: name, by (what works it), enters (the box where power enters)."""
    only(fields, OF_A_CONTROL)
    found = change(there(home.controls, group, "group of switches"), **fields)
    if found.enters is not None:
        there(home.boxes, found.enters, "box")
    return Edited(change(home, controls=home.controls.put(found)), f"Edit the switching of {what_works(home, group)}")


@edit
def say_by_hand(home: Home, group: int) -> Edited:
    """Say that a hand alone works a group: no timer, sensor or radio is in its switches. Its lamps bear witness then.

    Raises `Refused` where it has no switch that is drawn, or was said to be worked otherwise.
    """
    found = there(home.controls, group, "group of switches")
    if not found.switches:
        raise Refused("Draw the switch first.")
    if found.by not in ("not known", "hand"):
        raise Refused(f"It was said to be worked by a {found.by}. Change that in the form of its box.")
    said = change(home, controls=home.controls.put(change(found, by="hand")))
    return Edited(said, f"Say that a hand alone works {what_works(home, group)}", (group,))


@edit
def set_groups_by(home: Home, things: Iterable[int], by: WorkedBy) -> Edited:
    """Say how all groups are worked that have one of these switches, or a switch in one of these boxes.

    Raises `Refused` where no switch of them works anything yet.
    """
    named = set(things)
    named |= {device.id for box in home.boxes if box.id in named for device in box.devices}
    groups = [one for one in home.controls if not named.isdisjoint(one.switches)]
    if not groups:
        raise Refused("None of these switches works anything yet. Draw what they work first.")
    table = home.controls
    for group in groups:
        table = table.put(change(group, by=by))
    are = "is" if len(groups) == 1 else "are"
    return Edited(change(home, controls=table), f"Say how {counted(len(groups), 'group')} of switches {are} worked")


# --- what there is ----------------------------------------------------------------------------------------------------


def is_switch(kind: str) -> bool:
    """Tell whether a kind of device works others.

    Examples:
        >>> is_switch("dimmer"), is_switch("ceiling light")
        (True, False)
    """
    return kind_named(kind).group == "switch" or kind in WORKS_OTHERS


def groups_of(home: Home, things: Iterable[int]) -> tuple[Control, ...]:
    """Return the groups that have one of these devices as a switch, or one of these feeds as what they work."""
    wanted = set(things)
    return tuple(one for one in home.controls if not wanted.isdisjoint((*one.switches, *one.feeds)))


def what_works(home: Home, group: int) -> str:
    """Return what a group works, in words: its name, else the kinds and boxes of what it works."""
    control = there(home.controls, group, "group of switches")
    if control.name:
        return control.name
    worked = list(_worked_by(home, control))
    if not worked:
        return "nothing yet"
    box, device = worked[0]
    more = len(worked) - 1
    first = f"the {device.name or kind_named(device.kind).label} in {box.mark}" if device else f"a cable in {box.mark}"
    return first + (f" and {counted(more, 'more', 'more')}" if more else "")


def switches_in_words(home: Home, group: Control) -> str:
    """Return what the switches of a group are called, or what works it where none is drawn."""
    ids = set(group.switches)
    marks = [box.mark for box in home.boxes for device in box.devices if device.id in ids]
    if not marks:
        return "Nothing that is drawn" if group.by in ("hand", "not known", "other") else f"A {group.by}"
    return f"The switch in {marks[0]}" if len(marks) == 1 else f"Each switch in {' and '.join(marks)}"


def _worked_by(home: Home, control: Control) -> Iterator[tuple[Box, Device | None]]:
    wanted = set(control.feeds)
    for box in home.boxes:
        for device in box.devices:
            if any(feed.id in wanted for feed in device.feeds):
                yield box, device
        if any(feed.id in wanted for feed in box.passing):
            yield box, None


# --- small parts ------------------------------------------------------------------------------------------------------


def _switches(home: Home, named: Iterable[int]) -> list[tuple[Box, Device]]:
    """Return the switches among these devices and boxes. Raises `Refused` for a device that is none, or for none."""
    ids = set(named)
    found = [(box, one) for box in home.boxes for one in box.devices if one.id in ids or (box.id in ids)]
    for box, device in found:
        if device.id in ids and not is_switch(device.kind):
            raise Refused(f"The {kind_named(device.kind).label} in {box.mark} is no switch. Choose a switch first.")
    switches = [(box, device) for box, device in found if is_switch(device.kind)]
    if not switches:
        raise Refused("Choose a switch first, then what it works.")
    return switches


def _worked(home: Home, things: Iterable[int]) -> set[int]:
    """Return what is to be worked, a box as the devices in it that are no switches. Raises `Refused` for a switch."""
    wanted = set(things)
    for box in home.boxes:
        switches = [device for device in box.devices if is_switch(device.kind)]
        for device in switches:
            if device.id in wanted or any(feed.id in wanted for feed in device.feeds):
                raise Refused("A switch works no other switch. To add it to the group, hold shift and click it.")
        if box.id in wanted and switches:
            wanted.discard(box.id)
            wanted |= {device.id for device in box.devices if device not in switches}
    return wanted


def _with(ids: tuple[int, ...], more: Iterable[int]) -> tuple[int, ...]:
    return tuple(dict.fromkeys((*ids, *more)))


def _called(switches: Collection[tuple[Box, Device]]) -> str:
    marks = list(dict.fromkeys(box.mark for box, _ in switches))
    return f"the switch in {marks[0]}" if len(switches) == 1 else f"the switches in {' and '.join(marks)}"


def _taken(home: Home, was: Control, now: Control) -> str:
    switches = [one for one in was.switches if one not in now.switches]
    marks = [box.mark for box in home.boxes if any(device.id in switches for device in box.devices)]
    feeds = len(was.feeds) - len(now.feeds)
    parts = [f"the switch in {mark}" for mark in marks] + ([counted(feeds, "feed")] if feeds else [])
    return " and ".join(parts)
