"""The bar under the strip that asks how a switch is worked that was just drawn: what nobody said is no evidence."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QWidget

from floorplan_circuits.desktop.pieces import button, label
from floorplan_circuits.desktop.session import Session
from floorplan_circuits.edits.switching import say_by_hand, switches_in_words, what_works
from floorplan_circuits.gestures.switching import DrawSwitching, asked_by_hand

BAR_HIGH = 48
NOTHING_TO_ASK = "Click a switch, then what it works. Then it is asked here whether it is worked by hand alone."


class HandBar(QWidget):
    """Asks while the switch is in hand, and is in nobody's way: left alone, it stays not known how it is worked.

    It stands there as long as switching is drawn and keeps its height, so that the plan does not move under the hand.
    """

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("asking")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self._session: Session | None = None
        self._asked: int | None = None
        self._left: set[int] = set()
        """The groups of which somebody said that they are not sure."""
        self.words = label("", "question")
        self.by_hand = button("By hand alone", act=self._say)
        self.by_hand.setToolTip("A lever or a cord: what it works then bears witness for the switch. (Enter)")
        self.not_sure = button("Not sure", act=self._leave)
        self.not_sure.setToolTip("It stays not known: what the switch works shows nothing of the switch.")
        row = QHBoxLayout(self)
        row.setContentsMargins(16, 6, 16, 6)
        row.setSpacing(10)
        row.addWidget(self.words, 1)
        row.addWidget(self.by_hand)
        row.addWidget(self.not_sure)
        self.setFixedHeight(BAR_HIGH)
        self.hide()

    def watch(self, session: Session) -> None:
        """Ask about the switches of a session from now on."""
        self._session, self._asked, self._left = session, None, set()
        session.edited.connect(self._look)
        session.looked.connect(self._look)
        self.hide()

    def _look(self) -> None:
        session = self._session
        tool = session.tool if session is not None else None
        asked = asked_by_hand(session.home, tool) if session is not None and isinstance(tool, DrawSwitching) else None
        self._asked = asked if asked not in self._left else None
        if session is not None and self._asked is not None:
            group = session.home.controls[self._asked]
            switches = switches_in_words(session.home, group)
            self.words.setText(
                f"{switches} works {what_works(session.home, group.id)}. "
                "Is it worked by hand alone, with no timer, sensor or radio in it?"
            )
        else:
            self.words.setText(NOTHING_TO_ASK)
        for one in (self.by_hand, self.not_sure):
            one.setVisible(self._asked is not None)
        self.setVisible(isinstance(tool, DrawSwitching))

    def _say(self) -> None:
        session, asked = self._session, self._asked
        if session is not None and asked is not None:
            session.attempt(lambda home: say_by_hand(home, asked))

    def _leave(self) -> None:
        if self._asked is not None:
            self._left.add(self._asked)
        self._look()
