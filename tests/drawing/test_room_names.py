"""Names of rooms: in the open, off doors and edges if they can, broken between words, else a key letter."""

from floorplan_circuits.drawing.frame import Frame
from floorplan_circuits.drawing.ink import Text, flat
from floorplan_circuits.drawing.overlaps import Segment
from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.drawing.placement import Ground
from floorplan_circuits.drawing.plan_labels import Labels
from floorplan_circuits.drawing.room_names import name_rooms, name_rooms_of_overview
from floorplan_circuits.find import find
from floorplan_circuits.home.building import Room
from tests.drawing.drawn import bounds_of, home, overlap, room, words_in


def named(*rooms: Room, ground: Ground | None = None, scale: float = 50.0) -> Labels:
    labels = Labels()
    frame = Frame(find(home(rooms=rooms)), 1, scale, PAPER)
    name_rooms(rooms, frame, ground or Ground(), labels)
    return labels


def test_a_name_stands_in_the_middle_of_an_empty_room() -> None:
    labels = named(room(30, "Kitchen", 0, 0, 4000, 3000))
    left, top, right, bottom = bounds_of(labels.marks[0])
    assert abs((left + right) / 2 - 40) < 4
    assert abs((top + bottom) / 2 - 30) < 4


def test_a_name_avoids_the_swing_of_a_door_while_there_is_another_place() -> None:
    swing = (25.0, 15.0, 55.0, 45.0)
    ground = Ground()
    ground.shun(swing)
    (mark,) = named(room(30, "Kitchen", 0, 0, 4000, 3000), ground=ground).marks
    assert not overlap(bounds_of(mark), swing)


def test_a_name_that_has_no_other_place_stands_over_the_swing() -> None:
    ground = Ground()
    ground.shun((-100, -100, 200, 200))
    assert words_in(named(room(30, "Kitchen", 0, 0, 4000, 3000), ground=ground).marks[0]) == ["Kitchen"]


def test_a_name_avoids_the_edge_of_an_area_but_would_rather_cross_it_than_a_door() -> None:
    ground = Ground()
    for x in range(0, 90, 2):
        ground.shun_line(Segment((x, -10), (x, 70)))
    ground.shun((25, 15, 55, 45))
    (mark,) = named(room(30, "Kitchen", 0, 0, 4000, 3000), ground=ground).marks
    assert not overlap(bounds_of(mark), (25, 15, 55, 45))


def test_a_long_name_breaks_between_its_words() -> None:
    walls = [Segment((0, 0), (0, 60), 0.5), Segment((22, 0), (22, 60), 0.5)]
    labels = named(room(30, "Front bedroom", 0, 0, 1100, 3000), ground=Ground(walls))
    assert words_in(labels.marks[0]) == ["Front", "bedroom"]


def test_where_no_name_fits_a_letter_stands_for_it() -> None:
    walls = [Segment((0, 0), (0, 60), 0.5), Segment((8, 0), (8, 60), 0.5)]
    labels = named(room(30, "Cupboard", 0, 0, 400, 3000), ground=Ground(walls))
    assert words_in(labels.marks[0]) == ["a"]
    assert labels.keys == [("a", "Cupboard")]


def test_more_rooms_than_letters_get_two_letters() -> None:
    walls = [Segment((8 * at, 0), (8 * at, 60), 0.5) for at in range(40)]
    cupboards = [room(100 + at, f"Cupboard {at}", 400 * at, 0, 400, 3000) for at in range(28)]
    keys = [key for key, _ in named(*cupboards, ground=Ground(walls)).keys]
    assert keys[25:] == ["z", "aa", "ab"]


def test_a_room_without_a_name_gets_none() -> None:
    assert named(room(30, "", 0, 0, 4000, 3000)).marks == []


def test_names_are_bold_and_never_under_8_points() -> None:
    labels = named(room(30, "Kitchen", 0, 0, 4000, 3000), room(31, "Hall", 4000, 0, 1500, 3000))
    for mark in labels.marks:
        assert all(one.bold and one.size >= 8 for one in flat(mark) if isinstance(one, Text))


def test_an_overview_leaves_out_names_wider_than_their_room() -> None:
    rooms = (room(30, "Kitchen", 0, 0, 9000, 9000), room(31, "Cupboard", 9000, 0, 900, 900))
    labels = Labels()
    name_rooms_of_overview(rooms, Frame(find(home(rooms=rooms)), 1, 400.0, PAPER), Ground(), labels)
    assert [words_in(mark) for mark in labels.marks] == [["Kitchen"]]
    assert labels.keys == []
