"""Openings by a drag: along a wall as wide as it goes, past corners one a room, across walls one in each."""

from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.edits.rooms import add_room
from floorplan_circuits.gestures.putting_openings import PutOpening
from floorplan_circuits.home.integrity import problems
from tests.edits.samples import house, level_of
from tests.gestures.hand import Hand

HALL = ((4000, 0), (7000, 0), (7000, 3000), (4000, 3000))
STORE = ((0, 3000), (7000, 3000), (7000, 5000), (0, 5000))


def putting(kind: str) -> Hand:
    """A kitchen and a hall side by side, and a store along both."""
    home = house()
    level = level_of(home)
    for outline, name in ((HALL, "Hall"), (STORE, "Store")):
        home = add_room(home, level, outline, name).home
    return Hand(home, PutOpening(kind))


def put(hand: Hand) -> list[tuple[tuple[int, int], int]]:
    return [(one.at, one.width) for one in hand.home.openings]


def walk(hand: Hand, *path: tuple[float, float]):
    """Drag along a path of straight stretches, and let go."""
    hand.gestures += 1
    hand.press(path[0])
    for (ax, ay), (bx, by) in pairwise(path):
        for share in (0.25, 0.5, 0.75, 1.0):
            hand.move((ax + (bx - ax) * share, ay + (by - ay) * share))
    return hand.let_go(path[-1])


def test_a_drag_along_a_wall_says_place_and_width_at_once():
    hand = putting("window")

    hand.drag((1012, 80), (2191, -60))

    assert put(hand) == [((1602, 0), 1200)]
    assert hand.said == "Put a window of 1.20 m."
    assert hand.gestures == len(hand.history.past) == 1


def test_inches_come_in_whole_ones():
    hand = putting("door")
    hand.history = type(hand.history)(hand.home.changed(units="feet and inches"))

    hand.drag((1000, 10), (1820, 10))

    assert put(hand)[0][1] == 813  # 32 inches


def test_past_a_corner_each_wall_whose_middle_is_passed_gets_one_there():
    hand = putting("window")

    hand.drag((200, 5020), (6800, 5020))
    hand.drag((1500, -50), (6800, -50))

    assert put(hand) == [((3500, 5000), 6600), ((2000, 0), 1200), ((5500, 0), 1200)]


def test_a_walk_puts_a_door_in_each_wall_it_crosses_but_once():
    hand = putting("door")

    walk(hand, (2000, 1500), (5000, 1500), (5000, 4000), (5100, 2500))

    assert put(hand) == [((4000, 1500), 800), ((5000, 3000), 800)]
    assert hand.said == "Put 2 doors."
    assert [one.angle for one in hand.home.openings] == [0, 90]
    hand.undo()
    assert put(hand) == []


def test_a_walk_goes_through_what_is_open_already():
    hand = putting("open way")
    hand.click((4000, 1500))

    walk(hand, (2000, 1500), (5000, 1520), (5000, 4000))

    assert put(hand) == [((4000, 1500), 900), ((5000, 3000), 900)]
    before = hand.home
    walk(hand, (2000, 1500), (5000, 1520))
    assert hand.home is before
    assert "There is an opening already" in hand.said


def test_a_window_is_put_only_where_a_walk_looks_out():
    hand = putting("window")

    walk(hand, (2000, 2500), (5500, 2500), (5500, -900))

    assert put(hand) == [((5500, 0), 1200)]


def test_the_drag_shows_what_it_would_put_and_escape_drops_it():
    hand = putting("door")

    hand.pull((1500, 1500), (5000, 1500))
    assert hand.said == "Let go to put 1 door. Type another width, or Esc drops the drag."
    way, frame = hand.draft.lines
    assert (way[0], way[-1]) == ((1500, 1500), (5000, 1500))
    assert frame == ((3850, 1100), (4150, 1100), (4150, 1900), (3850, 1900), (3850, 1100))
    hand.key("escape")
    hand.let_go((5000, 1500))

    assert put(hand) == []
    assert hand.tool == PutOpening("door")
    hand.click((4000, 1500))
    assert len(put(hand)) == 1


def test_a_hand_that_trembles_clicks():
    hand = putting("door")

    hand.drag((1500, 20), (1515, 30))

    assert put(hand) == [((1515, 0), 800)]


def test_a_width_typed_while_dragging_is_taken():
    hand = putting("door")

    hand.pull((2000, 1500), (5000, 1500))
    hand.type("0.7")
    hand.let_go((5000, 1500))

    assert put(hand) == [((4000, 1500), 700)]


@settings(max_examples=30, deadline=None)
@given(
    st.sampled_from(["door", "window", "open way"]),
    st.lists(st.tuples(st.integers(-1000, 8000), st.integers(-1000, 6000)), min_size=2, max_size=6),
)
def test_wherever_the_hand_goes_one_edit_at_most_is_made_and_the_home_stays_sound(kind, path):
    hand = putting(kind)
    before = hand.home

    walk(hand, *path)

    assert problems(hand.home) == ()
    assert len(hand.history.past) == (0 if hand.home is before else 1)
    assert hand.home.rooms == before.rooms
    spans = sorted((one.at, one.width) for one in hand.home.openings)
    assert len({at for at, _ in spans}) == len(spans)
    hand.undo()
    assert hand.home is before
