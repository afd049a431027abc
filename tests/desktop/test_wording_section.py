"""An old, cryptic panel door taken through the window: words asked once, lines judged, taken with one click."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QLineEdit, QPushButton

from floorplan_circuits.desktop.rail import PANEL
from floorplan_circuits.findings import Subject
from tests.desktop.robot_hand import draw_kitchen, press

LEFT = Qt.MouseButton.LeftButton
DOOR = ("20 plgs", "15 Bobbie's rm", "15 kitchen receptacles", "20 misc")


@pytest.fixture
def door(window, hand):
    """A kitchen with one receptacle on the first breaker of an old panel."""
    draw_kitchen(window, hand)
    hand.write("r")
    hand.click(1000, 60)
    hand.key(Qt.Key.Key_Escape)
    hand.stage(PANEL)
    QTest.mouseClick(hand.shown(QPushButton, "Add the panel")[0], LEFT)
    hand.settle()
    hand.click_space(1)
    for words in DOOR:
        hand.answer(words)
    hand.leave_field()
    hand.settle()
    return window


def select(window, hand, place):
    breaker = window.session.home.breakers.rows[place]
    window.session.select((Subject("breaker", breaker.id),))
    hand.settle()
    return breaker


def told(window):
    return [label.text() for label in window.work.rail.panel_page.findChildren(QLabel) if label.isVisibleTo(window)]


def test_a_shortened_word_is_asked_about_once_and_the_next_one_follows(door, hand):
    assert "What does “plgs” mean?" in told(door)
    press(hand, "Plugs")
    assert [(one.short, one.means) for one in door.session.home.meanings] == [("plgs", "plugs")]
    assert "What does “rm” mean?" in told(door)
    field = next(one for one in door.findChildren(QLineEdit) if one.accessibleName() == "Meaning of rm")
    QTest.keyClicks(field, "room")
    QTest.keyClick(field, Qt.Key.Key_Return)
    hand.settle()
    assert door.session.findings.directory.asked == ()
    assert [one.as_found for one in door.session.home.breakers] == [
        "plgs",
        "Bobbie's rm",
        "kitchen receptacles",
        "misc",
    ]


def test_old_and_new_stand_one_over_the_other_with_what_is_wrong_quoted(door, hand):
    select(door, hand, 1)
    words = told(door)
    assert "Old label: “Bobbie's rm”" in words
    assert any(one.startswith("“Bobbie's” depends on who lives there.") for one in words)
    assert "NEC 408.4(A), 2023" in words
    assert any(one.startswith("New line: Unknown. Old label “Bobbie's rm”") for one in words)
    assert not hand.shown(QPushButton, "Keep the old label")


def test_a_clear_old_label_is_kept_with_one_click_and_ours_taken_again_with_another(door, hand):
    breaker = select(door, hand, 2)
    press(hand, "Keep the old label")
    assert door.session.home.breakers[breaker.id].wording == "kitchen receptacles"
    assert door.session.findings.lines[breaker.id].own
    press(hand, "Take our line")
    assert door.session.home.breakers[breaker.id].wording == ""
    door.session.undo()
    assert door.session.home.breakers[breaker.id].wording == "kitchen receptacles"


def test_householders_own_words_are_typed_and_judged_the_same_way(door, hand):
    breaker = select(door, hand, 3)
    field = next(one for one in door.findChildren(QLineEdit) if one.accessibleName() == "Yours" and one.isVisible())
    QTest.keyClicks(field, "Mom's plugs")
    QTest.keyClick(field, Qt.Key.Key_Return)
    hand.settle()
    assert door.session.home.breakers[breaker.id].wording == "Mom's plugs"
    words = told(door)
    assert "Your line: Mom's plugs" in words
    assert any(one.startswith("“Mom's” depends on who lives there.") for one in words)
