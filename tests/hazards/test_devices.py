"""Hazards of devices and of what stands close: tester's faults, no ground, ratings, low voltage, neighbours."""

import pytest

from floorplan_circuits.home.boxes import Hangs
from floorplan_circuits.home.power import Breaker
from tests.hazards.small import FIVE, SEVEN, box, device, feed, hazards, only, standing
from tests.supply.wiring import UNKNOWN, behind, on
from tests.survey.houses import changed, struck

FAULT, RATING = "receptacle tester's fault", "receptacle and breaker"
LOOK, BACK = "looks like its neighbour", "back to back"
LOW = "low voltage beside mains"
ON_FIVE, ON_SEVEN = on(FIVE), on(SEVEN)


# --- testers --------------------------------------------------------------------------------------------------------

THERE = box(1001, device(2001, feed(3001, on(FIVE)), name="by the sink"))


def showed(what: str, date: str = "2026-02-14") -> dict:
    return {"kind": "tester", "device": 2001, "shows": what, "date": date}


def test_a_fault_is_told_with_its_day_and_what_such_a_tester_cannot_see() -> None:
    said = only(FAULT, THERE, log=[showed("open neutral")])
    assert (
        said.says
        == "Kitchen: a receptacle tester showed open neutral on 14 February 2026 at the receptacle ‘by the sink’."
    )
    assert said.why.startswith("It seems dead, and its hot is live.")
    assert "does not see two faults at once" in said.why


def test_only_the_last_test_that_counts_is_told() -> None:
    assert hazards(FAULT, THERE, log=[showed("open ground"), showed("correct")]) == []
    assert len(hazards(FAULT, THERE, log=[showed("open ground"), showed("correct"), struck(9001)])) == 1
    assert hazards(FAULT, THERE, log=[showed("open ground"), struck(9000)]) == []


def test_one_older_than_a_change_of_its_box_is_not_told() -> None:
    assert hazards(FAULT, THERE, log=[showed("open ground"), changed(1001)]) == []
    assert hazards(FAULT, THERE, log=[showed("open ground"), changed()]) == []
    assert len(hazards(FAULT, THERE, log=[changed(1001), showed("open ground")])) == 1


def test_what_a_newer_program_wrote_takes_no_fault_back() -> None:
    newer = showed("correct") | {"sure": False}
    assert len(hazards(FAULT, THERE, log=[showed("open ground"), newer])) == 1


def test_devices_without_ground_are_told_once_a_room() -> None:
    boxes = [box(1000 + at, device(2000 + at, feed(3000 + at, on(FIVE)), ground="absent")) for at in (1, 2, 3)]
    said = only("no ground", *boxes)
    assert said.says == "Kitchen: three devices have no ground in B1, B2 and B3."
    assert (said.box, said.named, said.room_name) == (None, "3 boxes", "Kitchen")
    assert {1001, 1002, 1003, 2001, 2002, 2003} == {*said.about}
    alone = only("no ground", boxes[0])
    assert (alone.box, alone.says) == (1001, "Kitchen: a device has no ground.")


# --- ratings --------------------------------------------------------------------------------------------------------


def rated(amps: int, rating: int, kind: str = "duplex receptacle", *others) -> list:
    breakers = [standing(FIVE, 5, amps=amps)]
    there = box(1001, device(2001, feed(3001, on(FIVE)), kind=kind, rated=rating))
    return hazards(RATING, there, *others, breakers=breakers)


def test_without_a_stamp_or_a_breakers_rating_nothing_is_said() -> None:
    there = box(1001, device(2001, feed(3001, on(FIVE))))
    assert hazards(RATING, there, breakers=[standing(FIVE, 5, amps=15)]) == []
    assert hazards(RATING, box(1001, device(2001, feed(3001, on(FIVE)), rated=30))) == []


