"""The small picture of an open box beside the plan: what is written in it can be read."""

import pytest

from floorplan_circuits.drawing.ink import Text, flat
from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.find import find
from floorplan_circuits.sheets.shutoff_picture import LEAST_WORD, small_picture
from tests.drawing.drawn import bounds_of, box, device, home, sample


def test_a_long_mark_does_not_run_past_the_picture() -> None:
    findings = find(home((box(20, None, device(21), mark="0 “attic”"),)))
    drawn = small_picture(findings, 20, 82.4, PAPER)
    assert bounds_of(drawn.ink)[2] <= drawn.width + 0.2


@pytest.mark.parametrize(("name", "mark"), [("house", "B61"), ("flat", "B1"), ("house", "B48")])
def test_the_numbers_of_the_gangs_are_as_large_as_words(name: str, mark: str) -> None:
    findings = sample(name)
    box = next(one for one in findings.home.boxes if one.mark == mark)
    drawn = small_picture(findings, box.id, 82.4, PAPER)
    numbers = [text for text in flat(drawn.ink) if isinstance(text, Text) and text.words.isdigit() and text.size < 10]
    assert {str(gang + 1) for gang in range(box.gangs)} <= {text.words for text in numbers}
    assert all(text.size >= LEAST_WORD for text in numbers)
