"""Circuits that meet: on one yoke, in one load, in one feed, in a switching group, or only passing by."""

import pytest

from floorplan_circuits.home.boxes import Control
from floorplan_circuits.home.power import Tie
from floorplan_circuits.home.table import Table
from tests.hazards.small import (
    FIVE,
    NINE,
    SEVEN,
    box,
    device,
    feed,
    found,
    hazards,
    only,
    standing,
    tie,
)
from tests.supply.wiring import UNKNOWN, behind, elsewhere, on, source, source_supply
from tests.survey.houses import opened, trouble

YOKE, UNTIED, MEET = "one yoke on two breakers", "one load on untied breakers", "two supplies meet"
SWITCH, SWITCHES, PASSING = "switch on another circuit", "switches on two circuits", "conductors passing"


def tied(made: str = "by the factory") -> list:
    return [standing(one, space, tie=Tie.model_validate(tie(made))) for one, space in ((FIVE, 5), (SEVEN, 7))]


# --- yokes ----------------------------------------------------------------------------------------------------------


def split(*breakers: int, kind: str = "split receptacle", parts: tuple[str, ...] = ("upper", "lower")):
    feeds = (feed(3000 + at, on(one), part=part) for at, (one, part) in enumerate(zip(breakers, parts, strict=True)))
    return box(1001, device(2001, *feeds, kind=kind))


def test_halves_on_two_breakers_are_told_with_both_and_what_to_turn_off() -> None:
    said = only(YOKE, split(SEVEN, FIVE))
    assert said.says == "Kitchen: the split receptacle is on circuits 5 and 7, and no handle turns off both."
    assert said.do == "Turn off both, then test every wire."
    assert said.source.startswith("NEC 2023 210.7: ")
    assert (said.named, said.room_name, said.breakers) == ("B1", "Kitchen", (FIVE, SEVEN))


@pytest.mark.parametrize(("made", "told"), [("by the factory", 0), ("makeshift", 1), ("not sure", 1)])
def test_only_a_tie_by_the_factory_makes_one_movement_of_two(made, told) -> None:
    assert len(hazards(YOKE, split(FIVE, SEVEN), breakers=tied(made))) == told


def test_a_double_receptacle_has_two_yokes() -> None:
    parts = ("upper left", "lower left", "upper right", "lower right")
    quad = {"kind": "double duplex receptacle", "parts": parts}
    assert hazards(YOKE, split(FIVE, FIVE, SEVEN, SEVEN, **quad)) == []
    assert len(hazards(YOKE, split(FIVE, SEVEN, FIVE, SEVEN, **quad))) == 1


def test_a_fan_with_its_light_on_another_circuit_has_no_yoke() -> None:
    assert hazards(YOKE, split(FIVE, SEVEN, kind="ceiling fan", parts=("light", "fan"))) == []


def test_nobody_is_told_to_turn_off_what_must_not_be_touched() -> None:
    said = only(YOKE, split(FIVE, SEVEN), log=[trouble(SEVEN, "runs hot")])
    assert said.do == "Leave it closed and treat it as live: the breaker of 7 runs hot."


def test_with_something_unknown_in_the_box_turning_off_both_does_not_do() -> None:
    there = split(FIVE, SEVEN)
    said = only(YOKE, box(1001, *there.devices, device(2002, feed(3010, UNKNOWN))))
    assert said.do == "Treat as live whatever is off."


@pytest.mark.parametrize(
    ("system", "source_says"),
    [
        ("split-phase 120/240", "NEC 2023 210.7: "),
        ("not known", "Common practice, no source; where the NEC applies: NEC 2023 210.7: "),
        ("single-phase 230", "Common practice, no source. Local code governs."),
    ],
)
def test_a_rule_is_named_only_where_it_can_apply(system, source_says) -> None:
    assert only(YOKE, split(FIVE, SEVEN), system=system).source.startswith(source_says)


# --- loads across two hots ------------------------------------------------------------------------------------------


def heater(*breakers: int):
    return box(1001, device(2001, feed(3001, on(*breakers, how="all")), kind="240 V appliance", name="heater"))


def test_a_load_on_two_single_breakers_that_nothing_ties_is_told() -> None:
    said = only(UNTIED, heater(FIVE, SEVEN))
    assert said.says == (
        "Kitchen: the 240 V appliance ‘heater’ needs circuits 5 and 7 together, and nothing ties their handles."
    )
    assert "240.15(B)" in said.source
    assert hazards(UNTIED, heater(FIVE, SEVEN), breakers=tied()) == []


# --- loops ----------------------------------------------------------------------------------------------------------


def test_a_feed_that_two_breakers_reach_is_told_where_they_meet_and_not_behind_it() -> None:
    there = box(1001, device(2001, feed(3001, on(FIVE, SEVEN))))
    after = box(1002, device(2002, feed(3002, behind(3001))))
    said = only(MEET, there, after)
    assert said.says == "Kitchen: circuits 5 and 7 meet at the receptacle: each keeps it live."
    assert (said.box, said.rank) == (1001, 0)


