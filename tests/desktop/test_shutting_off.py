"""Shutting off in the window: boxes picked, handles flipped on the screen alone, and what was found written down."""

from datetime import date

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QPushButton

from floorplan_circuits.desktop.rail import DRAW, FIND_OUT, PANEL, SHUT_OFF, TIE
from floorplan_circuits.desktop.shut_off_page import ALL_ON
from floorplan_circuits.desktop.what_if_band import NOTHING_IS
from floorplan_circuits.drawing.palette import DARK
from floorplan_circuits.edits.breakers import set_breaker
from floorplan_circuits.edits.recording import record_opened, single_test
from floorplan_circuits.edits.ties import tie
from floorplan_circuits.find import shut_off, what_if
from floorplan_circuits.findings import Subject
from floorplan_circuits.gestures.selecting import SAYS as SELECT_SAYS
from floorplan_circuits.gestures.shutting_off import NOTHING_OFF, NOTHING_PICKED, SAYS
from floorplan_circuits.home.log import Change, Round
from floorplan_circuits.home.power import Found
from floorplan_circuits.home.resources import folder
from floorplan_circuits.reports.shutoff import dark_lines
from tests.desktop.hand import is_dark
from tests.desktop.robot_hand import draw_kitchen, press

LEFT, CONTROL = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.ControlModifier
COTTAGE = folder("sample_homes") / "cottage.json"
UPPER_WALL = 60
RECEPTACLE, SWITCHES, NOWHERE, NAME = (1000, UPPER_WALL), (2600, UPPER_WALL), (600, 2600), "Kitchen"


@pytest.fixture
def home(window, hand):
    """A kitchen with a receptacle on 1, tested and looked into, and two switches on 3, which only a person says."""
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
    hand.stage(TIE)
    hand.click_breaker(breaker(window))
    hand.click(*RECEPTACLE)
    session, (feed,) = window.session, boxes(window)[0].feeds()
    session.attempt(lambda now: tie(now, [boxes(window)[1].id], breaker(window, 1)))
    for one in session.home.breakers.ids():
        session.attempt(lambda now, one=one: set_breaker(now, one, opens="hot"))
    test = {"method": "two-lead tester", "live_before": True, "live_again": True, "tester_before": True}
    test |= {"tester_after": True, "date": "2026-03-14"}
    session.attempt(lambda now: single_test(now, breaker(window), feed.id, "dead", **test))
    session.attempt(lambda now: record_opened(now, boxes(window)[0].id, [("top", feed.id)], date="2026-03-14"))
    hand.settle()
    session.select(())
    return window


def boxes(window):
    return window.session.home.boxes.rows


def breaker(window, place=0):
    return window.session.home.breakers.rows[place].id


def page(window):
    return window.work.rail.shut_off_page


def told(window):
    """What the page tells, from its head down."""
    column = page(window)._told
    pieces = [column.itemAt(place).widget() for place in range(column.count())]
    return [label.text() for one in pieces for label in (one, *one.findChildren(QLabel)) if isinstance(label, QLabel)]


def worked_out(window, hand):
    """Wait until what is told is about what is picked and flipped now."""
    shutting = window.work.shutting
    hand.settle()

    def is_there():
        answer = shutting._answer
        return answer is not None and answer.question is shutting._asked

    hand.qtbot.waitUntil(is_there, timeout=5000)
    hand.settle()


def begin(window, hand):
    hand.stage(SHUT_OFF)
    worked_out(window, hand)
    heights = list[int]()

    def is_laid_out():
        heights.append(hand.canvas.height())
        return len(heights) > 3 and len(set(heights[-3:])) == 1

    hand.qtbot.waitUntil(is_laid_out, timeout=5000)


def pick(window, hand, at):
    hand.click(*at)
    worked_out(window, hand)


def flip(window, hand, place=0):
    hand.click_breaker(breaker(window, place))
    worked_out(window, hand)


# --- picking --------------------------------------------------------------------------------------------------------


