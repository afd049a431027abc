"""The window: the first page or a home at work, which home it is at, and how it looks."""

from collections.abc import Callable, Sequence
from pathlib import Path

from PySide6.QtCore import QByteArray, QSettings, QSize, Qt
from PySide6.QtGui import QCloseEvent, QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QDockWidget, QMainWindow, QStackedWidget

from floorplan_circuits.desktop.first_page import FirstPage
from floorplan_circuits.desktop.home_files import HomeFiles
from floorplan_circuits.desktop.menus import Menus
from floorplan_circuits.desktop.outline import Outline
from floorplan_circuits.desktop.plan_files import is_picture
from floorplan_circuits.desktop.rail import FIND_OUT
from floorplan_circuits.desktop.rescuer import Rescuer, rescue_folder
from floorplan_circuits.desktop.session import Session
from floorplan_circuits.desktop.style import palette_of, sheet_of, theme_named
from floorplan_circuits.desktop.tracing import NOT_YET
from floorplan_circuits.desktop.work_area import WorkArea
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.one_box import Gang, start_one_box
from floorplan_circuits.edits.starting import new_home
from floorplan_circuits.files.open import Stored
from floorplan_circuits.files.rescue import Rescue, drop_rescue, list_rescues
from floorplan_circuits.home.lengths import Units

LEAST_SIZE, DESIGN_SIZE = (1024, 700), (1280, 800)
OWNER = "Floorplan Circuits"
"""Under what name the system keeps the settings."""


