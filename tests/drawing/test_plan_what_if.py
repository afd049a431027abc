"""The plan with handles off: plates tell liveness, never better than the findings; what should be dead goes bare."""

from itertools import combinations
from typing import get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.drawing.frame import Frame
from floorplan_circuits.drawing.ink import Shape, Stamp, Text, flat
from floorplan_circuits.drawing.palette import DARK, GREY, PAPER, Theme, tint
from floorplan_circuits.drawing.plan import DOTS_FROM, plan
from floorplan_circuits.drawing.plan_boxes import DEAD_WEIGHT, plates_of
from floorplan_circuits.drawing.plan_what_if import KEY, NOT_OPENED, STATE_OF, WORST_FIRST, bare_floors, what_if_key
from floorplan_circuits.drawing.plate_bodies import PLATE_HEIGHT
from floorplan_circuits.drawing.plates import Liveness, Plate, plate
from floorplan_circuits.find import find, what_if
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import change
from floorplan_circuits.home.table import Table
from floorplan_circuits.surfaces.collect import CollectingSurface
from tests.drawing.drawn import bounds_of, labels_of, overlap, room, sample
from tests.homes import homes
from tests.supply.wiring import UNKNOWN, elsewhere, on
from tests.survey.houses import FEED, A, B, C, a_test, box_of, changed, house, opened, went

LIVENESSES: tuple[Liveness, ...] = tuple(one for one in get_args(Liveness) if one)


def placed(home: Home) -> Home:
    """A house of the survey's tests with its boxes side by side in one room."""
    boxes = [change(box, level=5000, at=(1000 + 3000 * nth, 1000), mount="floor") for nth, box in enumerate(home.boxes)]
    kitchen = change(room(6000, "Kitchen", 0, 0, 20_000, 4000), level=5000)
    raw = {"levels": [{"id": 5000, "name": "Ground floor"}]}
    levels = Home.model_validate(raw, strict=False).levels
    return change(home, boxes=Table(boxes), levels=levels, rooms=Table([kitchen]))


def frame(home: Home, *off: int, picked: tuple[int, ...] = (), theme: Theme = PAPER) -> Frame:
    findings = find(home)
    shown = what_if(findings, off) if off else None
    return Frame(findings, 5000, 50.0, theme, None, shown, frozenset(picked))


def told(home: Home, *off: int, feed: int = FEED, picked: tuple[int, ...] = ()) -> list[tuple[str, Liveness]]:
    made = frame(home, *off, picked=picked)
    shown = plates_of(made.findings.home.boxes[box_of(feed)], made)
    return [(one.words, one.liveness) for one in shown]


# --- plates ---------------------------------------------------------------------------------------------------------


def test_with_nothing_off_plates_tell_evidence() -> None:
    assert told(house({FEED: on(A)}, *a_test(A))) == [("1", "")]


def test_each_feed_tells_what_it_would_be() -> None:
    home = house({FEED: on(A), 401: on(A), 402: on(B), 403: UNKNOWN, 404: on(C, elsewhere())}, *a_test(A))
    assert told(home, A) == [("1", "should be dead"), ("", "not opened")]
    assert told(home, A, feed=401) == [("1", "not proved")]
    assert told(home, A, feed=402) == [("5", "live")]
    assert told(home, A, feed=403) == [("?", "unknown")]
    assert told(home, C, feed=404)[0][1] == "unknown"


def test_an_expired_test_and_one_that_is_contradicted_are_unknown_and_keep_their_number() -> None:
    expired = house({FEED: on(A)}, *a_test(A), changed(box_of(FEED)))
    assert told(expired, A)[0] == ("1", "unknown")
    denied = house({FEED: on(A)}, *a_test(A), went("live", A))
    assert told(denied, A)[0] == ("1", "unknown")


def test_only_in_a_box_picked_for_work_is_what_is_not_proved_a_caution() -> None:
    home = house({FEED: on(A)})
    assert told(home, A) == [("1", "not proved")]
    assert told(home, A, picked=(box_of(FEED),)) == [("1", "caution")]


def test_a_box_looked_into_has_no_leaf() -> None:
    home = house({FEED: on(A)}, *a_test(A), opened(box_of(FEED), FEED))
    assert told(home, A) == [("1", "should be dead")]


