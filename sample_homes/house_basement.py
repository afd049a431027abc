"""The basement of the two-storey house, room by room; places in feet along a wall or from a corner."""

from floorplan_circuits.home.boxes import Device, FromBreaker, Supplied

from .builder import Area, Builder, across, behind, ft  # relative: packaged with the program
from .house_circuits import Circuits
from .house_parts import alarm, appliance, at, lamps, lit, receptacle, receptacles, switch
from .house_rooms import Basement


def basement(home: Builder, rooms: Basement, on: Circuits, head: Device) -> None:
    """Put in every box of the basement; `head` is the switch at the head of its stairs."""
    _workshop(home, rooms.workshop, on)
    _furnace_room(home, rooms.furnace_room, on)
    _store(home, rooms.store, on)
    _recreation(home, rooms.recreation, on, head)
    _exercise(home, rooms.exercise, on)


def _workshop(home: Builder, room: Area, on: Circuits) -> None:
    lit(home, room, on.down.basement_lights, ("bottom", 10.3), (4.5, 7), (10.5, 5), kind="strip light")
    receptacles(home, room, on.down.workshop, ("left", 3), ("left", 9.5), ("top", 3), ("top", 13))
    receptacle(home, room, on.down.workshop, ("right", 4), "at the bench")
    _hidden_splice(home, room, on)


def _hidden_splice(home: Builder, room: Area, on: Circuits) -> None:
    """Put in a junction box that nobody can reach: two cables enter, and only one of them is known."""
    cables = home.feed(on.down.workshop, said="person"), home.feed(None)
    home.box(
        room,
        room.inside(ft(4.5), ft(3.4)),
        home.device("junction box"),
        mount="hidden",
        passing=cables,
        reach="behind the drywall of the ceiling, above the shelves",
    )


def _furnace_room(home: Builder, room: Area, on: Circuits) -> None:
    lit(home, room, on.down.basement_lights, ("bottom", 6.6), (7, 7))
    appliance(home, room, on.down.furnace, ("right", 2.6), "furnace", 800, critical="the heating")
    tank = home.device("240 V appliance", across(on.heavy.water_heater), name="water heater", va=4500)
    home.wall_box(*at(room, ("right", 6.2)), tank)
    receptacle(home, room, on.down.sump, ("top", 13), "sump pump", critical="keeps the basement dry", single=True)
    receptacles(home, room, on.down.basement, ("top", 4))
    bell = home.feed(on.down.front_lights)
    chime = home.feed(behind(bell), "secondary", said="person", volts="low")
    home.wall_box(*at(room, ("top", 8.4)), home.device("doorbell transformer", bell, chime, va=10))


def _store(home: Builder, room: Area, on: Circuits) -> None:
    lit(home, room, on.down.basement_lights, ("left", 8.9), (7.5, 6.5))
    receptacle(home, room, on.down.freezer, ("top", 4), "freezer", critical="the food in it", single=True)
    receptacle(home, room, on.down.freezer, ("top", 10), "second refrigerator", critical="the food in it", single=True)
    receptacles(home, room, on.down.basement, ("bottom", 8))
    end = home.device("loose cable end", None, name="cut cable")
    place = room.on_side("right", ft(7))
    home.box(room, place, end, angle=180, mount="loose cable end", reach="above the shelves")


def _recreation(home: Builder, room: Area, on: Circuits, head: Device) -> None:
    lights = on.down.basement_lights
    stair = home.device("three-way switch", lights, name="basement stairs")
    passing = (home.feed(on.down.basement, said="person"),)
    by_stair = home.wall_box(*at(room, ("bottom", 22)), stair, switch(home, lights), passing=passing)
    home.control("basement stairs", [head, by_stair.devices[0]], lamps(home, room, lights, (20.5, 10)), by_stair)
    home.control("recreation room", [by_stair.devices[1]], lamps(home, room, lights, (7, 9), (14, 9)), by_stair)
    alarm(home, room, on.up.hall, (20.5, 4.5))
    receptacles(home, room, on.down.basement, ("left", 4), ("left", 13), ("bottom", 4), ("bottom", 16))
    receptacle(home, room, None, ("top", 16.2), "behind the bookcase")
    _heater(home, room, on)


def _heater(home: Builder, room: Area, on: Circuits) -> None:
    """Put in a heater at 240 V on two single breakers that nothing ties: each leaves it dead and half of it live."""
    supplies = tuple(FromBreaker(kind="breaker", breaker=breaker) for breaker in on.heavy.heater)
    heater = home.device("240 V appliance", Supplied(how="all", supplies=supplies), name="baseboard heater", va=2000)
    home.wall_box(*at(room, ("bottom", 10)), heater, note="Its two breakers are not tied: turn off both.")


def _exercise(home: Builder, room: Area, on: Circuits) -> None:
    lit(home, room, on.down.basement_lights, ("left", 4.8), (6, 8.5), (14, 8.5))
    receptacles(home, room, on.down.basement, ("right", 3.5), ("right", 13), ("bottom", 4), ("bottom", 14))
    receptacle(home, room, on.down.basement, ("top", 10.4), "by the treadmill")
