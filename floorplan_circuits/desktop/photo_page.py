"""The photo of the panel in the plan's place, beside the drawn face: loaded, straightened, its numbers put right."""

from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QImage, QKeySequence, QShortcut
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from floorplan_circuits.desktop.photo_canvas import PhotoCanvas
from floorplan_circuits.desktop.photos import NoPhoto, Photo, photo_of, read_photo
from floorplan_circuits.desktop.pieces import button
from floorplan_circuits.desktop.rail import PANEL
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.edits.edited import Edited
from floorplan_circuits.edits.panel_photos import mark_corners, put_photo, put_tag, remove_photo, tags_back
from floorplan_circuits.files.pictures import MOST_BYTES, have_room, picture_hash
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Panel

if TYPE_CHECKING:
    from floorplan_circuits.desktop.work_area import WorkArea

INSET = 16
EMPTY = (
    "Photograph the panel’s front, its door open and its cover on. Drag the photo in here, paste it, or choose it.\n"
    "Keep the cover on: nothing here needs it off."
)
MARKING = "Drag the four rings to the outer corners of all breakers together; 1 to 4 choose one, arrows move it."
STRAIGHT = "Drag a number to where it belongs; click one to see its line on the panel. Esc goes back to the plan."
NO_PANEL = "Add the panel first: say how many spaces it has."
NO_ROOM = "The home’s pictures have {} MB already, as much as its file may hold. Remove one first."


class PhotoPage(QWidget):
    """The photo with its buttons; what it does comes from whoever looks after it."""

    left = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("first")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.canvas, self.empty = PhotoCanvas(), QLabel(EMPTY)
        self.empty.setObjectName("caption")
        self.empty.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.empty.setWordWrap(True)
        self.back, self.choose = button("Back to the plan"), button("Choose a photo…")
        self.mark, self.numbers, self.remove = button("Mark the corners"), button("Numbers back"), button("Remove")
        self.mark.setCheckable(True)
        self.mark.setObjectName("layer")
        self.mark.setToolTip("Mark the four outer corners of the breakers")
        self.numbers.setToolTip("Put all numbers back to where the spaces are")
        self.back.clicked.connect(lambda _checked=False: self.left.emit())
        escape = QShortcut(QKeySequence(Qt.Key.Key_Escape), self, self.left.emit)
        escape.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        head = QHBoxLayout()
        head.setContentsMargins(INSET, 10, INSET, 4)
        head.setSpacing(6)
        head.addWidget(self.back)
        head.addStretch()
        for one in (self.mark, self.numbers, self.choose, self.remove):
            head.addWidget(one)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addLayout(head)
        column.addWidget(self.canvas, 1)
        column.addWidget(self.empty, 1)

    def minimumSizeHint(self) -> QSize:  # noqa: N802  # Qt's name
        """Ask for no width: the panes beside the plan keep theirs."""
        return QSize(0, super().minimumSizeHint().height())

    def show_photo(self, panel: Panel) -> None:
        """Show what there is to do for a panel with a photo, or without one."""
        there = bool(panel.photo)
        for widget in (self.canvas, self.mark, self.remove):
            widget.setVisible(there)
        self.numbers.setVisible(there and bool(panel.photo_fit.tags))
        self.empty.setVisible(not there)
        self.mark.setText("Corners are right" if self.mark.isChecked() else "Mark the corners")
        self.choose.setText("Another photo…" if there else "Choose a photo…")


