"""Two buildings with printed or known floor areas, read as homes: areas, rooms of boxes, walls, zones.

Source: eppy (MIT, PyPI), which ships input files of the EnergyPlus building-energy program. `5ZoneSupRetPlenRAB.idf`
prints 'Floor Area: 463.6 m2 (5000 ft2)' and its corners in its header; the areas of its five parts are computed from
those corners. The hospital's 55 floors add up to 19 890.1 m² by shapely; no figure is printed. Their upper edges run
north, ours run down: every y is reversed.
"""

from collections.abc import Iterator
from functools import cache
from importlib.util import find_spec
from pathlib import Path
from random import Random

import pytest
import shapely

from floorplan_circuits.find import find
from floorplan_circuits.findings import Wall
from floorplan_circuits.geometry.rooms import PROBE_MM
from floorplan_circuits.geometry.walls import walls
from floorplan_circuits.home.boxes import Box, Device, Feed
from floorplan_circuits.home.building import Level, Room
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import problems
from floorplan_circuits.home.power import Breaker, Panel
from floorplan_circuits.home.table import Table

OFFICE = "V8_0_0/5ZoneSupRetPlenRAB.idf"
OFFICE_FLOOR_MM = 0
"""Height of the floor people walk on: below it is a supply plenum, above it a return plenum."""
HOSPITAL = "V_6_0/ASHRAE30pct.PI.Final11_Hospital_STD2010_Chicago.idf"
FIRST_CORNER = 10
"""Fields of a `BuildingSurface:Detailed` before its corners: name, type, construction, zone, ..., number of corners."""
BREAKERS = 6


@cache
def surfaces(name: str) -> tuple[tuple[str, ...], ...]:
    """The fields of every surface: comments start with '!', fields end with ',', objects with ';'."""
    spec = find_spec("eppy")  # not imported: only its data files are wanted
    assert spec is not None
    assert spec.submodule_search_locations
    path = Path(spec.submodule_search_locations[0]) / "resources" / "idffiles" / name
    lines = (line.partition("!")[0] for line in path.read_text(encoding="latin-1").splitlines())
    objects = (tuple(field.strip() for field in one.split(",")) for one in " ".join(lines).split(";"))
    return tuple(fields[1:] for fields in objects if fields[0].lower() == "buildingsurface:detailed")


def floors(name: str) -> Iterator[tuple[str, int, tuple[tuple[int, int], ...]]]:
    """Each floor's zone, height in mm, and outline in mm."""
    for _, kind, _, zone, *rest in surfaces(name):
        if kind.lower() == "floor":
            numbers = [round(float(field) * 1000) for field in rest[FIRST_CORNER - 4 :]]
            corners = [(x, -y) for x, y in zip(numbers[::3], numbers[1::3], strict=True)]
            yield zone, numbers[2], tuple(dict.fromkeys(corners))


def building(name: str, heights: frozenset[int] | None = None) -> Home:
    """A home of the building's floors, one level a height."""
    found = [one for one in floors(name) if heights is None or one[1] in heights]
    levels = {height: 1 + at for at, height in enumerate(sorted({height for _, height, _ in found}))}
    return Home(
        name=name,
        next_id=100_000,
        levels=Table(Level(id=at, name=f"Floor at {height}", order=at) for height, at in levels.items()),
        rooms=Table(
            Room(id=101 + at, level=levels[height], name=zone, outline=outline)
            for at, (zone, height, outline) in enumerate(found)
        ),
        panels=Table([Panel(id=50, name="Panel", spaces=12)]),
        breakers=Table(
            Breaker.model_validate({"id": 51 + at, "panel": 50, "poles": ({"space": at + 1},), "amps": 20})
            for at in range(BREAKERS)
        ),
    )


def office() -> Home:
    return building(OFFICE, frozenset({OFFICE_FLOOR_MM}))


def furnished(home: Home, seed: int, count: int) -> Home:
    """The same with boxes at random places of the ceilings, one device each, on circuits drawn by lot."""
    rng = Random(seed)
    boxes = []
    for at in range(count):
        room = rng.choice(home.rooms.rows)
        left, top, right, bottom = (int(edge) for edge in shapely.Polygon(room.outline).bounds)
        supply = {"kind": "breaker", "breaker": 51 + rng.randrange(BREAKERS)}
        feed = Feed.model_validate({"id": 3002 + 3 * at, "on": {"how": "any", "supplies": (supply,)}})
        device = Device(id=3001 + 3 * at, kind="ceiling light", feeds=(feed,))
        spot = rng.randint(left, right), rng.randint(top, bottom)
        boxes.append(
            Box(id=3000 + 3 * at, mark=f"B{at}", level=room.level, at=spot, mount="ceiling", devices=(device,))
        )
    return home.changed(boxes=Table(boxes))


BUILDINGS = {"office": office, "hospital": lambda: building(HOSPITAL)}


def square_metres(home: Home) -> list[float]:
    return [shape.area / 1e6 for shape in find(home).rooms.values()]


