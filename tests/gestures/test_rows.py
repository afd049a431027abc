"""A row in one drag: along a wall as far as it goes, over a ceiling straight; the distance typed meanwhile."""

from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.gestures.events import Move, Release
from floorplan_circuits.gestures.putting import PutDevice
from floorplan_circuits.gestures.rows import usual_spacing
from floorplan_circuits.home.integrity import problems
from tests.edits.samples import house
from tests.gestures.hand import Hand


def rowing(kind: str) -> Hand:
    return Hand(house(), PutDevice(kind))


def drag_typing(hand: Hand, start, end, words: str = "") -> None:
    hand.pull(start, end)
    hand.type(words)
    hand.do(Move(end, None, True))
    hand.gestures += 1
    hand.do(Release(end))


def placed(hand: Hand) -> list[tuple[int, int]]:
    return [box.at for box in hand.home.boxes.rows[3:]]


def test_a_drag_along_a_wall_puts_one_every_so_far():
    hand = rowing("wall light")

    hand.drag((300, 2900), (3900, 2900))

    assert placed(hand) == [(300, 3000), (1500, 3000), (2700, 3000), (3900, 3000)]
    assert hand.said.startswith("Put 4 wall lights. Their circuits are unknown")
    assert len(hand.selected) == 4
    assert len(hand.history.past) == 1


def test_the_distance_is_typed_while_dragging_and_kept_for_the_next_row():
    hand = rowing("duplex receptacle")

    drag_typing(hand, (500, 2900), (3500, 2900), "1.5 m")
    hand.drag((100, 500), (100, 2500))

    assert placed(hand) == [(500, 3000), (2000, 3000), (3500, 3000), (0, 500), (0, 2000)]
    assert hand.tool.spacing == 1500


def test_letters_of_other_tools_are_not_taken_while_a_row_is_dragged():
    hand = rowing("duplex receptacle")
    hand.pull((500, 2900), (3500, 2900))

    hand.type("2r")

    assert hand.tool.kind == "duplex receptacle"
    hand.key("escape")
    assert (hand.draft, placed(hand)) == (None, [])
    hand.do(Release((3500, 2900)))
    assert placed(hand) == []


def test_a_row_ends_with_its_wall():
    hand = rowing("wall light")

    hand.drag((300, 2900), (9000, 2900))

    assert placed(hand)[-1] == (3900, 3000)


def test_a_row_over_a_ceiling_is_level_if_it_nearly_is():
    hand = rowing("recessed light")

    hand.drag((500, 1000), (3000, 1100))

    assert placed(hand) == [(500, 1000), (1700, 1000), (2900, 1000)]


def test_a_short_drag_still_puts_one_where_it_is_let_go():
    hand = rowing("duplex receptacle")

    hand.drag((500, 2900), (1500, 2900))

    assert placed(hand) == [(1500, 3000)]


def test_what_is_no_distance_or_too_short_a_one_is_said_and_changes_none():
    hand = rowing("wall light")
    hand.pull((300, 2900), (3900, 2900))

    hand.type("5 mm")

    assert hand.said.startswith("5 mm: a row stands at least 100 mm apart.")
    assert hand.tool.spacing is None


def test_the_usual_distance_of_receptacles_is_twelve_feet():
    """NEC 210.52(A)(1): no point along a wall is over 6 ft (1.8 m) from a receptacle."""
    assert usual_spacing("duplex receptacle", "feet and inches") == round(12 * 304.8)
    assert usual_spacing("duplex receptacle", "metric") == 2 * 1800


@settings(max_examples=60, deadline=None)
@given(
    st.sampled_from(("switch", "recessed light", "duplex receptacle")),
    st.tuples(*[st.integers(-500, 4500)] * 2),
    st.tuples(*[st.integers(-9000, 9000)] * 2),
    st.sampled_from(("", "1", "0.1", "600", "x", "9 m")),
)
def test_whatever_is_dragged_a_row_is_even_and_sound(kind, start, end, words):
    hand = rowing(kind)
    if start == end:
        return

    drag_typing(hand, start, end, words)

    assert problems(hand.home) == ()
    row = placed(hand)
    gaps = {round(((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5 / 10) for a, b in pairwise(row)}
    assert not gaps or max(gaps) - min(gaps) <= 1
