"""The right button over the plan: what can be done with what is there, and at the place itself."""

from collections.abc import Callable, Iterator
from functools import partial
from math import hypot
from typing import TYPE_CHECKING

from PySide6.QtCore import QPoint, QPointF
from PySide6.QtWidgets import QMenu

from floorplan_circuits.desktop import copying
from floorplan_circuits.desktop.box_menu import rows as box_rows
from floorplan_circuits.desktop.building_menus import level_rows
from floorplan_circuits.desktop.looking_inside import box_of
from floorplan_circuits.desktop.rail import DRAW
from floorplan_circuits.desktop.session import Session
from floorplan_circuits.edits.dividing import lapped
from floorplan_circuits.edits.edited import counted
from floorplan_circuits.edits.moving import contents
from floorplan_circuits.edits.openings import a_kind, put_opening, turn_over
from floorplan_circuits.edits.walls import named, remove_corner
from floorplan_circuits.findings import XY, Subject
from floorplan_circuits.geometry.wall_spots import wall_spot
from floorplan_circuits.gestures.events import Context
from floorplan_circuits.gestures.selecting import room_at
from floorplan_circuits.home.building import Opening, Room
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import Point

if TYPE_CHECKING:
    from floorplan_circuits.desktop.work_area import WorkArea

Row = tuple[str, Callable[[], object]]
"""What a line says, and what it does. A line of no words is a rule between two groups."""
RULE: Row = ("", lambda: None)


class PlanMenu:
    """Offers what fits the place; what was clicked is selected first, so that it is seen what is meant."""

    def __init__(self, area: "WorkArea") -> None:
        self._area = area

    def offer(self, subject: Subject | None, place: QPoint) -> None:
        """Offer at a place of the screen what can be done there."""
        session = self._area.session
        if session is None or session.view.level is None:
            return
        house = self._area.canvas.to_house(QPointF(self._area.canvas.mapFromGlobal(place)))
        rows = list(self.rows(session, subject, (house.x(), house.y())))
        if rows:
            self._pop_up(rows, place)

    def offer_level(self, level: int, place: QPoint) -> None:
        """Look at a level whose button was clicked with the right button, and offer what can be done with it."""
        self._area.show_level(level)
        self._pop_up([(words.replace("&", ""), act) for words, _, act in level_rows(self._area)], place)

    def _pop_up(self, rows: list[Row], place: QPoint) -> None:
        menu = QMenu(self._area)
        for words, act in rows:
            if words:
                menu.addAction(words, act)
            else:
                menu.addSeparator()
        menu.aboutToHide.connect(menu.deleteLater)
        menu.popup(place)

    def rows(self, session: Session, subject: Subject | None, at: XY) -> Iterator[Row]:
        """Yield the lines of the menu for a subject, or for the room and the wall at a place."""
        box = box_of(session, (subject,)) if subject is not None else None
        if box is not None:
            yield f"Look inside {session.home.boxes[box].mark}", lambda: self._area.inside.look(box)
        if self._area.rail.stage != DRAW:
            return
        if box is not None:
            yield from box_rows(session, box)
        context = Context(
            session.home, session.view.level or 0, session.view.selected, self._area.canvas.reach(session.home.wall)
        )
        on = subject or room_at(at, context)
        if on is None:
            session.select(())  # what was selected elsewhere is not meant here
        elif on not in session.view.selected:
            session.select((on,))
        found = session.home.openings.get(on.id) if on is not None and on.kind == "opening" else None
        if found is not None:
            yield from self._opening_rows(session, found)
        elif subject is None or subject.kind == "room":
            yield from self._wall_rows(session, at, context)
            yield from self._room_rows(session, context)
        yield from self._any_rows(session)

    def _opening_rows(self, session: Session, found: Opening) -> Iterator[Row]:
        if found.kind == "door":
            yield "Hang the door the other way", lambda: session.attempt(lambda home: turn_over(home, found.id))

    def _wall_rows(self, session: Session, at: XY, context: Context) -> Iterator[Row]:
        """Offer what goes into the wall at a place, and to take out the corner there."""
        level, spot = context.level, wall_spot(at, context.outlines(), 2 * context.reach)
        corner = _corner_at(at, context)
        if corner is not None:
            yield "Take this corner out", lambda: session.attempt(lambda home: remove_corner(home, level, corner))
        if spot is not None:
            for kind in ("door", "window", "open way"):
                put = partial(put_opening, level=level, kind=kind, at=spot.at, angle=spot.angle)
                yield f"Put {a_kind(kind)} here", partial(session.attempt, put)
        if corner is not None or spot is not None:
            yield RULE

    def _room_rows(self, session: Session, context: Context) -> Iterator[Row]:
        rooms = [one for one in session.view.selected if one.kind == "room" and one.id in session.home.rooms]
        commands = self._area.commands
        if len(rooms) == 1:
            room = session.home.rooms[rooms[0].id]
            yield f"Name {room.name}", lambda: self._area.naming.ask(rooms[0])
            boxes = boxes_in(session.home, room)
            if boxes:
                yield f"Select the {counted(len(boxes), 'box', 'boxes')} in {room.name}", partial(session.select, boxes)
            over = _lapped(room, context)
            if over:
                yield f"Cut {room.name} back to {over}", commands.cut_back
        if len(rooms) > 1:
            yield "Join the selected rooms", commands.join

    def _any_rows(self, session: Session) -> Iterator[Row]:
        commands = self._area.commands
        if not session.view.selected:
            yield "Show all of the level", self._area.canvas.fit
            return
        yield "Fit into the window", commands.fit_selected
        if any(one.kind in ("box", "room") for one in session.view.selected):
            yield "Put down more like this", partial(copying.stamp_selected, session)
        yield "Turn a quarter", commands.turn
        yield "Mirror left to right", commands.mirror
        yield RULE
        yield "Remove", commands.remove_selected


def boxes_in(home: Home, room: Room) -> tuple[Subject, ...]:
    """Return the boxes that belong to a room: to tie them all, or to put the like down in another."""
    here = contents(home, {room.id})
    return tuple(Subject("box", box.id) for box in home.boxes if box.id in here)


def _corner_at(at: XY, context: Context) -> Point | None:
    corners = [corner for outline in context.outlines() for corner in outline]
    near = [(hypot(x - at[0], y - at[1]), (x, y)) for x, y in corners]
    nearest = min(near, default=None)
    return nearest[1] if nearest is not None and nearest[0] <= context.reach else None


def _lapped(room: Room, context: Context) -> str:
    """Return the names of the rooms that a room lies over."""
    return named(lapped(context.home, context.level, room.outline, room.id))
