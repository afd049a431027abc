"""One box and a panel without a drawing: what is typed is read or refused by its word, and it all stays in the home."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.guiding import answer
from floorplan_circuits.edits.one_box import Gang, boxes_alone, read_handles, start_one_box
from floorplan_circuits.edits.starting import new_home
from floorplan_circuits.find import course_of, find, next_step, plan_rounds, shut_off
from floorplan_circuits.home.integrity import problems
from floorplan_circuits.home.record import change
from floorplan_circuits.rounds.steps import Manner
from floorplan_circuits.supply.numbering import marks

DAY = "2026-03-14"
EMPTY = new_home()
TWO = (Gang("switch", works="ceiling light"), Gang("duplex receptacle"))


def begun(handles="1 3 5 6 2·4", gangs=TWO, **options):
    return start_one_box(EMPTY, "hall", gangs, handles, **{"opens_hot_alone": True, **options})


def test_a_box_lies_in_no_room_and_its_panel_is_numbered_as_typed() -> None:
    made = begun("1, 3; 5 2·4 6a 6B")
    assert made.home.boxes[made.made[0]].level is None
    assert not made.home.rooms
    assert sorted(marks(made.home)[one] for one in made.home.breakers.ids()) == ["1", "2·4", "3", "5", "6A", "6B"]
    assert not list(problems(made.home))


@pytest.mark.parametrize(
    ("words", "named"),
    [("", "how many"), ("1 x3", "'x3'"), ("0", "between 1 and"), ("900", "between 1 and"), ("2·3", "one column")],
)
def test_what_can_not_be_read_is_refused_with_the_word(words, named) -> None:
    with pytest.raises(Refused, match=named):
        begun(words)


@given(st.text(max_size=30))
def test_any_words_are_read_or_refused(words) -> None:
    try:
        read = read_handles(words)
    except Refused:
        return
    assert read
    assert all(handle.first >= 1 for handle in read)


def test_a_space_typed_twice_is_refused_and_so_is_an_empty_box() -> None:
    with pytest.raises(Refused):
        begun("1 3 3")
    with pytest.raises(Refused, match="what is in the box"):
        begun(gangs=())


def test_a_home_that_has_a_panel_keeps_it() -> None:
    first = begun().home
    second = start_one_box(first, "stairs", [Gang("switch", "ceiling fan")], "", opens_hot_alone=False)
    assert second.home.breakers is first.breakers
    assert len(boxes_alone(second.home)) == 2


def test_nothing_is_stated_of_a_switch_that_nobody_spoke_of_and_nobody_is_asked_to_look_at_it() -> None:
    home = begun(gangs=[Gang("switch"), Gang("duplex receptacle")]).home
    assert not home.controls
    assert len(home.boxes) == 1
    switch, receptacle = home.boxes.rows[0].feeds()
    made = plan_rounds(find(home))
    assert made.feeds == (receptacle.id,)
    assert "nobody said what it works" in made.advice[switch.id]


@pytest.mark.parametrize(
    ("name", "kinds", "names"),
    [
        ("hall", ["switch"], ["hall"]),
        ("hall", ["switch", "dimmer"], ["hall switch", "hall dimmer"]),
        ("hall", ["switch", "switch"], ["hall switch 1", "hall switch 2"]),
        ("", ["switch", "switch", "dimmer"], ["switch 1", "switch 2", ""]),
    ],
)
def test_what_is_in_a_box_is_told_apart_by_name(name, kinds, names) -> None:
    made = start_one_box(EMPTY, name, [Gang(kind) for kind in kinds], "8", opens_hot_alone=True)
    assert [device.name for device in made.home.boxes[made.made[0]].devices] == names


def test_what_is_said_of_a_switch_is_its_one_control_by_hand() -> None:
    home = begun(gangs=[Gang("switch", "ceiling fan")]).home
    fan = home.boxes.rows[1]
    control = home.controls.rows[0]
    assert fan.devices[0].kind == "ceiling fan"
    assert (control.by, control.feeds) == ("hand", tuple(feed.id for feed in fan.feeds()))
    with pytest.raises(Refused, match="What a switch works"):
        begun(gangs=[Gang("switch", "doorbell")])


def test_from_two_words_to_the_sheet_of_its_shut_off() -> None:
    """The lamp is the witness for the switch, a lamp plugged in for the receptacle: nothing is opened for it."""
    made = begun("20")
    box, home = made.made[0], made.home
    first, second = home.boxes[box].feeds()
    breakers = home.breakers.ids()
    true = {first.id: breakers[6], second.id: breakers[12]}
    manner, boxes = Manner(tried=True, who="Kim"), boxes_alone(home)
    course = course_of(find(home), lambda known: plan_rounds(known, strength="least rounds", boxes=boxes))
    walks = set[tuple[str, int]]()
    while (step := next_step(find(home), course, manner, DAY)).stage != "done":
        walks.add(step.key)
        says = {feed: "dead" if true[feed] in step.off else "live" for feed in step.feeds}
        home = answer(home, step, says, manner, DAY).home
    assert len([key for key in walks if key[0] == "round"]) <= 5
    assert len([key for key in walks if key[0] == "alone"]) == 2
    known = find(home)
    assert all(known.conclusions[feed].standing == "proved" for feed in true)
    off = {handle for one in shut_off(known, [box]).off for handle in one.handles}
    assert off == {*true.values()}
    assert known.boxes[box].shared
    assert shut_off(known, [box]).states[0].state == "not opened"


def test_where_nobody_knows_what_the_breakers_open_a_lamp_does_not_prove() -> None:
    home = begun("3", opens_hot_alone=False).home
    feed = home.boxes.rows[0].feeds()[1].id
    manner = Manner(tried=True)
    course = course_of(find(home), plan_rounds)
    while (step := next_step(find(home), course, manner, DAY)).stage != "done":
        is_off = home.breakers.ids()[0] in step.off or step.stage == "main"
        says = dict.fromkeys(step.feeds, "dead" if is_off else "live")
        home = answer(home, step, says, manner, DAY).home
    assert find(home).conclusions[feed].standing == "suggested"


def test_in_a_drawn_home_all_is_meant() -> None:
    home = begun().home
    assert boxes_alone(home)
    assert boxes_alone(change(EMPTY)) == ()
