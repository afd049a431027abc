"""Drawing over a picture with real mouse and keys: dropped, pasted, sized, straightened, locked; refused in words."""

import struct
import threading
import time
import zlib
from pathlib import Path

import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QColor, QDropEvent, QGuiApplication, QImage, QPainter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMessageBox, QPushButton
from pytestqt.qtbot import QtBot

from floorplan_circuits.desktop import plan_files
from floorplan_circuits.desktop.photos import NoPhoto
from floorplan_circuits.desktop.plan_files import LONGEST_PX, read_plan
from floorplan_circuits.desktop.rail import DRAW, TIE
from floorplan_circuits.desktop.session import Session
from floorplan_circuits.desktop.window import Window
from floorplan_circuits.edits.rooms import add_level, add_room
from floorplan_circuits.files.open import open_home
from floorplan_circuits.gestures.drawing_rooms import DrawRoom
from floorplan_circuits.gestures.selecting import Select
from floorplan_circuits.gestures.tracing import MarkLength
from floorplan_circuits.home.building import Underlay
from floorplan_circuits.home.placement import corners
from tests.desktop.hand import click, mouse, picture_of


def plan(path: Path, wide: int = 400, high: int = 300) -> Path:
    """A plan of one room: black lines on white, 40 px from the edges."""
    image = QImage(wide, high, QImage.Format.Format_RGB32)
    image.fill(Qt.GlobalColor.white)
    painter = QPainter(image)
    painter.drawRect(40, 40, wide - 80, high - 80)
    painter.end()
    assert image.save(str(path))
    return path


def drop(window: Window, path: Path) -> None:
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path))])
    left, plain = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    window.dropEvent(QDropEvent(QPointF(400, 300), Qt.DropAction.CopyAction, data, left, plain))


@pytest.fixture
def at_work(window: Window, qtbot: QtBot) -> Window:
    """The window with a new home, nothing drawn."""
    window.start("House by the ford", "metric")
    settle(window, qtbot)
    return window


def settle(window: Window, qtbot: QtBot) -> None:
    session = of(window)
    qtbot.waitUntil(lambda: session.findings is not None and session.findings.home is session.home)


def of(window: Window) -> Session:
    assert window.session is not None
    return window.session


def laid(window: Window) -> Underlay:
    found = of(window).home.levels.rows[0].underlay
    assert found is not None
    return found


def said(window: Window) -> str:
    return window.work.status.text()


def at(window: Window, x: float, y: float) -> QPointF:
    return window.work.canvas.to_pixels(QPointF(x, y))


def mark(window: Window, x: float, y: float) -> None:
    canvas, place = window.work.canvas, at(window, x, y)
    mouse(canvas, "move", place)
    click(canvas, place)


def test_a_dropped_picture_lies_under_the_level_and_asks_for_its_scale(at_work, qtbot, tmp_path) -> None:
    drop(at_work, plan(tmp_path / "plan.png"))
    settle(at_work, qtbot)

    assert laid(at_work).pixels == (400, 300)
    assert of(at_work).tool == MarkLength()
    assert "length that you know" in said(at_work)
    assert at_work.work.tracing.band.isVisible()


def test_two_clicks_and_a_typed_length_set_the_scale(at_work, qtbot, tmp_path) -> None:
    drop(at_work, plan(tmp_path / "plan.png"))
    settle(at_work, qtbot)
    mark(at_work, 1500, 1500)  # the room's corners, while the picture counts as 15 m wide
    mark(at_work, 13_500, 1500)
    QTest.keyClicks(at_work.work.canvas, "8")
    QTest.keyClick(at_work.work.canvas, Qt.Key.Key_Return)

    assert laid(at_work).width == pytest.approx(10_000, rel=0.01)  # a pixel of the screen either way
    assert "10.00 m wide" in said(at_work)


