"""What is stated of a box, said in the window as a person does: loads, grounds, what hangs behind what, trouble."""

import pytest
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QComboBox, QLineEdit

from floorplan_circuits.desktop.inspector import TELL_MORE
from floorplan_circuits.desktop.rail import DRAW, PANEL
from floorplan_circuits.findings import Subject
from floorplan_circuits.home.boxes import Behind, Disconnected, FromBreaker
from floorplan_circuits.home.home import feeds
from floorplan_circuits.home.log import ReceptacleTest, Round, Struck, Trouble
from floorplan_circuits.home.resources import folder
from tests.desktop.robot_hand import press

COTTAGE = folder("sample_homes") / "cottage.json"
SHARED, RECEPTACLE = "B24", "B1"


@pytest.fixture
def opened(window, hand):
    assert window.open(COTTAGE)
    hand.settle()
    return window


def box_of(window, mark):
    return next(box for box in window.session.home.boxes if box.mark == mark)


def facts(window, hand, mark):
    window.work.inside.look(box_of(window, mark).id)
    hand.settle()
    return window.work.inside.page.facts


def field(page, name: str, kind=QComboBox):
    found = [one for one in page.findChildren(kind) if one.isVisible()]
    return next(one for one in found if one.accessibleName() == name)


def choose(page, hand, name: str, words: str) -> None:
    """Choose from a list as the keys do."""
    box = field(page, name)
    at = box.findText(words)
    assert at >= 0, [box.itemText(one) for one in range(box.count())]
    box.setCurrentIndex(at)
    box.textActivated.emit(words)
    hand.settle()


def a_receptacle(window, kind="duplex receptacle") -> str:
    home = window.session.home
    return next(box.mark for box in home.boxes if [one.kind for one in box.devices] == [kind] and len(box.feeds()) == 1)


def test_what_minds_going_off_is_said_and_the_shut_off_tells_it_first(opened, hand):
    mark = a_receptacle(opened)
    page = facts(opened, hand, mark)
    choose(page, hand, "Minds going off", "medical equipment")

    (device,) = box_of(opened, mark).devices
    assert device.critical == "medical equipment"
    assert opened.session.findings.home is opened.session.home
    assert field(page, "Minds going off").currentText() == "medical equipment"


def test_a_load_and_what_is_stamped_on_it_are_typed_and_what_is_none_is_refused(opened, hand):
    mark = a_receptacle(opened)
    page = facts(opened, hand, mark)
    for name, words, value in (("Load", "1500 W", ("va", 1500)), ("Stamped", "15 A", ("rated", 15))):
        line = field(page, name, QLineEdit)
        line.setText(words)
        line.editingFinished.emit()
        hand.settle()
        assert getattr(box_of(opened, mark).devices[0], value[0]) == value[1]
    before = opened.session.home
    line = field(page, "Load", QLineEdit)
    line.setText("a lot")
    line.editingFinished.emit()
    hand.settle()
    assert opened.session.home is before
    assert "whole number" in hand.says()


def test_ground_wires_and_mounting_are_said(opened, hand):
    mark = a_receptacle(opened)
    page = facts(opened, hand, mark)
    for name, words in (("Ground", "absent"), ("Wires", "aluminium"), ("Mounted", "floor")):
        choose(page, hand, name, words)
    box = box_of(opened, mark)
    assert (box.devices[0].ground, box.wiring, box.mount) == ("absent", "aluminium", "floor")


def test_a_feed_is_hung_behind_a_ground_fault_device_and_its_test_button_recorded(opened, hand):
    home = opened.session.home
    guard = next(
        place for place in feeds(home) if place.device is not None and place.device.kind == "ground-fault receptacle"
    )
    mark = next(
        box.mark for box in home.boxes if [one.kind for one in box.devices] == ["duplex receptacle"]
        and not isinstance(box.feeds()[0].on, Behind) and box.level == guard.box.level
    )  # fmt: skip
    page = facts(opened, hand, mark)
    words = next(
        field(page, "Hangs on").itemText(at) for at in range(field(page, "Hangs on").count())
        if field(page, "Hangs on").itemText(at).startswith(f"behind {guard.box.mark}")
    )  # fmt: skip
    choose(page, hand, "Hangs on", words)
    assert box_of(opened, mark).feeds()[0].on == Behind(how="behind", feed=guard.feed.id)

    entries = len(opened.session.home.log)
    press(hand, "It went dead and came back")
    hand.settle()
    rounds = opened.session.home.log[entries:]
    assert [(type(one), one.pressed, one.readings[0].says) for one in rounds] == [
        (Round, (), "live"), (Round, (guard.feed.id,), "dead"), (Round, (), "live"),
    ]  # fmt: skip
    feed = box_of(opened, mark).feeds()[0].id
    assert {reading.feed for one in rounds for reading in one.readings} == {feed}


