"""Edits of openings: doors, windows and open ways put in a wall, moved along it, made wider, turned over."""

from collections.abc import Sequence
from itertools import pairwise
from math import atan2, cos, degrees, hypot, radians, sin
from typing import NamedTuple

from floorplan_circuits.edits.edited import Edited, Refused, counted, edit, only, there
from floorplan_circuits.edits.numbering import counter
from floorplan_circuits.geometry.snapping import foot
from floorplan_circuits.geometry.wall_spots import ON_WALL_MM
from floorplan_circuits.home.building import Opening
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.lengths import Units, show_length
from floorplan_circuits.home.outlines import Outline
from floorplan_circuits.home.record import Point, change

WIDTHS = {
    "metric": {"door": 800, "window": 1200, "open way": 900},
    "feet and inches": {"door": 813, "window": 914, "open way": 914},
}
"""How wide an opening is that nobody measured: 32 and 36 inches where inches are used. Common practice, no source."""
LEAST_MM, MOST_MM = 200, 20_000
OF_AN_OPENING = frozenset({"kind", "width", "hinge", "swing"})
TURNS = (("left", "ahead"), ("right", "ahead"), ("right", "behind"), ("left", "behind"))
"""The four ways a door can hang, in the order that turning it over goes through."""


class Place(NamedTuple):
    """Where an opening goes: its middle, which way it faces, and the side its hinges are nearer to a corner."""

    at: Point
    angle: int
    hinge: str


@edit
def put_opening(home: Home, level: int, kind: str, at: Point, angle: int, width: int = 0) -> Edited:
    """Put a door, window or open way in the wall at a place; a door opens the way it faces, against the nearer corner.

    `width` 0 takes the usual one. Raises `Refused` where there is no wall, it is too short, or has an opening there.
    """
    there(home.levels, level, "level")
    wide, ids = width or WIDTHS[home.units].get(kind, 0), counter(home)
    place = _placed(home, level, at, angle, wide)
    row = Opening.model_validate({"id": ids.new(), "level": level, "kind": kind, "at": place.at, "width": wide,
                                  "angle": place.angle, **_hung(kind, place)})  # fmt: skip
    made = change(home, openings=home.openings.put(row), next_id=ids.next_id)
    return Edited(made, f"Put {a_kind(kind)} of {show_length(wide, home.units)}", (row.id,))


@edit
def put_openings(home: Home, level: int, kind: str, places: Sequence[tuple[Point, int, int]]) -> Edited:
    """Put one at each place (where, which way it faces, how wide): those that find no room in their wall are left out.

    Raises `Refused` as `put_opening` does, where none of them can be put.
    """
    after, made, refused = home, list[int](), Refused(f"Drag along a wall or across one to put {a_kind(kind)}.")
    for at, angle, width in places:
        try:
            put = put_opening(after, level, kind, at, angle, width)
        except Refused as error:
            refused = error
        else:
            after, made = put.home, [*made, *put.made]
    if not made:
        raise refused
    if len(made) == 1:
        return Edited(
            after, f"Put {a_kind(kind)} of {show_length(after.openings[made[0]].width, home.units)}", tuple(made)
        )
    return Edited(after, f"Put {counted(len(made), kind)}", tuple(made))


def _hung(kind: str, place: Place) -> dict[str, str]:
    return {"hinge": place.hinge, "swing": "ahead"} if kind == "door" else {}


def a_kind(kind: str) -> str:
    """Return what an opening is, with its article.

    Examples:
        >>> a_kind("door"), a_kind("open way")
        ('a door', 'an open way')
    """
    return f"an {kind}" if kind[:1] in "aeiou" else f"a {kind}"


@edit
def move_opening(home: Home, opening: int, at: Point, angle: int | None = None) -> Edited:
    """Put an opening at another place of a wall. Raises `Refused` as `put_opening` does."""
    found = there(home.openings, opening, "opening")
    place = _placed(home, found.level, at, found.angle if angle is None else angle, found.width, found.id)
    moved = change(found, at=place.at, angle=place.angle)
    return Edited(change(home, openings=home.openings.put(moved)), f"Move {a_kind(found.kind)}")


@edit
def set_opening(home: Home, opening: int, **fields: object) -> Edited:
    """Change an opening's kind, width, hinge or swing. Raises `Refused` where it would not fit its wall."""
    only(fields, OF_AN_OPENING)
    found = there(home.openings, opening, "opening")
    if isinstance(wide := fields.get("width"), int):
        _within(wide, home)
    changed = change(found, **fields)
    if changed.width != found.width:
        place = _placed(home, found.level, found.at, found.angle, changed.width, found.id)
        changed = change(changed, at=place.at)
    if changed.kind != "door":
        changed = change(changed, hinge="none", swing="none")
    elif "none" in (changed.hinge, changed.swing):
        changed = change(changed, hinge="left", swing="ahead")
    return Edited(change(home, openings=home.openings.put(changed)), f"Edit {a_kind(changed.kind)}")


