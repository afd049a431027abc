"""Plausible homes of any size from a seed, with the wiring as built kept beside what the home states."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from math import ceil, isqrt
from random import Random
from typing import Literal

from floorplan_circuits.home.boxes import NOT_KNOWN, Box, Control, Device, Feed, Mount, Supplied
from floorplan_circuits.home.building import Level, Opening, Room
from floorplan_circuits.home.home import Home, existing_feeds
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.home.log import LogEntry, Reading, Round, Tester
from floorplan_circuits.home.record import Point, change
from floorplan_circuits.home.table import Table
from tests.homes_panels import Service, build_panels
from tests.homes_wired import Plan, Wire, furnishings, passing_wires, stated, surprised

DEVICES_A_ROOM = 13
OPENING_HALF_MM = 450
SPOT_EVERY_MM = 600
ROOM_SIDES_MM = range(3600, 5500, 100)

Says = Literal["dead", "live"]


@dataclass(frozen=True, slots=True)
class Generated:
    """A home and the wiring as built: for each existing feed the breakers that really feed it.

    A feed in `outside` comes from elsewhere: it is live whatever is off here.
    """

    home: Home
    truth: Mapping[int, frozenset[int]]
    outside: frozenset[int]


def generate(seed: int, devices: int, levels: int = 1) -> Generated:
    """Build a home of exactly `devices` devices, about 12.5 a room; each room meets three circuits."""
    rng = Random(seed)
    rooms = max(1, ceil(devices / DEVICES_A_ROOM))
    service = build_panels(rng, circuits=round(8 + 0.65 * rooms), loads_240=max(1, rooms // 10))
    site = _Site(rng, service, next_id=service.next_id)
    each_level = ceil(rooms / levels)
    quotas = [devices // rooms + (place < devices % rooms) for place in range(rooms)]
    for order in range(levels):
        level = Level(id=site.number(), name=f"Level {order}", order=order)
        site.levels.append(level)
        mine = range(order * each_level, min(rooms, (order + 1) * each_level))
        for place, cell in zip(mine, _grid(rng, len(mine)), strict=True):
            _fill_room(site, level.id, cell, quotas[place], _Near.of(service, place, rooms))
    return Generated(site.home(f"Generated {seed}"), site.truth, frozenset(site.outside))


# --- answers from the truth -----------------------------------------------------------------------------------------


def readings(generated: Generated, off: frozenset[int]) -> dict[int, Says]:
    """Return what every existing feed shows while these breakers and mains are off."""
    closed = _closed_breakers(generated.home, off)
    return {
        feed: "live" if feed in generated.outside or not breakers.isdisjoint(closed) else "dead"
        for feed, breakers in generated.truth.items()
    }


def _closed_breakers(home: Home, off: frozenset[int]) -> set[int]:
    """Return the breakers with a closed way to the utility. A panel's feeder stands in a panel before it."""
    live_panels: set[int] = set()
    for panel in home.panels:
        feeder = panel.fed_by[0]
        fed = feeder.kind == "source" or (
            feeder.breaker not in off and home.breakers[feeder.breaker].panel in live_panels
        )
        if fed and not any(main.id in off for main in panel.mains):
            live_panels.add(panel.id)
    return {breaker.id for breaker in home.breakers if breaker.id not in off and breaker.panel in live_panels}


def solo_rounds(generated: Generated, breakers: Sequence[int], others: int = 5) -> tuple[Round, ...]:
    """Return the log of an honest solo pass: all on, each breaker off alone, all on again. Add it with `with_log`.

    While one is off, the feeds that are on it or stated to be are read, and the first few `others`. Breakers that were
    found off stay off throughout and have no round of their own.
    """
    home = generated.home
    resting = tuple(breaker.id for breaker in home.breakers if breaker.found.state == "off")
    read = {breaker: _worth_reading(generated, breaker, others) for breaker in breakers if breaker not in resting}
    everything = sorted({feed for feeds in read.values() for feed in feeds})
    steps = [(None, everything), *read.items(), (None, everything)]
    return tuple(
        _round(generated, home.next_id + place, (*resting, *(() if handle is None else (handle,))), feeds)
        for place, (handle, feeds) in enumerate(steps)
    )


def with_log(home: Home, entries: Iterable[LogEntry]) -> Home:
    """Return the home with these entries at the end of its log, its counter past them."""
    log = (*home.log, *entries)
    return change(home, log=log, next_id=max(home.next_id, *(entry.id + 1 for entry in log)))


