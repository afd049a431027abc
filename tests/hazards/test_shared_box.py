import pytest

from floorplan_circuits.findings import BoxFinding, Hazard
from floorplan_circuits.hazards.shared_box import shared_boxes
from tests.hazards.findings_of import box, one, scene, shared
from tests.survey.houses import trouble


def hazard(found: BoxFinding, *known, entries=()) -> Hazard:
    (only,) = shared_boxes(scene(found, known=known, entries=entries))
    return only


def test_a_box_of_one_circuit_is_none() -> None:
    assert list(shared_boxes(scene(box(5)))) == []


def test_two_circuits_are_named_and_both_turned_off() -> None:
    said = hazard(shared(5, 9))
    assert (said.kind, said.says, said.rank) == ("shared box", "Kitchen: circuits 5 and 15A enter.", 1)
    assert said.do == "Turn off both, then test every wire."


def test_three_circuits_are_all_turned_off() -> None:
    assert hazard(shared(5, 7, 9)).do == "Turn off all of them, then test every wire."


def test_a_tie_lowers_the_rank_and_is_told() -> None:
    said = hazard(shared(5, 7, tied=True))
    assert (said.rank, "one can trip alone" in said.says) == (2, True)


@pytest.mark.parametrize("extra", [{"unknown": 1}, {"unknown": 3}, {"others": ("source: Solar",)}])
def test_with_something_unknown_or_from_elsewhere_turning_off_does_not_do(extra) -> None:
    said = hazard(shared(5, 7, tied=True, **extra))
    assert (said.rank, said.do) == (0, "Treat as live whatever is off.")


def test_how_many_feeds_nobody_knows_is_told() -> None:
    assert "enter, and one feed that nobody knows." in hazard(shared(5, 7, unknown=1)).says
    assert "enter, and two feeds that nobody knows." in hazard(shared(5, 7, unknown=2)).says


@pytest.mark.parametrize("standing", ["contradicted", "expired"])
def test_nor_does_it_where_a_test_of_a_feed_does_not_hold(standing) -> None:
    assert hazard(shared(5, 7), one(standing, 5)).do == "Treat as live whatever is off."
    assert hazard(shared(5, 7), one("claimed", 5)).do.startswith("Turn off both")


def test_nobody_is_told_to_turn_off_what_must_not_be_touched() -> None:
    do = hazard(shared(5, 7), entries=[trouble(7, "runs hot")]).do
    assert do == "Leave it closed and treat it as live: the breaker of 7 runs hot."
    assert "Turn off" not in do
    assert hazard(shared(5, 7), entries=[trouble(9, "runs hot")]).do.startswith("Turn off")
