import pytest
from hypothesis import given, settings

from floorplan_circuits.directory.wording import lines
from floorplan_circuits.find import find
from floorplan_circuits.home.boxes import Feed
from floorplan_circuits.home.building import Level, Room
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import change
from floorplan_circuits.home.table import Table
from sample_homes.write_samples import SAMPLES
from tests.homes import homes
from tests.supply.wiring import UNKNOWN, breaker, breaker_supply, on, panel, source
from tests.survey.houses import FEED, PANEL, A, B, a_test, house

NAMES = ("Kitchen", "Hall", "Bath", "Study", "Attic")


def words(home: Home, number: int = A) -> tuple[str, ...]:
    return find(home).lines[number].variants


def labelled(label: str, *args, wording: str = "", **fields) -> Home:
    home = house(*args, **fields)
    return change(home, breakers=home.breakers.put(change(home.breakers[A], as_found=label, wording=wording)))


def roomy(*kinds: str, per_room: int = 1) -> Home:
    """One room after the other with so many devices each, all on one breaker."""
    home = house({FEED + at: on(A) for at in range(len(kinds))})
    rooms, boxes = [], []
    for at, (box, kind) in enumerate(zip(home.boxes, kinds, strict=True)):
        room = at // per_room
        x = 5000 * room
        if at % per_room == 0:
            outline = ((x, 0), (x + 4000, 0), (x + 4000, 3000), (x, 3000))
            rooms.append(Room(id=50_000 + room, level=49_000, name=NAMES[room], outline=outline))
        device = change(box.devices[0], kind=kind)
        boxes.append(change(box, level=49_000, at=(x + 2000, 1500), devices=(device,)))
    levels = Table([Level(id=49_000, name="Ground floor")])
    return change(home, levels=levels, rooms=Table(rooms), boxes=Table(boxes))


# --- what each says -------------------------------------------------------------------------------------------------


def test_the_householders_own_wording_stands_as_it_is() -> None:
    line = find(labelled("kit", wording="Old pump: leave off")).lines[A]
    assert (line.variants, line.own) == (("Old pump: leave off",), True)
    assert not find(labelled("kit", wording="  ")).lines[A].own


def test_loads_are_told_by_room_then_shorter_and_shorter() -> None:
    home = roomy("duplex receptacle", "duplex receptacle", "ceiling light", "smoke alarm", per_room=2)
    assert words(home) == (
        "Kitchen: receptacles; Hall: smoke alarm, light",
        "Kitchen, Hall: receptacles and other",
        "Kitchen, Hall: mixed",
        "Kitchen, Hall",
        "Kitchen + 1",
    )


def test_a_variant_that_is_no_shorter_than_a_fuller_one_is_left_out() -> None:
    home = roomy("duplex receptacle", "duplex receptacle", "ceiling light", "ceiling light", "switch")
    assert words(home) == (
        "Kitchen: receptacle; Hall: receptacle; Bath: light; Study: light; Attic: switch",
        "Kitchen, Hall, Bath, Study, Attic: receptacles, lights",
        "Kitchen, Hall and 3 more rooms: receptacles, lights",
        "Kitchen and 4 more rooms: receptacles, lights",
        "Kitchen, 4 more: receptacles, lights",
        "Kitchen and 4 more rooms: mixed",
        "Kitchen, 4 more: mixed",
        "Kitchen, 4 more",
        "Kitchen + 4",
    )


def test_how_many_rooms_more_is_never_taken_for_a_rooms_number() -> None:
    home = roomy(*["ceiling light"] * 5)
    first = home.rooms.rows[0]
    said = words(change(home, rooms=home.rooms.put(change(first, name="Bedroom 2"))))
    assert "Bedroom 2 and 4 more rooms: lights" in said
    assert not [one for one in said if "+" in one or "Bedroom 2 and 4 more:" in one]


def test_what_kinds_of_load_there_are_is_dropped_last_of_all() -> None:
    said = words(roomy("smoke alarm", "smoke alarm", "exhaust fan", "duplex receptacle"))
    bare = [one for one in said if ":" not in one]
    assert "Bath, 3 more: smoke alarms and other" in said
    assert said[-len(bare) :] == tuple(bare)


def test_the_shortest_names_the_room_with_most() -> None:
    home = roomy("duplex receptacle", "ceiling light", "ceiling light")
    assert words(home)[-2:] == ("Kitchen, 2 more", "Kitchen + 2")
    assert words(roomy("duplex receptacle")) == ("Kitchen: receptacle", "Kitchen")


