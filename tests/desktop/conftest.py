"""What the tests of the window share: findings of a sample home, and a canvas that shows it."""

from pathlib import Path

import pytest
from PySide6.QtCore import QSettings
from pytestqt.qtbot import QtBot

from floorplan_circuits.desktop.canvas import PlanCanvas
from floorplan_circuits.desktop.window import Window
from floorplan_circuits.drawing.palette import LIGHT
from floorplan_circuits.drawing.plan import Plan, plan
from floorplan_circuits.files.open import open_home
from floorplan_circuits.find import find
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.resources import folder
from tests.desktop.robot_hand import Hand


@pytest.fixture(scope="session")
def cottage() -> Findings:
    return find(open_home(folder("sample_homes") / "cottage.json").home)


@pytest.fixture(scope="session")
def level(cottage: Findings) -> int:
    return cottage.home.levels.ids()[0]


@pytest.fixture
def canvas(qtbot: QtBot, cottage: Findings, level: int) -> PlanCanvas:
    def make(scale: float) -> Plan:
        return plan(cottage, level, scale, LIGHT)

    shown = PlanCanvas()
    qtbot.addWidget(shown)
    shown.resize(900, 700)
    with qtbot.waitExposed(shown):
        shown.show()
    shown.show_level(make)
    return shown


@pytest.fixture
def window(qtbot: QtBot, tmp_path: Path) -> Window:
    """A window shown at its design size, with settings and rescue copies of its own; its end asks nothing."""
    settings = QSettings(str(tmp_path / "settings.ini"), QSettings.Format.IniFormat)
    window = Window(tmp_path / "rescue", settings)
    qtbot.addWidget(window, before_close_func=_let_go)
    window.resize(1280, 800)
    with qtbot.waitExposed(window):
        window.show()
    return window


def _let_go(window: Window) -> None:
    window.may_leave = lambda: True  # nobody is there to answer


@pytest.fixture
def hand(window: Window, qtbot: QtBot) -> Hand:
    """A robot hand on that window."""
    return Hand(window, qtbot)
