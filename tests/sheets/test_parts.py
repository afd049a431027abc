"""A level in parts: every box is in one, and nothing in a part lies outside it."""

import re
from functools import cache

import pytest

from floorplan_circuits.drawing.ink import Shape, flat
from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.drawing.plan import DOTS_FROM, plan
from floorplan_circuits.drawing.sheet import Sheet
from floorplan_circuits.find import find
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.building import Level
from floorplan_circuits.sheets.paper import MARGIN, PAPERS
from floorplan_circuits.sheets.parts import cut_up, only_in, small_key
from floorplan_circuits.sheets.wall_map import wall_map
from tests.drawing.drawn import MADE, bounds_of, sample, words_in
from tests.homes import generate


def first_level(findings: Findings) -> Level:
    return next(iter(findings.home.levels))


@cache
def crowded() -> Findings:
    return find(generate(1, 400).home)


@cache
def printed() -> Sheet:
    return wall_map(crowded(), PAPERS["letter"], MADE)


@pytest.mark.parametrize("largest", [(3000.0, 4000.0), (100_000.0, 2500.0), (1e9, 1e9)])
def test_every_box_of_a_level_is_in_one_part(largest: tuple[float, float]) -> None:
    findings = sample("cottage")
    level = first_level(findings)
    inside = [only_in(findings, level, bounds) for bounds in cut_up(findings, level, largest).bounds()]
    found = [box.id for part in inside for box in part.home.boxes if box.level == level.id]
    assert sorted(found) == sorted(box.id for box in findings.home.boxes if box.level == level.id and box.at)


def test_only_what_holds_a_box_is_a_part_however_far_apart_boxes_are() -> None:
    cottage = sample("cottage")
    level, far = first_level(cottage), 9_000_000
    first, *_ = boxes = [box for box in cottage.home.boxes if box.level == 1 and box.at is not None]
    at = first.at or (0, 0)
    home = cottage.home.changed(boxes=cottage.home.boxes.put(first.changed(at=(at[0] + far, at[1]))))
    parts = cut_up(find(home), level, (1e5, 1e5))
    assert len(parts.bounds()) == 2
    assert [list(parts.beside(place)) for place in (0, 1)] == [[], []]
    sheet = wall_map(find(home), PAPERS["letter"], MADE)
    assert len([page for page in sheet.pages if ", part " in page.name]) <= len(boxes)


def test_parts_tell_which_lie_beside_them() -> None:
    parts = cut_up(crowded(), first_level(crowded()), (5000.0, 5000.0))
    for place, (left, top, right, bottom) in enumerate(parts.bounds()):
        for side, other in parts.beside(place):
            there = parts.bounds()[other]
            assert {"left": there[2] == left, "right": there[0] == right}.get(side, there[0] == left)
            assert {"above": there[3] == top, "below": there[1] == bottom}.get(side, there[1] == top)
    assert any(list(parts.beside(place)) for place in range(len(parts.cells)))


def test_floors_and_walls_end_where_their_part_ends() -> None:
    findings = sample("cottage")
    level = first_level(findings)
    parts = cut_up(findings, level, (4000.0, 3000.0))
    assert len(parts.bounds()) > 3
    for left, top, right, bottom in parts.bounds():
        part = only_in(findings, level, (left, top, right, bottom))
        ends = [end for wall in part.walls for end in (wall.a, wall.b)]
        ends += [corner for zone in part.zones for ring in zone.rings for corner in ring]
        assert ends
        assert all(left - 1 <= x <= right + 1 and top - 1 <= y <= bottom + 1 for x, y in ends)
        drawn = plan(part, level.id, 50.0, PAPER)
        assert drawn.ink.marks


def test_a_level_that_would_be_dots_is_printed_in_parts_with_a_key() -> None:
    first, *rest = printed().pages
    parts = [page for page in rest if ", part " in page.name]
    assert "The parts of this level" in words_in(first.ink)
    assert any("each part that holds any has a page of its own" in word for word in words_in(first.ink))
    assert len(parts) > 1
    scales = [int(word[2:]) for page in parts for word in words_in(page.ink) if word[:2] == "1:" and word[2:].isdigit()]
    assert len(scales) == len(parts)
    assert all(scale < DOTS_FROM for scale in scales)


def test_every_number_of_the_level_is_on_one_of_its_parts_or_in_a_list() -> None:
    words = [word for page in printed().pages[1:] for word in words_in(page.ink)]
    said = {part for word in words for part in re.split(r"[\s,:;()+]+", word)}
    for found in crowded().boxes.values():
        for breaker in found.breakers:
            assert crowded().marks[breaker] in said


def test_parts_keep_the_margin_of_the_paper() -> None:
    for page in printed().pages:
        for mark in flat(page.ink):
            if isinstance(mark, Shape):
                left, top, right, bottom = bounds_of(mark)
                assert min(left, top) >= MARGIN - 0.2
                assert right <= page.width - MARGIN + 0.2
                assert bottom <= page.height - MARGIN + 0.2


def test_the_small_key_fits_its_place_and_frames_where_one_is() -> None:
    parts = cut_up(crowded(), first_level(crowded()), (5000.0, 5000.0))
    ink, high = small_key(parts, (60.0, 26.0), PAPER, here=2)
    left, top, right, bottom = bounds_of(ink)
    assert (left, top) == pytest.approx((0, 0), abs=0.01)
    assert right <= 60.01
    assert bottom <= high + 0.01 <= 26.02