class Window(QMainWindow):
    """One window, one home at a time."""

    def __init__(self, rescues: Path | None = None, settings: QSettings | None = None) -> None:
        super().__init__()
        self.setWindowTitle("Floorplan Circuits")
        room = self.screen().availableSize()  # smaller than the least size where letters are drawn larger
        self.setMinimumSize(QSize(*LEAST_SIZE).boundedTo(room))
        self.resize(QSize(*DESIGN_SIZE).boundedTo(room))
        self.setAcceptDrops(True)
        self.settings = settings or QSettings(OWNER, OWNER)
        self.rescuer = Rescuer(rescues or rescue_folder(), self)
        self.session: Session | None = None
        self.first, self.work, self.outline = FirstPage(), WorkArea(), Outline()
        self.files = HomeFiles(self, self.settings, self.work.say)
        self.pages = QStackedWidget()
        self.pages.addWidget(self.first)
        self.pages.addWidget(self.work)
        self.setCentralWidget(self.pages)
        self.dock = QDockWidget("Outline", self)
        self.dock.setObjectName("outline")
        self.dock.setWidget(self.outline)
        self.dock.setFeatures(QDockWidget.DockWidgetFeature.DockWidgetClosable)
        self.addDockWidget(Qt.DockWidgetArea.LeftDockWidgetArea, self.dock)
        self.dock.hide()
        self.menus = Menus(self)
        self._connect()
        self.choose_theme(self.theme_chosen())
        self._restore_places()
        self.show_first_page()

    def _connect(self) -> None:
        self.first.started.connect(self.start)
        self.first.one_box_started.connect(self.start_one_box)
        self.first.open_wanted.connect(self.ask_for_home)
        self.first.path_chosen.connect(self.open)
        self.first.rescue_chosen.connect(self.go_on_with)
        self.first.rescue_dropped.connect(self._drop_rescue)
        self.outline.subject_chosen.connect(self.work.go_to)
        self.outline.name_wanted.connect(self.work.naming.ask)
        self.outline.remove_wanted.connect(self._remove_selected)
        self.dock.visibilityChanged.connect(self._fill_outline)
        self.rescuer.failed_to.connect(self.work.say)

    def _remove_selected(self) -> None:
        if self.session is not None:
            self.session.remove()

    # --- which home -------------------------------------------------------------------------------------------------

    def show_first_page(self) -> None:
        """Show the page that starts or opens a home."""
        self.first.show_choices(self.files.recent(), list_rescues(self.rescuer.folder))
        self.pages.setCurrentWidget(self.first)
        self.menus.refresh(None)

    def start(self, name: str, units: Units) -> None:
        """Start a new home."""
        if self.may_leave():
            self._work_on(Session(Stored(new_home(name, units), {}, False, ""), None))

    def start_one_box(self, name: str, gangs: Sequence[Gang], handles: str, opens_hot_alone: bool) -> None:  # as sent
        """Start a home of one box and its panel, drawn or not, and let the guide lead to its breakers."""
        begun = new_home(name.strip() or "One box")
        try:
            edited = start_one_box(begun, name, gangs, handles, opens_hot_alone=opens_hot_alone)
        except Refused as refused:
            self.first.one_box.refuse(str(refused))
            return
        if not self.may_leave():
            return
        session = Session(Stored(begun, {}, False, ""), None)
        session.attempt(lambda _: edited)
        self._work_on(session)
        self.work.show_stage(FIND_OUT)
        self.work.guiding.begin(edited.made)

    def open(self, path: Path) -> bool:
        """Open a home's file; one that can't be opened leaves everything as it was and says why."""
        stored = self.files.stored(path) if self.may_leave() else None
        if stored is None:
            return False
        self._work_on(Session(stored, path))
        if stored.notice:
            self.work.say(stored.notice)
        return True

    def go_on_with(self, rescue: Rescue) -> None:
        """Go on with a rescued copy; it counts as not saved."""
        stored = self.files.rescued(rescue)
        if stored is None:
            return
        session = Session(stored, rescue.of)
        session.not_saved_yet()
        self._work_on(session)
        self.rescuer.note(session.home, rescue.of, session.unsaved_pictures)

    def _drop_rescue(self, rescue: Rescue) -> None:
        drop_rescue(rescue)
        self.show_first_page()

    def _work_on(self, session: Session) -> None:
        self.rescuer.drop()
        self.session = session
        session.edited.connect(self._on_edited)
        session.found.connect(self._fill_outline)
        session.looked.connect(lambda: self.menus.refresh(session))
        self.work.show_session(session)
        self.pages.setCurrentWidget(self.work)
        self.work.canvas.setFocus()
        self._show_title()
        self.menus.refresh(session)

    def _on_edited(self) -> None:
        session = self.session
        if session is None:
            return
        if session.is_saved:
            self.rescuer.drop()
        else:
            self.rescuer.note(session.home, session.path, session.unsaved_pictures)
        self._show_title()
        self.menus.refresh(session)

    def _show_title(self) -> None:
        session = self.session
        if session is not None:
            self.setWindowTitle(f"{session.home.name or 'Unnamed home'}[*] – Floorplan Circuits")
            self.setWindowModified(not session.is_saved)

    def _fill_outline(self) -> None:
        if self.session is not None and self.session.findings is not None and self.dock.isVisible():
            self.outline.show_findings(self.session.findings, self.session.view.selected)

    # --- files --------------------------------------------------------------------------------------------------------

    def ask_for_home(self) -> None:
        """Let the person choose a home's file."""
        path = self.files.ask()
        if path is not None:
            self.open(path)

    def save(self) -> bool:
        """Save the home to its file; ask for one if it has none. Return whether it is saved."""
        return self.session is None or self._saved(self.files.save(self.session))

    def save_as(self) -> bool:
        """Let the person choose the file to save to."""
        return self.session is None or self._saved(self.files.save_as(self.session))

    def save_to(self, path: Path) -> bool:
        """Save the home to a file."""
        return self.session is None or self._saved(self.files.save_to(self.session, path))

    def _saved(self, saved: bool) -> bool:
        """Let the menus show the file among those used last."""
        self.menus.refresh(self.session)
        return saved

    def may_leave(self) -> bool:
        """Ask before anything unsaved is closed; return whether the window may go on to something else."""
        return self.files.may_leave(self.session)

    # --- looks and events ---------------------------------------------------------------------------------------------

    def set_theme(self, theme: Theme) -> None:
        """Dress the window in a theme and draw everything in it."""
        self.setPalette(palette_of(theme))
        self.setStyleSheet(sheet_of(theme))
        self.work.set_theme(theme)

    def theme_chosen(self) -> str:
        """Return the theme the person chose: "light", "dark" or "system"."""
        return str(self.settings.value("theme", "system"))

    def choose_theme(self, name: str) -> None:
        """Dress the window in a theme by its name, from now on."""
        self.settings.setValue("theme", name)
        self.set_theme(theme_named(name))

    def _restore_places(self) -> None:
        """Take the size the window had, and put the panes where they were."""
        for key, restore in (("window", self.restoreGeometry), *self._splitter_places("restoreState")):
            kept = self.settings.value(key)
            if isinstance(kept, QByteArray):
                restore(kept)

    def _keep_places(self) -> None:
        for key, place in (("window", self.saveGeometry), *self._splitter_places("saveState")):
            self.settings.setValue(key, place())

    def _splitter_places(self, what: str) -> list[tuple[str, Callable[..., object]]]:
        return [(f"splitter {nth}", getattr(one, what)) for nth, one in enumerate(self.work.splitters)]

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:  # noqa: N802  # Qt's name
        """Take a file that is dragged in."""
        if event.mimeData().hasUrls():
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:  # noqa: N802  # Qt's name
        """Open the home that was dropped, or lay the picture under the level shown."""
        urls = event.mimeData().urls()
        if not urls or not urls[0].isLocalFile():
            return
        path = Path(urls[0].toLocalFile())
        if not is_picture(path):
            self.open(path)
        elif self.session is None:
            self.files.say_it_failed("A picture needs a home", NOT_YET)
        elif self.work.photo.is_open:
            self.work.photo.put_file(path)
        else:
            self.work.tracing.put_file(path)

    def closeEvent(self, event: QCloseEvent) -> None:  # noqa: N802  # Qt's name
        """Ask before unsaved work is lost; closed on purpose, nothing needs rescuing."""
        if not self.may_leave():
            event.ignore()
            return
        self.rescuer.drop()
        self._keep_places()
        event.accept()
