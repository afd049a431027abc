"""Cottage at Alder Bend: an invented North American cottage, old cloth wiring in half of it, one 12-space panel."""

from dataclasses import dataclass

from floorplan_circuits.home.boxes import Box, Device, Wiring
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.log import Change, ReceptacleTest
from floorplan_circuits.home.power import Found, Panel, Permission

from .builder import Area, Builder, Ground, across, behind, ft, rectangle  # relative: packaged with the program
from .testing import Evening, opened, solo_pass

OWNER, HELPER = "owner", "helper"


@dataclass(frozen=True, slots=True)
class Rooms:
    """The rooms, back to front."""

    back_bedroom: Area
    bathroom: Area
    back_hall: Area
    kitchen: Area
    hall: Area
    front_bedroom: Area
    living: Area
    dining: Area


@dataclass(frozen=True, slots=True)
class Circuits:
    """The breakers by what they really feed."""

    plugs: int
    front_lights: int
    bath_lights: int
    kitchen_a: int
    kitchen_b: int
    range: int
    dryer: int
    bedrooms: int
    pump: int


def build() -> Home:
    """Return the cottage."""
    home = Builder("Cottage at Alder Bend", units="feet and inches", system="split-phase 120/240")
    ground = home.level("Ground floor")
    rooms = _rooms(home, ground)
    _outer_openings(home, rooms)
    _inner_openings(home, rooms)
    circuits = _panel(home, rooms.back_hall)
    boxes = {
        "living": _living(home, rooms.living, circuits),
        "front bedroom": _front_bedroom(home, rooms.front_bedroom, circuits),
        "back bedroom": _back_bedroom(home, rooms.back_bedroom, circuits),
        "bathroom": _bathroom(home, rooms.bathroom, circuits),
        "back hall": _back_hall(home, rooms.back_hall, circuits),
        "kitchen": _kitchen(home, rooms.kitchen, circuits),
        "dining": _dining(home, rooms.dining, circuits),
        "hall": _hall(home, rooms.hall, circuits),
    }
    _join_living_switches(home, boxes["living"])
    _log(home, circuits, boxes)
    return home.home()


# --- the drawing ----------------------------------------------------------------------------------------------------


def _rooms(home: Builder, level: int) -> Rooms:
    east, front, hall_top, hall_foot = ft(36), ft(30), ft(12), ft(15, 6)

    def room(name: str, use: str, left: int, top: int, right: int, bottom: int, old: bool) -> Area:
        wiring: Wiring = "cloth" if old else "copper"
        earth: Ground = "absent" if old else "present"
        return home.room(level, name, rectangle(left, top, right, bottom), use, wiring, earth)

    return Rooms(
        back_bedroom=room("Back bedroom", "bedroom", 0, 0, ft(12), hall_top, old=True),
        bathroom=room("Bathroom", "bathroom", ft(12), 0, ft(19), hall_top, old=False),
        back_hall=room("Back hall", "utility", ft(19), 0, ft(26, 6), hall_top, old=False),
        kitchen=room("Kitchen", "kitchen", ft(26, 6), 0, east, hall_foot, old=False),
        hall=room("Hall", "hall", 0, hall_top, ft(26, 6), hall_foot, old=True),
        front_bedroom=room("Front bedroom", "bedroom", 0, hall_foot, ft(11), front, old=True),
        living=room("Living room", "living room", ft(11), hall_foot, ft(26, 6), front, old=True),
        dining=room("Dining room", "dining room", ft(26, 6), hall_foot, east, front, old=False),
    )


def _outer_openings(home: Builder, rooms: Rooms) -> None:
    home.opening("door", rooms.living, "bottom", ft(3), ft(3), "left ahead")
    home.opening("door", rooms.back_hall, "top", ft(5), ft(3), "right ahead")
    home.opening("window", rooms.living, "bottom", ft(10), ft(5))
    home.opening("window", rooms.front_bedroom, "bottom", ft(4, 6), ft(4))
    home.opening("window", rooms.front_bedroom, "left", ft(7, 6), ft(3))
    home.opening("window", rooms.back_bedroom, "top", ft(5), ft(4))
    home.opening("window", rooms.bathroom, "top", ft(3, 6), ft(2))
    home.opening("window", rooms.kitchen, "top", ft(4, 9), ft(4))
    home.opening("window", rooms.dining, "bottom", ft(5), ft(4))
    home.opening("window", rooms.dining, "right", ft(7, 6), ft(4))


