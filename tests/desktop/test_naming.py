"""Names asked for in place, as a person gives them."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from floorplan_circuits.desktop.in_place import InPlace
from floorplan_circuits.home.resources import folder


@pytest.fixture
def opened(window, hand):
    assert window.open(folder("sample_homes") / "flat.json")
    hand.settle()
    return window


def line_of(window) -> InPlace:
    found = [one for one in window.findChildren(InPlace) if one.isVisible()]
    assert [one.accessibleName() for one in found] == ["Name of the home"]
    return found[0]


def test_a_double_click_on_the_homes_name_asks_for_another_and_undo_brings_the_old_one_back(opened, hand):
    before = opened.session.home.name
    QTest.mouseDClick(opened.work.strip.home_name, Qt.MouseButton.LeftButton)
    line = line_of(opened)
    assert line.text() == before
    QTest.keyClicks(line, "Flat over the mill")  # what stands there is selected: typing replaces it
    QTest.keyClick(line, Qt.Key.Key_Return)
    hand.settle()

    assert opened.session.home.name == opened.work.strip.home_name.text() == "Flat over the mill"
    assert "Flat over the mill" in opened.windowTitle()
    opened.session.undo()
    hand.settle()
    assert opened.work.strip.home_name.text() == before


def test_escape_leaves_the_name_as_it_was(opened, hand):
    before = opened.session.home
    opened.work.naming.ask_for_home()
    line = line_of(opened)
    QTest.keyClicks(line, "Another")
    QTest.keyClick(line, Qt.Key.Key_Escape)
    hand.settle()
    assert opened.session.home is before
