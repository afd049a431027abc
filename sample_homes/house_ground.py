"""The ground floor and the garage of the two-storey house, places in feet along a wall or from a corner."""

from dataclasses import dataclass

from floorplan_circuits.home.boxes import Box, Device, Feed

from .builder import Area, Builder, across, behind, ft  # relative: packaged with the program
from .house_circuits import Circuits
from .house_parts import Within, alarm, appliance, at, fan_light, lamps, lit, receptacle, receptacles, switch
from .house_rooms import Ground


@dataclass(frozen=True, slots=True)
class StairSwitches:
    """The switches of the ground floor that work a stair light together with another on the next level."""

    down: Device
    up: Device


def ground_floor(home: Builder, rooms: Ground, on: Circuits) -> StairSwitches:
    """Put in every box of the ground floor but the garage; return the switches of the stairs."""
    _family(home, rooms.family, on)
    _kitchen(home, rooms.kitchen, on)
    _laundry(home, rooms.laundry, on)
    _powder(home, rooms.powder, rooms.family, on)
    _living(home, rooms.living, on)
    stairs = _entry(home, rooms.entry, on)
    _passage(home, rooms.passage, rooms.dining, on)
    _study(home, rooms.study, on)
    return stairs


def _family(home: Builder, room: Area, on: Circuits) -> None:
    lights = on.down.back_lights
    inside, outside = switch(home, lights), switch(home, lights, "patio")
    by_door = home.wall_box(*at(room, ("top", 8.9)), inside, outside)
    light, fan = home.feed(lights, "light"), home.feed(lights, "fan")
    fan_light(home, room, "ceiling fan", (8, 6.5), (light, fan))
    patio = home.outdoor_box(room, "top", ft(6.6), home.device("outdoor light", lights, name="patio light", va=40))
    home.control("family room", [by_door.devices[0]], [light, fan], by_door)
    home.control("patio", [by_door.devices[1]], patio.feeds(), by_door)
    receptacles(home, room, on.down.family, ("left", 2.5), ("bottom", 2.5), ("bottom", 13.5), ("top", 1.2))
    receptacle(home, room, on.down.family, ("left", 9.2), "by the television")
    unit = home.device("240 V appliance", across(on.heavy.air_conditioner), name="air conditioner", va=5000)
    home.outdoor_box(room, "left", ft(12.2), unit)


def _kitchen(home: Builder, room: Area, on: Circuits) -> None:
    down = on.down
    light, disposer = switch(home, down.back_lights), switch(home, down.dishwasher, "disposer")
    by_way = home.wall_box(*at(room, ("bottom", 10.3)), light, disposer)
    lit_by = lamps(home, room, down.back_lights, (4.5, 7.5), (10, 7.5))
    grinder = appliance(home, room, down.dishwasher, ("top", 4.6), "disposer", 600)
    home.control("kitchen", [by_way.devices[0]], lit_by, by_way)
    home.control("disposer", [by_way.devices[1]], grinder.feeds(), by_way)
    home.wall_box(*at(room, ("top", 1.4)), _on_both_legs(home, on))
    home.wall_box(*at(room, ("top", 13.4)), _on_both_legs(home, on))
    appliance(home, room, down.dishwasher, ("top", 10.2), "dishwasher", 1200)
    receptacle(home, room, down.refrigerator, ("left", 11.8), "refrigerator", critical="the food in it")
    receptacle(home, room, down.kitchen[0], ("left", 3), "by the pantry cupboard")
    cooker = home.device("240 V receptacle", across(on.heavy.range), name="range", va=9600)
    home.wall_box(*at(room, ("right", 3.4)), cooker)
    appliance(home, room, down.back_lights, ("right", 6.3), "hood", 200)


def _on_both_legs(home: Builder, on: Circuits) -> Device:
    """Make a receptacle whose halves hang on the two legs of the multiwire pair."""
    upper, lower = on.down.kitchen
    return home.device("split receptacle", home.feed(upper, "upper"), home.feed(lower, "lower"))


