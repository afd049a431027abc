"""The window: homes opened, saved, left and rescued; every tool reached by mouse and by keys."""

from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QDropEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit, QMessageBox, QPushButton

import floorplan_circuits.find as finding
from floorplan_circuits.desktop import copying
from floorplan_circuits.desktop.kind_palette import COMMON
from floorplan_circuits.desktop.rail import DRAW, PANEL, SHUT_OFF, TIE
from floorplan_circuits.drawing.ink import flat
from floorplan_circuits.drawing.palette import DARK
from floorplan_circuits.edits.boxes import put_device
from floorplan_circuits.edits.moving import move
from floorplan_circuits.files.open import open_home
from floorplan_circuits.files.rescue import list_rescues, write_rescue
from floorplan_circuits.find import find
from floorplan_circuits.findings import Subject
from floorplan_circuits.gestures.drawing_rooms import DrawRoom
from floorplan_circuits.gestures.putting import PutDevice
from floorplan_circuits.gestures.selecting import Select
from floorplan_circuits.gestures.step import BUILDING_KEYS
from floorplan_circuits.gestures.tying import TieDevices
from floorplan_circuits.home.resources import folder
from tests.desktop.robot_hand import draw_kitchen

LEFT, CONTROL = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.ControlModifier
COTTAGE = folder("sample_homes") / "cottage.json"


@pytest.fixture
def opened(window, hand):
    """The window with the cottage open in it."""
    assert window.open(COTTAGE)
    hand.settle()
    return window


@pytest.fixture
def drawn(window, hand):
    """The window with a new home of one room."""
    draw_kitchen(window, hand)
    return window


@pytest.mark.filterwarnings("ignore::pytest.PytestUnhandledThreadExceptionWarning")
@pytest.mark.parametrize("stage", [DRAW, TIE, SHUT_OFF])
def test_where_nothing_could_be_worked_out_nothing_older_is_shown(opened, hand, monkeypatch, qtbot, stage):
    work, session = opened.work, opened.session
    work.staging.show(stage)
    hand.settle()
    box = session.home.boxes.rows[0]

    def fails(home, before=None, layer="both"):
        raise ArithmeticError("planted")

    with monkeypatch.context() as planted:
        planted.setattr(finding, "find", fails)
        session.attempt(lambda home: move(home, [box.id], (10, 0)))
        qtbot.waitUntil(lambda: "treat everything as live" in work.status.text())
        assert session.findings is None
        assert work.canvas.picture is None
        assert work.below.list.model().rowCount() == 0
        assert "treat everything as live" in work.below.empty.text()
        assert work.shutting.shown() is None
    session.undo()
    hand.settle()
    assert session.findings.home is session.home
    assert work.canvas.picture is not None
    assert work.below.list.model().rowCount() > 0
    assert "treat everything as live" not in work.below.empty.text()


# --- opening ----------------------------------------------------------------------------------------------------------


def test_the_first_page_opens_a_sample(window, hand):
    button = hand.shown(QPushButton, "Cottage")[0]
    QTest.mouseClick(button, LEFT)
    hand.settle()

    assert window.session.home.name == "Cottage at Alder Bend"
    assert window.work.below.list.model().rowCount() == sum(one.listed for one in window.session.findings.hazards) > 0


def test_a_file_that_is_no_home_leaves_the_open_one_and_says_why(opened, hand, tmp_path, monkeypatch):
    shown = []
    monkeypatch.setattr(QMessageBox, "open", lambda box: shown.append(box.text()))
    broken = tmp_path / "broken.json"
    broken.write_text('{"format": "floorplan-circuits 1.0", "rooms": [')

    assert not opened.open(broken)
    assert opened.session.home.name == "Cottage at Alder Bend"
    assert "broken.json" in shown[0]


def test_a_file_dropped_on_the_window_opens(window, hand):
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(COTTAGE))])
    event = QDropEvent(
        QPointF(10, 10), Qt.DropAction.CopyAction, data, LEFT, Qt.KeyboardModifier.NoModifier, QEvent.Type.Drop
    )
    window.dropEvent(event)
    hand.settle()

    assert window.session.path == COTTAGE


def test_homes_opened_and_saved_are_remembered_the_newest_first(opened, hand, tmp_path):
    assert opened.save_to(tmp_path / "copy.json")

    assert [path.name for path in opened.files.recent()] == ["copy.json", "cottage.json"]


# --- leaving ----------------------------------------------------------------------------------------------------------


def answer_with(monkeypatch, button):
    asked = []

    def execute(box):
        asked.append(box.text())
        return button

    monkeypatch.setattr(QMessageBox, "exec", execute)
    return asked


