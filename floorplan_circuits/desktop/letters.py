"""Larger letters: how much larger everything in the window is drawn, from the next time it is opened."""

import os

from PySide6.QtCore import QSettings

SIZES = {"As the system": 1.0, "A little larger": 1.15, "Larger": 1.3, "Largest": 1.5}
SAYS = "Letters change when the program is opened again."
SCALE = "QT_SCALE_FACTOR"
"""What Qt reads once, before there is an application."""


def size_chosen(settings: QSettings) -> str:
    """Return the size the person chose, by its name; the system's if none or an odd one is kept."""
    name = str(settings.value("letters", ""))
    return name if name in SIZES else "As the system"


def enlarge(settings: QSettings) -> None:
    """Let Qt draw everything as large as the person chose. To be called before the application is made.

    What somebody set by hand for all programs is left alone.
    """
    share = SIZES[size_chosen(settings)]
    if share != 1.0:
        os.environ.setdefault(SCALE, str(share))
