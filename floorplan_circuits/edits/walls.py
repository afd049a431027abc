"""Edits of corners and walls: every room that has them follows, and so does what stands on them.

A wall that two rooms share in part is taken as far as it is shared: the rest of a longer wall stays, and the room that
has it gets a step there.
"""

from collections.abc import Callable, Sequence
from itertools import pairwise
from typing import Literal, NamedTuple

from floorplan_circuits.edits.edited import Edited, Refused, edit
from floorplan_circuits.edits.following import followed
from floorplan_circuits.edits.outlines import sound_outline
from floorplan_circuits.geometry.snapping import foot
from floorplan_circuits.home.building import Room
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.outlines import Outline
from floorplan_circuits.home.record import Point, change


class Reshaped(NamedTuple):
    """A room's outline before and after, corner for corner: those that a step needs are told twice before it."""

    before: Outline
    after: Outline


Bend = Callable[[Outline], Reshaped | None]
"""What becomes of a room's outline; None if the room has no part in it."""


@edit
def move_corner(home: Home, level: int, corner: Point, to: Point) -> Edited:
    """Move a corner of every room of the level that has it; a wall that passes there gets one, so that it stays shared.

    On a bare wall this puts a corner there. Raises `Refused` where a room would cross itself or shrink to nothing, or
    where there is no wall.
    """
    return _reshape(home, level, lambda outline: corner_moved(outline, corner, to), "Move a corner of")


@edit
def move_wall(home: Home, level: int, a: Point, b: Point, by: Point) -> Edited:
    """Move the wall from `a` to `b`, in every room that shares a part of it. Raises `Refused` as `move_corner` does."""
    return _reshape(home, level, lambda outline: wall_moved(outline, a, b, by), "Move a wall of")


@edit
def remove_corner(home: Home, level: int, corner: Point) -> Edited:
    """Take a corner out of every room of the level that has it: its two walls become one.

    Raises `Refused` where a room would cross itself or shrink to nothing, or where no room has that corner.
    """
    return _reshape(home, level, lambda outline: corner_removed(outline, corner), "Take a corner out of", corner)


def touched(home: Home, level: int, bend: Bend) -> dict[int, Reshaped]:
    """Return the rooms of a level that have a part in it, with their outlines before and after."""
    bent = ((room.id, bend(room.outline)) for room in home.rooms if room.level == level)
    return {number: one for number, one in bent if one is not None}


def _reshape(home: Home, level: int, bend: Bend, verb: str, without: Point | None = None) -> Edited:
    reshaped = touched(home, level, bend)
    if not reshaped:
        raise Refused("No room has that corner.")
    rooms = home.rooms
    for number, one in reshaped.items():
        corners = [to for at, to in zip(one.before, one.after, strict=True) if at != without]
        rooms = rooms.put(change(rooms[number], outline=sound_outline(corners)))
    boxes, openings = followed(home, level, reshaped)
    called = named([home.rooms[number] for number in reshaped])
    return Edited(change(home, rooms=rooms, boxes=boxes, openings=openings), f"{verb} {called}")


def named(rooms: Sequence[Room]) -> str:
    """Return what rooms are called, the first two by name."""
    return " and ".join(room.name for room in rooms[:2]) + (" and others" if len(rooms) > 2 else "")


# --- one outline ----------------------------------------------------------------------------------------------------


def corner_moved(outline: Outline, corner: Point, to: Point) -> Reshaped | None:
    """Return an outline with one corner elsewhere; a wall that passes the corner is bent there."""
    before = _with_corner(outline, corner)
    return Reshaped(before, tuple(to if at == corner else at for at in before)) if corner in before else None


def corner_removed(outline: Outline, corner: Point) -> Reshaped | None:
    """Return an outline in which a corner lies on the straight line between its neighbours."""
    if corner not in outline:
        return None
    place = outline.index(corner)
    x, y = foot(corner, outline[place - 1], outline[(place + 1) % len(outline)])
    return Reshaped(outline, (*outline[:place], (round(x), round(y)), *outline[place + 1 :]))


def wall_moved(outline: Outline, a: Point, b: Point, by: Point) -> Reshaped | None:
    """Return an outline with what it has of the wall from `a` to `b` moved.

    A corner on that wall whose own walls run elsewhere goes along; one where a wall in the same line goes on stays.
    """
    split = _with_corner(_with_corner(outline, a), b)
    if not any(_is_on(at, a, b) for at in split):
        return None
    sides = [_side(p, q, a, b) for p, q in pairwise((*split, split[0]))]
    before: list[Point] = []
    after: list[Point] = []
    for place, at in enumerate(split):
        gone = at[0] + by[0], at[1] + by[1]
        steps = _steps(at, gone, sides[place - 1], sides[place], _is_on(at, a, b))
        before += [at] * len(steps)
        after += steps
    return Reshaped(tuple(before), tuple(after))


def longest_wall(a: Point, b: Point, walls: Sequence[tuple[Point, Point]]) -> tuple[Point, Point]:
    """Return the wall from `a` to `b` with those of `walls` that go on from its ends in the same line.

    Examples:
        >>> longest_wall((0, 0), (4000, 0), [((4000, 0), (7000, 0)), ((4000, 0), (4000, 3000))])
        ((0, 0), (7000, 0))
    """
    for p, q in walls:
        ends = {a, b, p, q}
        if len(ends) == 3 and all(_is_in_line(at, a, b) for at in (p, q)):
            near, far = min(ends), max(ends)
            if (near, far) not in ((a, b), (b, a)):
                return longest_wall(near, far, walls)
    return a, b


Side = Literal["moves", "in line", "elsewhere"]


def _side(p: Point, q: Point, a: Point, b: Point) -> Side:
    """Return what becomes of a room's wall: it is part of the one that moves, in line with it, or neither."""
    if p == q or not (_is_in_line(p, a, b) and _is_in_line(q, a, b)):
        return "elsewhere"
    return "moves" if _is_on(p, a, b) and _is_on(q, a, b) else "in line"


def _steps(at: Point, gone: Point, came: Side, goes: Side, on_wall: bool) -> list[Point]:
    """Return where one corner goes: to two places where only one of two walls in line moves."""
    if (came, goes) == ("moves", "in line"):
        return [gone, at]
    if (came, goes) == ("in line", "moves"):
        return [at, gone]
    if "moves" in (came, goes):
        return [gone]
    return [gone] if on_wall and "in line" not in (came, goes) else [at]


def _with_corner(outline: Outline, at: Point) -> Outline:
    """Return an outline with a corner where a wall passes; the same one where none does, or has one."""
    if at in outline:
        return outline
    for place, (p, q) in enumerate(pairwise((*outline, *outline[:1]))):
        if _is_on(at, p, q):
            return (*outline[: place + 1], at, *outline[place + 1 :])
    return outline


def _is_in_line(at: Point, a: Point, b: Point) -> bool:
    """Tell whether a place lies on the line that a wall is part of, to the millimetre."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    across = (at[0] - a[0]) * dy - (at[1] - a[1]) * dx
    return across * across <= dx * dx + dy * dy


def _is_on(at: Point, a: Point, b: Point) -> bool:
    """Tell whether a place lies on a wall, its ends among it, to the millimetre."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    along = (at[0] - a[0]) * dx + (at[1] - a[1]) * dy
    return 0 <= along <= dx * dx + dy * dy and _is_in_line(at, a, b)
