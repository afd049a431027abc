"""The session: one edit at a time, each said; findings that follow; nothing lost."""

import pytest

from floorplan_circuits.desktop import copying
from floorplan_circuits.desktop.session import Session
from floorplan_circuits.edits.boxes import put_device
from floorplan_circuits.edits.rooms import add_room
from floorplan_circuits.edits.starting import new_home
from floorplan_circuits.files.open import Stored, open_home
from floorplan_circuits.findings import Subject
from floorplan_circuits.gestures.drawing_rooms import DrawRoom
from floorplan_circuits.gestures.events import Key, Move, Press, Release
from floorplan_circuits.gestures.selecting import Select
from floorplan_circuits.home.resources import folder

SQUARE = ((0, 0), (4000, 0), (4000, 3000), (0, 3000))


@pytest.fixture
def session(qtbot):
    session = Session(Stored(new_home("House by the ford"), {}, False, ""), None)
    session.heard = []
    session.said.connect(session.heard.append)
    yield session
    qtbot.waitUntil(lambda: session.findings is not None and session.findings.home is session.home, timeout=5000)


def room(session):
    return session.attempt(lambda home: add_room(home, session.view.level, SQUARE, "Kitchen"))


def test_an_edit_is_said_and_its_findings_follow(session, qtbot):
    with qtbot.waitSignal(session.edited):
        room(session)

    qtbot.waitUntil(lambda: session.findings is not None and session.findings.home is session.home)
    assert session.heard[-1] == "Done: draw Kitchen."
    assert len(session.findings.walls) == 4


def test_a_refused_edit_is_said_and_leaves_the_very_home(session):
    before = session.home
    edited = session.attempt(lambda home: add_room(home, session.view.level, ((0, 0), (0, 0), (1, 1))))

    assert edited is None
    assert session.home is before
    assert "corners" in session.heard[-1]


def test_undo_and_redo_give_back_the_very_homes_and_say_what(session):
    first = session.home
    room(session)
    second = session.home
    session.undo()
    assert session.home is first
    assert session.heard[-1] == "Undone: Draw Kitchen."
    session.redo()
    assert session.home is second
    session.undo()
    session.undo()
    assert session.heard[-1] == "Nothing to undo."


def test_what_is_gone_is_no_longer_selected(session):
    room(session)
    session.select((Subject("room", session.home.rooms.ids()[0]),))
    session.undo()

    assert session.view.selected == ()


def test_a_gesture_makes_one_edit_and_asks_for_the_name(session, qtbot):
    session.take(DrawRoom())
    with qtbot.waitSignal(session.name_wanted) as asked:
        for event in (Press((0, 0)), Move((2000, 1500), held=True), Release((4000, 3000))):
            session.step(event, 100)

    assert len(session.history.past) == 1
    assert asked.args == [Subject("room", session.home.rooms.ids()[0])]


def test_escape_drops_the_draft_and_leaves_the_home(session):
    before = session.home
    session.take(DrawRoom())
    session.step(Press((0, 0)), 100)
    session.step(Release((0, 0)), 100)
    session.step(Move((3000, 0)), 100)
    assert session.view.draft is not None
    session.step(Key("escape"), 100)
    session.step(Key("escape"), 100)

    assert session.home is before
    assert isinstance(session.tool, Select)


def test_a_file_of_a_newer_program_is_read_not_changed(qtbot):
    home = open_home(folder("sample_homes") / "flat.json").home
    session = Session(Stored(home, {}, True, "newer"), None)
    heard = []
    session.said.connect(heard.append)
    session.attempt(lambda now: put_device(now, session.view.level, (100, 100), 90, "switch"))

    assert session.home is home
    assert "not changed" in heard[-1]
    qtbot.waitUntil(lambda: session.findings is not None, timeout=5000)


def test_copies_get_new_marks_and_nobody_knows_what_they_hang_on(session):
    room(session)
    session.attempt(lambda home: put_device(home, session.view.level, (1000, 0), 90, "duplex receptacle"))
    session.select((Subject("box", session.home.boxes.ids()[0]),))
    assert copying.copy(session)
    copying.paste(session)

    assert [box.mark for box in session.home.boxes] == ["B1", "B2"]
    assert session.view.selected == (Subject("box", session.home.boxes.ids()[1]),)


def test_findings_asked_for_now_are_about_the_home_as_it_is(session):
    room(session)

    assert session.find_now().home is session.home


def test_saving_makes_it_the_home_of_that_file(session, tmp_path):
    room(session)
    assert not session.is_saved
    session.save(tmp_path / "ford.json")

    assert session.is_saved
    assert open_home(tmp_path / "ford.json").home == session.home
