"""Fields of forms that hold still: the wheel scrolls the page past them and never changes what they say."""

from collections.abc import Iterable

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent, QWheelEvent
from PySide6.QtWidgets import QComboBox, QLineEdit, QSpinBox

from floorplan_circuits.edits.edited import Refused

LEAST_LETTERS = 8
MOST_AMPS = 6000
MOST_VA = 1_000_000
MOST_MINUTES = 1440
"""A day."""


def rating_typed(words: str) -> int | None:
    """Return the amps that were typed, `20` or `20 A`; None for nothing. Raises `Refused` for what is no rating."""
    tidy = words.strip().rstrip("Aa").strip()
    return _whole(tidy, 1, MOST_AMPS, f"Type the amps as a whole number from 1 to {MOST_AMPS}.")


def load_typed(words: str) -> int | None:
    """Return the VA that were typed, `1500`, `1500 W`; None for nothing. Raises `Refused` for what is no load."""
    tidy = words.strip().rstrip("VAWvaw").strip()
    return _whole(tidy, 0, MOST_VA, f"Type the load as a whole number of VA or W, up to {MOST_VA:,}.")


def minutes_typed(words: str) -> int | None:
    """Return the minutes that were typed, `20` or `20 min`; None for nothing. Raises `Refused` for what is no time."""
    tidy = words.strip().removesuffix("min").strip()
    return _whole(tidy, 1, MOST_MINUTES, f"Type the minutes that it may be off at a stretch, from 1 to {MOST_MINUTES}.")


def _whole(tidy: str, least: int, most: int, refusal: str) -> int | None:
    """Return a whole number without its unit; None for nothing. Raises `Refused` in these words for any other."""
    if not tidy:
        return None
    if not (tidy.isascii() and tidy.isdigit() and least <= int(tidy[:9]) <= most):
        raise Refused(refusal)
    return int(tidy)


class Choice(QComboBox):
    """One of several. A tie must never be made by a wheel that meant to scroll.

    `narrow`: it is as wide as its form lets it be, however long its words are.
    """

    def __init__(self, label: str, choices: Iterable[str] = (), now: str = "", narrow: bool = False) -> None:
        super().__init__()
        self.setAccessibleName(label)
        self.addItems(list(choices))
        self.setCurrentIndex(self.findText(now))
        policy = QComboBox.SizeAdjustPolicy
        self.setSizeAdjustPolicy(policy.AdjustToMinimumContentsLengthWithIcon if narrow else policy.AdjustToContents)
        self.setMinimumContentsLength(LEAST_LETTERS)

    def wheelEvent(self, event: QWheelEvent) -> None:  # noqa: N802  # Qt's name
        """Leave the wheel to the page."""
        event.ignore()


class Line(QLineEdit):
    """A line of words that Escape puts back to what is so: what was refused stays only while it is being mended."""

    def __init__(self, words: str) -> None:
        super().__init__(words)
        self._words = words
        self.setCursorPosition(0)  # of long words the beginning is seen

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802  # Qt's name
        """Put the words back with Escape."""
        if event.key() == Qt.Key.Key_Escape and self.text() != self._words:
            self.setText(self._words)
            return
        super().keyPressEvent(event)


class Count(QSpinBox):
    """A whole number that is typed."""

    def __init__(self, label: str, now: int, most: int) -> None:
        super().__init__()
        self.setAccessibleName(label)
        self.setRange(1, most)
        self.setValue(now)
        self.lineEdit().setTextMargins(5, 0, 0, 0)  # its words begin where those of other fields do

    def wheelEvent(self, event: QWheelEvent) -> None:  # noqa: N802  # Qt's name
        """Leave the wheel to the page."""
        event.ignore()
