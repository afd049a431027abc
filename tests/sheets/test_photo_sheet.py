"""The tagged photo on paper: photo and list side by side, all on the page, told when it is not straight yet."""

import pytest

from floorplan_circuits.drawing.ink import PictureMark, Text, flat, path_bounds
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.power import PhotoFit
from floorplan_circuits.printing import CannotPrint, Wanted, make_sheet
from floorplan_circuits.sheets.paper import PAPERS
from floorplan_circuits.sheets.photo_sheet import photo_sheet
from tests.drawing.drawn import sample
from tests.drawing.test_panel_photo import STRAIGHT, with_photo

MADE = "2026-05-04"


def words_on(findings: Findings, paper: str = "letter") -> list[str]:
    (page,) = photo_sheet(findings, PAPERS[paper], MADE).pages
    return [mark.words for mark in flat(page.ink) if isinstance(mark, Text)]


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("name", ["cottage", "flat", "house"])
def test_everything_lies_on_the_page_and_the_photo_keeps_clear_of_the_list(name: str, paper: str) -> None:
    findings, _ = with_photo(STRAIGHT, name)
    (page,) = photo_sheet(findings, PAPERS[paper], MADE).pages
    (photo,) = [mark for mark in flat(page.ink) if isinstance(mark, PictureMark)]
    texts = [mark for mark in flat(page.ink) if isinstance(mark, Text)]

    assert all(0 < mark.at[0] < page.width and 0 < mark.at[1] < page.height for mark in texts)
    assert photo.bounds[2] <= page.width - 9 - 92
    assert photo.bounds[2] - photo.bounds[0] > 60
    shapes = [path_bounds(mark.path) for mark in flat(page.ink) if hasattr(mark, "path") and mark.path]
    assert max(bottom for *_, bottom in shapes) <= page.height - 8


def test_every_number_is_on_the_photo_and_in_the_list() -> None:
    findings, _ = with_photo(STRAIGHT)
    words = words_on(findings)

    for number in ("1A", "1B", "3", "5", "10"):
        assert words.count(number) == 2


def test_a_photo_that_is_not_straight_yet_says_so() -> None:
    findings, _ = with_photo(PhotoFit(pixels=(1400, 1600)))
    assert any("not marked yet" in words for words in words_on(findings))


def test_without_a_photo_it_is_said_what_to_do() -> None:
    with pytest.raises(CannotPrint, match="Add one"):
        make_sheet(sample("cottage"), Wanted("photo"), MADE)


def test_the_caution_is_on_it() -> None:
    findings, _ = with_photo(STRAIGHT)
    assert "This map can be wrong. Test before you touch." in words_on(findings)
