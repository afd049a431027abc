"""Arranging: in line, evenly spaced, and never out of a wall."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.edits.arranging import align, distribute
from floorplan_circuits.edits.boxes import Place, put_device, put_devices, set_boxes, set_devices
from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import problems
from tests.edits.samples import box_of, house, level_of
from tests.homes import homes


def ceiling(*places: tuple[int, int]) -> tuple[Home, tuple[int, ...]]:
    """The house with recessed lights at these places, and their boxes."""
    home = house()
    edited = put_devices(home, level_of(home), [Place(at, 90) for at in places], "recessed light")
    return edited.home, edited.made[::2]


def places(home: Home, boxes: tuple[int, ...]) -> list[tuple[int, int]]:
    return [home.boxes[one].at for one in boxes]


def test_boxes_come_into_line_with_the_first():
    home, boxes = ceiling((1000, 1000), (2000, 1100), (3000, 900))

    edited = align(home, boxes, "across")

    assert places(edited.home, boxes) == [(1000, 1000), (2000, 1000), (3000, 1000)]
    assert edited.says == "Line up 3 boxes"
    assert places(align(home, boxes[::-1], "down").home, boxes) == [(3000, 1000), (3000, 1100), (3000, 900)]


def test_boxes_are_spaced_out_between_the_outermost_two():
    home, boxes = ceiling((1000, 1000), (1100, 1040), (4000, 1000), (3900, 980))

    after = distribute(home, boxes).home

    assert places(after, boxes) == [(1000, 1000), (2000, 1040), (4000, 1000), (3000, 980)]


def test_a_box_on_a_wall_slides_along_it_and_never_leaves_it():
    home = house()
    wall = [box_of(home, mark) for mark in ("B1", "B2", "B3")]
    side = put_device(home, level_of(home), (0, 1500), 0, "switch")

    assert distribute(home, wall).home is home
    assert places(align(home, wall, "down").home, tuple(wall)) == [(1000, 0)] * 3
    with pytest.raises(Refused, match="B4 would leave its wall"):
        align(side.home, [wall[0], side.made[0]], "down")


def test_too_few_boxes_and_boxes_of_several_levels_are_refused():
    home, boxes = ceiling((1000, 1000), (2000, 1100))

    with pytest.raises(Refused, match="at least two"):
        align(home, boxes[:1], "across")
    with pytest.raises(Refused, match="at least three"):
        distribute(home, boxes)


@settings(max_examples=60, deadline=None)
@given(homes(), st.data())
def test_whatever_is_arranged_only_places_change_and_twice_is_once(home, data):
    if not home.boxes:
        return
    boxes = data.draw(st.lists(st.sampled_from(home.boxes.ids()), max_size=5))
    act = data.draw(
        st.sampled_from((lambda h: align(h, boxes, "across"), lambda h: align(h, boxes, "down"),
                         lambda h: distribute(h, boxes)))
    )  # fmt: skip
    try:
        after = act(home).home
    except Refused as refused:
        said = str(refused)
        assert said.endswith(".")
        return
    assert problems(after) == problems(home)
    assert act(after).home is after
    for box in home.boxes:
        assert after.boxes[box.id].model_copy(update={"at": box.at}) == box


# --- many at once ---------------------------------------------------------------------------------------------------


def test_a_row_of_devices_is_one_edit_with_a_box_and_a_mark_each():
    home, boxes = ceiling((1000, 1000), (2000, 1000))

    assert [home.boxes[one].mark for one in boxes] == ["B4", "B5"]
    assert home.marks_given == 5
    assert {home.boxes[one].height for one in boxes} == {2400}
    with pytest.raises(Refused, match="100 at most"):
        put_devices(home, level_of(home), [], "switch")


def test_many_are_edited_at_once():
    home, boxes = ceiling((1000, 1000), (2000, 1000))

    planned = set_devices(home, boxes, planned=True, kind="smoke alarm")
    hidden = set_boxes(home, boxes, placed="guessed", height=2300)

    assert planned.says == "Edit 2 devices"
    assert {(one.planned, one.kind) for box in boxes for one in planned.home.boxes[box].devices} == {
        (True, "smoke alarm")
    }
    assert {(hidden.home.boxes[box].placed, hidden.home.boxes[box].height) for box in boxes} == {("guessed", 2300)}
    assert hidden.says == "Edit 2 boxes"


def test_many_of_nothing_and_what_does_not_fit_are_refused():
    home = house()

    for edit in (
        lambda: set_devices(home, [999_999], planned=True),
        lambda: set_boxes(home, [999_999], note="x"),
        lambda: set_devices(home, home.boxes.ids(), kind=""),
        lambda: set_boxes(home, home.boxes.ids(), height=100_001),
        lambda: set_devices(home, home.boxes.ids(), va=-1),
    ):
        with pytest.raises(Refused):
            edit()