def test_the_picture_is_seen_through_a_room_that_is_drawn(at_work, qtbot, tmp_path) -> None:
    work = at_work.work
    drop(at_work, plan(tmp_path / "plan.png"))
    settle(at_work, qtbot)
    QTest.keyClick(work.canvas, Qt.Key.Key_Escape)
    QTest.keyClicks(work.canvas, "n")
    canvas = work.canvas
    start, end = at(at_work, 500, 500), at(at_work, 14_500, 10_500)
    for kind, place in (("press", start), ("move", (start + end) / 2), ("move", end), ("release", end)):
        mouse(canvas, kind, place)
    settle(at_work, qtbot)
    of(at_work).select(())

    def line(image: QImage) -> int:
        edge = at(at_work, 7500, 1500)  # the middle of the upper line of the room on the picture
        return min(image.pixelColor(round(edge.x()), round(edge.y()) + dy).lightness() for dy in range(-4, 5))

    shown = line(picture_of(canvas))
    work.tracing.fade(0)
    settle(at_work, qtbot)
    assert shown < 225 < line(picture_of(canvas))


def test_locked_the_band_is_gone_and_the_menu_unlocks(at_work, qtbot, tmp_path) -> None:
    band = at_work.work.tracing.band
    drop(at_work, plan(tmp_path / "plan.png"))
    QTest.mouseClick(band.lock, Qt.MouseButton.LeftButton)
    assert laid(at_work).locked
    assert not band.isVisible()
    assert "locked" in said(at_work)

    actions = {action.text(): action for menu in at_work.menuBar().actions() for action in menu.menu().actions()}
    actions["&Lock or unlock it"].trigger()
    assert not laid(at_work).locked
    assert band.isVisible()


def test_turning_and_fading_and_removing_from_the_band(at_work, qtbot, tmp_path) -> None:
    band = at_work.work.tracing.band
    drop(at_work, plan(tmp_path / "plan.png"))
    QTest.mouseClick(band.turn, Qt.MouseButton.LeftButton)
    band.fade.setValue(70)
    band.fade.setValue(80)
    assert (laid(at_work).angle, laid(at_work).opacity_percent) == (90, 80)
    of(at_work).undo()  # one pull at the slider is one edit
    assert laid(at_work).opacity_percent == 40
    assert band.fade.value() == 40

    QTest.mouseClick(band.remove, Qt.MouseButton.LeftButton)
    assert of(at_work).home.levels.rows[0].underlay is None
    assert of(at_work).home.pictures == ()


def test_the_picture_travels_in_the_file(at_work, tmp_path) -> None:
    drop(at_work, plan(tmp_path / "plan.png"))
    assert at_work.save_to(tmp_path / "home.json")

    stored = open_home(tmp_path / "home.json")
    (content,) = stored.pictures.values()
    assert QImage.fromData(content).size().toTuple() == (400, 300)
    assert stored.home.levels.rows[0].underlay == laid(at_work)


def test_a_copied_picture_is_pasted(at_work) -> None:
    image = QImage(3000, 1000, QImage.Format.Format_RGB32)
    image.fill(QColor("#ffffff"))
    QGuiApplication.clipboard().setImage(image)
    QTest.keyClick(at_work.work.canvas, Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)

    assert laid(at_work).pixels == (LONGEST_PX, LONGEST_PX // 3)
    QGuiApplication.clipboard().clear()


def test_what_was_copied_here_last_is_pasted_before_an_older_picture(at_work, qtbot) -> None:
    canvas, control = at_work.work.canvas, Qt.KeyboardModifier.ControlModifier
    QGuiApplication.clipboard().setImage(QImage(30, 20, QImage.Format.Format_RGB32))
    QTest.keyClicks(canvas, "l")
    mark(at_work, 2000, 2000)
    settle(at_work, qtbot)
    QTest.keyClick(canvas, Qt.Key.Key_C, control)
    QTest.keyClick(canvas, Qt.Key.Key_V, control)

    assert len(of(at_work).home.boxes) == 2
    assert of(at_work).home.levels.rows[0].underlay is None
    QGuiApplication.clipboard().clear()


def test_other_stages_do_not_show_the_picture(at_work, tmp_path) -> None:
    drop(at_work, plan(tmp_path / "plan.png"))
    at_work.work.show_stage(TIE)
    assert not at_work.work.tracing.band.isVisible()
    at_work.work.tracing.take(MarkLength())
    assert at_work.work.rail.stage == DRAW


@pytest.mark.qt_log_ignore("propagateSizeHints")
def test_a_picture_dropped_before_a_home_is_open_is_told_what_to_do(window, tmp_path) -> None:
    drop(window, plan(tmp_path / "plan.png"))

    assert "Start or open a home first" in said(window)
    for box in window.findChildren(QMessageBox):
        box.done(0)


# --- what can't be taken --------------------------------------------------------------------------------------------


def bomb(path: Path, wide: int, high: int) -> Path:
    """A PNG whose head says it is so large, with hardly any bytes behind it."""
    head = struct.pack(">IIBBBBB", wide, high, 8, 2, 0, 0, 0)

    def chunk(kind: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))

    body = chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(bytes(9000))) + chunk(b"IEND", b"")
    path.write_bytes(b"\x89PNG\r\n\x1a\n" + body)
    return path