class PanelPhoto:
    """Looks after the photo of the panel that is shown."""

    def __init__(self, area: "WorkArea") -> None:
        self._area = area
        self.page = PhotoPage()
        page = self.page
        page.left.connect(self.leave)
        page.choose.clicked.connect(lambda _checked=False: self.choose())
        page.mark.toggled.connect(self._on_marking)
        page.numbers.clicked.connect(lambda _checked=False: self._do(tags_back))
        page.remove.clicked.connect(lambda _checked=False: self._do(remove_photo))
        page.canvas.corners_marked.connect(self._mark)
        page.canvas.tag_moved.connect(lambda space, half, at: self._do(lambda h, p: put_tag(h, p, space, half, at)))
        page.canvas.breaker_clicked.connect(area.clicks.on_breaker)

    @property
    def is_open(self) -> bool:
        """Whether the photo stands in the plan's place."""
        return self._area.front.currentWidget() is self.page

    def show(self) -> None:
        """Show the photo of the panel, or how to get one."""
        area = self._area
        if area.panel() is None:
            area.say(NO_PANEL)
            return
        if area.rail.stage != PANEL:
            area.show_stage(PANEL)
        area.front.setCurrentWidget(self.page)
        area.below.hide()
        panel = area.panel()
        self.page.mark.setChecked(panel is not None and bool(panel.photo) and panel.photo_fit.corners is None)
        self.refresh()
        self._tell()
        has_photo = panel is not None and bool(panel.photo)
        (self.page.canvas if has_photo else self.page.back).setFocus()

    def leave(self) -> None:
        """Give the plan its place back."""
        if self.is_open:
            self._area.front.setCurrentIndex(0)
            self._area.below.show()
            self._area.canvas.setFocus()

    def refresh(self) -> None:
        """Show the photo as it is now."""
        session, panel = self._area.session, self._area.panel()
        if not self.is_open or session is None:
            return
        if panel is None:
            self.leave()
            return
        self.page.show_photo(panel)
        if session.findings is not None and panel.id in session.findings.panels:
            canvas, marking = self.page.canvas, self.page.mark.isChecked()
            canvas.show_panel(session.findings, panel, session.pictures, marking)
            canvas.ringed = frozenset(one for one in session.view.selected if one.kind == "breaker")

    def _on_marking(self, _checked: bool) -> None:
        self.refresh()
        if self.is_open:
            self._tell()

    def _tell(self) -> None:
        """Say what the hand can do now."""
        panel = self._area.panel()
        there = panel is not None and bool(panel.photo)
        self._area.say((MARKING if self.page.mark.isChecked() else STRAIGHT) if there else EMPTY.splitlines()[0])

    def set_theme(self, theme: Theme) -> None:
        """Draw in a theme."""
        self.page.canvas.theme = theme
        self.page.canvas.update()

    # --- where from -------------------------------------------------------------------------------------------------

    def choose(self) -> None:
        """Let the person choose a photo."""
        title, kinds = "Choose a photo of the panel", "Photos (*.jpg *.jpeg *.png)"
        name, _ = QFileDialog.getOpenFileName(self._area, title, "", kinds)
        if name:
            self.put_file(Path(name))

    def put_file(self, path: Path) -> None:
        """Keep the photo in a file with the panel; one that can't be taken is refused in words."""
        try:
            photo = read_photo(path)
        except NoPhoto as error:
            self._area.say(str(error))
            return
        self._put(photo)

    def put_image(self, image: QImage) -> None:
        """Keep a photo that was copied elsewhere with the panel."""
        self._put(photo_of(image))

    def _put(self, photo: Photo) -> None:
        session = self._area.session
        if session is None:
            return
        if not have_room(session.home.pictures, session.pictures, photo.content):
            self._area.say(NO_ROOM.format(MOST_BYTES // 2**20))
            return
        name, day = picture_hash(photo.content), date.today().isoformat()
        session.pictures[name] = photo.content
        self._do(lambda home, panel: put_photo(home, panel, name, photo.media, photo.pixels, date=day))
        self.page.mark.setChecked(True)
        self.show()

    # --- what is done with it ---------------------------------------------------------------------------------------

    def _mark(self, corners: object) -> None:
        if self._do(lambda home, panel: mark_corners(home, panel, corners)) is None:  # type: ignore[arg-type]  # the canvas tells four
            self.refresh()  # the ring goes back to where it was

    def _do(self, edit: Callable[[Home, int], Edited]) -> Edited | None:
        session, panel = self._area.session, self._area.panel()
        if session is None or panel is None:
            return None
        return session.attempt(lambda home: edit(home, panel.id))
