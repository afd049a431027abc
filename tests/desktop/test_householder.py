"""What a householder stumbled over once: forms out of sight, wheels that tie, gangs that could not be told apart."""

from pathlib import Path

import pytest
from PySide6.QtCore import QByteArray, QPoint, QPointF, QSettings, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QLabel, QLineEdit, QPushButton

from floorplan_circuits.desktop.fields import Choice, Count
from floorplan_circuits.desktop.gangs import device_at
from floorplan_circuits.desktop.inspector import NO_CABLE, TAKE_OUT
from floorplan_circuits.desktop.panel_keys import gone_to
from floorplan_circuits.desktop.panel_page import PUT_ON_PLAN
from floorplan_circuits.desktop.rail import DRAW, PANEL, TIE
from floorplan_circuits.desktop.window import Window
from floorplan_circuits.drawing.close_up_words import PLACE_GUESSED
from floorplan_circuits.drawing.plan_boxes import GANG
from floorplan_circuits.edits.boxes import set_boxes
from floorplan_circuits.findings import Subject
from floorplan_circuits.gestures.tying import TieDevices
from floorplan_circuits.home.boxes import NotKnown
from tests.desktop.robot_hand import draw_kitchen

LEFT, CONTROL = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.ControlModifier
UPPER_WALL = 60


@pytest.fixture
def home(window, hand):
    """A kitchen with a receptacle and a box of two switches, and a panel with two breakers."""
    draw_kitchen(window, hand)
    hand.write("r")
    hand.click(1000, UPPER_WALL)
    hand.write("s")
    hand.click(2600, UPPER_WALL)
    hand.click(2600, UPPER_WALL)
    hand.key(Qt.Key.Key_Escape)
    hand.stage(PANEL)
    QTest.mouseClick(hand.shown(QPushButton, "Add the panel")[0], LEFT)
    hand.settle()
    hand.click_space(1)
    hand.answer("20 plugs")
    hand.answer("15 lights")
    hand.leave_field()
    hand.stage(DRAW)
    return window


def switches(window):
    return window.session.home.boxes.rows[1].devices


def is_tied(device):
    return not isinstance(device.feeds[0].on, NotKnown)


def wheel(widget):
    at = QPointF(widget.rect().center())
    buttons, keys = Qt.MouseButton.NoButton, Qt.KeyboardModifier.NoModifier
    place = QPointF(widget.mapToGlobal(at))
    turned = QWheelEvent(at, place, QPoint(), QPoint(0, -120), buttons, keys, Qt.ScrollPhase.NoScrollPhase, False)
    QApplication.sendEvent(widget, turned)


def in_sight(window, widget):
    top = widget.mapTo(window, QPoint(0, 0)).y()
    return widget.isVisible() and top >= 0 and top + widget.height() <= window.height()


# --- forms ------------------------------------------------------------------------------------------------------------


def test_the_wheel_changes_no_field(qtbot):
    choice, count = Choice("Breaker", ("not known", "1", "3"), "1"), Count("Spaces", 20, 200)
    for field in (choice, count):
        qtbot.addWidget(field)
        field.show()
        wheel(field)
    assert (choice.currentText(), count.value()) == ("1", 20)


def test_what_is_selected_is_told_in_sight_without_scrolling(home, hand):
    hand.click(1000, UPPER_WALL)
    assert in_sight(home, hand.shown(QComboBox, "Breaker")[0])
    assert in_sight(home, hand.shown(QPushButton, "A cable passes through")[0])
    viewport = home.work.rail.inspector.parentWidget().parentWidget()
    assert viewport.height() >= home.work.rail.inspector.height()

    hand.key(Qt.Key.Key_Escape)
    assert hand.shown(QComboBox, "Breaker") == []


def test_what_was_just_put_is_told_in_sight_too(home, hand):
    hand.write("r")
    hand.click(2600, UPPER_WALL)
    assert hand.shown(QComboBox, "Gang 3")
    assert home.work.rail.inspector.parentWidget().height() > 200


def test_a_form_filled_anew_gives_the_keys_back(home, hand, qtbot):
    hand.click(1000, UPPER_WALL)
    hand.choose("Breaker", "3")
    qtbot.waitUntil(lambda: isinstance(QApplication.focusWidget(), QComboBox))
    assert QApplication.focusWidget().accessibleName() == "Breaker"


