"""The worker of the shut-off: the newest question is answered, with what a direct call gives."""

from threading import Event

import pytest
from pytestqt.qtbot import QtBot

import floorplan_circuits.find as finding
from floorplan_circuits.desktop.cutter import Answer, Cutter, Question, worked_out
from floorplan_circuits.findings import Findings, ShutOff


def first_boxes(cottage: Findings, count: int) -> tuple[int, ...]:
    return tuple(list(cottage.boxes)[:count])


def test_the_answer_is_what_a_direct_call_finds(qtbot: QtBot, cottage: Findings) -> None:
    cutter, boxes = Cutter(), first_boxes(cottage, 2)
    with qtbot.waitSignal(cutter.worked_out) as told:
        cutter.ask(Question(cottage, boxes, None))
    (answer,) = told.args
    plan = finding.shut_off(cottage, boxes)
    off = frozenset(handle for one in plan.off for handle in one.handles)
    assert (answer.plan, answer.flipped, answer.shown) == (plan, off, finding.what_if(cottage, off))


def test_handles_that_the_hand_flipped_are_left_as_they_are(cottage: Findings) -> None:
    handle = cottage.home.breakers.ids()[0]
    answer = worked_out(Question(cottage, first_boxes(cottage, 1), frozenset({handle})))
    assert answer.flipped == {handle}
    assert answer.shown == finding.what_if(cottage, {handle})
    assert answer.plan == finding.shut_off(cottage, first_boxes(cottage, 1))


def test_with_nothing_picked_and_nothing_flipped_there_is_nothing_to_tell(cottage: Findings) -> None:
    question = Question(cottage, (), None)
    assert worked_out(question) == Answer(question, None, frozenset(), None, None)


def test_a_shut_off_is_not_worked_out_again_for_another_flip(
    cottage: Findings, monkeypatch: pytest.MonkeyPatch
) -> None:
    boxes = first_boxes(cottage, 1)
    last = worked_out(Question(cottage, boxes, None))

    def never(findings: Findings, boxes: object) -> ShutOff:
        raise AssertionError("it is known already")

    monkeypatch.setattr(finding, "shut_off", never)
    again = worked_out(Question(cottage, boxes, frozenset()), last)
    assert (again.plan, again.shown) == (last.plan, None)
    with pytest.raises(AssertionError):
        worked_out(Question(cottage, first_boxes(cottage, 2), None), last)


def test_the_newest_question_wins(qtbot: QtBot, cottage: Findings, monkeypatch: pytest.MonkeyPatch) -> None:
    begun, go_on, work = Event(), Event(), finding.shut_off

    def slow(findings: Findings, boxes: tuple[int, ...]) -> ShutOff:
        begun.set()
        assert go_on.wait(5)
        return work(findings, boxes)

    monkeypatch.setattr(finding, "shut_off", slow)
    cutter, answers = Cutter(), list[tuple[int, ...]]()
    cutter.worked_out.connect(lambda answer: answers.append(answer.question.picked))
    picks = [first_boxes(cottage, count) for count in (1, 2, 3, 4)]
    cutter.ask(Question(cottage, picks[0], None))
    assert begun.wait(5)
    for boxes in picks[1:]:
        cutter.ask(Question(cottage, boxes, None))
    go_on.set()
    qtbot.waitUntil(lambda: bool(answers), timeout=5000)
    assert answers == [picks[-1]]
