"""New ids and marks: always past all that were ever given."""

from hypothesis import given
from hypothesis import strategies as st

from floorplan_circuits.edits.numbering import counter, marks_given, next_mark
from floorplan_circuits.home.boxes import Box
from floorplan_circuits.home.home import Home


def with_marks(*marks: str, given: int = 0) -> Home:
    boxes = tuple(Box(id=place, mark=mark) for place, mark in enumerate(marks, 1))
    return Home(boxes=boxes, next_id=len(marks) + 1, marks_given=given)


def test_ids_go_on_from_the_home_s_counter():
    ids = counter(Home(next_id=7))

    assert [ids.new(), ids.new()] == [7, 8]
    assert ids.next_id == 9


def test_the_first_mark_is_b1():
    assert next_mark(Home()) == "B1"


def test_a_mark_is_past_all_there_are_and_all_there_were():
    assert next_mark(with_marks("B1", "B3")) == "B4"
    assert next_mark(with_marks("B1", given=9)) == "B10"
    assert next_mark(with_marks("B12", given=9)) == "B13"


def test_several_marks_follow_each_other():
    assert [next_mark(with_marks("B1"), after) for after in range(3)] == ["B2", "B3", "B4"]


def test_marks_of_somebody_s_own_count_for_nothing():
    assert marks_given(with_marks("attic", "B", "Bx", "B²", "BB7", "B 4", "B12345678")) == 0


@given(st.lists(st.from_regex(r"B[0-9]{1,6}", fullmatch=True), unique=True, max_size=6), st.integers(0, 10**6))
def test_a_new_mark_is_never_one_that_is_there(marks, given_out):
    home = with_marks(*marks, given=given_out)

    assert next_mark(home) not in marks
    assert int(next_mark(home)[1:]) > given_out