def _inner_openings(home: Builder, rooms: Rooms) -> None:
    home.opening("door", rooms.back_bedroom, "bottom", ft(10), ft(2, 8), "left ahead")
    home.opening("door", rooms.bathroom, "bottom", ft(2, 6), ft(2, 6), "left ahead")
    home.opening("door", rooms.back_hall, "bottom", ft(4), ft(2, 8), "right ahead")
    home.opening("door", rooms.front_bedroom, "top", ft(9), ft(2, 8), "left ahead")
    home.opening("open way", rooms.living, "top", ft(6, 6), ft(4))
    home.opening("open way", rooms.kitchen, "left", ft(13, 9), ft(2, 8))
    home.opening("open way", rooms.kitchen, "bottom", ft(4, 6), ft(4))
    home.opening("open way", rooms.living, "right", ft(5), ft(5))


# --- the panel ------------------------------------------------------------------------------------------------------


def _panel(home: Builder, back_hall: Area) -> Circuits:
    panel = home.panel(
        Panel(
            id=home.number(),
            name="Main panel",
            place="back hall, behind the coats",
            level=back_hall.level,
            at=back_hall.on_side("left", ft(9)),
            angle=0,
            spaces=12,
            numbering="odd left, even right",
            system="split-phase 120/240",
            note="The door's list is in two hands, and half of it has faded.",
        ),
        main_amps=100,
        utility="Utility meter",
    )
    shared_neutral = home.number()
    circuits = Circuits(
        plugs=home.breaker(panel, "1A", 15, "plugs"),
        front_lights=home.breaker(panel, "1B", 15, "lts frnt"),
        range=home.breaker(panel, "2 4", 40, "rnge"),
        bath_lights=home.breaker(panel, "3", 15, "bth lts"),
        kitchen_a=home.breaker(panel, "5", 20, "kit", neutral=shared_neutral),
        kitchen_b=home.breaker(panel, "7", 20, "kit + wshr", neutral=shared_neutral),
        dryer=home.breaker(panel, "6 8", 30, "dryr"),
        bedrooms=home.breaker(panel, "9A", 15, "bdrms"),
        pump=_resting_pump(home, panel),
    )
    home.breaker(panel, "9B", 15, "spare?", found=Found(state="on"))
    return circuits


def _resting_pump(home: Builder, panel: Panel) -> int:
    return home.breaker(
        panel,
        "10",
        15,
        "pmp",
        found=Found(state="off", why="the well pump was taken out, its cable still runs to the garden"),
        may_open=Permission(may="ask", whose=OWNER, why="leave it off: nobody knows where its cable ends"),
        wording="Old well pump: leave off",
    )


# --- room by room: every place is measured from the left or top end of its wall --------------------------------------


def _living(home: Builder, room: Area, on: Circuits) -> list[Box]:
    porch = home.device("outdoor light", on.bath_lights, name="porch light", va=40)
    by_door = home.device("switch", on.bath_lights, name="porch")
    return [
        home.wall_box(room, "bottom", ft(5, 2), by_door, home.device("three-way switch", on.front_lights)),
        home.wall_box(room, "top", ft(9, 2), home.device("three-way switch", on.front_lights)),
        home.ceiling_box(room, (ft(7, 9), ft(7)), home.device("ceiling light", on.front_lights, va=60)),
        home.wall_box(room, "left", ft(4), home.device("duplex receptacle", on.plugs)),
        home.wall_box(room, "left", ft(11), home.device("duplex receptacle", on.plugs)),
        home.wall_box(room, "bottom", ft(14), home.device("duplex receptacle", on.plugs)),
        home.wall_box(room, "top", ft(13), home.device("duplex receptacle", on.plugs, name="by the stove")),
        home.outdoor_box(room, "bottom", ft(0, 10), porch),
    ]


def _join_living_switches(home: Builder, boxes: list[Box]) -> None:
    by_door, by_hall, lamp = boxes[:3]
    home.control("porch", [by_door.devices[0]], boxes[7].devices[0].feeds, by_door)
    home.control("living room", [by_door.devices[1], by_hall.devices[0]], lamp.devices[0].feeds, by_door)


def _lamp_and_switch(home: Builder, switch: Box, lamp: Box) -> None:
    home.control("", [switch.devices[0]], lamp.devices[0].feeds, switch)


def _front_bedroom(home: Builder, room: Area, on: Circuits) -> list[Box]:
    switch = home.wall_box(room, "top", ft(6, 10), home.device("switch", on.bedrooms))
    lamp = home.ceiling_box(room, (ft(5, 6), ft(7, 3)), home.device("ceiling light", on.bedrooms, va=60))
    _lamp_and_switch(home, switch, lamp)
    return [
        switch,
        lamp,
        home.wall_box(room, "left", ft(4), home.device("duplex receptacle", on.bedrooms, name="by the bed")),
        home.wall_box(room, "left", ft(11), home.device("duplex receptacle", None), note="Behind the wardrobe."),
        home.wall_box(room, "right", ft(8), home.device("duplex receptacle", on.plugs)),
    ]


