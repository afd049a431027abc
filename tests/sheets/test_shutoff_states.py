"""The states over the steps: each in words, each with a sign of its own shape, yellow never alone."""

import pytest

from floorplan_circuits.drawing.ink import Shape, Text, flat
from floorplan_circuits.drawing.palette import GREY, PAPER
from floorplan_circuits.find import find
from floorplan_circuits.findings import BoxState, BoxWhenOff
from floorplan_circuits.sheets.sections import Block
from floorplan_circuits.sheets.shutoff_states import state_blocks
from tests.drawing.drawn import bounds_of, box, device, fed, home, words_in

FINDINGS = find(home((box(20, None, device(21, fed(22))), box(23, None, device(24, fed(25))))))
OFF = "with 26 and 18A off"
STATES: tuple[BoxState, ...] = ("live", "unknown", "not proved", "not opened", "should be dead")


def drawn(*states: BoxWhenOff, wide: float = 190.0) -> tuple[Block, ...]:
    return state_blocks(states, OFF, FINDINGS, wide, PAPER)


@pytest.mark.parametrize("state", STATES)
def test_a_state_is_said_with_why_and_what_of_the_neutral_is_not_known(state: BoxState) -> None:
    one = BoxWhenOff(20, state, ("a label says",))
    words = " ".join(words_in(drawn(one)[0].ink))
    assert f"B20: {one.says}" in words
    assert "A label says" in words
    assert "Neutral not known: keep its splices closed until tested" in words


@pytest.mark.parametrize("wide", [190.0, 70.0])
def test_a_state_is_never_said_without_what_is_off_for_it(wide: float) -> None:
    words = " ".join(words_in(drawn(BoxWhenOff(20, "should be dead"), wide=wide)[0].ink)).lower()
    assert OFF.lower() in words


@pytest.mark.parametrize("state", STATES)
def test_each_state_has_a_shape_of_its_own_without_colour(state: BoxState) -> None:
    def shapes(of: BoxState) -> list[Shape]:
        (block,) = state_blocks((BoxWhenOff(20, of),), OFF, FINDINGS, 190.0, GREY)
        return [mark for mark in flat(block.ink) if isinstance(mark, Shape) and bounds_of(mark)[2] <= 10.5]

    others = [other for other in STATES if other != state and {other, state} != {"live", "unknown"}]
    assert all(shapes(state) != shapes(other) for other in others)


def test_only_what_is_live_is_red_and_only_what_needs_caution_yellow() -> None:
    def colours(state: BoxState) -> set[str]:
        marks = list(flat(drawn(BoxWhenOff(20, state))[0].ink))
        return {mark.colour for mark in marks if isinstance(mark, Text)} | {
            mark.fill for mark in marks if isinstance(mark, Shape) and mark.fill
        }

    assert PAPER.stop in colours("live")
    assert PAPER.caution in colours("not proved")
    for quiet in ("not opened", "should be dead"):
        assert not colours(quiet) & {PAPER.stop, PAPER.caution}  # type: ignore[arg-type]


def test_many_states_stand_two_in_a_row_and_none_is_lost() -> None:
    blocks = drawn(*[BoxWhenOff(20 if at % 2 else 23, "not opened", ("nobody looked",)) for at in range(5)])
    assert len(blocks) == 3
    words = " ".join(word for block in blocks for word in words_in(block.ink))
    assert words.count("not opened: treat as live") == 5
    for block in blocks:
        assert bounds_of(block.ink)[2] <= 190.0
        assert bounds_of(block.ink)[3] <= block.height
