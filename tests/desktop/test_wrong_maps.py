"""Five maps that are wrong, played through the window: it says neither too much nor too little."""

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QCheckBox, QLabel

from floorplan_circuits.desktop.opened_form import NOT_KNOWN
from floorplan_circuits.desktop.rail import DRAW, FIND_OUT, PANEL, TIE
from floorplan_circuits.edits.breakers import set_breaker
from floorplan_circuits.findings import Subject
from tests.desktop.robot_hand import draw_kitchen, press

LEFT, NO_KEYS = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
PLUG, OTHER = (1000, 60), (3000, 60)
WHOLE = ("Tester proved before", "Tester proved after", "Seen live before", "Seen live again")


@pytest.fixture
def home(window, hand):
    """A kitchen with two receptacles that the map has on 1, and three breakers that open the hot alone."""
    draw_kitchen(window, hand)
    hand.write("r")
    hand.click(*PLUG)
    hand.click(*OTHER)
    hand.key(Qt.Key.Key_Escape)
    hand.stage(PANEL)
    press(hand, "Add the panel")
    hand.click_space(1)
    for typed in ("20 plugs", "20 counter", "15 lights"):
        hand.answer(typed)
    hand.leave_field()
    for breaker in window.session.home.breakers.ids():
        window.session.attempt(lambda now, one=breaker: set_breaker(now, one, opens="hot"))
    tie(window, hand, 0, PLUG, OTHER)
    hand.stage(FIND_OUT)
    return window


def tie(window, hand, place, *spots):
    hand.stage(TIE)
    hand.click_breaker(window.session.home.breakers.rows[place].id)
    for spot in spots:
        hand.click(*spot)


def seen(window, hand, place, spot, says, *ticks):
    """Turn one breaker off, look at one receptacle, and say what it showed."""
    hand.stage(FIND_OUT)
    hand.choose("Tested with", "Two-lead tester")
    hand.click_breaker(window.session.home.breakers.rows[place].id)
    for one in ticks:
        box = hand.shown(QCheckBox, one)[0]
        if not box.isChecked():
            QTest.mouseClick(box, LEFT, pos=box.rect().center() / 4)
    hand.settle()
    hand.click(*spot)
    press(hand, says)


def standings(window):
    return [one.standing for one in window.session.find_now().conclusions.values()]


def breakers_of(window, nth=0):
    findings = window.session.find_now()
    one = list(findings.conclusions.values())[nth]
    return [findings.marks[breaker] for breaker in one.breakers]


def hazards(window):
    return {(one.kind, one.box) for one in window.session.find_now().hazards}


# --- a label swapped ------------------------------------------------------------------------------------------------


def test_a_label_swapped_is_denied_found_and_tested_where_it_is(home, hand):
    seen(home, hand, 0, PLUG, "live")
    assert standings(home) == ["contradicted", "claimed"]
    assert "found live with its breaker off; perhaps it has two supplies." in hand.says()
    assert hand.says().endswith("Repeat with 1 alone. Treat it as live whatever is off.")

    seen(home, hand, 1, PLUG, "dead", *WHOLE)
    assert standings(home) == ["contradicted", "claimed"]  # the map still says 1

    tie(home, hand, 1, PLUG)
    press(hand, "The map was wrong")
    assert standings(home) == ["proved", "claimed"]
    assert breakers_of(home) == ["3"]
    assert breakers_of(home, 1) == ["1"]  # the neighbour is no wiser


# --- a second circuit passing ---------------------------------------------------------------------------------------


def looked_inside(window, hand, spot):
    hand.stage(PANEL)
    box = window.session.home.boxes.rows[0]
    window.work.canvas.go_to(Subject("box", box.id))
    at = hand.canvas.to_pixels(QPointF(*spot)).toPoint()
    QTest.mouseClick(hand.canvas, LEFT, NO_KEYS, at)
    QTest.mouseDClick(hand.canvas, LEFT, NO_KEYS, at)
    hand.settle()
    assert window.work.inside.is_open
    return box, window.work.inside.page


def test_a_second_circuit_that_passes_is_told_once_somebody_has_looked(home, hand):
    seen(home, hand, 0, PLUG, "dead", *WHOLE)
    box, page = looked_inside(home, hand, PLUG)
    before = hazards(home)
    assert not {kind for kind, of in before if of == box.id}

    for nth, words in enumerate(("1: ", NOT_KNOWN)):
        press(hand, "Add a cable")
        row = page.opened.rows[nth]
        QTest.keyClicks(row.enters.lineEdit(), ("top", "bottom")[nth])
        at = next(at for at in range(row.feed.count()) if row.feed.itemText(at).startswith((words, "1")[nth == 0]))
        row.feed.setFocus()
        QTest.keyClick(row.feed, Qt.Key.Key_Home)
        for _ in range(at):
            QTest.keyClick(row.feed, Qt.Key.Key_Down)
    press(hand, "Record what I saw")

    assert standings(home) == ["proved", "claimed"]  # what was tested stays tested
    assert ("unknown box", box.id) in hazards(home)  # and the box is unknown all the same


# --- a rewired room -------------------------------------------------------------------------------------------------


def test_a_room_that_was_rewired_expires_what_was_tested_there_and_nothing_else(home, hand):
    seen(home, hand, 0, PLUG, "dead", *WHOLE)
    seen(home, hand, 0, OTHER, "dead", *WHOLE)
    assert standings(home) == ["proved", "proved"]

    tie(home, hand, 1, PLUG)
    press(hand, "The wiring changed")
    assert standings(home) == ["expired", "proved"]
    assert set(breakers_of(home)) == {"1", "3"}  # it may hang on either

    seen(home, hand, 1, PLUG, "dead", *WHOLE)
    assert standings(home) == ["proved", "proved"]
    assert breakers_of(home) == ["3"]


# --- a loop ---------------------------------------------------------------------------------------------------------


def test_a_loop_is_live_with_either_off_and_taken_for_no_single_breaker(home, hand):
    nobody_knows(home, hand, PLUG)
    for place in range(3):
        seen(home, hand, place, PLUG, "live")
    assert standings(home)[0] == "unknown"
    assert hand.says().startswith("B1: no one breaker explains what was read; perhaps it has two supplies.")
    (clash,) = home.session.find_now().disagreements
    assert clash.may_be[:3] == ("it has two supplies", "a breaker did not open", "it comes from elsewhere")

    hand.stage(DRAW)
    hand.click(*PLUG)
    told = [label.text() for label in home.findChildren(QLabel) if label.isVisible()]
    assert clash.says in told or clash.do in told


def nobody_knows(window, hand, spot):
    """Nobody knows what it hangs on: chosen in its form."""
    hand.stage(DRAW)
    hand.click(*spot)
    hand.choose("Breaker", "not known")


# --- a neighbour's circuit ------------------------------------------------------------------------------------------


def test_a_neighbours_circuit_stays_live_whatever_is_off_and_is_never_said_to_be_dead(home, hand):
    for place in range(3):
        seen(home, hand, place, PLUG, "live")
    assert standings(home)[0] == "contradicted"
    box = home.session.home.boxes.rows[0].id
    said = [one for one in home.session.find_now().hazards if one.box == box]
    assert said[0].do.startswith("Treat as live whatever is off.")
    assert not any("dead" in one.do.replace("should be dead", "") for one in said)