def test_a_cable_that_nobody_knows_is_a_question_mark_beside_what_should_be_dead() -> None:
    home = house({FEED: on(A)}, *a_test(A), opened(box_of(FEED), FEED, None))
    assert told(home, A) == [("1", "should be dead"), ("?", "unknown")]


def test_a_cable_of_another_box_is_shown_where_it_was_seen() -> None:
    home = house({FEED: on(A), 401: on(B)}, *a_test(A), opened(box_of(FEED), FEED, 401))
    assert told(home, A) == [("1", "should be dead"), ("5", "live")]


def test_a_box_of_which_nothing_is_recorded_is_unknown() -> None:
    home = house({FEED: on(A)})
    bare = change(home, boxes=Table([change(home.boxes.rows[0], devices=())]))
    assert told(bare, A) == [("?", "unknown")]


@settings(max_examples=80, deadline=None)
@given(homes(), st.data())
def test_no_box_of_any_home_looks_better_than_it_is(home: Home, data: st.DataObject) -> None:
    findings, handles = find(home), list(home.breakers.ids())
    if not handles:
        return
    shown = what_if(findings, data.draw(st.lists(st.sampled_from(handles), min_size=1, unique=True)))
    made = Frame(findings, 0, 50.0, PAPER, None, shown)
    for number, state in shown.boxes.items():
        plates = plates_of(home.boxes[number], made)
        assert plates
        assert (NOT_OPENED in plates) == (state.state == "not opened")
        worst = min(WORST_FIRST.index(STATE_OF.get(one.liveness, "not opened")) for one in plates)
        assert worst <= max(WORST_FIRST.index(state.state), WORST_FIRST.index("unknown"))


# --- their ink ------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("theme", [PAPER, GREY, DARK], ids=["paper", "grey", "dark"])
@pytest.mark.parametrize(("one", "other"), list(combinations(LIVENESSES, 2)))
def test_no_two_look_alike(one: Liveness, other: Liveness, theme: Theme) -> None:
    drawn = [plate(Plate("9", "traced", liveness=shows), (0, 0), theme) for shows in (one, other)]
    assert drawn[0] != drawn[1]


def test_live_is_solid_and_dead_is_thin_with_an_empty_box_to_tick() -> None:
    live = list(flat(plate(Plate("9", "claimed", liveness="live"), (0, 0), PAPER)))
    assert isinstance(live[0], Shape)
    assert (live[0].fill, live[1].colour) == (PAPER.ink, PAPER.paper)  # type: ignore[union-attr]
    outline, tick, number = flat(plate(Plate("9", "proved", liveness="should be dead"), (0, 0), PAPER))
    assert isinstance(outline, Shape)
    assert isinstance(tick, Shape)
    assert outline.pen is not None
    assert outline.pen.width < 0.22
    assert (outline.fill, tick.fill) == (PAPER.paper, PAPER.paper)
    left, _, right, _ = bounds_of(tick)
    assert bounds_of(outline)[0] < left < right < bounds_of(number)[0]


def test_the_unknown_has_stripes_at_head_and_foot_that_leave_the_number_free() -> None:
    drawn = plate(Plate("?", "unknown", liveness="unknown"), (0, 0), PAPER)
    shapes = [mark for mark in flat(drawn) if isinstance(mark, Shape)]
    (number,) = [mark for mark in flat(drawn) if isinstance(mark, Text)]
    assert shapes[0].fill == PAPER.caution
    bands = [bounds_of(one) for one in shapes if one.fill == PAPER.caution_ink]
    assert len(bands) == 2
    assert min(top for _, top, _, _ in bands) == pytest.approx(-PLATE_HEIGHT / 2)
    assert max(foot for _, _, _, foot in bands) == pytest.approx(PLATE_HEIGHT / 2)
    _, top, _, foot = bounds_of(number)
    assert all(band[3] <= top + 0.1 or band[1] >= foot - 0.1 for band in bands)


@pytest.mark.parametrize("shows", LIVENESSES)
def test_what_is_drawn_is_as_wide_as_the_plate_says(shows: Liveness) -> None:
    one = Plate("15A", "traced", liveness=shows) if shows != "not opened" else NOT_OPENED
    left, _, right, _ = bounds_of(plate(one, (0, 0), PAPER))
    assert right - left <= one.width + 0.5
    assert right - left >= one.width - 0.5