def test_the_stage_asks_for_a_box_and_a_click_picks_one(home, hand):
    begin(home, hand)
    assert told(home) == [NOTHING_PICKED]
    assert hand.says() == SAYS

    pick(home, hand, RECEPTACLE)

    words = told(home)
    assert home.session.view.picked == (boxes(home)[0].id,)
    assert "B1, Kitchen" in words
    assert words[words.index("Turn off") + 2] == "B1: tested, on it"
    assert "B1: should be dead: test it" in words
    assert hand.says() == "To open B1 turn off 1, then test. On the screen alone they are off now."
    assert home.work.rail.buttons[SHUT_OFF].accessibleDescription() == "to open B1"


def test_what_is_told_is_what_the_shut_off_says(home, hand):
    begin(home, hand)
    pick(home, hand, RECEPTACLE)
    pick(home, hand, SWITCHES)

    plan = shut_off(home.session.find_now(), [box.id for box in boxes(home)])
    assert home.work.shutting._answer.plan == plan
    words = " ".join(told(home))
    for said in (*plan.unknown, *plan.stays_live, *(why for one in plan.off for why in one.because)):
        assert said in words


def test_a_second_click_takes_the_box_out_and_the_rooms_name_picks_all_in_it(home, hand):
    begin(home, hand)
    pick(home, hand, RECEPTACLE)
    pick(home, hand, RECEPTACLE)
    assert home.session.view.picked == ()
    assert told(home) == [NOTHING_PICKED]

    room = home.session.home.rooms.rows[0].id
    spot = hand.canvas.picture.spot(Subject("room", room), hand.canvas.camera.scale)
    pick(home, hand, ((spot[0] + spot[2]) / 2, (spot[1] + spot[3]) / 2))
    assert home.session.view.picked == tuple(box.id for box in boxes(home))


def test_what_is_selected_is_picked_when_the_stage_is_entered_and_kept_for_the_next_time(home, hand):
    hand.stage(DRAW)
    hand.click(*SWITCHES)
    QTest.keyClick(home, Qt.Key.Key_5, CONTROL)
    worked_out(home, hand)
    assert home.session.view.picked == (boxes(home)[1].id,)
    assert home.session.view.selected == ()

    hand.stage(DRAW)
    assert home.session.view.flipped == frozenset()
    begin(home, hand)
    assert home.session.view.picked == (boxes(home)[1].id,)
    assert home.session.view.flipped == {breaker(home, 1)}


def test_by_keys_a_box_selected_in_the_outline_is_picked_besides(home, hand):
    begin(home, hand)
    pick(home, hand, RECEPTACLE)
    home.work.go_to(Subject("box", boxes(home)[1].id))
    QTest.keyClick(home, Qt.Key.Key_5, CONTROL)
    worked_out(home, hand)
    assert home.session.view.picked == tuple(box.id for box in boxes(home))


def test_a_button_takes_one_out_and_escape_lets_go_of_all(home, hand):
    begin(home, hand)
    pick(home, hand, RECEPTACLE)
    pick(home, hand, SWITCHES)
    press(hand, "Take B1 out")
    worked_out(home, hand)
    assert home.session.view.picked == (boxes(home)[1].id,)

    hand.key(Qt.Key.Key_Escape)
    worked_out(home, hand)
    assert (home.session.view.picked, home.session.view.flipped) == ((), frozenset())
    assert home.work.band.words.text() == NOTHING_IS


def test_nothing_is_drawn_moved_typed_or_removed_while_shutting_off(home, hand):
    before = home.session.home
    begin(home, hand)
    pick(home, hand, RECEPTACLE)
    hand.drag(RECEPTACLE, (1500, UPPER_WALL))
    hand.write("n")
    hand.drag((500, 500), (1500, 1500))
    hand.key(Qt.Key.Key_Delete)
    hand.click_space(5)
    flip(home, hand)
    flip(home, hand, 1)
    worked_out(home, hand)

    assert home.session.home is before
    assert hand.fields() == []


def test_a_double_click_looks_inside_and_leaves_the_pick_as_it_was(home, hand):
    begin(home, hand)
    pick(home, hand, RECEPTACLE)
    at = hand.pixels(*RECEPTACLE) + QPoint(0, 5)
    QTest.mouseClick(hand.canvas, LEFT, pos=at)
    QTest.mouseDClick(hand.canvas, LEFT, pos=at)
    worked_out(home, hand)

    assert home.work.inside.is_open
    assert home.session.view.picked == (boxes(home)[0].id,)
    said = home.work.inside.page.canvas.accessibleDescription()
    assert "With 1 off" in said
    assert "So the box is: should be dead, test it." in said


