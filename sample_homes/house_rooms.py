"""The rooms of the two-storey house: levels, outlines, openings and stairs, in feet from the back left corner."""

from dataclasses import dataclass

from floorplan_circuits.home.record import Point

from .builder import Area, Builder, ft, rectangle  # relative: packaged with the program


@dataclass(frozen=True, slots=True)
class Basement:
    """The rooms under the house."""

    workshop: Area
    furnace_room: Area
    store: Area
    recreation: Area
    exercise: Area


@dataclass(frozen=True, slots=True)
class Ground:
    """The rooms of the ground floor, back to front, and the garage at its right."""

    family: Area
    kitchen: Area
    laundry: Area
    powder: Area
    living: Area
    entry: Area
    passage: Area
    dining: Area
    study: Area
    garage: Area


@dataclass(frozen=True, slots=True)
class Upper:
    """The rooms upstairs, back to front."""

    main_bath: Area
    second_bedroom: Area
    bathroom: Area
    third_bedroom: Area
    main_bedroom: Area
    landing: Area
    upper_hall: Area
    fourth_bedroom: Area
    sewing: Area


@dataclass(frozen=True, slots=True)
class House:
    """All rooms, level by level."""

    basement: Basement
    ground: Ground
    upper: Upper


def draw(home: Builder) -> House:
    """Draw the three levels, their openings and the two flights that join them."""
    below, ground, above = home.level("Basement", -1), home.level("Ground floor", 0), home.level("Upper floor", 1)
    house = House(_basement(home, below), _ground(home, ground), _upper(home, above))
    home.stair(below, ground, (ft(24.5), ft(27)), climbs="top")
    home.stair(ground, above, (ft(17.5), ft(27)), climbs="top")
    _basement_openings(home, house.basement)
    _ground_outer_openings(home, house.ground)
    _ground_inner_openings(home, house.ground)
    _upper_windows(home, house.upper)
    _upper_doors(home, house.upper)
    return house


def _room(home: Builder, level: int, name: str, use: str, left: float, top: float, right: float, bottom: float) -> Area:
    outline = rectangle(ft(left), ft(top), ft(right), ft(bottom))
    return home.room(level, name, outline, use, "copper", "present")


# --- basement -------------------------------------------------------------------------------------------------------


def _basement(home: Builder, level: int) -> Basement:
    return Basement(
        workshop=_room(home, level, "Workshop", "utility", 0, 0, 16, 13),
        furnace_room=_room(home, level, "Furnace room", "utility", 16, 0, 31, 13),
        store=_room(home, level, "Store", "utility", 31, 0, 46, 13),
        recreation=_room(home, level, "Recreation room", "living", 0, 13, 26, 30),
        exercise=_room(home, level, "Exercise room", "living", 26, 13, 46, 30),
    )


def _basement_openings(home: Builder, rooms: Basement) -> None:
    home.opening("window", rooms.workshop, "top", ft(8), ft(3))
    home.opening("window", rooms.recreation, "left", ft(8.5), ft(3))
    home.opening("window", rooms.exercise, "right", ft(8), ft(3))
    home.opening("door", rooms.workshop, "bottom", ft(13), ft(2, 8), "left ahead")
    home.opening("door", rooms.furnace_room, "bottom", ft(4), ft(2, 8), "right ahead")
    home.opening("door", rooms.store, "left", ft(11), ft(2, 6), "left ahead")
    home.opening("door", rooms.exercise, "left", ft(2), ft(2, 8), "left ahead")


# --- ground floor ---------------------------------------------------------------------------------------------------


def _ground(home: Builder, level: int) -> Ground:
    round_powder: tuple[Point, ...] = tuple(
        (ft(x), ft(y)) for x, y in ((31, 0), (38, 0), (38, 7), (46, 7), (46, 13), (31, 13))
    )
    return Ground(
        family=_room(home, level, "Family room", "living", 0, 0, 16, 13),
        kitchen=_room(home, level, "Kitchen", "kitchen", 16, 0, 31, 13),
        laundry=home.room(level, "Laundry", round_powder, "laundry", "copper", "present"),
        powder=_room(home, level, "Powder room", "bath", 38, 0, 46, 7),
        living=_room(home, level, "Living room", "living", 0, 13, 16, 30),
        entry=_room(home, level, "Entry hall", "hall", 16, 13, 26, 30),
        passage=_room(home, level, "Passage", "hall", 26, 13, 46, 17),
        dining=_room(home, level, "Dining room", "dining", 26, 17, 36, 30),
        study=_room(home, level, "Study", "study", 36, 17, 46, 30),
        garage=_room(home, level, "Garage", "garage", 46, 8, 66, 30),
    )


