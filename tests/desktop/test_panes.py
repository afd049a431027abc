"""The panes round the plan: buttons of levels, counts of dangers, the panel's title."""

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton
from pytestqt.qtbot import QtBot

from floorplan_circuits.desktop.below import Below, counts_of
from floorplan_circuits.desktop.side import Side
from floorplan_circuits.desktop.status_line import StatusLine
from floorplan_circuits.desktop.strip import Strip
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.building import Level

LEVELS = [Level(id=7, name="Basement", order=-1), Level(id=3, name="Ground floor"), Level(id=5, name="Attic", order=2)]


@pytest.fixture
def strip(qtbot: QtBot) -> Strip:
    made = Strip()
    qtbot.addWidget(made)
    made.show_levels(LEVELS, 3)
    return made


def buttons(strip: Strip) -> list[QPushButton]:
    """Return the buttons of the levels, as they stand."""
    found = [one for one in strip.findChildren(QPushButton) if one.objectName() == "level" and strip_has(strip, one)]
    return sorted(found, key=lambda button: [level.name for level in LEVELS].index(button.accessibleName()[5:]))


def strip_has(strip: Strip, button: QPushButton) -> bool:
    return button.group() is not None and button.parent() is strip


def test_each_level_has_a_button_and_the_one_shown_is_marked(strip: Strip) -> None:
    assert [(button.text(), button.isChecked()) for button in buttons(strip)] == [
        ("Basement", False),
        ("Ground floor", True),
        ("Attic", False),
    ]
    assert buttons(strip)[0].accessibleName() == "Show Basement"


def test_a_click_on_a_level_tells_its_id(strip: Strip, qtbot: QtBot) -> None:
    with qtbot.waitSignal(strip.level_chosen) as chosen:
        qtbot.mouseClick(buttons(strip)[2], Qt.MouseButton.LeftButton)
    assert chosen.args == [5]


def test_choosing_a_level_marks_it_alone(strip: Strip) -> None:
    strip.choose(7)
    assert [button.isChecked() for button in buttons(strip)] == [True, False, False]
    strip.choose(None)
    strip.choose(999)
    assert [button.isChecked() for button in buttons(strip)] == [True, False, False]


def test_a_level_taken_away_loses_its_button(strip: Strip) -> None:
    strip.show_levels(LEVELS[:1], 7)
    assert [button.text() for button in buttons(strip)] == ["Basement"]


def test_a_level_renamed_is_called_anew(strip: Strip) -> None:
    renamed = LEVELS[0].changed(name="Cellar")
    strip.show_levels([renamed, *LEVELS[1:]], 7)
    shown = [button for button in strip.findChildren(QPushButton, "level") if strip_has(strip, button)]
    names = {button.text() for button in shown}
    assert names == {"Cellar", "Ground floor", "Attic"}


def test_counts_stand_beside_the_names_of_levels(strip: Strip) -> None:
    strip.show_counts({3: 4, 5: 1})
    assert [button.text() for button in buttons(strip)] == ["Basement", "Ground floor · 4", "Attic · 1"]
    strip.show_counts({})
    assert [button.text() for button in buttons(strip)] == ["Basement", "Ground floor", "Attic"]


def test_another_level_can_be_asked_for(strip: Strip, qtbot: QtBot) -> None:
    with qtbot.waitSignal(strip.level_wanted):
        qtbot.mouseClick(strip.add_level, Qt.MouseButton.LeftButton)


# --- dangers --------------------------------------------------------------------------------------------------------


def test_the_counts_are_those_of_the_findings(cottage: Findings) -> None:
    shared = sum(found.shared for found in cottage.boxes.values())
    unknown = sum(found.unknown > 0 for found in cottage.boxes.values())
    words = counts_of(cottage)
    assert shared > 1
    assert words.startswith(f"{shared} shared boxes · {unknown} with something unknown")
    assert words.endswith(f"{len(cottage.never_tested)} feeds never tested")


def test_one_shared_box_is_told_in_the_singular(cottage: Findings) -> None:
    one = next(found for found in cottage.boxes.values() if found.shared)
    assert counts_of(replace(cottage, boxes={one.box: one})).startswith("1 shared box ·")


def test_the_pane_of_dangers_says_what_was_never_tested_even_without_a_danger(cottage: Findings, qtbot: QtBot) -> None:
    below = Below()
    qtbot.addWidget(below)
    below.show_findings(cottage)
    assert below.counts.text() == counts_of(cottage)
    assert below.empty.isHidden()
    below.show_findings(replace(cottage, hazards=()))
    assert not below.empty.isHidden()
    assert f"{len(cottage.never_tested)} feeds were never tested" in below.empty.text()
    below.show_findings(None)
    assert below.counts.text() == ""
    assert "Open a home" in below.empty.text()


# --- the panel ------------------------------------------------------------------------------------------------------


def test_the_side_names_the_panel_it_shows(cottage: Findings, qtbot: QtBot) -> None:
    side = Side()
    qtbot.addWidget(side)
    panel = cottage.home.panels.rows[0]
    side.show_panel(cottage, panel)
    assert side.title.text() == panel.name
    assert side.caption.text()
    side.show_panel(None, None)
    assert (side.title.text(), side.caption.text()) == ("The panel", "")


def test_the_status_line_has_a_name_for_a_screen_reader(qtbot: QtBot) -> None:
    line = StatusLine()
    qtbot.addWidget(line)
    assert line.says.accessibleName() == "Status"


@pytest.mark.parametrize(
    ("is_saved", "at", "words"),
    [(True, "10:42", "Saved 10:42"), (True, "", "Saved"), (False, "10:42", "Not saved since 10:42"),
     (False, "", "Not saved yet")],
)  # fmt: skip
def test_the_status_line_says_whether_the_home_is_saved(is_saved: bool, at: str, words: str, qtbot: QtBot) -> None:
    line = StatusLine()
    qtbot.addWidget(line)
    line.show_saved(is_saved, at)
    assert line.saved.text() == words


def test_a_long_name_of_a_home_leaves_room_for_the_rest_and_is_told_whole_by_the_pointer(strip: Strip) -> None:
    before = strip.minimumSizeHint().width()
    strip.home_name.setText("The long white house with the two green barns behind the mill pond")
    assert strip.minimumSizeHint().width() <= before + 80
    assert "mill pond" in strip.home_name.toolTip()
    assert "mill pond" in strip.home_name.text()
