"""What switches work, gangs, rows, clips and many boxes at once, by real mouse and keys in the window."""

import pytest
from PySide6.QtCore import QMimeData, Qt
from PySide6.QtGui import QGuiApplication

from floorplan_circuits.desktop import copying
from floorplan_circuits.desktop.box_fields import MIXED
from floorplan_circuits.desktop.box_menu import ACROSS
from floorplan_circuits.desktop.fields import Choice
from floorplan_circuits.edits.boxes import put_device
from floorplan_circuits.edits.clips import FROM_ELSEWHERE
from floorplan_circuits.edits.removal import remove
from floorplan_circuits.edits.switching import groups_of
from floorplan_circuits.findings import Subject
from floorplan_circuits.gestures.selecting import Select
from floorplan_circuits.gestures.stamping import StampClip
from floorplan_circuits.gestures.switching import DrawSwitching
from floorplan_circuits.home.resources import folder


@pytest.fixture
def opened(window, hand):
    window.open(folder("sample_homes") / "cottage.json")
    hand.settle()
    return window


def boxes_of(window, kind: str):
    home = window.session.home
    return [box for box in home.boxes if box.at and [one.kind for one in box.devices] == [kind]]


def test_a_key_takes_the_tool_and_two_clicks_say_what_a_switch_works(opened, hand):
    session = opened.session
    edited = put_device(session.home, session.view.level, (3000, 1800), 90, "ceiling light")
    session.attempt(lambda home: put_device(home, session.view.level, (3000, 1800), 90, "ceiling light"))
    hand.settle()
    light, switch = session.home.boxes[edited.made[0]], boxes_of(opened, "switch")[0]
    before = session.home

    hand.key(Qt.Key.Key_H)
    assert isinstance(session.tool, DrawSwitching)
    assert opened.work.showing._switching
    hand.click(switch.at[0], switch.at[1])
    hand.click(light.at[0], light.at[1])

    group = next(one for one in session.home.controls if light.devices[0].feeds[0].id in one.feeds)
    assert switch.devices[0].id in group.switches
    hand.key(Qt.Key.Key_Escape)
    hand.key(Qt.Key.Key_Escape)
    hand.settle()
    assert not opened.work.showing._switching
    session.undo()
    assert session.home.controls == before.controls


def test_many_boxes_are_edited_in_one_form(opened, hand):
    session = opened.session
    lights = boxes_of(opened, "ceiling light")[:2]
    other = boxes_of(opened, "switch")[0]
    session.select(tuple(Subject("box", box.id) for box in (*lights, other)))
    rows = {one.accessibleName(): one for one in opened.work.rail.inspector.findChildren(Choice) if one.isVisible()}

    assert rows["Kind"].currentText() == MIXED
    rows["Place"].setCurrentText("a guess")
    rows["Place"].textActivated.emit("a guess")

    assert {session.home.boxes[box.id].placed for box in (*lights, other)} == {"guessed"}
    assert opened.work.status.text().startswith("Done: edit 3 boxes.")


def test_boxes_that_would_leave_their_wall_stay_and_the_status_line_says_so(opened, hand):
    session = opened.session
    wall = [box for box in session.home.boxes if box.at and box.mount == "wall"]
    one = next(box for box in wall if box.angle % 180 == 0)
    two = next(box for box in wall if box.angle % 180 == 0 and box.at[0] != one.at[0] and box.at[1] != one.at[1])
    session.select((Subject("box", one.id), Subject("box", two.id)))
    before = session.home

    action = next(one for one in opened.findChildren(type(opened.menuBar().actions()[0])) if one.text() == ACROSS)
    action.trigger()
    down = next(one for one in opened.findChildren(type(action)) if one.text().startswith("Line up down"))
    moved = session.home
    down.trigger()

    assert moved.boxes[two.id].at[1] == one.at[1]
    assert session.home is moved
    assert "would leave its wall" in opened.work.status.text()
    assert before is not moved


def test_what_was_copied_elsewhere_is_refused_and_the_home_unchanged(opened, hand):
    session = opened.session
    session.select((Subject("box", boxes_of(opened, "switch")[0].id),))
    assert copying.copy(session)
    data = QMimeData()
    data.setText("Milk, bread, 2 bulbs")
    QGuiApplication.clipboard().setMimeData(data)
    before = session.home

    copying.paste(session)

    assert session.home is before
    assert opened.work.status.text() == FROM_ELSEWHERE
    assert copying.copy(session)
    copying.paste(session)
    assert len(session.home.boxes) == len(before.boxes) + 1


def test_a_view_option_shows_what_switches_work(opened, hand):
    shown = next(one for one in opened.findChildren(type(opened.menuBar().actions()[0])) if "each switch" in one.text())

    shown.trigger()
    assert opened.session.view.switching
    assert opened.work.showing._switching
    shown.trigger()
    assert not opened.work.showing._switching


def test_a_bar_asks_how_a_switch_is_worked_that_was_drawn_and_moves_nothing(opened, hand):
    session, bar = opened.session, opened.work.hands
    edited = put_device(session.home, session.view.level, (3000, 1800), 90, "ceiling light")
    session.attempt(lambda home: put_device(home, session.view.level, (3000, 1800), 90, "ceiling light"))
    session.attempt(lambda home: put_device(home, session.view.level, (4000, 1800), 90, "ceiling light"))
    hand.settle()
    light = session.home.boxes[edited.made[0]]
    switch = boxes_of(opened, "switch")[0]
    session.attempt(lambda home: remove(home, [one.id for one in groups_of(home, [switch.devices[0].id])]))
    assert not bar.isVisible()

    hand.key(Qt.Key.Key_H)
    high = opened.work.canvas.height()
    hand.click(switch.at[0], switch.at[1])
    assert not bar.by_hand.isVisible()
    hand.click(light.at[0], light.at[1])

    (group,) = groups_of(session.home, [switch.devices[0].id])
    assert bar.by_hand.isVisible()
    assert light.mark in bar.words.text()
    assert opened.work.canvas.height() == high
    bar.not_sure.click()
    assert (session.home.controls[group.id].by, bar.by_hand.isVisible()) == ("not known", False)
    hand.key(Qt.Key.Key_Return)
    assert session.home.controls[group.id].by == "hand"
    hand.key(Qt.Key.Key_Escape)
    hand.key(Qt.Key.Key_Escape)
    assert not bar.isVisible()


def test_more_like_a_box_are_put_down_by_real_clicks_and_escape_gives_the_hand_back(opened, hand):
    session = opened.session
    box = boxes_of(opened, "switch")[0]
    session.select((Subject("box", box.id),))
    before = len(session.home.boxes)

    action = next(one for one in opened.findChildren(type(opened.menuBar().actions()[0])) if "more like" in one.text())
    action.trigger()
    assert isinstance(session.tool, StampClip)
    room = next(one for one in session.home.rooms if one.level == session.view.level)
    (left, top), (right, bottom) = room.outline[0], room.outline[2]
    hand.click((left + right) / 2, top + 60)
    hand.click(left + 60, (top + bottom) / 2)

    assert len(session.home.boxes) == before + 2
    assert "Nobody knows what it hangs on" in opened.work.status.text()
    hand.key(Qt.Key.Key_Escape)
    assert isinstance(session.tool, Select)
