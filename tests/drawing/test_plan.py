"""The plan of the sample homes: every circuit is told, nothing covers anything, and a point names what it is on."""

from itertools import combinations
from math import dist

import pytest

from floorplan_circuits.drawing.frame import Frame
from floorplan_circuits.drawing.ink import Group, Hatch, Shape, flat, path_bounds
from floorplan_circuits.drawing.overlaps import crosses_box
from floorplan_circuits.drawing.palette import DARK, GREY, PAPER
from floorplan_circuits.drawing.placement import Segment
from floorplan_circuits.drawing.plan import DOTS_FROM, Plan, plan, what_hits
from floorplan_circuits.drawing.plan_boxes import plates_of
from floorplan_circuits.drawing.plan_walls import wall_segments
from floorplan_circuits.find import find
from floorplan_circuits.findings import Subject
from floorplan_circuits.home.building import Level
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.table import Table
from tests.drawing.drawn import (
    SAMPLE_HOMES,
    bounds_of,
    box,
    breaker,
    device,
    fed,
    home,
    labels_of,
    overlap,
    room,
    sample,
    symbols_of,
    words_in,
)

CASES = [(name, scale) for name in SAMPLE_HOMES for scale in (50.0, 75.0, 100.0)]


def drawn(name: str, scale: float) -> Plan:
    findings = sample(name)
    return plan(findings, next(iter(findings.home.levels)).id, scale, PAPER)


def walls_of(name: str, scale: float) -> list[Segment]:
    findings = sample(name)
    return wall_segments(Frame(findings, next(iter(findings.home.levels)).id, scale, PAPER))


# --- nothing covers anything ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(("name", "scale"), CASES)
def test_no_two_labels_overlap(name: str, scale: float) -> None:
    boxes = [bounds_of(label) for label in labels_of(drawn(name, scale))]
    assert len(boxes) > 30
    assert [pair for pair in combinations(boxes, 2) if overlap(*pair)] == []


@pytest.mark.parametrize(("name", "scale"), CASES)
def test_no_label_covers_a_symbol(name: str, scale: float) -> None:
    found = drawn(name, scale)
    symbols = [bounds_of(symbol) for symbol in symbols_of(found)]
    covered = [(a, b) for a in map(bounds_of, labels_of(found)) for b in symbols if overlap(a, b)]
    assert covered == []


@pytest.mark.parametrize(("name", "scale"), CASES)
def test_no_label_touches_a_wall(name: str, scale: float) -> None:
    walls = walls_of(name, scale)
    for label in labels_of(drawn(name, scale)):
        assert not any(crosses_box(wall, bounds_of(label)) for wall in walls), words_in(label)


@pytest.mark.parametrize(("name", "scale"), CASES)
def test_no_leader_runs_over_a_symbol_or_another_label(name: str, scale: float) -> None:
    found = drawn(name, scale)
    marks = found.ink.marks
    things = [(symbol.subject, bounds_of(symbol)) for symbol in symbols_of(found)]
    things += [(label.subject, bounds_of(label)) for label in labels_of(found)]
    for at, mark in enumerate(marks):
        if isinstance(mark, Shape):
            label = marks[at + 1]
            assert isinstance(label, Group)
            for a, b in zip(points(mark), points(mark)[1:], strict=False):
                line = Segment(a, b)
                hit = [one for one, bounds in things if one != label.subject and crosses_box(line, bounds)]
                assert hit == [], words_in(label)


def test_a_leader_touches_its_label_though_its_rows_are_unlike_in_width() -> None:
    found, leaders = sample("house"), 0
    for level in found.home.levels.ids():
        for scale in (75.0, 100.0, 125.0, 145.0):
            marks = plan(found, level, scale, PAPER).ink.marks
            for at, mark in enumerate(marks):
                if isinstance(mark, Shape):
                    label = marks[at + 1]
                    assert isinstance(label, Group)
                    assert min(gap(points(mark)[-1], bounds_of(part)) for part in label.marks) < 0.2, words_in(label)
                    leaders += 1
    assert leaders > 20


def gap(at: tuple[float, float], bounds: tuple[float, float, float, float]) -> float:
    left, top, right, bottom = bounds
    return dist(at, (max(left, min(right, at[0])), max(top, min(bottom, at[1]))))


def points(mark: Shape) -> list[tuple[float, float]]:
    return [(values[0], values[1]) for _, values in mark.path if values]


@pytest.mark.parametrize(("name", "scale"), CASES)
def test_all_that_is_drawn_lies_inside_the_bounds_it_gives(name: str, scale: float) -> None:
    found = drawn(name, scale)
    left, top, right, bottom = found.bounds
    for mark in flat(found.ink):
        if not isinstance(mark, Hatch):
            box_of = bounds_of(mark)
            assert left <= box_of[0] + 0.01
            assert top <= box_of[1] + 0.01
            assert box_of[2] - 0.01 <= right
            assert box_of[3] - 0.01 <= bottom


