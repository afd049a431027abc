"""What was seen, in the form it is about: each log entry a sentence, newest first, with a way to strike one."""

from collections.abc import Callable, Sequence
from datetime import date

from PySide6.QtWidgets import QLineEdit, QPushButton, QVBoxLayout, QWidget

from floorplan_circuits.desktop.pieces import button, label
from floorplan_circuits.edits.edited import Edited
from floorplan_circuits.edits.recording import strike
from floorplan_circuits.findings import Disagreement
from floorplan_circuits.home.home import Home
from floorplan_circuits.log_in_words import Told

AT_FIRST = 8
"""So many entries are shown until all are asked for."""
ASKS_WHY = "Why was it a mistake?"
ASKS_WHY_NOT = "Why does it count again?"
Attempt = Callable[[Callable[[Home], Edited]], Edited | None]


class SeenSection(QWidget):
    """One history, readings that clash first. `attempt` makes an edit of the session's home."""

    def __init__(
        self,
        heading: str,
        history: tuple[Told, ...],
        clashes: Sequence[Disagreement],
        attempt: Attempt,
        resized: Callable[[], None],
    ) -> None:
        super().__init__()
        self._attempt, self._resized = attempt, resized
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 8, 0, 0)
        self._column.setSpacing(4)
        self._column.addWidget(label(heading, "section"))
        for clash in clashes:
            self._tell_clash(clash)
        if not history:
            self._column.addWidget(label("Nothing is recorded of it yet."))
        for one in history[:AT_FIRST]:
            self._add(one)
        if len(history) > AT_FIRST:
            self._offer_rest(history[AT_FIRST:])

    def _tell_clash(self, clash: Disagreement) -> None:
        """Tell what cannot all hold, what may explain it, and in bold what to do."""
        self._column.addWidget(label(clash.says, "clash"))
        self._column.addWidget(label(f"Perhaps {'; or '.join(clash.may_be)}."))
        do = label(clash.do, "clash")
        font = do.font()
        font.setBold(True)
        do.setFont(font)
        self._column.addWidget(do)

    def _offer_rest(self, rest: tuple[Told, ...]) -> None:
        more = button(f"{len(rest)} more, older", "quiet")

        def show_all() -> None:
            more.hide()
            for one in rest:
                self._add(one)
            self._resized()

        more.clicked.connect(show_all)
        self._column.addWidget(more)

    def _add(self, told: Told) -> None:
        says = label(told.says)
        if told.struck:
            font = says.font()
            font.setStrikeOut(True)
            says.setFont(font)
        self._column.addWidget(says)
        if told.struck:
            self._column.addWidget(label(told.struck))
        words, asks = ("Count it again…", ASKS_WHY_NOT) if told.struck_by else ("Strike it…", ASKS_WHY)
        entry = told.struck_by or told.entry
        asked = button(words, "quiet")
        asked.setAccessibleName(f"{words} {told.says}")
        asked.clicked.connect(lambda: self._ask(asked, entry, asks))
        self._column.addWidget(asked)

    def _ask(self, button: QPushButton, entry: int, asks: str) -> None:
        """Put a line in the button's place; Enter takes the reason."""
        line = QLineEdit()
        line.setPlaceholderText(asks)
        line.setAccessibleName(asks)
        self._column.insertWidget(self._column.indexOf(button), line)
        button.hide()
        line.returnPressed.connect(lambda: self._strike(entry, line.text()))
        line.setFocus()
        self._resized()

    def _strike(self, entry: int, why: str) -> None:
        today = date.today().isoformat()
        self._attempt(lambda home: strike(home, entry, why[:120], date=today))
