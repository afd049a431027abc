"""Looking inside a box in the window: opened and left as a person does, and what they saw there recorded."""

from datetime import date

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMenu

from floorplan_circuits.desktop.looking_inside import CHOOSE_FIRST
from floorplan_circuits.desktop.opened_form import NO_CABLE, NOT_KNOWN
from floorplan_circuits.desktop.rail import TIE
from floorplan_circuits.drawing.palette import DARK
from floorplan_circuits.findings import Subject
from floorplan_circuits.gestures.selecting import Select
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.log import Opened
from floorplan_circuits.home.resources import folder
from tests.desktop.hand import is_dark
from tests.desktop.robot_hand import press

LEFT, RIGHT = Qt.MouseButton.LeftButton, Qt.MouseButton.RightButton
NO_KEYS = Qt.KeyboardModifier.NoModifier
COTTAGE = folder("sample_homes") / "cottage.json"
SHARED = "B24"
"""A box of two switches on two circuits, that nobody looked into."""


@pytest.fixture
def opened(window, hand):
    """The window with the cottage open in it."""
    assert window.open(COTTAGE)
    hand.settle()
    return window


def box_of(window, mark=SHARED):
    return next(box for box in window.session.home.boxes if box.mark == mark)


def pixels_of(window, hand, mark=SHARED) -> QPoint:
    """Where a box's symbol is shown on the plan."""
    spot = hand.canvas.picture.spot(Subject("box", box_of(window, mark).id), hand.canvas.camera.scale)
    return hand.canvas.to_pixels(QPointF((spot[0] + spot[2]) / 2, (spot[1] + spot[3]) / 2)).toPoint()


def looked_into(window, hand, mark=SHARED):
    """Look inside a box by a double click; return the page that shows it."""
    window.work.canvas.go_to(Subject("box", box_of(window, mark).id))
    at = pixels_of(window, hand, mark)
    QTest.mouseClick(hand.canvas, LEFT, NO_KEYS, at)
    QTest.mouseDClick(hand.canvas, LEFT, NO_KEYS, at)
    hand.settle()
    assert window.work.inside.is_open
    return window.work.inside.page


# --- opening and leaving ----------------------------------------------------------------------------------------------


def test_a_double_click_on_a_box_looks_inside_and_escape_goes_back_to_the_plan(opened, hand):
    page = looked_into(opened, hand)
    assert page.canvas.accessibleName() == f"Box {SHARED} with the plate off"
    assert not hand.canvas.isVisible()
    assert hand.says() == f"{SHARED} with the plate off. Esc goes back to the plan."

    QTest.keyClick(page, Qt.Key.Key_Escape)
    hand.settle()
    assert hand.canvas.isVisible()
    assert hand.canvas.hasFocus()
    assert opened.session.view.selected == (Subject("box", box_of(opened).id),)


def test_looking_inside_leaves_the_box_where_it_was_and_the_hand_empty(opened, hand):
    before = opened.session.home
    looked_into(opened, hand)
    press(hand, "Back to the plan")
    hand.move(0, 0)
    assert opened.session.home is before
    assert opened.session.tool == Select()


def test_enter_looks_inside_the_box_that_is_selected(opened, hand):
    opened.session.select((Subject("box", box_of(opened).id),))
    hand.key(Qt.Key.Key_Return)
    assert opened.work.inside.is_open


def test_the_menu_looks_inside_the_box_of_the_device_that_is_selected(opened, hand):
    opened.session.select((Subject("device", box_of(opened).devices[1].id),))
    QTest.keyClick(opened, Qt.Key.Key_I, Qt.KeyboardModifier.ControlModifier)
    hand.settle()
    assert opened.work.inside.box == box_of(opened).id


@pytest.mark.parametrize("several", [False, True])
def test_with_no_box_or_several_selected_the_menu_says_what_to_do(opened, hand, several):
    opened.session.select(tuple(Subject("box", box.id) for box in opened.session.home.boxes) if several else ())
    QTest.keyClick(opened, Qt.Key.Key_I, Qt.KeyboardModifier.ControlModifier)
    assert not opened.work.inside.is_open
    assert hand.says() == CHOOSE_FIRST


@pytest.mark.qt_log_ignore("This plugin does not support")  # a menu without a screen neither rises nor takes the keys
def test_the_right_button_offers_to_look_inside_and_still_drags_the_plan(opened, hand):
    opened.work.canvas.go_to(Subject("box", box_of(opened).id))
    at = pixels_of(opened, hand)
    QTest.mouseClick(hand.canvas, RIGHT, NO_KEYS, at)
    (menu,) = [one for one in opened.work.findChildren(QMenu) if one.isVisible()]
    offer, *_ = menu.actions()
    assert offer.text() == f"Look inside {SHARED}"
    offer.trigger()
    menu.close()
    hand.settle()
    assert opened.work.inside.is_open