# --- floors and symbols ---------------------------------------------------------------------------------------------


def marks_of(home: Home, *off: int, scale: float = 50.0) -> list[object]:
    findings = find(home)
    drawn = plan(findings, 5000, scale, PAPER, None, what_if(findings, off) if off else None)
    surface = CollectingSurface()
    surface.page(100, 100, drawn.ink)
    return list(surface.pages[0].marks)


def test_a_floor_goes_bare_where_all_on_its_breaker_should_be_dead() -> None:
    tested = placed(house({FEED: on(A), 401: on(B)}, *a_test(A)))
    assert bare_floors(frame(tested, A)) == {(6000, A)}
    assert bare_floors(frame(tested, B)) == frozenset()  # only said, so not proved
    assert bare_floors(frame(tested)) == frozenset()
    both = placed(house({FEED: on(A), 401: on(A)}, *a_test(A)))
    assert bare_floors(frame(both, A)) == frozenset()


def test_the_tint_of_what_should_be_dead_goes_and_all_else_keeps_its() -> None:
    home = placed(house({FEED: on(A), 401: on(B)}, *a_test(A)))
    colours = find(home).colours
    fills = [{mark.fill for mark in marks_of(home, *off) if isinstance(mark, Shape)} for off in ((), (A,))]
    assert {tint(PAPER, colours[A]), tint(PAPER, colours[B])} <= fills[0]
    assert tint(PAPER, colours[A]) not in fills[1]
    assert tint(PAPER, colours[B]) in fills[1]


def test_the_symbol_of_what_should_be_dead_is_thin_and_faint() -> None:
    home = placed(house({FEED: on(A), 401: on(B)}, *a_test(A)))
    stamps = [mark for mark in marks_of(home, A) if isinstance(mark, Stamp)]
    assert {(one.ink, one.weight) for one in stamps} == {(PAPER.faint, DEAD_WEIGHT), (PAPER.ink, 0.28)}


def test_from_afar_a_box_that_should_be_dead_is_a_faint_dot() -> None:
    home = placed(house({FEED: on(A), 401: on(B)}, *a_test(A), opened(box_of(FEED), FEED)))
    pens = [mark.pen for mark in marks_of(home, A, scale=DOTS_FROM) if isinstance(mark, Shape) and mark.pen]
    assert any(pen.colour == PAPER.faint for pen in pens)
    pens = [mark.pen for mark in marks_of(home, scale=DOTS_FROM) if isinstance(mark, Shape) and mark.pen]
    assert not any(pen.colour == PAPER.faint for pen in pens)


def test_picked_boxes_show_their_marks() -> None:
    findings = sample("cottage")
    (level,) = findings.home.levels.ids()
    box = next(one for one in findings.home.boxes if not findings.boxes[one.id].shared and one.level == level)
    for picked in ((), (box.id,)):
        drawn = plan(findings, level, 25.0, PAPER, None, None, picked)
        words = [mark.words for mark in flat(drawn.ink) if isinstance(mark, Text)]
        assert (box.mark in words) == bool(picked)


@pytest.mark.parametrize("name", ["cottage", "house", "flat"])
def test_with_handles_off_no_label_covers_another(name: str) -> None:
    findings: Findings = sample(name)
    shown = what_if(findings, findings.home.breakers.ids()[::2])
    for level in findings.home.levels.ids():
        drawn = plan(findings, level, 50.0, PAPER, None, shown)
        labels = [bounds_of(label) for label in labels_of(drawn)]
        assert len(labels) > 10
        assert not [pair for pair in combinations(labels, 2) if overlap(*pair, by=0.1)]


# --- the key --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("wide", [40.0, 90.0, 300.0])
def test_the_key_tells_every_state_in_the_width_it_has(wide: float) -> None:
    ink, high = what_if_key(wide, PAPER)
    surface = CollectingSurface()
    surface.page(wide, high, ink)
    words = surface.pages[0].words()
    for said in ("live", "unknown: treat as live", "not proved: treat as live", "not opened: treat as live",
                 "should be dead: test it"):  # fmt: skip
        assert said in words
    left, top, right, foot = bounds_of(ink)
    assert left >= -0.3
    assert right <= max(wide, 60.0) + 0.3
    assert top >= -0.1
    assert foot <= high + 0.1
    assert [state for _, state in KEY] == list(WORST_FIRST)