@pytest.mark.parametrize(
    ("name", "content", "says"),
    [
        ("a.png", b"", "PNG or JPEG"),
        ("a.png", b"\x89PNG\r\n\x1a\n" + b"\x00" * 40, "damaged"),
        ("a.jpg", b"\xff\xd8\xff" + b"\x00" * 400, "damaged"),
        ("a.svg", b"<svg", "damaged"),
        ("a.svg", b'<svg xmlns="http://www.w3.org/2000/svg"><script/></svg>', "program"),
        ("a.svg", b'<svg xmlns="http://www.w3.org/2000/svg"><image href="/etc/x.png"/></svg>', "other files"),
    ],
)
def test_what_is_no_whole_picture_is_refused_and_the_home_unchanged(
    at_work, qtbot, tmp_path, name, content, says
) -> None:
    before = of(at_work).home
    (tmp_path / name).write_bytes(content)
    drop(at_work, tmp_path / name)

    qtbot.waitUntil(lambda: says in said(at_work), timeout=20_000)
    assert said(at_work).startswith(name)
    assert of(at_work).home is before
    assert of(at_work).tool == Select()


def test_a_picture_that_says_it_has_billions_of_pixels_is_refused_at_once(tmp_path) -> None:
    started = time.perf_counter()
    with pytest.raises(NoPhoto, match="million pixels"):
        read_plan(bomb(tmp_path / "a.png", 60_000, 60_000))
    assert time.perf_counter() - started < 1


def test_a_missing_file_is_named(tmp_path) -> None:
    with pytest.raises(NoPhoto, match=r"gone\.svg can’t be read"):
        read_plan(tmp_path / "gone.svg")


