"""The key: what the level shows, once each, in the catalogue's order, nothing cut and nothing else."""

from itertools import pairwise

import pytest

from floorplan_circuits.drawing.ink import Stamp, Text, flat
from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.find import find
from floorplan_circuits.home.kinds import catalogue, kind_named
from floorplan_circuits.sheets.legend import FOOT, KNOWN, how_to_read
from floorplan_circuits.sheets.sections import Section
from tests.drawing.drawn import SAMPLE_HOMES, bounds_of, box, breaker, device, fed, home, sample, words_in

EVERY = frozenset({None, *range(1, 100)})
HERE = frozenset({1})


def words(section: Section) -> list[str]:
    return [word for block in section.blocks for word in words_in(block.ink)]


@pytest.mark.parametrize("wide", [60.0, 90.0, 160.0, 198.0])
@pytest.mark.parametrize("name", SAMPLE_HOMES)
def test_nothing_of_the_key_is_cut_or_leaves_its_column(name: str, wide: float) -> None:
    section = how_to_read(sample(name), wide, PAPER, EVERY)
    assert not any(word.endswith("…") for word in words(section))
    assert all(bounds_of(block.ink)[2] <= wide + 0.01 for block in section.blocks)
    assert section.whole


@pytest.mark.parametrize("wide", [60.0, 90.0, 160.0, 198.0])
@pytest.mark.parametrize("name", SAMPLE_HOMES)
def test_no_words_of_the_key_run_into_what_stands_beside_them(name: str, wide: float) -> None:
    for block in how_to_read(sample(name), wide, PAPER, EVERY).blocks[:-1]:  # the last one is the foot
        marks = [bounds_of(mark) for mark in flat(block.ink) if isinstance(mark, Text) and len(mark.words) > 4]
        spans = sorted((left, right) for left, _, right, _ in marks)
        assert all(right + 2 <= left for (_, right), (left, _) in pairwise(spans))


@pytest.mark.parametrize("name", SAMPLE_HOMES)
def test_every_symbol_in_use_stands_in_the_key_once(name: str) -> None:
    findings = sample(name)
    section = how_to_read(findings, 60.0, PAPER, EVERY)
    stamps = [mark.symbol for block in section.blocks for mark in flat(block.ink) if isinstance(mark, Stamp)]
    used = {kind_named(each.kind).symbol for one in findings.home.boxes for each in one.devices if not each.planned}
    assert len(stamps) == len(set(stamps))
    assert used <= set(stamps)
    order = [kind.symbol for kind in catalogue().values()]
    known = [symbol for symbol in stamps if symbol in order]
    assert known == sorted(known, key=order.index)


def test_the_key_says_what_colour_does_not_mean() -> None:
    assert " ".join(words(how_to_read(sample("flat"), 300.0, PAPER, EVERY))).endswith(FOOT["both"])


def test_kinds_that_share_a_symbol_stand_in_one_row() -> None:
    boxes = (box(20, (0, 0), device(21, kind="wall light")), box(23, (0, 0), device(24, kind="outdoor light")))
    assert "wall light, outdoor light" in words(how_to_read(find(home(boxes)), 90.0, PAPER, HERE))


def test_a_planned_device_is_not_in_the_key() -> None:
    boxes = (box(20, (0, 0), device(21, kind="switch"), device(22, kind="dimmer", planned=True)),)
    said = words(how_to_read(find(home(boxes)), 90.0, PAPER, HERE))
    assert "switch" in said
    assert "dimmer" not in said


def test_only_the_standings_of_the_level_are_explained() -> None:
    boxes = (box(20, (0, 0), device(21, fed(22, 6)), device(23, fed(24))),)
    said = words(how_to_read(find(home(boxes, (breaker(6, 1),))), 90.0, PAPER, HERE))
    explained = [text for _, text in KNOWN if text in said]
    assert explained == ["a label or person says so", "nobody knows: treat as live"]


def test_a_box_where_nothing_is_recorded_needs_the_question_mark_explained() -> None:
    said = words(how_to_read(find(home((box(20, (0, 0)),))), 90.0, PAPER, HERE))
    assert said[:2] == ["?", "nobody knows: treat as live"]


def test_what_passes_and_what_comes_from_elsewhere_is_explained() -> None:
    elsewhere = {"how": "any", "supplies": ({"kind": "elsewhere", "where": "next door"},)}
    feeds = (fed(22, 6).model_validate({"id": 22, "on": elsewhere}), fed(23, 6))
    said = words(how_to_read(find(home((box(20, (0, 0), passing=feeds),), (breaker(6, 1),))), 90.0, PAPER, HERE))
    assert {"passes through", "from elsewhere, not this panel"} <= set(said)


def test_a_level_without_boxes_has_no_plates_to_explain() -> None:
    said = words(how_to_read(find(home()), 200.0, PAPER, HERE))
    assert not {text for _, text in KNOWN} & set(said)


def test_the_key_says_who_tested() -> None:
    assert "Tested by owner and helper." in " ".join(words(how_to_read(sample("cottage"), 300.0, PAPER, EVERY)))
