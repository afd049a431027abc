"""Colours: circuits that meet stay apart, and a later circuit never alters an earlier one."""

from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.geometry.colouring import HUES, PLACES, STRONG, colours

WEAK = 1


def hue(place):
    return place % HUES


def test_a_small_home_gets_all_six_hues_plain():
    assert sorted(colours(range(1, 7), {}).values()) == [0, 1, 2, 3, 4, 5]


def test_from_the_seventh_circuit_a_hatch_joins():
    assert colours(range(1, 8), {})[7] == 6


def test_thirty_circuits_all_look_different_and_the_next_thirty_repeat_them_once():
    found = list(colours(range(60), {}).values())

    assert sorted(found[:30]) == list(range(PLACES))
    assert sorted(found[30:]) == list(range(PLACES))


def test_circuits_that_meet_differ_in_hue_though_a_plain_place_is_left_over():
    meets = {(one, 6): STRONG for one in range(5)}
    found = colours([0, 1, 2, 3, 4, 5, 6], meets)

    assert found[6] == 5 + HUES
    assert len({hue(found[one]) for one in (0, 1, 2, 3, 4, 6)}) == 6


def test_a_seventh_circuit_that_meets_all_others_differs_by_its_hatch():
    found = colours(range(7), dict.fromkeys(combinations(range(7), 2), STRONG))

    assert len({hue(found[one]) for one in range(6)}) == 6
    assert found[6] >= HUES


def test_hatched_circuits_that_meet_have_unlike_hatches():
    """Grey paper shows hatches better than hues."""
    meets = dict.fromkeys(combinations(range(6, 10), 2), STRONG)
    found = colours(range(10), meets)

    assert sorted(found[one] // HUES for one in range(6, 10)) == [1, 2, 3, 4]


def test_what_is_seldom_on_a_floor_leaves_the_plain_places_to_others():
    found = colours(range(10), {}, seldom={0, 1, 2, 3})

    assert sorted(found[one] for one in range(4, 10)) == list(range(HUES))
    assert all(found[one] >= HUES for one in range(4))


def test_where_hues_run_out_a_shared_room_gives_way_before_a_shared_box():
    order = [0, 1, 2, 3, 4, 5, 9]
    meets = {(one, 9): STRONG for one in range(6)} | {(3, 9): WEAK}

    assert hue(colours(order, meets)[9]) == hue(colours(order, meets)[3])


def test_a_meeting_counts_whichever_way_round_it_is_named_and_the_stronger_wins():
    order = [0, 1, 2, 3, 4, 5, 9]
    meets = {(9, one): STRONG for one in range(6)}

    assert colours(order, meets) == colours(order, {(b, a): strength for (a, b), strength in meets.items()})
    assert colours(order, {**meets, (3, 9): WEAK}) == colours(order, meets)


def test_a_circuit_does_not_meet_itself_and_strangers_do_not_count():
    assert colours([1, 2], {(1, 1): STRONG, (1, 77): STRONG, (2, 77): STRONG}) == {1: 0, 2: 1}


def test_no_circuits_have_no_colours():
    assert colours([], {(1, 2): STRONG}) == {}


meetings = st.dictionaries(
    st.tuples(st.integers(0, 24), st.integers(0, 24)).filter(lambda pair: pair[0] < pair[1]),
    st.sampled_from([WEAK, STRONG]),
    max_size=60,
)


@settings(max_examples=100)
@given(meetings, st.integers(0, 25))
def test_a_later_circuit_never_alters_an_earlier_one(meets, count):
    before = colours(range(count), {pair: one for pair, one in meets.items() if max(pair) < count})
    after = colours(range(25), meets)

    assert {one: after[one] for one in range(count)} == before


@settings(max_examples=100)
@given(meetings)
def test_those_that_meet_fewer_than_six_placed_before_them_share_no_hue_with_any_of_those(meets):
    found = colours(range(25), meets)
    for one in range(25):
        earlier = [a for a, b in meets if b == one]
        if len({hue(found[other]) for other in earlier}) < HUES:
            assert hue(found[one]) not in {hue(found[other]) for other in earlier}


@settings(max_examples=100)
@given(meetings)
def test_no_two_that_meet_look_the_same_while_there_are_thirty_places(meets):
    found = colours(range(25), meets)

    assert all(found[a] != found[b] for a, b in meets)