# --- on the screen alone --------------------------------------------------------------------------------------------


def test_the_plan_and_the_panel_show_what_is_off_and_the_band_says_so(home, hand):
    begin(home, hand)
    pick(home, hand, RECEPTACLE)

    assert home.session.view.flipped == {breaker(home)}
    assert home.work.band.isVisible()
    assert home.work.band.words.text().startswith("With 1 off, on the screen alone")
    assert "should be dead: test it" in home.work.band.key.accessibleName()
    assert home.work.side.view._ringed == {Subject("breaker", breaker(home))}
    assert home.work.canvas.ringed == {Subject("box", boxes(home)[0].id)}
    shown = home.work.shutting.shown()
    assert shown == what_if(home.session.find_now(), {breaker(home)})


def test_a_flip_changes_the_picture_and_all_back_on_gives_it_back(home, hand):
    begin(home, hand)
    pictures = [hand.canvas.grab().toImage()]
    flip(home, hand)
    pictures.append(hand.canvas.grab().toImage())
    assert hand.says().startswith("1 is off. On the screen alone")
    press(hand, "All back on")
    worked_out(home, hand)
    pictures.append(hand.canvas.grab().toImage())

    assert pictures[0] != pictures[1]
    assert pictures[0] == pictures[2]
    assert home.work.band.words.text() == NOTHING_IS


def test_the_plan_holds_still_under_the_hand_while_handles_flip(home, hand):
    begin(home, hand)
    camera, height = hand.canvas.camera, hand.canvas.height()
    pick(home, hand, RECEPTACLE)
    flip(home, hand, 1)
    press(hand, "All back on")
    worked_out(home, hand)
    assert (hand.canvas.camera, hand.canvas.height()) == (camera, height)


def test_a_handle_flipped_by_hand_stays_until_another_box_is_picked(home, hand):
    begin(home, hand)
    pick(home, hand, RECEPTACLE)
    flip(home, hand)
    assert home.session.view.flipped == frozenset()
    assert ALL_ON in told(home)
    assert not any("should be dead" in words for words in told(home))

    press(hand, "Show these off")
    worked_out(home, hand)
    assert home.session.view.flipped == {breaker(home)}

    pick(home, hand, SWITCHES)
    assert home.session.view.flipped == {breaker(home), breaker(home, 1)}


def test_a_choice_beside_is_shown_on_the_plan(window, hand):
    assert window.open(COTTAGE)
    hand.settle()
    box = next(box for box in window.session.home.boxes if box.mark == "B1")
    window.session.select((Subject("box", box.id),))
    begin(window, hand)
    plan = window.work.shutting._answer.plan
    (main,) = next(iter(window.session.home.panels)).mains
    assert plan.choices[-1].handles == (main.id,)

    press(hand, "Show main off")
    worked_out(window, hand)

    assert window.session.view.flipped == {main.id}
    assert window.work.shutting.shown() == what_if(window.session.find_now(), {main.id})
    assert hand.shown(QPushButton, "Main: off")
    assert "With main off" in window.work.band.words.text()


def test_all_that_is_told_is_of_the_choice_that_is_shown_and_so_is_what_is_printed(window, hand):
    assert window.open(COTTAGE)
    hand.settle()
    box = next(box for box in window.session.home.boxes if box.mark == "B1")
    window.session.select((Subject("box", box.id),))
    begin(window, hand)
    findings, shutting = window.session.findings, window.work.shutting
    nearest, (main,) = told(window), next(iter(window.session.home.panels)).mains
    press(hand, "Show main off")
    assert shutting.chosen == {main.id}  # at once: whoever prints now gets the sheet of the main
    worked_out(window, hand)

    plan, words = shut_off(findings, (box.id,), frozenset({main.id})), told(window)
    assert [line for line in words if line.startswith("Goes dark")] == ["Goes dark with main off"]
    start = words.index("Goes dark with main off") + 1
    dark = list(dark_lines(plan.goes_dark))
    assert words[start : start + len(dark)] == dark
    assert words[words.index("Turn off") + 1].startswith("main (")
    assert hand.says() == f"To open {box.mark} turn off main, then test. On the screen alone they are off now."
    assert shutting.wanted() == {main.id}

    marks = " and ".join(findings.marks[handle] for handle in plan.choices[0].handles)
    press(hand, f"Show {marks} off")
    worked_out(window, hand)
    assert told(window) == nearest
    assert shutting.chosen == frozenset()