# --- everything is told ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("name", "scale"), CASES)
def test_every_circuit_of_every_placed_box_is_on_a_plate_or_told_in_a_list(name: str, scale: float) -> None:
    findings, found = sample(name), drawn(name, scale)
    told = {label.subject: words_in(label) for label in labels_of(found)}
    frame = Frame(findings, 1, scale, PAPER)
    for one in findings.home.boxes:
        if one.at is not None and one.id not in found.listed:
            expected = {plate.words for plate in plates_of(one, frame)}
            assert expected <= set(told[Subject("box", one.id)]), one.mark


@pytest.mark.parametrize(("name", "scale"), CASES)
def test_every_shared_box_has_its_caution_plate(name: str, scale: float) -> None:
    findings, found = sample(name), drawn(name, scale)
    shared = {one.box for one in findings.boxes.values() if one.shared and findings.home.boxes[one.box].at}
    assert shared
    told = {label.subject.id: words_in(label) for label in labels_of(found) if label.subject}
    for one in shared:
        assert findings.home.boxes[one].mark in told[one]


@pytest.mark.parametrize(("name", "scale"), CASES)
def test_every_room_is_named_once(name: str, scale: float) -> None:
    findings, found = sample(name), drawn(name, scale)
    names = [" ".join(words_in(label)) for label in labels_of(found) if label.subject and label.subject.kind == "room"]
    keys = dict(found.keys)
    assert sorted(keys.get(words, words) for words in names) == sorted(one.name for one in findings.home.rooms)


def test_at_a_close_scale_all_labels_find_room() -> None:
    for name in SAMPLE_HOMES:
        found = drawn(name, 50.0)
        assert (found.listed, found.not_placed, found.keys) == ((), (), ())


def test_equal_findings_give_equal_plans() -> None:
    assert drawn("cottage", 75.0) == drawn("cottage", 75.0)


@pytest.mark.parametrize("theme", [DARK, GREY], ids=["dark", "grey"])
def test_another_theme_moves_nothing(theme: object) -> None:
    findings = sample("flat")
    level = next(iter(findings.home.levels)).id
    other = plan(findings, level, 75.0, DARK if theme is DARK else GREY)
    assert other.spots == drawn("flat", 75.0).spots


def test_a_label_that_finds_no_room_is_listed_not_dropped() -> None:
    crowd = tuple(
        box(100 + 3 * at, (300 + 40 * at, 300), device(101 + 3 * at, fed(102 + 3 * at, 6)), mount="ceiling")
        for at in range(40)
    )
    cupboard = room(30, "Store", 0, 0, 2200, 600)
    found = plan(find(home(crowd, (breaker(6, 1),), (cupboard,))), 1, 100.0, PAPER)
    assert found.listed
    told = {label.subject.id for label in labels_of(found) if label.subject and label.subject.kind == "box"}
    assert {one.id for one in crowd} == told | set(found.listed)


# --- empty and odd --------------------------------------------------------------------------------------------------


def test_an_empty_level_takes_next_to_no_room() -> None:
    found = plan(find(Home(next_id=2, levels=Table([Level(id=1, name="Attic")]))), 1, 50.0, PAPER)
    assert found.spots == ()
    assert found.bounds[2] - found.bounds[0] <= 1.0


def test_boxes_alone_make_a_plan() -> None:
    found = plan(find(home((box(20, (500, 500), device(21, fed(22, 6))),), (breaker(6, 1),))), 1, 50.0, PAPER)
    assert [words_in(label) for label in labels_of(found)] == [["1"]]


# --- what a point names ---------------------------------------------------------------------------------------------


def test_a_point_on_a_symbol_names_its_box() -> None:
    found = drawn("cottage", 50.0)
    for symbol in symbols_of(found):
        left, top, right, bottom = bounds_of(symbol)
        assert what_hits(found, ((left + right) / 2, (top + bottom) / 2)) == symbol.subject


def test_a_point_on_a_label_names_what_it_is_about() -> None:
    found = drawn("flat", 50.0)
    for label in labels_of(found):
        left, top, right, bottom = bounds_of(label)
        assert what_hits(found, ((left + right) / 2, (top + bottom) / 2), reach=0.0) == label.subject


def test_a_point_far_from_everything_names_nothing() -> None:
    assert what_hits(drawn("flat", 50.0), (-500, -500)) is None


def test_near_misses_count_within_reach() -> None:
    found = plan(find(home((box(20, (5000, 5000), device(21, fed(22))),))), 1, 50.0, PAPER)
    (symbol,) = symbols_of(found)
    right = bounds_of(symbol)[2]
    middle = (bounds_of(symbol)[1] + bounds_of(symbol)[3]) / 2
    assert what_hits(found, (right + 0.7, middle), reach=1.5) == Subject("box", 20)


# --- overview -------------------------------------------------------------------------------------------------------


def test_from_the_overview_scale_on_devices_are_dots() -> None:
    near, far = drawn("cottage", DOTS_FROM - 1), drawn("cottage", DOTS_FROM)
    assert list(symbols_of(near))
    assert not list(symbols_of(far))
    assert (near.is_overview, far.is_overview) == (False, True)


def test_paths_of_the_plan_are_never_empty() -> None:
    for scale in (50.0, 400.0):
        for mark in flat(drawn("cottage", scale).ink):
            if isinstance(mark, Shape):
                assert path_bounds(mark.path)
