"""Finding out in the window: breaker off, device clicked, what it showed said; struck, asked about, let expire."""

from datetime import date

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QCheckBox, QLabel, QLineEdit, QPushButton

from floorplan_circuits.desktop.aging import AgingDialog
from floorplan_circuits.desktop.find_out_page import NOT_CHOSEN
from floorplan_circuits.desktop.rail import DRAW, FIND_OUT, PANEL, TIE
from floorplan_circuits.desktop.reading_choice import ReadingChoice
from floorplan_circuits.drawing.plan_boxes import GANG
from floorplan_circuits.edits.breakers import set_breaker
from floorplan_circuits.edits.recording import record_trouble
from floorplan_circuits.gestures.finding_out import READS, readable
from floorplan_circuits.home.called import called_there
from floorplan_circuits.home.days import written
from floorplan_circuits.home.log import Change, Round, Struck
from floorplan_circuits.home.power import Found
from tests.desktop.robot_hand import draw_kitchen, press

LEFT = Qt.MouseButton.LeftButton
UPPER_WALL = 60
RECEPTACLE, SWITCHES, NOWHERE = (1000, UPPER_WALL), (2600, UPPER_WALL), (2000, 2000)


@pytest.fixture
def home(window, hand):
    """A kitchen with a receptacle and a box of two switches, two breakers that open the hot alone; finding out."""
    draw_kitchen(window, hand)
    hand.write("r")
    hand.click(*RECEPTACLE)
    hand.write("s")
    hand.click(*SWITCHES)
    hand.click(*SWITCHES)
    hand.key(Qt.Key.Key_Escape)
    hand.stage(PANEL)
    press(hand, "Add the panel")
    hand.click_space(1)
    hand.answer("20 plugs")
    hand.answer("15 lights")
    hand.leave_field()
    for breaker in window.session.home.breakers.ids():
        window.session.attempt(lambda now, one=breaker: set_breaker(now, one, opens="hot"))
    hand.stage(FIND_OUT)
    return window


def tick(hand, *words):
    for one in words:
        box = hand.shown(QCheckBox, one)[0]
        QTest.mouseClick(box, LEFT, pos=box.rect().center() / 4)
    hand.settle()


def breaker(window, place=0):
    return window.session.home.breakers.rows[place].id


def choice(window):
    shown = [one for one in window.findChildren(ReadingChoice) if one.isVisible()]
    return shown[-1] if shown else None


def rounds(window):
    return [(one.off, one.readings[0].says) for one in window.session.home.log if isinstance(one, Round)]


def page(window):
    return window.work.rail.find_out_page


def words_in(hand, widget):
    return [one.text() for one in widget.findChildren(QLabel) if one.isVisible()]


# --- two clicks -------------------------------------------------------------------------------------------------------


def test_a_device_and_what_it_showed_are_two_clicks(home, hand):
    hand.choose("Tested with", "Lamp plugged in")
    hand.click_breaker(breaker(home))
    assert "1 is off, you say." in hand.says()

    hand.click(*RECEPTACLE)
    press(hand, "dead")

    (entry,) = home.session.home.log
    assert (rounds(home), entry.method, entry.date) == (
        [((breaker(home),), "dead")],
        "lamp plugged in",
        date.today().isoformat(),
    )
    assert hand.says() == (
        "B1: one ‘dead’ is not proof: not seen live just before, with all as usual, not seen live again, "
        "the tester not proved before and after. Treat as live."
    )
    assert choice(home) is None


def test_a_tracer_points_and_no_breaker_is_said_to_be_off(home, hand):
    hand.choose("Tested with", "Signal tracer")
    hand.choose("Adapter", "receptacle without ground")
    hand.click_breaker(breaker(home))
    assert "It points to 1" in page(home).state.text()
    assert not any(box.isVisible() for box in page(home).ticks.values())

    hand.click(*RECEPTACLE)
    press(hand, "two passes")

    (entry,) = home.session.home.log
    assert (entry.kind, entry.passes, entry.adapter) == ("traced", 2, "receptacle without ground")
    assert hand.says() == "B1: traced to 1. It points, and proves nothing. Treat as live."