def _laundry(home: Builder, room: Area, on: Circuits) -> None:
    lit(home, room, on.down.back_lights, ("bottom", 6.4), (3.6, 5), (10.5, 9.6))
    dryer = home.device("240 V receptacle", across(on.heavy.dryer), name="dryer", va=5400)
    home.wall_box(*at(room, ("left", 9.3)), dryer)
    receptacle(home, room, on.down.washer, ("left", 12), "washer", single=True)
    receptacles(home, room, on.down.washer, ("top", 1.4))
    home.wall_box(*at(room, ("right", 8.1)), home.device("ground-fault receptacle", on.down.washer, name="by the sink"))


def _powder(home: Builder, room: Area, family: Area, on: Circuits) -> None:
    """Put in the powder room; its ground-fault receptacle also protects one on the patio."""
    lights, plugs = on.up.bath_lights, home.feed(on.up.baths)
    light, fan = home.feed(lights, "light"), home.feed(lights, "fan")
    by_door = home.wall_box(*at(room, ("bottom", 4.6)), switch(home, lights), switch(home, lights, "fan"))
    fan_light(home, room, "exhaust fan", (4.5, 2), (light, fan))
    home.control("powder room", [by_door.devices[0]], [light], by_door)
    home.control("powder room fan", [by_door.devices[1]], [fan], by_door)
    home.wall_box(*at(room, ("left", 1.6)), home.device("ground-fault receptacle", plugs, name="by the basin"))
    home.outdoor_box(family, "top", ft(14.4), home.device("outdoor receptacle", behind(plugs), name="patio receptacle"))


def _living(home: Builder, room: Area, on: Circuits) -> None:
    lights, plugs = on.down.front_lights, on.down.living
    dimmer, half = home.device("dimmer", lights), switch(home, lights, "floor lamp")
    by_way = home.wall_box(*at(room, ("right", 4.6)), dimmer, half)
    upper, lower = home.feed(lights, "upper"), home.feed(plugs, "lower")
    home.wall_box(*at(room, ("bottom", 2.8)), home.device("split receptacle", upper, lower, name="floor lamp"))
    home.control("living room", [by_way.devices[0]], lamps(home, room, lights, (8, 8.5)), by_way)
    home.control("floor lamp", [by_way.devices[1]], [upper], by_way)
    receptacles(home, room, plugs, ("left", 4), ("right", 9.2), ("right", 14), ("top", 5))
    receptacle(home, room, plugs, ("left", 14), "by the fireplace")
    receptacle(home, room, plugs, ("bottom", 12.2), "by the window")
    home.outdoor_box(room, "bottom", ft(14.6), home.device("outdoor receptacle", on.down.outside, name="front yard"))


def _entry(home: Builder, room: Area, on: Circuits) -> StairSwitches:
    """Put in the entry hall; return the switches of the stairs that start and end in it."""
    front = on.down.front_lights
    porch, inside, stair = switch(home, front, "porch"), switch(home, front), stair_switch(home, on)
    by_door = home.wall_box(
        *at(room, ("bottom", 7.7)), porch, inside, stair, note="Two circuits: the stair light comes from upstairs."
    )
    lamp = home.outdoor_box(room, "bottom", ft(2), home.device("outdoor light", front, name="porch light", va=40))
    home.control("porch", [by_door.devices[0]], lamp.feeds(), by_door)
    home.control("entry hall", [by_door.devices[1]], lamps(home, room, front, (5, 11)), by_door)
    alarm(home, room, on.up.hall, (5, 5))
    receptacles(home, room, on.down.living, ("top", 4))
    head = home.device("three-way switch", on.down.basement_lights, name="basement stairs")
    return StairSwitches(home.wall_box(*at(room, ("right", 5.2)), head).devices[0], by_door.devices[2])


