"""The drawing of the building: levels, rooms, wall openings, stairs."""

from typing import Annotated, Literal

from pydantic import Field

from floorplan_circuits.home.record import Angle, Id, Mm, Name, Pixels, Point, Record
from floorplan_circuits.home.references import LevelIfAnyRef, LevelRef

Size = Annotated[int, Field(ge=1, le=10**6)]
"""A width or depth in millimetres: at least one, at most a kilometre."""


class Underlay(Record):
    """A picture under a level to draw over: its top left corner, the width it stands for, how it is turned.

    It is turned clockwise about that corner by `angle` degrees and `hundredths` of a degree more: over the length of a
    house a whole degree is a wall's thickness and more.
    """

    picture: str = Field(max_length=64)
    pixels: Pixels = (0, 0)
    at: Point = (0, 0)
    width: Size
    angle: Angle = 0
    hundredths: int = Field(default=0, ge=0, le=99)
    opacity_percent: int = Field(default=40, ge=0, le=100)
    locked: bool = False


class Level(Record):
    """One storey, basement, garage floor or attic. `order` counts upwards, 0 the ground."""

    id: Id
    name: Name
    order: int = Field(default=0, ge=-20, le=200)
    underlay: Underlay | None = None


class Room(Record):
    """A room: a simple polygon of interior faces' centre lines, in millimetres."""

    id: Id
    level: LevelRef
    name: Name
    use: Name = ""
    outline: tuple[Point, ...] = Field(max_length=1000)


class Opening(Record):
    """A door, a window or an open way in a wall: its middle, width, and where it faces.

    `hinge` and `swing` are told as seen by somebody who looks where the opening faces.
    """

    id: Id
    level: LevelRef
    kind: Literal["door", "window", "open way"]
    at: Point
    width: Size
    angle: Angle
    hinge: Literal["left", "right", "none"] = "none"
    swing: Literal["ahead", "behind", "none"] = "none"


class Stair(Record):
    """A flight of stairs: the middle of its lowest step, which way it climbs, and the levels it joins."""

    id: Id
    level: LevelRef
    head: LevelIfAnyRef | None = None
    at: Point
    angle: Angle
    width: Size = 900
    run: Size = 3000


Height = Annotated[Mm, Field(ge=-10_000, le=100_000)]
"""Height of a box above its floor, in millimetres."""
