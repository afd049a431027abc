"""The panel on a shut-off's sheet: handles to move are ringed and off, the main too, and it is as high as it says."""

from dataclasses import replace

import pytest

from floorplan_circuits.drawing.ink import Shape, flat
from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.drawing.panel_face import RING
from floorplan_circuits.find import find, shut_off
from floorplan_circuits.findings import ToTurnOff
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Main
from floorplan_circuits.home.record import change
from floorplan_circuits.sheets.shutoff_panel import (
    LEAST_ROW,
    MOST_ROW,
    NOT_RINGED,
    RINGED,
    RINGED_FUSE,
    PanelToMove,
    panels_to_move,
)
from floorplan_circuits.sheets.shutoff_ways import Way
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
    assert RINGED in " ".join(words)


def test_a_main_to_move_is_ringed_too() -> None:
    one = home(BOXES, (breaker(6, 1, device="fuse", opens="not known"),))
    main = change(next(iter(one.panels)), mains=(Main(id=800, amps=100),))
    (panel,) = panels(change(one, panels=one.panels.put(main)))
    assert "Main off" in " ".join(" ".join(words_in(panel.ink(82.0, 6.0)[0])).split())
    assert len(rings(panel)) == 1


def resting_below(fewest: bool) -> list[str]:
    """The words of a panel in part: a handle to move at its head, and one found off at its foot that is to stay off."""
    found = find(home(BOXES, (breaker(6, 1), breaker(7, 11, found={"state": "off"}))))
    plan = shut_off(found, (20,))
    stays = ToTurnOff((7,), 5, (11,), ())
    (panel,) = panels_to_move(found, replace(plan, keep_off=(stays,)), PAPER, Way(True, in_part=True, fewest=fewest))
    return words_in(panel.ink(82.0, 6.0)[0])


def test_a_handle_that_a_step_sends_to_since_it_stays_off_has_its_row_too() -> None:
    said = resting_below(fewest=False)
    assert "11" in said
    assert NOT_RINGED in " ".join(said)
    assert "3 rows left out here: nothing to move" in said


def test_where_room_is_shortest_what_stays_off_is_named_where_its_row_is_left_out() -> None:
    assert "4 rows left out here: 11 stays off" in resting_below(fewest=True)


def test_a_fuse_to_take_out_is_told_as_one() -> None:
    (panel,) = panels(home(BOXES, (breaker(6, 1, device="fuse", opens="hot"),)))
    assert RINGED_FUSE in " ".join(words_in(panel.ink(82.0, 6.0)[0]))


def test_a_rating_is_never_followed_by_a_letter_that_reads_as_amperes() -> None:
    (panel,) = panels(home(BOXES, (breaker(6, 1), breaker(7, 2, amps=15, protects=("arc fault",)))))
    words = words_in(panel.ink(82.0, 6.0)[0])
    assert "15" in words
    assert not {"A", "AF", "15 A"} & {*words}


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