def stair_switch(home: Builder, on: Circuits) -> Device:
    """Make one of the two switches that work the stair light."""
    return switch(home, on.up.lights, "stair light", three_way=True)


def _passage(home: Builder, room: Area, dining: Area, on: Circuits) -> None:
    """Put in the passage and the dining room, whose light is worked from the passage."""
    hall, table = on.down.back_lights, on.down.front_lights
    near = home.wall_box(*at(room, ("bottom", 2.1)), switch(home, hall, three_way=True), switch(home, table, "dining"))
    far = home.wall_box(*at(room, ("top", 17.2)), switch(home, hall, three_way=True))
    home.control("passage", [near.devices[0], far.devices[0]], lamps(home, room, hall, (10, 2)), near)
    home.control("dining room", [near.devices[1]], lamps(home, dining, table, (5, 6.5)), near)
    receptacles(home, dining, on.down.living, ("left", 5.6), ("right", 3.4), ("right", 10.4))
    home.wall_box(*at(dining, ("left", 11)), home.device("duplex receptacle", on.down.living, name="by the sideboard"))


def _study(home: Builder, room: Area, on: Circuits) -> None:
    lit(home, room, on.down.study, ("top", 5.4), (5, 6))
    receptacles(home, room, on.down.study, ("left", 6.9), ("right", 4))
    rack = home.device("double duplex receptacle", on.down.study, name="network cabinet", critical="network, telephone")
    home.wall_box(*at(room, ("right", 9.6)), rack)


# --- garage ---------------------------------------------------------------------------------------------------------


def garage(home: Builder, room: Area, on: Circuits) -> None:
    """Put in the garage, whose outdoor lights a photocell works."""
    circuits = on.garage
    _garage_lights(home, room, on)
    reset = home.feed(circuits.receptacles)
    home.wall_box(*at(room, ("right", 4)), home.device("ground-fault receptacle", reset, name="reset for the garage"))
    home.wall_box(*at(room, ("left", 10)), _protected(home, reset))
    home.wall_box(*at(room, ("left", 16)), _protected(home, reset))
    home.outdoor_box(room, "right", ft(19), home.device("outdoor receptacle", behind(reset), name="side yard"))
    receptacle(home, room, None, ("top", 9), "low, behind the shelves")
    for place in ((6, 14), (14, 14)):
        _opener(home, room, circuits.openers, place)
    welder = home.device("240 V receptacle", across(circuits.welder), name="welder", va=7200)
    home.wall_box(*at(room, ("top", 5)), welder)


def _protected(home: Builder, reset: Feed) -> Device:
    return home.device("duplex receptacle", behind(reset))


def _opener(home: Builder, room: Area, breaker: int, place: Within) -> Box:
    x, y = place
    return home.ceiling_box(room, (ft(x), ft(y)), home.device("single receptacle", breaker, name="door opener"))


def _garage_lights(home: Builder, room: Area, on: Circuits) -> None:
    lights, yard = on.garage.lights, on.garage.yard
    by_house = home.wall_box(*at(room, ("left", 5.6)), switch(home, lights, three_way=True), switch(home, yard, "yard"))
    by_yard = home.wall_box(*at(room, ("top", 12.6)), switch(home, lights, three_way=True))
    tubes = lamps(home, room, lights, (6, 7), (14, 7), (10, 17.5), kind="strip light")
    home.control("garage", [by_house.devices[0], by_yard.devices[0]], tubes, by_house)
    flood = home.outdoor_box(room, "top", ft(18), home.device("outdoor light", yard, name="yard light", va=100))
    home.control("yard", [by_house.devices[1]], flood.feeds(), by_house)
    carriage = [
        home.outdoor_box(room, "bottom", ft(along), home.device("outdoor light", yard, name="carriage light", va=20))
        for along in (1, 19)
    ]
    home.control("carriage lights", [], [feed for box in carriage for feed in box.feeds()], by="photocell")
