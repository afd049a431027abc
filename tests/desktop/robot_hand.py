"""A robot hand that speaks house millimetres: it moves the mouse over the real window, and types."""

from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QLineEdit, QPushButton, QWidget

from floorplan_circuits.desktop.in_place import InPlace
from floorplan_circuits.desktop.window import Window

LEFT = Qt.MouseButton.LeftButton
NO_KEYS = Qt.KeyboardModifier.NoModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier


class Hand:
    """Works a window as a person does. Every step waits until the findings have caught up."""

    def __init__(self, window: Window, qtbot) -> None:
        self.window, self.qtbot = window, qtbot
        self.canvas = window.work.canvas

    def settle(self) -> None:
        """Wait until what is shown is about the home as it is now."""
        self.qtbot.waitUntil(self._is_settled, timeout=5000)
        QApplication.processEvents()

    def _is_settled(self) -> bool:
        session = self.window.session
        return session is None or (session.findings is not None and session.findings.home is session.home)

    def pixels(self, x: float, y: float) -> QPoint:
        """Where a house place is on the canvas."""
        return self.canvas.to_pixels(QPointF(x, y)).toPoint()

    # --- mouse --------------------------------------------------------------------------------------------------------

    def move(self, x: float, y: float, held: bool = False) -> None:
        """Move the pointer, with the button down or not."""
        at = QPointF(self.pixels(x, y))
        buttons = LEFT if held else Qt.MouseButton.NoButton
        place = QPointF(self.canvas.mapToGlobal(at))
        event = QMouseEvent(QEvent.Type.MouseMove, at, place, Qt.MouseButton.NoButton, buttons, NO_KEYS)
        QApplication.sendEvent(self.canvas, event)

    def click(self, x: float, y: float, keys: Qt.KeyboardModifier = NO_KEYS) -> None:
        """Click at a house place."""
        self.move(x, y)
        QTest.mouseClick(self.canvas, LEFT, keys, self.pixels(x, y))
        self.settle()

    def press(self, x: float, y: float) -> None:
        """Put the button down."""
        self.move(x, y)
        QTest.mousePress(self.canvas, LEFT, NO_KEYS, self.pixels(x, y))

    def let_go(self, x: float, y: float) -> None:
        """Let the button go."""
        QTest.mouseRelease(self.canvas, LEFT, NO_KEYS, self.pixels(x, y))
        self.settle()

    def drag(self, start: tuple[float, float], end: tuple[float, float]) -> None:
        """Drag from one house place to another, in a few steps as a hand does."""
        self.press(*start)
        for part in (0.2, 0.6, 1.0):
            self.move(start[0] + (end[0] - start[0]) * part, start[1] + (end[1] - start[1]) * part, held=True)
        self.let_go(*end)

    # --- keys ---------------------------------------------------------------------------------------------------------

    def key(self, key: Qt.Key, keys: Qt.KeyboardModifier = NO_KEYS) -> None:
        """Press a key over the plan."""
        QTest.keyClick(self.canvas, key, keys)
        self.settle()

    def write(self, words: str) -> None:
        """Type over the plan."""
        QTest.keyClicks(self.canvas, words)
        self.settle()

    def field(self) -> QLineEdit:
        """The line that asks for something in place."""
        self.qtbot.waitUntil(lambda: bool(self.fields()), timeout=3000)
        return self.fields()[-1]

    def fields(self) -> list[InPlace]:
        """All lines that ask for something in place now."""
        return [field for field in self.window.findChildren(InPlace) if field.isVisible()]

    def answer(self, words: str) -> None:
        """Type into the line that asks, and press Enter."""
        field = self.field()
        field.selectAll()
        QTest.keyClicks(field, words)
        QTest.keyClick(field, Qt.Key.Key_Return)
        self.settle()

    def leave_field(self) -> None:
        """Press Escape in the line that asks."""
        QTest.keyClick(self.field(), Qt.Key.Key_Escape)
        self.settle()

    # --- panel and forms ----------------------------------------------------------------------------------------------

    def stage(self, which: int) -> None:
        """Click a stage of the rail."""
        QTest.mouseClick(self.window.work.rail.buttons[which], LEFT)
        self.settle()

    def take_kind(self, words: str) -> None:
        """Find a kind in the palette by a word, and take it with Enter."""
        search = self.window.work.rail.palette_page.search
        search.clear()
        QTest.keyClicks(search, words)
        QTest.keyClick(search, Qt.Key.Key_Return)

    def click_breaker(self, breaker: int, keys: Qt.KeyboardModifier = NO_KEYS) -> None:
        """Click a breaker's row on the panel."""
        first = self.window.session.home.breakers[breaker].poles[0]
        at = self.window.work.side.view.area_of(first.space, first.half).center()
        QTest.mouseClick(self.window.work.side.view, LEFT, keys, at)
        self.settle()

    def click_space(self, space: int) -> None:
        """Click an empty space of the panel."""
        view = self.window.work.side.view
        QTest.mouseClick(view, LEFT, NO_KEYS, view.area_of(space).center())
        self.settle()

    def shown(self, kind: type[QWidget], name: str) -> list[QWidget]:
        """Every widget of a kind that shows, by its accessible name or its words."""
        QApplication.processEvents()  # what was just laid out is shown from the next turn on
        found = self.window.findChildren(kind)
        return [one for one in found if one.isVisible() and name in (one.accessibleName(), getattr(one, "text", str)())]

    def choose(self, label: str, words: str, place: int = 0) -> None:
        """Choose a line of a form's list, by keys."""
        box = self.shown(QComboBox, label)[place]
        box.setFocus()
        at = box.findText(words)
        assert at >= 0, f"{words} is not offered: {[box.itemText(n) for n in range(box.count())]}"
        QTest.keyClick(box, Qt.Key.Key_Home)
        for _ in range(at):
            QTest.keyClick(box, Qt.Key.Key_Down)
        box.textActivated.emit(box.currentText())
        self.settle()

    def says(self) -> str:
        """What the status line says."""
        return self.window.work.status.text()


def press(hand: Hand, words: str) -> None:
    """Click the button with these words."""
    QTest.mouseClick(hand.shown(QPushButton, words)[0], LEFT)
    hand.settle()


def draw_kitchen(window: Window, hand: Hand) -> None:
    """Begin a home with one room, 4 m by 3."""
    window.start("House by the ford", "metric")
    hand.settle()
    hand.write("n")
    hand.drag((0, 0), (4000, 3000))
    hand.answer("Kitchen")
