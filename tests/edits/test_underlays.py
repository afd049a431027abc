from math import dist

import pytest

from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.pictures import attach_picture, detach_picture
from floorplan_circuits.edits.underlays import (
    fade_underlay,
    lock_underlay,
    move_underlay,
    put_underlay,
    remove_underlay,
    set_known_length,
    straighten,
    turn_underlay,
)
from floorplan_circuits.home.building import Underlay
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.placement import corners, turned_by
from tests.edits.samples import box_of, house, level_of

HASH, OTHER = "ab" * 32, "cd" * 32


def with_picture(picture: str = HASH, home: Home | None = None) -> Home:
    """A house with a picture of 400 by 300 pixels under its first level, 8 m wide by a guess."""
    home = home or house()
    level = level_of(home)
    return put_underlay(home, level, picture, "image/png", (400, 300), at=(0, 0), width=8000).home


def laid(home: Home) -> Underlay:
    found = home.levels[level_of(home)].underlay
    assert found is not None
    return found


def test_a_picture_lies_under_its_level_and_among_the_homes_pictures() -> None:
    home = with_picture()

    assert (laid(home).picture, laid(home).width, laid(home).locked) == (HASH, 8000, False)
    assert [row.hash for row in home.pictures] == [HASH]


def test_another_picture_takes_its_place_and_the_first_is_kept_no_longer() -> None:
    home = with_picture(OTHER, with_picture())

    assert [row.hash for row in home.pictures] == [OTHER]


def test_a_known_length_sets_the_scale_and_keeps_where_it_was_marked() -> None:
    home = with_picture()
    level = level_of(home)
    after = set_known_length(home, level, (1000, 1000), (3000, 1000), 5000).home

    assert laid(after).width == 20_000  # what was taken for 2 m is 5
    assert laid(after).at == (1000 - 2500, 1000 - 2500)


def test_marks_too_near_each_other_set_no_scale() -> None:
    with pytest.raises(Refused, match="too near"):
        set_known_length(with_picture(), level_of(house()), (0, 0), (50, 0), 5000)


@pytest.mark.parametrize(("length", "shown"), [(400_000, "wide"), (20, "wide")])
def test_a_length_that_would_make_no_floor_of_it_is_refused(length: int, shown: str) -> None:
    with pytest.raises(Refused, match=shown):
        set_known_length(with_picture(), level_of(house()), (0, 0), (2000, 0), length)


def test_a_wall_that_leans_is_made_level() -> None:
    home = with_picture()
    level = level_of(home)
    after = laid(straighten(home, level, (0, 0), (8000, 140)).home)  # 1.00 degrees down

    assert turned_by(after) == pytest.approx(359.0, abs=0.01)
    assert after.at == (0, 0)


def test_a_wall_that_is_nearly_upright_is_made_upright() -> None:
    home = with_picture()
    after = laid(straighten(home, level_of(home), (0, 0), (-140, 8000)).home)

    assert turned_by(after) == pytest.approx(359.0, abs=0.01)


def test_turning_keeps_the_middle() -> None:
    home = with_picture()
    before, after = laid(home), laid(turn_underlay(home, level_of(home), 90).home)

    def middle(one: Underlay) -> tuple[float, float]:
        first, _, third, _ = corners(one)
        return (first[0] + third[0]) / 2, (first[1] + third[1]) / 2

    assert dist(middle(before), middle(after)) < 1
    assert (after.angle, after.width) == (90, 8000)


def test_four_quarter_turns_are_none() -> None:
    home = with_picture()
    for _ in range(4):
        home = turn_underlay(home, level_of(home), 90).home

    assert laid(home) == laid(with_picture())


def test_a_moved_picture_takes_no_room_with_it() -> None:
    home = with_picture()
    after = move_underlay(home, level_of(home), (100, -50)).home

    assert laid(after).at == (100, -50)
    assert after.rooms is home.rooms


def test_a_locked_picture_is_neither_moved_nor_sized_nor_turned_nor_replaced_nor_removed() -> None:
    home = lock_underlay(with_picture(), level_of(house()), True).home
    level = level_of(home)

    for attempt in (
        lambda: move_underlay(home, level, (1, 1)),
        lambda: set_known_length(home, level, (0, 0), (2000, 0), 3000),
        lambda: straighten(home, level, (0, 0), (2000, 30)),
        lambda: turn_underlay(home, level, 90),
        lambda: remove_underlay(home, level),
        lambda: with_picture(OTHER, home),
    ):
        with pytest.raises(Refused, match=r"[Ll]ocked"):
            attempt()


def test_a_locked_picture_can_be_faded_and_unlocked() -> None:
    home = lock_underlay(with_picture(), level_of(house()), True).home
    faded = fade_underlay(home, level_of(home), 70).home
    free = lock_underlay(faded, level_of(home), False).home

    assert (laid(faded).opacity_percent, laid(free).locked) == (70, False)


def test_a_share_past_all_is_refused() -> None:
    with pytest.raises(Refused):
        fade_underlay(with_picture(), level_of(house()), 101)


def test_removing_takes_the_picture_out_of_the_home_unless_a_box_shows_it() -> None:
    home = with_picture()
    level = level_of(home)
    shown = attach_picture(home, box_of(home, "B1"), HASH, "image/png", date="2026-03-14").home

    assert remove_underlay(home, level).home.pictures == ()
    assert [row.hash for row in remove_underlay(shown, level).home.pictures] == [HASH]
    assert [row.hash for row in detach_picture(shown, box_of(home, "B1"), HASH).home.pictures] == [HASH]


def test_without_a_picture_it_is_said_how_to_get_one() -> None:
    with pytest.raises(Refused, match="Drag one in"):
        turn_underlay(house(), level_of(house()), 90)
