"""The rail's stages on one wire: a square node, a verb, one line of where it stands."""

from collections.abc import Sequence

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QAbstractButton

from floorplan_circuits.drawing.palette import LIGHT, Theme
from floorplan_circuits.edits.edited import counted
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.boxes import NotKnown
from floorplan_circuits.home.home import FeedPlace, Home, existing_feeds
from floorplan_circuits.home.trade_words import words_of

STAGE_HIGH, NODE = 46, 15
"""Height of a stage and side of its square node, in px: six stages leave the tools below them the room they need."""
STAGES = ("Draw the home", "Set up the panel", "Tie devices", "Find out", "Shut off", "Print")


def where_it_stands(home: Home, findings: Findings | None, picked: Sequence[int] = ()) -> tuple[tuple[str, float], ...]:
    """Return for each stage one line, and how full its node is drawn, from 0 to 1."""
    places = list(existing_feeds(home))
    devices = len({place.device.id for place in places if place.device is not None})
    tied = sum(not isinstance(place.feed.on, NotKnown) for place in places)
    spaces = sum(panel.spaces for panel in home.panels)
    space = words_of(home, next(iter(home.panels), None)).space
    rooms, of_all = counted(len(home.rooms), "room"), f"of {counted(len(places), 'feed')}"
    never = len(findings.never_tested) if findings is not None else len(places)
    known = findings.conclusions.values() if findings is not None else ()
    tested = sum(one.standing == "proved" for one in known)
    return (
        (f"{rooms}, {counted(devices, 'device')}", 0.0 if not home.rooms else 0.5 if not devices else 1.0),
        (f"{counted(len(home.breakers), 'breaker')}, {counted(spaces, space)}", _share(len(home.breakers), spaces)),
        (f"{tied} {of_all} tied" if places else "no devices yet", _share(tied, len(places))),
        (_so_far(f"{tested} {of_all} tested", places, findings), _share(tested, len(places))),
        (_to_open(home, picked), 0.5 if picked else 0.0),
        (f"{counted(never, 'feed')} never tested" if home.rooms or home.panels else "nothing to print yet", 0.0),
    )


def _so_far(words: str, places: Sequence[FeedPlace], findings: Findings | None) -> str:
    """Return how much was tested, as far as anybody knows yet."""
    if not places:
        return "no devices yet"
    return words if findings is not None else "being worked out"


def _to_open(home: Home, picked: Sequence[int]) -> str:
    """Return which boxes are picked to be opened."""
    marks = [home.boxes[box].mark for box in picked if box in home.boxes]
    if not marks:
        return "nothing planned"
    return f"to open {', '.join(marks)}" if len(marks) < 4 else f"to open {len(marks)} boxes"


def _share(part: int, whole: int) -> float:
    return part / whole if whole else 0.0


class StageButton(QAbstractButton):
    """One stage. Any stage can be chosen at any time."""

    def __init__(self, verb: str) -> None:
        super().__init__()
        self.setText(verb)
        self.setCheckable(True)
        self.setFixedHeight(STAGE_HIGH)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.theme: Theme = LIGHT
        self.is_first = self.is_last = False
        self._line, self._full = "", 0.0

    def stand(self, line: str, full: float) -> None:
        """Say where the stage stands."""
        self._line, self._full = line, full
        self.setAccessibleDescription(line)
        self.update()

    def sizeHint(self) -> QSize:  # noqa: N802  # Qt's name
        """Return the size LOOK gives a stage."""
        return QSize(200, STAGE_HIGH)

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802  # Qt's name
        """Paint wire, node, verb and line."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        ink, soft = QColor(self.theme.ink), QColor(self.theme.soft)
        middle = QPointF(24, self.height() / 2 - 6)
        painter.setPen(QPen(soft, 1.2))
        if not self.is_first:
            painter.drawLine(QPointF(24, 0), middle)
        if not self.is_last:
            painter.drawLine(middle, QPointF(24, self.height()))
        if self.isChecked():
            painter.setPen(QPen(ink, 1.6))
            painter.setBrush(QColor(self.theme.paper))
            painter.drawRoundedRect(QRectF(8, 2, self.width() - 16, self.height() - 6), 8, 8)
        self._paint_node(painter, middle, ink)
        font = painter.font()
        font.setPixelSize(14)
        font.setBold(True)
        painter.setFont(font)
        painter.setPen(ink)
        painter.drawText(QPointF(44, self.height() / 2 - 4), self.text())
        font.setPixelSize(12)
        font.setBold(False)
        painter.setFont(font)
        painter.setPen(soft)
        painter.drawText(QPointF(44, self.height() / 2 + 13), self._line)
        if self.hasFocus() and not self.isChecked():
            painter.setPen(QPen(ink, 2))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(QRectF(8, 2, self.width() - 16, self.height() - 6), 8, 8)

    def _paint_node(self, painter: QPainter, middle: QPointF, ink: QColor) -> None:
        node = QRectF(middle.x() - NODE / 2, middle.y() - NODE / 2, NODE, NODE)
        painter.setPen(QPen(ink, 1.4))
        painter.setBrush(ink if self.isChecked() else QColor(self.theme.furniture))
        painter.drawRoundedRect(node, 3, 3)
        painter.setPen(Qt.PenStyle.NoPen)
        if self.isChecked():
            painter.setBrush(QColor(self.theme.paper))
            x, y = middle.x(), middle.y()
            painter.drawPolygon(QPolygonF([QPointF(x - 2.5, y - 4), QPointF(x + 4, y), QPointF(x - 2.5, y + 4)]))
        elif self._full > 0:
            painter.setBrush(ink)
            grow = node.adjusted(3, 3, -3, -3)
            painter.drawRect(
                grow if self._full >= 1 else QRectF(grow.x(), grow.center().y(), grow.width(), grow.height() / 2)
            )
