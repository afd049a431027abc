"""Where the picture under a level lies: its corners in house millimetres, and how it is moved, sized and turned."""

from dataclasses import dataclass
from math import atan2, cos, degrees, hypot, radians, sin

from floorplan_circuits.home.building import Underlay
from floorplan_circuits.home.record import change

Place = tuple[float, float]
"""A place in house mm."""


def turned_by(underlay: Underlay) -> float:
    """Return by how many degrees the picture is turned, clockwise."""
    return underlay.angle + underlay.hundredths / 100


def size(underlay: Underlay) -> Place:
    """Return the width and height the picture stands for, in mm; a square where its pixels are not written down."""
    across, down = underlay.pixels
    return float(underlay.width), underlay.width * (down / across if across and down else 1.0)


def corners(underlay: Underlay) -> tuple[Place, Place, Place, Place]:
    """Return where the picture's corners lie, from its top left clockwise.

    Examples:
        >>> corners(Underlay(picture="ab", pixels=(200, 100), at=(0, 0), width=8000, angle=90))[2]
        (-4000.0, 8000.0)
    """
    wide, high = size(underlay)
    x, y = (place(underlay, (wide, 0.0)), place(underlay, (0.0, high)))
    return place(underlay, (0.0, 0.0)), x, place(underlay, (wide, high)), y


def place(underlay: Underlay, on_picture: Place) -> Place:
    """Return the house place of a place on the picture, in mm from its top left corner along its own sides."""
    x, y = _turned(on_picture, turned_by(underlay))
    return underlay.at[0] + x, underlay.at[1] + y


def on_picture(underlay: Underlay, at: Place) -> Place:
    """Return the place on the picture, in mm along its own sides, that lies at a house place."""
    return _turned((at[0] - underlay.at[0], at[1] - underlay.at[1]), -turned_by(underlay))


def _turned(at: Place, angle: float) -> Place:
    """Turn clockwise about the origin; exact for quarters, which are most of all turns."""
    quarter = {0.0: (1.0, 0.0), 90.0: (0.0, 1.0), 180.0: (-1.0, 0.0), 270.0: (0.0, -1.0)}.get(angle % 360)
    c, s = quarter if quarter is not None else (cos(radians(angle)), sin(radians(angle)))
    return at[0] * c - at[1] * s, at[0] * s + at[1] * c


@dataclass(frozen=True, slots=True)
class Lean:
    """How a line between two places leans: `from_level` degrees past level or upright, whichever is nearer."""

    length: float
    from_level: float


def lean(a: Place, b: Place) -> Lean:
    """Return the length of a line and by how much it must be turned back, in degrees from −45 up to 45.

    Examples:
        >>> lean((0, 0), (1000, 0)).from_level, lean((0, 0), (5, 1000)).from_level < 0
        (0.0, True)
    """
    across, down = b[0] - a[0], b[1] - a[1]
    past = degrees(atan2(down, across))
    return Lean(hypot(across, down), (past + 45) % 90 - 45)


def placed(underlay: Underlay, width: float, angle: float, fixed: Place) -> Underlay:
    """Return the picture made so wide (mm) and turned so far (degrees), with what lies at `fixed` kept where it is.

    Width and angle are rounded first, so that rounding moves what is fixed by less than a millimetre. Raises
    `pydantic.ValidationError` for a width that no picture can have.
    """
    held = on_picture(underlay, fixed)
    hundredths = round(angle * 100) % 36_000
    wider = change(underlay, width=round(width), angle=hundredths // 100, hundredths=hundredths % 100, at=(0, 0))
    grown = wider.width / underlay.width
    x, y = place(wider, (held[0] * grown, held[1] * grown))
    return change(wider, at=(round(fixed[0] - x), round(fixed[1] - y)))
