"""Findings to draw, and what the drawings are measured by: written anew from the marks, not by the code that places."""

from collections.abc import Iterator
from functools import cache
from typing import Any

from floorplan_circuits.drawing.ink import (
    Bounds,
    Group,
    Hatch,
    Mark,
    PictureMark,
    Shape,
    Stamp,
    Text,
    flat,
    path_bounds,
)
from floorplan_circuits.drawing.lettering import cap_height, width
from floorplan_circuits.drawing.plan import Plan
from floorplan_circuits.drawing.sheet import Sheet
from floorplan_circuits.drawing.symbols import bounds as symbol_bounds
from floorplan_circuits.files.open import open_home
from floorplan_circuits.find import find
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.boxes import Box, Device, Feed
from floorplan_circuits.home.building import Level, Room
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Breaker, Panel
from floorplan_circuits.home.resources import folder
from floorplan_circuits.home.table import Table
from floorplan_circuits.sheets.paper import PAPERS
from floorplan_circuits.sheets.wall_map import wall_map

SAMPLE_HOMES = ("cottage", "flat")
MADE = "2026-03-14"


@cache
def sample(name: str) -> Findings:
    """The findings of a sample home."""
    return find(open_home(folder("sample_homes") / f"{name}.json").home)


@cache
def wall_map_of(name: str, paper: str) -> Sheet:
    """The wall map of a sample home, made once for all tests."""
    return wall_map(sample(name), PAPERS[paper], MADE)


def fed(number: int, *breakers: int, said_by: Any = "label") -> Feed:
    """A feed that hangs on these breakers, or on nobody knows what."""
    supplies = tuple({"kind": "breaker", "breaker": one} for one in breakers)
    on = {"how": "any", "supplies": supplies} if breakers else {"how": "not known"}
    return Feed.model_validate({"id": number, "on": on, "said_by": said_by})


def device(number: int, *feeds: Feed, kind: str = "duplex receptacle", **fields: Any) -> Device:
    return Device(id=number, kind=kind, feeds=feeds, **fields)


def box(number: int, at: tuple[int, int] | None = None, *devices: Device, **fields: Any) -> Box:
    return Box(**{"id": number, "mark": f"B{number}", "level": 1, "at": at, "devices": devices, **fields})


def breaker(number: int, *spaces: int, half: Any = None, panel: int = 5, **fields: Any) -> Breaker:
    poles = tuple({"space": space, "half": half} for space in spaces)
    return Breaker.model_validate({"id": number, "panel": panel, "poles": poles, "amps": 15, **fields})


def home(
    boxes: tuple[Box, ...] = (), breakers: tuple[Breaker, ...] = (), rooms: tuple[Room, ...] = (), **fields: Any
) -> Home:
    """One level, id 1; one panel of 12 spaces, id 5, on its wall; what else is given."""
    panel = Panel(id=5, name="Main panel", spaces=12, level=1, at=(0, 2000), angle=0)
    return Home(
        **{
            "name": "Test house",
            "next_id": 10_000,
            "levels": Table([Level(id=1, name="Ground floor")]),
            "panels": Table([panel]),
            "boxes": Table(boxes),
            "breakers": Table(breakers),
            "rooms": Table(rooms),
            **fields,
        }
    )


def room(number: int, name: str, left: int, top: int, wide: int, deep: int, level: int = 1) -> Room:
    corners = ((left, top), (left + wide, top), (left + wide, top + deep), (left, top + deep))
    return Room(id=number, level=level, name=name, outline=corners)


# --- measuring ------------------------------------------------------------------------------------------------------


def bounds_of(mark: Mark) -> Bounds:
    """The box round a mark; lines count without their thickness."""
    boxes = [_bounds(inner) for inner in flat(mark)]
    lefts, tops, rights, bottoms = zip(*boxes, strict=True)
    return min(lefts), min(tops), max(rights), max(bottoms)


def _bounds(mark: Mark) -> Bounds:
    if isinstance(mark, Shape | Hatch):
        return path_bounds(mark.path)
    if isinstance(mark, Stamp):
        return symbol_bounds(mark.symbol, mark.at, mark.angle, mark.radius, 0.0)
    if isinstance(mark, Text):
        wide = width(mark.words, mark.size, mark.bold)
        left = mark.at[0] - {"start": 0.0, "middle": 0.5, "end": 1.0}[mark.anchor] * wide
        return left, mark.at[1] - cap_height(mark.size), left + wide, mark.at[1]
    assert isinstance(mark, PictureMark)
    return mark.bounds


def overlap(a: Bounds, b: Bounds, by: float = 0.01) -> bool:
    """Tell whether two boxes share more than a strip of `by` mm."""
    return a[0] + by < b[2] and b[0] + by < a[2] and a[1] + by < b[3] and b[1] + by < a[3]


def labels_of(drawn: Plan) -> Iterator[Group]:
    """The labels of boxes and rooms: groups about one of them that no screen reader is told of."""
    for mark in drawn.ink.marks:
        if isinstance(mark, Group) and mark.subject and mark.subject.kind in ("box", "room") and not mark.name:
            yield mark


def symbols_of(drawn: Plan) -> Iterator[Group]:
    """What stands for the boxes themselves, with the words for a screen reader."""
    for mark in drawn.ink.marks:
        if isinstance(mark, Group) and mark.subject and mark.subject.kind == "box" and mark.name:
            yield mark


def words_in(mark: Mark) -> list[str]:
    """All words in a mark, in the order they are drawn."""
    return [inner.words for inner in flat(mark) if isinstance(inner, Text)]
