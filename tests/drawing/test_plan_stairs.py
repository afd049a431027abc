"""Stairs: a tread for every step, and a word where it can be read."""

from floorplan_circuits.drawing.frame import Frame
from floorplan_circuits.drawing.ink import Shape, Text, flat
from floorplan_circuits.drawing.overlaps import around, overlap
from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.drawing.placement import Ground
from floorplan_circuits.drawing.plan import plan
from floorplan_circuits.drawing.plan_stairs import flight_bounds, stair_words, stairs
from floorplan_circuits.find import find
from floorplan_circuits.home.building import Level, Stair
from floorplan_circuits.home.table import Table
from tests.drawing.drawn import bounds_of, box, breaker, device, fed, home, labels_of, room, symbols_of

LEVELS = Table([Level(id=1, name="Ground floor"), Level(id=2, name="Upper floor", order=1)])
FLIGHT = Stair(id=50, level=1, head=2, at=(1000, 1000), angle=0, width=900, run=2600)
FOUND = find(home(levels=LEVELS, stairs=Table([FLIGHT])))


def words(level, ground):
    return [mark for mark in flat(stair_words(Frame(FOUND, level, 50.0, PAPER), ground)[0]) if isinstance(mark, Text)]


def test_stairs_say_up_where_they_start_and_down_where_they_end() -> None:
    (up,), (down,) = words(1, Ground()), words(2, Ground())

    assert (up.words, down.words) == ("up", "down")
    assert up.at[0] < 46 < down.at[0]
    (bounds,) = flight_bounds(Frame(FOUND, 1, 50.0, PAPER))
    assert (round(bounds[0]), round(bounds[1]), round(bounds[2]), round(bounds[3])) == (20, 11, 72, 29)
    assert flight_bounds(Frame(FOUND, 3, 50.0, PAPER)) == []


def test_a_word_goes_along_its_flight_to_where_nothing_stands() -> None:
    free, ground = Ground(), Ground()
    there = around(words(1, free)[0].at, (6.0, 4.0))
    ground.take(there)
    (aside,) = words(1, ground)

    assert aside.at[1] == words(1, Ground())[0].at[1]
    assert not overlap(around(aside.at, (3.0, 2.0)), there)
    assert 20 < aside.at[0] < 72


def test_where_the_middle_of_a_flight_is_full_the_word_goes_nearer_to_its_edge() -> None:
    middle = words(1, Ground())[0].at[1]
    ground = Ground()
    ground.take((0.0, middle - 1.5, 100.0, middle + 0.5))
    (aside,) = words(1, ground)
    (_, top, _, bottom), *_ = flight_bounds(Frame(FOUND, 1, 50.0, PAPER))

    assert aside.at[1] != middle
    assert top <= aside.at[1] <= bottom + 1.0


def test_on_a_flight_full_of_things_the_word_stands_where_it_would() -> None:
    full = Ground()
    full.take((0.0, 0.0, 100.0, 100.0))

    assert words(1, full)[0].at == words(1, Ground())[0].at


def test_no_symbol_and_no_label_covers_the_word_of_a_stair() -> None:
    switch = box(20, (1200, 550), device(21, fed(22, 6), kind="switch"), angle=90)
    floor = room(30, "Hall", 500, 550, 4000, 2000)
    found = find(home((switch,), (breaker(6, 1),), (floor,), levels=LEVELS, stairs=Table([FLIGHT])))
    drawn = plan(found, 1, 50.0, PAPER)
    (word,) = (mark for mark in flat(drawn.ink) if isinstance(mark, Text) and mark.words == "up")
    others = [bounds_of(mark) for mark in (*labels_of(drawn), *symbols_of(drawn))]

    assert len(others) == 3
    assert not any(overlap(bounds_of(word), other) for other in others)


def test_a_stair_has_a_tread_for_every_step() -> None:
    shapes = [mark for mark in flat(stairs(Frame(FOUND, 1, 50.0, PAPER))) if isinstance(mark, Shape)]
    assert len(shapes) == 1 + 9 + 2  # outline, treads between ten steps, arrow
