"""A small builder for invented homes: it counts the ids, marks the boxes and puts wall boxes on their walls."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Literal

from floorplan_circuits.home.boxes import (
    NOT_KNOWN,
    Behind,
    Box,
    Control,
    Device,
    Feed,
    FromBreaker,
    FromElsewhere,
    Hangs,
    Mount,
    Supplied,
    Wiring,
)
from floorplan_circuits.home.building import Level, Opening, Room, Stair
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.home.lengths import Units
from floorplan_circuits.home.log import LogEntry
from floorplan_circuits.home.power import Breaker, Main, Panel, Pole, Source, System
from floorplan_circuits.home.record import Point, change
from floorplan_circuits.home.table import Table

Side = Literal["top", "right", "bottom", "left"]
Ground = Literal["present", "absent", "not known"]
SaidBy = Literal["label", "person", "not said"]
SwitchedBy = Literal["hand", "photocell"]

FACING_IN: dict[Side, int] = {"top": 90, "right": 180, "bottom": 270, "left": 0}
"""Where a box on that side of a room faces, in degrees: into the room."""


def ft(feet: float, inches: float = 0) -> int:
    """Return feet and inches as whole millimetres, rounded."""
    return round((feet * 12 + inches) * 25.4)


def on(breaker: int, pole: int | None = None) -> Supplied:
    """Hang on one breaker."""
    return Supplied(how="any", supplies=(FromBreaker(kind="breaker", breaker=breaker, pole=pole),))


def across(breaker: int) -> Supplied:
    """Hang across both poles of a breaker, as a 240 V load does."""
    return Supplied(how="all", supplies=tuple(FromBreaker(kind="breaker", breaker=breaker, pole=at) for at in (0, 1)))


def behind(feed: Feed) -> Behind:
    """Hang in series behind another feed."""
    return Behind(how="behind", feed=feed.id)


def elsewhere(where: str) -> Supplied:
    """Hang on something outside the home's own panels."""
    return Supplied(how="any", supplies=(FromElsewhere(kind="elsewhere", where=where),))


@dataclass(frozen=True, slots=True)
class Area:
    """A room's bounding rectangle in millimetres, and what the wiring of its walls is like."""

    level: int
    left: int
    top: int
    right: int
    bottom: int
    wiring: Wiring
    ground: Ground

    def on_side(self, side: Side, along: int) -> Point:
        """Return the place on a side, `along` millimetres from its left or top end."""
        if side in ("top", "bottom"):
            return self.left + along, self.top if side == "top" else self.bottom
        return self.left if side == "left" else self.right, self.top + along

    def inside(self, across_mm: int, down: int) -> Point:
        """Return the place inside, measured from the top left corner."""
        return self.left + across_mm, self.top + down