def _ground_outer_openings(home: Builder, rooms: Ground) -> None:
    home.opening("door", rooms.family, "top", ft(11), ft(3), "left ahead")
    home.opening("door", rooms.entry, "bottom", ft(5), ft(3), "left ahead")
    home.opening("door", rooms.garage, "bottom", ft(10), ft(16))
    home.opening("door", rooms.garage, "top", ft(15), ft(3), "left ahead")
    home.opening("window", rooms.family, "top", ft(4), ft(4))
    home.opening("window", rooms.family, "left", ft(6), ft(4))
    home.opening("window", rooms.kitchen, "top", ft(7.5), ft(4))
    home.opening("window", rooms.laundry, "top", ft(4.5), ft(3))
    home.opening("window", rooms.powder, "right", ft(3), ft(2))
    home.opening("window", rooms.living, "bottom", ft(8), ft(6))
    home.opening("window", rooms.living, "left", ft(9), ft(4))
    home.opening("window", rooms.dining, "bottom", ft(5), ft(5))
    home.opening("window", rooms.study, "bottom", ft(5), ft(4))
    home.opening("window", rooms.garage, "right", ft(9), ft(4))


def _ground_inner_openings(home: Builder, rooms: Ground) -> None:
    home.opening("open way", rooms.family, "right", ft(8), ft(5))
    home.opening("open way", rooms.family, "bottom", ft(9), ft(5))
    home.opening("open way", rooms.living, "right", ft(2), ft(3))
    home.opening("open way", rooms.entry, "right", ft(2), ft(3, 4))
    home.opening("open way", rooms.passage, "top", ft(2.5), ft(3))
    home.opening("open way", rooms.passage, "top", ft(14), ft(3))
    home.opening("open way", rooms.dining, "top", ft(5), ft(4))
    home.opening("door", rooms.study, "top", ft(3), ft(2, 8), "left ahead")
    home.opening("door", rooms.powder, "bottom", ft(2), ft(2, 4), "left ahead")
    home.opening("door", rooms.laundry, "right", ft(10.5), ft(3), "left ahead")


# --- upper floor ----------------------------------------------------------------------------------------------------


def _upper(home: Builder, level: int) -> Upper:
    return Upper(
        main_bath=_room(home, level, "Main bathroom", "bath", 0, 0, 16, 9),
        second_bedroom=_room(home, level, "Bedroom 2", "bedroom", 16, 0, 27, 13),
        bathroom=_room(home, level, "Bathroom", "bath", 27, 0, 36, 13),
        third_bedroom=_room(home, level, "Bedroom 3", "bedroom", 36, 0, 46, 13),
        main_bedroom=_room(home, level, "Main bedroom", "bedroom", 0, 9, 16, 30),
        landing=_room(home, level, "Landing", "stairs", 16, 13, 26, 30),
        upper_hall=_room(home, level, "Upper hall", "hall", 26, 13, 46, 17),
        fourth_bedroom=_room(home, level, "Bedroom 4", "bedroom", 26, 17, 37, 30),
        sewing=_room(home, level, "Sewing room", "study", 37, 17, 46, 30),
    )


def _upper_windows(home: Builder, rooms: Upper) -> None:
    home.opening("window", rooms.main_bath, "top", ft(8), ft(3))
    home.opening("window", rooms.second_bedroom, "top", ft(6), ft(5))
    home.opening("window", rooms.bathroom, "top", ft(4), ft(2, 6))
    home.opening("window", rooms.third_bedroom, "top", ft(5), ft(4))
    home.opening("window", rooms.third_bedroom, "right", ft(6.5), ft(4))
    home.opening("window", rooms.main_bedroom, "bottom", ft(8), ft(6))
    home.opening("window", rooms.main_bedroom, "left", ft(11), ft(5))
    home.opening("window", rooms.landing, "bottom", ft(5), ft(4))
    home.opening("window", rooms.fourth_bedroom, "bottom", ft(5.5), ft(5))
    home.opening("window", rooms.sewing, "bottom", ft(4.5), ft(4))


def _upper_doors(home: Builder, rooms: Upper) -> None:
    home.opening("open way", rooms.landing, "right", ft(2), ft(3, 4))
    home.opening("door", rooms.main_bath, "bottom", ft(4), ft(2, 8), "left ahead")
    home.opening("door", rooms.main_bedroom, "right", ft(6), ft(2, 8), "right ahead")
    home.opening("door", rooms.second_bedroom, "bottom", ft(7), ft(2, 8), "left ahead")
    home.opening("door", rooms.bathroom, "bottom", ft(2.5), ft(2, 6), "left ahead")
    home.opening("door", rooms.third_bedroom, "bottom", ft(2.2), ft(2, 8), "left ahead")
    home.opening("door", rooms.fourth_bedroom, "top", ft(3), ft(2, 8), "left ahead")
    home.opening("door", rooms.sewing, "top", ft(2.2), ft(2, 8), "left ahead")