def _back_bedroom(home: Builder, room: Area, on: Circuits) -> list[Box]:
    light, fan = home.feed(on.bedrooms, "light"), home.feed(on.bedrooms, "fan")
    switch = home.wall_box(room, "bottom", ft(8), home.device("switch", on.bedrooms))
    ceiling = home.ceiling_box(room, (ft(6), ft(6)), home.device("ceiling fan", light, fan, va=90))
    home.control("back bedroom", switch.devices, [light, fan], switch)
    return [
        switch,
        ceiling,
        home.wall_box(room, "left", ft(3), home.device("duplex receptacle", on.bedrooms)),
        home.wall_box(room, "left", ft(9), home.device("duplex receptacle", on.bedrooms)),
        home.wall_box(room, "top", ft(10), home.device("duplex receptacle", on.bedrooms)),
    ]


def _bathroom(home: Builder, room: Area, on: Circuits) -> list[Box]:
    reset = home.feed(on.plugs, said="person")
    to_reset = home.feed(on.plugs, said="person")
    light, fan = home.feed(on.bath_lights, "light"), home.feed(on.bath_lights, "fan")
    switches = home.device("switch", on.bath_lights, name="light"), home.device("switch", on.bath_lights, name="fan")
    by_door = home.wall_box(
        room,
        "bottom",
        ft(4, 7),
        *switches,
        passing=(to_reset,),
        note="A cable passes on to the ground-fault receptacle.",
    )
    exhaust = home.ceiling_box(room, (ft(4), ft(5)), home.device("exhaust fan", light, fan, va=80))
    vanity = home.wall_box(room, "left", ft(4), home.device("wall light", on.bath_lights, va=40))
    home.control("bathroom light", switches[:1], [light, *vanity.devices[0].feeds], by_door)
    home.control("bathroom fan", switches[1:], [fan], by_door)
    return [
        by_door,
        exhaust,
        vanity,
        home.wall_box(room, "right", ft(6), home.device("ground-fault receptacle", reset)),
        home.outdoor_box(room, "top", ft(6), home.device("outdoor receptacle", behind(reset), name="garden")),
    ]


def _back_hall(home: Builder, room: Area, on: Circuits) -> list[Box]:
    inside, outside = home.device("switch", on.front_lights), home.device("switch", on.bath_lights, name="garden")
    by_door = home.wall_box(room, "top", ft(2, 8), inside, outside)
    lamp = home.ceiling_box(room, (ft(3, 9), ft(5, 6)), home.device("ceiling light", on.front_lights, va=40))
    garden = home.outdoor_box(room, "top", ft(7), home.device("outdoor light", on.bath_lights, va=40))
    home.control("back hall", [inside], lamp.devices[0].feeds, by_door)
    home.control("garden", [outside], garden.devices[0].feeds, by_door)
    bell = home.feed(on.bath_lights)
    chime = home.feed(behind(bell), "secondary", said="person", volts="low")
    return [
        by_door,
        lamp,
        garden,
        home.wall_box(room, "right", ft(2), home.device("240 V receptacle", across(on.dryer), name="dryer", va=5400)),
        home.wall_box(room, "right", ft(4, 6), home.device("single receptacle", on.kitchen_b, name="washer", va=1000)),
        home.wall_box(
            room,
            "right",
            ft(7),
            home.device("fixed appliance", on.front_lights, name="furnace", critical="the heating"),
        ),
        home.wall_box(room, "left", ft(3), home.device("doorbell transformer", bell, chime, va=10)),
        _pump_cable(home, room, on),
    ]


def _pump_cable(home: Builder, room: Area, on: Circuits) -> Box:
    end = home.device("loose cable end", home.feed(None), name="cut cable")
    at = room.on_side("left", ft(11, 3))
    return home.box(room, at, end, angle=0, mount="loose cable end", passing=(home.feed(on.pump),), reach="low down")