# --- areas ----------------------------------------------------------------------------------------------------------


def test_the_office_has_the_floor_area_its_file_prints() -> None:
    areas = square_metres(office())

    assert sum(areas) == pytest.approx(463.6, abs=0.1)
    assert sorted(areas) == pytest.approx(sorted([99.16, 42.73, 96.48, 42.73, 182.49]), abs=0.1)


def test_the_hospital_has_the_floor_area_computed_from_its_corners() -> None:
    areas = square_metres(building(HOSPITAL))

    assert len(areas) == 55
    assert sum(areas) == pytest.approx(19_890.1, abs=0.1)
    assert sum(area == pytest.approx(27.87, abs=0.01) for area in areas) >= 5  # rooms of 300 square feet


# --- integrity ------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", BUILDINGS)
def test_the_rules_of_integrity_hold(name: str) -> None:
    assert problems(furnished(BUILDINGS[name](), 1, 100)) == ()


# --- which room -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", BUILDINGS)
def test_every_box_is_in_a_room_that_covers_it_and_has_one_if_any_does(name: str) -> None:
    home = furnished(BUILDINGS[name](), 2, 1000)
    room_of = find(home).room_of
    located = 0
    for box in home.boxes:
        covering = {
            room.id
            for room in home.rooms
            if room.level == box.level and shapely.Polygon(room.outline).covers(shapely.Point(box.at))
        }
        assert (room_of[box.id] in covering) if covering else (room_of[box.id] is None)
        located += room_of[box.id] is not None
    assert located > 500


@pytest.mark.parametrize("name", BUILDINGS)
def test_a_box_on_a_wall_is_in_the_room_it_faces(name: str) -> None:
    home, rng, boxes, expected = BUILDINGS[name](), Random(3), [], {}
    for _ in range(400):
        room = rng.choice(home.rooms.rows)
        (ax, ay), (bx, by) = rng.choice(list(zip(room.outline, (*room.outline[1:], room.outline[0]), strict=True)))
        if (ax != bx and ay != by) or abs(ax - bx) + abs(ay - by) < 4 * PROBE_MM:
            continue
        middle = ((ax + bx) // 2, (ay + by) // 2)
        for angle, way in ((0, (1, 0)), (90, (0, 1)), (180, (-1, 0)), (270, (0, -1))):
            ahead = shapely.Point(middle[0] + way[0] * PROBE_MM, middle[1] + way[1] * PROBE_MM)
            if shapely.Polygon(room.outline).contains(ahead):
                number = 3000 + len(boxes)
                boxes.append(Box(id=number, mark=f"B{number}", level=room.level, at=middle, angle=angle, mount="wall"))
                expected[number] = room.id
    room_of = find(home.changed(boxes=Table(boxes))).room_of

    assert len(expected) > 100
    assert {number: room_of[number] for number in expected} == expected


# --- walls ----------------------------------------------------------------------------------------------------------


APART_MM = {"office": 0, "hospital": 2 * 9143}
"""Edges of two rooms of the hospital's top floor lie at 7.620 m and 7.622 m: 2 mm over each other, so each is a wall of
its own, and an outer one. Rooms drawn by hand snap together."""


@pytest.mark.parametrize("name", BUILDINGS)
def test_outer_walls_are_the_edge_of_all_rooms_of_a_level_and_inner_walls_the_rest(name: str) -> None:
    home, outer, every = BUILDINGS[name](), 0.0, 0.0
    for level in home.levels:
        rooms = [shapely.Polygon(room.outline) for room in home.rooms if room.level == level.id]
        edges = shapely.union_all([room.boundary for room in rooms])
        outer += shapely.intersection(edges, shapely.union_all(rooms).boundary).length
        every += edges.length
    found = walls(home)

    assert sum(length(wall) for wall in found if wall.outer) == pytest.approx(outer + APART_MM[name], abs=10)
    assert sum(map(length, found)) == pytest.approx(every, abs=10)


def length(wall: Wall) -> float:
    return float(shapely.LineString([wall.a, wall.b]).length)


def test_the_office_is_as_long_round_as_its_header_says() -> None:
    """The header: 30.5 m by 15.2 m."""
    outer = sum(length(wall) for wall in walls(office()) if wall.outer)

    assert outer == pytest.approx(2 * (30_500 + 15_200), abs=1)


# --- zones ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", BUILDINGS)
def test_every_room_with_devices_is_zoned_whole(name: str) -> None:
    home = furnished(BUILDINGS[name](), 4, 600)
    found = find(home)
    areas: dict[int, float] = {}
    for zone in found.zones:
        whole = shapely.Polygon()
        for ring in zone.rings:
            whole = whole.symmetric_difference(shapely.Polygon(ring))
        areas[zone.room] = areas.get(zone.room, 0.0) + whole.area

    assert set(areas) == {room for room in found.room_of.values() if room is not None}
    assert len(areas) >= min(len(home.rooms), 40)
    for room, area in areas.items():
        assert area == pytest.approx(found.rooms[room].area, abs=0.001e6)
