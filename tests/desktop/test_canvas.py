"""The canvas: zoom, pan, what a place names, and how few plans it asks for."""

from dataclasses import replace

import pytest
from PySide6.QtCore import QEvent, QPointF, QRectF, Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from floorplan_circuits.desktop.camera import FARTHEST, NEAREST
from floorplan_circuits.desktop.canvas import PlanCanvas
from floorplan_circuits.drawing.palette import LIGHT
from floorplan_circuits.drawing.plan import Plan, plan
from floorplan_circuits.find import find
from floorplan_circuits.findings import Findings, Subject
from floorplan_circuits.gestures.events import Event, Key, Move, Press, Release
from floorplan_circuits.home.building import Level
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.table import Table
from floorplan_circuits.view import Draft
from tests.desktop.hand import LEFT, MIDDLE, click, drag, mouse, picture_of, wheel

SPOT = QPointF(300, 220)


def pixels_of(canvas: PlanCanvas, cottage: Findings, mark: str) -> tuple[Subject, QPointF]:
    """Return a box as a subject, and where it is shown."""
    box = next(box for box in cottage.home.boxes if box.mark == mark)
    assert box.at is not None
    return Subject("box", box.id), canvas.to_pixels(QPointF(*box.at))


def events_of(canvas: PlanCanvas) -> list[Event]:
    """Return a list that fills with what the hand does."""
    found: list[Event] = []
    canvas.hand_did.connect(found.append)
    return found


# --- scale ----------------------------------------------------------------------------------------------------------


def test_the_whole_level_is_shown_as_large_as_it_goes(canvas: PlanCanvas, cottage: Findings, level: int) -> None:
    left, top, right, bottom = (
        edge * canvas.camera.scale for edge in plan(cottage, level, canvas.camera.scale, LIGHT).bounds
    )
    shown = QRectF(canvas.to_pixels(QPointF(left, top)), canvas.to_pixels(QPointF(right, bottom)))
    assert QRectF(canvas.rect()).contains(shown)
    assert max(shown.width() / canvas.width(), shown.height() / canvas.height()) > 0.85


def test_letters_that_stand_for_rooms_are_told_in_the_corner(canvas: PlanCanvas) -> None:
    picture = canvas.picture
    assert picture is not None
    canvas.camera = replace(canvas.camera, scale=60.0, centre=(-90_000.0, 0.0))  # nothing else is in sight
    assert picture.keys_in_words(60.0) == ""
    blank = canvas.grab().toImage()
    canvas.camera = replace(canvas.camera, scale=125.0)
    told = canvas.grab().toImage()

    assert picture.keys_in_words(125.0) == "a Back hall"
    changed = {
        (x, y) for x in range(told.width()) for y in range(told.height()) if told.pixel(x, y) != blank.pixel(x, y)
    }
    assert changed
    assert all(x < 120 and y > told.height() - 40 for x, y in changed)


def test_the_whole_level_stays_in_view_when_the_window_grows(canvas: PlanCanvas) -> None:
    before = canvas.camera.scale
    canvas.resize(1500, 1200)
    assert canvas.camera.scale < before


def test_a_view_of_ones_own_is_kept_when_the_window_grows(canvas: PlanCanvas) -> None:
    canvas.zoom(2)
    before = canvas.camera.scale
    canvas.resize(1500, 1200)
    assert canvas.camera.scale == before


@pytest.mark.parametrize("angle", [120, -120, 15])
def test_the_wheel_zooms_at_the_pointer(canvas: PlanCanvas, angle: int) -> None:
    house, scale = canvas.to_house(SPOT), canvas.camera.scale
    wheel(canvas, SPOT, angle)
    assert (canvas.camera.scale < scale) == (angle > 0)
    assert (canvas.to_pixels(house) - SPOT).manhattanLength() < 1e-6


@pytest.mark.parametrize(("angle", "end"), [(1200, NEAREST), (-1200, FARTHEST)])
def test_zoom_ends_somewhere_and_the_place_still_stays(canvas: PlanCanvas, angle: int, end: float) -> None:
    house = canvas.to_house(SPOT)
    for _ in range(12):
        wheel(canvas, SPOT, angle)
    assert canvas.camera.scale == end
    assert (canvas.to_pixels(house) - SPOT).manhattanLength() < 1e-6


def test_pixels_and_house_places_lead_back_to_each_other(canvas: PlanCanvas) -> None:
    for at in (QPointF(0, 0), SPOT, QPointF(899, 699)):
        assert (canvas.to_pixels(canvas.to_house(at)) - at).manhattanLength() < 1e-6


