"""What is said of breakers, panels and sources in the window's forms, by mouse and keys."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QComboBox, QLabel, QLineEdit, QSpinBox

from floorplan_circuits.desktop.rail import PANEL
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Breaker
from tests.desktop.robot_hand import SHIFT, press

LINES = {1: "20 kitchen plugs", 3: "20 kitchen plugs 2", 2: "15f cellar", 4: "63/2 RCD"}


@pytest.fixture
def panel_set_up(window, hand):
    """A panel of eight spaces with four breakers, and its page open."""
    window.start("Elm house", "metric")
    hand.stage(PANEL)
    press(hand, "Add the panel")
    for space, words in LINES.items():
        hand.click_space(space)
        hand.answer(words)
        hand.leave_field()
    return window


def write(hand, label: str, words: str) -> None:
    field = hand.shown(QLineEdit, label)[0]
    field.selectAll()
    QTest.keyClick(field, Qt.Key.Key_Delete)
    QTest.keyClicks(field, words)
    QTest.keyClick(field, Qt.Key.Key_Return)
    hand.settle()


def now(hand, label: str) -> str:
    return hand.shown(QComboBox, label)[0].currentText()


def in_space(home: Home, space: int) -> Breaker:
    return next(one for one in home.breakers if one.poles[0].space == space)


def select(window, hand, space: int, keys=Qt.KeyboardModifier.NoModifier) -> None:
    hand.click_breaker(in_space(window.session.home, space).id, keys)


def test_all_that_is_known_of_a_breaker_is_said_in_its_form(panel_set_up, hand):
    window = panel_set_up
    select(window, hand, 1)
    write(hand, "Old label", "ktchn plgs")
    write(hand, "Says now", "Kitchen counter, west of window")
    write(hand, "Amps", "15 A")
    hand.choose("Opens", "hot")
    hand.choose("Against", "ground and arc fault")
    hand.choose("Behind", "4·6")
    hand.choose("Found", "off")
    write(hand, "Why", "do not turn on: damp")
    hand.choose("Turn off?", "ask first")
    write(hand, "Whose word", "upstairs")
    write(hand, "Because", "aquarium")
    write(hand, "Wire", "14 AWG")
    hand.choose("Metal", "aluminium")
    hand.choose("Neutral", "its own")
    write(hand, "Note", "double tapped")

    found = in_space(window.session.home, 1)
    assert (found.as_found, found.wording, found.amps) == ("ktchn plgs", "Kitchen counter, west of window", 15)
    assert (found.opens, found.protects) == ("hot", ("arc fault", "ground fault"))
    assert found.behind == in_space(window.session.home, 4).id
    assert (found.found.state, found.found.why) == ("off", "do not turn on: damp")
    assert (found.may_open.may, found.may_open.whose, found.may_open.why) == ("ask", "upstairs", "aquarium")
    assert (found.conductor.size, found.conductor.metal) == ("14 AWG", "aluminium")
    assert found.poles[0].neutral == "own"
    assert found.note == "double tapped"


def test_a_fuse_is_asked_which_side_it_opens_and_not_known_is_an_answer(panel_set_up, hand):
    window = panel_set_up
    select(window, hand, 2)
    shown = [label.text() for label in window.findChildren(QLabel) if label.isVisible()]
    assert "Fuse 2" in shown
    assert any("its shell stays live" in words for words in shown)
    assert now(hand, "Opens") == "not known"

    hand.choose("Opens", "hot")
    assert in_space(window.session.home, 2).opens == "hot"
    hand.choose("Opens", "not known")
    assert in_space(window.session.home, 2).opens == "not known"


def test_a_rating_that_is_none_is_refused_and_stays_to_be_mended(panel_set_up, hand):
    window = panel_set_up
    select(window, hand, 1)
    before = window.session.home

    write(hand, "Amps", "many")

    assert window.session.home is before
    assert "whole number" in hand.says()
    assert hand.shown(QLineEdit, "Amps")[0].text() == "many"


def test_a_choice_that_is_refused_says_again_what_is_so(panel_set_up, hand):
    window = panel_set_up
    select(window, hand, 1)
    hand.choose("Behind", "4·6")
    select(window, hand, 4)
    before = window.session.home

    hand.choose("Behind", "1")

    assert window.session.home is before
    assert now(hand, "Behind") == "nothing"


def test_two_handles_are_tied_and_the_tie_told_from_a_nail(panel_set_up, hand):
    window = panel_set_up
    select(window, hand, 1)
    select(window, hand, 3, SHIFT)
    press(hand, "Tied, not sure how")
    press(hand, "They share a neutral")
    select(window, hand, 1)
    assert now(hand, "Tied") == "not sure"
    hand.choose("Tied", "a nail or wire")

    pair = [in_space(window.session.home, space) for space in (1, 3)]
    assert {one.tie.made for one in pair} == {"makeshift"}
    assert len({one.poles[0].neutral for one in pair}) == 1
    hand.choose("Tied", "not tied")
    assert in_space(window.session.home, 3).tie is None


def test_a_subpanel_its_feeder_and_its_mains_are_set_up(panel_set_up, hand):
    window = panel_set_up
    select(window, hand, 4)
    press(hand, "It feeds another panel")
    press(hand, "Show Panel 2")
    window.session.select(())
    hand.settle()
    write(hand, "Name", "Garage panel")
    write(hand, "Letter", "g")
    write(hand, "Main, A", "60")
    press(hand, "One more main")
    write(hand, "Main 2 is", "heat")

    second = window.session.home.panels.rows[1]
    assert (second.name, second.prefix) == ("Garage panel", "G")
    assert [(main.name, main.amps) for main in second.mains] == [("", 60), ("heat", None)]
    assert [one.breaker for one in second.fed_by] == [in_space(window.session.home, 4).id]
    press(hand, "No main 2")
    hand.choose("Fed by", "nobody has said")
    second = window.session.home.panels.rows[1]
    assert (len(second.mains), second.fed_by) == (1, ())


def test_a_source_is_added_with_the_caution_that_the_main_does_not_stop_it(panel_set_up, hand):
    window = panel_set_up
    press(hand, "Solar")
    shown = " ".join(label.text() for label in window.findChildren(QLabel) if label.isVisible())
    assert "The main does not stop" in shown
    solar = next(source for source in window.session.home.sources if source.kind == "solar")
    names = [source.name for source in window.session.home.sources]
    assert sorted(names) == ["Solar", "Utility"]

    place = names.index("Solar")
    hand.choose("Starts", "by itself", place)
    hand.choose("Comes in at", "breaker 4·6", place)
    field = hand.shown(QLineEdit, "Stopped at")[place]
    QTest.keyClicks(field, "north wall")
    QTest.keyClick(field, Qt.Key.Key_Return)
    hand.settle()
    solar = window.session.home.sources[solar.id]
    assert (solar.starts, solar.disconnect) == ("by itself", "north wall")
    assert solar.into == (in_space(window.session.home, 4).id,)
    press(hand, "Take out Solar")
    assert [source.name for source in window.session.home.sources] == ["Utility"]


def shown_words(window) -> str:
    return " ".join(label.text() for label in window.findChildren(QLabel) if label.isVisible())


def test_a_first_panel_on_230_v_is_asked_for_and_told_of_in_the_words_used_there(window, hand):
    window.start("Elm house", "metric")
    hand.stage(PANEL)
    assert "How many spaces does your panel have?" in shown_words(window)
    hand.choose("System", "single-phase 230")
    assert "How many ways does your consumer unit have?" in shown_words(window)
    hand.shown(QSpinBox, "Ways")[0].setValue(10)
    write(hand, "Main switch, A", "100")
    press(hand, "Add the panel")

    (panel,) = window.session.home.panels
    assert (panel.name, panel.spaces, [main.amps for main in panel.mains]) == ("Consumer unit", 10, [100])
    assert "Click a way and type" in shown_words(window)
    press(hand, "Solar")
    assert "The main switch does not stop" in shown_words(window)


def test_a_second_panel_is_added_and_shown(panel_set_up, hand):
    window = panel_set_up
    press(hand, "Add another panel")

    assert window.work.panel().name == "Panel 2"
    assert window.work.panel().prefix == "C"


def test_the_form_begins_at_the_breaker_that_was_clicked_and_stays_where_it_is_while_it_is_filled(panel_set_up, hand):
    window = panel_set_up
    down = window.work.rail.panel_page.parentWidget().parentWidget().parentWidget().verticalScrollBar()
    select(window, hand, 2)
    down.setValue(down.maximum())
    select(window, hand, 1)
    hand.qtbot.waitUntil(lambda: down.value() == 0 and down.maximum() > 120)
    down.setValue(120)
    hand.choose("Turn off?", "never")
    write(hand, "Because", "pipes freeze")
    hand.qtbot.waitUntil(lambda: down.value() == 120)


def test_a_fuse_that_is_out_is_told_in_a_fuses_words(panel_set_up, hand):
    window = panel_set_up
    select(window, hand, 2)
    hand.choose("Found", "off")
    hazard = next(one for one in window.session.findings.hazards if one.kind == "breaker found off")
    assert "fuse 2 was found taken out" in hazard.says
    assert "holder stays live" in hazard.why