@pytest.mark.qt_log_ignore("This plugin does not support")  # as above
def test_the_right_button_on_bare_floor_offers_no_box(opened, hand):
    QTest.mouseClick(hand.canvas, RIGHT, NO_KEYS, QPoint(3, 3))
    (menu,) = [one for one in opened.work.findChildren(QMenu) if one.isVisible()]
    assert not any("inside" in one.text() for one in menu.actions())
    menu.close()


def test_another_stage_another_level_or_a_tool_brings_the_plan_back(opened, hand):
    for act in (
        lambda: hand.stage(TIE),
        lambda: opened.work.show_level(opened.session.home.levels.ids()[0]),
        lambda: hand.take_kind("lamp"),
        lambda: opened.work.go_to(Subject("box", box_of(opened, "B1").id)),
    ):
        opened.work.inside.look(box_of(opened).id)
        hand.settle()
        act()
        hand.settle()
        assert not opened.work.inside.is_open


def test_a_box_that_is_removed_is_left_and_one_that_changes_is_drawn_anew(opened, hand):
    page = looked_into(opened, hand)
    before = page.canvas.drawn
    opened.session.undo()
    opened.session.attempt(lambda home: _renamed(home, box_of(opened).devices[0].id))
    hand.settle()
    assert page.canvas.drawn != before
    assert "Porch lamp" in page.canvas.accessibleDescription()

    opened.session.remove()
    hand.settle()
    assert not opened.work.inside.is_open


def _renamed(home: Home, device: int):
    from floorplan_circuits.edits.names import rename

    return rename(home, "device", device, "Porch lamp")


def test_another_home_shows_its_plan(opened, hand):
    looked_into(opened, hand)
    assert opened.open(folder("sample_homes") / "flat.json")
    hand.settle()
    assert not opened.work.inside.is_open


# --- what it looks like ---------------------------------------------------------------------------------------------


def test_a_screen_reader_is_told_every_cable_and_how_it_is_known(opened, hand):
    said = looked_into(opened, hand).canvas.accessibleDescription()
    assert said.count("A label says.") == 2
    assert "Gang 1: " in said
    assert "Gang 2: " in said


def test_it_is_dark_in_the_dark(opened, hand):
    page = looked_into(opened, hand)
    assert not is_dark(page.canvas.grab().toImage(), 2, 2)
    opened.set_theme(DARK)
    hand.settle()
    assert is_dark(page.canvas.grab().toImage(), 2, 2)


@pytest.mark.parametrize("size", [(1024, 700), (1280, 800), (1920, 1080)])
def test_nothing_is_wider_than_its_pane(opened, hand, size):
    page = looked_into(opened, hand)
    opened.resize(*size)
    hand.settle()
    assert page.canvas.drawn.width * page.canvas.mm <= page.canvas.width()
    assert page.canvas.drawn.height * page.canvas.mm <= page.canvas.height()


# --- what was seen --------------------------------------------------------------------------------------------------


def choose_cable(hand, page, nth, enters, feed_words):
    """Fill one line of the form by keys."""
    row = page.opened.rows[nth]
    QTest.keyClicks(row.enters.lineEdit(), enters)
    at = next(at for at in range(row.feed.count()) if row.feed.itemText(at).startswith(feed_words))
    row.feed.setFocus()
    QTest.keyClick(row.feed, Qt.Key.Key_Home)
    for _ in range(at):
        QTest.keyClick(row.feed, Qt.Key.Key_Down)


def test_what_somebody_saw_becomes_one_entry_of_the_log(opened, hand):
    box = box_of(opened)
    first, second = box.feeds()
    page = looked_into(opened, hand)
    before = len(opened.session.home.log)
    for nth, (enters, words) in enumerate((("top", "1: "), ("bottom", "2: "), ("behind the stud", NOT_KNOWN))):
        press(hand, "Add a cable")
        choose_cable(hand, page, nth, enters, words)
    QTest.keyClicks(page.opened.who, "Ina")
    QTest.keyClicks(page.opened.note, "a spare cable")
    press(hand, "Record what I saw")

    (entry,) = opened.session.home.log[before:]
    assert isinstance(entry, Opened)
    assert (entry.box, entry.who, entry.note) == (box.id, "Ina", "a spare cable")
    assert entry.date == date.today().isoformat()
    cables = [(cable.enters, cable.feed) for cable in entry.cables]
    assert cables == [("top", first.id), ("bottom", second.id), ("behind the stud", None)]
    assert page.opened.rows == []
    assert "Cable that nobody knows" in page.canvas.accessibleDescription()
    assert opened.session.findings.boxes[box.id].unknown == 1


