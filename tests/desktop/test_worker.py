"""The worker: the newest request is answered, with the very findings a direct call gives."""

from threading import Event
from threading import enumerate as threads

import pytest
import shiboken6
from pytestqt.qtbot import QtBot

import floorplan_circuits.find as finding
from floorplan_circuits.desktop.worker import Finder
from floorplan_circuits.findings import Findings, Layer
from floorplan_circuits.home.home import Home


def workers() -> list[str]:
    """Return the names of the threads at work on findings."""
    return [thread.name for thread in threads() if thread.name == "findings"]


@pytest.fixture
def finder(qtbot: QtBot) -> Finder:
    return Finder()


def test_the_answer_is_what_a_direct_call_finds(finder: Finder, qtbot: QtBot, cottage: Findings) -> None:
    with qtbot.waitSignal(finder.found) as found:
        finder.ask(cottage.home)
    assert found.args == [finding.find(cottage.home)]
    assert found.args[0].home is cottage.home


def test_what_is_carried_over_changes_nothing(finder: Finder, qtbot: QtBot, cottage: Findings) -> None:
    first = cottage.home.boxes.rows[0]
    moved = cottage.home.changed(boxes=cottage.home.boxes.put(first.changed(at=(0, 0))))
    answers = []
    for home in (cottage.home, moved, cottage.home):
        with qtbot.waitSignal(finder.found) as found:
            finder.ask(home)
        answers += found.args
    assert answers == [finding.find(home) for home in (cottage.home, moved, cottage.home)]


def test_the_newest_request_wins(finder: Finder, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    begun, go_on = Event(), Event()
    find, asked = finding.find, list[str]()

    def slow(home: Home, before: Findings | None = None, layer: Layer = "both") -> Findings:
        asked.append(home.name)
        begun.set()
        assert go_on.wait(5)
        return find(home, before)

    monkeypatch.setattr(finding, "find", slow)
    answers: list[str] = []
    finder.found.connect(lambda found: answers.append(found.home.name))
    finder.ask(Home(name="first"))
    assert begun.wait(5)
    for name in ("second", "third", "last"):
        finder.ask(Home(name=name))
    go_on.set()
    qtbot.waitUntil(lambda: bool(answers))
    assert asked == ["first", "last"]
    assert answers == ["last"]


def test_no_thread_is_left_when_all_is_answered(finder: Finder, qtbot: QtBot) -> None:
    for name in ("one", "two"):
        with qtbot.waitSignal(finder.found):
            finder.ask(Home(name=name))
        qtbot.waitUntil(lambda: workers() == [])


@pytest.mark.filterwarnings("ignore::pytest.PytestUnhandledThreadExceptionWarning")  # planted here
def test_a_request_that_fails_does_not_silence_the_next(
    finder: Finder, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(home: Home, before: Findings | None = None, layer: Layer = "both") -> Findings:
        raise ArithmeticError("planted")

    with monkeypatch.context() as planted:
        planted.setattr(finding, "find", fails)
        finder.ask(Home(name="bad"))
        qtbot.waitUntil(lambda: workers() == [])
    with qtbot.waitSignal(finder.found, timeout=2000) as found:
        finder.ask(Home(name="good"))
    assert found.args[0].home.name == "good"


def test_findings_for_a_home_closed_meanwhile_are_let_go(
    finder: Finder, cottage: Findings, monkeypatch: pytest.MonkeyPatch
) -> None:
    began, go_on = Event(), Event()

    def slow(home: Home, before: Findings | None, layer: str) -> Findings:
        began.set()
        assert go_on.wait(5)
        return cottage

    monkeypatch.setattr(finding, "find", slow)
    finder.ask(cottage.home)
    assert began.wait(5)
    (thread,) = (one for one in threads() if one.name == "findings")
    shiboken6.delete(finder)
    go_on.set()
    thread.join(5)
    assert not thread.is_alive()
