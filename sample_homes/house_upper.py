"""The upper floor of the two-storey house, room by room; places in feet along a wall or from a corner."""

from floorplan_circuits.home.boxes import Device, FromBreaker
from floorplan_circuits.home.record import change

from .builder import Area, Builder, ft  # relative: packaged with the program
from .house_circuits import Circuits
from .house_ground import stair_switch
from .house_parts import alarm, at, fan_light, lamps, lit, receptacle, receptacles, switch
from .house_rooms import Upper


def upper_floor(home: Builder, rooms: Upper, on: Circuits, foot: Device) -> None:
    """Put in every box of the upper floor; `foot` is the switch at the foot of the stairs."""
    _main_bath(home, rooms.main_bath, on)
    _main_bedroom(home, rooms.main_bedroom, on)
    _second_bedroom(home, rooms.second_bedroom, on)
    _bathroom(home, rooms.bathroom, on)
    _third_bedroom(home, rooms.third_bedroom, on)
    _landing(home, rooms.landing, on, foot)
    _upper_hall(home, rooms.upper_hall, on)
    _fourth_bedroom(home, rooms.fourth_bedroom, on)
    _sewing(home, rooms.sewing, on)


def _main_bath(home: Builder, room: Area, on: Circuits) -> None:
    """Put in the main bathroom; past its switches runs the cable of its receptacle."""
    lights = on.up.bath_lights
    light, fan = home.feed(lights, "light"), home.feed(lights, "fan")
    passing = (home.feed(on.up.baths, said="person"),)
    by_door = home.wall_box(
        *at(room, ("bottom", 6.6)), switch(home, lights), switch(home, lights, "fan"), passing=passing
    )
    fan_light(home, room, "exhaust fan", (8, 4), (light, fan))
    mirror = home.wall_box(*at(room, ("right", 7)), home.device("wall light", lights, name="mirror", va=20))
    home.control("main bathroom", [by_door.devices[0]], [light, *mirror.feeds()], by_door)
    home.control("main bathroom fan", [by_door.devices[1]], [fan], by_door)
    home.wall_box(*at(room, ("right", 1.6)), home.device("ground-fault receptacle", on.up.baths, name="by the basin"))


def _main_bedroom(home: Builder, room: Area, on: Circuits) -> None:
    breaker = on.up.main_bedroom
    light, fan = home.feed(breaker, "light"), home.feed(breaker, "fan")
    speed = home.device("fan control", breaker, name="fan")
    by_door = home.wall_box(*at(room, ("right", 8.4)), switch(home, breaker), speed)
    fan_light(home, room, "ceiling fan", (8, 11), (light, fan))
    home.control("main bedroom", [by_door.devices[0]], [light], by_door)
    home.control("main bedroom fan", [by_door.devices[1]], [fan], by_door)
    alarm(home, room, on.up.hall, (8, 4.5))
    receptacles(home, room, breaker, ("left", 4), ("bottom", 3), ("right", 13), ("right", 18))
    receptacle(home, room, breaker, ("bottom", 13.2), "by the wardrobe")
    receptacle(home, room, breaker, ("left", 17), "by the bed", critical="medical: breathing machine at night")


def _second_bedroom(home: Builder, room: Area, on: Circuits) -> None:
    lit(home, room, on.up.lights, ("bottom", 9), (5.5, 6))
    receptacles(home, room, on.up.bedrooms, ("left", 4.4), ("left", 11.4), ("right", 3), ("right", 9))


def _bathroom(home: Builder, room: Area, on: Circuits) -> None:
    """Put in the bathroom upstairs: the heat lamp of its fan is on the circuit of the receptacles."""
    lights, plugs = on.up.bath_lights, on.up.baths
    light, fan, heat = home.feed(lights, "light"), home.feed(lights, "fan"), home.feed(plugs, "heater", said="person")
    three = switch(home, lights), switch(home, lights, "fan"), switch(home, plugs, "heat lamp")
    by_door = home.wall_box(*at(room, ("bottom", 5.8)), *three)
    fan_light(home, room, "exhaust fan", (3.4, 6.4), (light, fan, heat))
    for device, feed, name in zip(by_door.devices, (light, fan, heat), ("bathroom", "fan", "heat lamp"), strict=True):
        home.control(name, [device], [feed], by_door)
    home.wall_box(*at(room, ("right", 5.4)), home.device("ground-fault receptacle", plugs, name="by the basin"))


def _third_bedroom(home: Builder, room: Area, on: Circuits) -> None:
    lit(home, room, on.up.lights, ("bottom", 4.5), (5, 6))
    receptacles(home, room, on.up.bedrooms, ("left", 1.8), ("left", 10.2), ("right", 2))
    receptacle(home, room, on.up.bedrooms, ("right", 11), "by the desk")


def _landing(home: Builder, room: Area, on: Circuits, foot: Device) -> None:
    """Put in the landing: the stair light borrows its neutral from the front lights, downstairs."""
    hall = on.up.hall
    by_stair = home.wall_box(*at(room, ("right", 4.8)), stair_switch(home, on), switch(home, hall))
    lamp = home.ceiling_box(room, (ft(3), ft(9)), _borrowing_light(home, on))
    home.control("stairs", [foot, by_stair.devices[0]], lamp.feeds(), by_stair)
    home.control("landing", [by_stair.devices[1]], lamps(home, room, hall, (6, 2.5)), by_stair)
    alarm(home, room, hall, (6, 12.5))
    receptacles(home, room, on.up.bedrooms, ("top", 2.4), ("right", 9.6))


def _borrowing_light(home: Builder, on: Circuits) -> Device:
    returns = FromBreaker(kind="breaker", breaker=on.down.front_lights)
    feed = change(home.feed(on.up.lights, said="person"), returns=returns, note="Its neutral runs down to the porch.")
    return home.device("ceiling light", feed, name="over the stairs", va=60)


def _upper_hall(home: Builder, room: Area, on: Circuits) -> None:
    lit(home, room, on.up.hall, ("top", 1.5), (8.6, 2))


def _fourth_bedroom(home: Builder, room: Area, on: Circuits) -> None:
    lit(home, room, on.up.lights, ("top", 5.6), (5.5, 6))
    receptacles(home, room, on.up.sewing, ("left", 9.4), ("right", 4))
    receptacle(home, room, on.up.sewing, ("right", 10.4), "by the armchair", critical="medical: oxygen concentrator")
    receptacle(home, room, None, ("bottom", 1.4), "behind the chest of drawers")


def _sewing(home: Builder, room: Area, on: Circuits) -> None:
    lit(home, room, on.up.lights, ("top", 4.9), (4.5, 6))
    receptacles(home, room, on.up.sewing, ("left", 7.2), ("right", 3.4), ("right", 9.4))
