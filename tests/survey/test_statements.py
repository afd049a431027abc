import pytest

from floorplan_circuits.home.boxes import Feed
from floorplan_circuits.home.record import change
from floorplan_circuits.home.table import Table
from floorplan_circuits.survey.statements import breakers_above
from tests.supply.wiring import DISCONNECTED, UNKNOWN, behind, breaker, breaker_supply, elsewhere, on, panel, source
from tests.supply.wiring import source_supply as from_source
from tests.survey.houses import FEED, PANEL, A, B, C, house, stated_of

NEXT = 401


def said(*args, **fields):
    stated = stated_of(house(*args, **fields))
    return set(stated.breakers), list(stated.others.values())


# --- stated plainly -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("hangs", "breakers", "others"),
    [
        (on(A), {A}, []),
        (on(A, B), {A, B}, []),
        (on(breaker_supply(A, 0), breaker_supply(A, 1), how="all"), {A}, []),
        (on(A, elsewhere("the neighbour")), {A}, ["elsewhere: the neighbour"]),
        (on(elsewhere()), set(), ["elsewhere"]),
        (UNKNOWN, set(), []),
        (DISCONNECTED, set(), []),
    ],
)
def test_what_is_stated_of_the_feed_itself(hangs, breakers, others) -> None:
    assert said({FEED: hangs}) == (breakers, others)


def test_a_chain_is_followed_to_its_end() -> None:
    stated = stated_of(house({FEED: behind(NEXT), NEXT: behind(402), 402: on(B)}))
    assert stated.breakers == (B,)
    assert [place.feed.id for place in stated.chain] == [FEED, NEXT, 402]
    assert stated.end == on(B)


@pytest.mark.parametrize(
    "feeds",
    [
        {FEED: UNKNOWN},
        {FEED: behind(NEXT), NEXT: UNKNOWN},
        {FEED: behind(999)},
        {FEED: behind(NEXT), NEXT: behind(FEED)},
        {FEED: on(999)},
        {FEED: on(A, 999)},
    ],
)
def test_what_hangs_on_nobody_knows_what_is_unsure(feeds) -> None:
    assert stated_of(house(feeds)).unsure


def test_what_is_stated_whole_is_not_unsure() -> None:
    assert not stated_of(house({FEED: behind(NEXT), NEXT: on(A)})).unsure
    assert not stated_of(house({FEED: DISCONNECTED})).unsure


def test_what_hangs_behind_something_not_built_yet_is_unsure_and_keeps_its_breaker() -> None:
    home = house({FEED: behind(NEXT), NEXT: on(A)})
    box = home.boxes.rows[1]
    planned = change(box, devices=(change(box.devices[0], planned=True),))
    stated = stated_of(change(home, boxes=home.boxes.put(planned)))
    assert (stated.unsure, stated.breakers) == (True, (A,))


def test_what_a_newer_program_added_to_a_statement_leaves_it_unsure() -> None:
    for strange in (
        {**on(A).model_dump(), "also": 7},
        {"how": "any", "supplies": [{"kind": "breaker", "breaker": A, "x": 1}]},
    ):
        hangs = Feed.model_validate({"id": FEED, "on": strange}, strict=False).on
        assert stated_of(house({FEED: hangs})).unsure


def test_a_loop_is_one_also_for_what_hangs_behind_it() -> None:
    assert stated_of(house({FEED: on(A, B)})).is_loop
    assert stated_of(house({FEED: behind(NEXT), NEXT: on(A, B)})).is_loop
    assert not stated_of(house({FEED: on(A)})).is_loop
    assert not stated_of(house({FEED: on(A, B, how="all")})).is_loop


# --- power that runs back -------------------------------------------------------------------------------------------


def test_a_loop_elsewhere_joins_the_circuits_of_all_that_hang_on_them() -> None:
    stated = stated_of(house({FEED: on(A), NEXT: on(A, B)}))
    assert (set(stated.breakers), stated.joined) == ({A, B}, True)
    assert not stated_of(house({FEED: on(C), NEXT: on(A, B)})).joined


def test_a_source_into_a_breaker_reaches_all_on_it() -> None:
    assert said({FEED: on(A)}, sources=[source(300, A, name="Solar")]) == ({A}, ["source: Solar"])
    assert said({FEED: on(B)}, sources=[source(300, A, name="Solar")]) == ({B}, [])


def test_a_source_into_a_feed_reaches_what_is_before_and_behind_it() -> None:
    feeds = {FEED: on(A), NEXT: behind(FEED), 402: behind(NEXT)}
    home = house(feeds, sources=[source(300, NEXT, name="Generator")])
    for feed in feeds:
        assert list(stated_of(home, feed).others.values()) == ["source: Generator"], feed


def test_a_tap_on_a_feeder_has_the_panels_other_feeder_too() -> None:
    panels = [panel(PANEL, spaces=200), panel(2, prefix="G", fed_by=(breaker_supply(A), breaker_supply(B)))]
    assert said({FEED: on(A)}, panels=panels) == ({A, B}, [])


def test_two_supplies_without_a_name_stay_two() -> None:
    assert len(said({FEED: on(elsewhere()), NEXT: on(A)})[1]) == 1
    twins = [source(300, name="Solar"), source(301, name="Solar")]
    both = stated_of(house({FEED: on(from_source(300), from_source(301))}, sources=twins))
    assert list(both.others.values()) == ["source: Solar", "source: Solar"]


def test_one_named_supply_from_elsewhere_is_one_for_all_feeds() -> None:
    home = house({FEED: on(elsewhere("hall")), NEXT: on(elsewhere("hall")), 402: on(elsewhere()), 403: on(elsewhere())})
    keys = [set(stated_of(home, feed).others) for feed in (FEED, NEXT, 402, 403)]
    assert keys[0] == keys[1]
    assert not keys[2] & keys[3]


# --- low voltage ----------------------------------------------------------------------------------------------------


def chime(above_kind: str = "doorbell transformer", volts: str = "low"):
    home = house({FEED: behind(NEXT), NEXT: on(A)})
    box, above = home.boxes.rows
    low = change(box, devices=(change(box.devices[0], feeds=(Feed(id=FEED, on=behind(NEXT), volts=volts),)),))
    transformer = change(above, devices=(change(above.devices[0], kind=above_kind),))
    return stated_of(change(home, boxes=Table([low, transformer])))


def test_low_voltage_is_harmless_only_behind_a_transformer_that_is_stated() -> None:
    assert chime().is_low_voltage
    assert not chime(above_kind="ground-fault receptacle").is_low_voltage
    assert not chime(volts="mains").is_low_voltage
    assert not chime(volts="not known").is_low_voltage
    assert not stated_of(house({FEED: on(A)}, feed_fields={"volts": "low"})).is_low_voltage


# --- breakers above -------------------------------------------------------------------------------------------------


def test_feeders_and_what_a_breaker_is_behind_stand_above_it() -> None:
    panels = [panel(PANEL, spaces=200), panel(2, prefix="G", fed_by=(breaker_supply(A),))]
    breakers = [breaker(A), breaker(B, of=2), breaker(C, of=2, behind=B)]
    above = breakers_above(house(breakers=breakers, panels=panels))
    assert above == {A: frozenset(), B: {A}, C: {A, B}}


def test_a_ring_of_breakers_ends_and_none_stands_above_itself() -> None:
    breakers = [breaker(A, behind=B), breaker(B, behind=A)]
    assert breakers_above(house(breakers=breakers)) == {A: {B}, B: {A}}