def test_unsaved_work_is_asked_about_and_cancel_keeps_the_window(drawn, monkeypatch):
    asked = answer_with(monkeypatch, QMessageBox.StandardButton.Cancel)

    assert not drawn.close()
    assert "House by the ford" in asked[0]
    assert drawn.isVisible()


def test_nothing_is_asked_when_everything_is_saved(opened, monkeypatch):
    asked = answer_with(monkeypatch, QMessageBox.StandardButton.Cancel)

    assert opened.may_leave()
    assert asked == []


def test_saving_when_asked_writes_the_file(drawn, hand, tmp_path, monkeypatch):
    drawn.save_to(tmp_path / "ford.json")
    hand.write("n")
    hand.drag((4000, 0), (6000, 3000))
    hand.answer("Hall")
    answer_with(monkeypatch, QMessageBox.StandardButton.Save)

    assert drawn.may_leave()
    assert [room.name for room in open_home(tmp_path / "ford.json").home.rooms] == ["Kitchen", "Hall"]


def test_a_home_that_cannot_be_saved_is_said_and_stays_unsaved(drawn, tmp_path, monkeypatch):
    shown = []
    monkeypatch.setattr(QMessageBox, "open", lambda box: shown.append(box.text()))

    assert not drawn.save_to(tmp_path / "no such folder" / "ford.json")
    assert not drawn.session.is_saved
    assert "ford.json" in shown[0]


# --- rescue -----------------------------------------------------------------------------------------------------------


def test_an_edit_is_rescued_and_a_save_drops_the_copy(drawn, hand, qtbot, tmp_path):
    rescues = drawn.rescuer.folder
    qtbot.waitUntil(lambda: bool(list_rescues(rescues)), timeout=2000)
    drawn.save_to(tmp_path / "ford.json")

    assert list_rescues(rescues) == ()


def test_a_copy_left_by_a_crash_is_offered_and_gone_on_with(window, hand):
    home = open_home(COTTAGE).home
    write_rescue(window.rescuer.folder, home, None)
    window.show_first_page()
    QTest.mouseClick(hand.shown(QPushButton, "Go on with a new home")[0], LEFT)
    hand.settle()

    assert window.session.home == home
    assert not window.session.is_saved


def test_a_copy_that_nobody_wants_is_dropped(window, hand):
    write_rescue(window.rescuer.folder, open_home(COTTAGE).home, None)
    window.show_first_page()
    QTest.mouseClick(hand.shown(QPushButton, "Drop the copy")[0], LEFT)

    assert list_rescues(window.rescuer.folder) == ()


# --- one test a tool: mouse and keys reach it -------------------------------------------------------------------------


def cell(window, words):
    palette = window.work.rail.palette_page
    return next(button for button in palette._group.buttons() if button.text() == words)


def test_all_tools_and_a_dozen_kinds_stay_in_sight_while_a_form_is_open_at_the_design_size(drawn, hand):
    palette, session = drawn.work.rail.palette_page, drawn.session
    session.attempt(lambda home: put_device(home, session.view.level, (1000, 0), 90, "switch"))
    session.select((Subject("box", session.home.boxes.rows[-1].id),))
    for _ in range(3):
        QApplication.processEvents()

    seen = [one for one in palette._group.buttons() if not one.visibleRegion().isEmpty()]
    whole = [one.tool for one in seen if one.visibleRegion().boundingRect().size() == one.size()]
    assert (drawn.width(), drawn.height()) == (1280, 800)
    assert [PutDevice(kind) for kind in COMMON] == [tool for tool in whole if isinstance(tool, PutDevice)][:12]
    assert {type(tool) for tool in BUILDING_KEYS.values()} <= {type(tool) for tool in whole}
    assert all(min(one.width(), one.height()) >= 24 for one in seen)  # LOOK: a target is never smaller


def test_a_kind_that_was_used_comes_into_the_first_dozen_and_the_others_keep_their_places(drawn, hand):
    palette = drawn.work.rail.palette_page

    def kinds():
        return [one.tool.kind for one in palette._group.buttons() if isinstance(one.tool, PutDevice)]

    before = kinds()
    hand.take_kind("doorbell")
    palette.search.clear()
    hand.key(Qt.Key.Key_R)

    after = kinds()
    assert "doorbell transformer" in after[:12]
    assert sorted(after) == sorted(before)
    assert sum(one != other for one, other in zip(before[:12], after[:12], strict=True)) == 1
    assert before[11] not in after[:12]


@pytest.mark.parametrize(("words", "letter", "kind"), [("room", "n", DrawRoom), ("receptacle", "r", PutDevice)])
def test_a_drawing_tool_is_taken_by_its_cell_and_by_its_key(drawn, hand, words, letter, kind):
    QTest.mouseClick(cell(drawn, words), LEFT)
    assert isinstance(drawn.session.tool, kind)
    hand.key(Qt.Key.Key_Escape)
    assert isinstance(drawn.session.tool, Select)
    hand.write(letter)
    assert isinstance(drawn.session.tool, kind)


