"""The window: plan left, dangers under it, panel right, as on the paper."""

from collections.abc import Callable
from datetime import date
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QFileDialog, QMainWindow, QMessageBox, QSplitter, QVBoxLayout, QWidget

from floorplan_circuits.desktop.canvas import PlanCanvas
from floorplan_circuits.desktop.panes import BELOW_HIGH, SIDE_WIDE, Below, Side, Strip, status_line
from floorplan_circuits.desktop.style import palette_of, sheet_of, system_theme
from floorplan_circuits.desktop.worker import Finder
from floorplan_circuits.drawing.palette import DARK, LIGHT, Theme
from floorplan_circuits.drawing.plan import Plan, plan
from floorplan_circuits.drawing.plan_boxes import circuits_in_words
from floorplan_circuits.files.cannot import CannotOpen
from floorplan_circuits.files.open import open_home
from floorplan_circuits.findings import Findings, Hazard, Subject
from floorplan_circuits.home.building import Level
from floorplan_circuits.home.home import Home
from floorplan_circuits.view import View

NOTHING_OPEN = "Open a home: File, Open, or drop its file here."
READY = "Point at a box or a breaker to see what it hangs on. Wheel zooms, drag moves, 0 shows all."
LEAST_SIZE, DESIGN_SIZE = (1024, 700), (1280, 800)


