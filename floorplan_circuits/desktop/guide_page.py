"""The guide's page: large type, one thing at a time. What to turn; then a room and its devices, a key or tap each."""

from collections.abc import Callable, Sequence
from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QCheckBox,
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from floorplan_circuits.desktop import pieces
from floorplan_circuits.findings import Look
from floorplan_circuits.rounds.guide_words import GuideWords, ToTurn

ANSWERS = (("Dead", "D", "dead"), ("Live", "L", "live"), ("Unclear", "U", "unclear"), ("Skip", "S", ""))
"""Each answer with its key and what it records; '' passes by and records nothing."""
WIDEST = 760
UP, DOWN = -1, 1


class GuidePage(QScrollArea):
    """One step of the guide at a time. It says what the person does; what comes next is not its business."""

    answered = Signal(object, str)
    """Feeds, and what they showed; '' where they are passed by."""
    turned = Signal()
    left_out = Signal()
    back_wanted = Signal()
    leaving = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("guide")
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.rows: list[LookRow] = []
        self._at = 0
        self._act: Callable[[], object] | None = None
        self._column = QVBoxLayout()
        for keys, act in (
            *((key, partial(self._answer_here, says)) for _, key, says in ANSWERS),
            ("Up", partial(self._go, UP)),
            ("Down", partial(self._go, DOWN)),
            ("Backspace", self.back_wanted.emit),
            ("Return", self._do),
            ("Enter", self._do),
        ):
            shortcut = QShortcut(QKeySequence(keys), self)
            shortcut.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
            shortcut.activated.connect(act)

    def _do(self) -> None:
        """Do what Enter means here: the button that has the focus, else what the step asks for."""
        focused = self.focusWidget()
        if isinstance(focused, QPushButton) and focused.isVisible():
            focused.click()
        elif self._act is not None:
            self._act()

    # --- screens ----------------------------------------------------------------------------------------------------

    def show_pieces(self, *shown: QWidget, act: Callable[[], object] | None = None) -> None:
        """Show these, one under the other. `act` is what Enter does."""
        self.rows, self._at, self._act = [piece for piece in shown if isinstance(piece, LookRow)], 0, act
        inner, holder = QWidget(), QWidget()
        holder.setMaximumWidth(WIDEST)
        column = QVBoxLayout(holder)
        column.setContentsMargins(24, 20, 24, 20)
        column.setSpacing(12)
        for piece in shown:
            column.addWidget(piece)
        column.addStretch()
        around = QHBoxLayout(inner)
        around.setContentsMargins(0, 0, 0, 0)
        around.addStretch()
        around.addWidget(holder, 100)
        around.addStretch()
        self.setWidget(inner)
        self._show_place()
        self.setFocus()

    def show_turning(self, words: GuideWords, turn: ToTurn) -> None:
        """Say which handles to turn before the next walk."""
        lines = [text(words.head, "guide_head"), *(text(mind, "guide_words") for mind in turn.mind)]
        for verb, handles in (("Turn back on", turn.on), ("Turn off", turn.off)):
            if handles:
                lines.append(text(f"{verb}:", "guide_words"))
                lines.append(text("\n".join(handles), "guide_handles"))
        if turn.also:
            lines.append(text(turn.also, "guide_words"))
        lines += [
            text(f"Check the panel. {words.state}", "guide_words"),
            text("A breaker that buzzes, is hot or does not move: leave it, and say so in its form.", "guide_small"),
        ]
        done = button("Done, they are so (Enter)", self.turned.emit, "action")
        leave_out = [button("Leave this test out", self.left_out.emit)] if turn.mind else []
        self.show_pieces(*lines, done, *leave_out, self._foot(), act=self.turned.emit)

    def show_room(self, words: GuideWords) -> None:
        """Show a room's devices, to be answered one by one or all at once."""
        rows = [LookRow(feed, one, self) for feed, one in words.looks]
        head = text(words.room or words.head, "guide_head")
        above = [head] if not words.room else [text(words.head, "guide_words"), head]
        tell = text(f"{words.state} {words.why}", "guide_words")
        self.show_pieces(*above, tell, *self._all_here(rows), *rows, text(words.left, "guide_small"), self._foot())

    def _all_here(self, rows: Sequence["LookRow"]) -> list[QWidget]:
        if len(rows) < 2:
            return []
        line = QWidget()
        row = QHBoxLayout(line)
        row.setContentsMargins(0, 0, 0, 0)
        for says in ("dead", "live"):
            row.addWidget(button(f"All {says} here except those ticked", partial(self._answer_all, says)))
        row.addStretch()
        return [line]

    def _foot(self) -> QWidget:
        line = QWidget()
        row = QHBoxLayout(line)
        row.setContentsMargins(0, 8, 0, 0)
        row.addWidget(button("Take the last answer back", self.back_wanted.emit))
        row.addWidget(button("Stop here", self.leaving.emit))
        row.addStretch()
        row.addWidget(text("All answers are in the log already.", "guide_small", wrap=False))
        return line

    # --- answers ----------------------------------------------------------------------------------------------------

    def _answer_all(self, says: str) -> None:
        feeds = tuple(row.feed for row in self.rows if not row.other.isChecked())
        if feeds:
            self.answered.emit(feeds, says)

    def _answer_here(self, says: str) -> None:
        if self.rows:
            self.answered.emit((self.rows[self._at].feed,), says)

    def _go(self, by: int) -> None:
        if self.rows:
            self._at = max(0, min(len(self.rows) - 1, self._at + by))
            self._show_place()

    def _show_place(self) -> None:
        for place, row in enumerate(self.rows):
            row.mark_current(place == self._at)
        if self.rows:
            self.ensureWidgetVisible(self.rows[self._at])


class LookRow(QFrame):
    """One device to look at: what and where it is, what to mind, and four answers."""

    def __init__(self, feed: int, look: Look, page: GuidePage) -> None:
        super().__init__()
        self.feed = feed
        self.other = QCheckBox()
        self.other.setToolTip("This one is not as the others here: it is left to be answered by itself.")
        self.other.setAccessibleName(f"{look.mark} {look.what}: except")
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 8, 12, 8)
        line = QHBoxLayout()
        line.addWidget(self.other)
        line.addWidget(text(f"{look.mark} · {look.what}", "guide_words"), 1)
        column.addLayout(line)
        answers = QHBoxLayout()
        for words, key, says in ANSWERS:
            answer = button(f"{words} ({key})", partial(page.answered.emit, (feed,), says))
            answer.setAccessibleName(f"{look.mark} {look.what}: {words.lower()}")
            answers.addWidget(answer, 1)
        if look.mind:
            mind = "; ".join(look.mind)
            column.addWidget(text(f"{mind[:1].upper()}{mind[1:]}.", "guide_small"))
        column.addLayout(answers)

    def mark_current(self, is_current: bool) -> None:
        """Ring it if the keys answer it."""
        self.setObjectName("guide_here" if is_current else "guide_row")
        self.style().unpolish(self)
        self.style().polish(self)


def text(words: str, name: str, wrap: bool = True) -> QLabel:
    """Return words in one of the guide's sizes."""
    shown = pieces.label(words, name)
    shown.setTextFormat(Qt.TextFormat.PlainText)
    shown.setWordWrap(wrap)
    return shown


def button(words: str, act: Callable[[], object], name: str = "plain") -> QPushButton:
    """Return a button that does one thing."""
    made = pieces.button(words, name, act)
    made.setMinimumHeight(36)
    return made
