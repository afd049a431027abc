"""Layouts: every way to lay out a page keeps its parts inside the margins and off each other."""

from itertools import combinations

import pytest

from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.sheets.columns import GUTTER, LEAST_COLUMN, Material, best_strip, height_of
from floorplan_circuits.sheets.layouts import LEAST_PLAN, Layout, alone, grown, inner_size, layouts
from floorplan_circuits.sheets.level_page import ORIENTATIONS, Lists
from floorplan_circuits.sheets.panel_column import MOST_ROW, PanelOnSheet
from floorplan_circuits.sheets.paper import MARGIN, PAPERS, Orientation, Rect
from tests.drawing.drawn import SAMPLE_HOMES, overlap, sample


def material(name: str, paper: str, orientation: Orientation, panel: bool = True) -> Material:
    findings = sample(name)
    lists = Lists(findings, PAPER, frozenset({None, *findings.home.levels.ids()}))
    shown = PanelOnSheet(findings, next(iter(findings.home.panels)), PAPER) if panel else None
    return Material(*inner_size(PAPERS[paper], orientation), shown, lists.kinds(), lists.make, orientation)


def bounds(area: Rect) -> tuple[float, float, float, float]:
    return area.x, area.y, area.right, area.bottom


def parts(layout: Layout) -> list[tuple[float, float, float, float]]:
    areas = [layout.plan, layout.foot, *([layout.panel] if layout.panel else [])]
    areas += [area for _, _, area in layout.sections if area.height > 0]
    return [bounds(area) for area in areas]


@pytest.mark.parametrize("orientation", ORIENTATIONS)
@pytest.mark.parametrize("paper", ["letter", "a4", "tabloid"])
@pytest.mark.parametrize("name", SAMPLE_HOMES)
def test_parts_of_a_page_keep_off_each_other_and_inside_the_margins(
    name: str, paper: str, orientation: Orientation
) -> None:
    found = material(name, paper, orientation)
    ways = [*layouts(found), *alone(found)]
    assert len(ways) > 5
    for layout in ways:
        areas = parts(layout)
        assert not any(overlap(a, b) for a, b in combinations(areas, 2))
        for left, top, right, bottom in areas:
            assert left >= MARGIN - 0.01
            assert right <= layout.width - MARGIN + 0.01
            assert top >= MARGIN
            assert bottom <= layout.height - MARGIN + 0.01
        assert layout.plan.height >= LEAST_PLAN - 5


@pytest.mark.parametrize("orientation", ORIENTATIONS)
def test_room_to_spare_goes_to_the_panels_rows(orientation: Orientation) -> None:
    found = material("cottage", "a3", orientation)
    for layout in layouts(found):
        after = grown(layout, found)
        assert layout.row <= after.row <= MOST_ROW + 1e-6
        areas = parts(after)
        assert not any(overlap(a, b) for a, b in combinations(areas, 2))
        assert all(bottom <= after.height - MARGIN + 0.02 for *_, bottom in areas)


def test_some_layout_shows_every_list_whole() -> None:
    assert any(layout.lost() == () for layout in layouts(material("cottage", "a3", "landscape")))


def test_lists_may_stand_whole_between_a_narrow_plan_and_the_panel() -> None:
    found = material("flat", "letter", "landscape")
    narrow = [one for one in layouts(found) if one.panel and one.plan.right < one.panel.x - GUTTER - 30]
    assert narrow
    for layout in narrow:
        between = [area for _, _, area in layout.sections if area.x > layout.plan.right]
        assert any(area.right < layout.panel.x for area in between if layout.panel)
        assert layout.lost() == ()


def test_what_is_lost_and_what_is_shown_agree() -> None:
    for layout in layouts(material("flat", "letter", "landscape")):
        whole = {kind: len(section.blocks) for kind, section, _ in layout.sections}
        for kind in layout.kinds:
            assert (layout.shown(kind) < whole.get(kind, 1)) == (kind in layout.lost())


def test_without_a_panel_the_plan_has_the_width_of_the_page() -> None:
    for layout in layouts(material("flat", "a4", "landscape", panel=False)):
        assert layout.panel is None
        assert layout.plan.width == pytest.approx(297 - 2 * MARGIN)


def test_large_paper_is_laid_out_smaller_and_magnified() -> None:
    assert inner_size(PAPERS["a3"], "portrait") == pytest.approx((297 / 1.33, 420 / 1.33))


@pytest.mark.parametrize("wide", [90.0, 166.0, 261.0])
def test_a_strip_holds_every_list_once_in_columns_that_can_be_read(wide: float) -> None:
    found = material("cottage", "letter", "landscape")
    high, columns = best_strip(found, found.kinds, wide)
    assert tuple(kind for kinds, _ in columns for kind in kinds) == found.kinds
    assert all(column >= LEAST_COLUMN for _, column in columns)
    assert high == pytest.approx(max(height_of(found, kinds, column) for kinds, column in columns))
    assert high <= height_of(found, found.kinds, wide)
