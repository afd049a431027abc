"""A window to work in, with settings and rescue copies of its own."""

import pytest
from PySide6.QtCore import QSettings

from floorplan_circuits.desktop.window import Window
from tests.desktop.hand import Hand


@pytest.fixture
def window(qtbot, tmp_path, monkeypatch):
    """A window shown at its design size; closing it asks nothing."""
    settings = QSettings(str(tmp_path / "settings.ini"), QSettings.Format.IniFormat)
    window = Window(tmp_path / "rescue", settings)
    window.resize(1280, 800)
    window.show()
    qtbot.waitExposed(window)
    yield window
    monkeypatch.setattr(window, "may_leave", lambda: True)
    window.close()


@pytest.fixture
def hand(window, qtbot):
    """A robot hand on that window."""
    return Hand(window, qtbot)