def test_a_choice_is_let_go_of_with_the_next_box(window, hand):
    assert window.open(COTTAGE)
    hand.settle()
    box, other = (next(box for box in window.session.home.boxes if box.mark == mark) for mark in ("B1", "B2"))
    window.session.select((Subject("box", box.id),))
    begin(window, hand)
    press(hand, "Show main off")
    worked_out(window, hand)
    window.work.shutting._pick((other.id,))
    assert window.work.shutting.chosen == frozenset()  # though nothing is worked out yet: main was for B1 alone


def test_a_main_is_flipped_by_its_button(window, hand):
    assert window.open(COTTAGE)
    hand.settle()
    assert hand.shown(QPushButton, "Main: on") == []
    begin(window, hand)
    press(hand, "Main: on")
    worked_out(window, hand)
    (main,) = next(iter(window.session.home.panels)).mains
    assert window.session.view.flipped == {main.id}
    press(hand, "Main: off")
    worked_out(window, hand)
    assert window.session.view.flipped == frozenset()


def test_what_was_found_off_is_said_to_stay_so(home, hand):
    one = breaker(home)
    home.session.attempt(lambda now: set_breaker(now, one, found=Found(state="off", why="old pump")))
    hand.settle()
    begin(home, hand)
    hand.click_breaker(one)
    assert hand.says() == "1 was found off (old pump): it stays as it was found."
    assert home.session.view.flipped == frozenset()


def test_pointing_at_a_box_says_what_it_would_be(home, hand):
    begin(home, hand)
    pick(home, hand, SWITCHES)
    hand.move(*NOWHERE)
    hand.move(SWITCHES[0], SWITCHES[1] + 30)
    assert hand.says().startswith("With 3 off: B2 not proved: treat as live")


def test_an_edit_takes_back_what_was_told_until_it_is_worked_out_anew(home, hand):
    begin(home, hand)
    pick(home, hand, RECEPTACLE)
    home.session.attempt(lambda now: set_breaker(now, breaker(home), wording="Counter"))
    assert home.work.shutting.shown() is None
    assert told(home) == ["Checking …"]
    assert home.work.band.words.text() == NOTHING_IS

    worked_out(home, hand)
    assert home.work.shutting.shown() is not None
    assert "B1: should be dead: test it" in told(home)


def test_a_box_that_is_removed_is_picked_no_more(home, hand):
    begin(home, hand)
    pick(home, hand, RECEPTACLE)
    pick(home, hand, SWITCHES)
    home.session.select((Subject("box", boxes(home)[0].id),))
    home.session.remove()
    worked_out(home, hand)
    assert home.session.view.picked == (boxes(home)[0].id,)
    assert not any("B1," in words for words in told(home))


def test_leaving_the_stage_or_opening_another_home_leaves_nothing_off(home, hand):
    begin(home, hand)
    pick(home, hand, RECEPTACLE)
    hand.stage(FIND_OUT)
    assert home.session.view.flipped == frozenset()
    assert home.work.shutting.shown() is None
    assert not home.work.band.isVisible()
    assert home.work.side.view._what_if is None

    begin(home, hand)
    home.may_leave = lambda: True
    assert home.open(COTTAGE)
    hand.settle()
    assert home.work.rail.stage == DRAW
    assert hand.says() == SELECT_SAYS
    assert home.session.view.picked == ()
    assert not home.work.band.isVisible()
    begin(home, hand)
    assert told(home) == [NOTHING_PICKED]


def test_in_the_dark_the_band_and_the_plan_are_dark(home, hand):
    home.choose_theme("dark")
    begin(home, hand)
    pick(home, hand, RECEPTACLE)
    assert home.work.band.key._theme is DARK
    image = home.work.band.grab().toImage()
    assert is_dark(image, image.width() - 2, image.height() - 2)


# --- afterwards -----------------------------------------------------------------------------------------------------


