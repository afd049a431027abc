"""Copying and pasting: new ids, new marks, and nothing known of what nobody looked at."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.pasting import Clip, copied, paste
from floorplan_circuits.edits.removal import remove
from floorplan_circuits.edits.rooms import add_level
from floorplan_circuits.edits.ties import tie
from floorplan_circuits.home.boxes import NOT_KNOWN
from floorplan_circuits.home.building import Opening
from floorplan_circuits.home.integrity import ids, problems
from tests.edits.samples import SQUARE, box_of, breaker_at, house, level_of, with_row
from tests.homes import homes


def test_a_copied_box_is_a_new_box_of_which_nothing_is_known():
    home = tie(house(), [box_of(house(), "B1")], breaker_at(house(), 1)).home

    edited = paste(home, copied(home, [box_of(home, "B1")]), level_of(home), (300, 300))
    box = edited.home.boxes[edited.made[0]]

    assert edited.says == "Paste 1 box"
    assert (box.mark, box.at, box.devices[0].kind) == ("B4", (1300, 300), "duplex receptacle")
    assert (box.feeds()[0].on, box.feeds()[0].said_by) == (NOT_KNOWN, "not said")


def test_a_room_is_copied_with_its_boxes_and_doors():
    home = house()
    door = Opening(id=home.next_id, level=level_of(home), kind="door", at=(0, 1500), width=800, angle=0)
    home = with_row(home, "openings", door)
    upstairs = add_level(home, "First floor")

    edited = paste(upstairs.home, copied(home, home.rooms.ids()), upstairs.made[0], (0, 0))
    after = edited.home

    assert edited.says == "Paste 1 room and 3 boxes"
    assert after.rooms[edited.made[0]].outline == SQUARE
    assert [box.mark for box in after.boxes if box.level == upstairs.made[0]] == ["B4", "B5", "B6"]
    assert [one.at for one in after.openings if one.level == upstairs.made[0]] == [(0, 1500)]
    assert after.marks_given == 6


def test_a_clip_outlives_what_it_was_taken_from():
    home = house()
    clip = copied(home, [box_of(home, "B3")])
    home = remove(home, [box_of(home, "B3")]).home

    assert paste(home, clip, level_of(home), (0, 0)).home.boxes.rows[-1].mark == "B4"


def test_nothing_to_copy_and_nothing_copied_are_refused():
    with pytest.raises(Refused, match="Choose rooms or boxes"):
        copied(house(), [level_of(house())])
    with pytest.raises(Refused, match="Copy something first"):
        paste(house(), Clip(), level_of(house()), (0, 0))


@settings(max_examples=50)
@given(homes(), st.data(), st.tuples(st.integers(-900, 900), st.integers(-900, 900)))
def test_whatever_is_pasted_ids_and_marks_are_new_and_feeds_unknown(home, data, by):
    choices = [*home.rooms.ids(), *home.boxes.ids()]
    if not choices or not home.levels:
        return
    wanted = data.draw(st.lists(st.sampled_from(choices), min_size=1, unique=True))
    try:
        edited = paste(home, copied(home, wanted), home.levels.rows[0].id, by)
    except Refused as refused:
        said = str(refused)
        assert "ten kilometres" in said
        return
    after, before = edited.home, ids(home)
    new = [box for box in after.boxes if box.id not in before]
    assert problems(after) == ()
    assert all(before[one] == ids(after)[one] for one in before)
    assert min((one for one in ids(after) if one not in before), default=home.next_id) >= home.next_id
    assert {box.mark for box in new}.isdisjoint(box.mark for box in home.boxes)
    assert all(feed.on == NOT_KNOWN and feed.returns == "not known" for box in new for feed in box.feeds())
    assert set(wanted) <= before.keys() <= ids(after).keys()