def test_reach_is_the_same_on_the_screen_at_any_zoom(canvas: PlanCanvas) -> None:
    before, scale = canvas.reach(), canvas.camera.scale
    canvas.zoom(2)
    assert canvas.reach() / before == pytest.approx(canvas.camera.scale / scale)


# --- pan ------------------------------------------------------------------------------------------------------------


def test_the_middle_button_drags_the_house_along(canvas: PlanCanvas) -> None:
    house = canvas.to_house(SPOT)
    did = events_of(canvas)
    drag(canvas, SPOT, SPOT + QPointF(80, -40), MIDDLE)
    assert (canvas.to_pixels(house) - SPOT - QPointF(80, -40)).manhattanLength() < 1e-6
    assert not [event for event in did if isinstance(event, Press | Release)]


def test_the_space_bar_lets_the_left_button_drag_the_house(canvas: PlanCanvas, qtbot: QtBot) -> None:
    house = canvas.to_house(SPOT)
    did = events_of(canvas)
    qtbot.keyPress(canvas, Qt.Key.Key_Space)
    drag(canvas, SPOT, SPOT + QPointF(50, 30), LEFT)
    qtbot.keyRelease(canvas, Qt.Key.Key_Space)
    assert (canvas.to_pixels(house) - SPOT - QPointF(50, 30)).manhattanLength() < 1e-6
    assert did == []
    click(canvas, SPOT)
    assert [type(event) for event in did] == [Press, Release]


def test_a_tremble_of_the_hand_is_no_drag(canvas: PlanCanvas) -> None:
    before = canvas.camera.centre
    drag(canvas, SPOT, SPOT + QPointF(2, 1), MIDDLE)
    assert canvas.camera.centre == before


def test_a_left_drag_is_a_gesture_and_moves_nothing_by_itself(canvas: PlanCanvas) -> None:
    before, did = canvas.camera.centre, events_of(canvas)
    drag(canvas, SPOT, SPOT + QPointF(60, 0), LEFT)
    assert [type(event) for event in did] == [Press, Move, Move, Release]
    assert all(event.held for event in did if isinstance(event, Move))
    assert canvas.camera.centre == before


# --- what a place names ---------------------------------------------------------------------------------------------


def test_a_click_on_a_box_names_it_and_its_place_in_the_house(canvas: PlanCanvas, cottage: Findings) -> None:
    subject, at = pixels_of(canvas, cottage, "B3")
    did = events_of(canvas)
    click(canvas, at)
    press, release = did
    assert isinstance(press, Press)
    assert isinstance(release, Release)
    assert press.subject == release.subject == subject
    assert press.at == pytest.approx((canvas.to_house(at).x(), canvas.to_house(at).y()))


def test_a_click_beside_everything_names_nothing(canvas: PlanCanvas) -> None:
    did = events_of(canvas)
    click(canvas, QPointF(3, 3))
    assert [event.subject for event in did if isinstance(event, Press | Release)] == [None, None]


def test_pointing_is_told_once_and_so_is_leaving(canvas: PlanCanvas, cottage: Findings) -> None:
    subject, at = pixels_of(canvas, cottage, "B3")
    told: list[Subject | None] = []
    canvas.subject_hovered.connect(told.append)
    for place in (at, at + QPointF(1, 0), at):
        mouse(canvas, "move", place, Qt.MouseButton.NoButton)
    QApplication.sendEvent(canvas, QEvent(QEvent.Type.Leave))
    assert told == [subject, None]


def test_a_double_click_opens_what_it_is_on(canvas: PlanCanvas, cottage: Findings, qtbot: QtBot) -> None:
    subject, at = pixels_of(canvas, cottage, "B3")
    with qtbot.waitSignal(canvas.subject_opened) as opened:
        qtbot.mouseDClick(canvas, LEFT, pos=at.toPoint())
    assert opened.args == [subject]


@pytest.mark.parametrize(
    ("key", "name"),
    [(Qt.Key.Key_Escape, "escape"), (Qt.Key.Key_Enter, "enter"), (Qt.Key.Key_Left, "left"), (Qt.Key.Key_Up, "up")],
)
def test_named_keys_go_to_the_tool_in_hand(canvas: PlanCanvas, qtbot: QtBot, key: Qt.Key, name: str) -> None:
    did = events_of(canvas)
    qtbot.keyClick(canvas, key)
    qtbot.keyClick(canvas, key, Qt.KeyboardModifier.ShiftModifier)
    assert did == [Key(name, "", False), Key(name, "", True)]


def test_letters_and_digits_go_to_the_tool_as_what_they_type(canvas: PlanCanvas, qtbot: QtBot) -> None:
    did = events_of(canvas)
    qtbot.keyClicks(canvas, "n4")
    assert did == [Key("", "n"), Key("", "4")]