def test_a_drawing_is_drawn_apart_on_white(tmp_path) -> None:
    body = '<rect x="10" y="10" width="20" height="10" fill="#202020"/>'
    path = tmp_path / "a.svg"
    path.write_text(
        f'<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="30mm" viewBox="0 0 40 30">{body}</svg>'
    )
    photo = read_plan(path)
    image = QImage.fromData(photo.content)

    assert photo.pixels == (LONGEST_PX, LONGEST_PX * 3 // 4)
    assert image.pixelColor(5, 5).lightness() > 250
    assert image.pixelColor(LONGEST_PX // 2, LONGEST_PX * 3 // 8).lightness() < 60


def test_a_drawing_that_takes_too_long_is_given_up(tmp_path, monkeypatch) -> None:
    monkeypatch.setattr(plan_files, "SECONDS", 0.01)
    (tmp_path / "a.svg").write_text('<svg xmlns="http://www.w3.org/2000/svg" width="4" height="3"/>')
    with pytest.raises(NoPhoto, match="too long"):
        read_plan(tmp_path / "a.svg")


ENDLESS = 8 * '<path d="M0 0 L1000000 1000000" stroke="#000" stroke-dasharray="0.001 0.001"/>'
"""Each line of it has a billion dashes."""


def hostile(path: Path) -> Path:
    path.write_text(f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1000000 1000000">{ENDLESS}</svg>')
    return path


def test_the_window_stays_quick_while_a_drawing_takes_its_time_and_it_can_be_stopped(at_work, qtbot, tmp_path) -> None:
    tracing, before = at_work.work.tracing, of(at_work).home
    started = time.perf_counter()
    drop(at_work, hostile(tmp_path / "plan.svg"))
    assert time.perf_counter() - started < 0.2
    assert not tracing.waiting.isVisible()

    qtbot.waitUntil(tracing.waiting.isVisible)
    assert "plan.svg" in tracing.waiting.words.text()
    QTest.keyClick(at_work.work.canvas, Qt.Key.Key_N)
    assert of(at_work).tool != Select()

    QTest.mouseClick(tracing.waiting.cancel, Qt.MouseButton.LeftButton)
    assert not tracing.waiting.isVisible()
    assert "Stopped" in said(at_work)
    assert of(at_work).home is before
    qtbot.waitUntil(lambda: not any(thread.name == "drawing" for thread in threading.enumerate()), timeout=20_000)


def test_a_drawing_is_laid_under_the_level_it_was_asked_for(at_work, qtbot, tmp_path) -> None:
    first = of(at_work).view.level
    (tmp_path / "plan.svg").write_text('<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 30"/>')
    drop(at_work, tmp_path / "plan.svg")
    of(at_work).attempt(lambda home: add_level(home, "Loft"))
    at_work.work.show_level(of(at_work).home.levels.ids()[-1])
    assert of(at_work).view.level != first

    qtbot.waitUntil(lambda: of(at_work).view.level == first, timeout=20_000)
    laid = [level.id for level in of(at_work).home.levels if level.underlay is not None]
    assert laid == [first]


def test_a_drawing_asked_for_in_another_home_is_forgotten(at_work, qtbot, tmp_path) -> None:
    drop(at_work, hostile(tmp_path / "plan.svg"))
    at_work.start("Another house", "metric")
    settle(at_work, qtbot)
    qtbot.waitUntil(lambda: not any(thread.name == "drawing" for thread in threading.enumerate()), timeout=20_000)
    assert not at_work.work.tracing.waiting.isVisible()
    assert all(level.underlay is None for level in of(at_work).home.levels)


# --- in sight, and ready for the next thing ---------------------------------------------------------------------------


def in_sight(window: Window) -> bool:
    canvas = window.work.canvas
    found = [canvas.to_pixels(QPointF(*corner)) for corner in corners(laid(window))]
    return all(0 <= at.x() <= canvas.width() and 0 <= at.y() <= canvas.height() for at in found)


def test_a_picture_is_in_sight_as_a_whole_when_laid_and_when_its_scale_is_set(at_work, qtbot, tmp_path) -> None:
    drop(at_work, plan(tmp_path / "plan.png"))
    settle(at_work, qtbot)
    assert in_sight(at_work)
    for length in ("300", "2"):  # as wide as a street, then as a cupboard
        session = of(at_work)
        session.take(MarkLength())
        mark(at_work, *corners(laid(at_work))[0])
        mark(at_work, *corners(laid(at_work))[1])
        QTest.keyClicks(at_work.work.canvas, length)
        QTest.keyClick(at_work.work.canvas, Qt.Key.Key_Return)
        settle(at_work, qtbot)
        assert laid(at_work).width == pytest.approx(int(length) * 1000, rel=0.02)
        assert in_sight(at_work)


def test_a_home_opened_with_a_picture_and_a_fade_keep_the_view(at_work, qtbot, tmp_path) -> None:
    drop(at_work, plan(tmp_path / "plan.png"))
    settle(at_work, qtbot)
    at_work.work.canvas.zoom(2.0)
    seen = at_work.work.canvas.camera
    at_work.work.tracing.fade_by(-10)
    settle(at_work, qtbot)
    assert at_work.work.canvas.camera == seen


def test_letters_take_tools_right_after_a_levels_tab_was_clicked(at_work, qtbot) -> None:
    of(at_work).attempt(lambda home: add_level(home, "Loft"))
    settle(at_work, qtbot)
    tabs = [one for one in at_work.work.strip.findChildren(QPushButton) if one.text() in ("Ground floor", "Loft")]
    QTest.mouseClick(tabs[-1], Qt.MouseButton.LeftButton)
    QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_N)
    assert isinstance(of(at_work).tool, DrawRoom)


def test_on_an_upper_level_the_picture_is_to_be_moved_onto_the_walls_below(at_work, qtbot, tmp_path) -> None:
    session = of(at_work)
    session.attempt(lambda home: add_room(home, session.view.level, ((0, 0), (4000, 0), (4000, 3000), (0, 3000))))
    session.attempt(lambda home: add_level(home, "Loft"))
    at_work.work.show_level(session.home.levels.ids()[-1])
    settle(at_work, qtbot)
    drop(at_work, plan(tmp_path / "plan.png"))
    mark(at_work, 1500, 1500)
    mark(at_work, 6000, 1500)
    QTest.keyClicks(at_work.work.canvas, "4")
    QTest.keyClick(at_work.work.canvas, Qt.Key.Key_Return)
    assert "level below" in said(at_work)