def _kitchen(home: Builder, room: Area, on: Circuits) -> list[Box]:
    switch = home.wall_box(room, "left", ft(11), home.device("switch", on.front_lights))
    lamp = home.ceiling_box(room, (ft(4, 9), ft(7, 6)), home.device("ceiling light", on.front_lights, va=60))
    _lamp_and_switch(home, switch, lamp)
    dishwasher = home.device("fixed appliance", on.kitchen_b, name="dishwasher", va=1200)
    fridge = home.device("duplex receptacle", on.kitchen_a, name="refrigerator", critical="the food in it")
    return [
        switch,
        lamp,
        home.wall_box(room, "top", ft(1, 6), _split(home, on)),
        home.wall_box(room, "top", ft(8), _split(home, on)),
        home.wall_box(room, "right", ft(5), dishwasher),
        home.wall_box(room, "right", ft(8), home.device("240 V receptacle", across(on.range), name="range", va=9600)),
        home.wall_box(room, "left", ft(9), fridge),
    ]


def _split(home: Builder, on: Circuits) -> Device:
    """Make a receptacle whose halves hang on the two legs of the multiwire pair."""
    halves = home.feed(on.kitchen_a, "upper"), home.feed(on.kitchen_b, "lower")
    return home.device("split receptacle", *halves)


def _dining(home: Builder, room: Area, on: Circuits) -> list[Box]:
    dimmer = home.wall_box(room, "top", ft(7, 4), home.device("dimmer", on.front_lights))
    lamp = home.ceiling_box(room, (ft(4, 9), ft(7, 3)), home.device("ceiling light", on.front_lights, va=100))
    _lamp_and_switch(home, dimmer, lamp)
    return [
        dimmer,
        lamp,
        home.wall_box(room, "right", ft(3, 6), home.device("duplex receptacle", on.plugs)),
        home.wall_box(room, "right", ft(12), home.device("duplex receptacle", on.plugs)),
    ]


def _hall(home: Builder, room: Area, on: Circuits) -> list[Box]:
    lamp = home.ceiling_box(room, (ft(9), ft(1, 9)), home.device("ceiling light", on.bath_lights, va=40))
    ends = [
        home.wall_box(room, "top", along, home.device("three-way switch", on.bath_lights))
        for along in (ft(12, 8), ft(24, 9))
    ]
    home.control("hall", [end.devices[0] for end in ends], lamp.devices[0].feeds, ends[0])
    alarm = home.device("smoke alarm", on.bath_lights, va=5, continuous=True, critical="smoke alarm")
    cables = (home.feed(on.front_lights, said="person"), home.feed(None))
    splice = home.device("junction box")
    return [
        lamp,
        *ends,
        home.ceiling_box(room, (ft(5, 6), ft(1, 9)), alarm),
        home.ceiling_box(room, (ft(18), ft(1, 9)), splice, passing=cables),
    ]


# --- what was seen --------------------------------------------------------------------------------------------------


def _log(home: Builder, on: Circuits, boxes: dict[str, list[Box]]) -> None:
    everything = [box for room in boxes.values() for box in room]
    receptacles = [box for box in everything if "receptacle" in box.devices[0].kind]
    not_reached = boxes["kitchen"][4:5] + boxes["living"][6:7]
    lit = [box for room in ("living", "back bedroom", "bathroom", "kitchen", "hall") for box in boxes[room]]
    battery = [box for box in lit if box.devices[0].kind == "smoke alarm"]  # lives on without the mains: no witness
    lamps = [box for box in lit if box not in [*receptacles, *not_reached, *battery]]
    stubborn = boxes["front bedroom"][2].devices[0].feeds
    tester = Evening("2026-03-14", OWNER, "two-lead tester", (on.pump,), stubborn)
    by_lamp = Evening("2026-03-15", HELPER, "the fixture itself", (on.pump,))
    handles = [on.plugs, on.range, on.kitchen_a, on.kitchen_b, on.dryer, on.bedrooms]
    solo_pass(home, tester, handles, [box for box in receptacles if box not in not_reached])
    solo_pass(home, by_lamp, [on.front_lights, on.bath_lights, on.bedrooms], lamps)
    opened(home, "2026-03-21", OWNER, *boxes["living"][:2], boxes["bathroom"][0], *boxes["back bedroom"][:3])
    _afterwards(home, boxes)


def _afterwards(home: Builder, boxes: dict[str, list[Box]]) -> None:
    """Log a fault that a receptacle tester showed, and a wall that was rewired after the tests."""
    outlet, dining = boxes["living"][3].devices[0], boxes["dining"][2]
    home.log.append(
        ReceptacleTest(
            id=home.number(), kind="tester", date="2026-04-02", who=OWNER, device=outlet.id, shows="open ground"
        )
    )
    note = "A new cable to this receptacle: the old one was nicked by a nail."
    home.log.append(
        Change(
            id=home.number(), kind="change", date="2026-05-03", who=OWNER, what="rewired", boxes=(dining.id,), note=note
        )
    )
