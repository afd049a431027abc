"""The list of dangers: their order, their words, and what choosing one tells."""

from dataclasses import replace

import pytest
from PySide6.QtCore import QModelIndex, QPoint, Qt
from PySide6.QtGui import QColor, QContextMenuEvent
from pytestqt.modeltest import ModelTester
from pytestqt.qtbot import QtBot

from floorplan_circuits.desktop.hazard_list import HazardList, HazardModel
from floorplan_circuits.desktop.style import palette_of
from floorplan_circuits.drawing.palette import DARK, LIGHT
from floorplan_circuits.findings import Findings, Hazard
from tests.desktop.hand import picture_of

TEXT, SPOKEN, TIP = Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole, Qt.ItemDataRole.ToolTipRole


@pytest.fixture
def shown(qtbot: QtBot, cottage: Findings) -> HazardList:
    made = HazardList()
    qtbot.addWidget(made)
    made.resize(800, 400)
    made.show_findings(cottage, LIGHT)
    return made


def test_the_rows_are_the_hazards_in_their_order(shown: HazardList, cottage: Findings) -> None:
    model, listed = shown.model(), [hazard for hazard in cottage.hazards if hazard.listed]
    assert model.rowCount() == len(listed) > 3
    for row, hazard in enumerate(listed):
        words = model.data(model.index(row, 0), TEXT)
        assert words == f"{hazard.named}: {hazard.says} {hazard.do}"
    assert any(hazard.box is None for hazard in listed)


def test_what_is_told_with_its_box_alone_has_no_row(shown: HazardList, cottage: Findings) -> None:
    model = shown.model()
    rows = [str(model.data(model.index(row, 0), TEXT)) for row in range(model.rowCount())]
    alone = [hazard for hazard in cottage.hazards if not hazard.listed]
    assert alone
    assert not any(hazard.says in row for hazard in alone for row in rows)


def test_a_row_that_was_set_aside_says_so_and_is_paled(shown: HazardList, cottage: Findings) -> None:
    plain = picture_of(shown)
    first, *others = cottage.hazards
    aside = replace(first, set_aside="Set aside on 1 May 2026: known")
    shown.show_findings(replace(cottage, hazards=(aside, *others)), LIGHT)
    words = str(shown.model().data(shown.model().index(0, 0), TEXT))
    assert words == f"{first.named}: {first.says} Set aside on 1 May 2026: known {first.do}"
    assert picture_of(shown) != plain


def test_the_menu_is_asked_for_by_pointer_and_by_keyboard(shown: HazardList, cottage: Findings, qtbot: QtBot) -> None:
    asked: list[Hazard] = []
    shown.menu_wanted.connect(lambda hazard, _place: asked.append(hazard))
    at = shown.visualRect(shown.model().index(1, 0)).center()
    shown.setCurrentIndex(shown.model().index(2, 0))
    for reason, where in ((QContextMenuEvent.Reason.Mouse, at), (QContextMenuEvent.Reason.Keyboard, QPoint(0, 0))):
        shown.contextMenuEvent(QContextMenuEvent(reason, where, shown.viewport().mapToGlobal(where)))
    assert asked == [cottage.hazards[1], cottage.hazards[2]]


def test_a_screen_reader_hears_what_the_eye_reads(shown: HazardList) -> None:
    model = shown.model()
    for row in range(model.rowCount()):
        index = model.index(row, 0)
        assert model.data(index, SPOKEN) == model.data(index, TEXT)


def test_the_tip_says_why_and_where_the_rule_stands(shown: HazardList, cottage: Findings) -> None:
    model = shown.model()
    tip = str(model.data(model.index(0, 0), TIP))
    assert cottage.hazards[0].why in tip
    assert cottage.hazards[0].source in tip


def test_no_row_calls_anything_safe(shown: HazardList) -> None:
    model = shown.model()
    rows = [model.index(row, 0) for row in range(model.rowCount())]
    assert not any("safe" in str(model.data(index, role)).lower() for index in rows for role in (TEXT, TIP))


def test_choosing_a_row_by_key_or_click_tells_its_hazard(shown: HazardList, cottage: Findings, qtbot: QtBot) -> None:
    chosen: list[Hazard] = []
    shown.hazard_chosen.connect(chosen.append)
    shown.setCurrentIndex(shown.model().index(2, 0))
    qtbot.keyClick(shown, Qt.Key.Key_Down)
    at = shown.visualRect(shown.model().index(0, 0)).center()
    qtbot.mouseClick(shown.viewport(), Qt.MouseButton.LeftButton, pos=at)
    assert chosen[:2] == [cottage.hazards[2], cottage.hazards[3]]
    assert set(chosen[2:]) == {cottage.hazards[0]}


def test_choosing_the_same_row_again_goes_there_again(shown: HazardList, cottage: Findings, qtbot: QtBot) -> None:
    chosen: list[Hazard] = []
    shown.setCurrentIndex(shown.model().index(1, 0))
    shown.hazard_chosen.connect(chosen.append)
    at = shown.visualRect(shown.model().index(1, 0)).center()
    qtbot.mouseClick(shown.viewport(), Qt.MouseButton.LeftButton, pos=at)
    assert chosen == [cottage.hazards[1]]


def test_every_row_is_painted_in_both_themes(shown: HazardList, cottage: Findings) -> None:
    light = picture_of(shown)
    shown.show_findings(cottage, DARK)
    assert picture_of(shown) != light


def test_without_findings_there_are_no_rows(shown: HazardList) -> None:
    shown.show_findings(None, LIGHT)
    assert shown.model().rowCount() == 0
    assert not picture_of(shown).isNull()


def test_the_model_keeps_the_rules_of_qt(qtmodeltester: ModelTester, cottage: Findings) -> None:
    model = HazardModel()
    model.show(cottage)
    qtmodeltester.check(model, force_py=True)
    assert model.rowCount(model.index(0, 0)) == 0
    assert model.rowCount(QModelIndex()) == sum(hazard.listed for hazard in cottage.hazards)


def test_in_the_dark_what_stands_beside_a_plate_is_light(qtbot: QtBot, cottage: Findings) -> None:
    made = HazardList()
    qtbot.addWidget(made)
    made.resize(800, 400)
    made.setPalette(palette_of(DARK))
    made.setStyleSheet(f"background: {DARK.furniture};")
    made.show_findings(cottage, DARK)
    image, row = picture_of(made), made.visualRect(made.model().index(0, 0))
    beside = (QColor(image.pixel(x, y)).lightness() for x in range(100, 700) for y in range(row.top(), row.bottom()))
    assert max(beside) > 200


def test_in_a_narrow_column_what_to_do_wraps_and_its_row_grows_by_it(shown: HazardList, cottage: Findings) -> None:
    first, *others = cottage.hazards
    longer = replace(first, do=f"{first.do} {'Treat as live whatever is off. ' * 4}")
    shown.resize(260, 400)
    heights = []
    for hazard in (first, longer):
        shown.show_findings(replace(cottage, hazards=(hazard, *others)), LIGHT)
        heights.append(shown.sizeHintForIndex(shown.model().index(0, 0)).height())
    assert heights[1] >= heights[0] + 3 * shown.fontMetrics().height()
