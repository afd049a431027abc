"""The status line by real mouse and keys: a tool says what a click does and how to leave; refusals change nothing."""

import pytest
from PySide6.QtCore import Qt

from floorplan_circuits.edits.boxes import put_device
from floorplan_circuits.findings import Subject
from floorplan_circuits.gestures.selecting import SAYS, Select
from floorplan_circuits.gestures.stamping import StampClip
from floorplan_circuits.gestures.step import BUILDING_KEYS, tool_for_key
from floorplan_circuits.gestures.switching import DrawSwitching
from floorplan_circuits.gestures.tying import TieDevices
from tests.desktop.robot_hand import draw_kitchen

KEYS = [*BUILDING_KEYS, "r", "s", "3", "l", "a", "c", "h"]
ON_WALLS = ["k", "o", "i", "y", "u", "r", "s", "3"]
"""Keys of tools that a click far from any wall, or one without a drag, means nothing to."""
FAR = (9000, 9000)


@pytest.fixture
def drawn(window, hand):
    draw_kitchen(window, hand)
    return window


def said(window) -> str:
    return window.work.status.text()


def test_a_tool_says_what_a_click_does_and_how_to_leave_from_its_key_to_escape(drawn, hand):
    session, before = drawn.session, drawn.session.home
    for key in KEYS:
        hand.write(key)
        assert type(session.tool) is type(tool_for_key(key))
        for at in (None, (2000, 1500), (1000, 20), FAR):
            if at is not None:
                hand.move(*at)
            assert said(drawn).startswith(("Click ", "Drag ")), (key, at)
            assert "Esc leaves" in said(drawn), (key, at)
            assert drawn.work.status.sizeHint().width() <= drawn.work.status.width(), said(drawn)
        hand.key(Qt.Key.Key_Escape)
        assert (type(session.tool), said(drawn)) == (Select, SAYS), key
    assert session.home is before


def test_a_click_that_can_not_be_meant_is_refused_in_words_and_the_home_is_the_same(drawn, hand):
    session, before, past = drawn.session, drawn.session.home, drawn.session.history.past
    for key in ON_WALLS:
        hand.write(key)
        hand.move(*FAR)
        resting = said(drawn)

        hand.click(*FAR)

        assert session.home is before, key
        assert session.history.past is past, key
        assert said(drawn) != resting, key
        assert said(drawn).endswith("."), key
        assert type(session.tool) is type(tool_for_key(key))
        hand.key(Qt.Key.Key_Escape)


@pytest.mark.parametrize("tool", [TieDevices, DrawSwitching])
def test_without_a_breaker_or_a_switch_a_click_says_what_comes_first(drawn, hand, tool):
    session = drawn.session
    session.attempt(lambda home: put_device(home, session.view.level, (1000, 1000), 90, "ceiling light"))
    hand.settle()
    hand.write("c" if tool is TieDevices else "h")
    before = session.home

    hand.click(1000, 1000)

    assert session.home is before
    assert said(drawn).startswith("Click a breaker" if tool is TieDevices else "Click a switch first")


def test_what_is_copied_is_put_down_or_refused_and_escape_leaves(drawn, hand):
    session = drawn.session
    session.attempt(lambda home: put_device(home, session.view.level, (1000, 0), 90, "switch"))
    hand.settle()
    session.select((Subject("box", session.home.boxes.rows[0].id),))
    hand.key(Qt.Key.Key_D, Qt.KeyboardModifier.ControlModifier)
    assert isinstance(session.tool, StampClip)
    assert "Esc leaves" in said(drawn)
    before = session.home

    hand.click(*FAR)
    assert (said(drawn), session.home) == ("Click nearer to a wall: this box goes on one.", before)
    hand.click(60, 1500)
    assert len(session.home.boxes) == 2
    hand.key(Qt.Key.Key_Escape)
    assert (type(session.tool), said(drawn)) == (Select, SAYS)
