"""What published rules and trade pages say of yokes, neutrals, legs and ratings, against what is found.

Sources, in words; all secondary, so good for a figure and not for a quotation. Which edition a town adopted, and what
it amended, differs: every sentence of the program says that local code governs.

- NEC 210.7: a trade magazine's questions on the code, and a code forum's archive (Article 210, 2003).
- NEC 210.4(A), (B): a trade magazine on multiwire branch circuits; a school's newsletter of May 2008.
- NEC 240.15(B): a code forum, an institute's page on multiwire branch circuits.
- NEC 240.4(D): a course for renewing licences; the footnote of a wire maker's ampacity table. The rows for 18 and 16
  AWG and that of 14 AWG copper-clad aluminium (2023) were not seen, so they are left out here and in the program.
- NEC Table 210.21(B)(3): a public copy of the branch-circuit summary (210.24). 210.21(B)(1): a contractors' magazine.
- BS 7671 314.4: a portal's article on wiring consumer units (United Kingdom).
- Legs: a training page on phases in an electrical panel; tandems: inspectors' forum, a page on half-size breakers.
"""

import pytest

from floorplan_circuits.hazards.ratings import largest_breaker
from floorplan_circuits.home.power import Breaker, Conductor, Pole, Tie
from tests.hazards.small import FIVE, PANEL, box, device, feed, found, hazards, standing, tie
from tests.supply.wiring import on

GROUP = 400
APART = "shared neutral, no common handle"
SUMS = ("one leg, one neutral", "halves of one space on one neutral", "more hots than legs on one neutral")
HELD = Tie.model_validate(tie())


def kinds(*boxes, **fields) -> set[str]:
    return {one.kind for one in found(*boxes, **fields).hazards}


# --- yokes: 210.7 ---------------------------------------------------------------------------------------------------


def yoke(*breakers: int):
    halves = (feed(3001 + at, on(one)) for at, one in enumerate(breakers))
    return box(1001, device(2001, *halves, kind="split receptacle"))


def test_a_yoke_fed_by_spaces_1_and_3_is_found_without_a_tie_and_not_with_one() -> None:
    for held, told in ((None, True), (HELD, False)):
        breakers = [standing(101, 1, tie=held), standing(103, 3, tie=held)]
        assert ("one yoke on two breakers" in kinds(yoke(101, 103), breakers=breakers)) is told


def test_nor_on_a_two_pole_breaker() -> None:
    double = Breaker(id=101, panel=PANEL, poles=(Pole(space=1), Pole(space=3)))
    assert "one yoke on two breakers" not in kinds(yoke(101, 101), breakers=[double])


def test_it_holds_for_two_circuits_that_are_not_multiwire_too() -> None:
    breakers = [standing(101, 1, neutral="own"), standing(103, 3, neutral="own")]
    assert "one yoke on two breakers" in kinds(yoke(101, 103), breakers=breakers)


# --- neutrals: 210.4 and legs ---------------------------------------------------------------------------------------


def pair(first: int, second: int, **fields) -> list[Breaker]:
    return [standing(100 + space, space, neutral=GROUP, **fields) for space in (first, second)]


def test_spaces_1_and_2_are_one_leg_so_that_a_shared_neutral_adds() -> None:
    told = kinds(yoke(101, 102), breakers=pair(1, 2))
    assert {APART, "one leg, one neutral"} <= told


def test_spaces_1_and_3_lack_only_the_common_handle() -> None:
    told = kinds(breakers=pair(1, 3))
    assert APART in told
    assert told.isdisjoint(SUMS)


def test_a_handle_tie_serves_a_multiwire_circuit() -> None:
    assert kinds(breakers=pair(1, 3, tie=HELD)) == set()


def test_the_halves_of_a_tandem_can_never_be_the_two_legs() -> None:
    breakers = [standing(101 + at, 4, half, neutral=GROUP, tie=HELD) for at, half in enumerate(("A", "B"))]
    assert kinds(breakers=breakers) == {"halves of one space on one neutral"}