@dataclass
class Builder:
    """Collects the records of one home. Every verb adds one thing and returns it, or its id."""

    name: str
    units: Units
    system: System
    next_id: int = 1
    levels: list[Level] = field(default_factory=list)
    rooms: list[Room] = field(default_factory=list)
    openings: list[Opening] = field(default_factory=list)
    stairs: list[Stair] = field(default_factory=list)
    boxes: list[Box] = field(default_factory=list)
    controls: list[Control] = field(default_factory=list)
    panels: list[Panel] = field(default_factory=list)
    breakers: list[Breaker] = field(default_factory=list)
    sources: list[Source] = field(default_factory=list)
    log: list[LogEntry] = field(default_factory=list)

    def number(self) -> int:
        """Return the next id."""
        self.next_id += 1
        return self.next_id - 1

    # --- the drawing ------------------------------------------------------------------------------------------------

    def level(self, name: str, order: int = 0) -> int:
        """Add a level."""
        self.levels.append(Level(id=self.number(), name=name, order=order))
        return self.levels[-1].id

    def room(self, level: int, name: str, outline: tuple[Point, ...], use: str, wiring: Wiring, ground: Ground) -> Area:
        """Add a room; `wiring` and `ground` go for every box and receptacle that is put in it later."""
        self.rooms.append(Room(id=self.number(), level=level, name=name, use=use, outline=outline))
        xs, ys = [x for x, _ in outline], [y for _, y in outline]
        return Area(level, min(xs), min(ys), max(xs), max(ys), wiring, ground)

    def opening(
        self,
        kind: Literal["door", "window", "open way"],
        area: Area,
        side: Side,
        along: int,
        width: int,
        hand: str = "",
    ) -> None:
        """Add an opening in a side of a room. `hand` such as 'left ahead' tells a door's hinge and swing."""
        hinge, _, swing = hand.partition(" ")
        fields = {"hinge": hinge, "swing": swing} if hand else {}
        at, angle = area.on_side(side, along), FACING_IN[side]
        self.openings.append(
            Opening.model_validate(
                {"id": self.number(), "level": area.level, "kind": kind, "at": at, "width": width, "angle": angle}
                | fields
            )
        )

    def stair(self, foot: int, head: int, at: Point, climbs: Side) -> None:
        """Add a flight from the level `foot` to the level `head`; `at` is the middle of its lowest step."""
        angle = (FACING_IN[climbs] + 180) % 360
        self.stairs.append(Stair(id=self.number(), level=foot, head=head, at=at, angle=angle))

    # --- boxes ------------------------------------------------------------------------------------------------------

    def feed(
        self,
        hangs: int | Hangs | None,
        part: str = "",
        said: SaidBy = "label",
        volts: Literal["mains", "low", "not known"] = "mains",
    ) -> Feed:
        """Make a feed: on a breaker (its id), on what is given, or on nothing known (None, said by nobody)."""
        stated = NOT_KNOWN if hangs is None else on(hangs) if isinstance(hangs, int) else hangs
        said_by = "not said" if hangs is None else said
        return Feed(id=self.number(), part=part, on=stated, volts=volts, said_by=said_by)

    def device(
        self,
        kind: str,
        *hangs: int | Hangs | Feed | None,
        name: str = "",
        va: int | None = None,
        continuous: bool = False,
        critical: str = "",
    ) -> Device:
        """Make a device with one feed for each thing it hangs on."""
        feeds = tuple(given if isinstance(given, Feed) else self.feed(given) for given in hangs)
        return Device(
            id=self.number(), kind=kind, name=name, feeds=feeds, va=va, continuous=continuous, critical=critical
        )

    def wall_box(
        self, area: Area, side: Side, along: int, *devices: Device, passing: tuple[Feed, ...] = (), note: str = ""
    ) -> Box:
        """Put a box on a side of a room, facing in, a gang for each device."""
        return self.box(area, area.on_side(side, along), *devices, angle=FACING_IN[side], passing=passing, note=note)

    def ceiling_box(self, area: Area, at: Point, *devices: Device, passing: tuple[Feed, ...] = ()) -> Box:
        """Put a box on the ceiling, at a place measured from the room's top left corner."""
        return self.box(area, area.inside(*at), *devices, mount="ceiling", passing=passing)

    def outdoor_box(self, area: Area, side: Side, along: int, *devices: Device) -> Box:
        """Put a box on the outer face of a room's wall, facing out."""
        out = (FACING_IN[side] + 180) % 360
        return self.box(area, area.on_side(side, along), *devices, angle=out, mount="outdoor")

    def box(
        self,
        area: Area,
        at: Point,
        *devices: Device,
        angle: int = 90,
        mount: Mount = "wall",
        passing: tuple[Feed, ...] = (),
        reach: str = "",
        note: str = "",
    ) -> Box:
        """Put a box at a place on the level, with the next mark."""
        placed = tuple(_in_gang(device, gang, area.ground) for gang, device in enumerate(devices, 1))
        made = Box(
            id=self.number(),
            mark=f"B{len(self.boxes) + 1}",
            level=area.level,
            at=at,
            angle=angle,
            height=kind_named(devices[0].kind).height if devices else None,
            mount=mount,
            reach=reach,
            gangs=max(1, len(devices)),
            devices=placed,
            passing=passing,
            wiring=area.wiring,
            note=note,
        )
        self.boxes.append(made)
        return made

    def control(
        self,
        name: str,
        switches: Iterable[Device],
        feeds: Iterable[Feed],
        enters: Box | None = None,
        by: SwitchedBy = "hand",
    ) -> None:
        """Say which switches, or what else, switch which feeds, and in which box the power enters."""
        self.controls.append(
            Control(
                id=self.number(),
                name=name,
                switches=tuple(device.id for device in switches),
                feeds=tuple(feed.id for feed in feeds),
                by=by,
                enters=None if enters is None else enters.id,
            )
        )

    # --- power ------------------------------------------------------------------------------------------------------

    def panel(self, panel: Panel, main_amps: int, utility: str) -> Panel:
        """Add a panel with one main, fed by the utility's source of that name. The panel comes without ids of them."""
        source = Source(id=self.number(), name=utility, kind="utility", into=(panel.id,), starts="always")
        feeder = {"kind": "source", "source": source.id}
        main = Main(id=self.number(), name="Main", amps=main_amps)
        self.sources.append(source)
        self.panels.append(change(panel, mains=(main,), fed_by=(feeder,)))
        return self.panels[-1]

    def subpanel(self, panel: Panel, feeder: int) -> Panel:
        """Add a panel without a main of its own, fed by a breaker of another panel."""
        self.panels.append(change(panel, fed_by=({"kind": "breaker", "breaker": feeder},)))
        return self.panels[-1]

    def breaker(
        self,
        panel: Panel,
        spaces: str,
        amps: int,
        as_found: str = "",
        neutral: int | Literal["own"] | None = None,
        **fields: object,
    ) -> int:
        """Add a breaker in spaces such as '5', '2 4' or '9A'; it opens its hots unless `fields` say otherwise."""
        poles = tuple(_pole(space, neutral) for space in spaces.split())
        opens = "hot" if len(poles) == 1 else "both hots"
        made = Breaker.model_validate(
            {"id": self.number(), "panel": panel.id, "poles": poles, "amps": amps, "as_found": as_found, "opens": opens}
            | fields
        )
        self.breakers.append(made)
        return made.id

    def home(self) -> Home:
        """Return the home that was built."""
        return Home(
            name=self.name,
            units=self.units,
            system=self.system,
            next_id=self.next_id,
            marks_given=max((int(box.mark[1:]) for box in self.boxes), default=0),
            levels=Table(self.levels),
            rooms=Table(self.rooms),
            openings=Table(self.openings),
            stairs=Table(self.stairs),
            boxes=Table(self.boxes),
            controls=Table(self.controls),
            panels=Table(self.panels),
            breakers=Table(self.breakers),
            sources=Table(self.sources),
            log=tuple(self.log),
        )


def rectangle(left: int, top: int, right: int, bottom: int) -> tuple[Point, ...]:
    """Return the outline of a rectangular room, in millimetres."""
    return (left, top), (right, top), (right, bottom), (left, bottom)


def _in_gang(device: Device, gang: int, ground: Ground) -> Device:
    known = ground if kind_named(device.kind).group == "receptacle" else "not known"
    return change(device, slot=gang, ground=known)


def _pole(space: str, neutral: int | Literal["own"] | None) -> Pole:
    number, half = space.rstrip("AB"), space.lstrip("0123456789")
    fields = {"space": int(number), "half": half or None}
    return Pole.model_validate(fields if neutral is None else fields | {"neutral": neutral})
