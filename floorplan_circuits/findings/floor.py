"""Walls, rooms and the pieces of floor that circuits colour."""

from dataclasses import dataclass

from floorplan_circuits.findings.common import XY


@dataclass(frozen=True, slots=True)
class Wall:
    """A straight piece of wall on the edge of one room (outer) or between two."""

    level: int
    a: XY
    b: XY
    outer: bool


@dataclass(frozen=True, slots=True)
class RoomShape:
    """A room's area in mm² and the places where its name may stand, best first (the widest empty middle)."""

    room: int
    area: float
    label_at: tuple[XY, ...]


@dataclass(frozen=True, slots=True)
class Zone:
    """A piece of floor that shows what its devices are on: `breaker`, or None for an unknown feed.

    `rings` are closed outlines, outer ones and holes alike (even-odd). `settled`: all feeds in it proved or traced.
    """

    room: int
    breaker: int | None
    rings: tuple[tuple[XY, ...], ...]
    settled: bool