def test_with_all_parts_ticked_it_reads_tested_and_on_which(home, hand):
    hand.choose("Tested with", "Two-lead tester")
    hand.click_breaker(breaker(home))
    tick(hand, "Tester proved before", "Tester proved after", "Seen live before", "Seen live again")
    QTest.keyClicks(page(home).who, "owner")

    hand.click(*RECEPTACLE)
    assert any("also records: live before, live again" in words for words in words_in(hand, choice(home)))
    press(hand, "dead")

    assert [says for _, says in rounds(home)] == ["live", "dead", "live"]
    assert {entry.who for entry in home.session.home.log} == {"owner"}
    assert hand.says() == f"B1: tested {written(date.today().isoformat())}, on 1."
    assert "1 of 3 feeds tested" in home.work.rail.buttons[FIND_OUT].accessibleDescription()


def test_what_was_ticked_is_not_said_of_the_next_breaker(home, hand):
    hand.choose("Tested with", "Two-lead tester")
    hand.click_breaker(breaker(home))
    tick(hand, "Tester proved before", "Tester proved after", "Seen live before", "Seen live again")

    hand.click_breaker(breaker(home, 1))

    ticked = {name: box.isChecked() for name, box in page(home).ticks.items()}
    assert [name for name, on in ticked.items() if on] == ["tester_before"]
    assert page(home).state.text() == "3 is off"


def test_another_way_of_testing_says_what_it_can_not_show_and_starts_afresh(home, hand):
    hand.choose("Tested with", "Two-lead tester")
    tick(hand, "Tester proved before")
    hand.choose("Tested with", "Non-contact tester")

    assert "never proves dead" in page(home).cannot.text()
    assert not page(home).now.tester_before
    assert not page(home).ticks["tester_before"].isChecked()


def test_with_all_as_usual_a_reading_is_recorded_so(home, hand):
    hand.choose("Tested with", "Lamp plugged in")
    assert hand.shown(QCheckBox, "Seen live before") == []

    hand.click(*RECEPTACLE)
    press(hand, "live")

    assert rounds(home) == [((), "live")]
    assert hand.says() == "B1: live with all as usual. Turn a breaker off, and look again."


def test_by_keys_the_answer_is_gone_to_and_given_with_enter(home, hand):
    hand.choose("Tested with", "Lamp plugged in")
    hand.click(*RECEPTACLE)
    dead = choice(home).findChild(QPushButton)
    QTest.keyClick(dead, Qt.Key.Key_Right)
    QTest.keyClick(choice(home).focusWidget(), Qt.Key.Key_Return)
    hand.settle()

    assert rounds(home) == [((), "live")]
    assert choice(home) is None


def test_a_box_of_several_asks_about_each_and_one_gang_about_itself(home, hand):
    hand.choose("Tested with", "Two-lead tester")
    hand.click_breaker(breaker(home, 1))

    hand.click(*SWITCHES)
    press(hand, "switch live")
    assert rounds(home) == [((breaker(home, 1),), "live")]
    assert "live with 3 off, so 3 is not all that feeds it" in hand.says()

    box, scale = home.session.home.boxes.rows[1], home.work.canvas.drawn_scale()
    hand.click(box.at[0] + GANG / 2 * scale, box.at[1] + scale)
    asked = [one.accessibleName() for one in choice(home).findChildren(QPushButton)]
    assert asked == [f"{called_there(readable(box, box.devices[1].id, home.session.home)[0])} {says}" for says in READS]


# --- what is not recorded ---------------------------------------------------------------------------------------------


def test_nothing_is_asked_before_anybody_says_how_it_is_tested(home, hand):
    assert page(home).way.currentText() == NOT_CHOSEN
    hand.click(*RECEPTACLE)

    assert choice(home) is None
    assert "Say first how you test" in hand.says()


def test_escape_or_a_click_elsewhere_leaves_the_question(home, hand):
    hand.choose("Tested with", "Lamp plugged in")
    hand.click(*RECEPTACLE)
    QTest.keyClick(choice(home).findChild(QPushButton), Qt.Key.Key_Escape)
    assert choice(home) is None

    hand.click(*RECEPTACLE)
    hand.click(*NOWHERE)
    assert choice(home) is None
    assert home.session.home.log == ()


