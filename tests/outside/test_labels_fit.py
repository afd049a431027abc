"""Labels on the printed plan: none covers anything, and few find no room. Counted from ink and again from the PDF.

What meets is asked of shapely, not of the code that places; words on the page are read back by pdfplumber.
The bound of one in a hundred is our own. Over 200 random homes of 40 to 160 devices on tabloid paper 216 of 22 525
plates (0.96 %), those of 152 of 18 362 boxes, are not on the plan; a list beside it tells all of them.
"""

from collections import Counter
from collections.abc import Iterator
from functools import cache
from io import BytesIO

import pdfplumber
import pytest
import shapely

from floorplan_circuits.drawing.frame import Frame
from floorplan_circuits.drawing.ink import Bounds, Group, Text
from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.drawing.plan import DOTS_FROM, Plan, plan
from floorplan_circuits.drawing.plan_boxes import plates_of
from floorplan_circuits.drawing.plan_walls import wall_segments
from floorplan_circuits.drawing.plates import PLATE_SIZE
from floorplan_circuits.drawing.sheet import Page, Sheet
from floorplan_circuits.files.open import open_home
from floorplan_circuits.find import find
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.resources import folder
from floorplan_circuits.sheets.paper import PAPERS
from floorplan_circuits.sheets.wall_map import wall_map
from floorplan_circuits.surfaces.collect import CollectingSurface
from floorplan_circuits.surfaces.pdf import pdf_of
from tests.drawing.drawn import MADE, bounds_of, labels_of, symbols_of
from tests.homes import generate

SAMPLES = tuple(sorted(path.stem for path in folder("sample_homes").glob("*.json")))
SAMPLES_ON_PAPERS = [(name, paper) for name in SAMPLES for paper in PAPERS]
SEEDS = range(16)
LOST_AT_MOST = 0.01
HAIR_MM = 0.01
POINTS_A_MM = 72 / 25.4  # PDF 32000-1: a unit of user space is 1/72 inch


@cache
def sample(name: str) -> Findings:
    return find(open_home(folder("sample_homes") / f"{name}.json").home)


@cache
def printed(name: str, paper: str) -> Sheet:
    return wall_map(sample(name), PAPERS[paper], MADE)


def levels_on(sheet: Sheet) -> Iterator[tuple[int, Page, Group]]:
    """Each level's id, the page it is on, and its ink there."""
    for page in sheet.pages:
        for group in _groups(page.ink):
            if group.subject is not None and group.subject.kind == "level":
                yield group.subject.id, page, group


def _groups(mark: object) -> Iterator[Group]:
    if isinstance(mark, Group):
        yield mark
        for inner in mark.marks:
            yield from _groups(inner)


def scale_of(page: Page, paper: str) -> float:
    """The scale the plan was made for: the one the page says, but for how much larger all is drawn on large paper."""
    (said,) = {mark.words for mark in collected(page, page.ink) if isinstance(mark, Text) and mark.words[:2] == "1:"}
    return int(said[2:]) * PAPERS[paper].magnify


def collected(page: Page, ink: object) -> list[object]:
    surface = CollectingSurface()
    assert isinstance(ink, Group)
    surface.page(page.width, page.height, ink)
    return list(surface.pages[0].marks)


# --- nothing covers anything ----------------------------------------------------------------------------------------


def plans_of(name: str, paper: str) -> Iterator[tuple[Plan, Frame]]:
    for level, page, _ in levels_on(printed(name, paper)):
        scale = scale_of(page, paper)
        yield plan(sample(name), level, scale, PAPER), Frame(sample(name), level, scale, PAPER)


def within(bounds: Bounds) -> shapely.Polygon:
    left, top, right, bottom = bounds
    return shapely.box(left + HAIR_MM, top + HAIR_MM, right - HAIR_MM, bottom - HAIR_MM)


