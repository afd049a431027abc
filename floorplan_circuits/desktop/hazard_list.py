"""The list under the plan: every danger, worst first, with its plate, one sentence, and what to do in bold."""

from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, QPoint, QRect, QSize, Qt, Signal
from PySide6.QtGui import QColor, QContextMenuEvent, QFont, QFontMetrics, QPainter, QPen, QResizeEvent
from PySide6.QtWidgets import QFrame, QListView, QStyle, QStyledItemDelegate, QStyleOptionViewItem

from floorplan_circuits.desktop.camera import PX_PER_MM
from floorplan_circuits.desktop.ink_painter import compiled, paint
from floorplan_circuits.drawing.frame import Frame
from floorplan_circuits.drawing.ink import Group
from floorplan_circuits.drawing.palette import LIGHT, Theme
from floorplan_circuits.drawing.plan_boxes import plates_of
from floorplan_circuits.drawing.plates import box_plate, plate
from floorplan_circuits.findings import Findings, Hazard, Standing

ROW = 33
PLATE_COLUMN = 82
AIR = 14
WRAPPED = Qt.TextFlag.TextWordWrap | Qt.AlignmentFlag.AlignTop
GAPS = PLATE_COLUMN + 4 + 12 + 12
STANDING_OF: dict[str, Standing] = {
    "tests disagree": "contradicted",
    "tested before a change": "expired",
    "unknown box": "unknown",
    "other supply": "unknown",
}
"""Kind of hazard -> the standing of the feed that it is about."""
Index = QModelIndex | QPersistentModelIndex


class HazardModel(QAbstractListModel):
    """The hazards of the findings shown that stand in the list of the whole home, in their order."""

    def __init__(self) -> None:
        super().__init__()
        self.findings: Findings | None = None
        self.hazards: tuple[Hazard, ...] = ()

    def show(self, findings: Findings | None) -> None:
        """Show other findings."""
        self.beginResetModel()
        self.findings = findings
        self.hazards = tuple(one for one in findings.hazards if one.listed) if findings else ()
        self.endResetModel()

    def rowCount(self, parent: Index | None = None) -> int:  # noqa: N802  # Qt's name
        """Return how many there are."""
        return 0 if parent is not None and parent.isValid() else len(self.hazards)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """Return the sentence with what to do; why it matters as the tool tip."""
        hazard = self.hazards[index.row()]
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole):
            return " ".join(part for part in (f"{hazard.named}:", hazard.says, hazard.set_aside, hazard.do) if part)
        return f"{hazard.says}\n{hazard.why}\n{hazard.source}" if role == Qt.ItemDataRole.ToolTipRole else None


