"""Start the program: one Qt application, one window, and the home it was given."""

import sys
from pathlib import Path

from PySide6.QtWidgets import QApplication

from floorplan_circuits.desktop.style import load_typeface
from floorplan_circuits.desktop.window import Window


def run(path: Path | None = None) -> int:
    """Open the window, with a home if one is given, and return the exit status when it is closed."""
    application = QApplication(sys.argv[:1])
    application.setApplicationName("Floorplan Circuits")
    application.setStyle("Fusion")
    application.setFont(load_typeface())
    window = Window()
    window.show()
    if path is not None:
        window.open(path)
    return application.exec()