def test_one_feed_of_a_box_of_two_is_told_at_a_time_and_may_hang_on_nothing_or_on_two(opened, hand):
    page = facts(opened, hand, SHARED)
    first, second = box_of(opened, SHARED).feeds()
    which = field(page, "Tell of")
    choose(page, hand, "Tell of", which.itemText(1))
    choose(page, hand, "Hangs on", "nothing: I saw both ends")
    now = {feed.id: feed.on for feed in box_of(opened, SHARED).feeds()}
    assert now[first.id] == first.on
    assert isinstance(now[second.id], Disconnected)
    assert now[second.id].date

    numbers = [field(page, "Hangs on").itemText(at) for at in (1, 2)]
    choose(page, hand, "Hangs on", numbers[0])
    choose(page, hand, "And on", numbers[1])
    choose(page, hand, "Works if", "all are on: across them")
    hung = box_of(opened, SHARED).feeds()[1].on
    assert (len(hung.supplies), hung.how) == (2, "all")
    choose(page, hand, "Neutral", f"that of {numbers[0]}")
    assert isinstance(box_of(opened, SHARED).feeds()[1].returns, FromBreaker)


def test_what_a_plug_in_tester_showed_is_recorded_only_where_one_fits(opened, hand):
    facts(opened, hand, SHARED)
    page = opened.work.inside.page
    assert not page.plug_tester.isVisible()

    mark = a_receptacle(opened)
    facts(opened, hand, mark)
    assert page.plug_tester.isVisible()
    page.plug_tester.shows.setCurrentText("open ground")
    QTest.keyClicks(page.plug_tester.who, "Ada")
    press(hand, "Record what it shows")
    hand.settle()
    entry = opened.session.home.log[-1]
    assert isinstance(entry, ReceptacleTest)
    assert (entry.shows, entry.who, entry.device) == ("open ground", "Ada", box_of(opened, mark).devices[0].id)
    assert any("ground" in one.says and mark in one.says for one in opened.session.findings.hazards)


def test_trouble_with_a_breaker_is_told_shown_and_struck(opened, hand):
    opened.work.staging.show(PANEL)
    breaker = opened.session.home.breakers.ids()[0]
    opened.session.select((Subject("breaker", breaker),))
    hand.settle()
    choose(opened.work, hand, "Trouble with it", "runs hot")
    entry = opened.session.home.log[-1]
    assert isinstance(entry, Trouble)
    assert (entry.handle, entry.what) == (breaker, "runs hot")
    assert any("hot" in one.says for one in opened.session.findings.hazards if breaker in one.about)

    asked = next(one for one in opened.work.findChildren(QComboBox) if one.accessibleName() == "More trouble with it")
    assert asked.isVisible()
    press(hand, "Strike it…")
    line = next(one for one in opened.work.findChildren(QLineEdit) if one.accessibleName() == "Why was it a mistake?")
    QTest.keyClicks(line, "the other one")
    QTest.keyClick(line, "\r")
    hand.settle()
    assert isinstance(opened.session.home.log[-1], Struck)


def test_the_form_of_a_box_leads_to_what_else_is_known_of_it(opened, hand):
    opened.work.staging.show(DRAW)
    opened.session.select((Subject("box", box_of(opened, SHARED).id),))
    hand.settle()
    press(hand, "more")
    press(hand, TELL_MORE)
    assert opened.work.inside.is_open
    assert opened.work.inside.box == box_of(opened, SHARED).id


def test_cables_that_pass_are_counted_where_nothing_else_tells_them_apart(opened, hand):
    page = facts(opened, hand, "B47")
    first, second = box_of(opened, "B47").feeds()
    which = field(page, "Tell of")
    assert [which.itemText(at) for at in range(which.count())] == [
        "cable that passes, 1 of 2",
        "cable that passes, 2 of 2",
    ]
    choose(page, hand, "Tell of", "cable that passes, 2 of 2")
    choose(page, hand, "Volts", "low, by a transformer")
    assert [feed.volts for feed in box_of(opened, "B47").feeds()] == [first.volts, "low"]
    assert second.volts == "mains"