def test_nothing_is_told_for_a_person_who_told_nothing(opened, hand):
    page = looked_into(opened, hand)
    assert page.opened.rows == []
    before = opened.session.home
    press(hand, "Record what I saw")
    assert opened.session.home is before
    assert hand.says() == NO_CABLE


def test_a_new_line_claims_no_feed(opened, hand):
    page = looked_into(opened, hand)
    press(hand, "Add a cable")
    assert page.opened.cables() == [("", None)]
    assert page.opened.rows[0].enters.hasFocus()


def test_the_form_says_which_feeds_no_line_names_yet(opened, hand):
    page = looked_into(opened, hand)
    assert page.opened.missing.text() == ""
    press(hand, "Add a cable")
    assert "1: " in page.opened.missing.text()
    assert "2: " in page.opened.missing.text()
    choose_cable(hand, page, 0, "top", "1: ")
    assert "1: " not in page.opened.missing.text()


def test_a_line_can_be_taken_away(opened, hand):
    page = looked_into(opened, hand)
    press(hand, "Add a cable")
    press(hand, "Add a cable")
    choose_cable(hand, page, 1, "left", NOT_KNOWN)
    QTest.mouseClick(page.opened.rows[0].gone, LEFT)
    hand.settle()
    assert page.opened.cables() == [("left", None)]


def test_what_was_typed_for_a_box_waits_for_it(opened, hand):
    page = looked_into(opened, hand)
    press(hand, "Add a cable")
    choose_cable(hand, page, 0, "left", "2: ")
    press(hand, "Back to the plan")
    looked_into(opened, hand, "B1")
    assert page.opened.rows == []
    press(hand, "Back to the plan")
    looked_into(opened, hand)
    assert page.opened.cables() == [("left", box_of(opened).feeds()[1].id)]


def test_a_date_that_is_no_day_is_refused_and_nothing_typed_is_lost(opened, hand):
    page = looked_into(opened, hand)
    press(hand, "Add a cable")
    page.opened.date.clear()
    QTest.keyClicks(page.opened.date, "next week")
    before = opened.session.home
    press(hand, "Record what I saw")
    assert opened.session.home is before
    assert "day of the calendar" in hand.says()
    assert page.opened.cables() == [("", None)]


def test_a_feed_that_goes_becomes_not_known_in_a_line_begun(opened, hand):
    page = looked_into(opened, hand, "B19")
    passing = box_of(opened, "B19").passing[0]
    press(hand, "Add a cable")
    choose_cable(hand, page, 0, "top", "passes")
    assert page.opened.cables() == [("top", passing.id)]
    opened.session.attempt(lambda home: _without(home, passing.id))
    hand.settle()
    assert page.opened.cables() == [("top", None)]


def _without(home: Home, feed: int):
    from floorplan_circuits.edits.removal import remove

    return remove(home, [feed])


# --- the note -------------------------------------------------------------------------------------------------------


def test_a_note_is_kept_when_the_person_goes_elsewhere(opened, hand):
    page = looked_into(opened, hand)
    QTest.mouseClick(page.keeping.note.viewport(), LEFT)
    QTest.keyClicks(page.keeping.note, "Old cloth cable")
    page.keeping.add.setFocus()
    hand.settle()
    assert box_of(opened).note == "Old cloth cable"


def test_a_note_is_kept_when_the_box_is_left_by_escape(opened, hand):
    page = looked_into(opened, hand)
    QTest.keyClicks(page.keeping.note, "Tight")
    QTest.keyClick(page.keeping.note, Qt.Key.Key_Escape)
    hand.settle()
    assert box_of(opened).note == "Tight"
    assert not opened.work.inside.is_open


def test_undo_while_a_note_is_typed_undoes_the_typing(opened, hand):
    page = looked_into(opened, hand)
    before = opened.session.home
    page.keeping.note.setFocus()
    QTest.keyClicks(page.keeping.note, "x")
    QTest.keyClick(page.keeping.note, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    QApplication.processEvents()
    assert opened.session.home is before
    assert page.keeping.note.toPlainText() == ""