def test_nothing_is_drawn_moved_or_removed_while_finding_out(home, hand):
    before = home.session.home
    hand.drag(RECEPTACLE, (1500, UPPER_WALL))
    hand.write("n")
    hand.drag((500, 500), (1500, 1500))
    hand.key(Qt.Key.Key_Delete)
    QTest.mouseDClick(home.work.canvas, LEFT, pos=hand.pixels(*NOWHERE))
    hand.settle()

    assert home.session.home is before
    assert hand.fields() == []


@pytest.mark.parametrize(
    ("made", "says"),
    [
        (lambda now, one: set_breaker(now, one, found=Found(state="off", why="old pump")), "was found off (old pump)"),
        (lambda now, one: record_trouble(now, one, "runs hot", date=""), "Breaker 1 runs hot. Keep off it"),
    ],
)
def test_a_breaker_that_nobody_should_turn_off_is_refused_in_words(home, hand, made, says):
    home.session.attempt(lambda now: made(now, breaker(home)))
    hand.settle()
    hand.click_breaker(breaker(home))

    assert says in hand.says()
    assert page(home).now.breaker is None


def test_a_double_click_on_the_panel_keeps_the_breaker_off_and_types_nothing(home, hand):
    view, space = home.work.side.view, home.session.home.breakers.rows[0].poles[0].space
    QTest.mouseClick(view, LEFT, pos=view.area_of(space).center())
    QTest.mouseDClick(view, LEFT, pos=view.area_of(space).center())
    hand.settle()

    assert page(home).now.breaker == breaker(home)
    assert hand.fields() == []


def test_a_breaker_back_on_and_a_stage_left_leave_nothing_off(home, hand):
    hand.choose("Tested with", "Lamp plugged in")
    hand.click_breaker(breaker(home))
    press(hand, "It is back on")
    assert page(home).now.breaker is None

    hand.click_breaker(breaker(home))
    hand.click(*RECEPTACLE)
    hand.stage(DRAW)
    assert choice(home) is None
    hand.stage(FIND_OUT)
    assert (page(home).now.breaker, page(home).now.way) == (None, "lamp plugged in")


def test_a_breaker_that_is_removed_is_not_said_to_be_off(home, hand):
    hand.click_breaker(breaker(home))
    home.session.select((home.work.session.view.selected[0],))
    home.session.remove()
    hand.settle()

    assert page(home).now.breaker is None
    assert page(home).state.text().startswith("All as usual")


# --- mistakes ---------------------------------------------------------------------------------------------------------


def test_a_slip_of_the_hand_is_struck_whole(home, hand):
    hand.choose("Tested with", "Two-lead tester")
    hand.click_breaker(breaker(home))
    tick(hand, "Tester proved before", "Tester proved after", "Seen live before", "Seen live again")
    hand.click(*RECEPTACLE)
    press(hand, "dead")
    assert page(home).last.text() == "Recorded: B1: dead with 1 off."

    press(hand, "That was a slip: strike it")

    feed = home.session.home.boxes.rows[0].feeds()[0].id
    assert home.session.find_now().conclusions[feed].standing == "unknown"
    assert sum(isinstance(entry, Struck) for entry in home.session.home.log) == 3
    assert not page(home).slip.isVisible()


def test_what_was_seen_stands_in_the_form_and_is_struck_there_with_why(home, hand):
    hand.choose("Tested with", "Lamp plugged in")
    hand.click_breaker(breaker(home))
    hand.click(*RECEPTACLE)
    press(hand, "dead")
    hand.stage(DRAW)
    hand.click(*RECEPTACLE)
    told = f"{written(date.today().isoformat())}: dead with 1 off, lamp plugged in"
    assert hand.shown(QLabel, told)

    press(hand, f"Strike it… {told}")
    line = hand.shown(QLineEdit, "Why was it a mistake?")[0]
    QTest.keyClick(line, Qt.Key.Key_Return)
    assert "Say why" in hand.says()
    QTest.keyClicks(line, "the wrong half")
    QTest.keyClick(line, Qt.Key.Key_Return)
    hand.settle()

    assert home.session.home.log[-1].why == "the wrong half"
    assert hand.shown(QLabel, told)[0].font().strikeOut()
    assert hand.shown(QLabel, f"Struck, {written(date.today().isoformat())}: the wrong half")
    assert hand.shown(QPushButton, f"Count it again… {told}")


