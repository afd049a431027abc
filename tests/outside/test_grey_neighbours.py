"""Circuits that meet, told apart on a grey page as pdfium draws it: by how grey they are, or by how their lines run.

Where the floors are is known from what was asked for; what they look like there is measured from the picture.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

import numpy as np
import pypdfium2 as pdfium
import pytest
from shapely import LineString, Point, Polygon
from shapely import box as rectangle

from floorplan_circuits.drawing.frame import Frame
from floorplan_circuits.drawing.ink import Group, Shape, Stamp, Text, flat, moved
from floorplan_circuits.drawing.palette import GREY
from floorplan_circuits.drawing.plan import plan
from floorplan_circuits.drawing.sheet import Page, Sheet
from floorplan_circuits.drawing.shown_zones import shown_floor
from floorplan_circuits.findings import Findings
from floorplan_circuits.surfaces.pdf import pdf_of
from tests.drawing.drawn import bounds_of, sample

SCALE, EDGE_MM = 60.0, 10.0
DPI = 110
PIXELS_A_MM = DPI / 25.4
PATCH_MM = 4.4
"""A square that holds at least one line of any hatch, whose lines lie 2.4 mm apart."""
GREY_STEP = 2.0
"""Of 255: the least by which two plain floors must differ, measured as the median of the patch."""
TURNED = 30.0
"""Degrees: the least between lines that run in two ways; hatches run 45 degrees apart."""
LINED = 12.0
"""The least spread of grey in a patch with lines, of 255."""


@dataclass(frozen=True)
class Floor:
    breaker: int
    outline: Polygon


def printed_plan(findings: Findings, level: int) -> tuple[np.ndarray, list[Floor], list[Polygon]]:
    """A level on grey paper as a picture, its floors, and everything that stands on them, in mm of the page."""
    drawn = plan(findings, level, SCALE, GREY)
    left, top, right, bottom = drawn.bounds
    ink = moved(drawn.ink, EDGE_MM - left, EDGE_MM - top)
    assert isinstance(ink, Group)
    page = Page(right - left + 2 * EDGE_MM, bottom - top + 2 * EDGE_MM, ink, "plan")
    picture = pdfium.PdfDocument(pdf_of(Sheet("plan", (page,))))[0].render(scale=DPI / 72, grayscale=True).to_numpy()
    floors = []
    for zone in shown_floor(Frame(findings, level, SCALE, GREY)).zones:
        outline = Polygon()
        for ring in zone.rings:
            place = Polygon([(x / SCALE + EDGE_MM - left, y / SCALE + EDGE_MM - top) for x, y in ring])
            outline = outline.symmetric_difference(place)  # type: ignore[assignment]
        floors += [Floor(zone.breaker, outline)] if zone.breaker is not None else []
    return picture.reshape(picture.shape[:2]), floors, list(_things(ink))


def _things(ink: Group) -> Iterator[Polygon]:
    for mark in flat(ink):
        if isinstance(mark, Text | Stamp):
            yield rectangle(*bounds_of(mark)).buffer(0.7)
        elif isinstance(mark, Shape) and mark.pen is not None:
            yield from (LineString(points).buffer(0.9) for points in _rings(mark) if len(points) > 1)
        elif isinstance(mark, Shape) and _is_small(mark):
            yield rectangle(*bounds_of(mark)).buffer(0.7)


def _is_small(mark: Shape) -> bool:
    left, top, right, bottom = bounds_of(mark)
    return (right - left) * (bottom - top) < 60


def _rings(mark: Shape) -> list[list[tuple[float, float]]]:
    rings: list[list[tuple[float, float]]] = []
    for letter, numbers in mark.path:
        if letter == "M":
            rings.append([])
        if letter in "MLC":
            rings[-1].append((numbers[-2], numbers[-1]))
    return rings


def patch_in(floor: Floor, things: list[Polygon]) -> tuple[float, float] | None:
    """The middle of a square that lies in a floor and holds nothing else."""
    left, top, right, bottom = floor.outline.bounds
    for y in np.arange(top + PATCH_MM / 2, bottom, 0.8):
        for x in np.arange(left + PATCH_MM / 2, right, 0.8):
            square = Point(x, y).buffer(PATCH_MM / 2, cap_style="square")
            if floor.outline.contains(square) and not any(square.intersects(thing) for thing in things):
                return float(x), float(y)
    return None


def look_of(picture: np.ndarray, at: tuple[float, float]) -> tuple[float, float | None]:
    """How grey a patch is, and which way its lines run in degrees, if it has any."""
    half = PATCH_MM / 2
    rows = slice(round((at[1] - half) * PIXELS_A_MM), round((at[1] + half) * PIXELS_A_MM))
    columns = slice(round((at[0] - half) * PIXELS_A_MM), round((at[0] + half) * PIXELS_A_MM))
    patch = picture[rows, columns].astype(float)
    if patch.max() - patch.min() < LINED:
        return float(np.median(patch)), None
    down, across = np.gradient(patch)
    way = 0.5 * np.degrees(np.arctan2(2 * (across * down).sum(), (across**2 - down**2).sum()))
    return float(np.median(patch)), float(way)


def told_apart(one: tuple[float, float | None], other: tuple[float, float | None]) -> bool:
    """Whether two patches differ: in grey, in having lines, or in the way these run."""
    if abs(one[0] - other[0]) >= GREY_STEP or (one[1] is None) != (other[1] is None):
        return True
    if one[1] is None or other[1] is None:
        return False
    turned = abs(one[1] - other[1]) % 180
    return min(turned, 180 - turned) >= TURNED


def meeting(floors: list[Floor]) -> Iterator[tuple[Floor, Floor]]:
    """Every two floors of two circuits with more than 3 mm of edge between them."""
    for one, other in combinations(floors, 2):
        if one.breaker != other.breaker and one.outline.buffer(0.2).intersection(other.outline.boundary).length > 3.0:
            yield one, other


@pytest.mark.parametrize("home", ["cottage", "flat", "house"])
def test_circuits_that_meet_differ_on_grey_paper(home: str) -> None:
    findings, seen, alike = sample(home), 0, []
    for level in findings.home.levels:
        picture, floors, things = printed_plan(findings, level.id)
        places = {id(floor): patch_in(floor, things) for floor in floors}
        for one, other in meeting(floors):
            a, b = places[id(one)], places[id(other)]
            if a is not None and b is not None:
                seen += 1
                looks = look_of(picture, a), look_of(picture, b)
                pair = findings.marks[one.breaker], findings.marks[other.breaker]
                alike += [] if told_apart(*looks) else [(pair, looks)]
    assert seen >= 8
    assert alike == []


def test_two_patches_of_one_look_would_be_found() -> None:
    plain, lined = (200.0, None), (200.0, 45.0)
    assert not told_apart(plain, (200.5, None))
    assert not told_apart(lined, (200.0, 50.0))
    assert told_apart(plain, lined)
    assert told_apart(lined, (200.0, 90.0))
