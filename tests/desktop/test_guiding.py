"""The guide in the window, by keys and taps: one box that is not drawn, to its shut-off; stop, take back, go on."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QPushButton

from floorplan_circuits.desktop.guide_opens import OpensForm
from floorplan_circuits.desktop.guide_screens import SetUpForm
from floorplan_circuits.desktop.rail import FIND_OUT, SHUT_OFF
from floorplan_circuits.home.log import Round, Struck

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def first(window, hand):
    """The first page, with one box of two devices and eight breakers typed into its form."""
    page = window.first
    tap(page.one_box_button)
    form = page.one_box
    QTest.keyClicks(form.name, "hall, by the door")
    tap(form.more)
    form.gangs[1].setCurrentText("receptacle")
    form.works[0].setCurrentText("It works a light I can see")
    QTest.keyClicks(form.handles, "8")
    form.hot_alone.setChecked(True)
    return form


@pytest.fixture
def guide(window, hand, first):
    """The guide at its first question, tried both times, by eye."""
    tap(first.start)
    hand.settle()
    form = window.work.guiding.page.findChild(SetUpForm)
    form.tried.setChecked(True)
    form.who.setText("Kim")
    key(window, Qt.Key.Key_Return)
    hand.settle()
    return window.work.guiding


def tap(button) -> None:
    assert button.isVisible()
    QTest.mouseClick(button, LEFT)


def key(window, which) -> None:
    QTest.keyClick(window.work.guiding.page, which)


def test_enter_on_the_button_begins_as_a_click_does(window, hand, first) -> None:
    first.start.setFocus()
    QTest.keyClick(first.start, Qt.Key.Key_Return)
    hand.settle()
    assert window.work.guiding.is_open


def test_arrows_and_letters_set_the_form_and_answer_nothing(window, hand, first) -> None:
    tap(first.start)
    hand.settle()
    form = window.work.guiding.page.findChild(SetUpForm)
    for field in (form.way, form.minutes, form.who):
        field.setFocus()
        QTest.keyClick(field, Qt.Key.Key_Up if field is form.minutes else Qt.Key.Key_Down)
    QTest.keyClicks(form.who, "Dulls")
    assert form.way.currentText() == "A two-lead tester"
    assert form.minutes.value() == 1
    assert form.who.text() == "Dulls"


def button(window, words) -> QPushButton:
    shown = [one for one in window.findChildren(QPushButton) if one.isVisible() and one.text().startswith(words)]
    assert shown, words
    return shown[0]


def devices(window):
    home = window.session.home
    return [feed.id for feed in home.boxes.rows[0].feeds()]


def answer_all(window, hand, guide) -> None:
    """Follow the guide to its end: one key an answer, Enter when the breakers are turned."""
    breakers = window.session.home.breakers.ids()
    true = dict(zip(devices(window), (breakers[2], breakers[6]), strict=True))
    for _ in range(60):
        rows = guide.page.rows
        if not rows:
            if guide._step.stage == "done" and not guide.off.now:
                return
            key(window, Qt.Key.Key_Return)
        else:
            dead = true[rows[0].feed] in guide._step.off
            key(window, Qt.Key.Key_D if dead else Qt.Key.Key_L)
        hand.settle()
    raise AssertionError("the guide does not end")


def test_one_box_of_a_house_that_is_not_drawn_is_led_to_its_breakers_and_their_sheet(window, hand, guide) -> None:
    answer_all(window, hand, guide)
    known = window.session.find_now().conclusions
    assert [known[feed].standing for feed in devices(window)] == ["proved", "proved"]
    tap(button(window, "Tie all 2"))
    hand.settle()
    assert all(feed.on.how == "any" for feed in window.session.home.boxes.rows[0].feeds())
    tap(button(window, "What to turn off"))
    hand.settle()
    assert window.work.rail.stage == SHUT_OFF
    assert window.session.view.picked == (window.session.home.boxes.ids()[0],)


# --- what a lamp's proof leans on ----------------------------------------------------------------------------------


@pytest.fixture
def unsaid(window, hand, first):
    """The guide of two switches with lamps, tried both times, where nobody said what the breakers open."""
    first.gangs[1].setCurrentText("switch")
    for works in first.works[:2]:
        works.setCurrentText("It works a light I can see")
    first.hot_alone.setChecked(False)
    tap(first.start)
    hand.settle()
    window.work.guiding.page.findChild(SetUpForm).tried.setChecked(True)
    key(window, Qt.Key.Key_Return)
    hand.settle()
    return window.work.guiding


def test_before_breakers_are_tried_alone_it_is_asked_which_switch_the_hot_alone(window, hand, unsaid) -> None:
    form = until_asked(window, hand, unsaid)
    breakers = window.session.home.breakers
    assert [one.accessibleName() for one in form.ticks.values()] == [
        "3 switches the hot wire alone.",
        "7 switches the hot wire alone.",
    ]
    assert not any(one.isChecked() for one in form.ticks.values())
    tap(button(window, "None of these has a test button: tick all"))
    key(window, Qt.Key.Key_Return)
    hand.settle()
    assert [one.opens for one in breakers.rows] == ["not known"] * 8
    assert [window.session.home.breakers[one].opens for one in form.ticks] == ["hot", "hot"]
    answer_all(window, hand, unsaid)
    known = window.session.find_now().conclusions
    assert [known[feed].standing for feed in devices(window)] == ["proved", "proved"]


def test_what_was_tried_and_is_not_tested_says_why_and_offers_to_say_what_lacks(window, hand, unsaid) -> None:
    until_asked(window, hand, unsaid)
    key(window, Qt.Key.Key_Return)  # nothing ticked
    hand.settle()
    answer_all(window, hand, unsaid)
    assert "0 of 2 tested" in words_on(unsaid)
    assert "nobody said that the breaker opens the hot alone" in words_on(unsaid)
    tap(button(window, "Say which breakers switch the hot wire alone"))
    tap(button(window, "None of these has a test button: tick all"))
    key(window, Qt.Key.Key_Return)
    hand.settle()
    assert "2 of 2 tested" in words_on(unsaid)
    assert "nobody said" not in words_on(unsaid)


def until_asked(window, hand, guide) -> OpensForm:
    """Follow the guide until it asks what breakers open."""
    breakers = window.session.home.breakers.ids()
    true = dict(zip(devices(window), (breakers[2], breakers[6]), strict=True))
    for _ in range(40):
        form = guide.page.widget().findChild(OpensForm)
        if form is not None:
            return form
        rows = guide.page.rows
        dead = bool(rows) and true[rows[0].feed] in guide._step.off
        key(window, (Qt.Key.Key_D if dead else Qt.Key.Key_L) if rows else Qt.Key.Key_Return)
        hand.settle()
    raise AssertionError("it is never asked")


def test_dead_with_all_on_again_stops_the_walk_until_it_is_live(window, hand, guide) -> None:
    breakers = window.session.home.breakers.ids()
    true = dict(zip(devices(window), (breakers[2], breakers[6]), strict=True))
    while guide._step.stage != "all on again" or not guide.page.rows:
        rows = guide.page.rows
        dead = bool(rows) and true[rows[0].feed] in guide._step.off
        key(window, (Qt.Key.Key_D if dead else Qt.Key.Key_L) if rows else Qt.Key.Key_Return)
        hand.settle()
    asked = guide.page.rows[0].feed
    key(window, Qt.Key.Key_D)
    hand.settle()
    assert guide._step.stage == "all on again"
    assert asked in [row.feed for row in guide.page.rows]
    assert "Not live with all on: a lamp that burnt out, or something that tripped" in words_on(guide)
    answer_all(window, hand, guide)
    known = window.session.find_now().conclusions
    assert [known[feed].standing for feed in devices(window)] == ["proved", "proved"]


def test_a_promise_is_made_anew_in_each_sitting_and_home(window, hand, guide) -> None:
    tap(button(window, "Stop here"))
    tap(window.work.rail.find_out_page.guide)
    assert not guide.page.findChild(SetUpForm).tried.isChecked()
    window.first.name.setText("The last home")
    window.show_first_page()
    assert window.first.name.text() == ""
    form = window.first.one_box
    tap(window.first.one_box_button)
    assert (form.name.text(), form.handles.text(), form.hot_alone.isChecked()) == ("", "", False)
    assert [one.currentIndex() for one in (*form.gangs, *form.works)] == [0] * 12
    assert not form.gangs[1].isVisible()


def test_one_breaker_and_one_round_are_counted_as_one(window, hand, first) -> None:
    first.handles.setText("1")
    tap(first.start)
    hand.settle()
    assert ", 1 breaker, 1 round," in words_on(window.work.guiding)


def test_a_number_that_can_not_be_read_is_told_where_it_was_typed(window, first) -> None:
    first.handles.setText("1 x")
    tap(first.start)
    assert window.session is None
    assert "'x'" in first.said.text()


def test_an_answer_taken_back_is_struck_and_asked_again(window, hand, guide) -> None:
    asked = guide.page.rows[0].feed
    key(window, Qt.Key.Key_L)
    hand.settle()
    assert guide.page.rows[0].feed != asked
    key(window, Qt.Key.Key_Backspace)
    hand.settle()
    assert guide.page.rows[0].feed == asked
    assert [type(entry) for entry in window.session.home.log] == [Round, Struck]


def test_what_is_skipped_is_in_no_entry(window, hand, guide) -> None:
    key(window, Qt.Key.Key_S)
    assert window.session.home.log == ()
    assert len(guide.page.rows) == 1


def test_all_live_here_except_those_ticked_leaves_these_to_be_asked(window, hand, guide) -> None:
    last = guide.page.rows[1]
    last.other.setChecked(True)
    tap(button(window, "All live here"))
    hand.settle()
    assert [row.feed for row in guide.page.rows] == [last.feed]
    assert [reading.feed for reading in window.session.home.log[0].readings] == [devices(window)[0]]


def test_whoever_stops_in_a_round_turns_all_back_on_and_goes_on_there(window, hand, guide) -> None:
    for which in (Qt.Key.Key_L, Qt.Key.Key_L, Qt.Key.Key_Return, Qt.Key.Key_L):
        key(window, which)
        hand.settle()
    asked = guide._step
    assert asked.stage == "round"
    tap(button(window, "Stop here"))
    assert guide.is_open  # until all is back on
    tap(button(window, "Done"))
    assert not guide.is_open
    tap(window.work.rail.find_out_page.guide)
    key(window, Qt.Key.Key_Return)
    hand.settle()
    assert guide._step == asked


def test_another_stage_leaves_the_guide_and_a_click_on_the_panel_does_not_turn_a_breaker(window, hand, guide) -> None:
    window.work.finding.on_breaker(next(iter(guide.rings()), None) or _a_breaker(window))
    assert window.work.finding.page.now.breaker is None
    hand.stage(SHUT_OFF)
    assert not guide.is_open
    hand.stage(FIND_OUT)
    assert window.work.rail.find_out_page.by_hand.isVisible()


def _a_breaker(window):
    from floorplan_circuits.findings import Subject

    return Subject("breaker", window.session.home.breakers.ids()[0])


# --- how long breakers are off ----------------------------------------------------------------------------------------


class Clock:
    """A clock that is set by hand."""

    at = 0.0

    def __call__(self) -> float:
        return self.at


@pytest.fixture
def timed(window, hand, first):
    """The guide in its first round, with breakers that may be off for ten minutes, and its clock."""
    tap(first.start)
    hand.settle()
    guide, clock = window.work.guiding, Clock()
    guide.off.clock.now = clock
    form = guide.page.findChild(SetUpForm)
    form.minutes.setValue(10)
    key(window, Qt.Key.Key_Return)
    hand.settle()
    while guide._step.stage != "round" or not guide.page.rows:
        key(window, Qt.Key.Key_L if guide.page.rows else Qt.Key.Key_Return)
        hand.settle()
    return guide, clock


def words_on(guide) -> str:
    return "\n".join(label.text() for label in guide.page.findChildren(QLabel))


def test_a_room_says_by_when_breakers_must_be_back_on(window, timed) -> None:
    guide, _ = timed
    assert "Back on by " in words_on(guide)


def test_what_was_off_long_enough_is_asked_for_and_the_round_goes_on_after_it_ran(window, hand, timed) -> None:
    guide, clock = timed
    asked, off = guide._step, guide.off.now
    clock.at = 9 * 60.0
    guide.show()
    assert "Back on for a while" in words_on(guide)
    assert "Turn back on:" in words_on(guide)
    clock.at = 9.5 * 60
    key(window, Qt.Key.Key_Return)
    assert guide.off.now == ()
    assert "should run until" in words_on(guide)
    clock.at = 20 * 60
    key(window, Qt.Key.Key_Return)
    assert guide.off.now == off
    assert guide._step == asked
    assert [row.feed for row in guide.page.rows] == list(asked.feeds)


def test_the_timer_asks_by_itself(window, hand, qtbot, timed) -> None:
    guide, clock = timed
    clock.at = 9 * 60.0 - 0.05
    guide.show()
    assert guide.page.rows
    clock.at = 9 * 60.0
    qtbot.waitUntil(lambda: "Back on for a while" in words_on(guide), timeout=2000)
