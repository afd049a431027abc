"""Putting a panel on the plan."""

import pytest

from floorplan_circuits.findings import Subject
from floorplan_circuits.gestures.events import Release
from floorplan_circuits.gestures.putting_panels import SAYS, PutPanel
from floorplan_circuits.gestures.selecting import Select
from tests.edits.samples import house, level_of, panel_of
from tests.gestures.hand import Hand


def putting() -> Hand:
    return Hand(house(), PutPanel(panel_of(house())))


def test_a_click_hangs_the_panel_on_the_wall_and_selects_it():
    hand = putting()

    outcome = hand.click((3900, 1500))
    panel = hand.home.panels[panel_of(hand.home)]

    assert (panel.at, panel.angle, panel.level) == ((4000, 1500), 180, level_of(hand.home))
    assert outcome.edit.says == "Edit Main panel"
    assert outcome.selected == (Subject("panel", panel.id),)
    assert hand.tool == Select()


def test_a_click_far_from_any_wall_hangs_nothing():
    hand = putting()

    hand.click((2000, 1500))

    assert hand.said == "Go nearer to the wall that the panel hangs on. Esc leaves the tool."
    assert hand.home.panels[panel_of(hand.home)].at is None
    assert hand.tool == PutPanel(panel_of(hand.home))


def test_the_draft_shows_where_it_would_hang():
    hand = putting()

    hand.pull((3800, 1400), (3900, 1500))

    assert (hand.draft.symbol, hand.draft.at, hand.draft.angle, hand.said) == ("panel", (4000, 1500), 180, SAYS)


def test_where_it_hangs_already_nothing_changes():
    hand = putting()
    hand.click((3900, 1500))
    home, hand.tool = hand.home, PutPanel(panel_of(hand.home))

    assert hand.click((3900, 1500)).edit is None
    assert hand.home is home


def test_only_a_click_that_began_with_the_tool_counts():
    hand = putting()

    assert hand.do(Release((3900, 1500))).edit is None


@pytest.mark.parametrize("name", ["escape", "enter"])
def test_keys_change_nothing(name):
    hand = putting()

    assert hand.key(name).edit is None
    assert isinstance(hand.tool, Select if name == "escape" else PutPanel)


def test_a_panel_that_is_gone_is_refused_and_let_go():
    hand = Hand(house(), PutPanel(999_999))

    hand.click((3900, 1500))

    assert hand.said == "That panel is not there any more."
    assert hand.tool == Select()
