"""A whole panel typed down its columns, as fast as a person who looks at the panel and not at the screen."""

import re
from dataclasses import dataclass

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit

from floorplan_circuits.desktop.in_place import InPlace
from floorplan_circuits.desktop.rail import PANEL
from floorplan_circuits.edits.panels import add_panel
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import problems
from tests.desktop.robot_hand import press

MOST_KEYS = 150
"""Keys beyond the labels' own letters that a panel of 40 spaces may take."""
LEFT_COLUMN = """
20 kitchen plugs
. kitchen plugs window
15 lts din
. lts hall
30/2 dryer
15/t porch
20 bath gfi
15 bdrm ne
. bdrm sw
. smokes
50/2 range
20 dishwasher
. disposal
15 den
. family rm
. garage lts


"""
RIGHT_COLUMN = """
60/2 sub garage
20 laundry
. micro
. fridge
15 furnace
. sump
40/2 a/c
30/q water htr / 20 pool
15 attic
. bell
20 shop
. shop 2
. outside plugs
15



"""
MARKS = (
    *("1", "3", "5", "7", "9·11", "13A", "13B", "15", "17", "19", "21", "23·25", "27", "29", "31", "33", "35"),
    *("2·4", "6", "8", "10", "12", "14", "16·18", "20A·22B", "20B·22A", "24", "26", "28", "30", "32", "34"),
)


@dataclass
class Typist:
    """Types without waiting for the screen, and counts the keys that are no letter of a label."""

    window: object
    keys: int = 0

    def type(self, line: str) -> None:
        """Type a size with its label, and Enter; an empty line is a blank."""
        first, _, label = line.partition(" ")
        size = f"{first} " if line else ""
        QTest.keyClicks(self._field(), size)
        QTest.keyClicks(self._field(), label)
        QTest.keyClick(self._field(), Qt.Key.Key_Return)
        between = re.findall(r" / (?:\d+ )?", label)
        self.keys += len(size) + sum(map(len, between)) + 1

    def _field(self):
        """Where the keys go: what has the focus, a line that asks or not."""
        return self.window.focusWidget()


def of_forty_spaces(window, hand) -> None:
    window.start("Elm house", "metric")
    window.session.attempt(lambda home: add_panel(home, 40, system="split-phase 120/240"))
    hand.settle()
    hand.stage(PANEL)
    hand.click_space(1)


def test_a_panel_of_forty_spaces_takes_under_150_keys_beyond_its_labels(window, hand):
    of_forty_spaces(window, hand)
    typist = Typist(window)

    for line in (LEFT_COLUMN + RIGHT_COLUMN.removeprefix("\n")).removeprefix("\n").removesuffix("\n").split("\n"):
        typist.type(line)
    hand.settle()

    home: Home = window.session.home
    marks = window.session.findings.marks
    assert {marks[breaker.id] for breaker in home.breakers} == set(MARKS)
    labels = {marks[breaker.id]: (breaker.amps, breaker.as_found) for breaker in home.breakers}
    assert labels["3"] == (20, "kitchen plugs window")
    assert labels["20A·22B"] == (30, "water htr")
    assert labels["20B·22A"] == (20, "pool")
    assert labels["34"] == (15, "")
    assert not problems(home)
    assert hand.fields() == []
    assert typist.keys < MOST_KEYS


def test_forty_single_breakers_of_one_size_take_under_150_keys_too(window, hand):
    of_forty_spaces(window, hand)
    typist = Typist(window)

    for place in range(40):
        typist.type(f"{'20' if place == 0 else '.'} circuit {place}")
    hand.settle()

    found = sorted((breaker.poles[0].space, breaker.amps, breaker.as_found) for breaker in window.session.home.breakers)
    down = [*range(1, 41, 2), *range(2, 41, 2)]
    assert found == sorted((space, 20, f"circuit {place}") for place, space in enumerate(down))
    assert typist.keys < MOST_KEYS


def test_a_line_that_does_not_fit_stays_to_be_mended(window, hand):
    of_forty_spaces(window, hand)

    hand.answer(". den")
    assert "No size was typed yet" in hand.says()
    assert [field.text() for field in hand.fields()] == [". den"]
    hand.answer("15 den")
    assert [breaker.as_found for breaker in window.session.home.breakers] == ["den"]


def test_a_click_elsewhere_takes_the_line_and_asks_no_further(window, hand):
    of_forty_spaces(window, hand)

    QTest.keyClicks(hand.field(), "20 den")
    window.work.rail.panel_page.setFocus()
    window.work.canvas.setFocus()
    hand.settle()

    assert [breaker.as_found for breaker in window.session.home.breakers] == ["den"]
    assert hand.fields() == []


def test_escape_ends_the_typing_and_leaves_the_space_blank(window, hand):
    of_forty_spaces(window, hand)

    hand.answer("20 den")
    hand.leave_field()

    assert len(window.session.home.breakers) == 1
    assert not any(isinstance(one, InPlace) and one.isVisible() for one in window.findChildren(InPlace))


def test_a_board_of_three_phases_is_typed_way_by_way(window, hand):
    window.start("Plane terrace", "metric")
    window.session.attempt(
        lambda home: add_panel(
            home, 12, numbering="ways of three, down one side, then the other", system="three-phase 400Y/230"
        )
    )
    hand.settle()
    hand.stage(PANEL)
    hand.click_space(1)
    for words in ("32 ring down", ". ring up", "6 lts", "40/3 shed"):
        hand.answer(words)
    hand.leave_field()

    assert {"1L1", "1L2", "1L3", "2L1·L2·L3"} <= set(window.session.findings.marks.values())
    hand.click_space(8)
    hand.answer("40/3 lift")
    assert "one breaker stays in one way" in hand.says()


def test_a_board_of_two_rows_is_typed_along_its_rows_and_numbered_as_its_householder_has_it(window, hand):
    window.start("Plane terrace", "metric")
    hand.stage(PANEL)
    hand.choose("Numbered", "row by row")
    press(hand, "Add the panel")
    for label, words in (("Rows", "4 3"), ("Own numbers", "1-4 11-13")):
        field = hand.shown(QLineEdit, label)[0]
        field.setFocus()
        QTest.keyClicks(field, words)
        QTest.keyClick(field, Qt.Key.Key_Return)
        hand.settle()
    hand.click_space(2)
    for words in ("63/2 RCD", "6 lights", "40/2 shower", "32 ring"):
        hand.answer(words)

    assert {"2·3", "4", "11·12", "13"} <= set(window.session.findings.marks.values())
    hand.click_space(1)
    hand.answer("16 heater")
    assert "1" in window.session.findings.marks.values()
