"""Turning and mirroring: rooms with all that is in them, boxes, openings, stairs and panels, round their middle."""

from collections.abc import Callable, Iterable

from floorplan_circuits.edits.edited import Edited, Refused, edit
from floorplan_circuits.edits.moving import PLACED, contents, shifted
from floorplan_circuits.home.building import Opening, Room
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import Point, Record, change

OTHER_HAND = {"left": "right", "right": "left", "none": "none"}

Place = Callable[[Point], Point]
Way = Callable[[int], int]


@edit
def turn(home: Home, ids: Iterable[int], quarters: int = 1) -> Edited:
    """Turn what is named, with all that is in rooms, clockwise by quarter turns round its middle.

    Raises `Refused` where nothing of it has a place on the plan, or it is on several levels.
    """
    named = set(ids)
    after, rows = home, _going(home, named)
    for _ in range(quarters % 4):
        after = _placed(after, rows, _quarter(_bounds(after, named)), lambda angle: (angle + 90) % 360)
    return Edited(after, "Turn what is selected")


def _quarter(bounds: tuple[int, int, int, int]) -> Place:
    """Return where a place goes in a quarter turn; of four turns nothing is left, to the millimetre."""
    left, top, right, bottom = bounds
    aside = int(((right - left) - (bottom - top)) / 2)  # cut off towards 0, so that the next turn takes it back
    return lambda at: (left + aside + bottom - at[1], top - aside + at[0] - left)


@edit
def mirror(home: Home, ids: Iterable[int]) -> Edited:
    """Mirror what is named, with all that is in rooms, left to right about its middle; doors change their hand.

    The gangs of a box keep their order: it is what a person sees who stands before it. Raises `Refused` as `turn` does.
    """
    named = set(ids)
    rows, (left, _, right, _) = _going(home, named), _bounds(home, named)
    after = _placed(home, rows, lambda at: (left + right - at[0], at[1]), lambda angle: (180 - angle) % 360, OTHER_HAND)
    return Edited(after, "Mirror what is selected")


def _going(home: Home, named: set[int]) -> set[int]:
    """Return the ids of all that goes along with what is named. Raises `Refused` for things of several levels."""
    levels = {row.level for name in PLACED for row in getattr(home, name) if row.id in named and _corners(row)}
    if len(levels) > 1:
        raise Refused("Choose things of one level to turn.")
    return named | contents(home, named)


def _bounds(home: Home, named: set[int]) -> tuple[int, int, int, int]:
    """Return left, top, right and bottom of what is named. Raises `Refused` where nothing has a place."""
    rows = (row for name in PLACED for row in getattr(home, name) if row.id in named)
    corners = [corner for row in rows for corner in _corners(row)]
    if not corners:
        raise Refused("Choose something on the plan to turn.")
    xs, ys = zip(*corners, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def _corners(row: Record) -> tuple[Point, ...]:
    if isinstance(row, Room):
        return row.outline
    at: Point | None = getattr(row, "at", None)
    return () if at is None else (at,)


def _placed(home: Home, ids: set[int], place: Place, way: Way, hands: dict[str, str] | None = None) -> Home:
    tables = {}
    for name in PLACED:
        table = getattr(home, name)
        for row in table:
            if row.id in ids and _corners(row):
                table = table.put(_turned(row, place, way, hands))
        tables[name] = table
    return change(home, **tables)


def _turned(row: Record, place: Place, way: Way, hands: dict[str, str] | None) -> Record:
    if isinstance(row, Room):
        return change(row, outline=tuple(_on_sheet(place(corner)) for corner in row.outline))
    fields: dict[str, object] = {"at": _on_sheet(place(row.at)), "angle": way(row.angle)}  # type: ignore[attr-defined]  # all but rooms have both
    if hands is not None and isinstance(row, Opening):
        fields["hinge"] = hands[row.hinge]
    return change(row, **fields)


def _on_sheet(at: Point) -> Point:
    return shifted(at, (0, 0))