class HazardDelegate(QStyledItemDelegate):
    """Paints one row: plate, sentence, what to do."""

    def __init__(self, model: HazardModel) -> None:
        super().__init__()
        self._model = model
        self.theme: Theme = LIGHT
        self.wide = 0
        """How wide the rows are, in px."""

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:  # noqa: N802  # Qt's name
        """Return the height of a row, larger letters allowed for."""
        hazard = self._model.hazards[index.row()]
        font = option.font
        told = self._high(_told(hazard, self._model), font) if self._is_stacked(hazard, font) else 0
        return QSize(200, max(ROW, told + self._high(hazard.do, _bold(font)) + AIR))

    def _is_stacked(self, hazard: Hazard, font: QFont) -> bool:
        """Tell whether what to do stands under the sentence, since both don't fit beside each other: nothing is cut."""
        told = QFontMetrics(font).horizontalAdvance(_told(hazard, self._model))
        return told + _wide_bold(hazard.do, font) + GAPS > self.wide

    def _high(self, words: str, font: QFont) -> int:
        """Return how high words are in a column of their own."""
        room = QRect(0, 0, max(self.wide - PLATE_COLUMN - 16, 80), 1000)
        return QFontMetrics(font).boundingRect(room, WRAPPED, words).height()

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Paint the row."""
        hazard, area = self._model.hazards[index.row()], option.rect
        painter.save()
        self._paint_ground(painter, option)
        painter.setPen(QColor(self.theme.soft if hazard.set_aside else self.theme.ink))
        self._paint_lead(painter, hazard, area)
        words, do = area.adjusted(PLATE_COLUMN + 4, 0, -12, 0), area.adjusted(PLATE_COLUMN + 4, 0, -12, 0)
        if self._is_stacked(hazard, painter.font()):
            words.setTop(area.top() + AIR // 2)
            do.setTop(area.bottom() - AIR // 2 - self._high(hazard.do, _bold(painter.font())))
        else:
            do.setLeft(do.right() - _wide_bold(hazard.do, painter.font()))
            words.setRight(do.left() - 12)
        stands = WRAPPED if self._is_stacked(hazard, painter.font()) else int(Qt.AlignmentFlag.AlignVCenter)
        painter.drawText(words, stands, _told(hazard, self._model))
        painter.setFont(_bold(painter.font()))
        painter.drawText(do, stands, hazard.do)
        painter.restore()

    def _paint_lead(self, painter: QPainter, hazard: Hazard, area: QRect) -> None:
        """Paint what the row is about: a plate, or the name of what has none."""
        shown = _plate_of(hazard, self._model, self.theme)
        if shown is not None:
            middle, pen = area.top() + area.height() / 2, painter.pen()
            paint(painter, compiled(shown).ops, PX_PER_MM, area.left() + PLATE_COLUMN / 2, middle)
            painter.setPen(pen)  # the plate's own ink is black on yellow, in the dark too
            return
        column = QRect(area.left() + 6, area.top(), PLATE_COLUMN - 8, area.height())
        plain = painter.font()
        painter.setFont(_bold(plain))
        words = painter.fontMetrics().elidedText(hazard.named, Qt.TextElideMode.ElideRight, column.width())
        painter.drawText(column, Qt.AlignmentFlag.AlignCenter, words)
        painter.setFont(plain)

    def _paint_ground(self, painter: QPainter, option: QStyleOptionViewItem) -> None:
        area: QRect = option.rect
        if option.state & QStyle.StateFlag.State_Selected:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(QPen(QColor(self.theme.ink), 1.2))
            painter.setBrush(QColor(self.theme.paper))
            painter.drawRoundedRect(area.adjusted(1, 1, -2, -2), 6, 6)
        else:
            painter.setPen(QColor(self.theme.line))
            painter.drawLine(area.left() + 8, area.bottom(), area.right() - 8, area.bottom())


def _bold(font: QFont) -> QFont:
    bold = QFont(font)
    bold.setBold(True)
    return bold


def _wide_bold(words: str, font: QFont) -> int:
    return QFontMetrics(_bold(font)).horizontalAdvance(words) + 2


def _told(hazard: Hazard, model: HazardModel) -> str:
    """Return the sentence, with why it was set aside; the box's mark before it where the plate is a circuit's."""
    words = " ".join(part for part in (hazard.says, hazard.set_aside) if part)
    return f"{hazard.named}, {words}" if _wanted(hazard, model) else words


def _wanted(hazard: Hazard, model: HazardModel) -> Standing | None:
    """Return the standing of the feed whose plate stands in the row of a box that is not shared; None for no plate."""
    is_shared = model.findings is not None and hazard.box is not None and model.findings.boxes[hazard.box].shared
    return None if is_shared else STANDING_OF.get(hazard.kind)


def _plate_of(hazard: Hazard, model: HazardModel, theme: Theme) -> Group | None:
    """Return the plate of a row: that of a shared box, that of the feed it is about, or none."""
    findings = model.findings
    if findings is None or hazard.box is None:
        return None
    box, found = findings.home.boxes[hazard.box], findings.boxes[hazard.box]
    wanted = _wanted(hazard, model)
    if found.shared:
        return box_plate(box.mark, found, (0, 0), theme)
    if wanted is None:
        return None
    shown = [one for one in plates_of(box, Frame(findings, box.level or 0, 50, theme)) if one.standing == wanted]
    return plate(shown[0], (0, 0), theme) if shown else box_plate(box.mark, found, (0, 0), theme)


class HazardList(QListView):
    """The list itself; choosing a row names its hazard."""

    hazard_chosen = Signal(object)
    menu_wanted = Signal(object, QPoint)
    """A hazard, and the place of the screen where its menu goes."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("hazards")
        self.setAccessibleName("Know before you open a box")
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setVerticalScrollMode(QListView.ScrollMode.ScrollPerPixel)
        self._model = HazardModel()
        self._delegate = HazardDelegate(self._model)
        self.setModel(self._model)
        self.setItemDelegate(self._delegate)
        self.selectionModel().currentChanged.connect(self._on_current)
        self.clicked.connect(self._on_current)

    def show_findings(self, findings: Findings | None, theme: Theme) -> None:
        """Show the hazards of other findings."""
        self._delegate.theme = theme
        self._model.show(findings)

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802  # Qt's name
        """Stack what to do under the sentence where it does not fit beside it."""
        self._delegate.wide = self.viewport().width()
        super().resizeEvent(event)
        self.scheduleDelayedItemsLayout()

    def row_of(self, hazard: Hazard) -> QRect:
        """Return where the row of a hazard is in the list, scrolled into sight."""
        index = self._model.index(self._model.hazards.index(hazard), 0)
        self.scrollTo(index)
        return self.visualRect(index)

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:  # noqa: N802  # Qt's name
        """Ask for the menu of the row under the pointer; by the keyboard, of the current row."""
        by_key = event.reason() == QContextMenuEvent.Reason.Keyboard
        index = self.currentIndex() if by_key else self.indexAt(event.pos())
        if index.isValid():
            at = self.viewport().mapToGlobal(self.visualRect(index).center()) if by_key else event.globalPos()
            self.menu_wanted.emit(self._model.hazards[index.row()], at)

    def _on_current(self, index: QModelIndex) -> None:
        if index.isValid() and index.row() < len(self._model.hazards):
            self.hazard_chosen.emit(self._model.hazards[index.row()])
