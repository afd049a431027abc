"""The menus: every command with its keys, and the sentence that undo and redo say."""

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QApplication, QLineEdit, QMenu, QPlainTextEdit

from floorplan_circuits.desktop import copying
from floorplan_circuits.desktop.aging import AgingDialog
from floorplan_circuits.desktop.box_menu import ACROSS, DOWN, SPACED, arrange
from floorplan_circuits.desktop.building_menus import add_building_menus
from floorplan_circuits.desktop.help_page import add_help
from floorplan_circuits.desktop.letters import SAYS, SIZES, size_chosen
from floorplan_circuits.desktop.rail import DRAW, FIND_OUT, PANEL, PRINT, SHUT_OFF, TIE
from floorplan_circuits.desktop.session import Session
from floorplan_circuits.desktop.tables import Tables
from floorplan_circuits.desktop.tracing import FADE_STEP
from floorplan_circuits.findings import Subject
from floorplan_circuits.gestures.switching import DrawSwitching
from floorplan_circuits.gestures.tracing import MarkLength, MarkWall, MovePicture

if TYPE_CHECKING:
    from floorplan_circuits.desktop.window import Window

Keys = QKeySequence.StandardKey
Row = tuple[str, Keys | str, Callable[[], object], bool]
"""Words, keys, what it does, and whether it needs a home."""


REDO_ALSO = ("Ctrl+Shift+Z", "Ctrl+Y")
"""Both are in people's hands, whichever the system prefers."""
THEMES = {"L&ight": "light", "Dar&k": "dark", "As the &system": "system"}