def test_what_is_being_typed_in_a_form_stays_while_nothing_it_tells_changes(home, hand):
    hand.click(1000, UPPER_WALL)
    name = hand.shown(QLineEdit, "Name")[0]
    name.setFocus()
    QTest.keyClicks(name, "Kett")
    home.work._on_found()  # as the worker's findings come in late
    assert hand.shown(QLineEdit, "Name")[0].text() == "Kett"


def test_a_gang_and_a_passing_cable_can_be_taken_out(home, hand):
    hand.click(2600, UPPER_WALL)
    hand.choose("Gang 2", TAKE_OUT)
    assert len(switches(home)) == 1

    QTest.mouseClick(hand.shown(QPushButton, "A cable passes through")[0], LEFT)
    hand.settle()
    assert len(home.session.home.boxes.rows[1].passing) == 1
    hand.choose("Passing", NO_CABLE)
    assert home.session.home.boxes.rows[1].passing == ()


# --- gangs ------------------------------------------------------------------------------------------------------------


def test_one_gang_of_a_box_is_tied_alone_and_its_number_ties_all(home, hand):
    hand.stage(TIE)
    hand.click_breaker(home.session.home.breakers.rows[0].id)
    half = GANG * hand.canvas.drawn_scale() / 2
    hand.click(2600 - half, UPPER_WALL)
    assert [is_tied(device) for device in switches(home)] == [True, False]
    hand.click(2600 + half, UPPER_WALL)
    assert [is_tied(device) for device in switches(home)] == [True, True]


def test_a_place_on_a_housing_names_the_gang_drawn_there(home):
    box, scale = home.session.home.boxes.rows[1], 50.0
    x, y = box.at
    gang = GANG * scale
    first, second = box.devices
    assert device_at(box, (x - gang / 2, y + 100), scale) == first
    assert device_at(box, (x + gang / 2, y + 100), scale) == second
    for off in ((x, y + 400), (x, y - 100), (x + 1.1 * gang, y + 100)):
        assert device_at(box, off, scale) is None


def test_a_box_of_one_is_meant_as_a_whole(home):
    box = home.session.home.boxes.rows[0]
    assert device_at(box, box.at, 50.0) is None


# --- the panel --------------------------------------------------------------------------------------------------------


def test_another_panel_is_shown_from_any_stage(home, hand):
    hand.stage(PANEL)
    hand.click_breaker(home.session.home.breakers.rows[0].id)
    QTest.mouseClick(hand.shown(QPushButton, "It feeds another panel")[0], LEFT)
    hand.settle()
    assert hand.shown(QPushButton, "It feeds another panel") == []
    QTest.mouseClick(hand.shown(QPushButton, "Show Panel 2")[0], LEFT)
    assert home.work.panel().name == "Panel 2"

    hand.stage(TIE)
    (chooser,) = hand.shown(QComboBox, "Panel shown")
    chooser.setCurrentIndex(0)
    chooser.activated.emit(0)
    assert home.work.panel().name == "Main panel"


def test_a_second_click_with_control_lets_a_breaker_go(home, hand):
    first, second = (breaker.id for breaker in home.session.home.breakers)
    hand.stage(PANEL)
    hand.click_breaker(first)
    hand.click_breaker(second, CONTROL)
    assert home.session.selected_ids() == [first, second]
    hand.click_breaker(second, CONTROL)
    assert home.session.selected_ids() == [first]
    hand.click_breaker(second)
    assert home.session.selected_ids() == [second]


def test_the_panel_is_gone_about_and_filled_by_keys(home, hand):
    hand.stage(PANEL)
    view = home.work.side.view
    view.setFocus(Qt.FocusReason.TabFocusReason)
    for key in (Qt.Key.Key_Down, Qt.Key.Key_Right, Qt.Key.Key_Return):
        QTest.keyClick(view, key)
    hand.answer("30/2 dryer")
    hand.leave_field()
    assert [pole.space for pole in home.session.home.breakers.rows[-1].poles] == [4, 6]


