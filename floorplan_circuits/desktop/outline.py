"""The outline: level, room, box, device as a tree, so that keys and screen readers reach everything."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHeaderView, QTreeWidget, QTreeWidgetItem

from floorplan_circuits.drawing.plan_boxes import circuits_in_words
from floorplan_circuits.findings import Findings, Subject
from floorplan_circuits.home.kinds import kind_named

ROLE = Qt.ItemDataRole.UserRole
NO_ROOM = "In no room"


class Outline(QTreeWidget):
    """Everything in the home, in words. Choosing a line selects it; Enter names it, Delete removes it."""

    subject_chosen = Signal(object)
    name_wanted = Signal(object)
    remove_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setHeaderHidden(True)
        self.setAccessibleName("Outline of the home: levels, rooms, boxes, devices")
        self.header().setStretchLastSection(False)
        self.header().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        self._filling = False
        self.currentItemChanged.connect(self._on_current)

    def show_findings(self, findings: Findings, selected: tuple[Subject, ...]) -> None:
        """Fill the tree; what was unfolded stays unfolded, what is selected is shown."""
        self._filling = True
        closed = {item.data(0, ROLE) for item in self._items() if not item.isExpanded()}
        self.clear()
        for level in sorted(findings.home.levels, key=lambda level: -level.order):
            top = self._line(self, level.name, Subject("level", level.id))
            self._fill_level(top, findings, level.id)
        self._fill_loose(findings)
        for item in self._items():
            item.setExpanded(item.data(0, ROLE) not in closed)
            if selected and item.data(0, ROLE) == selected[0]:
                self.setCurrentItem(item)
        self._filling = False

    def _fill_level(self, top: QTreeWidgetItem, findings: Findings, level: int) -> None:
        home = findings.home
        rooms = {
            room.id: self._line(top, room.name, Subject("room", room.id)) for room in home.rooms if room.level == level
        }
        outside = None
        for box in home.boxes:
            if box.level != level:
                continue
            parent = rooms.get(findings.room_of.get(box.id) or 0)
            if parent is None:
                outside = outside or self._line(top, NO_ROOM, None)
                parent = outside
            self._box(parent, box.id, findings)

    def _fill_loose(self, findings: Findings) -> None:
        loose = [box for box in findings.home.boxes if box.level is None]
        if loose:
            top = self._line(self, "Not placed yet", None)
            for box in loose:
                self._box(top, box.id, findings)

    def _box(self, parent: QTreeWidgetItem, number: int, findings: Findings) -> None:
        box = findings.home.boxes[number]
        item = self._line(parent, circuits_in_words(box, findings), Subject("box", number))
        for device in box.devices:
            words = f"{device.slot}: {device.name or kind_named(device.kind).label}"
            self._line(item, words, Subject("device", device.id))

    def _line(self, parent: "QTreeWidget | QTreeWidgetItem", words: str, subject: Subject | None) -> QTreeWidgetItem:
        item = QTreeWidgetItem(parent, [words])
        item.setData(0, ROLE, subject)
        item.setToolTip(0, words)
        return item

    def _items(self) -> list[QTreeWidgetItem]:
        found: list[QTreeWidgetItem] = []
        todo = [self.topLevelItem(place) for place in range(self.topLevelItemCount())]
        while todo:
            item = todo.pop()
            if item is not None:
                found.append(item)
                todo.extend(item.child(place) for place in range(item.childCount()))
        return found

    def _on_current(self, item: QTreeWidgetItem | None) -> None:
        if item is not None and not self._filling and item.data(0, ROLE) is not None:
            self.subject_chosen.emit(item.data(0, ROLE))

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802  # Qt's name
        """Name with Enter or F2, remove with Delete."""
        item = self.currentItem()
        if item is not None and event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_F2):
            self.name_wanted.emit(item.data(0, ROLE))
        elif item is not None and event.key() == Qt.Key.Key_Delete:
            self.remove_wanted.emit()
        else:
            super().keyPressEvent(event)
