"""Small plans for the tests of geometry."""

from collections.abc import Sequence
from typing import Any

from hypothesis import strategies as st

from floorplan_circuits.home.boxes import Box
from floorplan_circuits.home.building import Level, Room
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.table import Table

Outline = tuple[tuple[int, int], ...]

L_SHAPE: Outline = ((0, 0), (4000, 0), (4000, 1000), (1000, 1000), (1000, 4000), (0, 4000))
U_SHAPE: Outline = ((0, 0), (5000, 0), (5000, 4000), (4000, 4000), (4000, 1000), (1000, 1000), (1000, 4000), (0, 4000))


def rectangle(x: int, y: int, width: int, depth: int) -> Outline:
    return ((x, y), (x + width, y), (x + width, y + depth), (x, y + depth))


def plan(outlines: Sequence[Outline], boxes: Sequence[dict[str, Any]] = ()) -> Home:
    """One level, id 1; rooms from id 11 and boxes from id 101, in the order given."""
    return Home(
        next_id=1000,
        levels=Table([Level(id=1, name="Ground floor")]),
        rooms=Table(Room(id=11 + at, level=1, name=f"Room {at}", outline=one) for at, one in enumerate(outlines)),
        boxes=Table(Box(**{"id": 101 + at, "mark": f"B{at}", "level": 1, **one}) for at, one in enumerate(boxes)),
    )


@st.composite
def outlines(draw: st.DrawFn) -> Outline:
    """Rectangles, L and U shapes and triangles of a size that rooms have, anywhere on the sheet, whole millimetres."""
    x, y = draw(st.integers(-(10**6), 10**6)), draw(st.integers(-(10**6), 10**6))
    width, depth = draw(st.integers(1200, 9000)), draw(st.integers(1200, 9000))
    shape = draw(st.sampled_from([rectangle(0, 0, 6000, 6000), L_SHAPE, U_SHAPE, ((0, 0), (6000, 700), (2000, 6000))]))
    return tuple((x + px * width // 6000, y + py * depth // 6000) for px, py in shape)
