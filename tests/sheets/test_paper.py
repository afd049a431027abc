"""Paper: either way up, and rectangles that know their edges."""

import pytest

from floorplan_circuits.sheets.paper import PAPERS, Rect


@pytest.mark.parametrize("name", PAPERS)
def test_a_paper_lies_or_stands(name: str) -> None:
    paper = PAPERS[name]
    assert paper.size("landscape") == tuple(reversed(paper.size("portrait")))
    assert paper.size("landscape")[0] > paper.size("landscape")[1]


@pytest.mark.parametrize(("name", "magnify"), [("letter", 1), ("legal", 1), ("a4", 1), ("tabloid", 1.33), ("a3", 1.33)])
def test_large_paper_is_read_from_farther_off_so_everything_is_larger(name: str, magnify: float) -> None:
    assert PAPERS[name].magnify == magnify


def test_a_rectangle_knows_its_far_edges() -> None:
    assert (Rect(2, 3, 10, 20).right, Rect(2, 3, 10, 20).bottom) == (12, 23)
