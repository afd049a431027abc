"""Worksheet and page for a phone written from the window, and their answers pasted or taken from a file there."""

import pytest
from PySide6.QtWidgets import QLabel, QPushButton

from floorplan_circuits.desktop.rail import FIND_OUT
from floorplan_circuits.home.resources import folder
from floorplan_circuits.rounds.answers import Answered, Answers, answers_text


@pytest.fixture
def taking(window, hand):
    window.open(folder("sample_homes") / "cottage.json")
    hand.settle()
    hand.stage(FIND_OUT)
    return window.work.taking


def plan_now(window):
    return window.work.guiding.wanted.plan(window.session.find_now())


def all_live(plan, nth: int = 0) -> str:
    readings = tuple((feed, "live") for feed in plan.feeds)
    return answers_text(plan, Answers("2026-03-14", "Kim", "lamp plugged in", (Answered(nth, (), readings),)))


def words_on(window) -> str:
    return "\n".join(label.text() for label in window.work.guiding.page.findChildren(QLabel))


def test_a_menu_offers_paper_phone_and_the_way_back(window, taking) -> None:
    menu = window.work.rail.find_out_page.elsewhere.menu()
    assert [action.text().split(" ")[0] for action in menu.actions()] == ["Worksheet", "Page", "Take"]


def test_a_worksheet_and_a_page_for_a_phone_are_written_with_the_code_of_the_plan(window, taking, tmp_path) -> None:
    taking.write_worksheet(tmp_path / "rounds.pdf")
    taking.write_phone_page(tmp_path / "rounds.html")
    assert (tmp_path / "rounds.pdf").read_bytes().startswith(b"%PDF")
    told = all_live(plan_now(window)).splitlines()[0].removeprefix("plan ")
    assert told in (tmp_path / "rounds.html").read_text(encoding="utf-8")
    assert told in window.work.status.text()


def test_what_cannot_be_written_is_said_and_the_home_is_never_written_over(window, taking, tmp_path) -> None:
    before = window.session.path.read_bytes()
    taking.write_phone_page(window.session.path)
    assert "the home itself" in window.work.status.text()
    assert window.session.path.read_bytes() == before
    taking.write_worksheet(tmp_path / "no folder" / "rounds.pdf")
    assert "can't be written" in window.work.status.text()


def test_pasted_answers_are_one_edit_and_the_guide_goes_on_from_them(window, hand, taking) -> None:
    window.work.rail.find_out_page.elsewhere.menu().actions()[2].trigger()
    before, plan = window.session.home, plan_now(window)
    taking.pasted.setPlainText(all_live(plan))
    press(window, "Take these answers")
    hand.settle()
    assert len(window.session.home.log) == len(before.log) + 1
    assert window.work.guiding.is_open
    assert "The guide goes on" in window.work.status.text()


def test_answers_of_a_plan_written_here_are_taken_whatever_was_recorded_since(window, hand, taking, tmp_path) -> None:
    taking.write_phone_page(tmp_path / "rounds.html")
    plan = plan_now(window)
    taking.show()
    taking.take(all_live(plan))
    hand.settle()
    taking.take(all_live(plan, 1 + len(plan.rounds)))
    hand.settle()
    assert len({entry.note for entry in window.session.home.log[-2:]}) == 2


def test_what_does_not_fit_is_told_where_it_was_pasted_and_nothing_is_taken(window, taking, tmp_path) -> None:
    taking.show()
    before = window.session.home
    taking.pasted.setPlainText("plan ZZZZZZ\n0 ll")
    press(window, "Take these answers")
    assert taking.pasted.toPlainText() == "plan ZZZZZZ\n0 ll"
    assert "These answers are of plan ZZZZZZ" in words_on(window)
    (tmp_path / "odd.txt").write_bytes(b"\xff\xfe\x00")
    taking.take_file(tmp_path / "odd.txt")
    assert "can’t be read as text" in words_on(window)
    assert window.session.home is before


def test_a_file_of_answers_is_taken(window, hand, taking, tmp_path) -> None:
    taking.show()
    (tmp_path / "answers.txt").write_text(all_live(plan_now(window)), encoding="utf-8")
    before = len(window.session.home.log)
    taking.take_file(tmp_path / "answers.txt")
    hand.settle()
    assert len(window.session.home.log) == before + 1


def press(window, words: str) -> None:
    button = next(one for one in window.findChildren(QPushButton) if one.isVisible() and one.text().startswith(words))
    button.click()
