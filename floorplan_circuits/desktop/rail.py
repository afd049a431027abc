"""The rail: the stages on one wire, and below them what the stage at hand needs."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QButtonGroup, QLabel, QScrollArea, QStackedWidget, QVBoxLayout, QWidget

from floorplan_circuits.desktop.find_out_page import FindOutPage
from floorplan_circuits.desktop.inspector import Inspector
from floorplan_circuits.desktop.kind_palette import KindPalette
from floorplan_circuits.desktop.panel_page import PanelPage
from floorplan_circuits.desktop.pieces import scrolling
from floorplan_circuits.desktop.session import Session
from floorplan_circuits.desktop.shut_off_page import ShutOffPage
from floorplan_circuits.desktop.stages import STAGES, StageButton, where_it_stands
from floorplan_circuits.drawing.palette import Theme

RAIL_WIDE = 216
FOOT_SHARE, FOOT_LEAST, FOOT_AIR = 0.68, 120, 20
"""How much of the tools' height the form of what is selected may take; its least height and its margins, in px."""
PAGE_TOP = 4
FIND_OUT_SHARE = 0.36
"""The same while finding out, where the ticks above it must stay in sight."""
DRAW, PANEL, TIE, FIND_OUT, SHUT_OFF, PRINT = range(6)
TIE_WORDS = (
    "Click a breaker on the panel, then the devices it feeds; or drag round many. Click again to untie.\n\n"
    "Shift-click the floor of a room to tie all in it that is not tied yet. Shift-drag does so with many.\n\n"
    "In a box of several, a click on one of them ties it alone; a click on the box’s number ties all.\n\n"
    "With devices selected first, click the breaker.\n\n"
    "A tie is what somebody says, not a test: treat it as live until it is tested."
)


class Rail(QWidget):
    """Stages and their tools."""

    stage_chosen = Signal(int)

    def __init__(self, panel_page: PanelPage) -> None:
        super().__init__()
        self.setObjectName("rail")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setFixedWidth(RAIL_WIDE)
        self.palette_page, self.panel_page, self.find_out_page = KindPalette(), panel_page, FindOutPage()
        self.shut_off_page, self.inspector = ShutOffPage(), Inspector()
        self._group = QButtonGroup(self)
        self.buttons = [StageButton(verb) for verb in STAGES]
        self._pages = QStackedWidget()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 8, 0, 0)
        column.setSpacing(0)
        for place, button in enumerate(self.buttons):
            button.is_first, button.is_last = place == 0, place == len(STAGES) - 1
            self._group.addButton(button, place)
            column.addWidget(button)
        column.addSpacing(8)
        column.addWidget(self._pages, 1)
        self._pages.addWidget(_scrolled(self.palette_page))
        self._pages.addWidget(_scrolled(panel_page))
        self._pages.addWidget(_scrolled(_words(TIE_WORDS)))
        self._pages.addWidget(_scrolled(self.find_out_page))
        self._pages.addWidget(_scrolled(self.shut_off_page))
        self._pages.addWidget(_scrolled(_words("The page is what the preview shows. Choose the paper above it.")))
        self._foot = _scrolled(self.inspector)
        self._foot.setObjectName("foot")
        column.addWidget(self._foot)
        self._foot.hide()
        self.inspector.filled.connect(self._make_room)
        self._group.idClicked.connect(self.stage_chosen)

    def choose(self, stage: int) -> None:
        """Show a stage."""
        self.buttons[stage].setChecked(True)
        self.inspector.only_seen = stage == FIND_OUT
        self._pages.setCurrentIndex(stage)
        self._make_room()

    def _make_room(self) -> None:
        """Give the form of what is selected as much of the foot as it needs, and no more than its share.

        While drawing, all tools and the dozen of kinds that comes first stay in sight above it.
        """
        shown = self.stage in (DRAW, TIE, FIND_OUT) and not self.inspector.is_empty
        self._foot.setVisible(shown)
        self.palette_page.pack(dense=shown)
        if shown:
            tools = self.height() - self._pages.y()
            needs = self.inspector.sizeHint().height() + FOOT_AIR
            share = FIND_OUT_SHARE if self.stage == FIND_OUT else FOOT_SHARE
            most = tools - self.palette_page.near_high - PAGE_TOP if self.stage == DRAW else round(tools * share)
            self._foot.setFixedHeight(min(needs, max(most, FOOT_LEAST)))

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802  # Qt's name
        """Share the height anew."""
        super().resizeEvent(event)
        self._make_room()

    @property
    def stage(self) -> int:
        """The stage at hand."""
        return self._pages.currentIndex()

    def refresh(self, session: Session, theme: Theme) -> None:
        """Say where each stage stands, mark the tool in hand, fill the form of what is selected."""
        stands = where_it_stands(session.home, session.findings, session.view.picked)
        for button, (line, full) in zip(self.buttons, stands, strict=True):
            button.theme = theme
            button.stand(line, full)
        self.palette_page.show_tool(session.tool, theme)

    def show_selection(self, session: Session) -> None:
        """Fill the form anew."""
        self.inspector.show_selection(session)


def _words(words: str) -> QLabel:
    label = QLabel(words)
    label.setWordWrap(True)
    return label


def _scrolled(*widgets: QWidget) -> QScrollArea:
    holder = QWidget()
    column = QVBoxLayout(holder)
    column.setContentsMargins(12, PAGE_TOP, 12, 12)
    column.setSpacing(14)
    for widget in widgets:
        column.addWidget(widget)
    column.addStretch()
    return scrolling(holder)
