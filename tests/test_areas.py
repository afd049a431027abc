"""Areas: floors by lights, receptacles or both; colours that are the home's, whatever is shown."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.edits.boxes import put_device
from floorplan_circuits.edits.breakers import add_breaker
from floorplan_circuits.edits.panels import add_panel
from floorplan_circuits.edits.rooms import add_room
from floorplan_circuits.edits.starting import new_home
from floorplan_circuits.edits.ties import tie
from floorplan_circuits.edits.typed import read_typed
from floorplan_circuits.find import find
from tests.homes import generate

LAYERS = ("receptacles", "lights", "both")


def kitchen(*devices):
    """A room of 4 × 3 m with a panel of eight spaces; each device a kind, a place and the space it hangs on."""
    home = new_home()
    level = home.levels.ids()[0]
    home = add_room(home, level, ((0, 0), (4000, 0), (4000, 3000), (0, 3000)), "Kitchen").home
    home = add_panel(home, 8).home
    panel = home.panels.ids()[0]
    breakers = {}
    for kind, at, space in devices:
        edited = put_device(home, level, at, 90, kind)
        home = edited.home
        if space and space not in breakers:
            made = add_breaker(home, panel, space, read_typed("15"))
            home, breakers[space] = made.home, made.made[0]
        if space:
            home = tie(home, [edited.made[0]], breakers[space]).home
    return home, breakers


TWO_LIGHTS_TWO_PLUGS = (
    ("ceiling light", (1000, 1500), 1),
    ("ceiling light", (3000, 1500), 1),
    ("duplex receptacle", (1000, 0), 3),
    ("duplex receptacle", (3000, 0), 3),
)


def zones_of(home, layer):
    return {zone.breaker: zone for zone in find(home, layer=layer).zones}


def test_lights_receptacles_or_both_divide_the_floor():
    home, breakers = kitchen(*TWO_LIGHTS_TWO_PLUGS)

    assert set(zones_of(home, "lights")) == {breakers[1]}
    assert set(zones_of(home, "receptacles")) == {breakers[3]}
    assert set(zones_of(home, "both")) == {breakers[1], breakers[3]}


def test_a_room_of_switches_alone_goes_by_those_but_not_for_receptacles():
    home, breakers = kitchen(("switch", (1000, 0), 1), ("switch", (2000, 0), 1))

    assert set(zones_of(home, "lights")) == set(zones_of(home, "both")) == {breakers[1]}
    assert zones_of(home, "receptacles") == {}


def test_an_unknown_feed_gets_a_cell_of_its_own():
    home, breakers = kitchen(*TWO_LIGHTS_TWO_PLUGS, ("duplex receptacle", (0, 2500), None))

    assert set(zones_of(home, "receptacles")) == {breakers[3], None}


def test_a_lone_device_takes_no_area_where_there_are_others():
    home, breakers = kitchen(*TWO_LIGHTS_TWO_PLUGS, ("240 V receptacle", (0, 1500), 5))

    assert breakers[5] not in zones_of(home, "receptacles")
    assert breakers[5] in find(home).colours


def test_an_area_is_settled_only_when_every_feed_in_it_is_tested_or_traced():
    home, breakers = kitchen(*TWO_LIGHTS_TWO_PLUGS)

    assert not zones_of(home, "lights")[breakers[1]].settled


@pytest.mark.parametrize("layer", LAYERS)
def test_everything_but_the_floors_is_the_same_for_each_layer(layer):
    home = generate(5, 80).home
    found, both = find(home, layer=layer), find(home)

    assert found.layer == layer
    assert found.colours == both.colours
    assert found.hazards == both.hazards
    assert find(home, both, layer) == found


def test_circuits_that_share_a_room_or_a_wall_get_other_hues_while_six_suffice():
    home, breakers = kitchen(*TWO_LIGHTS_TWO_PLUGS, ("duplex receptacle", (4000, 1500), 5), ("switch", (500, 0), 5))
    colours = find(home).colours

    assert len({colours[breaker] % 6 for breaker in breakers.values()}) == 3


@settings(max_examples=15, deadline=None)
@given(st.integers(0, 10_000))
def test_a_colour_stays_when_a_device_is_added_that_meets_nobody_new(seed):
    home = generate(seed, 60).home
    before = find(home)
    circuits = [found for found in before.boxes.values() if len(found.breakers) == 1 and found.room is not None]
    box = home.boxes[circuits[seed % len(circuits)].box]
    breaker = before.boxes[box.id].breakers[0]
    edited = put_device(home, box.level, box.at, box.angle, "switch")
    after = find(tie(edited.home, [edited.made[0]], breaker).home, before)

    if before.room_of[box.id] == after.room_of[edited.made[0]]:
        assert after.colours == before.colours
