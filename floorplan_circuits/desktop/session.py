"""The session: one home being worked on, its history, what is in hand, and the file it came from.

Everything the window does to a home goes through here: one edit at a time, each with its sentence.
"""

from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from PySide6.QtCore import QObject, Signal

from floorplan_circuits.desktop.worker import Finder
from floorplan_circuits.edits.consequences import consequences
from floorplan_circuits.edits.edited import Edited, Refused, as_done
from floorplan_circuits.edits.history import History
from floorplan_circuits.edits.pasting import Clip
from floorplan_circuits.edits.removal import remove
from floorplan_circuits.files.open import Stored
from floorplan_circuits.files.save import save_home
from floorplan_circuits.findings import Findings, Layer, Subject
from floorplan_circuits.gestures.events import Context, Event
from floorplan_circuits.gestures.selecting import Select
from floorplan_circuits.gestures.step import Tool, at_rest, step
from floorplan_circuits.gestures.switching import DrawSwitching
from floorplan_circuits.home.home import Home, mains
from floorplan_circuits.view import View


class Session(QObject):
    """One home, from open to close. It asks the worker for findings after every edit and tells when they are there."""

    edited = Signal()
    found, lost = Signal(), Signal()
    """What is known of the home as it is now was worked out, or could not be."""
    looked = Signal()
    tried = Signal()
    """Other boxes are picked, or other handles are off on the screen."""
    said = Signal(str)
    name_wanted = Signal(object)

    def __init__(self, stored: Stored, path: Path | None, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.history = History(stored.home)
        self.begun = stored.home
        self.saved: Home | None = stored.home if path is not None else None
        self.saved_at = ""
        """The time of day it was last saved in this sitting."""
        self.read_only = stored.read_only
        self.pictures = stored.pictures
        self._filed = frozenset(stored.pictures) if path is not None else frozenset()
        """The pictures that the home's own file has."""
        self.path = path
        self.findings: Findings | None = None
        self.view = View(level=_first_level(stored.home))
        self.tool: Tool = Select()
        self.clip = Clip()
        self.pasted = 0
        """How often the clip was pasted: each goes a step further aside."""
        self._finder = Finder(self)
        self._finder.found.connect(self._on_found)
        self._finder.failed.connect(self._on_failed)
        self._ask()

    @property
    def home(self) -> Home:
        """The home as it is now."""
        return self.history.now

    @property
    def is_saved(self) -> bool:
        """Whether the file holds the home as it is now."""
        return self.home is self.saved

    @property
    def unsaved_pictures(self) -> dict[str, bytes]:
        """The pictures that the home's own file does not have yet."""
        return {name: data for name, data in self.pictures.items() if name not in self._filed}

    def not_saved_yet(self) -> None:
        """Say that what was opened is a copy: nothing of it counts as being in the home's own file."""
        self.saved, self._filed = None, frozenset()

    @property
    def may_be_lost(self) -> bool:
        """Whether closing now would lose something: a new home that nothing was done to is nothing."""
        untouched = self.path is None and self.home is self.begun
        return not self.is_saved and not untouched

    # --- findings ---------------------------------------------------------------------------------------------------

    def _ask(self) -> None:
        self._finder.ask(self.home, self.view.layer)

    def _on_found(self, findings: Findings) -> None:
        if findings.home is self.home and findings.layer == self.view.layer:
            self.findings = findings
            self.found.emit()

    def _on_failed(self, home: Home) -> None:
        if home is self.home:
            self.findings = None
            self.lost.emit()

    def find_now(self) -> Findings:
        """Return the findings about the home as it is now, computed to the end."""
        found = self.findings
        if found is None or found.home is not self.home or found.layer != self.view.layer:
            found = self.findings = self._finder.now(self.home, self.view.layer)
        return found

    def colour_by(self, layer: Layer) -> None:
        """Divide the floor by lights, by receptacles, or by both."""
        self.view = self.view.with_changes(layer=layer)
        self._ask()

    def show_only(self, breaker: int | None) -> None:
        """Show one breaker alone, or all again."""
        self.view = self.view.with_changes(only=breaker)
        self.found.emit()

    def show_switching(self, shown: bool) -> None:
        """Draw what each switch works, or leave it out again."""
        self.view = self.view.with_changes(switching=shown)
        self.looked.emit()

    @property
    def shows_switching(self) -> bool:
        """Whether what each switch works is drawn: it was asked for, or is being drawn."""
        return self.view.switching or isinstance(self.tool, DrawSwitching)

    # --- edits ------------------------------------------------------------------------------------------------------

    def attempt(self, edit: Callable[[Home], Edited], merge: str = "") -> Edited | None:
        """Make one edit; a refusal is said and leaves the home as it was."""
        try:
            edited = edit(self.history.ground)
        except Refused as error:
            self.said.emit(str(error))
            return None
        self._apply(edited, merge)
        return edited

    def _apply(self, edited: Edited, merge: str = "", says: str = "") -> None:
        before = self.home
        history = self.history.done(edited.home, edited.says, merge)
        if history is self.history:
            return
        if self.read_only:
            self.said.emit("A newer program wrote this file: it can be read here, not changed.")
            return
        self.history = history
        self._ask()
        self._keep_selection()
        self.edited.emit()
        self.said.emit(" ".join((says or as_done(edited.says), *consequences(before, edited.home))))

    def undo(self) -> None:
        """Take the last edit back, or say that there is none."""
        self._travel(self.history.undone(), "Undone", self.history.undo_says, "Nothing to undo.")

    def redo(self) -> None:
        """Do the last undone edit again, or say that there is none."""
        self._travel(self.history.redone(), "Done again", self.history.redo_says, "Nothing to do again.")

    def _travel(self, history: History, verb: str, says: str, nothing: str) -> None:
        if history is self.history:
            self.said.emit(nothing)
            return
        self.history, self.tool = history, at_rest(self.tool)
        self.view = self.view.with_changes(draft=None)
        self._ask()
        self._keep_selection()
        self.edited.emit()
        self.said.emit(f"{verb}: {says}.")

    def _keep_selection(self) -> None:
        """Let go of what is selected and no longer there."""
        home = self.home
        tables = {"box": home.boxes, "room": home.rooms, "breaker": home.breakers, "panel": home.panels,
                  "opening": home.openings, "stair": home.stairs}  # fmt: skip
        there = {kind: set(table.ids()) for kind, table in tables.items()}  # type: ignore[attr-defined]  # each is a Table
        kept = tuple(one for one in self.view.selected if one.id in there.get(one.kind, {one.id}))
        level = self.view.level if self.view.level in home.levels else _first_level(home)
        picked = tuple(box for box in self.view.picked if box in home.boxes)
        handles = frozenset(home.breakers.ids()) | {main.id for _, main in mains(home)}
        flipped = self.view.flipped & handles
        self.view = self.view.with_changes(selected=kept, level=level, picked=picked, flipped=flipped)

    # --- the hand ---------------------------------------------------------------------------------------------------

    def step(self, event: Event, reach: float) -> None:
        """Let the tool in hand take one event."""
        if self.view.level is None:
            return
        outcome = step(self.tool, event, self._context(reach))
        changed_tool = outcome.tool is not self.tool
        self.tool = outcome.tool  # type: ignore[assignment]  # `step` never returns anything but a tool
        draft_changed = outcome.draft != self.view.draft
        self.view = self.view.with_changes(draft=outcome.draft)
        if outcome.selected is not None and outcome.selected != self.view.selected:
            self.view = self.view.with_changes(selected=outcome.selected)
            changed_tool = True
        if outcome.edit is not None:
            self._apply(outcome.edit, outcome.merge, outcome.says)
        elif outcome.says:
            self.said.emit(outcome.says)
        if changed_tool or draft_changed:
            self.looked.emit()
        if outcome.name is not None:
            self.name_wanted.emit(outcome.name)

    def _context(self, reach: float) -> Context:
        return Context(home=self.history.ground, level=self.view.level or 0, selected=self.view.selected, reach=reach)

    def take(self, tool: Tool) -> None:
        """Take a tool in hand; any draft is dropped, and what a drawing tool left selected is let go."""
        left_drawing = isinstance(tool, Select) and not isinstance(self.tool, Select)
        self.tool = tool
        self.history = self.history.settled()
        self.view = self.view.with_changes(draft=None, selected=() if left_drawing else self.view.selected)
        self.looked.emit()

    def select(self, subjects: tuple[Subject, ...]) -> None:
        """Select other things."""
        self.view = self.view.with_changes(selected=subjects)
        self.looked.emit()

    def pick(self, boxes: tuple[int, ...]) -> None:
        """Pick the boxes that are to be opened."""
        self.view = self.view.with_changes(picked=boxes)
        self.tried.emit()

    def flip(self, handles: frozenset[int]) -> None:
        """Let these handles be off on the screen; the home is not touched."""
        self.view = self.view.with_changes(flipped=handles)
        self.tried.emit()

    def show_level(self, level: int) -> None:
        """Look at another level."""
        self.tool = at_rest(self.tool)
        self.view = self.view.with_changes(level=level, draft=None)
        self.looked.emit()

    # --- what a selection is for ------------------------------------------------------------------------------------

    def selected_ids(self) -> list[int]:
        """Return the ids of what is selected."""
        return [subject.id for subject in self.view.selected]

    def remove(self) -> None:
        """Remove what is selected; a room keeps its boxes."""
        self.attempt(lambda home: remove(home, self.selected_ids()))

    # --- files ------------------------------------------------------------------------------------------------------

    def save(self, path: Path) -> None:
        """Write the home to a file, which is its file from now on. Raises `CannotSave`."""
        save_home(path, self.home, self.pictures)
        self._filed = frozenset(row.hash for row in self.home.pictures)
        self.path, self.saved, self.saved_at = path, self.home, f"{datetime.now().astimezone():%H:%M}"
        self.edited.emit()


def _first_level(home: Home) -> int | None:
    """Return the level to show first: the lowest at or above ground that has rooms, else any."""
    with_rooms = {room.level for room in home.rooms}
    ranked = sorted(home.levels, key=lambda level: (level.id not in with_rooms, level.order < 0, level.order))
    return ranked[0].id if ranked else None
