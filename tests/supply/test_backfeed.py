"""Power that runs back where two supplies meet."""

from floorplan_circuits.supply.backfeed import running_back

ROOT, OTHER = ("source", 1), ("source", 2)
BUS, LEFT, RIGHT, LOOP = ("bus", 1), ("circuit", 1), ("circuit", 2), ("feed", 1)


def test_nothing_runs_back_where_each_has_one_supply():
    assert running_back({BUS: [ROOT], LEFT: [BUS], RIGHT: [BUS]}, frozenset({ROOT})) == []


def test_a_loop_runs_back_up_to_where_both_ways_have_one_origin():
    found = running_back({BUS: [ROOT], LEFT: [BUS], RIGHT: [BUS], LOOP: [LEFT, RIGHT]}, frozenset({ROOT}))

    assert set(found) == {(LOOP, LEFT), (LOOP, RIGHT)}


def test_a_second_source_runs_back_all_the_way_but_never_into_a_source():
    found = running_back({BUS: [ROOT], LEFT: [BUS], LOOP: [LEFT, OTHER]}, frozenset({ROOT, OTHER}))

    assert set(found) == {(LOOP, LEFT), (LEFT, BUS)}


def test_nothing_runs_back_into_what_supplies_a_change_over():
    supplies = {BUS: [ROOT], LEFT: [BUS], LOOP: [LEFT, OTHER]}

    assert running_back(supplies, frozenset({ROOT, OTHER}), frozenset({LOOP})) == []
    assert running_back(supplies, frozenset({ROOT, OTHER}), frozenset({LEFT})) == [(LOOP, LEFT)]


def test_a_way_that_only_running_back_opens_counts_too():
    upper, lower, load = ("circuit", 8), ("circuit", 9), ("feed", 9)
    supplies = {upper: [ROOT], lower: [upper], LEFT: [upper, lower], load: [lower, OTHER]}

    found = running_back(supplies, frozenset({ROOT, OTHER}))

    assert (load, lower) in found
    assert (LEFT, upper) in found
    assert (lower, upper) in found


def test_two_supplies_of_which_one_hangs_on_nothing_do_not_run_back():
    assert running_back({LOOP: [LEFT, RIGHT], RIGHT: [ROOT]}, frozenset({ROOT})) == [(LOOP, LEFT)]
