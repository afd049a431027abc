"""The line in the strip that finds anything by name or mark: type, choose, and the plan goes there."""

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, QPoint, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit, QListWidget, QListWidgetItem, QWidget

from floorplan_circuits.looking_up import Found

LookUpWords = Callable[[str], tuple[Found, ...]]
WIDE, LIST_WIDE, EDGE = 190, 320, 5
NOTHING = "Nothing goes by that name."


class LookUp(QLineEdit):
    """Finds as one types; Enter goes to what is marked in the list, Down to the next, Escape gives the keys back."""

    chosen = Signal(object)
    left = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.look: LookUpWords = lambda words: ()
        self.setPlaceholderText("Look up: B14, kitchen, dryer …")
        self.setAccessibleName("Look up a name or mark")
        self.setClearButtonEnabled(True)
        self.setMinimumWidth(90)
        self.setMaximumWidth(WIDE)
        self.list = QListWidget(self)
        self.list.setObjectName("found")
        self.list.setWindowFlags(Qt.WindowType.ToolTip)
        self.list.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.list.setAccessibleName("What was found")
        self.list.itemClicked.connect(self._take)
        self.textEdited.connect(self._find)
        self.installEventFilter(self)

    def begin(self) -> None:
        """Take the keys, what was typed before marked to be typed over."""
        self.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.selectAll()

    def _find(self, words: str) -> None:
        self.list.clear()
        found = self.look(words)
        for one in found:
            item = QListWidgetItem(one.says)
            item.setData(Qt.ItemDataRole.UserRole, one.subject)
            self.list.addItem(item)
        if not found:
            item = QListWidgetItem(NOTHING)
            item.setFlags(Qt.ItemFlag.NoItemFlags)
            self.list.addItem(item)
        self.list.setCurrentRow(0 if found else -1)
        self._show_list(bool(words.strip()))

    def _show_list(self, shown: bool) -> None:
        if shown:
            high = sum(self.list.sizeHintForRow(row) for row in range(self.list.count())) + 2 * EDGE
            self.list.resize(max(self.width(), LIST_WIDE), high)
            self.list.move(self.mapToGlobal(QPoint(self.width() - self.list.width(), self.height() + 2)))
        self.list.setVisible(shown)

    def _take(self, item: QListWidgetItem | None) -> None:
        subject = item.data(Qt.ItemDataRole.UserRole) if item is not None else None
        if subject is not None:
            self.list.hide()
            self.left.emit()
            self.chosen.emit(subject)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802  # Qt's name
        """Let keys move in the list and take from it; hide it when the keys go elsewhere."""
        if event.type() == QEvent.Type.FocusOut:
            self.list.hide()
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            return self._is_list_key(Qt.Key(event.key()))
        return super().eventFilter(watched, event)

    def _is_list_key(self, key: Qt.Key) -> bool:
        step = {Qt.Key.Key_Down: 1, Qt.Key.Key_Up: -1}.get(key, 0)
        if step:
            self.list.setCurrentRow(min(max(self.list.currentRow() + step, 0), self.list.count() - 1))
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._take(self.list.currentItem())
        elif key == Qt.Key.Key_Escape:
            self.list.hide()
            self.clear()
            self.left.emit()
        else:
            return False
        return True
