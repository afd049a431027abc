"""Switching: groups grow, give back what they are told to, and are no supply."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.edits.asking import touched_evidence
from floorplan_circuits.edits.boxes import join_box, put_device, split_halves
from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.removal import remove
from floorplan_circuits.edits.switching import (
    is_switch,
    let_go,
    let_work,
    say_by_hand,
    set_group,
    set_groups_by,
    what_works,
)
from floorplan_circuits.find import find
from floorplan_circuits.home.home import Home, existing_feeds
from floorplan_circuits.home.integrity import problems
from floorplan_circuits.survey.witness import Witnesses
from tests.edits.samples import box_of, breaker_at, device_of, feeds_in, house, level_of, read
from tests.homes import homes


def lit() -> Home:
    """The house with B4, a ceiling light, and B5, a three-way switch."""
    home = put_device(house(), level_of(house()), (2000, 1500), 90, "ceiling light").home
    return put_device(home, level_of(home), (0, 1500), 0, "three-way switch").home


def worked(home: Home, switch: str = "B3", thing: str = "B4") -> Home:
    return let_work(home, [device_of(home, switch)], [box_of(home, thing)]).home


def test_a_switch_and_a_light_become_a_group_of_which_nobody_said_how_it_is_worked():
    home = lit()

    edited = let_work(home, [device_of(home, "B3")], [box_of(home, "B4")])
    (group,) = edited.home.controls

    assert edited.says == "Let the switch in B3 work the ceiling light in B4"
    assert (group.switches, group.feeds, group.by) == (
        (device_of(home, "B3"),),
        tuple(feeds_in(home, "B4")),
        "not known",
    )
    assert edited.home.boxes is home.boxes


def test_that_a_hand_alone_works_it_is_said_by_somebody_and_holds_until_a_switch_joins():
    home = worked(lit())
    group = home.controls.rows[0].id

    said = say_by_hand(home, group)
    with_a_light_more = let_work(said.home, [device_of(home, "B3")], [box_of(home, "B1")]).home
    with_a_switch_more = let_work(said.home, [device_of(home, "B3"), device_of(home, "B5")], []).home

    assert said.says == "Say that a hand alone works the ceiling light in B4"
    assert [one.controls[group].by for one in (said.home, with_a_light_more, with_a_switch_more)] == [
        "hand", "hand", "not known",
    ]  # fmt: skip


def test_how_many_groups_are_worked_is_said_at_once():
    home = worked(worked(lit()), "B5", "B1")
    boxes = [box_of(home, mark) for mark in ("B3", "B5", "B4")]

    edited = set_groups_by(home, boxes, "hand")

    assert edited.says == "Say how 2 groups of switches are worked"
    assert [one.by for one in edited.home.controls] == ["hand", "hand"]
    with pytest.raises(Refused, match="works anything yet"):
        set_groups_by(home, boxes[2:], "hand")


def test_what_was_said_to_be_worked_by_a_timer_is_not_said_to_be_worked_by_hand():
    home = worked(lit())
    group = home.controls.rows[0].id

    with pytest.raises(Refused, match="worked by a timer"):
        say_by_hand(set_group(home, group, by="timer").home, group)


def test_two_switches_of_one_light_are_one_group_however_it_is_drawn():
    home, both = lit(), [device_of(lit(), "B3"), device_of(lit(), "B5")]

    at_once = let_work(home, both, [box_of(home, "B4")]).home
    one_by_one = let_work(worked(home), both, []).home
    from_the_other = worked(worked(home), "B3")

    assert at_once.controls == one_by_one.controls
    assert len(at_once.controls) == 1
    assert from_the_other.controls == worked(home).controls


def test_half_of_a_receptacle_is_worked_alone():
    home = split_halves(lit(), device_of(lit(), "B1")).home
    upper, lower = feeds_in(home, "B1")

    after = let_work(home, [device_of(home, "B3")], [lower]).home

    assert after.controls.rows[0].feeds == (lower,)
    assert upper not in after.controls.rows[0].feeds


def test_a_box_with_a_switch_and_a_light_in_it_gives_its_light():
    home = join_box(lit(), box_of(lit(), "B4"), "switch").home

    after = let_work(home, [box_of(home, "B3")], [box_of(home, "B4")]).home

    assert after.controls.rows[0].feeds == (home.boxes[box_of(home, "B4")].devices[0].feeds[0].id,)


REFUSED = {
    "what is no switch": lambda home: let_work(home, [device_of(home, "B1")], [box_of(home, "B4")]),
    "a switch that is gone": lambda home: let_work(home, [999_999], [box_of(home, "B4")]),
    "no light": lambda home: let_work(home, [device_of(home, "B3")], []),
    "a switch to be worked": lambda home: let_work(home, [device_of(home, "B3")], [device_of(home, "B5")]),
    "a switch's feed to be worked": lambda home: let_work(home, [device_of(home, "B3")], feeds_in(home, "B5")),
    "two groups": lambda home: let_work(
        worked(worked(home), "B5", "B1"), [device_of(home, "B3"), device_of(home, "B5")], []
    ),
    "out of a group that is gone": lambda home: let_go(home, 999_999, [box_of(home, "B4")]),
    "out of a group it is not in": lambda home: let_go(
        worked(home), worked(home).controls.rows[0].id, [box_of(home, "B1")]
    ),
    "a way of working of no sort": lambda home: set_group(worked(home), worked(home).controls.rows[0].id, by="magic"),
    "power that enters nowhere": lambda home: set_group(worked(home), worked(home).controls.rows[0].id, enters=999),
}


@pytest.mark.parametrize("case", REFUSED)
def test_what_can_not_be_is_refused_in_words(case):
    with pytest.raises(Refused) as refused:
        REFUSED[case](lit())

    assert str(refused.value).endswith(".")
    assert len(str(refused.value)) <= 160


def test_a_group_without_switches_or_without_lights_goes():
    home = worked(lit())
    group = home.controls.rows[0].id

    assert len(let_go(home, group, [box_of(home, "B4")]).home.controls) == 0
    assert len(let_go(home, group, [device_of(home, "B3")]).home.controls) == 0


def test_one_switch_of_two_leaves_the_group_and_the_other_stays():
    home = let_work(worked(lit()), [device_of(lit(), "B3"), device_of(lit(), "B5")], []).home
    group = home.controls.rows[0].id

    edited = let_go(home, group, [box_of(home, "B5")])

    assert edited.says == "Take the switch in B5 out of its group"
    assert edited.home.controls[group].switches == (device_of(home, "B3"),)


def test_a_group_is_called_by_what_it_works():
    home = worked(lit())
    group = home.controls.rows[0].id

    assert what_works(home, group) == "the ceiling light in B4"
    assert what_works(let_work(home, [device_of(home, "B3")], [box_of(home, "B1")]).home, group) == (
        "the receptacle in B1 and 1 more"
    )
    assert what_works(set_group(home, group, name="hall light").home, group) == "hall light"


def test_what_works_what_supplies_nothing():
    home = lit()
    before, after = find(home), find(worked(home))

    assert {one: found.standing for one, found in before.conclusions.items()} == {
        one: found.standing for one, found in after.conclusions.items()
    }
    assert before.boxes == after.boxes


# --- evidence that leans on it --------------------------------------------------------------------------------------


def read_light() -> Home:
    home = worked(lit())
    return read(home, feeds_in(home, "B4"), breaker_at(home, 1))


def test_a_group_that_readings_lean_on_is_asked_about_when_it_changes():
    home = read_light()
    group, light = home.controls.rows[0].id, box_of(home, "B4")
    both = [device_of(home, "B3"), device_of(home, "B5")]

    for after in (
        let_go(home, group, [light]).home,
        set_group(home, group, by="timer").home,
        let_work(home, both, []).home,
        remove(home, [group]).home,
    ):
        assert touched_evidence(home, after).boxes == (light,)


def test_a_light_more_a_name_and_a_group_nobody_had_drawn_are_not_asked_about():
    home = read_light()
    group = home.controls.rows[0].id
    drawn_late = read(lit(), feeds_in(lit(), "B4"), breaker_at(lit(), 1))

    assert touched_evidence(home, let_work(home, [device_of(home, "B3")], [box_of(home, "B1")]).home) == ((), ())
    assert touched_evidence(home, set_group(home, group, name="sink").home) == ((), ())
    assert touched_evidence(drawn_late, worked(drawn_late)) == ((), ())


def test_what_was_read_before_a_switch_was_said_to_be_worked_by_hand_is_asked_about():
    """Readings of a lamp from before would be a proof for its switch all at once, though nobody said so then."""
    late = read(lit(), feeds_in(lit(), "B4"), breaker_at(lit(), 1))
    drawn = worked(late)
    light, group = box_of(late, "B4"), drawn.controls.rows[0].id
    said = say_by_hand(drawn, group).home

    assert touched_evidence(late, drawn) == ((), ())
    assert touched_evidence(drawn, said).boxes == (light,)
    assert touched_evidence(late, said).boxes == (light,)


def test_a_switch_is_no_witness_through_its_lamp_until_somebody_says_that_a_hand_alone_works_it():
    home = worked(lit())
    place = next(one for one in existing_feeds(home) if one.box.mark == "B3")
    said = say_by_hand(home, home.controls.rows[0].id).home

    assert not Witnesses(home).can_prove(place, "the fixture itself")
    assert Witnesses(said).can_prove(place, "the fixture itself")


def test_a_group_that_nothing_read_leans_on_is_not_asked_about():
    home = worked(lit())

    assert touched_evidence(home, remove(home, [home.controls.rows[0].id]).home) == ((), ())


# --- any values at all ----------------------------------------------------------------------------------------------


@settings(max_examples=60, deadline=None)
@given(homes(), st.data())
def test_whatever_is_drawn_the_home_is_sound_and_only_its_groups_change(home, data):
    devices = [device for box in home.boxes for device in box.devices]
    switches = [device.id for device in devices if is_switch(device.kind)]
    if not switches:
        return
    ids = [box.id for box in home.boxes] + [one.id for one in devices] + [f.id for b in home.boxes for f in b.feeds()]
    try:
        edited = let_work(
            home,
            data.draw(st.lists(st.sampled_from(switches), min_size=1, max_size=3)),
            data.draw(st.lists(st.sampled_from(ids), max_size=3)),
        )
        if edited.home.controls:
            group = data.draw(st.sampled_from(edited.home.controls.ids()))
            edited = let_go(edited.home, group, data.draw(st.lists(st.sampled_from(ids), min_size=1, max_size=3)))
    except Refused as refused:
        said = str(refused)
        assert said.endswith(".")
        return
    after = edited.home
    assert problems(after) == problems(home)
    assert (after.boxes, after.breakers, after.log) == (home.boxes, home.breakers, home.log)
