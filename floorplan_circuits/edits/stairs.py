"""Edits of stairs: a flight put on a level, and the level that its head reaches."""

from floorplan_circuits.edits.edited import Edited, Refused, edit, only, there
from floorplan_circuits.edits.numbering import counter
from floorplan_circuits.home.building import Stair
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import Point, change

OF_A_STAIR = frozenset({"head", "width", "run", "angle"})
LEAST_RUN_MM, MOST_RUN_MM, LEAST_WIDTH_MM, MOST_WIDTH_MM = 500, 15_000, 400, 5_000


@edit
def put_stair(home: Home, level: int, at: Point, angle: int, run: int = 3000, width: int = 900) -> Edited:
    """Put a flight of stairs whose lowest step is at a place; its head reaches the next level up, if there is one.

    Raises `Refused` for a flight that is too small or too large.
    """
    there(home.levels, level, "level")
    _fits(run, width)
    ids = counter(home)
    row = Stair(
        id=ids.new(), level=level, head=level_above(home, level), at=at, angle=angle % 360, width=width, run=run
    )
    return Edited(change(home, stairs=home.stairs.put(row), next_id=ids.next_id), "Put stairs", (row.id,))


def level_above(home: Home, level: int) -> int | None:
    """Return the level next above another, or None."""
    order = home.levels[level].order
    higher = [other for other in home.levels if other.order > order]
    return min(higher, key=lambda other: other.order).id if higher else None


@edit
def set_stair(home: Home, stair: int, **fields: object) -> Edited:
    """Change a flight's head, width, run or angle. Raises `Refused` for a head on its own level, or an odd size."""
    only(fields, OF_A_STAIR)
    found = there(home.stairs, stair, "flight of stairs")
    changed = change(found, **fields)
    _fits(changed.run, changed.width)
    if changed.head is not None and changed.head == found.level:
        raise Refused("Stairs lead to another level.")
    if changed.head is not None:
        there(home.levels, changed.head, "level")
    return Edited(change(home, stairs=home.stairs.put(changed)), "Edit stairs")


def _fits(run: int, width: int) -> None:
    if not LEAST_RUN_MM <= run <= MOST_RUN_MM:
        raise Refused("A flight of stairs is 0.5 to 15 m long on the plan. Drag from its lowest step to its highest.")
    if not LEAST_WIDTH_MM <= width <= MOST_WIDTH_MM:
        raise Refused("A flight of stairs is 0.4 to 5 m wide.")