def meeting(labels: list[shapely.Polygon], others: list[shapely.Geometry]) -> set[tuple[int, int]]:
    first, second = shapely.STRtree(others).query(labels, predicate="intersects")
    return set(zip(first.tolist(), second.tolist(), strict=True))


@pytest.mark.parametrize(("name", "paper"), SAMPLES_ON_PAPERS)
def test_at_the_printed_scale_no_label_covers_a_label_a_symbol_or_a_wall(name: str, paper: str) -> None:
    for made, frame in plans_of(name, paper):
        labels = [within(bounds_of(label)) for label in labels_of(made)]
        symbols = [within(bounds_of(symbol)) for symbol in symbols_of(made)]
        walls = [shapely.LineString([wall.a, wall.b]).buffer(wall.half) for wall in wall_segments(frame)]

        assert len(labels) > 10
        assert made.scale < DOTS_FROM
        assert {(a, b) for a, b in meeting(labels, labels) if a != b} == set()
        assert meeting(labels, symbols) == set()
        assert meeting(labels, walls) == set()


# --- few are lost ---------------------------------------------------------------------------------------------------


def wanted(findings: Findings, level: int) -> Counter[str]:
    """The words of all plates that a level's boxes ask for."""
    frame = Frame(findings, level, 1.0, PAPER)
    return Counter(plate.words for box in frame.boxes() for plate in plates_of(box, frame))


def plates_in(marks: list[object], magnify: float) -> Counter[str]:
    size = PLATE_SIZE * magnify
    return Counter(mark.words for mark in marks if isinstance(mark, Text) and mark.size == pytest.approx(size))


@pytest.mark.parametrize(("name", "paper"), SAMPLES_ON_PAPERS)
def test_every_plate_of_a_sample_is_on_its_printed_plan(name: str, paper: str) -> None:
    for level, page, ink in levels_on(printed(name, paper)):
        assert wanted(sample(name), level) - plates_in(collected(page, ink), PAPERS[paper].magnify) == Counter()


@pytest.mark.parametrize(("name", "paper"), SAMPLES_ON_PAPERS)
def test_an_independent_reader_finds_every_plate_where_the_plan_is(name: str, paper: str) -> None:
    sheet = printed(name, paper)
    numbers = {page.name: at for at, page in enumerate(sheet.pages)}
    with pdfplumber.open(BytesIO(pdf_of(sheet))) as document:
        for level, page, ink in levels_on(sheet):
            area = document.pages[numbers[page.name]].crop(_in_points(bounds_of(ink), page), strict=False)
            words = area.extract_words(x_tolerance=0.8, y_tolerance=1.5, extra_attrs=["size"])
            size = PLATE_SIZE * PAPERS[paper].magnify
            read = Counter(word["text"] for word in words if word["size"] == pytest.approx(size, abs=0.1))
            assert wanted(sample(name), level) - read == Counter()


def _in_points(bounds: Bounds, page: Page) -> tuple[float, float, float, float]:
    left, top, right, bottom = bounds
    edges = max(left, 0), max(top, 0), min(right, page.width), min(bottom, page.height)
    return tuple(edge * POINTS_A_MM for edge in edges)


@cache
def lost_and_asked(seed: int) -> tuple[int, int]:
    """How many plates of a random home are not on the plan it prints on tabloid paper, of how many."""
    paper, findings, lost, asked = PAPERS["tabloid"], find(generate(seed, 40 + seed * 37 % 121).home), 0, 0
    for level, page, ink in levels_on(wall_map(findings, paper, MADE)):
        plates = wanted(findings, level)
        asked += plates.total()
        lost += (plates - plates_in(collected(page, ink), paper.magnify)).total()
    return lost, asked


def test_at_most_one_label_in_a_hundred_is_lost_to_crowding() -> None:
    lost, asked = (sum(counts) for counts in zip(*map(lost_and_asked, SEEDS), strict=True))

    assert asked > 1300
    assert lost <= LOST_AT_MOST * asked
