"""What rows of the list of dangers lead to: the place, the breakers, and setting one aside with a reason."""

from datetime import date

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QLineEdit, QMenu

from floorplan_circuits.desktop.hazard_rows import SET_ASIDE, TELL_AGAIN
from floorplan_circuits.findings import Subject
from floorplan_circuits.home.days import written
from floorplan_circuits.home.resources import folder

COTTAGE = folder("sample_homes") / "cottage.json"


@pytest.fixture
def opened(window, hand):
    """The window with the cottage open in it."""
    assert window.open(COTTAGE)
    hand.settle()
    return window


def hazard_of(window, kind):
    return next(one for one in window.session.find_now().hazards if one.kind == kind)


def choose(window, hazard, words):
    """Open the menu of a row and choose from it."""
    window.work.hazard_rows.offer(hazard, QPoint(10, 10))
    menu = QApplication.activePopupWidget()
    assert isinstance(menu, QMenu)
    (action,) = menu.actions()
    assert action.text() == words
    menu.close()
    action.trigger()


@pytest.mark.qt_log_ignore("This plugin does not support")  # a menu without a screen neither rises nor takes the keys
def test_a_danger_is_set_aside_with_the_reason_typed_in_its_row_and_told_again(opened, hand) -> None:
    hazard = hazard_of(opened, "shared box")
    choose(opened, hazard, SET_ASIDE)
    line = opened.work.below.list.findChildren(QLineEdit)[0]
    QTest.keyClicks(line, "both are marked in the box")
    QTest.keyClick(line, Qt.Key.Key_Return)
    hand.settle()

    aside = [one for one in opened.session.find_now().hazards if one.set_aside]
    assert [one.set_aside for one in aside] == [
        f"Set aside on {written(date.today().isoformat())}: both are marked in the box"
    ]
    model = opened.work.below.list.model()
    assert "both are marked in the box" in str(model.data(model.index(model.rowCount() - 1, 0)))

    choose(opened, aside[0], TELL_AGAIN)
    hand.settle()
    assert hazard in opened.session.find_now().hazards


@pytest.mark.parametrize(("typed", "key"), [("", Qt.Key.Key_Return), ("because", Qt.Key.Key_Escape)])
def test_without_a_reason_or_with_escape_nothing_is_set_aside(opened, hand, typed, key) -> None:
    home = opened.session.home
    opened.work.hazard_rows.ask(hazard_of(opened, "shared box"))
    line = opened.work.below.list.findChildren(QLineEdit)[0]
    QTest.keyClicks(line, typed)
    QTest.keyClick(line, key)
    hand.settle()
    assert opened.session.home is home


def test_a_danger_of_breakers_selects_them(opened, hand) -> None:
    hazard = hazard_of(opened, "shared neutral, no common handle")
    opened.work.hazard_rows.go_to(hazard)
    hand.settle()
    assert opened.session.view.selected == tuple(Subject("breaker", one) for one in hazard.breakers)


def test_a_danger_of_several_boxes_selects_them_all(opened, hand) -> None:
    hazard = hazard_of(opened, "no ground")
    opened.work.hazard_rows.go_to(hazard)
    hand.settle()
    boxes = [one for one in hazard.about if one in opened.session.home.boxes]
    assert len(boxes) > 1
    assert opened.session.view.selected == tuple(Subject("box", one) for one in boxes)


def test_a_boxs_form_tells_what_is_told_with_it_alone(opened, hand) -> None:
    alone = next(one for one in opened.session.find_now().hazards if not one.listed)
    opened.work.hazard_rows.go_to(alone)
    hand.settle()
    told = [label.text() for label in opened.findChildren(QLabel)]
    assert any(words.startswith(alone.says) and alone.do in words for words in told)