def test_going_to_a_box_brings_it_to_the_middle_near_enough_to_read(canvas: PlanCanvas, cottage: Findings) -> None:
    subject, _ = pixels_of(canvas, cottage, "B1")
    canvas.camera = replace(canvas.camera, scale=400)
    canvas.go_to(subject)
    _, at = pixels_of(canvas, cottage, "B1")
    middle = QPointF(canvas.width() / 2, canvas.height() / 2)
    assert (at - middle).manhattanLength() < 60  # the middle of the box with its label
    assert canvas.camera.scale <= 75


def test_going_to_what_is_not_on_the_level_changes_nothing(canvas: PlanCanvas) -> None:
    before = canvas.camera.centre, canvas.camera.scale
    canvas.go_to(Subject("box", 999_999))
    assert (canvas.camera.centre, canvas.camera.scale) == before


# --- nothing to show ------------------------------------------------------------------------------------------------


def test_without_a_level_it_says_so_and_names_nothing(qtbot: QtBot) -> None:
    empty = PlanCanvas()
    qtbot.addWidget(empty)
    empty.resize(400, 300)
    bare = picture_of(empty)
    empty.empty_words = "Open a home."
    assert picture_of(empty) != bare
    assert empty.subject_at(SPOT) is None
    empty.fit()
    empty.zoom(2)
    click(empty, SPOT)


def test_an_empty_level_can_be_looked_at(canvas: PlanCanvas) -> None:
    bare = find(Home(next_id=2, levels=Table([Level(id=1, name="Ground floor")])))
    canvas.show_level(lambda scale: plan(bare, 1, scale, LIGHT))
    assert NEAREST <= canvas.camera.scale <= FARTHEST
    assert canvas.subject_at(QPointF(canvas.rect().center())) is None
    assert not picture_of(canvas).isNull()


# --- painting -------------------------------------------------------------------------------------------------------


def test_pale_ink_leaves_only_what_is_lit(canvas: PlanCanvas, cottage: Findings) -> None:
    subject, at = pixels_of(canvas, cottage, "B3")
    plain = picture_of(canvas)
    canvas.light(frozenset({subject}))
    lit = picture_of(canvas)
    middle = at.toPoint()
    near = [(middle.x() + dx, middle.y() + dy) for dx in range(-4, 5) for dy in range(-4, 5)]
    darkest = min(near, key=lambda spot: plain.pixelColor(*spot).lightness())
    assert abs(lit.pixelColor(*darkest).lightness() - plain.pixelColor(*darkest).lightness()) < 12
    _, other = pixels_of(canvas, cottage, "B1")
    assert lit.pixelColor(other.toPoint()).lightness() >= plain.pixelColor(other.toPoint()).lightness()
    canvas.light(frozenset())
    assert picture_of(canvas) == plain


def test_a_ring_and_a_draft_are_drawn_over_the_plan_and_go_again(canvas: PlanCanvas, cottage: Findings) -> None:
    subject, _ = pixels_of(canvas, cottage, "B3")
    plain = picture_of(canvas)
    canvas.ring(frozenset({subject}))
    assert picture_of(canvas) != plain
    canvas.ring(frozenset())
    canvas.show_draft(Draft(marquee=((0.0, 0.0), (3000.0, 3000.0))))
    assert picture_of(canvas) != plain
    canvas.show_draft(None)
    assert picture_of(canvas) == plain


def test_few_plans_are_made(canvas: PlanCanvas, cottage: Findings, level: int) -> None:
    made: list[float] = []

    def make(scale: float) -> Plan:
        made.append(scale)
        return plan(cottage, level, scale, LIGHT)

    canvas.show_level(make)
    picture_of(canvas)
    made.clear()
    drag(canvas, SPOT, SPOT + QPointF(300, 200), MIDDLE)
    canvas.zoom(1.05)
    picture_of(canvas)
    assert made == []
    canvas.zoom(2)
    picture_of(canvas)
    assert made == [canvas.camera.scale]


def test_after_a_long_pan_the_picture_is_that_of_a_fresh_one(canvas: PlanCanvas) -> None:
    drag(canvas, SPOT, SPOT + QPointF(250, 180), MIDDLE)
    moved = picture_of(canvas)
    canvas.zoom(1.0)  # as near as before, but painted anew
    assert picture_of(canvas).pixelColor(450, 350) == moved.pixelColor(450, 350)


def test_another_theme_is_another_ground(canvas: PlanCanvas) -> None:
    canvas.theme = replace(LIGHT, canvas="#123456")
    canvas.zoom(1.0)
    assert picture_of(canvas).pixelColor(2, 2).name() == "#123456"