def _worth_reading(generated: Generated, breaker: int, others: int) -> list[int]:
    mine: list[int] = []
    rest: list[int] = []
    for place in existing_feeds(generated.home):
        if place.device is None or place.feed.volts != "mains":
            continue
        stated = isinstance(place.feed.on, Supplied) and any(
            supply.kind == "breaker" and supply.breaker == breaker for supply in place.feed.on.supplies
        )
        of_it = stated or breaker in generated.truth[place.feed.id]
        (mine if of_it else rest).append(place.feed.id)
    return mine + rest[:others]


def _round(generated: Generated, number: int, off: tuple[int, ...], feeds: Iterable[int]) -> Round:
    said = readings(generated, frozenset(off))
    two_hots = {
        feed.id
        for box in generated.home.boxes
        for device in box.devices
        for feed in device.feeds
        if kind_named(device.kind).hots > 1
    }
    return Round(
        id=number,
        kind="round",
        date="2026-04-11",
        who="owner",
        off=off,
        method="two-lead tester",
        tester=Tester(before=True, after=True),
        readings=tuple(Reading(feed=feed, says=said[feed], each_hot=feed in two_hots) for feed in feeds),
    )


# --- the building ---------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Cell:
    """One room's place in the grid of its level, and on which sides another room lies."""

    left: int
    top: int
    right: int
    bottom: int
    has_right: bool
    has_below: bool
    outer_top: bool

    @property
    def outline(self) -> tuple[Point, ...]:
        return (self.left, self.top), (self.right, self.top), (self.right, self.bottom), (self.left, self.bottom)


def _grid(rng: Random, count: int) -> Iterator[_Cell]:
    columns = max(1, isqrt(max(0, count - 1)) + 1)
    rows = ceil(count / columns)
    xs, ys = _steps(rng, columns), _steps(rng, rows)
    for place in range(count):
        row, column = divmod(place, columns)
        right = column + 1 < columns and place + 1 < count
        yield _Cell(xs[column], ys[row], xs[column + 1], ys[row + 1], right, place + columns < count, row == 0)


def _steps(rng: Random, count: int) -> list[int]:
    at = [0]
    for _ in range(count):
        at.append(at[-1] + rng.choice(ROOM_SIDES_MM))
    return at


def _wall_spots(cell: _Cell) -> list[tuple[Point, int]]:
    """Return where wall boxes may be, and how they face: clear of corners and of the middle, where openings are.

    Those on top and left walls stand between those that back onto them, so that no two boxes share a place.
    """
    across, down = (cell.left, cell.right), (cell.top, cell.bottom)
    return [
        *(((x, cell.top), 90) for x in _along(*across, 400)),
        *(((cell.right, y), 180) for y in _along(*down, 700)),
        *(((x, cell.bottom), 270) for x in _along(*across, 700)),
        *(((cell.left, y), 0) for y in _along(*down, 400)),
    ]


def _along(start: int, end: int, first: int) -> list[int]:
    reach = (end - start) // 2 - OPENING_HALF_MM - 100
    steps = range(first, reach + 1, SPOT_EVERY_MM)
    return [start + step for step in steps] + [end - step for step in reversed(steps)]


