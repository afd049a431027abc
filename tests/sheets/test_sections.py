"""Sections: blocks stay whole, what does not fit is counted, and a key that is of no use in part is not parted."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorplan_circuits.drawing.ink import Group, Text
from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.sheets.sections import HEAD, MORE, Block, Section, fitting, put, text_block
from tests.drawing.drawn import bounds_of, words_in


def section(heights: list[float], whole: bool = False) -> Section:
    blocks = [Block(Group((Text((0, 2), f"block {at}", 8.2),)), height) for at, height in enumerate(heights)]
    return Section("Never tested", tuple(blocks), 60.0, whole)


heights = st.lists(st.floats(2, 20), min_size=1, max_size=12)


@given(heights, st.floats(0, 150), st.integers(0, 4))
def test_what_fits_fits(found: list[float], room: float, start: int) -> None:
    one = section(found)
    taken = fitting(one, room, start)
    left = len(found) - start
    used = HEAD + sum(found[start : start + taken])
    if taken < left:
        assert taken == 0 or used + MORE <= room + 1e-6
        assert used + MORE + found[start + taken] > room - 1e-6
    elif left > 0:
        assert used <= room + 0.011


@given(heights, st.floats(0, 150))
def test_a_key_is_taken_whole_or_not_at_all(found: list[float], room: float) -> None:
    assert fitting(section(found, whole=True), room) in (0, len(found))


def test_a_section_is_as_high_as_its_head_and_blocks() -> None:
    assert section([3.0, 4.0]).height == pytest.approx(HEAD + 7.0)


def test_blocks_are_put_under_the_head_and_the_rest_is_told() -> None:
    one = section([3.0, 4.0, 5.0])
    drawn = put(one, one.blocks[:2], "and 1 more on a further page", (10, 20), PAPER)
    assert words_in(drawn) == ["Never tested", "block 0", "block 1", "and 1 more on a further page"]
    left, top, _, bottom = bounds_of(drawn)
    assert left == pytest.approx(10)
    assert top > 20
    assert bottom <= 20 + HEAD + 7.0 + MORE


def test_a_block_of_text_is_as_high_as_its_lines() -> None:
    block = text_block(("one", "two"), PAPER)
    assert words_in(block.ink) == ["one", "two"]
    assert bounds_of(block.ink)[3] < block.height