class Window(QMainWindow):
    """Shows one home. It computes nothing itself: a worker brings findings, the drawing makes ink of them."""

    def __init__(self) -> None:
        super().__init__()
        self.setWindowTitle("Floorplan Circuits")
        self.setMinimumSize(*LEAST_SIZE)
        self.resize(*DESIGN_SIZE)
        self.setAcceptDrops(True)
        self.home: Home | None = None
        self.findings: Findings | None = None
        self.pictures: dict[str, bytes] = {}
        self.shown = View()
        self.theme = system_theme()
        self.strip, self.canvas, self.below, self.side = Strip(), PlanCanvas(), Below(), Side()
        self.status = status_line()
        self.finder = Finder(self)
        self._lay_out()
        self._add_menus()
        self._connect()
        self.set_theme(self.theme)
        self._show_nothing()

    # --- built once -------------------------------------------------------------------------------------------------

    def _lay_out(self) -> None:
        middle = QSplitter(Qt.Orientation.Vertical)
        middle.addWidget(self.canvas)
        middle.addWidget(self.below)
        middle.setStretchFactor(0, 1)
        middle.setSizes([600, BELOW_HIGH])
        across = QSplitter(Qt.Orientation.Horizontal)
        across.addWidget(middle)
        across.addWidget(self.side)
        across.setStretchFactor(0, 1)
        across.setSizes([DESIGN_SIZE[0] - SIDE_WIDE, SIDE_WIDE])
        for splitter in (middle, across):
            splitter.setHandleWidth(1)
            splitter.setChildrenCollapsible(False)
        whole = QWidget()
        column = QVBoxLayout(whole)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        for part, stretch in ((self.strip, 0), (across, 1), (self.status, 0)):
            column.addWidget(part, stretch)
        self.setCentralWidget(whole)

    def _add_menus(self) -> None:
        rows: tuple[tuple[str, str, QKeySequence.StandardKey | str, Callable[[], object]], ...] = (
            ("&File", "&Open…", QKeySequence.StandardKey.Open, self.ask_for_home),
            ("&File", "Save wall map as &PDF…", QKeySequence.StandardKey.Print, self.ask_for_pdf),
            ("&File", "&Quit", QKeySequence.StandardKey.Quit, self.close),
            ("&View", "Show all of the &level", "0", self.canvas.fit),
            ("&View", "Zoom &in", QKeySequence.StandardKey.ZoomIn, lambda: self.canvas.zoom(1.25)),
            ("&View", "Zoom &out", QKeySequence.StandardKey.ZoomOut, lambda: self.canvas.zoom(0.8)),
            ("&View", "L&ight", "", lambda: self.set_theme(LIGHT)),
            ("&View", "&Dark", "", lambda: self.set_theme(DARK)),
            ("&View", "As the &system", "", lambda: self.set_theme(system_theme())),
        )
        menus = {name: self.menuBar().addMenu(name) for name in dict.fromkeys(row[0] for row in rows)}
        for menu, words, keys, act in rows:
            action = QAction(words, self)
            action.setShortcut(QKeySequence(keys))
            action.triggered.connect(lambda _checked=False, act=act: act())
            menus[menu].addAction(action)

    def _connect(self) -> None:
        self.finder.found.connect(self._on_found)
        self.strip.level_chosen.connect(self.show_level)
        self.canvas.subject_clicked.connect(self.select)
        self.canvas.subject_hovered.connect(self._on_hover)
        self.side.view.breaker_clicked.connect(self.select)
        self.side.view.breaker_hovered.connect(self._on_hover)
        self.below.list.hazard_chosen.connect(self.go_to_hazard)

    # --- a home -----------------------------------------------------------------------------------------------------

    def open(self, path: Path) -> bool:
        """Open a home's file; a file that can't be opened leaves everything as it was and says why."""
        try:
            stored = open_home(path)
        except CannotOpen as error:
            self._say_it_failed("This home can’t be opened", str(error))
            return False
        self.home, self.pictures, self.findings = stored.home, stored.pictures, None
        self.strip.home_name.setText(stored.home.name or path.stem)
        self.setWindowTitle(f"{stored.home.name or path.stem} – Floorplan Circuits")
        self.status.setText(stored.notice or "Finding what is connected to what …")
        self.finder.ask(stored.home)
        return True

    def _on_found(self, findings: Findings) -> None:
        if findings.home is not self.home:
            return  # an answer about an earlier home
        self.findings = findings
        levels = sorted(findings.home.levels, key=lambda level: level.order)
        current = self.shown.level if self.shown.level in findings.home.levels else _first_shown(levels, findings)
        self.shown = self.shown.with_changes(level=current, selected=())
        self.strip.show_levels(levels, current)
        self.side.show_panel(findings, next(iter(findings.home.panels), None))
        self.below.show_findings(findings)
        self.below.list.show_findings(findings, self.theme)
        self._show_plan(keep_view=False)
        self.status.setText(READY)

    def _show_nothing(self) -> None:
        self.canvas.empty_words = NOTHING_OPEN
        self.below.show_findings(None)
        self.status.setText(NOTHING_OPEN)

    def _show_plan(self, keep_view: bool) -> None:
        findings, level = self.findings, self.shown.level
        if findings is None or level is None:
            self.canvas.show_level(None)
            return

        def make(scale: float) -> Plan:
            return plan(findings, level, scale, _on_canvas(self.theme))

        self.canvas.show_level(make, keep_view)

    # --- looking about ------------------------------------------------------------------------------------------------

    def set_theme(self, theme: Theme) -> None:
        """Dress the window in a theme and draw everything in it."""
        self.theme = theme
        self.canvas.theme, self.side.view.theme = _on_canvas(theme), _on_canvas(theme)
        self.setPalette(palette_of(theme))
        self.setStyleSheet(sheet_of(theme))
        self.side.view.show_panel(self.findings, next(iter(self.home.panels), None) if self.home else None)
        self.below.list.show_findings(self.findings, theme)
        if self.findings is not None:
            self._show_plan(keep_view=True)

    def show_level(self, level: int) -> None:
        """Show another level, all of it."""
        self.shown = self.shown.with_changes(level=level)
        self.strip.choose(level)
        self._show_plan(keep_view=False)

    def select(self, subject: Subject | None) -> None:
        """Select a box or a breaker: it gets a ring, and what belongs to it keeps its ink."""
        self.shown = self.shown.with_changes(selected=() if subject is None else (subject,))
        self._show_belonging(subject)

    def go_to_hazard(self, hazard: Hazard) -> None:
        """Show the box of a hazard in the middle of the plan."""
        if self.findings is None:
            return
        box = self.findings.home.boxes[hazard.box]
        self.select(Subject("box", box.id))
        if box.level is None or box.at is None:
            self.status.setText(f"{box.mark} has no place on the plan yet.")
            return
        if box.level != self.shown.level:
            self.show_level(box.level)
        self.canvas.go_to(Subject("box", box.id))

    def _on_hover(self, subject: Subject | None) -> None:
        selected = self.shown.selected[0] if self.shown.selected else None
        self._show_belonging(subject if subject is not None and subject.kind in ("box", "breaker") else selected)

    def _show_belonging(self, subject: Subject | None) -> None:
        """Ring the subject and what it hangs on; pale all but what hangs on a breaker."""
        lit, boxes, breakers = _belonging(self.findings, subject)
        self.canvas.light(lit)
        self.canvas.ring(boxes)
        self.side.view.ring(breakers)
        self.status.setText(_sentence(self.findings, subject) or READY)

    # --- files --------------------------------------------------------------------------------------------------------

    def ask_for_home(self) -> None:
        """Let the person choose a home's file."""
        name, _ = QFileDialog.getOpenFileName(self, "Open a home", str(Path.home()), "Homes (*.json)")
        if name:
            self.open(Path(name))

    def ask_for_pdf(self) -> None:
        """Let the person choose where the wall map goes."""
        if self.findings is None:
            self.status.setText("Nothing to print yet. Open a home first.")
            return
        name, _ = QFileDialog.getSaveFileName(self, "Save the wall map", "wall-map.pdf", "PDF (*.pdf)")
        if name:
            self.save_pdf(Path(name))

    def save_pdf(self, path: Path) -> None:
        """Write the wall map of the home as it is now."""
        from floorplan_circuits.files.atomic import WRITE_FAULTS, write_whole
        from floorplan_circuits.sheets.paper import PAPERS  # late: the PDF library must not delay the first frame
        from floorplan_circuits.sheets.wall_map import wall_map
        from floorplan_circuits.surfaces.pdf import pdf_of

        assert self.findings is not None
        paper = PAPERS["a4" if self.findings.home.units == "metric" else "letter"]
        sheet = wall_map(self.findings, paper, date.today().isoformat())
        try:
            write_whole(path, pdf_of(sheet, self.pictures))
        except WRITE_FAULTS as error:
            self._say_it_failed("The wall map can’t be written", f"{path}: {error}. Choose another folder or name.")
            return
        self.status.setText(f"Wall map saved: {path.name}, {paper.name}. A map can be wrong: test before you touch.")

    def _say_it_failed(self, title: str, words: str) -> None:
        self.status.setText(words)
        box = QMessageBox(QMessageBox.Icon.Warning, title, words, QMessageBox.StandardButton.Ok, self)
        box.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        box.open()

    def dragEnterEvent(self, event: object) -> None:  # noqa: N802  # Qt's name
        """Take a file that is dragged in."""
        if event.mimeData().hasUrls():  # type: ignore[attr-defined]  # Qt's drag events share no typed base
            event.acceptProposedAction()  # type: ignore[attr-defined]

    def dropEvent(self, event: object) -> None:  # noqa: N802  # Qt's name
        """Open the file that was dropped."""
        urls = event.mimeData().urls()  # type: ignore[attr-defined]
        if urls and urls[0].isLocalFile():
            self.open(Path(urls[0].toLocalFile()))


