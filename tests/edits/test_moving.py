"""Moving: one sentence a move, rooms with all that is in them, and nothing off the sheet."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.edits.boxes import put_device
from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.moving import contents, move, place_box, shifted
from floorplan_circuits.edits.panels import set_panel
from floorplan_circuits.edits.rooms import add_room
from floorplan_circuits.find import find
from floorplan_circuits.home.building import Opening, Stair
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import problems
from floorplan_circuits.home.record import change
from tests.edits.samples import SQUARE, box_of, house, level_of, panel_of, with_row
from tests.homes import homes


def furnished() -> Home:
    """The house with a hall beside, a door, stairs and the panel in the kitchen, and a box on the hall's side."""
    home = add_room(house(), level_of(house()), [(4000, 0), (7000, 0), (7000, 3000), (4000, 3000)], "Hall").home
    level = level_of(home)
    home = put_device(home, level, (4000, 1000), 0, "switch").home
    home = with_row(
        home, "openings", Opening(id=home.next_id, level=level, kind="door", at=(0, 1500), width=800, angle=0)
    )
    home = with_row(home, "stairs", Stair(id=home.next_id, level=level, at=(1500, 1500), angle=0))
    return set_panel(home, panel_of(home), level=level, at=(0, 2500)).home


def test_a_box_moves_and_the_menu_says_which():
    home = house()

    edited = move(home, [box_of(home, "B1")], (100, -50))

    assert edited.says == "Move box B1"
    assert edited.home.boxes[box_of(home, "B1")].at == (1100, -50)
    assert edited.home.boxes[box_of(home, "B2")] is home.boxes[box_of(home, "B2")]


def test_a_room_takes_along_what_is_in_it():
    home = furnished()
    kitchen = home.rooms.rows[0].id

    edited = move(home, [kitchen], (0, 5000))
    after = edited.home

    assert edited.says == "Move Kitchen"
    assert after.rooms[kitchen].outline == tuple((x, y + 5000) for x, y in SQUARE)
    assert [after.boxes[box_of(home, mark)].at[1] for mark in ("B1", "B2", "B3", "B4")] == [5000, 5000, 5000, 1000]
    assert after.openings.rows[0].at == (0, 6500)
    assert after.stairs.rows[0].at == (1500, 6500)
    assert after.panels[panel_of(home)].at == (0, 7500)


@settings(max_examples=25)
@given(homes(), st.data())
def test_the_boxes_in_a_room_are_those_that_the_findings_name(home, data):
    rooms = set(data.draw(st.lists(st.sampled_from(home.rooms.ids()), unique=True))) if home.rooms else set()

    boxes = {one for one in contents(home, rooms) if one in home.boxes}

    assert boxes == {box for box, room in find(home).room_of.items() if room in rooms}


PLACED = ("rooms", "openings", "stairs", "boxes", "panels")


@settings(max_examples=25)
@given(homes(), st.tuples(st.integers(-9000, 9000), st.integers(-9000, 9000)))
def test_there_and_back_again_is_where_it_was(home, by):
    # all of it: a door left behind near a wall may come to lie on that wall, and then rightly goes with it
    wanted = [row for name in PLACED for row in getattr(home, name).ids()]
    try:
        there = move(home, wanted, by).home
    except Refused:
        return
    assert problems(there) == ()
    assert move(there, wanted, (-by[0], -by[1])).home == home


def test_several_things_are_counted():
    home = furnished()
    boxes = [box_of(home, mark) for mark in ("B1", "B2")]

    assert move(home, boxes, (10, 0)).says == "Move 2 boxes"
    assert move(home, [*boxes, panel_of(home)], (10, 0)).says == "Move 3 things"
    assert move(home, home.openings.ids(), (10, 0)).says == "Move an opening"


@pytest.mark.parametrize("wanted", [[], [999_999]])
def test_nothing_to_move_is_refused(wanted):
    with pytest.raises(Refused, match="Choose something"):
        move(house(), wanted, (10, 0))


def test_a_place_off_the_sheet_is_refused():
    assert shifted((10**7 - 1, 0), (1, 0)) == (10**7, 0)
    with pytest.raises(Refused, match="ten kilometres"):
        shifted((10**7, 0), (1, 0))


def test_a_box_is_placed_facing_a_way():
    home = house()

    edited = place_box(home, box_of(home, "B1"), (4000, 900), 540, "outdoor")
    box = edited.home.boxes[box_of(home, "B1")]

    assert edited.says == "Move box B1"
    assert (box.at, box.angle, box.mount) == ((4000, 900), 180, "outdoor")


def test_a_box_on_no_level_is_placed_only_with_one():
    home = house()
    loose = change(home.boxes[box_of(home, "B1")], level=None, at=None)
    home = change(home, boxes=home.boxes.put(loose))

    with pytest.raises(Refused, match="B1 is on no level yet"):
        place_box(home, loose.id, (0, 900), 0)
    assert place_box(home, loose.id, (0, 900), 0, level=level_of(home)).home.boxes[loose.id].level == level_of(home)