def test_enter_on_a_taken_space_takes_its_breaker(home, hand):
    hand.stage(PANEL)
    view = home.work.side.view
    view.setFocus(Qt.FocusReason.TabFocusReason)
    QTest.keyClick(view, Qt.Key.Key_Return)
    assert home.session.selected_ids() == [home.session.home.breakers.rows[0].id]


@pytest.mark.parametrize(
    ("space", "key", "leads_to"),
    [(1, Qt.Key.Key_Down, 3), (1, Qt.Key.Key_Right, 2), (4, Qt.Key.Key_Up, 2), (4, Qt.Key.Key_Left, 3),
     (3, Qt.Key.Key_Down, 3), (None, Qt.Key.Key_Up, 1)],
)  # fmt: skip
def test_arrows_lead_from_space_to_space(space, key, leads_to):
    assert gone_to({1: (0, 0), 2: (0, 1), 3: (1, 0), 4: (1, 1)}, space, key) == leads_to


def test_a_breaker_removed_is_called_by_its_space(home, hand):
    hand.stage(PANEL)
    hand.click_breaker(home.session.home.breakers.rows[1].id)
    home.session.remove()
    hand.settle()
    assert hand.says().startswith("Done: remove breaker 3.")


# --- saving and what is remembered ------------------------------------------------------------------------------------


def test_a_save_says_only_what_is_so(home, hand, tmp_path):
    hand.settle()
    told = home.work.below.counts.text()
    home.save_to(tmp_path / "ford.json")
    assert hand.says() == "Saved: ford.json."
    assert home.work.foot.saved.text().startswith("Saved ")
    assert home.work.below.counts.text() == told != "Checking …"

    hand.click(1000, UPPER_WALL)
    hand.key(Qt.Key.Key_Right)
    assert home.work.foot.saved.text().startswith("Not saved since ")
    home.save_to(tmp_path / "ford.json")
    assert hand.says() == "Saved: ford.json. The version before it is kept beside it."


def test_the_dress_and_the_places_of_the_panes_are_remembered(qtbot, tmp_path: Path):
    settings = QSettings(str(tmp_path / "settings.ini"), QSettings.Format.IniFormat)
    one = Window(tmp_path / "rescue", settings)
    qtbot.addWidget(one)
    one.choose_theme("dark")
    one.close()
    assert isinstance(settings.value("splitter 0"), QByteArray)
    two = Window(tmp_path / "rescue", settings)
    qtbot.addWidget(two)
    assert (two.theme_chosen(), two.work.theme.name) == ("dark", "dark")


# --- looking about ----------------------------------------------------------------------------------------------------


def test_what_is_in_sight_is_ringed_where_it_is(home, hand):
    before = hand.canvas.camera
    home.work.go_to(Subject("box", home.session.home.boxes.rows[0].id))
    assert (hand.canvas.camera.centre, hand.canvas.camera.scale) == (before.centre, before.scale)


def test_a_new_level_is_named_beside_its_tab(home, hand):
    QTest.mouseClick(home.work.strip.add_level, LEFT)
    field = hand.field()
    assert field.geometry().top() < 40
    hand.answer("Upstairs")
    assert [level.name for level in home.session.home.levels][-1] == "Upstairs"


def test_while_the_home_is_drawn_a_breaker_clicked_with_the_tie_tool_is_the_one_tied_to(home, hand):
    hand.write("c")
    breaker = home.session.home.breakers.rows[0].id
    hand.click_breaker(breaker)
    assert home.session.tool == TieDevices(breaker)
    hand.click(1000, UPPER_WALL)
    assert is_tied(home.session.home.boxes.rows[0].devices[0])


def test_a_panel_without_a_place_has_the_way_to_the_plan_in_sight(home, hand):
    hand.stage(PANEL)
    assert in_sight(home, hand.shown(QPushButton, PUT_ON_PLAN)[0])


def test_a_guessed_place_is_told_in_the_form_at_once(home, hand):
    box = home.session.home.boxes.rows[0].id
    hand.click(1000, UPPER_WALL)
    assert hand.shown(QLabel, PLACE_GUESSED) == []
    home.session.attempt(lambda now: set_boxes(now, [box], placed="guessed"))
    hand.settle()
    assert hand.shown(QLabel, PLACE_GUESSED)
