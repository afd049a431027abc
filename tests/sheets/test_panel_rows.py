"""A panel in part: rows with handles to move and those beside, nothing that holds together cut, nothing told twice."""

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from floorplan_circuits.find import find
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Panel
from floorplan_circuits.home.table import Table
from floorplan_circuits.sheets.panel_rows import rows_around, stretches
from tests.drawing.drawn import breaker, home
from tests.homes import homes

FORTY = home(
    breakers=tuple(breaker(100 + at, at + 1) for at in range(40)),
    panels=Table([Panel(id=5, name="Main panel", spaces=40, level=1, at=(0, 0))]),
)


def test_the_row_of_a_handle_is_shown_with_the_rows_over_and_under_it() -> None:
    findings = find(FORTY)
    panel = findings.home.panels[5]
    space_11 = 110
    assert rows_around(findings, panel, {space_11}) == {4, 5, 6}
    found, after = stretches(findings, panel, {4, 5, 6})
    assert [(one.left_out, one.findings.panels[5].rows) for one in found] == [(4, 3)]
    assert after == 13
    assert sorted(found[0].findings.panels[5].cells) == [9, 10, 11, 12, 13, 14]


def test_one_row_between_two_is_shown_rather_than_told_to_be_left_out() -> None:
    findings = find(FORTY)
    assert rows_around(findings, findings.home.panels[5], {100, 108}) == {0, 1, 2, 3, 4, 5}


def test_for_no_breaker_no_row_is_shown() -> None:
    findings = find(FORTY)
    assert rows_around(findings, findings.home.panels[5], set()) == frozenset()
    assert stretches(findings, findings.home.panels[5], frozenset()) == ([], 20)


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(homes(), st.data())
def test_no_breaker_of_any_home_is_cut_and_every_row_is_shown_or_counted(any_home: Home, data: st.DataObject) -> None:
    findings = find(any_home)
    panels = [panel for panel in any_home.panels if panel.id in findings.panels]
    if not panels:
        return
    panel = data.draw(st.sampled_from(panels))
    grid = findings.panels[panel.id]
    handles = sorted(set(grid.taken.values()))
    moved = data.draw(st.sets(st.sampled_from(handles), max_size=3)) if handles else set[int]()
    rows = rows_around(findings, panel, moved)
    found, after = stretches(findings, panel, rows)
    assert sum(one.left_out + one.findings.panels[panel.id].rows for one in found) + after == grid.rows
    shown = [one.findings.panels[panel.id] for one in found]
    for (space, half), breaker_there in grid.taken.items():
        holders = [part for part in shown if part.taken.get((space, half)) == breaker_there]
        is_shown = space in grid.cells and grid.cells[space][0] in rows
        assert len(holders) == int(is_shown)
        if breaker_there in moved and space in grid.cells:
            assert is_shown
    for one in {there for part in shown for there in part.taken.values()}:
        spaces = {space for (space, _), there in grid.taken.items() if there == one and space in grid.cells}
        assert any(spaces <= set(part.cells) for part in shown)
