"""Rooms turned and mirrored with all in them."""

from functools import partial
from math import atan2, degrees, dist

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.edits.boxes import add_passing, put_device
from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.history import History
from floorplan_circuits.edits.openings import put_opening
from floorplan_circuits.edits.panels import set_panel
from floorplan_circuits.edits.rooms import add_level, add_room
from floorplan_circuits.edits.stairs import put_stair
from floorplan_circuits.edits.turning import mirror, turn
from floorplan_circuits.geometry.rooms import room_of_boxes
from floorplan_circuits.geometry.wall_spots import faces_into, is_on_wall
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import problems
from floorplan_circuits.home.record import change
from tests.edits.samples import house, level_of


def furnished(wide: int = 4000, deep: int = 3000) -> Home:
    """A room with a box on each of two walls, a light, a door and stairs."""
    home = house().changed(rooms=(), boxes=())
    level = level_of(home)
    home = add_room(home, level, ((0, 0), (wide, 0), (wide, deep), (0, deep)), "Den").home
    home = put_device(home, level, (wide, deep // 2), 180, "switch").home
    home = put_device(home, level, (wide // 2, 0), 90, "duplex receptacle").home
    home = put_device(home, level, (wide // 2, deep // 2), 90, "ceiling light").home
    home = put_opening(home, level, "door", (500, deep), 90).home
    return put_stair(home, level, (300, 300), 0, 900, 500).home


def test_a_room_turns_with_all_in_it():
    home = furnished()

    after = turn(home, home.rooms.ids()).home

    assert set(after.rooms.rows[0].outline) == {(500, -500), (3500, -500), (3500, 3500), (500, 3500)}
    placed = [(box.at, box.angle) for box in after.boxes]
    assert placed == [((2000, 3500), 270), ((3500, 1500), 180), ((2000, 1500), 180)]
    (door,) = after.openings
    assert (door.at, door.angle) == ((500, 0), 180)
    assert after.stairs.rows[0].angle == 90


def test_a_mirrored_door_hangs_on_the_other_side():
    home = furnished()

    after = mirror(home, home.rooms.ids()).home

    (was,), (now,) = home.openings, after.openings
    assert (now.at, now.angle) == ((3500, 3000), 90)
    assert {was.hinge, now.hinge} == {"left", "right"}
    assert (after.boxes.rows[0].at, after.boxes.rows[0].angle) == ((0, 1500), 0)


sides = st.integers(900, 6000)


@settings(max_examples=30)
@given(sides, sides, st.integers(-3, 9))
def test_four_quarters_and_two_mirrors_leave_all_as_it_was(wide, deep, quarters):
    home = furnished(wide, deep)
    rooms = home.rooms.ids()

    once = turn(home, rooms, quarters).home
    assert turn(once, rooms, -quarters).home == home
    assert mirror(mirror(home, rooms).home, rooms).home == home
    assert problems(once) == ()
    assert room_of_boxes(once) == room_of_boxes(home)
    assert all(is_on_wall(box.at, once.rooms.rows[0].outline) for box in once.boxes.rows[:2])


def test_what_has_no_place_or_is_on_two_levels_is_not_turned():
    home = furnished()
    upper = add_level(home, "First floor")
    home = add_room(upper.home, upper.made[0], home.rooms.rows[0].outline).home

    with pytest.raises(Refused, match="one level"):
        turn(home, home.rooms.ids())
    with pytest.raises(Refused, match="Choose something"):
        mirror(home, [])


# --- any room with anything in it -------------------------------------------------------------------------------------

OUTLINES = (
    ((0, 0), (4000, 0), (4000, 3000), (0, 3000)),
    ((0, 0), (4001, 0), (4001, 1500), (2000, 1500), (2000, 3333), (0, 3333)),
    ((0, 0), (5000, 700), (4300, 3900), (300, 3100)),
)
along_walls = st.lists(st.tuples(st.integers(0, 5), st.floats(0.2, 0.8)), max_size=4)


@st.composite
def lived_in(draw):
    """A room of some shape with openings of every kind, stairs, a panel, and boxes with cables that only pass."""
    outline = draw(st.sampled_from(OUTLINES))
    home = house().changed(rooms=(), boxes=())
    level = level_of(home)
    home = add_room(home, level, outline, "Den").home
    for side, share in draw(along_walls):
        at, angle = on_side(outline, side, share)
        home = with_if_free(home, partial(put_opening, level=level, kind="window", at=at, angle=angle, width=400))
    for kind in draw(st.lists(st.sampled_from(("door", "open way")), max_size=2)):
        at, angle = on_side(outline, draw(st.integers(0, 5)), draw(st.floats(0.3, 0.7)))
        home = with_if_free(home, partial(put_opening, level=level, kind=kind, at=at, angle=angle, width=800))
    for side, share in draw(along_walls):
        at, angle = on_side(outline, side, share)
        put = put_device(home, level, at, angle, "duplex receptacle")
        home = add_passing(put.home, put.made[0]).home if draw(st.booleans()) else put.home
    if draw(st.booleans()):
        home = put_stair(home, level, (900, 900), draw(st.sampled_from((0, 15, 90, 270))), 900, 500).home
    if home.panels and draw(st.booleans()):
        at, angle = on_side(outline, draw(st.integers(0, 5)), 0.5)
        home = set_panel(home, home.panels.ids()[0], at=at, angle=angle, level=level).home
    return home


def on_side(outline, side, share):
    """A place on one wall of a room, and the way that looks into it."""
    (ax, ay), (bx, by) = outline[side % len(outline)], outline[(side + 1) % len(outline)]
    at = round(ax + (bx - ax) * share), round(ay + (by - ay) * share)
    return at, round(degrees(atan2(by - ay, bx - ax)) + 90) % 360


def with_if_free(home, put):
    try:
        return put(home).home
    except Refused:  # another opening is there already
        return home


def relations(home):
    """What turning and mirroring must keep: how far all that goes along is from each corner of its room."""
    corners = home.rooms.rows[0].outline
    rows = (*home.boxes, *home.openings, *home.stairs, *(one for one in home.panels if one.at is not None))
    return {row.id: sorted(round(dist(row.at, corner)) for corner in corners) for row in rows if row.at is not None}


def unplaced(home):
    """All that is no matter of place: kinds, feeds, cables that pass, widths, marks."""
    plain = {"at": (0, 0), "angle": 0}
    return (
        [change(box, **plain) for box in home.boxes],
        [change(one, **plain, hinge="none") for one in home.openings],
        [change(one, **plain) for one in home.stairs],
    )


@settings(max_examples=40, deadline=None)
@given(lived_in(), st.integers(1, 3))
def test_a_room_of_any_shape_turns_and_mirrors_with_all_in_it_and_undo_brings_back_the_very_home(home, quarters):
    rooms = home.rooms.ids()
    for edited in (turn(home, rooms, quarters), mirror(home, rooms)):
        after = edited.home
        was, now = relations(home), relations(after)
        assert was.keys() == now.keys()
        assert all(abs(a - b) <= 1 for one in was for a, b in zip(was[one], now[one], strict=True))
        assert unplaced(after) == unplaced(home)
        assert problems(after) == problems(home)
        assert room_of_boxes(after) == room_of_boxes(home)
        history = History(home).done(after, edited.says)
        assert history.undone().now is home
        assert history.undone().redone().now == after
    assert turn(turn(home, rooms, quarters).home, rooms, 4 - quarters).home == home
    assert mirror(mirror(home, rooms).home, rooms).home == home


@settings(max_examples=15, deadline=None)
@given(lived_in(), st.integers(1, 3))
def test_what_stood_on_a_wall_and_looked_into_the_room_still_does(home, quarters):
    rooms = home.rooms.ids()
    for after in (turn(home, rooms, quarters).home, mirror(home, rooms).home):
        outline = after.rooms.rows[0].outline
        assert all(is_on_wall(one.at, outline) for one in (*after.boxes, *after.openings))
        assert all(faces_into(box.at, box.angle, [outline]) for box in after.boxes)
