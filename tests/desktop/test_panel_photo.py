"""The panel's photo with real mouse and keys: loaded, its corners dragged, its numbers moved and clicked."""

from pathlib import Path

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QGuiApplication, QImage
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from floorplan_circuits.desktop.photo_page import PhotoPage
from floorplan_circuits.desktop.rail import DRAW, PANEL
from floorplan_circuits.desktop.window import Window
from floorplan_circuits.findings import Subject
from floorplan_circuits.home.power import Panel
from floorplan_circuits.home.resources import folder
from tests.desktop.hand import click, mouse
from tests.desktop.test_photos import picture
from tests.desktop.test_tracing import drop, of, said, settle


@pytest.fixture
def page(window: Window, qtbot: QtBot) -> PhotoPage:
    """The photo page of the cottage's panel, without a photo yet."""
    window.open(folder("sample_homes") / "cottage.json")
    settle(window, qtbot)
    window.work.show_stage(PANEL)
    window.work.photo.show()
    return window.work.photo.page


def panel(window: Window) -> Panel:
    return next(iter(of(window).home.panels))


def drag(page: PhotoPage, start: QPointF, end: QPointF) -> None:
    for kind, place in (("press", start), ("move", (start + end) / 2), ("move", end), ("release", end)):
        mouse(page.canvas, kind, place)


def load(window: Window, qtbot: QtBot, tmp_path: Path) -> None:
    drop(window, picture(tmp_path / "panel.jpg", 800, 1200))
    settle(window, qtbot)


def straight(window: Window, qtbot: QtBot, tmp_path: Path) -> None:
    load(window, qtbot, tmp_path)
    canvas = window.work.photo.page.canvas
    drag(window.work.photo.page, canvas.place_of((224, 180)), canvas.place_of((260, 200)))
    settle(window, qtbot)
    QTest.mouseClick(window.work.photo.page.mark, Qt.MouseButton.LeftButton)


def test_the_page_asks_for_a_photo_with_the_cover_on(window, page) -> None:
    assert page.empty.isVisible()
    assert "cover on" in page.empty.text()
    assert window.work.side.isVisible()
    assert not page.mark.isVisible()


def test_a_dropped_photo_is_the_panels_while_its_page_is_shown(window, qtbot, page, tmp_path) -> None:
    load(window, qtbot, tmp_path)

    assert panel(window).photo_fit.pixels == (800, 1200)
    assert of(window).home.levels.rows[0].underlay is None
    assert page.mark.isChecked()
    assert "four rings" in said(window)


def test_a_copied_photo_is_pasted(window, page) -> None:
    image = QImage(600, 900, QImage.Format.Format_RGB32)
    image.fill(Qt.GlobalColor.gray)
    QGuiApplication.clipboard().setImage(image)
    QTest.keyClick(page.canvas, Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)

    assert panel(window).photo_fit.pixels == (600, 900)
    QGuiApplication.clipboard().clear()


def test_dragging_a_ring_marks_the_corners(window, qtbot, page, tmp_path) -> None:
    load(window, qtbot, tmp_path)
    canvas = page.canvas
    start = canvas.place_of((224, 180))  # the first guess: 0.28 of the width, 0.15 of the height
    drag(page, start, canvas.place_of((300, 250)))

    corners = panel(window).photo_fit.corners
    assert corners is not None
    assert corners[0] == pytest.approx((300, 250), abs=3)
    assert corners[2] == (576, 1020)


def test_a_corner_that_no_panel_can_have_goes_back_and_is_told(window, qtbot, page, tmp_path) -> None:
    load(window, qtbot, tmp_path)
    canvas = page.canvas
    drag(page, canvas.place_of((224, 180)), canvas.place_of((700, 1100)))

    assert panel(window).photo_fit.corners is None
    assert "clockwise" in said(window)
    assert canvas.place_of((224, 180)) == canvas.place_of(canvas._corners[0])


def test_keys_choose_a_corner_and_move_it(window, qtbot, page, tmp_path) -> None:
    load(window, qtbot, tmp_path)
    QTest.keyClicks(page.canvas, "3")
    QTest.keyClick(page.canvas, Qt.Key.Key_Left)
    settle(window, qtbot)
    QTest.keyClick(page.canvas, Qt.Key.Key_Up, Qt.KeyboardModifier.ShiftModifier)

    corners = panel(window).photo_fit.corners
    assert corners is not None
    assert corners[2] == (575, 1010)


def test_a_number_is_dragged_to_where_it_belongs_and_all_go_back(window, qtbot, page, tmp_path) -> None:
    straight(window, qtbot, tmp_path)
    breaker = next(one.id for one in of(window).home.breakers if one.poles[0].space == 3)
    start = page.canvas.place_of_tag(breaker)
    assert start is not None
    drag(page, start, start + QPointF(30, 12))
    settle(window, qtbot)

    assert [tag.space for tag in panel(window).photo_fit.tags] == [3]
    moved = page.canvas.place_of_tag(breaker)
    assert moved is not None
    assert (moved - start).toTuple() == pytest.approx((30, 12), abs=1)
    QTest.mouseClick(page.numbers, Qt.MouseButton.LeftButton)
    assert panel(window).photo_fit.tags == ()


def test_a_click_on_a_number_selects_its_breaker_on_the_face(window, qtbot, page, tmp_path) -> None:
    straight(window, qtbot, tmp_path)
    breaker = next(one.id for one in of(window).home.breakers if one.poles[0].space == 5)
    place = page.canvas.place_of_tag(breaker)
    assert place is not None
    click(page.canvas, place)

    assert of(window).view.selected == (Subject("breaker", breaker),)
    assert page.canvas.ringed == {Subject("breaker", breaker)}


def test_escape_and_another_stage_give_the_plan_its_place_back(window, page) -> None:
    work = window.work
    QTest.keyClick(page.back, Qt.Key.Key_Escape)
    assert (work.photo.is_open, work.below.isVisible()) == (False, True)

    work.photo.show()
    assert work.photo.is_open
    work.show_stage(DRAW)
    assert not work.photo.is_open


def test_a_file_that_is_no_photo_is_refused_in_words(window, page, tmp_path) -> None:
    (tmp_path / "a.jpg").write_bytes(b"\xff\xd8\xff" + b"\x00" * 300)
    before = of(window).home
    drop(window, tmp_path / "a.jpg")

    assert "damaged" in said(window)
    assert of(window).home is before


def test_without_a_panel_it_is_said_what_comes_first(window, qtbot) -> None:
    window.start("House by the ford", "metric")
    settle(window, qtbot)
    window.work.photo.show()

    assert "Add the panel first" in said(window)
    assert not window.work.photo.is_open
