"""Shared neutrals: no common handle, hots on one leg, more hots than legs; borrowed ones; loads on one leg."""

import pytest

from floorplan_circuits.home.power import Breaker, Pole, Tie
from tests.hazards.small import FIVE, NINE, PANEL, SEVEN, box, device, feed, hazards, only, standing, tie
from tests.supply.wiring import breaker_supply, on, panel
from tests.survey.houses import trouble

GROUP = 400
APART, ONE_LEG = "shared neutral, no common handle", "one leg, one neutral"
HALVES, MANY = "halves of one space on one neutral", "more hots than legs on one neutral"


def sharing(*spaces: int | tuple[int, str], legs: tuple[str | None, ...] = (), **fields) -> list[Breaker]:
    """Breakers in these spaces, or halves of spaces, that share a neutral."""
    where = [one if isinstance(one, tuple) else (one, None) for one in spaces]
    measured = (*legs, *[None] * len(where))
    return [
        standing(100 + at, space, half, neutral=GROUP, leg=leg, **fields)
        for at, ((space, half), leg) in enumerate(zip(where, measured, strict=False))
    ]


def test_hots_on_opposite_legs_without_a_tie_lack_a_common_handle_and_nothing_else() -> None:
    said = only(APART, breakers=sharing(5, 7))
    assert said.says == "Main panel: circuits 5 and 7 share a neutral, and no handle is known to turn off both."
    assert said.do == "Turn off both before a splice of that neutral is opened, and test it."
    assert "210.4(B)" in said.source
    assert "2008" in said.source
    assert (said.box, said.named, said.breakers) == (None, "5, 7", (100, 101))
    assert hazards(ONE_LEG, breakers=sharing(5, 7)) == []


@pytest.mark.parametrize(("made", "told"), [("by the factory", 0), ("makeshift", 1), ("not sure", 1)])
def test_a_tie_that_is_known_to_hold_is_a_common_handle(made, told) -> None:
    assert len(hazards(APART, breakers=sharing(5, 7, tie=Tie.model_validate(tie(made))))) == told


def test_a_neutral_of_its_own_or_one_nobody_knows_is_no_shared_one() -> None:
    breakers = [standing(100, 5, neutral="own"), standing(101, 9, neutral="not known")]
    assert hazards(APART, breakers=breakers) == hazards(ONE_LEG, breakers=breakers) == []


def test_a_splice_stays_closed_where_a_breaker_must_not_be_touched() -> None:
    said = only(APART, breakers=sharing(5, 7), log=[trouble(100, "buzzes")])
    assert said.do == "Leave its splices closed: the breaker of 5 buzzes."


def test_by_the_usual_layout_alone_they_may_be_on_one_leg() -> None:
    said = only(ONE_LEG, breakers=sharing(5, 9))
    assert said.says.endswith("share a neutral and may be on one leg: by the usual layout of a panel they are.")


def test_what_was_measured_goes_before_the_layout_either_way() -> None:
    said = only(ONE_LEG, breakers=sharing(5, 7, legs=("A", "A")))
    assert said.says.endswith("share a neutral and are on one leg, as somebody measured.")
    assert hazards(ONE_LEG, breakers=sharing(5, 9, legs=("A", "B"))) == []


def test_halves_of_one_space_are_on_one_leg_unless_somebody_measured_it_otherwise() -> None:
    said = only(HALVES, breakers=sharing((5, "A"), (5, "B")))
    assert said.says.endswith("share a neutral and are the halves of one space, hence on one leg.")
    assert hazards(ONE_LEG, breakers=sharing((5, "A"), (5, "B"))) == []
    assert hazards(HALVES, breakers=sharing((5, "A"), (5, "B"), legs=("A", "B"))) == []