def test_the_tie_tool_is_taken_by_its_stage_and_by_its_key(drawn, hand):
    hand.stage(TIE)
    assert isinstance(drawn.session.tool, TieDevices)
    hand.stage(DRAW)
    hand.write("c")
    assert isinstance(drawn.session.tool, TieDevices)


def test_a_room_is_drawn_by_a_typed_width_and_depth(drawn, hand):
    hand.write("n")
    hand.press(4000, 0)
    hand.move(5000, 500, held=True)
    hand.write("2.5x3")
    hand.key(Qt.Key.Key_Return)
    hand.answer("Hall")

    assert drawn.session.home.rooms.rows[-1].outline == ((4000, 0), (6500, 0), (6500, 3000), (4000, 3000))


def test_escape_drops_a_room_half_drawn(drawn, hand):
    before = drawn.session.home
    hand.write("n")
    hand.click(5000, 500)
    hand.click(7000, 500)
    assert drawn.session.view.draft is not None
    hand.key(Qt.Key.Key_Escape)

    assert drawn.session.home is before
    assert drawn.session.view.draft is None or not drawn.session.view.draft.lines


def test_a_box_is_selected_moved_nudged_copied_and_removed(drawn, hand):
    hand.write("r")
    hand.click(1000, 60)
    hand.key(Qt.Key.Key_Escape)
    box = drawn.session.home.boxes.rows[0]
    hand.drag((1000, 50), (2400, 20))
    moved = drawn.session.home.boxes[box.id].at
    assert abs(moved[0] - 2400) <= 60
    assert moved[1] == 0
    hand.click(moved[0], 50)
    hand.key(Qt.Key.Key_Right)
    hand.key(Qt.Key.Key_Right)
    assert drawn.session.home.boxes[box.id].at == (moved[0] + 20, 0)
    drawn.session.undo()  # nudges merge
    assert drawn.session.home.boxes[box.id].at == moved
    copying.copy(drawn.session)
    copying.paste(drawn.session)
    hand.settle()
    assert [one.mark for one in drawn.session.home.boxes] == ["B1", "B2"]
    hand.key(Qt.Key.Key_Delete)
    assert [one.mark for one in drawn.session.home.boxes] == ["B1"]


def test_a_marquee_selects_every_box_inside(opened, hand):
    hand.drag((-400, -400), (11500, 9500))

    selected = {one.id for one in opened.session.view.selected if one.kind == "box"}
    assert selected == {box.id for box in opened.session.home.boxes if box.at is not None}


def test_a_refused_edit_says_why_and_changes_nothing(drawn, hand):
    before = drawn.session.home
    hand.write("n")
    hand.drag((5000, 0), (5020, 3000))

    assert drawn.session.home is before
    assert hand.says() == "A room needs at least three corners that are apart."


def test_a_room_is_named_in_place_by_a_double_click(drawn, hand):
    room = drawn.session.home.rooms.rows[0]
    hand.key(Qt.Key.Key_Escape)
    hand.click(3000, 2400)
    QTest.mouseDClick(hand.canvas, LEFT, Qt.KeyboardModifier.NoModifier, hand.pixels(3000, 2400))
    hand.answer("Scullery")

    assert drawn.session.home.rooms[room.id].name == "Scullery"


def test_typing_down_the_panel_stops_at_a_taken_space_with_a_sentence(drawn, hand):
    hand.stage(PANEL)
    QTest.mouseClick(hand.shown(QPushButton, "Add the panel")[0], LEFT)
    hand.settle()
    hand.click_space(3)
    hand.answer("20 plugs")
    hand.leave_field()
    hand.click_space(1)
    hand.answer("30/2 dryer")

    assert "taken" in hand.says()
    assert len(drawn.session.home.breakers) == 1


def test_pointing_at_a_breaker_lights_what_it_feeds(opened, hand):
    breaker = next(one for one, mark in opened.session.findings.marks.items() if mark == "5")
    hand.click_breaker(breaker)

    fed = {one.box for one in opened.session.findings.conclusions.values() if breaker in one.breakers}
    assert {one.id for one in opened.work.canvas.lit} == fed


def test_choosing_a_hazard_goes_to_its_box(opened, hand):
    hazard = opened.session.findings.hazards[2]
    opened.work.hazard_rows.go_to(hazard)
    box = opened.session.home.boxes[hazard.box]

    shown = opened.work.canvas.to_pixels(QPointF(*box.at))
    assert opened.work.canvas.rect().contains(shown.toPoint())
    assert opened.session.view.selected == (Subject("box", box.id),)