def test_a_single_one_beside_others_goes_by_the_table() -> None:
    other = box(1002, device(2002, feed(3002, on(FIVE))))
    assert rated(20, 15, "single receptacle", other) == []
    (said,) = rated(15, 20, "single receptacle", other)
    assert "Table 210.21(B)(3)" in said.source


def test_a_single_one_with_a_lamp_beside_it_is_neither_alone_nor_one_of_several() -> None:
    lamp = box(1002, device(2002, feed(3002, on(FIVE)), kind="ceiling light"))
    assert rated(20, 15, "single receptacle", lamp) == rated(15, 20, "single receptacle", lamp) == []


def test_a_receptacle_on_two_breakers_is_held_against_neither() -> None:
    there = box(1001, device(2001, feed(3001, on(FIVE)), feed(3002, on(SEVEN)), kind="split receptacle", rated=30))
    breakers: list[Breaker] = [standing(FIVE, 5, amps=15), standing(SEVEN, 7, amps=15)]
    assert hazards(RATING, there, breakers=breakers) == []


# --- low voltage ----------------------------------------------------------------------------------------------------


def test_low_voltage_in_a_box_with_mains_is_told_but_not_a_transformers_own() -> None:
    bell = device(2001, feed(3001, on(FIVE)), feed(3002, behind(3001), volts="low"), kind="doorbell transformer")
    assert hazards(LOW, box(1001, bell)) == []
    there = box(1002, device(2002, feed(3003, behind(3001), volts="low")), device(2003, feed(3004, on(FIVE))))
    assert only(LOW, box(1001, bell), there).box == 1002


# --- neighbours -----------------------------------------------------------------------------------------------------


def pair(first: dict, second: dict, on_first: Hangs = ON_FIVE, on_second: Hangs = ON_SEVEN):
    return (
        box(1001, device(2001, feed(3001, on_first)), **{"at": (1000, 0), "height": 400, **first}),
        box(1002, device(2002, feed(3002, on_second)), **{"at": (1200, 0), "height": 400, **second}),
    )


def test_look_alikes_are_told_of_each_other_with_their_boxes_alone() -> None:
    first, second = hazards(LOOK, *pair({}, {}))
    assert (first.box, first.says) == (1001, "Kitchen: beside it is B2 (circuit 7).")
    assert (second.box, second.says) == (1002, "Kitchen: beside it is B1 (circuit 5).")
    assert not first.listed
    assert not second.listed
    assert first.about == (1001, SEVEN, 1002)


@pytest.mark.parametrize(
    "second",
    [
        {"at": (1301, 0)},
        {"at": (1200, 100)},
        {"angle": 180},
        {"mount": "ceiling"},
        {"height": 1200},
    ],
)
def test_farther_apart_or_on_another_wall_they_are_none(second) -> None:
    assert hazards(LOOK, *pair({}, second)) == []


def test_at_a_height_that_nobody_recorded_they_may_be_beside_each_other() -> None:
    assert len(hazards(LOOK, *pair({"height": None}, {"height": 1200}))) == 2


def test_on_one_circuit_there_is_nothing_to_mix_up_but_the_unknown() -> None:
    assert hazards(LOOK, *pair({}, {}, on(FIVE), on(FIVE))) == []
    first, second = hazards(LOOK, *pair({}, {}, on(FIVE), UNKNOWN))
    assert first.says == "Kitchen: beside it is B2 (nobody knows what it hangs on)."
    assert second.says == "Kitchen: beside it is B1 (circuit 5)."


def test_back_to_back_is_behind_and_faces_away() -> None:
    first, second = hazards(BACK, *pair({"angle": 90}, {"angle": 270, "mount": "outdoor"}))
    assert first.says == "Kitchen: behind it through the wall is B2 (circuit 7)."
    assert not second.listed
    facing = pair({"angle": 90}, {"angle": 270, "at": (1000, 250)})
    assert hazards(BACK, *facing) == []
    chimney = pair({"angle": 90}, {"angle": 270, "at": (1000, -250)})
    assert len(hazards(BACK, *chimney)) == 2