@pytest.mark.parametrize(
    ("system", "spaces", "told"),
    [
        ("split-phase 120/240", (5, 7), False),
        ("split-phase 120/240", (5, 7, 9), True),
        ("three-phase 208Y/120", (5, 7, 9), False),
        ("three-phase 208Y/120", (5, 7, 9, 11), True),
        ("two-wire 120", (5, 7), True),
        ("not known", (5, 7, 9, 11), False),
    ],
)
def test_more_hots_than_the_panel_has_legs_are_told(system, spaces, told) -> None:
    assert bool(hazards(MANY, breakers=sharing(*spaces), system=system)) is told


def test_the_layout_of_one_panel_says_nothing_of_another() -> None:
    second = panel(300, name="Garage panel", prefix="G")
    breakers = [standing(100, 5, neutral=GROUP), standing(101, 9, neutral=GROUP, panel=300)]
    both = {"breakers": breakers, "panels": [panel(PANEL, name="Main panel"), second]}
    assert hazards(ONE_LEG, **both) == []
    assert len(hazards(APART, **both)) == 1


def test_the_two_poles_of_one_breaker_on_one_leg_are_told_as_its_poles() -> None:
    poles = tuple(Pole(space=space, neutral=GROUP) for space in (5, 6))
    said = only(ONE_LEG, breakers=[Breaker(id=100, panel=PANEL, poles=poles)])
    assert said.says.startswith("Main panel: the poles of 5·6 share a neutral")


# --- in a box -------------------------------------------------------------------------------------------------------


def test_a_box_of_one_of_two_that_share_a_neutral_keeps_its_splices_closed() -> None:
    there = box(1001, device(2001, feed(3001, on(100)), ground="absent"), device(2002, feed(3002, on(NINE))))
    said = only("shared box", there, breakers=[*sharing(5, 7), standing(NINE, 9)])
    assert said.do.endswith("Keep the splices of their neutral closed: it is that of 7 too.")


def test_a_neutral_that_is_another_circuits_is_borrowed() -> None:
    there = box(1001, device(2001, feed(3001, on(FIVE), returns=breaker_supply(SEVEN)), name="lamp"))
    said = only("borrowed neutral", there)
    assert said.says == "Kitchen: the receptacle ‘lamp’ is on circuit 5, and its neutral is 7's."
    assert said.breakers == (FIVE, SEVEN)
    assert said.do == "Turn off both, then test every wire."
    own = box(1001, device(2001, feed(3001, on(FIVE), returns=breaker_supply(FIVE))))
    assert hazards("borrowed neutral", own) == []


def test_that_of_a_multiwire_group_is_not_borrowed() -> None:
    there = box(1001, device(2001, feed(3001, on(100), returns=breaker_supply(101))))
    assert hazards("borrowed neutral", there, breakers=sharing(5, 7)) == []


# --- loads on one leg -----------------------------------------------------------------------------------------------


def across(*breakers: int):
    return box(1001, device(2001, feed(3001, on(*breakers, how="all")), kind="240 V appliance"))


def test_a_load_across_the_halves_of_one_space_cannot_be_as_the_map_says() -> None:
    breakers = [standing(100, 5, "A"), standing(101, 5, "B")]
    said = only("halves of one space taken for two legs", across(100, 101), breakers=breakers)
    assert said.says == (
        "Kitchen: the 240 V appliance is said to be across circuits 5A and 5B; "
        "they are the halves of one space, hence on one leg."
    )
    assert said.do == "Treat as live whatever is off. Test again."


def test_by_the_usual_layout_it_only_may() -> None:
    assert "they may be on one leg" in only("one leg taken for two", across(FIVE, NINE)).says
    assert hazards("one leg taken for two", across(FIVE, SEVEN)) == []


def test_a_breaker_in_both_spaces_of_one_row_is_no_pair_of_legs() -> None:
    double = Breaker(id=100, panel=PANEL, poles=(Pole(space=1), Pole(space=2)))
    assert "both its poles may be on one leg" in only("one leg taken for two", across(100), breakers=[double]).says
