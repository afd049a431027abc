"""The tools that the building is drawn with, as the palette shows them: a name, a key, a few strokes."""

from floorplan_circuits.gestures.dividing_rooms import DivideRoom
from floorplan_circuits.gestures.drawing_rooms import DrawRoom
from floorplan_circuits.gestures.notching import NotchRoom
from floorplan_circuits.gestures.putting_openings import PutOpening
from floorplan_circuits.gestures.putting_stairs import PutStairs
from floorplan_circuits.gestures.selecting import Select
from floorplan_circuits.gestures.step import BUILDING_KEYS, Tool
from floorplan_circuits.gestures.switching import DrawSwitching

Strokes = tuple[tuple[tuple[float, float], ...], ...]
"""Lines in px round the middle of a cell."""

NAMES = {DrawRoom: "room", DivideRoom: "divide", NotchRoom: "notch", PutStairs: "stairs", DrawSwitching: "switching"}

ARROW: Strokes = (((-5, -8), (6, 2), (0, 3), (-5, -8)),)
ROOM: Strokes = (((-11, -8), (11, -8), (11, 8), (-11, 8), (-11, -8)),)
STROKES: dict[str, Strokes] = {
    "select": ARROW,
    "room": ROOM,
    "divide": (*ROOM, ((2, -12), (2, -6)), ((2, -3), (2, 3)), ((2, 6), (2, 12))),
    "notch": (((-11, -8), (-3, -8), (-3, -1), (5, -1), (5, -8), (11, -8), (11, 8), (-11, 8), (-11, -8)),),
    "door": (((-13, 6), (-7, 6)), ((7, 6), (13, 6)), ((-7, 6), (-7, -8)), ((-7, -8), (0, -6), (5, -1), (7, 6))),
    "window": (
        ((-13, 0), (-9, 0)), ((9, 0), (13, 0)), ((-9, 0), (9, 0)),
        ((-9, -3), (9, -3), (9, 3), (-9, 3), (-9, -3)),
    ),
    "open way": (((-13, 0), (-7, 0)), ((7, 0), (13, 0)), ((-7, -3), (-7, 3)), ((7, -3), (7, 3))),
    "switching": (
        ((-13, 8), (-12, 3)), ((-10, -1), (-7, -4)), ((-4, -6), (0, -7)), ((3, -6), (6, -4)),
        ((9, -3), (13, -1), (14, 3), (13, 7), (9, 9), (5, 7), (4, 3), (5, -1), (9, -3)),
    ),
    "stairs": (
        ((-12, -6), (12, -6), (12, 6), (-12, 6), (-12, -6)),
        ((-6, -6), (-6, 6)), ((0, -6), (0, 6)), ((6, -6), (6, 6)),
    ),
}  # fmt: skip


def name_of(tool: Tool) -> str:
    """Return what the palette calls a building tool."""
    return tool.kind if isinstance(tool, PutOpening) else NAMES.get(type(tool), "select")


def building_tools() -> list[tuple[Tool, str, str]]:
    """Return the tools with their names and keys, in the order of the palette."""
    return [(Select(), "select", "esc"), *((tool, name_of(tool), key) for key, tool in BUILDING_KEYS.items())]


def strokes(tool: Tool) -> Strokes:
    """Return the lines that a tool's cell shows."""
    return STROKES[name_of(tool)]
