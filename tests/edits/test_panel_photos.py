import pytest

from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.panel_photos import mark_corners, put_photo, put_tag, remove_photo, tags_back
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Panel
from tests.edits.samples import house, panel_of

HASH, OTHER = "ab" * 32, "cd" * 32
CORNERS = ((100, 50), (300, 60), (290, 500), (110, 480))


def with_photo(picture: str = HASH, home: Home | None = None) -> Home:
    """A house whose panel has a photo of 400 by 600 pixels."""
    home = home or house()
    return put_photo(home, panel_of(home), picture, "image/jpeg", (400, 600)).home


def panel(home: Home) -> Panel:
    return home.panels[panel_of(home)]


def test_a_photo_is_kept_with_its_panel_and_another_takes_its_place() -> None:
    home = with_photo()
    assert (panel(home).photo, panel(home).photo_fit.corners) == (HASH, None)

    after = with_photo(OTHER, mark_corners(home, panel_of(home), CORNERS).home)
    assert [row.hash for row in after.pictures] == [OTHER]
    assert panel(after).photo_fit.corners is None  # another photo is seen otherwise


def test_corners_are_kept_to_the_pixel_and_inside_the_photo() -> None:
    home = with_photo()
    after = mark_corners(home, panel_of(home), ((-20.0, 50.4), (300.2, 60.0), (290.0, 900.0), (110.0, 480.0))).home

    assert panel(after).photo_fit.corners == ((0, 50), (300, 60), (290, 600), (110, 480))


@pytest.mark.parametrize(
    "corners",
    [((100, 50), (110, 480), (290, 500), (300, 60)), ((100, 50), (300, 60), (120, 70), (110, 480)), CORNERS[:3]],
)
def test_corners_that_no_panel_can_have_are_refused(corners) -> None:
    home = with_photo()
    with pytest.raises(Refused, match="clockwise"):
        mark_corners(home, panel_of(home), corners)


def test_a_number_stays_where_it_was_put_until_all_go_back() -> None:
    home = with_photo()
    number = panel_of(home)
    once = put_tag(home, number, 1, None, (0.25, 0.5)).home
    twice = put_tag(once, number, 1, None, (-0.1, 0.6)).home

    (tag,) = panel(twice).photo_fit.tags
    assert (tag.space, tag.half, tag.at) == (1, None, (-1000, 6000))
    assert panel(tags_back(twice, number).home).photo_fit.tags == ()


def test_a_number_far_off_the_photo_is_refused() -> None:
    home = with_photo()
    with pytest.raises(Refused):
        put_tag(home, panel_of(home), 1, None, (1e6, 0.0))


def test_removing_takes_the_photo_out_of_the_home() -> None:
    home = with_photo()
    after = remove_photo(home, panel_of(home)).home

    assert (panel(after).photo, after.pictures) == ("", ())
    with pytest.raises(Refused, match="no photo"):
        remove_photo(after, panel_of(home))