def answer(window, hand, *says, way="Two-lead tester"):
    """Open the form and answer for each feed, in its order."""
    form = page(window).afterwards
    if not form.isVisible():
        press(hand, "What I found…")
    hand.choose("How you tested", way)
    for choice, words in zip(form.answers.values(), says, strict=True):
        choice.setCurrentText(words)
    return form


def test_what_was_found_dead_is_one_round_and_proves_nothing(home, hand):
    begin(home, hand)
    pick(home, hand, SWITCHES)
    feeds = [feed.id for feed in boxes(home)[1].feeds()]
    form = answer(home, hand, *(["dead"] * len(feeds)))
    form.before.setChecked(True)
    form.after.setChecked(True)
    QTest.keyClicks(form.who, "owner")
    press(hand, "Record it")
    worked_out(home, hand)

    entry = home.session.home.log[-1]
    assert isinstance(entry, Round)
    assert (entry.off, entry.who, entry.date) == ((breaker(home, 1),), "owner", date.today().isoformat())
    assert [(one.feed, one.says) for one in entry.readings] == [(feed, "dead") for feed in feeds]
    assert "proved" not in {home.session.find_now().conclusions[feed].standing for feed in feeds}
    assert not page(home).stop.isVisibleTo(page(home))
    assert "B2: not proved: treat as live" in told(home)
    assert set(form.readings()) == set()


def test_found_live_says_stop_with_the_box_and_contradicts_the_map(home, hand):
    begin(home, hand)
    pick(home, hand, RECEPTACLE)
    answer(home, hand, "live")
    press(hand, "Record it")
    worked_out(home, hand)

    assert page(home).stop.text().startswith("Stop: B1 was found live with 1 off. Keep out of B1")
    (feed,) = boxes(home)[0].feeds()
    assert home.session.find_now().conclusions[feed.id].standing == "contradicted"
    assert "B1: unknown: treat as live" in told(home)
    assert not any("should be dead" in words for words in told(home))

    pick(home, hand, SWITCHES)
    assert page(home).stop.text() != ""
    pick(home, hand, RECEPTACLE)
    assert page(home).stop.text() == ""


def test_with_nothing_off_on_the_screen_nothing_is_written_down_but_live_says_stop(home, hand):
    begin(home, hand)
    pick(home, hand, RECEPTACLE)
    press(hand, "All back on")
    worked_out(home, hand)
    before = home.session.home
    answer(home, hand, "live")
    press(hand, "Record it")

    assert home.session.home is before
    assert hand.says() == NOTHING_OFF
    assert page(home).stop.text().startswith("Stop: B1 was found live.")


def test_answers_given_with_other_handles_off_are_not_written_down(home, hand):
    begin(home, hand)
    pick(home, hand, RECEPTACLE)
    form = answer(home, hand, "dead")
    form.before.setChecked(True)
    flip(home, hand, 1)
    assert form.readings() == ()
    assert not form.before.isChecked()
    assert form.state.text() == "With 1 and 3 off"


def test_something_changed_expires_what_was_tested(home, hand):
    begin(home, hand)
    pick(home, hand, RECEPTACLE)
    press(hand, "What I found…")
    hand.choose("What changed", "Cover plates mixed up")
    press(hand, "Something changed")
    worked_out(home, hand)

    entry = home.session.home.log[-1]
    assert isinstance(entry, Change)
    assert (entry.what, entry.boxes) == ("plates mixed up", (boxes(home)[0].id,))
    (feed,) = boxes(home)[0].feeds()
    assert home.session.find_now().conclusions[feed.id].standing == "expired"
    assert "B1: unknown: treat as live" in told(home)


def test_the_form_says_what_a_weak_way_of_testing_cannot_show(home, hand):
    begin(home, hand)
    pick(home, hand, RECEPTACLE)
    form = answer(home, hand, "dead", way="Non-contact tester")
    assert "never proves dead" in form.cannot.text()


def test_a_pan_of_the_plan_picks_nothing(home, hand):
    begin(home, hand)
    middle = QPointF(hand.pixels(*NOWHERE)).toPoint()
    QTest.mousePress(hand.canvas, Qt.MouseButton.MiddleButton, pos=middle)
    QTest.mouseRelease(hand.canvas, Qt.MouseButton.MiddleButton, pos=middle)
    hand.click(*NOWHERE)
    assert home.session.view.picked == ()
    assert hand.says() == SAYS
