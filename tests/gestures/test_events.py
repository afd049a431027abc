"""What a tool may look at."""

from hypothesis import given
from hypothesis import strategies as st

from floorplan_circuits.edits.boxes import put_device
from floorplan_circuits.edits.rooms import add_level
from floorplan_circuits.gestures.events import Context, is_between
from tests.edits.samples import SQUARE, box_of, house, level_of

values = st.integers(-5, 5)
places = st.tuples(values, values)


def test_a_tool_sees_the_rooms_and_boxes_of_its_level():
    upstairs = add_level(house(), "First floor")
    home = put_device(upstairs.home, upstairs.made[0], (1000, 0), 90, "switch").home

    ground, above = Context(home, level_of(home)), Context(home, upstairs.made[0])

    assert (ground.outlines(), above.outlines()) == ([SQUARE], [])
    assert ground.boxes_between((900, 100), (2100, -100)) == [box_of(home, "B1"), box_of(home, "B2")]
    assert above.boxes_between((900, 100), (2100, -100)) == [box_of(home, "B4")]


@given(places, places, places)
def test_between_is_the_same_from_whichever_corner(at, a, b):
    corners = (a, b), (b, a), ((a[0], b[1]), (b[0], a[1]))

    assert len({is_between(at, *pair) for pair in corners}) == 1
    assert is_between(a, a, b)