class Menus:
    """Builds the window's menus once, and keeps them true to the session."""

    def __init__(self, window: "Window") -> None:
        self._window = window
        self._tables = Tables(window)
        self._needing_home: list[QAction] = []
        self._undo = self._redo = QAction()
        self._recent = QMenu("Open &recent", window)
        for title, rows in (
            ("&File", self._file()),
            ("&Edit", self._edit()),
            ("&View", self._view()),
            ("Pi&cture", self._picture()),
        ):
            menu = window.menuBar().addMenu(title)
            for row in rows:
                self._add(menu, row)
            if title == "&File":
                menu.insertMenu(menu.actions()[2], self._recent)
            if title == "&View":
                self._add_switching(menu)
                self._add_themes(menu)
                self._add_letters(menu)
        self._needing_home += add_building_menus(window)
        add_help(window)

    def _add(self, menu: QMenu, row: Row | None) -> None:
        if row is None:
            menu.addSeparator()
            return
        words, keys, act, needs_home = row
        action = QAction(words, self._window)
        also = REDO_ALSO if keys == Keys.Redo else ()
        action.setShortcuts(list(dict.fromkeys(map(QKeySequence, (keys, *also)))))
        action.triggered.connect(lambda _checked=False: act())
        menu.addAction(action)
        if needs_home:
            self._needing_home.append(action)
        if words == "&Undo":
            self._undo = action
        if words == "&Redo":
            self._redo = action

    def _add_themes(self, menu: QMenu) -> None:
        """Offer the themes, the one chosen ticked."""
        menu.addSeparator()
        group = QActionGroup(self._window)
        for words, name in THEMES.items():
            action = group.addAction(words)
            action.setCheckable(True)
            action.setChecked(name == self._window.theme_chosen())
            action.triggered.connect(lambda _checked=False, name=name: self._window.choose_theme(name))
            menu.addAction(action)

    def _add_switching(self, menu: QMenu) -> None:
        """Offer to draw what each switch works."""
        self._switching = menu.addAction("What each switch wor&ks")
        self._switching.setCheckable(True)
        self._switching.setShortcut(QKeySequence("Ctrl+K"))
        self._switching.toggled.connect(lambda on: self._on_session(lambda session: session.show_switching(on)))
        self._needing_home.append(self._switching)

    def _add_letters(self, menu: QMenu) -> None:
        """Offer how large letters are, the size chosen ticked."""
        sizes, group = menu.addMenu("&Larger letters"), QActionGroup(self._window)
        for words in SIZES:
            action = group.addAction(words)
            action.setCheckable(True)
            action.setChecked(words == size_chosen(self._window.settings))
            action.triggered.connect(lambda _checked=False, words=words: self._choose_letters(words))
            sizes.addAction(action)

    def _choose_letters(self, size: str) -> None:
        self._window.settings.setValue("letters", size)
        self._window.work.say(SAYS)

    # --- what there is ------------------------------------------------------------------------------------------------

    def _file(self) -> list[Row | None]:
        window = self._window
        return [
            ("&New home…", Keys.New, self._to_first_page, False),
            ("&Open…", Keys.Open, window.ask_for_home, False),
            ("&Save", Keys.Save, window.save, True),
            ("Save &as…", Keys.SaveAs, window.save_as, True),
            ("Na&me the home…", "", window.work.naming.ask_for_home, True),
            None,
            ("&Print…", Keys.Print, partial(window.work.show_stage, PRINT), True),
            None,
            ("&Write the schedule as a table…", "", self._tables.write_schedule, True),
            ("Write the list of &devices as a table…", "", self._tables.write_devices, True),
            ("Take a schedule from a &table…", "", self._tables.take_schedule, True),
            ("Take a &list of devices from a table…", "", self._tables.take_devices, True),
            None,
            ("&Quit", Keys.Quit, window.close, False),
        ]

    def _edit(self) -> list[Row | None]:
        do = self._on_session
        return [
            ("&Undo", Keys.Undo, lambda: do(Session.undo), True),
            ("&Redo", Keys.Redo, lambda: do(Session.redo), True),
            None,
            ("Cu&t", Keys.Cut, partial(do, copying.cut), True),
            ("&Copy", Keys.Copy, partial(do, copying.copy), True),
            ("&Paste", Keys.Paste, self._paste, True),
            ("Put down co&pies, one a click", "Ctrl+Shift+V", partial(do, copying.stamp), True),
            ("Put down &more like what is selected", "Ctrl+D", partial(do, copying.stamp_selected), True),
            ("Re&move", Keys.Delete, lambda: do(Session.remove), True),
            ("Select &all boxes of the level", Keys.SelectAll, self._select_all, True),
            ("&Name what is selected", "F2", self._name_selected, True),
            None,
            ("Draw what a s&witch works", "", self._draw_switching, True),
            *((words, "", partial(do, partial(arrange, words=words)), True) for words in (ACROSS, DOWN, SPACED)),
            None,
            ("The house changed &hands, or an electrician was here…", "", self._ask_what_aged, True),
        ]

    def _view(self) -> list[Row | None]:
        window, canvas = self._window, self._window.work.canvas
        return [
            ("&Draw the home", "Ctrl+1", partial(window.work.show_stage, DRAW), True),
            ("Set up the &panel", "Ctrl+2", partial(window.work.show_stage, PANEL), True),
            ("&Tie devices", "Ctrl+3", partial(window.work.show_stage, TIE), True),
            ("&Find out", "Ctrl+4", partial(window.work.show_stage, FIND_OUT), True),
            ("&Shut off", "Ctrl+5", partial(window.work.show_stage, SHUT_OFF), True),
            ("P&rint", "Ctrl+6", partial(window.work.show_stage, PRINT), True),
            None,
            ("Show all of the &level", "Ctrl+0", canvas.fit, True),
            ("Fit the se&lection", "Ctrl+E", window.work.commands.fit_selected, True),
            ("Zoom &in", Keys.ZoomIn, partial(canvas.zoom, 1.25), True),
            ("Zoom &out", Keys.ZoomOut, partial(canvas.zoom, 0.8), True),
            ("Show the selected breaker a&lone", "Ctrl+L", window.work.show_only_selected, True),
            ("Look inside the selected &box", "Ctrl+I", window.work.inside.look_at_selected, True),
            ("&Outline", "F6", self._show_outline, True),
            ("Loo&k up a name or mark", Keys.Find, window.work.strip.look_up.begin, True),
        ]

    def _picture(self) -> list[Row | None]:
        """Return what is done with the picture that the level is drawn over."""
        tracing = self._window.work.tracing
        return [
            ("&Choose a picture to draw over…", "", tracing.choose, True),
            None,
            ("&Set its scale by a known length", "", lambda: tracing.take(MarkLength()), True),
            ("S&traighten it along a wall", "", lambda: tracing.take(MarkWall()), True),
            ("Tu&rn it by a quarter", "", tracing.turn, True),
            ("&Move it", "", lambda: tracing.take(MovePicture()), True),
            None,
            ("&Fainter", "Ctrl+[", partial(tracing.fade_by, -FADE_STEP), True),
            ("Str&onger", "Ctrl+]", partial(tracing.fade_by, FADE_STEP), True),
            ("&Lock or unlock it", "", tracing.lock, True),
            None,
            ("Remo&ve it", "", tracing.remove, True),
        ]

    # --- what they do -------------------------------------------------------------------------------------------------

    def _to_first_page(self) -> None:
        if self._window.may_leave():
            self._window.session = None
            self._window.rescuer.drop()
            self._window.show_first_page()

    def _on_session(self, act: Callable[[Session], object]) -> None:
        """Do something with the session, unless a line of text has the keys and means them for itself."""
        field = QApplication.focusWidget()
        if isinstance(field, QLineEdit | QPlainTextEdit):
            for mine, its_own in ((Session.undo, field.undo), (Session.redo, field.redo), (copying.cut, field.cut),
                                  (copying.copy, field.copy), (copying.paste, field.paste)):  # fmt: skip
                if act is mine:
                    its_own()
            return
        if self._window.session is not None:
            act(self._window.session)
            if act in (copying.copy, copying.cut, copying.stamp_selected):
                self._window.work.tracing.copied_here()
            if act in (copying.stamp, copying.stamp_selected):
                self._window.work.canvas.setFocus()

    def _paste(self) -> None:
        """Paste what was copied here last, or a picture that was copied elsewhere since."""
        typing = isinstance(QApplication.focusWidget(), QLineEdit | QPlainTextEdit)
        if typing or not self._window.work.tracing.paste():
            self._on_session(copying.paste)

    def _draw_switching(self) -> None:
        self._window.work.show_stage(DRAW)
        self._window.work.take(DrawSwitching())

    def _select_all(self) -> None:
        session = self._window.session
        if session is not None:
            boxes = (box for box in session.home.boxes if box.level == session.view.level and box.at is not None)
            session.select(tuple(Subject("box", box.id) for box in boxes))

    def _name_selected(self) -> None:
        session = self._window.session
        if session is not None and session.view.selected:
            self._window.work.naming.ask(session.view.selected[0])

    def _ask_what_aged(self) -> None:
        if self._window.session is not None:
            AgingDialog(self._window.session, self._window).open()

    def _show_outline(self) -> None:
        self._window.dock.setVisible(not self._window.dock.isVisible())
        if self._window.dock.isVisible():
            self._window.outline.setFocus()

    # --- kept true ----------------------------------------------------------------------------------------------------

    def refresh(self, session: Session | None) -> None:
        """Enable what can be done now; let undo and redo say what they do."""
        for action in self._needing_home:
            action.setEnabled(session is not None)
        if session is not None:
            self._switching.setChecked(session.view.switching)
            history = session.history
            self._undo.setText(f"&Undo: {history.undo_says}" if history.past else "&Undo")
            self._redo.setText(f"&Redo: {history.redo_says}" if history.future else "&Redo")
            self._undo.setEnabled(bool(history.past))
            self._redo.setEnabled(bool(history.future))
        self._recent.clear()
        for path in self._window.files.recent():
            self._add_recent(path)
        self._recent.setEnabled(not self._recent.isEmpty())

    def _add_recent(self, path: Path) -> None:
        action = QAction(path.name, self._recent)
        action.setToolTip(str(path))
        action.triggered.connect(lambda _checked=False: self._window.open(path))
        self._recent.addAction(action)