def test_two_sources_without_a_name_are_two() -> None:
    there = box(1001, device(2001, feed(3001, on(source_supply(601), source_supply(602)))))
    assert len(hazards(MEET, there, sources=Table([source(601, name=""), source(602, name="")]))) == 1


def test_a_breaker_and_a_supply_from_elsewhere_meet_too() -> None:
    said = only(MEET, box(1001, device(2001, feed(3001, on(FIVE, elsewhere("flat 7"))))))
    assert said.says.startswith("Kitchen: circuit 5 and a supply from elsewhere (flat 7) meet at")
    assert said.do == "Treat as live whatever is off."


# --- switches -------------------------------------------------------------------------------------------------------


def switching(*on_breakers: int, lamp: int, **fields):
    """Switches in boxes of their own, the lamp in the last box, and the control that joins them."""
    switches = [
        box(1001 + at, device(2001 + at, feed(3001 + at, on(one)), kind="switch")) for at, one in enumerate(on_breakers)
    ]
    light = box(1050, device(2050, feed(3050, on(lamp)), kind="ceiling light"))
    ids = tuple(2001 + at for at in range(len(on_breakers)))
    control = Control(**{"id": 4001, "name": "stairs", "switches": ids, "feeds": (3050,), "by": "hand", **fields})
    return (*switches, light), {"controls": Table([control])}


def test_a_switch_on_another_circuit_than_its_light_is_told_with_both_boxes() -> None:
    boxes, more = switching(FIVE, lamp=SEVEN)
    said = only(SWITCH, *boxes, **more)
    assert said.says == ("Kitchen: the switch is on circuit 5, what it works (the ceiling light in B50) on circuit 7.")
    assert {1001, 1050, FIVE, SEVEN} <= {*said.about}
    assert said.do == "Turn off both, then test every wire."


def test_switches_of_one_group_on_two_circuits_are_told_once_and_nothing_beside_it() -> None:
    boxes, more = switching(FIVE, SEVEN, lamp=SEVEN)
    kinds = [one.kind for one in found(*boxes, **more).hazards]
    assert kinds == [SWITCHES]
    assert only(SWITCHES, *boxes, **more).says == (
        "Kitchen: the switches of ‘stairs’ are on circuit 5 (B1) and circuit 7 (B2)."
    )


def test_one_circuit_or_one_handle_or_a_radio_is_none() -> None:
    boxes, more = switching(FIVE, FIVE, lamp=FIVE)
    assert found(*boxes, **more).hazards == ()
    boxes, more = switching(FIVE, SEVEN, lamp=FIVE)
    assert hazards(SWITCHES, *boxes, **more, breakers=tied()) == []
    boxes, more = switching(FIVE, lamp=SEVEN, by="radio")
    assert hazards(SWITCH, *boxes, **more) == []


def test_a_switch_of_which_nobody_knows_is_no_switch_on_another_circuit() -> None:
    boxes, more = switching(FIVE, lamp=SEVEN)
    unknown = box(1001, device(2001, feed(3001, UNKNOWN), kind="switch"))
    assert hazards(SWITCH, unknown, *boxes[1:], **more) == []


# --- passing --------------------------------------------------------------------------------------------------------


def test_a_circuit_that_only_passes_is_told_by_the_shared_box_itself() -> None:
    there = box(1001, device(2001, feed(3001, on(FIVE))), passing=(feed(3002, on(SEVEN)),))
    assert only("shared box", there).says == (
        "Kitchen: circuits 5 and 7 enter. Of these circuit 7 only passes through."
    )
    assert not only(PASSING, there).listed


def test_where_nobody_knows_the_devices_what_passes_is_told_in_the_list() -> None:
    there = box(1001, device(2001, feed(3001, UNKNOWN)), passing=(feed(3002, on(SEVEN)),))
    said = only(PASSING, there)
    assert (said.listed, said.says) == (True, "Kitchen: circuit 7 passes through, beside its devices.")
    assert said.do == "Treat as live whatever is off."


def test_a_cable_that_was_seen_in_the_box_passes_too() -> None:
    there = box(1001, device(2001, feed(3001, on(FIVE))))
    other = box(1002, device(2002, feed(3002, on(NINE))))
    said = only(PASSING, there, other, log=[opened(1001, 3001, 3002)])
    assert (said.box, said.breakers) == (1001, (NINE,))


def test_where_there_are_no_devices_all_of_it_passes_and_nothing_is_told() -> None:
    there = box(1001, device(2001, kind="junction box"), passing=(feed(3001, on(FIVE)), feed(3002, on(SEVEN))))
    assert hazards(PASSING, there) == []


def test_low_voltage_behind_a_stated_transformer_is_no_circuit_that_passes() -> None:
    bell = device(2002, feed(3002, on(SEVEN)), feed(3003, behind(3002), volts="low"), kind="doorbell transformer")
    there = box(1001, device(2001, feed(3001, on(FIVE))), passing=(feed(3004, behind(3003), volts="low"),))
    assert hazards(PASSING, there, box(1002, bell)) == []
    mains = box(1001, *there.devices, passing=(feed(3004, behind(3002)),))
    assert len(hazards(PASSING, mains, box(1002, bell))) == 1
