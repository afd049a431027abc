"""The panel on a shut-off's sheet: handles to move are ringed and off, the main too, and it is as high as it says."""

import pytest

from floorplan_circuits.drawing.ink import Shape, flat
from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.drawing.panel_face import RING
from floorplan_circuits.find import find, shut_off
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Main
from floorplan_circuits.home.record import change
from floorplan_circuits.sheets.shutoff_panel import KEY, LEAST_ROW, MOST_ROW, PanelToMove, panels_to_move
from tests.drawing.drawn import bounds_of, box, breaker, device, fed, home, words_in

BOXES = (box(20, None, device(21, fed(22, 6))),)


def panels(one: Home) -> list[PanelToMove]:
    findings = find(one)
    return panels_to_move(findings, shut_off(findings, (20,)), PAPER)


def rings(panel: PanelToMove) -> list[Shape]:
    ink, _ = panel.ink(82.0, 6.0)
    return [mark for mark in flat(ink) if isinstance(mark, Shape) and mark.pen is not None and mark.pen.width == RING]


def test_the_handle_to_move_is_ringed_and_reads_off() -> None:
    (panel,) = panels(home(BOXES, (breaker(6, 1), breaker(7, 2))))
    words = words_in(panel.ink(82.0, 6.0)[0])
    assert len(rings(panel)) == 1
    assert words.count("off") == 1
    assert KEY in " ".join(words)


def test_a_main_to_move_is_ringed_too() -> None:
    one = home(BOXES, (breaker(6, 1, device="fuse", opens="not known"),))
    main = change(next(iter(one.panels)), mains=(Main(id=800, amps=100),))
    (panel,) = panels(change(one, panels=one.panels.put(main)))
    assert "Main off" in " ".join(" ".join(words_in(panel.ink(82.0, 6.0)[0])).split())
    assert len(rings(panel)) == 1


def test_where_nothing_is_to_move_there_is_no_panel() -> None:
    assert panels(home((box(20, None, device(21, fed(22))),), (breaker(6, 1),))) == []


@pytest.mark.parametrize("row", [LEAST_ROW, 6.0, MOST_ROW])
def test_it_is_as_high_as_it_says(row: float) -> None:
    (panel,) = panels(home(BOXES, (breaker(6, 1),)))
    ink, cut = panel.ink(82.0, row)
    _, top, _, bottom = bounds_of(ink)
    assert top >= 0
    assert bottom <= panel.height(82.0, row)
    assert cut == ()


def test_its_rows_grow_into_the_room_there_is() -> None:
    (panel,) = panels(home(BOXES, (breaker(6, 1),)))
    assert panel.row_in(82.0, 500.0) == MOST_ROW
    assert panel.row_in(82.0, 10.0) == LEAST_ROW
