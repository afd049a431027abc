"""The edges that a home states."""

from floorplan_circuits.home.home import existing_feeds
from floorplan_circuits.supply.edges import stated_edges
from tests.supply.wiring import (
    DISCONNECTED,
    UNKNOWN,
    behind,
    breaker,
    breaker_supply,
    elsewhere,
    main,
    on,
    panel,
    source,
    source_supply,
    wired,
)


def edges(*args, **fields):
    home = wired(*args, **fields)
    return list(stated_edges(home, tuple(place.feed for place in existing_feeds(home))))


def test_a_panel_stands_behind_its_mains_and_its_breakers_behind_the_bus():
    assert edges([panel(1, mains=(main(5), main(6)))], [breaker(10)], {}) == [
        (("panel", 1), ("main", 5)),
        (("main", 5), ("bus", 1)),
        (("panel", 1), ("main", 6)),
        (("main", 6), ("bus", 1)),
        (("bus", 1), ("breaker", 10)),
        (("breaker", 10), ("circuit", 10)),
    ]


def test_a_panel_without_a_main_is_its_own_bus():
    assert edges([panel(1)], [], {}) == [(("panel", 1), ("bus", 1))]


def test_a_panel_says_what_feeds_it_and_a_source_says_what_it_reaches():
    found = edges(
        [panel(1), panel(2, fed_by=(breaker_supply(10), source_supply(30)))],
        [breaker(10)],
        {40: UNKNOWN},
        [source(30, 1, 10, 40)],
    )

    assert (("circuit", 10), ("panel", 2)) in found
    assert (("source", 30), ("panel", 2)) in found
    assert found[:3] == [(("source", 30), taker) for taker in (("panel", 1), ("circuit", 10), ("feed", 40))]


def test_a_breaker_behind_another_hangs_on_that_alone():
    found = edges([panel(1)], [breaker(10), breaker(11, behind=10)], {})

    assert (("circuit", 10), ("breaker", 11)) in found
    assert (("bus", 1), ("breaker", 11)) not in found


def test_a_feed_hangs_on_each_supply_that_it_names():
    supplies = on(10, source_supply(30), elsewhere("the neighbour"), how="all")
    found = edges([panel(1)], [breaker(10)], {40: supplies, 41: behind(40)}, [source(30)])

    assert found[-4:] == [
        (("circuit", 10), ("feed", 40)),
        (("source", 30), ("feed", 40)),
        (("elsewhere", 40), ("feed", 40)),
        (("feed", 40), ("feed", 41)),
    ]


def test_two_poles_of_one_breaker_are_one_circuit():
    found = edges([], [breaker(10, 1, 3)], {40: on(breaker_supply(10, 0), breaker_supply(10, 1), how="all")})

    assert set(found[-2:]) == {(("circuit", 10), ("feed", 40))}


def test_a_feed_of_which_nobody_knows_hangs_on_somebody_unknown_and_a_disconnected_one_on_nothing():
    assert edges([], [], {40: UNKNOWN, 41: DISCONNECTED}) == [(("unknown", 40), ("feed", 40))]


def test_what_names_something_gone_is_unknown_or_left_out():
    found = edges([panel(1, fed_by=(breaker_supply(77), source_supply(78)))], [breaker(10, behind=79)], {40: on(77)})

    assert found == [
        (("panel", 1), ("bus", 1)),
        (("bus", 1), ("breaker", 10)),
        (("breaker", 10), ("circuit", 10)),
        (("unknown", 40), ("feed", 40)),
    ]
    assert edges([], [], {40: on(source_supply(78))}) == [(("unknown", 40), ("feed", 40))]
    assert edges([], [], {}, [source(30, 99)]) == []


def test_a_source_does_not_reach_a_feed_that_is_not_built():
    assert edges([], [], {40: UNKNOWN}, [source(30, 40)], planned=[40]) == []