@edit
def turn_over(home: Home, opening: int) -> Edited:
    """Hang a door the next of its four ways. Raises `Refused` for what is no door."""
    found = there(home.openings, opening, "opening")
    if found.kind != "door":
        raise Refused("Only a door has hinges to turn over.")
    now = (found.hinge, found.swing)
    hinge, swing = TURNS[(TURNS.index(now) + 1) % len(TURNS)] if now in TURNS else TURNS[0]
    return Edited(change(home, openings=home.openings.put(change(found, hinge=hinge, swing=swing))), "Turn a door over")


# --- where it goes --------------------------------------------------------------------------------------------------


def _within(width: int, home: Home) -> None:
    """Raise `Refused` for a width that no opening has."""
    if not LEAST_MM <= width <= MOST_MM:
        raise Refused(f"An opening is {show_length(LEAST_MM, home.units)} to {show_length(MOST_MM, home.units)} wide.")


def _placed(home: Home, level: int, at: Point, angle: int, width: int, but: int = 0) -> Place:
    """Return the place in the wall nearest to `at` that takes the width. Raises `Refused`."""
    _within(width, home)
    outlines = [room.outline for room in home.rooms if room.level == level]
    wall = wall_through(at, outlines)
    if wall is None:
        raise Refused("Click a wall: an opening stands in one.")
    a, b = wall
    length = hypot(b[0] - a[0], b[1] - a[1])
    if length < width:
        raise Refused(_too_short(length, home.units))
    along = min(max(hypot(at[0] - a[0], at[1] - a[1]), width / 2), length - width / 2)
    middle = round(a[0] + (b[0] - a[0]) * along / length), round(a[1] + (b[1] - a[1]) * along / length)
    others = (one for one in home.openings if one.level == level and one.id != but)
    if any(_meet(middle, width, one, a, b) for one in others):
        raise Refused("There is an opening already. Click beside it, or type a smaller width.")
    return Place(middle, _square_to(a, b, angle), _nearer_hinge(a, b, angle, along, length))


def _too_short(length: float, units: Units) -> str:
    return f"This wall is {show_length(int(length), units)} long: type a smaller width."


def wall_through(at: Point, outlines: Sequence[Outline]) -> tuple[Point, Point] | None:
    """Return the shortest straight wall that passes a place: of two rooms' walls the part that both have."""
    found = [
        (hypot(b[0] - a[0], b[1] - a[1]), a, b)
        for outline in outlines
        for a, b in pairwise((*outline, outline[0]))
        for x, y in [foot(at, a, b)]
        if a != b and hypot(x - at[0], y - at[1]) <= ON_WALL_MM
    ]
    shortest = min(found, default=None)
    return None if shortest is None else shortest[1:]


def _meet(at: Point, width: int, other: Opening, a: Point, b: Point) -> bool:
    """Tell whether two openings of one wall take the same place."""
    x, y = foot(other.at, a, b)
    apart = hypot(other.at[0] - at[0], other.at[1] - at[1])
    return hypot(x - other.at[0], y - other.at[1]) <= ON_WALL_MM and apart < (width + other.width) / 2 - 1


def _square_to(a: Point, b: Point, angle: int) -> int:
    """Return the way square to a wall that is nearest to `angle`."""
    along = degrees(atan2(b[1] - a[1], b[0] - a[0]))
    one = round(along + 90) % 360
    return one if cos(radians(one - angle)) >= 0 else (one + 180) % 360


def _nearer_hinge(a: Point, b: Point, angle: int, along: float, length: float) -> str:
    """Return the side of the nearer end of the wall, as seen by somebody who looks where the opening faces.

    A door opens against the wall beside it: common practice, no source.
    """
    facing = _square_to(a, b, angle)
    towards_a = along <= length / 2
    end = a if towards_a else b
    middle = a[0] + (b[0] - a[0]) * along / length, a[1] + (b[1] - a[1]) * along / length
    ahead = cos(radians(facing)), sin(radians(facing))
    turn = ahead[0] * (end[1] - middle[1]) - ahead[1] * (end[0] - middle[0])  # y is down: below 0 is on the left
    return "left" if turn < 0 else "right"
