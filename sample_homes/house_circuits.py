"""The panels of the two-storey house: 40 spaces in the basement, 8 in the garage, and what each breaker feeds."""

from dataclasses import dataclass

from floorplan_circuits.home.power import Found, Panel, Permission, Tie

from .builder import Area, Builder, ft  # relative: packaged with the program

OWNER = "owner"


@dataclass(frozen=True, slots=True)
class HeavyLoads:
    """The breakers of loads at 240 V: two poles each, but for the heater on two single ones that nothing ties."""

    range: int
    air_conditioner: int
    dryer: int
    water_heater: int
    heater: tuple[int, int]
    garage: int


@dataclass(frozen=True, slots=True)
class DownstairsCircuits:
    """The breakers of the ground floor and the basement."""

    kitchen: tuple[int, int]
    refrigerator: int
    dishwasher: int
    washer: int
    living: int
    family: int
    study: int
    front_lights: int
    back_lights: int
    furnace: int
    basement: int
    basement_lights: int
    sump: int
    workshop: int
    freezer: int
    outside: int
    resting: int


@dataclass(frozen=True, slots=True)
class UpstairsCircuits:
    """The breakers of the upper floor, and of what runs through the whole house."""

    baths: int
    bath_lights: int
    lights: int
    hall: int
    main_bedroom: int
    bedrooms: int
    sewing: int


@dataclass(frozen=True, slots=True)
class GarageCircuits:
    """The breakers of the garage's own panel."""

    receptacles: int
    lights: int
    openers: int
    yard: int
    welder: int


@dataclass(frozen=True, slots=True)
class Circuits:
    """All breakers, by what they feed."""

    heavy: HeavyLoads
    down: DownstairsCircuits
    up: UpstairsCircuits
    garage: GarageCircuits


def panels(home: Builder, furnace_room: Area, garage: Area) -> Circuits:
    """Add both panels and their breakers."""
    main = _main_panel(home, furnace_room)
    heavy = _heavy_loads(home, main)
    down = _downstairs(home, main)
    up = _upstairs(home, main)
    home.breaker(main, "34", 15, "?", found=Found(state="on"))
    home.breaker(main, "33", 15, "spare")
    sub = _garage_panel(home, garage, heavy.garage)
    return Circuits(heavy, down, up, _garage(home, sub))


def _main_panel(home: Builder, room: Area) -> Panel:
    panel = Panel(
        id=home.number(),
        name="Main panel",
        place="basement, furnace room, left of the door",
        level=room.level,
        at=room.on_side("left", ft(8)),
        angle=0,
        spaces=40,
        numbering="odd left, even right",
        system="split-phase 120/240",
        note="The list on the door is typed, with changes in pencil that nobody dated.",
    )
    return home.panel(panel, main_amps=200, utility="Utility meter")


def _garage_panel(home: Builder, garage: Area, feeder: int) -> Panel:
    panel = Panel(
        id=home.number(),
        name="Garage panel",
        prefix="G",
        place="garage, right wall",
        level=garage.level,
        at=garage.on_side("right", ft(14)),
        angle=180,
        spaces=8,
        numbering="odd left, even right",
        system="split-phase 120/240",
    )
    return home.subpanel(panel, feeder)


def _heavy_loads(home: Builder, main: Panel) -> HeavyLoads:
    return HeavyLoads(
        range=home.breaker(main, "1 3", 50, "RANGE"),
        air_conditioner=home.breaker(main, "2 4", 40, "A/C"),
        dryer=home.breaker(main, "5 7", 30, "DRYER"),
        water_heater=home.breaker(main, "6 8", 30, "HW HTR"),
        heater=(home.breaker(main, "29", 20, "HTR"), home.breaker(main, "31", 20, "HTR ??")),
        garage=home.breaker(main, "38 40", 60, "GAR. SUB", wording="Garage panel: everything numbered G"),
    )


def _downstairs(home: Builder, main: Panel) -> DownstairsCircuits:
    why_furnace, why_sump = "the heating stops, and the pipes can freeze", "the cellar floods when it rains"
    return DownstairsCircuits(
        kitchen=_tied_pair(home, main),
        refrigerator=home.breaker(main, "10", 20, "REFRIG."),
        dishwasher=home.breaker(main, "12", 20, "DW / DISP"),
        washer=home.breaker(main, "14", 20, "WASH"),
        living=home.breaker(main, "15", 20, "LR DR PLGS"),
        family=home.breaker(main, "16", 20, "FAM RM"),
        study=home.breaker(main, "17A", 15, "den"),
        front_lights=home.breaker(main, "26", 15, "LTS FRT"),
        back_lights=home.breaker(main, "30", 15, "LTS BK"),
        furnace=home.breaker(
            main, "22", 15, "FURN - DO NOT TURN OFF", may_open=Permission(may="ask", whose=OWNER, why=why_furnace)
        ),
        basement=home.breaker(main, "23", 20, "BSMT PLGS"),
        basement_lights=home.breaker(main, "27", 15, "BSMT LTS"),
        sump=home.breaker(main, "24", 20, "SUMP", may_open=Permission(may="ask", whose=OWNER, why=why_sump)),
        workshop=home.breaker(main, "25", 20, "SHOP"),
        freezer=home.breaker(main, "17B", 15, "FRZR"),
        outside=home.breaker(main, "28", 20, "OUTSD", protects=("ground fault",), neutral="own"),
        resting=_resting(home, main),
    )


def _tied_pair(home: Builder, main: Panel) -> tuple[int, int]:
    """Add the multiwire pair of the kitchen: one neutral, and two handles that the factory tied."""
    neutral, tie = home.number(), Tie(group=home.number(), made="by the factory")
    first = home.breaker(main, "9", 20, "KIT", neutral=neutral, tie=tie)
    return first, home.breaker(main, "11", 20, "KIT", neutral=neutral, tie=tie)


def _resting(home: Builder, main: Panel) -> int:
    why = "a note on it says 'pool?': there is no pool any more, and nobody has found where its cable ends"
    leave = Permission(may="ask", whose=OWNER, why="leave it off until its cable is found")
    return home.breaker(main, "32", 20, "pool?", found=Found(state="off", why=why), may_open=leave)


def _upstairs(home: Builder, main: Panel) -> UpstairsCircuits:
    oxygen = Permission(may="ask", whose=OWNER, why="the oxygen concentrator needs its bottle first")
    return UpstairsCircuits(
        baths=home.breaker(main, "13", 20, "BATHS GFI"),
        bath_lights=home.breaker(main, "36", 15, "BTH LT+FAN"),
        lights=home.breaker(main, "18A", 15, "UP LTS"),
        hall=home.breaker(main, "18B", 15, "HALL + SMOKES"),
        main_bedroom=home.breaker(main, "20", 15, "MBR AFCI", protects=("arc fault",), neutral="own"),
        bedrooms=home.breaker(main, "19", 15, "BR 2-3 AFCI", protects=("arc fault",), neutral="own"),
        sewing=home.breaker(main, "21", 15, "BR4 SEW", may_open=oxygen),
    )


def _garage(home: Builder, sub: Panel) -> GarageCircuits:
    circuits = GarageCircuits(
        receptacles=home.breaker(sub, "1", 20, "plugs"),
        lights=home.breaker(sub, "2", 15, "lts"),
        openers=home.breaker(sub, "3", 15, "drs"),
        yard=home.breaker(sub, "4", 15, "yd lts"),
        welder=home.breaker(sub, "5 7", 50, "weld"),
    )
    home.breaker(sub, "6", 20, "spare")
    return circuits
