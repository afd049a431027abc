"""Rooms, openings, stairs and levels, drawn in the real window with mouse and keys."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QComboBox, QDialog, QLineEdit, QMenu, QPushButton

from floorplan_circuits.desktop.building_tools import name_of
from floorplan_circuits.desktop.help_page import HelpPage
from floorplan_circuits.desktop.rail import DRAW, TIE
from floorplan_circuits.edits.boxes import put_device
from floorplan_circuits.edits.rooms import set_wall
from floorplan_circuits.findings import Subject
from floorplan_circuits.gestures.step import BUILDING_KEYS

RIGHT, NO_KEYS, SHIFT = Qt.MouseButton.RightButton, Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.ShiftModifier
menus = pytest.mark.qt_log_ignore("This plugin does not support")
"""A menu without a screen neither rises nor takes the keys."""


@pytest.fixture
def home(window, hand):
    """A kitchen and a hall side by side."""
    window.start("House by the ford", "metric")
    hand.settle()
    hand.write("n")
    for name, end in (("Kitchen", (0, 0)), ("Hall", (8000, 0))):
        hand.drag((4000, 3000), end)
        hand.answer(name)
    hand.key(Qt.Key.Key_Escape)
    return window


def rooms(window):
    return {room.name: set(room.outline) for room in window.session.home.rooms}


def action(window, words):
    (found,) = (one for menu in window.menuBar().findChildren(QMenu) for one in menu.actions() if words in one.text())
    return found


def right_click(window, hand, x, y):
    """Click the right button; return what the menu offers."""
    QTest.mouseClick(hand.canvas, RIGHT, NO_KEYS, hand.pixels(x, y))
    (menu,) = [one for one in window.work.findChildren(QMenu) if one.isVisible()]
    return menu, {one.text(): one for one in menu.actions() if one.text()}


def choose(hand, menu, offered, words):
    offered[words].trigger()
    menu.close()
    hand.settle()


# --- tools ----------------------------------------------------------------------------------------------------------


def test_a_wall_is_dragged_and_both_rooms_follow_then_one_is_divided(home, hand):
    hand.click(2000, 1000)
    hand.drag((4000, 1500), (4500, 1500))

    assert rooms(home)["Kitchen"] & rooms(home)["Hall"] == {(4500, 0), (4500, 3000)}

    hand.write("k")
    hand.drag((2000, 0), (2000, 3000))
    hand.answer("Pantry")
    assert rooms(home).keys() == {"Kitchen", "Hall", "Pantry"}


def test_a_door_a_window_an_open_way_and_stairs_take_one_gesture_each(home, hand):
    hand.write("o")
    hand.click(4060, 1000)
    hand.write("i")
    hand.write("1.5")
    assert hand.says().startswith("1.5 wide")
    hand.click(2000, 60)
    hand.write("y")
    hand.click(4060, 2300)
    hand.write("u")
    hand.drag((5000, 2000), (7000, 2000))

    found = home.session.home
    assert [(one.kind, one.width) for one in found.openings] == [("door", 800), ("window", 1500), ("open way", 900)]
    assert found.stairs.rows[0].run == 2000


def test_a_notch_and_with_shift_a_bent_wall(home, hand):
    hand.write("b")
    hand.drag((-500, -500), (1000, 1000))
    assert (1000, 1000) in rooms(home)["Kitchen"]

    hand.key(Qt.Key.Key_Escape)
    hand.click(6000, 1000)
    hand.move(8000, 1500)
    QTest.mousePress(hand.canvas, Qt.MouseButton.LeftButton, SHIFT, hand.pixels(8000, 1500))
    hand.move(8500, 1500, held=True)
    QTest.mouseRelease(hand.canvas, Qt.MouseButton.LeftButton, SHIFT, hand.pixels(8500, 1500))
    hand.settle()
    assert (8500, 1500) in rooms(home)["Hall"]


def test_a_room_drawn_over_another_waits_for_what_to_do(home, hand):
    hand.write("n")
    hand.drag((2000, 2000), (6000, 5000))
    assert "It lies over Kitchen and Hall" in hand.says()

    hand.key(Qt.Key.Key_Return)
    hand.answer("Porch")

    assert rooms(home)["Porch"] == {(2000, 3000), (6000, 3000), (6000, 5000), (2000, 5000)}


def test_every_building_tool_is_in_the_palette_and_the_menu(home, hand):
    cells = [button.tool for button in home.work.rail.palette_page._group.buttons()]
    for key, tool in BUILDING_KEYS.items():
        assert tool in cells
        action(home, f"{name_of(tool).capitalize()}\t{key.upper()}").trigger()
        assert home.session.tool == tool


def test_a_drag_through_walls_puts_doors_and_one_along_a_wall_a_window_as_wide(home, hand):
    hand.write("o")
    hand.press(2000, 1500)
    for at in ((3000, 1500), (4500, 1500), (5500, 2500), (5500, 3800)):
        hand.move(*at, held=True)
    assert home.work.status.text() == "Let go to put 2 doors. Type another width, or Esc drops the drag."
    hand.let_go(5500, 3800)
    hand.write("i")
    hand.drag((1000, 10), (2200, 10))

    assert [(one.kind, one.width) for one in home.session.home.openings] == [
        ("door", 800), ("door", 800), ("window", pytest.approx(1200, abs=100)),
    ]  # fmt: skip
    assert home.session.home.openings.rows[0].at == pytest.approx((4000, 1500), abs=30)


def test_a_room_after_a_numbered_one_is_offered_the_next_number_and_keeps_it_if_nobody_types(home, hand):
    hand.write("n")
    hand.drag((0, 3000), (2000, 5000))
    hand.answer("Bedroom 2")
    hand.drag((2000, 3000), (4000, 5000))
    assert hand.field().text() == hand.field().selectedText() == "Bedroom 3"
    hand.drag((4000, 3000), (6000, 5000))

    assert {"Bedroom 2", "Bedroom 3", "Bedroom 4"} <= set(rooms(home))


# --- the right button -----------------------------------------------------------------------------------------------


@menus
def test_the_right_button_selects_the_boxes_of_a_room_and_puts_down_more_like_them(home, hand):
    session = home.session
    for at, angle, kind in (((1000, 0), 90, "switch"), ((2000, 1500), 90, "ceiling light")):
        session.attempt(lambda one, at=at, angle=angle, kind=kind: put_device(one, session.view.level, at, angle, kind))
    hand.settle()
    menu, offered = right_click(home, hand, 3000, 2500)
    choose(hand, menu, offered, "Select the 2 boxes in Kitchen")
    menu, offered = right_click(home, hand, 2000, 1500)
    choose(hand, menu, offered, "Put down more like this")

    hand.click(5500, 800)

    switch, light = session.home.boxes.rows[2:]
    assert (switch.at, light.at) == (pytest.approx((5000, 0), abs=20), pytest.approx((6000, 1500), abs=20))
    assert (switch.at[1], switch.mount, light.mount) == (0, "wall", "ceiling")


@menus
def test_the_right_button_puts_a_door_and_takes_a_corner_out_where_it_was_clicked(home, hand):
    menu, offered = right_click(home, hand, 4000, 1500)
    choose(hand, menu, offered, "Put a door here")

    (door,) = home.session.home.openings
    assert door.kind == "door"
    assert door.at == pytest.approx((4000, 1500), abs=20)

    menu, offered = right_click(home, hand, 4000, 1500)
    choose(hand, menu, offered, "Hang the door the other way")
    assert home.session.home.openings.rows[0] != door

    hand.click(6000, 1000)
    menu, offered = right_click(home, hand, 8000, 0)
    choose(hand, menu, offered, "Take this corner out")

    assert rooms(home)["Hall"] == {(4000, 0), (8000, 3000), (4000, 3000)}


@menus
def test_the_right_button_joins_turns_and_removes_what_is_selected(home, hand):
    hand.click(2000, 1000)
    hand.click(6000, 1000, SHIFT)
    menu, offered = right_click(home, hand, 6000, 1200)
    choose(hand, menu, offered, "Join the selected rooms")
    assert list(rooms(home).values()) == [{(0, 0), (8000, 0), (8000, 3000), (0, 3000)}]

    menu, offered = right_click(home, hand, 6000, 1200)
    choose(hand, menu, offered, "Turn a quarter")
    (outline,) = rooms(home).values()
    assert {y for _, y in outline} == {-2500, 5500}

    menu, offered = right_click(home, hand, 4000, 1200)
    choose(hand, menu, offered, "Remove")
    assert rooms(home) == {}


# --- forms ----------------------------------------------------------------------------------------------------------


def test_the_form_of_a_door_takes_its_width_and_refuses_nonsense(home, hand):
    hand.write("o")
    hand.click(4060, 1000)
    hand.key(Qt.Key.Key_Escape)
    hand.click(4000, 1000)
    field = hand.shown(QLineEdit, "Width")[0]
    field.selectAll()
    QTest.keyClicks(field, "0.7")
    QTest.keyClick(field, Qt.Key.Key_Return)
    hand.settle()
    assert home.session.home.openings.rows[0].width == 700

    before = home.session.home
    field = hand.shown(QLineEdit, "Width")[0]
    field.selectAll()
    QTest.keyClicks(field, "wide")
    QTest.keyClick(field, Qt.Key.Key_Return)
    assert home.session.home is before
    assert "is not a length" in hand.says()

    QTest.mouseClick(hand.shown(QPushButton, "Hang it the other way")[0], Qt.MouseButton.LeftButton)
    assert home.session.home.openings.rows[0].hinge != before.openings.rows[0].hinge


def test_the_form_of_stairs_says_where_they_lead(home, hand):
    hand.write("u")
    hand.drag((5000, 2000), (7000, 2000))
    hand.key(Qt.Key.Key_Escape)
    ground = home.session.home.levels.ids()[0]
    home.work.naming.ask_for_level()
    hand.answer("Attic")
    home.work.show_level(ground)
    hand.settle()
    hand.click(6000, 2000)

    assert hand.shown(QComboBox, "Lead to")[0].currentText() == "Attic"
    hand.choose("Lead to", "no level yet")
    assert home.session.home.stairs.rows[0].head is None


# --- levels ---------------------------------------------------------------------------------------------------------


def test_a_level_starts_from_the_outline_below_and_shows_its_walls(home, hand):
    action(home, "with this &outline").trigger()
    hand.answer("First floor")

    session = home.session
    (room,) = (one for one in session.home.rooms if one.level == session.view.level)
    assert set(room.outline) == {(0, 0), (8000, 0), (8000, 3000), (0, 3000)}
    pale = home.work.canvas.grab().toImage()
    action(home, "level &below").trigger()
    assert home.work.canvas.grab().toImage() != pale


@menus
def test_levels_are_moved_and_removed_from_their_button(home, hand):
    home.work.naming.ask_for_level()
    hand.answer("Cellar")
    (button,) = hand.shown(QPushButton, "Show Cellar")

    def offered():
        button.customContextMenuRequested.emit(QPoint(5, 5))
        (menu,) = [one for one in home.work.findChildren(QMenu) if one.isVisible()]
        return menu, {one.text(): one for one in menu.actions()}

    choose(hand, *offered(), "Move it down")
    assert [one.text() for one in hand.shown(QPushButton, "Cellar") + hand.shown(QPushButton, "Ground floor")]
    orders = {level.name: level.order for level in home.session.home.levels}
    assert orders["Cellar"] < orders["Ground floor"]

    (button,) = hand.shown(QPushButton, "Show Cellar")
    choose(hand, *offered(), "Remove this level")
    assert [level.name for level in home.session.home.levels] == ["Ground floor"]
    home.work.commands.remove_level()
    assert "at least one level" in hand.says()


# --- getting about --------------------------------------------------------------------------------------------------


@menus
def test_anything_is_found_by_its_name_or_mark(home, hand):
    hand.write("r")
    hand.click(2000, 60)
    hand.key(Qt.Key.Key_Escape)
    line = home.work.strip.look_up
    line.begin()
    QTest.keyClicks(line, "b1")
    assert [line.list.item(row).text() for row in range(line.list.count())] == ["B1 · receptacle · Kitchen"]

    QTest.keyClick(line, Qt.Key.Key_Return)
    assert home.session.view.selected == (Subject("box", home.session.home.boxes.ids()[0]),)
    assert not line.list.isVisible()

    QTest.keyClicks(line, "zzz")
    QTest.keyClick(line, Qt.Key.Key_Return)
    assert line.list.item(0).text() == "Nothing goes by that name."
    QTest.keyClick(line, Qt.Key.Key_Escape)
    assert line.text() == ""


def test_the_view_is_fitted_to_what_is_selected_and_measures_are_shown_on_request(home, hand):
    hand.canvas.zoom(0.2)
    hand.click(2000, 1000)
    action(home, "Fit the se").trigger()

    left, right = hand.pixels(0, 0), hand.pixels(4000, 3000)
    assert hand.canvas.rect().contains(left)
    assert hand.canvas.rect().contains(right)
    assert right.x() - left.x() > hand.canvas.width() / 3

    plain = hand.canvas.grab().toImage()
    action(home, "Show &areas").trigger()
    assert hand.canvas.grab().toImage() != plain
    hand.stage(TIE)
    tying = hand.canvas.grab().toImage()
    hand.stage(DRAW)
    assert hand.canvas.grab().toImage() != tying  # the stages that circuits matter in show circuits
    action(home, "Show &areas").trigger()
    hand.stage(TIE)
    assert hand.canvas.grab().toImage() == tying
    hand.stage(DRAW)
    hand.click(2000, 1000)
    hand.move(20_000, 20_000)
    assert hand.canvas.grab().toImage() == plain


@menus
def test_the_first_evening_is_one_page_without_a_net(home, hand):
    action(home, "first &evening").trigger()
    (page,) = [one for one in home.findChildren(QDialog) if isinstance(one, HelpPage)]
    words = page.page.toPlainText()

    for key in BUILDING_KEYS:
        assert f" {key.upper()}" in words.replace("\n", " ")
    assert "safe" not in words.lower()
    page.close()


@menus
def test_the_first_evening_asked_for_twice_is_one_window(home, hand):
    for _ in range(2):
        action(home, "first &evening").trigger()
    pages = [one for one in home.findChildren(QDialog) if isinstance(one, HelpPage)]
    assert len(pages) == 1
    assert pages[0].height() <= pages[0].screen().availableSize().height()


def test_a_thick_wall_is_taken_hold_of_by_its_face(home, hand):
    room = home.session.home.rooms.rows[0]
    right = max(x for x, _ in room.outline)
    home.session.attempt(lambda now: set_wall(now, 200))
    hand.settle()
    hand.canvas.zoom(hand.canvas.camera.mm_per_px / 7)  # so near that 100 mm are more than the usual reach
    assert 9 * hand.canvas.camera.mm_per_px < 100 < 18 * hand.canvas.camera.mm_per_px
    middle = sum(y for _, y in room.outline) // len(room.outline)
    hand.click(right - 1000, middle)
    hand.drag((right - 95, middle), (right + 405, middle))
    assert abs(max(x for x, _ in home.session.home.rooms[room.id].outline) - (right + 500)) <= 30
