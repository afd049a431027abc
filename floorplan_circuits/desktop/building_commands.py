"""Commands on rooms and levels, for the menus and the right button: each one edit on what is selected."""

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QRect

from floorplan_circuits.desktop.building_form import length_typed
from floorplan_circuits.desktop.in_place import InPlace
from floorplan_circuits.edits.dividing import clip_room, join_rooms
from floorplan_circuits.edits.edited import Edited, Refused
from floorplan_circuits.edits.levels import add_level_like, shift_level
from floorplan_circuits.edits.removal import remove
from floorplan_circuits.edits.rooms import set_wall
from floorplan_circuits.edits.turning import mirror, turn
from floorplan_circuits.findings import Subject
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.lengths import show_length

if TYPE_CHECKING:
    from floorplan_circuits.desktop.session import Session
    from floorplan_circuits.desktop.work_area import WorkArea

WALL_LINE = QRect(24, 24, 180, 28)
"""Where on the plan the thickness of walls is typed, in px."""
LAST_LEVEL = "A home has at least one level. Add another first."


class BuildingCommands:
    """Does to the session's home what a menu says."""

    def __init__(self, area: "WorkArea") -> None:
        self._area = area

    # --- what is selected -------------------------------------------------------------------------------------------

    def turn(self) -> None:
        """Turn what is selected a quarter to the right."""
        self._attempt(lambda home: turn(home, self._selected()))

    def mirror(self) -> None:
        """Mirror what is selected, left to right."""
        self._attempt(lambda home: mirror(home, self._selected()))

    def join(self) -> None:
        """Join the rooms that are selected."""
        self._attempt(lambda home: join_rooms(home, self._selected()))

    def cut_back(self) -> None:
        """Cut off what the selected room has over others."""
        self._attempt(lambda home: clip_room(home, _one_room(self._selected(), home)))

    def remove_selected(self) -> None:
        """Remove what is selected."""
        if self._area.session is not None:
            self._area.session.remove()

    def fit_selected(self) -> None:
        """Bring what is selected into sight, as large as it goes."""
        session, canvas = self._area.session, self._area.canvas
        if session is None:
            return
        rooms = [session.home.rooms[one.id] for one in session.view.selected if one.id in session.home.rooms]
        if not session.view.selected:
            self._area.say("Select something first, then fit it into the window.")
            return
        canvas.show_bounds(session.view.selected, [corner for room in rooms for corner in room.outline])

    def ask_for_wall(self) -> None:
        """Ask for the thickness of walls, over the plan: then rooms are typed and told as a tape measures them."""
        session = self._area.session
        if session is None:
            return
        units, now = session.home.units, show_length(session.home.wall, session.home.units)

        def took(words: str) -> None:
            if words.strip() != now and self._attempt(lambda home: set_wall(home, length_typed(words, units))):
                self._area.say("Rooms are typed and shown between the faces of their walls. 0 takes their middles.")

        InPlace(self._area.canvas, WALL_LINE, now, took, "How thick walls are", "0.12 m, then Enter")
        self._area.say("Type how thick walls are between two rooms, then Enter.")

    # --- levels -------------------------------------------------------------------------------------------------------

    def add_level_like(self) -> None:
        """Add a level on top that begins with the outline of the one that is looked at, and ask for its name."""
        level = self._level()
        edited = self._attempt(lambda home: add_level_like(home, f"Level {len(home.levels) + 1}", level))
        if edited is not None:
            self._area.show_level(edited.made[0])
            self._area.naming.ask(Subject("level", edited.made[0]))

    def shift_level(self, up: bool) -> None:
        """Swap the level that is looked at with the next one up or down."""
        level = self._level()
        self._attempt(lambda home: shift_level(home, level, up))

    def name_level(self) -> None:
        """Ask for the name of the level that is looked at."""
        self._area.naming.ask(Subject("level", self._level()))

    def remove_level(self) -> None:
        """Remove the level that is looked at, with its rooms and boxes. Undo brings them back."""

        def without(home: Home) -> Edited:
            if len(home.levels) < 2:
                raise Refused(LAST_LEVEL)
            return remove(home, [self._level()])

        if self._attempt(without) is not None and self._area.session is not None:
            self._area.show_level(self._level())

    # --- how ----------------------------------------------------------------------------------------------------------

    def _level(self) -> int:
        session = self._area.session
        return session.view.level or 0 if session is not None else 0

    def _selected(self) -> list[int]:
        session: Session | None = self._area.session
        return [] if session is None else session.selected_ids()

    def _attempt(self, edit: Callable[[Home], Edited]) -> Edited | None:
        return None if self._area.session is None else self._area.session.attempt(edit)


def _one_room(ids: list[int], home: Home) -> int:
    rooms = [number for number in ids if number in home.rooms]
    if len(rooms) != 1:
        raise Refused("Select the one room to cut back.")
    return rooms[0]
