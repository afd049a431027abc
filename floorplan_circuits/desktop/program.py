"""Start the program: one Qt application, one window, and the home it was given."""

import gc
import sys
from pathlib import Path

from PySide6.QtCore import QSettings
from PySide6.QtWidgets import QApplication

from floorplan_circuits.desktop.letters import enlarge
from floorplan_circuits.desktop.style import load_typeface
from floorplan_circuits.desktop.window import OWNER, Window


def run(path: Path | None = None) -> int:
    """Open the window, with a home if one is given, and return the exit status when it is closed."""
    enlarge(QSettings(OWNER, OWNER))
    application = QApplication(sys.argv[:1])
    application.setApplicationName("Floorplan Circuits")
    application.setStyle("Fusion")
    application.setFont(load_typeface())
    window = Window()
    window.show()
    application.processEvents()  # the first frame stands before a home is read and the geometry library loaded
    if path is not None:
        window.open(path)
    _collect_seldom()
    return application.exec()


def _collect_seldom() -> None:
    """Let the cycle collector run again, past what lasts as long as the window: no pause may be felt in a drag."""
    gc.freeze()
    gc.set_threshold(100_000, 20, 50)
    gc.enable()
