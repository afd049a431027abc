"""The panel's photo as ink: straight, as far round the breakers as it reaches, a number on every breaker."""

from dataclasses import replace
from itertools import combinations

import pytest

from floorplan_circuits.drawing.ink import Group, PictureMark, Text, flat
from floorplan_circuits.drawing.panel_photo import PhotoDrawn, grid_lines, panel_photo, photo_grid, tag_at, tag_bounds
from floorplan_circuits.find import find
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.power import Panel, PhotoFit, PhotoTag
from floorplan_circuits.home.record import change
from tests.drawing.drawn import overlap, sample

CORNERS = ((500, 300), (900, 300), (900, 1300), (500, 1300))
ROOM = (160.0, 200.0)


def with_photo(fit: PhotoFit, name: str = "cottage") -> tuple[Findings, Panel]:
    findings = sample(name)
    panel = change(next(iter(findings.home.panels)), photo="ab" * 32, photo_fit=fit)
    home = change(findings.home, panels=findings.home.panels.put(panel))
    return replace(findings, home=home), panel


def drawn(fit: PhotoFit, name: str = "cottage") -> PhotoDrawn:
    found = panel_photo(*with_photo(fit, name), ROOM)
    assert found is not None
    return found


STRAIGHT = PhotoFit(pixels=(1400, 1600), corners=CORNERS)


def test_without_a_photo_there_is_nothing_to_draw() -> None:
    findings = sample("cottage")
    assert panel_photo(findings, next(iter(findings.home.panels)), ROOM) is None


@pytest.mark.parametrize("corners", [None, ((0, 0), (10, 10), (10, 0), (0, 10))])
def test_until_its_corners_are_known_it_is_as_it_was_taken(corners) -> None:
    found = drawn(PhotoFit(pixels=(1400, 1600), corners=corners))

    assert found.tags == ()
    assert found.width / found.height == pytest.approx(1400 / 1600)
    assert (found.width <= ROOM[0], found.height <= ROOM[1]) == (True, True)


def test_what_lies_beside_the_breakers_is_shown_too_as_far_as_the_photo_reaches() -> None:
    found = drawn(STRAIGHT)
    (photo,) = [mark for mark in flat(found.ink) if isinstance(mark, PictureMark)]
    assert photo.corners is not None
    xs, ys = [x for x, _ in photo.corners], [y for _, y in photo.corners]

    assert (min(xs), max(xs)) == pytest.approx((260, 1140), abs=1)  # six tenths of 400 pixels on either side
    assert (min(ys), max(ys)) == pytest.approx((180, 1420), abs=1)

    edge = drawn(PhotoFit(pixels=(1400, 1600), corners=((100, 300), (500, 300), (500, 1300), (100, 1300))))
    (photo,) = [mark for mark in flat(edge.ink) if isinstance(mark, PictureMark)]
    assert photo.corners is not None
    assert min(x for x, _ in photo.corners) == pytest.approx(0, abs=1)


@pytest.mark.parametrize("name", ["cottage", "flat", "house"])
def test_every_breaker_has_its_number_and_no_two_lie_on_each_other(name: str) -> None:
    findings, panel = with_photo(STRAIGHT, name)
    found = panel_photo(findings, panel, ROOM)
    assert found is not None
    own = {breaker.id for breaker in findings.home.breakers if breaker.panel == panel.id}

    assert {tag.breaker for tag in found.tags} == own
    assert {tag.words for tag in found.tags} == {findings.marks[breaker] for breaker in own}
    assert {mark.words for mark in flat(found.ink) if isinstance(mark, Text)} == {tag.words for tag in found.tags}
    assert not [pair for pair in combinations(map(tag_bounds, found.tags), 2) if overlap(*pair)]


def test_a_number_stands_on_its_space() -> None:
    found = drawn(STRAIGHT)
    tags = {tag.words: found.part(tag.at) for tag in found.tags}

    assert tags["3"] == pytest.approx((0.1, 1.5 / 6))  # twelve spaces: the second of six rows, on the left
    assert tags["2·4"] == pytest.approx((0.9, 1 / 6))  # over both its spaces
    assert tags["1A"][1] < tags["1B"][1] < 1 / 6


def test_one_that_was_put_elsewhere_stands_there() -> None:
    found = drawn(change(STRAIGHT, tags=(PhotoTag(space=3, at=(-2000, 5000)), PhotoTag(space=11, at=(0, 0)))))
    tags = {tag.words: found.part(tag.at) for tag in found.tags}

    assert tags["3"] == pytest.approx((-0.2, 0.5))
    assert "11" not in tags  # nothing is in that space


def test_a_point_names_the_number_it_is_on() -> None:
    found = drawn(STRAIGHT)
    tag = found.tags[0]

    assert tag_at(found, tag.at, 0.5) == tag
    assert tag_at(found, (tag.at[0], tag.at[1] + 4.0), 0.5) is None


def test_a_number_is_about_its_breaker() -> None:
    found = drawn(STRAIGHT)
    groups = [mark for mark in found.ink.marks if isinstance(mark, Group)]

    assert [group.subject.id for group in groups if group.subject] == [tag.breaker for tag in found.tags]


def test_the_lines_between_spaces_divide_the_sides_as_seen() -> None:
    lines = grid_lines(STRAIGHT, 2, 4)

    assert lines[0] == ((500.0, 550.0), (900.0, 550.0))
    assert lines[-1] == ((700.0, 300.0), (700.0, 1300.0))
    assert len(lines) == 4


def test_on_the_photo_of_a_board_its_breakers_stand_side_by_side_in_rows() -> None:
    findings, panel = with_photo(STRAIGHT)
    board = change(panel, numbering="row by row", rows=(6, 6), spaces=12)
    found = panel_photo(find(change(findings.home, panels=findings.home.panels.put(board))), board, ROOM)
    assert found is not None
    assert photo_grid(board, find(findings.home).panels[panel.id]) == (6, 2)
    for tag in found.tags:
        x, y = found.part(tag.at)
        row, way = divmod(tag.space - 1, 6)
        assert (x * 6, y * 2) == (pytest.approx(way + 0.5), pytest.approx(row + 0.5))
