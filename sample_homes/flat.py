"""Flat 6, Mill Quay: an invented metric flat on a single-row consumer unit with a residual-current device."""

from dataclasses import dataclass

from floorplan_circuits.home.boxes import Box
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.log import Traced
from floorplan_circuits.home.power import Panel, Permission

from .builder import Area, Builder, behind, elsewhere, rectangle  # relative: packaged with the program
from .testing import Evening, opened, solo_pass

OWNER = "owner"


@dataclass(frozen=True, slots=True)
class Rooms:
    """The rooms, in the order of a walk from the front door."""

    hall: Area
    bedroom: Area
    study: Area
    kitchen: Area
    living: Area
    bathroom: Area
    store: Area


@dataclass(frozen=True, slots=True)
class Circuits:
    """The breakers by what they feed."""

    sockets: int
    kitchen: int
    lights: int
    bath_lights: int
    cooker: int
    washer: int
    water: int


def build() -> Home:
    """Return the flat."""
    home = Builder("Flat 6, Mill Quay", units="metric", system="single-phase 230")
    rooms = _rooms(home, home.level("Third floor", 3))
    _openings(home, rooms)
    circuits = _consumer_unit(home, rooms.store)
    boxes = {
        "hall": _hall(home, rooms, circuits),
        "bedroom": _bedroom(home, rooms.bedroom, circuits),
        "study": _study(home, rooms.study, circuits),
        "kitchen": _kitchen(home, rooms.kitchen, circuits),
        "living": _living(home, rooms.living, circuits),
        "bathroom": _bathroom(home, rooms, circuits),
        "store": _store(home, rooms.store, circuits),
    }
    _join_switches(home, boxes)
    _log(home, circuits, boxes)
    return home.home()


# --- the drawing: millimetres, 0, 0 the outer corner of the bedroom -------------------------------------------------


def _rooms(home: Builder, level: int) -> Rooms:
    def room(name: str, use: str, *outline: tuple[int, int]) -> Area:
        return home.room(level, name, outline, use, "copper", "present")

    around_hall = ((6100, 3400), (9200, 3400), (9200, 7400), (4000, 7400), (4000, 4700), (6100, 4700))
    return Rooms(
        hall=room("Hall", "hall", *rectangle(0, 3400, 6100, 4700)),
        bedroom=room("Bedroom", "bedroom", *rectangle(0, 0, 3500, 3400)),
        study=room("Study", "study", *rectangle(3500, 0, 6100, 3400)),
        kitchen=room("Kitchen", "kitchen", *rectangle(6100, 0, 9200, 3400)),
        living=room("Living room", "living room", *around_hall),
        bathroom=room("Bathroom", "bathroom", *rectangle(0, 4700, 2400, 7400)),
        store=room("Store", "utility", *rectangle(2400, 4700, 4000, 7400)),
    )


def _openings(home: Builder, rooms: Rooms) -> None:
    home.opening("door", rooms.hall, "left", 650, 900, "left ahead")
    home.opening("door", rooms.hall, "right", 650, 800, "right behind")
    home.opening("door", rooms.bedroom, "bottom", 2700, 800, "left ahead")
    home.opening("door", rooms.study, "bottom", 800, 800, "right ahead")
    home.opening("door", rooms.bathroom, "top", 1200, 700, "left ahead")
    home.opening("door", rooms.store, "top", 800, 700, "right behind")
    home.opening("open way", rooms.kitchen, "bottom", 1500, 1200)
    home.opening("window", rooms.bedroom, "top", 1750, 1400)
    home.opening("window", rooms.study, "top", 1300, 1200)
    home.opening("window", rooms.kitchen, "top", 1550, 1200)
    home.opening("window", rooms.living, "bottom", 2600, 1600)
    home.opening("window", rooms.bathroom, "left", 1300, 600)
    home.opening("door", rooms.living, "right", 2000, 900, "left behind")


# --- the consumer unit ----------------------------------------------------------------------------------------------