def test_of_a_long_history_the_rest_is_shown_when_asked_for(home, hand):
    hand.choose("Tested with", "Lamp plugged in")
    for _ in range(10):
        hand.click(*RECEPTACLE)
        press(hand, "live")
    told = f"{written(date.today().isoformat())}: live with all as usual, lamp plugged in"
    assert len(hand.shown(QLabel, told)) == 8

    press(hand, "2 more, older")

    assert len(hand.shown(QLabel, told)) == 10


def test_nothing_recorded_is_said_so(home, hand):
    hand.click(*RECEPTACLE)

    assert hand.shown(QLabel, "Nothing is recorded of it yet.")


# --- was the map wrong, or did the wiring change? ---------------------------------------------------------------------


@pytest.fixture
def tested(home, hand):
    """The same home, with the receptacle tied to 1 and seen dead with 1 off."""
    hand.stage(TIE)
    hand.click_breaker(breaker(home))
    hand.click(*RECEPTACLE)
    hand.stage(FIND_OUT)
    hand.choose("Tested with", "Lamp plugged in")
    hand.click_breaker(breaker(home))
    hand.click(*RECEPTACLE)
    press(hand, "dead")
    hand.stage(TIE)
    return home


def tie_to_the_other(window, hand):
    hand.click_breaker(breaker(window, 1))
    hand.click(*RECEPTACLE)


def test_an_edit_of_what_was_tested_is_asked_about_and_a_change_is_recorded(tested, hand):
    assert not tested.work.asking.isVisible()
    tie_to_the_other(tested, hand)
    assert "What was seen of B1" in tested.work.asking.words.text()

    press(hand, "The wiring changed")

    entry = tested.session.home.log[-1]
    assert isinstance(entry, Change)
    assert (entry.what, entry.boxes, entry.date) == (
        "rewired",
        (tested.session.home.boxes.rows[0].id,),
        date.today().isoformat(),
    )
    assert not tested.work.asking.isVisible()


def test_a_map_that_was_wrong_changes_nothing_in_the_log(tested, hand):
    before = tested.session.home.log
    tie_to_the_other(tested, hand)

    press(hand, "The map was wrong")

    assert tested.session.home.log is before
    assert not tested.work.asking.isVisible()


def test_an_edit_that_is_undone_is_asked_about_no_more(tested, hand):
    tie_to_the_other(tested, hand)
    assert tested.work.asking.isVisible()

    tested.session.undo()
    hand.settle()

    assert not tested.work.asking.isVisible()


def test_what_nobody_tested_is_not_asked_about(tested, hand):
    hand.click_breaker(breaker(tested, 1))
    hand.click(*SWITCHES)

    assert not tested.work.asking.isVisible()


# --- the house changed hands ------------------------------------------------------------------------------------------


def aging(window, hand):
    window.menus._ask_what_aged()
    return window.findChild(AgingDialog)


def test_a_house_that_changed_hands_says_how_much_expires_before_it_does(home, hand):
    hand.choose("Tested with", "Two-lead tester")
    hand.click_breaker(breaker(home))
    tick(hand, "Tester proved before", "Tester proved after", "Seen live before", "Seen live again")
    hand.click(*RECEPTACLE)
    press(hand, "dead")

    dialog = aging(home, hand)
    assert dialog.told.text() == "1 tested feed would expire."
    dialog.day.setText("last week")
    QTest.mouseClick(dialog.let_expire, LEFT)
    assert "year first" in dialog.refused.text()
    dialog.day.setText("2026-03-14")
    dialog.reasons["an electrician was here"].click()
    QTest.mouseClick(dialog.let_expire, LEFT)
    hand.settle()

    entry = home.session.home.log[-1]
    assert (entry.boxes, entry.panels, entry.date, entry.note) == ((), (), "2026-03-14", "An electrician was here.")
    feed = home.session.home.boxes.rows[0].feeds()[0].id
    assert home.session.findings.conclusions[feed].standing == "expired"


def test_who_thinks_better_of_it_changes_nothing(home, hand):
    before = home.session.home
    aging(home, hand).reject()

    assert home.session.home is before