def test_the_outline_reaches_everything_by_keys(opened, hand):
    QTest.keyClick(opened, Qt.Key.Key_F6)
    hand.settle()
    items = opened.outline._items()
    subjects = {item.data(0, Qt.ItemDataRole.UserRole) for item in items}
    home = opened.session.home

    assert {Subject("box", box.id) for box in home.boxes} <= subjects
    assert {Subject("room", room.id) for room in home.rooms} <= subjects
    box = next(item for item in items if item.data(0, Qt.ItemDataRole.UserRole) == Subject("box", home.boxes.ids()[3]))
    opened.outline.setCurrentItem(box)
    assert opened.session.view.selected == (Subject("box", home.boxes.ids()[3]),)


def test_keys_of_a_line_of_text_stay_its_own(drawn, hand):
    before = drawn.session.home
    field = hand.shown(QLineEdit, "Find a kind of device")[0]
    field.setFocus()
    QTest.keyClicks(field, "plug")
    QTest.keyClick(field, Qt.Key.Key_Z, CONTROL)

    assert drawn.session.home is before


def test_everything_that_takes_the_focus_has_an_accessible_name_or_words(opened, hand):
    for which in (DRAW, PANEL, TIE):
        hand.stage(which)
        for widget in QApplication.allWidgets():
            takes_keys = (
                widget.focusPolicy() & Qt.FocusPolicy.TabFocus and widget.isVisible() and widget.parent() is not None
            )
            if takes_keys and widget.metaObject().className() in ("QPushButton", "QLineEdit", "QComboBox", "QSpinBox"):
                words = widget.accessibleName() or (widget.text() if hasattr(widget, "text") else "")
                assert words, f"{widget.metaObject().className()} {widget.objectName()}"


def test_the_dark_dress_draws_on_the_dark_canvas(opened, hand):
    opened.set_theme(DARK)
    hand.settle()
    corner = opened.work.canvas.grab().toImage().pixelColor(5, 5).name()

    assert corner == DARK.canvas


def test_the_title_says_that_work_is_unsaved(drawn):
    assert drawn.isWindowModified()
    assert "House by the ford" in drawn.windowTitle()
    assert Path(COTTAGE).is_file()


def test_a_panel_is_put_on_the_wall_it_hangs_on(drawn, hand):
    QTest.mouseClick(hand.shown(QPushButton, "Set up the panel")[0], LEFT)
    QTest.mouseClick(hand.shown(QPushButton, "Add the panel")[0], LEFT)
    hand.settle()
    QTest.mouseClick(hand.shown(QPushButton, "Put the panel on the plan")[0], LEFT)
    hand.click(3950, 1500)

    panel = drawn.session.home.panels.rows[0]
    assert (panel.at[0], panel.angle) == (4000, 180)
    assert abs(panel.at[1] - 1500) < 20
    assert drawn.session.history.undo_says == "Edit Main panel"


@pytest.mark.parametrize("layer", ["lights", "receptacles", "both"])
def test_the_rooms_are_coloured_by_what_is_chosen(opened, hand, qtbot, layer):
    QTest.mouseClick(hand.shown(QPushButton, layer)[0], LEFT)
    qtbot.waitUntil(lambda: opened.session.findings.layer == layer, timeout=3000)

    assert opened.session.findings == find(opened.session.home, layer=layer)


def test_one_breaker_is_shown_alone_and_all_again(opened, hand):
    breaker = next(one for one, mark in opened.session.findings.marks.items() if mark == "5")
    hand.click_breaker(breaker)
    before = opened.work.canvas.picture.plan(50).ink
    opened.work.show_only_selected()
    alone = opened.work.canvas.picture.plan(50).ink
    assert opened.session.view.only == breaker
    assert len(list(flat(alone))) < len(list(flat(before)))
    opened.work.show_only_selected()
    assert opened.session.view.only is None


def test_nothing_is_asked_of_a_new_home_that_nothing_was_done_to(window, hand, monkeypatch):
    asked = answer_with(monkeypatch, QMessageBox.StandardButton.Cancel)
    window.start("House by the ford", "metric")
    hand.settle()

    assert window.may_leave()
    assert asked == []


def test_a_mark_is_not_given_again_after_an_undo(drawn, hand):
    hand.write("r")
    hand.click(1000, 60)
    drawn.session.undo()
    hand.settle()
    hand.click(2500, 60)

    assert [box.mark for box in drawn.session.home.boxes] == ["B2"]


def test_the_space_bar_types_in_a_length(drawn, hand):
    hand.write("n")
    hand.click(4000, 0)
    hand.move(6000, 0)
    hand.write("12' 6 1/2\"")

    assert drawn.session.tool.typed == "12' 6 1/2\""
