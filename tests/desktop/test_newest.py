"""Work off the window's thread: one piece at a time, only the newest of those that wait, whatever fails."""

from threading import Event, Thread
from threading import enumerate as threads
from time import monotonic, sleep

import pytest

from floorplan_circuits.desktop.newest import Newest


def running(name: str) -> list[Thread]:
    return [thread for thread in threads() if thread.name == name]


def wait_until_ended(name: str) -> None:
    ends = monotonic() + 5
    while running(name):
        assert monotonic() < ends
        sleep(0.001)


def test_of_the_requests_that_wait_only_the_newest_is_done() -> None:
    newest, begun, go_on, done = Newest("waiting", daemon=True), Event(), Event(), list[str]()

    def first() -> None:
        begun.set()
        assert go_on.wait(5)
        done.append(f"first, overtaken: {newest.is_overtaken()}")

    newest.ask(first)
    assert begun.wait(5)
    assert not newest.is_overtaken()
    for name in ("second", "third", "last"):
        newest.ask(lambda name=name: done.append(name))  # type: ignore[misc]
    assert len(running("waiting")) == 1
    go_on.set()
    wait_until_ended("waiting")
    assert done == ["first, overtaken: True", "last"]


def test_stopping_waits_for_the_piece_at_hand_and_drops_the_next() -> None:
    newest, begun, done = Newest("stopped", daemon=True), Event(), list[str]()

    def slow() -> None:
        begun.set()
        sleep(0.05)
        done.append("at hand")

    newest.ask(slow)
    assert begun.wait(5)
    newest.ask(lambda: done.append("next"))
    newest.stop()
    assert done == ["at hand"]
    assert running("stopped") == []


@pytest.mark.filterwarnings("ignore::pytest.PytestUnhandledThreadExceptionWarning")  # planted here
def test_work_that_fails_does_not_silence_the_next() -> None:
    newest, done = Newest("failing", daemon=True), Event()

    def fails() -> None:
        raise ArithmeticError("planted")

    newest.ask(fails)
    wait_until_ended("failing")
    newest.ask(done.set)
    assert done.wait(5)
