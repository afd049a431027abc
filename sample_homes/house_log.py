"""What was seen in the two-storey house: three passes breaker by breaker, boxes opened, and what came up since."""

from floorplan_circuits.home.boxes import Box, Device
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.home.log import Change, ReceptacleTest, Traced, Trouble

from .builder import Builder  # relative: packaged with the program
from .house_circuits import OWNER, Circuits
from .testing import Evening, opened, solo_pass

HELPER = "helper"


def keep_log(home: Builder, on: Circuits) -> None:
    """Log it all."""
    _receptacle_pass(home, on)
    _lamp_pass(home, on)
    _heavy_pass(home, on)
    _traces(home, on)
    _looked_in(home)
    _afterwards(home, on)


# --- passes ---------------------------------------------------------------------------------------------------------


def _receptacle_pass(home: Builder, on: Circuits) -> None:
    """Log a pass over the receptacles at 120 V: three stay live with their breaker off, two are not reached."""
    down, up = on.down, on.up
    handles = [down.kitchen[0], down.refrigerator, down.washer, down.living, down.family, down.study, down.workshop]
    handles += [down.outside, down.basement, up.baths, up.main_bedroom, up.bedrooms, on.garage.receptacles]
    denied = ("by the television", "by the wardrobe", "at the bench")
    stubborn = tuple(feed for name in denied for feed in _box_of(home, name).feeds())
    evening = Evening("2026-01-17", OWNER, "two-lead tester", (down.resting,), stubborn)
    not_reached = (_box_of(home, "network cabinet"), _box_of(home, "by the treadmill"))
    boxes = [box for box in home.boxes if _is(box, "receptacle") and _hots(box) == 1 and box not in not_reached]
    solo_pass(home, evening, handles, boxes)


def _lamp_pass(home: Builder, on: Circuits) -> None:
    """Log a pass by the lamps themselves, and the switches that work them by hand."""
    handles = [on.down.front_lights, on.down.back_lights, on.down.basement_lights, on.up.lights]
    handles += [on.up.bath_lights, on.up.main_bedroom, on.garage.lights]
    evening = Evening("2026-01-18", HELPER, "the fixture itself", (on.down.resting,))
    by_hand = [control for control in home.controls if control.by == "hand"]
    worked = {feed for control in by_hand for feed in control.feeds}
    working = {switch for control in by_hand for switch in control.switches}
    boxes = [
        box
        for box in home.boxes
        if any(device.id in working for device in box.devices) or any(feed.id in worked for feed in box.feeds())
    ]
    solo_pass(home, evening, handles, boxes)


def _heavy_pass(home: Builder, on: Circuits) -> None:
    """Log the receptacles at 240 V, each hot against ground."""
    evening = Evening("2026-01-24", OWNER, "low-impedance meter", (on.down.resting,))
    boxes = [box for box in home.boxes if _is(box, "receptacle") and _hots(box) == 2]
    solo_pass(home, evening, [on.heavy.range, on.heavy.dryer, on.garage.welder], boxes)


def _is(box: Box, group: str) -> bool:
    return bool(box.devices) and kind_named(box.devices[0].kind).group == group


def _hots(box: Box) -> int:
    return kind_named(box.devices[0].kind).hots


# --- one by one -----------------------------------------------------------------------------------------------------


def _traces(home: Builder, on: Circuits) -> None:
    traced = {"sump pump": on.down.sump, "freezer": on.down.freezer, "network cabinet": on.down.study}
    for name, handle in traced.items():
        (feed,) = _device(home, name).feeds
        home.log.append(
            Traced(
                id=home.number(), kind="traced", date="2026-01-31", who=HELPER, feed=feed.id, handle=handle, passes=2
            )
        )


OPENED = ("porch", "disposer", "floor lamp", "patio", "dining", "heat lamp", "by the fireplace", "network cabinet")


def _looked_in(home: Builder) -> None:
    """Log that some boxes were opened, with all that enters them off."""
    boxes = [_box_of(home, name) for name in OPENED]
    opened(home, "2026-02-07", OWNER, *boxes, *[box for box in home.boxes if _is(box, "receptacle")][:4])


def _afterwards(home: Builder, on: Circuits) -> None:
    """Log what a receptacle tester showed, a breaker that ran hot, and a wall that was rewired after the tests."""
    for name, shows in (("by the fireplace", "open ground"), ("by the desk", "hot and neutral reversed")):
        fields = {"id": home.number(), "kind": "tester", "date": "2026-02-14", "who": OWNER, "shows": shows}
        home.log.append(ReceptacleTest.model_validate(fields | {"device": _device(home, name).id}))
    hot = "Warm to the hand after an hour of the planer."
    handle = on.down.workshop
    home.log.append(
        Trouble(
            id=home.number(), kind="trouble", date="2026-02-21", who=OWNER, handle=handle, what="runs hot", note=hot
        )
    )
    box, note = _box_of(home, "by the sideboard"), "A new cable to this receptacle, from the study."
    home.log.append(
        Change(
            id=home.number(), kind="change", date="2026-04-11", who=OWNER, what="rewired", boxes=(box.id,), note=note
        )
    )


def _box_of(home: Builder, name: str) -> Box:
    """Return the first box with a device of that name."""
    return next(box for box in home.boxes for device in box.devices if device.name == name)


def _device(home: Builder, name: str) -> Device:
    return next(device for device in _box_of(home, name).devices if device.name == name)
