"""What helps around a shut-off: where a tester is proved and a lead plugged in, and which light lights it."""

from typing import Any

import pytest

from floorplan_circuits.home.boxes import Box, Control
from floorplan_circuits.home.building import Level, Room
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import change
from floorplan_circuits.home.table import Table
from tests.shutoff.plans import plan_of
from tests.supply.wiring import behind, breaker, main, on, panel
from tests.survey.houses import FEED, MAIN, PANEL, A, B, C, a_test, box_of, device_of, house, traced, trouble

NEAR, FAR = 401, 402
NEAR_BOX, FAR_BOX = box_of(NEAR), box_of(FAR)


def two_points(*entries: dict[str, Any], **fields: Any) -> Home:
    """The box to be opened, and two tested receptacles that stay live; the first of them is the one to be named."""
    home = house(
        {FEED: on(A), NEAR: on(B), FAR: on(C)}, *a_test(B, feed=NEAR), *a_test(C, feed=FAR), *entries, **fields
    )
    assert NEAR_BOX < FAR_BOX
    return home


def with_box(home: Home, box: int, **fields: Any) -> Home:
    return change(home, boxes=home.boxes.put(change(home.boxes[box], **fields)))


def with_device(home: Home, box: int, **fields: Any) -> Home:
    (device,) = home.boxes[box].devices
    return with_box(home, box, devices=(change(device, **fields),))


# --- where a lead is plugged in -------------------------------------------------------------------------------------


def test_of_points_that_will_do_the_nearest_is_named() -> None:
    assert plan_of(two_points()).prove_tester_at == NEAR_BOX


def test_what_only_a_label_or_a_tracer_puts_on_a_breaker_proves_no_tester() -> None:
    feeds = {FEED: on(A), NEAR: on(B), FAR: on(C)}
    assert plan_of(house(feeds, *a_test(C, feed=FAR))).prove_tester_at == FAR_BOX
    assert plan_of(house(feeds, *a_test(C, feed=FAR), traced(B, feed=NEAR))).prove_tester_at == FAR_BOX
    assert plan_of(house(feeds)).prove_tester_at is None


@pytest.mark.parametrize(
    "kind", ["240 V receptacle", "ground-fault receptacle", "single receptacle", "outdoor receptacle", "ceiling light"]
)
def test_only_an_ordinary_receptacle_of_one_hot_is_named(kind: str) -> None:
    assert plan_of(with_device(two_points(), NEAR_BOX, kind=kind)).prove_tester_at == FAR_BOX


def test_a_receptacle_whose_ground_is_missing_is_not_named() -> None:
    assert plan_of(with_device(two_points(), NEAR_BOX, ground="absent")).prove_tester_at == FAR_BOX
    assert plan_of(with_box(two_points(), NEAR_BOX, wiring="knob and tube")).prove_tester_at == FAR_BOX


def test_one_whose_ground_somebody_saw_comes_before_a_nearer_one() -> None:
    assert plan_of(with_device(two_points(), FAR_BOX, ground="present")).prove_tester_at == FAR_BOX


def test_a_receptacle_that_a_plug_in_tester_found_wrong_is_not_named() -> None:
    wrong = {"kind": "tester", "device": device_of(NEAR), "shows": "open ground"}
    right = {"kind": "tester", "device": device_of(NEAR), "shows": "correct"}
    assert plan_of(two_points(wrong)).prove_tester_at == FAR_BOX
    assert plan_of(two_points(wrong, right)).prove_tester_at == NEAR_BOX


def test_what_a_switch_works_or_a_ground_fault_device_is_before_is_not_named() -> None:
    switched = Control(id=900, feeds=(NEAR,))
    assert plan_of(change(two_points(), controls=Table([switched]))).prove_tester_at == FAR_BOX
    series = with_device(
        two_points(), NEAR_BOX, feeds=(change(two_points().boxes[NEAR_BOX].devices[0].feeds[0], on=behind(FAR)),)
    )
    assert plan_of(series).prove_tester_at == FAR_BOX
    tripping = [breaker(A, opens="hot"), breaker(B, opens="hot", protects=("ground fault",)), breaker(C, opens="hot")]
    assert plan_of(two_points(breakers=tripping)).prove_tester_at == FAR_BOX


@pytest.mark.parametrize("what", ["did not open", "will not reset", "runs hot", "buzzes", "loose", "other"])
def test_nothing_on_a_handle_in_trouble_is_named(what: str) -> None:
    assert plan_of(two_points(trouble(B, what))).prove_tester_at == FAR_BOX
    lights = two_points(trouble(B, what), kind="ceiling light")
    assert plan_of(lights).light_to_work_by == FAR_BOX


def test_nothing_below_a_handle_in_trouble_is_named() -> None:
    below = panel(2, prefix="G", fed_by=({"kind": "breaker", "breaker": C},))
    panels = (panel(PANEL, spaces=200, mains=(main(MAIN),)), below)
    breakers = [breaker(A, opens="hot"), breaker(B, opens="hot", of=2), breaker(C, opens="hot")]
    home = house({FEED: on(A), NEAR: on(B)}, *a_test(B, feed=NEAR), panels=panels, breakers=breakers)
    assert plan_of(home).prove_tester_at == NEAR_BOX
    hot = house(
        {FEED: on(A), NEAR: on(B)}, *a_test(B, feed=NEAR), trouble(C, "runs hot"), panels=panels, breakers=breakers
    )
    assert plan_of(hot).prove_tester_at is None


# --- which light ----------------------------------------------------------------------------------------------------

GROUND, CELLAR = 1, 2
SQUARE = ((0, 0), (4000, 0), (4000, 4000), (0, 4000))
NEXT = ((4000, 0), (8000, 0), (8000, 4000), (4000, 4000))


def lit(**places: tuple[int, tuple[int, int]]) -> Home:
    """A box to be opened in the room, and two lights that stay on, where they are told to be."""
    home = two_points(kind="ceiling light")
    levels = Table([Level(id=GROUND, name="Ground floor"), Level(id=CELLAR, name="Basement", order=-1)])
    rooms = Table([
        Room(id=11, level=GROUND, name="Room", outline=SQUARE),
        Room(id=12, level=GROUND, name="Next room", outline=NEXT),
    ])  # fmt: skip
    home = change(home, levels=levels, rooms=rooms)
    home = with_box(home, box_of(FEED), level=GROUND, at=(3000, 2000), mount="ceiling")
    for name, (level, at) in places.items():
        box: Box = home.boxes[{"near": NEAR_BOX, "far": FAR_BOX}[name]]
        home = with_box(home, box.id, level=level, at=at, mount="ceiling")
    return home


def test_a_light_in_the_same_room_comes_before_a_nearer_one() -> None:
    assert plan_of(lit(near=(GROUND, (4200, 2000)), far=(GROUND, (200, 200)))).light_to_work_by == FAR_BOX


def test_a_light_outdoors_lights_no_room() -> None:
    home = with_box(lit(near=(GROUND, (3000, -200)), far=(GROUND, (7000, 2000))), NEAR_BOX, mount="outdoor")
    assert plan_of(home).light_to_work_by == FAR_BOX


def test_a_light_on_another_level_lights_nothing_here() -> None:
    assert plan_of(lit(near=(CELLAR, (3000, 2000)), far=(GROUND, (7000, 2000)))).light_to_work_by == FAR_BOX
    assert plan_of(lit(near=(CELLAR, (3000, 2000)), far=(CELLAR, (7000, 2000)))).light_to_work_by is None