def _consumer_unit(home: Builder, store: Area) -> Circuits:
    unit = home.panel(
        Panel(
            id=home.number(),
            name="Consumer unit",
            place="store, left of the shelves",
            level=store.level,
            at=store.on_side("left", 1300),
            angle=0,
            spaces=12,
            numbering="single row",
            system="single-phase 230",
        ),
        main_amps=63,
        utility="Meter in the stairwell",
    )
    guard = _residual_current_device(home, unit)
    borrowed_neutral = home.number()
    circuits = Circuits(
        sockets=home.breaker(unit, "3", 32, "ring", behind=guard),
        kitchen=home.breaker(unit, "4", 32, "kit skts", behind=guard),
        washer=home.breaker(unit, "5", 16, "w/m", behind=guard),
        lights=home.breaker(unit, "6", 6, "lts", neutral=borrowed_neutral),
        bath_lights=home.breaker(unit, "7", 6, "lts bth", neutral=borrowed_neutral),
        cooker=home.breaker(unit, "8", 32, "ckr"),
        water=home.breaker(unit, "9", 16, "wtr", may_open=Permission(may="ask", whose=OWNER, why="hot water")),
    )
    home.breaker(unit, "10", 16, "spare")
    return circuits


def _residual_current_device(home: Builder, unit: Panel) -> int:
    return home.breaker(
        unit,
        "1 2",
        63,
        "RCD test quarterly",
        opens="hot and neutral",
        protects=("residual current",),
        wording="Residual-current device: protects 3, 4 and 5",
    )


# --- room by room: every place is measured from the left or top end of its wall --------------------------------------


def _hall(home: Builder, rooms: Rooms, on: Circuits) -> list[Box]:
    room = rooms.hall
    by_entrance = home.device("three-way switch", on.bath_lights), home.device("switch", on.lights, name="store")
    by_living = home.device("three-way switch", on.bath_lights), home.device("switch", on.lights, name="living room")
    bell = home.feed(elsewhere("the house service"), said="person")
    bell_low = home.feed(behind(bell), "secondary", said="person", volts="low")
    alarm = home.device("smoke alarm", on.bath_lights, va=5, continuous=True, critical="smoke alarm")
    return [
        home.wall_box(room, "top", 500, *by_entrance),
        home.wall_box(room, "bottom", 5500, *by_living),
        home.ceiling_box(room, (2200, 650), home.device("ceiling light", on.bath_lights, va=20)),
        home.ceiling_box(room, (3600, 650), alarm),
        home.wall_box(room, "bottom", 2050, home.device("double duplex receptacle", on.sockets)),
        home.wall_box(
            room,
            "top",
            1300,
            home.device("doorbell transformer", bell, bell_low, name="entry phone", va=10),
            passing=(home.feed(on.bath_lights),),
            note="Stays live with the main switch off.",
        ),
    ]


def _bedroom(home: Builder, room: Area, on: Circuits) -> list[Box]:
    return [
        home.wall_box(room, "bottom", 2050, home.device("switch", on.lights)),
        home.ceiling_box(room, (1750, 1700), home.device("ceiling light", on.lights, va=20)),
        home.wall_box(room, "left", 900, home.device("duplex receptacle", on.sockets)),
        home.wall_box(room, "left", 2600, home.device("duplex receptacle", on.sockets)),
        home.wall_box(room, "right", 700, home.device("duplex receptacle", on.sockets)),
    ]


def _study(home: Builder, room: Area, on: Circuits) -> list[Box]:
    return [
        home.wall_box(room, "bottom", 1450, home.device("dimmer", on.lights)),
        home.ceiling_box(room, (1300, 1600), home.device("ceiling light", on.lights, va=20)),
        home.wall_box(room, "left", 1800, home.device("double duplex receptacle", on.sockets)),
        home.wall_box(room, "right", 1000, home.device("duplex receptacle", None), note="Behind the bookcase."),
    ]


def _kitchen(home: Builder, room: Area, on: Circuits) -> list[Box]:
    cooker, beside = home.device("cooker point", on.cooker, va=7200), home.device("single receptacle", on.kitchen)
    fridge = home.device("single receptacle", on.kitchen, name="refrigerator", critical="the food in it")
    return [
        home.wall_box(room, "bottom", 550, home.device("switch", on.lights)),
        home.ceiling_box(room, (1550, 1700), home.device("strip light", on.lights, va=40)),
        home.wall_box(room, "right", 1800, cooker, beside),
        home.wall_box(room, "top", 450, home.device("double duplex receptacle", on.kitchen)),
        home.wall_box(room, "right", 800, home.device("double duplex receptacle", on.kitchen)),
        home.wall_box(room, "left", 2400, fridge),
        home.wall_box(
            room, "right", 2900, home.device("single receptacle", on.washer, name="washing machine", va=2200)
        ),
    ]


