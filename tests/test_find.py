from dataclasses import fields

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.edits.breakers import set_breaker
from floorplan_circuits.edits.meanings import explain
from floorplan_circuits.edits.ties import tie
from floorplan_circuits.find import find
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.boxes import Device
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.log import Round
from floorplan_circuits.home.record import change
from floorplan_circuits.home.table import Table
from sample_homes.write_samples import SAMPLES
from tests.homes import generate, homes, solo_rounds, with_log

COTTAGE = SAMPLES["cottage.json"]()


def edits(home: Home) -> dict[str, Home]:
    """The home edited in one place each, everything else the very objects."""
    room, box, breaker, panel = home.rooms.rows[0], home.boxes.rows[3], home.breakers.rows[2], home.panels.rows[0]
    named = change(box.devices[0], name="Aquarium pump")
    outline = tuple((x + (1000 if x > 0 else 0), y) for x, y in room.outline)
    return {
        "nothing": change(home),
        "system": change(home, system="three-phase 208Y/120"),
        "a room": change(home, rooms=home.rooms.put(change(room, outline=outline))),
        "a box moved": change(home, boxes=home.boxes.put(change(box, at=(1, 1)))),
        "a box gone": change(home, boxes=home.boxes.without([box.id])),
        "a breaker": change(
            home, breakers=home.breakers.put(change(breaker, found={"state": "off"}, opens="not known"))
        ),
        "no breaker": change(home, breakers=Table()),
        "a panel": change(
            home, panels=home.panels.put(change(panel, numbering="single row", prefix="X", system="not known"))
        ),
        "no log": change(home, log=()),
        "half a log": change(home, log=home.log[: len(home.log) // 2]),
        "no sources": change(home, sources=Table()),
        "no controls": change(home, controls=Table()),
        "no level": change(home, levels=Table()),
        "a name": change(home, boxes=home.boxes.put(change(box, devices=(named, *box.devices[1:])))),
        "a word explained": explain(home, "kit", "kitchen").home,
        "no windows": change(home, openings=Table()),
        "an own line": set_breaker(home, breaker.id, wording="Range, Kitchen").home,
        "two tied elsewhere": tie(home, [one.devices[0].feeds[0].id for one in home.boxes.rows[1:3]], breaker.id).home,
        "a tester's name": change(
            home, log=(*home.log, Round(id=home.next_id, kind="round", who="Pat", method="lamp plugged in"))
        ),
    }


EDITED = edits(COTTAGE)


@pytest.mark.parametrize("edit", EDITED)
def test_carrying_over_from_before_an_edit_finds_the_same_as_starting_anew(edit) -> None:
    edited = EDITED[edit]
    assert find(edited, find(COTTAGE)) == find(edited)
    assert find(COTTAGE, find(edited)) == find(COTTAGE)


def test_walls_follow_when_the_levels_change_places() -> None:
    house = SAMPLES["house.json"]()
    turned = change(house, levels=Table(reversed(house.levels.rows)))
    assert find(turned, find(house)).walls == find(turned).walls != find(house).walls


def test_the_systems_legs_are_not_carried_over_when_it_is_stated_anew() -> None:
    panel = change(COTTAGE.panels.rows[0], system="not known")
    home = change(COTTAGE, panels=Table([panel]), system="not known")
    stated = change(home, system="split-phase 120/240")
    assert find(stated, find(home)).panels[panel.id].legs[1] == "A"


def test_walls_come_in_the_order_of_the_levels_whatever_order_they_were_in_before() -> None:
    home = SAMPLES["house.json"]()
    turned = change(home, levels=Table(reversed(home.levels.rows)))
    assert find(home, find(turned)) == find(home)


@settings(max_examples=30)
@given(homes(), homes())
def test_findings_of_any_other_home_before_change_nothing(home, other) -> None:
    assert find(home, find(other)) == find(home)


TABLES = ("rooms", "boxes", "panels", "breakers", "sources", "levels", "log", "openings", "meanings")


@settings(max_examples=30)
@given(homes(), homes(), st.sets(st.sampled_from(TABLES)))
def test_sharing_some_tables_with_the_home_before_changes_nothing(home, other, shared) -> None:
    mixed = change(other, **{name: getattr(home, name) for name in shared})
    assert find(home, find(mixed)) == find(home)


def test_what_did_not_change_is_the_very_object() -> None:
    before = find(COTTAGE)
    after = find(change(COTTAGE, log=()), before)
    assert after.rooms is before.rooms
    assert after.room_of is before.room_of
    assert after.near is before.near
    assert after.walls is before.walls
    assert after.panels is before.panels
    assert after.marks is before.marks
    assert after.conclusions != before.conclusions


def test_a_line_that_nothing_changed_is_not_judged_anew() -> None:
    before = find(COTTAGE)
    moved = find(EDITED["a box moved"], before)
    tied = find(EDITED["two tied elsewhere"], before)
    on = EDITED["two tied elsewhere"].breakers.rows[2].id
    assert (
        sum(line is before.directory.lines[one] for one, line in moved.directory.lines.items()) >= len(moved.lines) - 3
    )
    assert any(line is before.directory.lines[one] for one, line in tied.directory.lines.items())
    assert tied.directory.lines[on] != before.directory.lines[on]
    assert find(change(COTTAGE), before).directory is before.directory


@settings(max_examples=15, deadline=None)
@given(st.integers(0, 10_000), st.data())
def test_a_feed_tied_elsewhere_in_a_plausible_home_is_found_as_if_anew(seed, data) -> None:
    home = generate(seed, 12).home
    feeds = [feed.id for box in home.boxes for device in box.devices for feed in device.feeds]
    some = data.draw(st.lists(st.sampled_from(feeds), min_size=1, max_size=4, unique=True))
    edited = tie(home, some, data.draw(st.sampled_from(home.breakers.ids()))).home
    assert find(edited, find(home)) == find(edited)


def test_findings_name_the_home_they_are_about() -> None:
    edited = EDITED["a room"]
    assert find(edited, find(COTTAGE)).home is edited


def test_an_empty_home_has_nothing_to_find() -> None:
    found = find(Home())
    empty = Findings(Home())
    assert all(getattr(found, field.name) == getattr(empty, field.name) for field in fields(Findings))


@settings(max_examples=30)
@given(homes())
def test_finding_twice_finds_the_same_and_leaves_the_home_alone(home) -> None:
    text = home.model_dump_json()
    assert find(home) == find(home)
    assert home.model_dump_json() == text


@settings(max_examples=30)
@given(homes())
def test_everything_found_is_about_something_that_is_there(home) -> None:
    found = find(home)
    breakers, boxes = set(home.breakers.ids()), set(home.boxes.ids())
    for one in found.conclusions.values():
        assert set(one.breakers) | set(one.besides) <= breakers
        assert one.box in boxes
    assert {zone.breaker for zone in found.zones} <= breakers | {None}
    assert set(found.colours) <= breakers
    assert set(found.never_tested) <= set(found.conclusions)
    assert all(found.conclusions[feed].standing != "proved" for feed in found.never_tested)


def test_an_unknown_feed_has_a_cell_of_its_own_and_no_colour() -> None:
    home = generate(4, 60).home
    found = find(home)
    unknown_rooms = {
        found.room_of[one.box]
        for one in found.conclusions.values()
        if one.standing == "unknown" and one.device is not None
    }
    assert any(zone.breaker is None for zone in found.zones if zone.room in unknown_rooms)


def test_a_zone_is_settled_only_where_all_in_it_is_proved_or_traced() -> None:
    generated = generate(4, 60)
    home = with_log(generated.home, solo_rounds(generated, generated.home.breakers.ids()))
    found = find(home)
    assert any(zone.settled for zone in found.zones)
    assert not any(zone.settled for zone in find(generated.home).zones)
    assert not any(zone.settled for zone in found.zones if zone.breaker is None)


def test_colours_do_not_move_when_a_first_device_hangs_on_another_breaker() -> None:
    before = find(COTTAGE).colours
    idle = next(number for number in COTTAGE.breakers.ids() if number not in before)
    box = COTTAGE.boxes.rows[5]
    feed = change(
        box.devices[0].feeds[0],
        id=COTTAGE.next_id,
        on={"how": "any", "supplies": ({"kind": "breaker", "breaker": idle},)},
    )
    lone = Device(id=COTTAGE.next_id + 1, kind="switch", feeds=(feed,))
    extra = change(box, id=COTTAGE.next_id + 2, mark="B99", at=None, level=None, devices=(lone,), passing=())
    after = find(change(COTTAGE, boxes=COTTAGE.boxes.put(extra), next_id=COTTAGE.next_id + 3)).colours
    assert {breaker: place for breaker, place in after.items() if breaker != idle} == before
    assert idle in after
