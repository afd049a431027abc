"""A place that nobody saw: a wave keeps the box off its wall, and nothing else stands on the wave."""

from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.drawing.close_up_facts import contents_of
from floorplan_circuits.drawing.close_up_words import PLACE_GUESSED, subtitle
from floorplan_circuits.drawing.ink import Bounds, Shape, Stamp, flat, path_bounds
from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.drawing.plan import Plan, plan
from floorplan_circuits.drawing.plan_guessed import WEIGHT
from floorplan_circuits.find import find
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.record import change
from floorplan_circuits.home.table import Table
from tests.drawing.drawn import bounds_of, box, device, fed, home, labels_of, overlap, room, sample, symbols_of

ROOM = room(30, "Study", 0, 0, 4000, 3000)


def study(**placed: str) -> Findings:
    return find(
        home(
            boxes=(
                box(20, (1000, 0), device(21, fed(22)), angle=90, placed=placed.get("wall", "seen")),
                box(23, (0, 1000), device(24, fed(25)), device(26, fed(27), slot=2), angle=0, gangs=2,
                    placed=placed.get("gangs", "seen")),
                box(28, (2000, 1500), device(29, fed(31), kind="ceiling light"), mount="ceiling",
                    placed=placed.get("ceiling", "seen")),
            ),
            rooms=(ROOM,),
        )
    )  # fmt: skip


def waves(drawn: Plan) -> list[Bounds]:
    found = [mark for mark in flat(drawn.ink) if isinstance(mark, Shape) and mark.pen and mark.pen.width == WEIGHT]
    return [path_bounds(mark.path) for mark in found if mark.pen and mark.pen.cap == "round"]


def symbol_at(drawn: Plan, number: int) -> tuple[float, float]:
    group = next(mark for mark in symbols_of(drawn) if mark.subject and mark.subject.id == number)
    return next(mark.at for mark in flat(group) if isinstance(mark, Stamp))


@pytest.mark.parametrize(
    ("which", "number", "off"), [("wall", 20, (0, 1)), ("gangs", 23, (1, 0)), ("ceiling", 28, (0, 0))]
)
def test_a_guessed_place_has_one_wave_and_keeps_its_box_off_the_wall(
    which: str, number: int, off: tuple[int, int]
) -> None:
    seen, guessed = plan(study(), 1, 50.0, PAPER), plan(study(**{which: "guessed"}), 1, 50.0, PAPER)
    assert (len(waves(seen)), len(waves(guessed))) == (0, 1)
    (x, y), (was_x, was_y) = symbol_at(guessed, number), symbol_at(seen, number)
    assert ((x - was_x > 0.8), (y - was_y > 0.8)) == (bool(off[0]), bool(off[1]))


def test_where_no_place_is_recorded_there_is_no_wave() -> None:
    placeless = find(home(boxes=(box(20, None, device(21, fed(22)), placed="guessed"),), rooms=(ROOM,)))
    assert waves(plan(placeless, 1, 50.0, PAPER)) == []


@given(st.sets(st.integers(0, 60), min_size=1), st.sampled_from([50.0, 75.0, 100.0]))
@settings(max_examples=8, deadline=None)
def test_no_label_stands_on_a_wave_in_a_crowded_home(which: set[int], scale: float) -> None:
    cottage = sample("cottage")
    boxes = [change(one, placed="guessed") if place in which else one for place, one in enumerate(cottage.home.boxes)]
    shown = find(change(cottage.home, boxes=Table(boxes)))
    drawn = plan(shown, next(iter(shown.home.levels)).id, scale, PAPER)
    labels = [bounds_of(label) for label in labels_of(drawn)]
    assert not any(overlap(wave, label) for wave in waves(drawn) for label in labels)
    assert not any(overlap(a, b) for a, b in combinations(labels, 2))


def test_a_guess_is_told_to_who_cannot_see_it_and_in_the_close_up() -> None:
    drawn = plan(study(wall="guessed"), 1, 50.0, PAPER)
    told = {mark.subject.id: "guess" in mark.name for mark in symbols_of(drawn) if mark.subject}
    assert told == {20: True, 23: False, 28: False}
    for placed in ("seen", "guessed"):
        shown = study(wall=placed)
        words = subtitle(contents_of(shown, shown.home.boxes[20]))
        assert (PLACE_GUESSED in words) == (placed == "guessed")