def _on_canvas(theme: Theme) -> Theme:
    """Return the theme for the plan itself: in the dark, symbols are filled with the canvas."""
    from dataclasses import replace

    return replace(theme, paper=theme.canvas) if theme.name == "dark" else theme


def _first_shown(levels: list[Level], findings: Findings) -> int | None:
    """Return the level to show first: the lowest one at or above ground that has rooms, else any."""
    with_rooms = {room.level for room in findings.home.rooms}
    ranked = sorted(levels, key=lambda level: (level.id not in with_rooms, level.order < 0, level.order))
    return ranked[0].id if ranked else None


def _belonging(
    findings: Findings | None, subject: Subject | None
) -> tuple[frozenset[Subject], frozenset[Subject], frozenset[Subject]]:
    """Return what keeps its ink, which boxes and which breakers get a ring, when a subject is pointed at."""
    nothing = frozenset[Subject]()
    if findings is None or subject is None:
        return nothing, nothing, nothing
    if subject.kind == "breaker":
        boxes = {one.box for one in findings.conclusions.values() if subject.id in one.breakers}
        lit = frozenset(Subject("box", box) for box in boxes)
        return lit or frozenset({subject}), nothing, frozenset({subject})
    if subject.kind == "box" and subject.id in findings.boxes:
        breakers = frozenset(Subject("breaker", breaker) for breaker in findings.boxes[subject.id].breakers)
        return nothing, frozenset({subject}), breakers
    return nothing, nothing, nothing


def _sentence(findings: Findings | None, subject: Subject | None) -> str:
    """Return one sentence for the status line about what is pointed at."""
    if findings is None or subject is None:
        return ""
    if subject.kind == "breaker":
        line = findings.lines.get(subject.id)
        feeds = sum(subject.id in one.breakers for one in findings.conclusions.values())
        words = line.variants[0] if line else ""
        return f"{findings.marks[subject.id]}: {words}. {feeds} feeds."
    box = findings.home.boxes.get(subject.id) if subject.kind == "box" else None
    return circuits_in_words(box, findings) if box is not None else ""
