"""History: the very objects back, merging, the log as a floor, and numbers that are never given twice."""

from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.edits.boxes import put_device, set_device
from floorplan_circuits.edits.history import MOST_STEPS, History
from floorplan_circuits.edits.names import name_home
from floorplan_circuits.home.boxes import Device
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import change
from tests.edits.samples import box_of, device_of, house, level_of, read


def named(name: str) -> Home:
    return name_home(Home(), name).home


def test_undo_and_redo_give_back_the_very_objects():
    first, second = named("a"), named("b")
    history = History(first).done(second, "Name the home b")

    assert history.undone().now is first
    assert history.undone().redone().now is second
    assert (history.undo_says, history.undone().redo_says) == ("Name the home b", "Name the home b")


def test_there_is_an_end_both_ways():
    history = History(named("a"))

    assert history.undone() is history
    assert history.redone() is history
    assert (history.undo_says, history.redo_says) == ("", "")


def test_an_edit_after_an_undo_drops_what_was_undone():
    history = History(named("a")).done(named("b"), "b").undone().done(named("c"), "c")

    assert history.redone() is history
    assert history.undo_says == "c"


def test_what_changes_nothing_is_no_step():
    home = named("a")

    history = History(home)

    assert history.done(home, "Nothing") is history
    assert history.done(change(home), "Nothing") is history


def test_edits_of_one_kind_merge_until_another_comes():
    homes = [named(str(place)) for place in range(6)]
    history = History(homes[0])
    history = history.done(homes[1], "Move box B1", "nudge").done(homes[2], "Move box B1", "nudge")
    history = history.done(homes[3], "Move box B1").done(homes[4], "Move box B1", "nudge")

    assert [step.home for step in history.past] == [homes[0], homes[2], homes[3]]
    assert history.undone().now is homes[3]


def test_edits_that_do_not_say_so_never_merge():
    history = History(named("a")).done(named("b"), "Move box B1").done(named("c"), "Move box B1")

    assert len(history.past) == 2


def test_nothing_merges_across_an_undo_or_once_settled():
    homes = [named(str(place)) for place in range(4)]
    history = History(homes[0]).done(homes[1], "n", "nudge")

    assert len(history.settled().done(homes[2], "n", "nudge").past) == 2
    back_and_forth = history.done(homes[2], "m").undone().done(homes[3], "n", "nudge")
    assert [step.home for step in back_and_forth.past] == [homes[0], homes[1]]
    assert history.undone().settled() == history.undone()


def test_a_log_entry_is_a_floor_under_undo():
    home = house()
    history = History(home).done(name_home(home, "b").home, "b")

    history = history.done(read(history.now, [1], 2), "Log a round")
    assert history.undone() is history
    logged = history.now
    history = history.done(name_home(logged, "c").home, "c")

    assert history.undone().now is logged
    assert history.undone().undone().now is logged


def test_history_is_bounded():
    history = History(named("start"))
    for place in range(MOST_STEPS + 5):
        history = history.done(named(str(place)), str(place))

    assert len(history.past) == MOST_STEPS
    assert history.past[0].home == named("4")


# --- the ground to edit on ------------------------------------------------------------------------------------------


def test_a_mark_that_was_undone_is_not_given_again():
    home = house()
    put = put_device(home, level_of(home), (500, 0), 90, "switch")
    history = History(home).done(put.home, put.says).undone()

    again = put_device(history.ground, level_of(home), (500, 0), 90, "switch")

    assert history.now is home
    assert box_of(put.home, "B4") == put.made[0]
    assert again.home.boxes[again.made[0]].mark == "B5"
    assert not set(again.made) & set(put.made)


def test_the_ground_is_the_home_now_where_nothing_was_given_out_since():
    home = house()
    named_home = name_home(home, "b").home

    assert History(home).done(named_home, "b").ground is named_home
    assert History(home).done(named_home, "b").undone().ground is home


def test_an_edit_of_the_ground_that_changes_nothing_is_no_step():
    home = house()
    put = put_device(home, level_of(home), (500, 0), 90, "switch")
    history = History(home).done(put.home, put.says).undone()

    assert history.ground is not home
    assert history.done(set_device(history.ground, device_of(home, "B1"), va=None).home, "Nothing") is history


@settings(max_examples=50)
@given(st.lists(st.sampled_from(("put", "undo", "redo")), max_size=25))
def test_whatever_is_undone_no_id_and_no_mark_has_two_meanings(steps):
    history = History(house())
    born: dict[object, Device] = {}
    for step in steps:
        if step == "put":
            home = history.ground
            edited = put_device(home, level_of(home), (500, 0), 90, "switch")
            history = history.done(edited.home, edited.says)
        else:
            history = history.undone() if step == "undo" else history.redone()
        for box in history.now.boxes:
            for name, what in ((box.mark, box), (box.id, box), *((one.id, one) for one in box.devices)):
                assert born.setdefault(name, what) is what