@pytest.mark.parametrize(
    ("spaces", "one_leg"),
    [((1, 6), True), ((3, 4), True), ((1, 3), False), ((2, 4), False), ((1, 4), False), ((41, 42), True)],
)
def test_legs_are_as_the_training_page_prints_them(spaces, one_leg) -> None:
    """1 and 6 on one leg, 3 and 4 on the other; neighbours in a column differ, neighbours in a row agree."""
    told = hazards("one leg, one neutral", breakers=pair(*spaces, tie=HELD))
    assert bool(told) is one_leg
    assert all("may be on one leg" in one.says for one in told)


def test_every_second_space_of_a_three_phase_panel_has_a_leg_of_its_own() -> None:
    breakers = [standing(100 + space, space, neutral=GROUP, tie=HELD) for space in (1, 3, 5)]
    assert kinds(breakers=breakers, system="three-phase 208Y/120") == set()


@pytest.mark.parametrize("system", ["single-phase 230", "three-phase 400Y/230"])
def test_british_rules_stand_where_the_nec_does_not_apply(system) -> None:
    told = [one for one in found(breakers=pair(1, 3), system=system).hazards if one.kind == APART]
    assert all("314.4" in one.source and "NEC" not in one.source for one in told)
    assert told


# --- one load across two hots: 240.15(B) ----------------------------------------------------------------------------


def test_single_pole_breakers_serve_a_load_across_two_hots_with_a_tie() -> None:
    load = box(1001, device(2001, feed(3001, on(101, 103, how="all")), kind="240 V appliance"))
    for held, told in ((None, True), (HELD, False)):
        breakers = [standing(101, 1, tie=held), standing(103, 3, tie=held)]
        assert ("one load on untied breakers" in kinds(load, breakers=breakers)) is told


# --- small conductors: 240.4(D) -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("size", "metal", "most"),
    [
        ("14", "copper", 15),
        ("12", "copper", 20),
        ("10", "copper", 30),
        ("12", "aluminium", 15),
        ("12", "copper-clad aluminium", 15),
        ("10", "aluminium", 25),
        ("10", "copper-clad aluminium", 25),
        ("8", "copper", None),
        ("14", "aluminium", None),
        ("18", "copper", None),
    ],
)
def test_the_largest_breaker_for_a_small_conductor_is_as_published(size, metal, most) -> None:
    assert largest_breaker(f"{size} AWG", metal) == most
    for amps in (15, 20, 25, 30, 35):
        conductor = Conductor.model_validate({"size": f"{size} AWG", "metal": metal})
        told = hazards("conductor and breaker", breakers=[standing(FIVE, 5, amps=amps, conductor=conductor)])
        assert bool(told) is (most is not None and amps > most)


# --- receptacles: 210.21(B) -----------------------------------------------------------------------------------------


def receptacle(kind: str, rating: int, amps: int) -> list:
    there = box(1001, device(2001, feed(3001, on(FIVE)), kind=kind, rated=rating))
    return hazards("receptacle and breaker", there, breakers=[standing(FIVE, 5, amps=amps)])


@pytest.mark.parametrize(("amps", "allowed"), [(15, {15}), (20, {15, 20}), (30, {30}), (40, {40, 50}), (50, {50})])
def test_two_or_more_receptacles_on_a_circuit_are_of_the_ratings_in_the_table(amps, allowed) -> None:
    for rating in (15, 20, 30, 40, 50):
        assert bool(receptacle("duplex receptacle", rating, amps)) is (rating not in allowed)


@pytest.mark.parametrize(
    ("kind", "rating", "amps", "told"),
    [
        ("single receptacle", 15, 20, True),  # alone, and less than its circuit
        ("duplex receptacle", 15, 20, False),  # a duplex is two
        ("duplex receptacle", 20, 15, True),
        ("duplex receptacle", 30, 20, True),
        ("240 V receptacle", 50, 40, False),
        ("240 V receptacle", 30, 30, False),
        ("240 V receptacle", 30, 50, True),
    ],
)
def test_the_published_cases(kind, rating, amps, told) -> None:
    assert bool(receptacle(kind, rating, amps)) is told
