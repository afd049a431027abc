"""Labels stay where they were while nothing they depend on changes, and a plan so drawn is the plan drawn anew."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from floorplan_circuits.drawing.arranged import Arrangement
from floorplan_circuits.drawing.palette import DARK, LIGHT, Theme
from floorplan_circuits.drawing.plan import plan
from floorplan_circuits.find import find, what_if
from floorplan_circuits.home.home import Home
from tests.drawing.drawn import sample
from tests.homes import homes

SCALES = (50.0, 110.0, 400.0)


def test_flipping_breakers_moves_no_label_of_the_largest_sample() -> None:
    findings, arrangement = sample("house"), Arrangement()
    level = findings.home.levels.ids()[0]
    arranged = set[int]()
    for breaker in list(findings.home.breakers.ids())[:12]:
        plan(findings, level, 60.0, LIGHT, what_if=what_if(findings, (breaker,)), arrangement=arrangement)
        arranged.add(id(arrangement._last))
    assert len(arranged) == 1


@pytest.mark.parametrize("change", [{"theme": DARK}, {"scale": 61.0}, {"level": 1}, {"picked": "first"}])
def test_what_placing_depends_on_is_placed_anew(change: dict[str, object]) -> None:
    findings, arrangement = sample("house"), Arrangement()
    levels, off = findings.home.levels.ids(), what_if(findings, (next(iter(findings.home.breakers.ids())),))

    def drawn(theme: Theme = LIGHT, scale: float = 60.0, level: int = 0, picked: str = "") -> int:
        boxes = (next(box.id for box in findings.home.boxes if box.level == levels[level]),) if picked else ()
        made = plan(findings, levels[level], scale, theme, None, off, boxes, arrangement=arrangement)
        assert made == plan(findings, levels[level], scale, theme, None, off, boxes)
        return id(arrangement._last)

    assert drawn() == drawn()
    before = arrangement._last
    drawn(**change)  # type: ignore[arg-type]
    assert arrangement._last is not before


@settings(max_examples=6, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(homes(), st.data())
def test_a_plan_drawn_with_what_is_remembered_is_the_plan_drawn_without(any_home: Home, data: st.DataObject) -> None:
    findings, arrangement = find(any_home), Arrangement()
    levels, handles = any_home.levels.ids(), sorted(any_home.breakers.ids())
    boxes = sorted(findings.boxes)
    if not levels:
        return
    for _ in range(5):
        off = data.draw(st.sets(st.sampled_from(handles), max_size=4)) if handles else set[int]()
        asked = {
            "level": data.draw(st.sampled_from(levels)),
            "scale": data.draw(st.sampled_from(SCALES)),
            "theme": data.draw(st.sampled_from((LIGHT, DARK))),
            "what_if": what_if(findings, tuple(off)) if off else None,
            "picked": data.draw(st.sets(st.sampled_from(boxes), max_size=2)) if boxes else (),
            "switching": data.draw(st.booleans()),
            "with_planned": data.draw(st.booleans()),
        }
        assert plan(findings, **asked, arrangement=arrangement) == plan(findings, **asked)  # type: ignore[arg-type]