def test_a_switch_is_told_where_there_is_nothing_else_and_each_part_of_a_device_is() -> None:
    assert words(roomy("ceiling light", "switch", per_room=2))[0] == "Kitchen: light"
    assert words(roomy("switch"))[0] == "Kitchen: switch"
    assert words(roomy("switch", "switch", per_room=2))[0] == "Kitchen: switches"
    assert words(roomy("fixed appliance", "switch", per_room=2))[0] == "Fixed appliance, Kitchen"
    home = roomy("exhaust fan")
    (box,) = home.boxes
    parts = tuple(Feed(id=70_000 + at, part=part, on=on(A)) for at, part in enumerate(("light", "fan")))
    fan = change(box, devices=(change(box.devices[0], feeds=parts),))
    assert words(change(home, boxes=Table([fan]), next_id=80_000))[0] == "Kitchen: exhaust fan, light"


def test_what_lies_in_no_room_is_told_by_its_level_and_only_what_is_outside_by_outdoors() -> None:
    home = change(roomy("duplex receptacle"), rooms=Table())
    (box,) = home.boxes
    assert words(home)[-1] == "Ground floor"
    assert words(change(home, boxes=Table([change(box, mount="outdoor")])))[-1] == "Outdoors"
    assert words(house({FEED: on(A)}))[-1] == "Not placed"


def test_a_feeder_tells_its_panel_and_the_loads_that_hang_on_it_too() -> None:
    panels = [panel(PANEL, spaces=200), panel(2, prefix="G", name="Garage", fed_by=(breaker_supply(A),))]
    assert words(house({FEED: on(B)}, panels=panels)) == ("Feeds Garage",)
    both = words(house({FEED: on(A)}, panels=panels))
    assert both == ("Feeds Garage; Not placed: receptacle", "Feeds Garage; Not placed")


def test_what_others_stand_behind_or_a_source_feeds_into_is_never_spare() -> None:
    guard = [breaker(A, opens="hot"), breaker(B, behind=A)]
    assert words(house({FEED: on(B)}, *a_test(B), breakers=guard)) == ("Feeds breaker 5",)
    solar = house({FEED: on(B)}, *a_test(B), sources=[source(300, A, name="Solar")])
    assert words(solar) == ("Fed by Solar too",)


# --- nothing tied to it ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize("label", ["kit rm", "spare?", "SPARE bedroom", "?"])
def test_a_label_that_claims_something_is_kept_and_the_breaker_is_not_spare(label) -> None:
    said = words(labelled(label, {FEED: on(B)}, *a_test(B)))
    assert said[-1] == "Unknown"
    assert label in said[0]


@pytest.mark.parametrize("label", ["spare", " Spare ", "unused", "blank"])
def test_what_a_label_calls_spare_is_that_only_where_every_feed_is_proved(label) -> None:
    assert words(labelled(label, {FEED: on(B)}, *a_test(B))) == ("Spare",)
    for unproved in ({FEED: UNKNOWN}, {FEED: on(B)}):
        assert words(labelled(label, unproved)) == ("Nothing found on it yet", "Nothing found")


@pytest.mark.parametrize("label", ["", "  "])
def test_what_nobody_called_spare_never_is(label) -> None:
    for tested in ((), a_test(B)):
        assert words(labelled(label, {FEED: on(B)}, *tested)) == ("Nothing found on it yet", "Nothing found")


@pytest.mark.parametrize("label", ["", "spare"])
def test_where_no_box_is_recorded_what_a_breaker_feeds_is_not_known(label) -> None:
    home = change(labelled(label, {FEED: on(B)}), boxes=Table(), log=())
    assert words(home) == ("What it feeds is not known yet", "Not known yet")


def test_an_unknown_feed_is_on_no_line_though_a_breaker_is_stated_for_part_of_it() -> None:
    assert words(house({FEED: on(A, 999)})) == ("Nothing found on it yet", "Nothing found")


# --- all of them ----------------------------------------------------------------------------------------------------


@settings(max_examples=30)
@given(homes())
def test_every_breaker_has_distinct_variants_the_longest_first_and_none_is_empty(home) -> None:
    found = find(home)
    assert set(found.lines) == set(home.breakers.ids())
    for number, line in found.lines.items():
        assert line.variants
        assert all(variant.strip() for variant in line.variants)
        assert len(set(line.variants)) == len(line.variants)
        lengths = [len(variant) for variant in line.variants]
        assert lengths == sorted(lengths, reverse=True)
        label = home.breakers[number].as_found.strip().lower()
        if label not in ("", "spare", "unused", "blank") and not line.own:
            assert "Spare" not in line.variants


@pytest.mark.parametrize("name", sorted(SAMPLES))
def test_the_samples_lines_name_no_person(name) -> None:
    home = SAMPLES[name]()
    said = " ".join(variant for line in find(home).lines.values() for variant in line.variants)
    assert not any(entry.who and entry.who in said for entry in home.log)
    assert "says" not in said


def test_a_home_without_breakers_has_no_lines() -> None:
    assert lines(Home(), {}, {}) == {}
