"""From stage to stage: the status line and the keys belong to the stage at hand, and a home begins at its start."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QLineEdit

from floorplan_circuits.desktop.rail import DRAW, PANEL, SHUT_OFF, TIE
from floorplan_circuits.desktop.staging import PANEL_ASKS
from floorplan_circuits.findings import Subject
from floorplan_circuits.gestures.putting import PutDevice
from floorplan_circuits.gestures.selecting import SAYS as SELECT_SAYS
from floorplan_circuits.home.resources import folder
from tests.desktop.robot_hand import draw_kitchen, press

HOUSE = folder("sample_homes") / "house.json"


@pytest.fixture
def drawn(window, hand):
    draw_kitchen(window, hand)
    hand.key(Qt.Key.Key_Escape)
    return window


@pytest.fixture
def house(window, hand):
    window.open(HOUSE)
    hand.settle()
    return window


def test_coming_back_to_draw_says_what_a_click_does_there(drawn, hand):
    hand.stage(PANEL)
    assert hand.says() == PANEL_ASKS.format(space="space")
    hand.stage(DRAW)
    assert hand.says() == SELECT_SAYS


def test_what_a_shut_off_asks_for_is_not_said_on_another_stage(house, hand, qtbot):
    house.session.select((subject(house, "B10"),))
    hand.stage(SHUT_OFF)
    qtbot.waitUntil(lambda: hand.says().startswith("To open B10"), timeout=5000)
    hand.stage(DRAW)
    assert hand.says() == SELECT_SAYS


def test_out_of_a_box_the_stage_says_again_what_a_click_does(house, hand):
    house.work.inside.look(subject(house, "B10").id)
    assert "with the plate off" in hand.says()
    QTest.keyClick(house.work.inside.page, Qt.Key.Key_Escape)
    assert hand.says() == SELECT_SAYS


@pytest.mark.parametrize("away", [PANEL, TIE, SHUT_OFF])
def test_the_letters_of_the_tools_work_as_soon_as_the_stage_is_back(drawn, hand, away):
    hand.stage(away)
    hand.stage(DRAW)
    QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_R)
    assert isinstance(drawn.session.tool, PutDevice)


def test_a_home_that_is_opened_begins_at_draw(drawn, hand):
    hand.stage(SHUT_OFF)
    drawn.may_leave = lambda: True
    drawn.open(HOUSE)
    hand.settle()
    assert drawn.work.rail.stage == DRAW
    assert hand.says() == SELECT_SAYS


def test_ctrl_y_does_again_what_was_undone(window):
    redo = next(one for menu in window.menuBar().actions() for one in menu.menu().actions() if "Redo" in one.text())
    assert {one.toString() for one in redo.shortcuts()} == {"Ctrl+Y", "Ctrl+Shift+Z"}


def test_a_right_click_beside_the_house_means_nothing_that_was_selected_before(drawn):
    session = drawn.session
    session.select((Subject("room", session.home.rooms.rows[0].id),))
    rows = [words for words, _ in drawn.work.plan_menu.rows(session, None, (90_000, 90_000))]
    assert rows == ["Show all of the level"]
    assert session.view.selected == ()


def test_a_panel_that_was_added_asks_for_its_first_space(drawn, hand):
    hand.stage(PANEL)
    press(hand, "Add the panel")
    field = hand.field()
    assert QApplication.focusWidget() is field
    QTest.keyClicks(field, "20 plugs")
    QTest.keyClick(field, Qt.Key.Key_Return)
    hand.settle()
    assert drawn.session.home.breakers.rows[0].poles[0].space == 1


def test_a_breaker_that_is_looked_up_leads_to_its_level_and_says_what_was_found_and_where(house, hand):
    home = house.session.home
    basement = next(level for level in home.levels if level.name == "Basement")
    pump = next(one for one in home.breakers if one.poles[0].space == 24 and one.panel == home.panels.rows[0].id)
    assert house.session.view.level != basement.id
    house.work.go_to(Subject("breaker", pump.id))
    assert house.session.view.level == basement.id
    assert hand.says().startswith("24: ")
    assert hand.says().endswith("On the plan: Basement 1.")
    assert house.work.canvas.ringed


def test_a_danger_that_is_clicked_is_told_in_place_of_what_was_said_before(house, hand):
    hand.stage(SHUT_OFF)
    rows = house.work.hazard_rows
    of_breakers = next(one for one in house.session.findings.hazards if one.box is None and one.breakers)
    for hazard in (of_breakers, next(one for one in house.session.findings.hazards if one.box is not None)):
        house.work.say("29 is off.")
        rows.go_to(hazard)
        assert hand.says() != "29 is off."


def test_a_box_and_a_room_that_are_looked_up_say_where_they_are(house, hand):
    house.work.go_to(subject(house, "B10"))
    assert hand.says().endswith("In Kitchen, Ground floor.")
    room = next(one for one in house.session.home.rooms if one.name == "Laundry")
    house.work.go_to(Subject("room", room.id))
    assert hand.says() == "Laundry: Ground floor."


def test_what_was_refused_in_a_form_is_put_back_by_escape(drawn, hand):
    session = drawn.session
    hand.write("i")
    hand.click(2000, 20)
    hand.key(Qt.Key.Key_Escape)
    session.select((Subject("opening", session.home.openings.rows[0].id),))
    (field,) = hand.shown(QLineEdit, "Width")
    before = field.text()
    field.setText("0")
    QTest.keyClick(field, Qt.Key.Key_Return)
    assert hand.says() == "An opening is 0.20 m to 20.00 m wide."
    QTest.keyClick(field, Qt.Key.Key_Escape)
    assert field.text() == before


def test_a_name_that_is_asked_for_says_of_which_gang_it_is(house, hand):
    box = subject(house, "B10")
    house.work.naming.ask(box)
    assert hand.field().accessibleName().startswith("Name of gang 1 of B10: ")
    assert hand.says().startswith("Name of gang 1 of B10: ")


def test_what_goes_dark_names_several_breakers_with_commas(house, hand, qtbot):
    house.session.select((subject(house, "B10"), subject(house, "B14")))
    hand.stage(SHUT_OFF)
    page = house.work.rail.shut_off_page

    def told():
        return [one.text() for one in page.findChildren(QLabel) if one.text().startswith("Goes dark")]

    qtbot.waitUntil(lambda: bool(told()), timeout=5000)
    assert told()[-1].count(" and ") == 1
    assert ", " in told()[-1]


def subject(window, mark: str) -> Subject:
    return Subject("box", next(box.id for box in window.session.home.boxes if box.mark == mark))