def _living(home: Builder, room: Area, on: Circuits) -> list[Box]:
    reset = home.feed(on.sockets)
    balcony = home.feed(behind(reset), said="person")
    passing = (home.feed(on.lights, said="person"),)
    return [
        home.ceiling_box(room, (2900, 2600), home.device("ceiling light", on.lights, va=40)),
        home.wall_box(room, "right", 900, home.device("double duplex receptacle", on.sockets)),
        home.wall_box(room, "right", 3000, home.device("ground-fault receptacle", reset)),
        home.outdoor_box(room, "bottom", 4500, home.device("outdoor receptacle", balcony, name="balcony")),
        home.wall_box(room, "bottom", 900, home.device("double duplex receptacle", on.sockets), passing=passing),
        home.wall_box(room, "left", 2400, home.device("duplex receptacle", on.sockets)),
    ]


def _bathroom(home: Builder, rooms: Rooms, on: Circuits) -> list[Box]:
    room = rooms.bathroom
    return [
        home.wall_box(rooms.hall, "bottom", 550, home.device("switch", on.bath_lights, name="bathroom")),
        home.ceiling_box(room, (1200, 900), home.device("ceiling light", on.bath_lights, va=20)),
        home.ceiling_box(room, (1200, 2000), home.device("exhaust fan", home.feed(on.bath_lights, "fan"), va=30)),
        home.wall_box(room, "bottom", 1200, home.device("wall light", on.bath_lights, name="mirror", va=10)),
    ]


def _store(home: Builder, room: Area, on: Circuits) -> list[Box]:
    heater = home.device("fixed appliance", on.water, name="water heater", va=3000)
    cables = (home.feed(on.lights, said="person"), home.feed(None))
    cut = home.device("loose cable end", None, name="cut cable")
    return [
        home.ceiling_box(room, (800, 900), home.device("ceiling light", on.lights, va=10)),
        home.wall_box(room, "bottom", 800, heater),
        home.ceiling_box(room, (900, 2000), home.device("junction box"), passing=cables),
        home.box(room, room.on_side("right", 300), cut, angle=180, mount="loose cable end", reach="above the shelves"),
    ]


def _join_switches(home: Builder, boxes: dict[str, list[Box]]) -> None:
    entrance, living = boxes["hall"][:2]
    lamp = {room: found.devices[0].feeds for room, found in _lamps(boxes).items()}
    home.control("hall", [entrance.devices[0], living.devices[0]], lamp["hall"], entrance)
    home.control("store", entrance.devices[1:], lamp["store"], entrance)
    home.control("living room", living.devices[1:], lamp["living"], living)
    for room in ("bedroom", "study", "kitchen"):
        home.control(room, boxes[room][0].devices, lamp[room], boxes[room][0])
    bath, fan, mirror = (box.devices[0].feeds for box in boxes["bathroom"][1:])
    home.control("bathroom", boxes["bathroom"][0].devices, [*bath, *fan, *mirror], boxes["bathroom"][0])


def _lamps(boxes: dict[str, list[Box]]) -> dict[str, Box]:
    lit = {room: [box for box in found if box.devices[0].kind in LAMPS] for room, found in boxes.items()}
    return {room: found[0] for room, found in lit.items()}


LAMPS = ("ceiling light", "strip light")


# --- what was seen --------------------------------------------------------------------------------------------------


def _log(home: Builder, on: Circuits, boxes: dict[str, list[Box]]) -> None:
    everything = [box for room in boxes.values() for box in room]
    not_reached = [*boxes["bedroom"][3:4], *boxes["living"][5:]]
    sockets = [box for box in everything if "receptacle" in box.devices[0].kind and box not in not_reached]
    lit = [box for room in ("hall", "bedroom", "kitchen", "bathroom", "living", "store") for box in boxes[room]]
    by_lamp = [box for box in lit if box.devices[0].kind in {*LAMPS, "switch", "three-way switch", "exhaust fan"}]
    tester = Evening("2026-02-07", OWNER, "low-impedance meter")
    lamps = Evening("2026-02-08", OWNER, "the fixture itself")
    solo_pass(home, tester, [on.sockets, on.kitchen, on.washer], sockets)
    solo_pass(home, lamps, [on.lights, on.bath_lights], by_lamp)
    opened(home, "2026-02-14", OWNER, *boxes["hall"][:2], *boxes["bedroom"][:3], boxes["kitchen"][2])
    heater = boxes["store"][1].devices[0].feeds[0]
    home.log.append(
        Traced(id=home.number(), kind="traced", date="2026-02-15", who=OWNER, feed=heater.id, handle=on.water, passes=2)
    )
