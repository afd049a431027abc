"""Larger letters: kept, ticked, and taken by Qt when the program is opened the next time."""

import os
import subprocess
import sys

import pytest
from PySide6.QtCore import QSettings, QSize
from PySide6.QtWidgets import QMenu

from floorplan_circuits.desktop.letters import SCALE, SIZES, enlarge, size_chosen
from floorplan_circuits.desktop.style import load_typeface
from floorplan_circuits.home.resources import folder


def test_a_size_is_chosen_in_the_menu_and_kept(window):
    offered = [one for menu in window.menuBar().findChildren(QMenu) for one in menu.actions()]
    next(one for one in offered if one.text() == "Larger").trigger()

    assert size_chosen(window.settings) == "Larger"


@pytest.mark.parametrize(("kept", "share"), [("Largest", "1.5"), ("As the system", None), ("odd", None)])
def test_qt_is_told_only_what_was_chosen(tmp_path, monkeypatch, kept, share):
    monkeypatch.delenv(SCALE, raising=False)
    settings = QSettings(str(tmp_path / "settings.ini"), QSettings.Format.IniFormat)
    settings.setValue("letters", kept)

    enlarge(settings)

    assert os.environ.pop(SCALE, None) == share
    assert size_chosen(settings) in SIZES


def test_what_somebody_set_for_all_programs_stays(tmp_path, monkeypatch):
    monkeypatch.setenv(SCALE, "2")
    settings = QSettings(str(tmp_path / "settings.ini"), QSettings.Format.IniFormat)
    settings.setValue("letters", "Largest")

    enlarge(settings)

    assert os.environ[SCALE] == "2"


def test_qt_draws_that_much_larger():
    program = "from PySide6.QtWidgets import *; QApplication([]); print(QWidget().devicePixelRatioF())"
    environment = {**os.environ, SCALE: "1.5", "QT_QPA_PLATFORM": "offscreen"}
    said = subprocess.run([sys.executable, "-c", program], env=environment, capture_output=True, text=True, check=True)

    assert float(said.stdout) == 1.5


@pytest.fixture
def in_our_letters(qapp):
    """Every widget in the program's own typeface: how wide words are is the question."""
    before = qapp.font()
    qapp.setFont(load_typeface())
    yield
    qapp.setFont(before)


@pytest.mark.parametrize("name", ["cottage", "flat"])
def test_with_the_largest_letters_the_window_needs_no_more_than_a_small_screen(in_our_letters, window, qtbot, name):
    window.open(folder("sample_homes") / f"{name}.json")
    qtbot.waitUntil(lambda: window.session is not None and window.session.findings is not None)
    screen = QSize(round(1280 / 1.5), round(800 / 1.5))  # as Qt counts it then

    assert window.minimumSize() == QSize(1024, 700).boundedTo(window.screen().availableSize())
    qtbot.waitUntil(lambda: window.minimumSizeHint().boundedTo(screen) == window.minimumSizeHint())
