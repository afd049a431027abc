"""Ways to walk: through doors and open ways, over stairs, and a guess where none is drawn."""

from floorplan_circuits.geometry.routes import NO_WAY_KNOWN, STAIR_MM, routes
from floorplan_circuits.home.building import Level, Opening, Room, Stair
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.table import Table


def room(number: int, left: int, level: int = 1) -> Room:
    return Room(
        id=number,
        level=level,
        name=f"R{number}",
        outline=((left, 0), (left + 4000, 0), (left + 4000, 3000), (left, 3000)),
    )


def building(*openings: Opening, stairs: tuple[Stair, ...] = ()) -> Home:
    return Home(
        next_id=100,
        levels=Table([Level(id=1, name="Down"), Level(id=2, name="Up", order=1)]),
        rooms=Table([room(10, 0), room(11, 4000), room(12, 8000), room(13, 0, level=2)]),
        openings=Table(openings),
        stairs=Table(stairs),
    )


def door(number: int, x: int, kind: str = "door", y: int = 1500) -> Opening:
    return Opening(id=number, level=1, kind=kind, at=(x, y), width=900, angle=0)


def far(home: Home, a: int, b: int) -> float:
    found = routes(home)
    return found.far(found.spots[a], [found.spots[b]])[found.spots[b]]


def test_the_way_goes_through_the_doors() -> None:
    assert far(building(door(20, 4000), door(21, 8000)), 10, 12) == 8000


def test_a_door_at_the_far_end_makes_the_way_longer() -> None:
    assert far(building(door(20, 4000, y=100)), 10, 11) > 4400


def test_nobody_walks_through_a_window_and_without_a_way_it_is_a_guess() -> None:
    assert far(building(door(20, 4000, kind="window")), 10, 11) == 4000 * NO_WAY_KNOWN


def test_a_stair_joins_the_rooms_of_two_levels() -> None:
    stair = Stair(id=30, level=1, head=2, at=(1000, 1000), angle=90)
    assert far(building(stairs=(stair,)), 10, 13) == 3000
    assert far(building(), 10, 13) == STAIR_MM


def test_an_empty_home_has_no_ways() -> None:
    assert routes(Home()).spots == {}