def _ceiling_spots(cell: _Cell) -> list[Point]:
    width, depth = cell.right - cell.left, cell.bottom - cell.top
    quarters = ((2, 2), (1, 1), (3, 3), (1, 3), (3, 1))
    return [(cell.left + width * x // 4, cell.top + depth * y // 4) for x, y in quarters]


# --- what is in a room ----------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Near:
    """The three circuits a room meets, any of all for a surprise, and its own 240 V breaker if it has one."""

    circuits: tuple[int, ...]
    all: tuple[int, ...]
    load_240: int | None

    @classmethod
    def of(cls, service: Service, place: int, rooms: int) -> "_Near":
        first = place * len(service.circuits) // rooms
        three = tuple(service.circuits[(first + step) % len(service.circuits)] for step in range(3))
        every = rooms // len(service.loads_240)
        of_room = place // every if place % every == 0 else len(service.loads_240)
        return cls(three, service.circuits, service.loads_240[of_room] if of_room < len(service.loads_240) else None)


@dataclass
class _Site:
    """What has been built so far."""

    rng: Random
    service: Service
    next_id: int
    levels: list[Level] = field(default_factory=list)
    rooms: list[Room] = field(default_factory=list)
    openings: list[Opening] = field(default_factory=list)
    boxes: list[Box] = field(default_factory=list)
    controls: list[Control] = field(default_factory=list)
    truth: dict[int, frozenset[int]] = field(default_factory=dict)
    outside: set[int] = field(default_factory=set)
    reset: int = 0
    """The last ground-fault receptacle's feed: the next receptacle hangs behind it."""

    def number(self) -> int:
        self.next_id += 1
        return self.next_id - 1

    def home(self, name: str) -> Home:
        return Home(
            name=name,
            system="split-phase 120/240",
            next_id=self.next_id,
            levels=Table(self.levels),
            rooms=Table(self.rooms),
            openings=Table(self.openings),
            boxes=Table(self.boxes),
            controls=Table(self.controls),
            panels=Table(self.service.panels),
            breakers=Table(self.service.breakers),
            sources=Table(self.service.sources),
        )


def _fill_room(site: _Site, level: int, cell: _Cell, quota: int, near: _Near) -> None:
    site.rooms.append(Room(id=site.number(), level=level, name=f"Room {len(site.rooms) + 1}", outline=cell.outline))
    _add_openings(site, level, cell)
    walls, ceiling = _wall_spots(cell), _ceiling_spots(cell)
    site.rng.shuffle(walls)
    first_box, left = len(site.boxes), quota
    for mount, plans in furnishings(site.rng, near.circuits, near.load_240):
        if not left:
            break
        built = plans[:left]
        left -= len(built)
        at, angle = walls.pop() if mount == "wall" else (ceiling.pop(0), 90)
        _add_box(site, level, (at, angle), mount, built, near)
    _add_control(site, site.boxes[first_box:])


def _add_box(
    site: _Site, level: int, spot: tuple[Point, int], mount: Mount, plans: Sequence[Plan], near: _Near
) -> None:
    devices = tuple(_device(site, plan, slot, near) for slot, plan in enumerate(plans, 1))
    passing = tuple(_feed(site, wire, near) for wire in passing_wires(site.rng, near.circuits, plans[0].kind))
    site.boxes.append(
        Box(
            id=site.number(),
            mark=f"B{len(site.boxes) + 1}",
            level=level,
            at=spot[0],
            angle=spot[1],
            height=kind_named(plans[0].kind).height,
            mount=mount,
            gangs=len(devices),
            devices=devices,
            passing=passing,
            wiring="copper",
        )
    )


def _device(site: _Site, plan: Plan, slot: int, near: _Near) -> Device:
    feeds = tuple(_feed(site, wire, near, planned=plan.planned) for wire in plan.wires)
    return Device(id=site.number(), slot=slot, kind=plan.kind, feeds=feeds, va=plan.va, planned=plan.planned)


def _feed(site: _Site, wire: Wire, near: _Near, planned: bool = False) -> Feed:
    wire = surprised(site.rng, wire, near.all)
    if wire.behind_reset:
        wire = Wire(site.truth[site.reset], wire.part, behind_reset=True, outside=site.reset in site.outside)
    on = stated(site.rng, wire, near.circuits, site.reset)
    feed = Feed(id=site.number(), part=wire.part, on=on, said_by="not said" if on == NOT_KNOWN else "label")
    if wire.is_reset:
        site.reset = feed.id
    if not planned:
        site.truth[feed.id] = wire.on
        if wire.outside:
            site.outside.add(feed.id)
    return feed


def _add_control(site: _Site, boxes: Sequence[Box]) -> None:
    """Join the room's first switch and its first light, where both were built."""
    devices = [device for box in boxes for device in box.devices]
    switch = next((device for device in devices if device.kind == "switch"), None)
    if switch is not None:
        lamp = devices[0].feeds[0].id
        site.controls.append(Control(id=site.number(), switches=(switch.id,), feeds=(lamp,), by="hand"))


def _add_openings(site: _Site, level: int, cell: _Cell) -> None:
    middle_x, middle_y = (cell.left + cell.right) // 2, (cell.top + cell.bottom) // 2

    def opening(kind: Literal["door", "window"], at: Point, angle: int) -> None:
        hinge: Literal["left", "none"] = "left" if kind == "door" else "none"
        width = 2 * OPENING_HALF_MM - 100
        site.openings.append(
            Opening(id=site.number(), level=level, kind=kind, at=at, width=width, angle=angle, hinge=hinge)
        )

    opening("door" if cell.has_right else "window", (cell.right, middle_y), 180)
    opening("door" if cell.has_below else "window", (middle_x, cell.bottom), 270)
    if cell.outer_top:
        opening("window", (middle_x, cell.top), 90)
