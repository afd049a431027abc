"""A clip as text: read back as it was, and anything else refused."""

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.edits.clips import clip_text, read_clip
from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.pasting import Clip, copied, paste
from floorplan_circuits.edits.starting import new_home
from floorplan_circuits.home.integrity import problems
from tests.edits.samples import box_of, house, level_of
from tests.homes import homes


@settings(max_examples=30, deadline=None)
@given(homes())
def test_a_clip_is_read_back_as_it_was_but_for_its_pictures(home):
    clip = Clip(home.rooms.rows, home.boxes.rows, home.openings.rows)
    if not clip.rooms and not clip.boxes:
        return

    back = read_clip(clip_text(clip))

    assert (back.rooms, back.openings) == (clip.rooms, clip.openings)
    assert [box.changed(pictures=()) for box in clip.boxes] == list(back.boxes)


def test_what_was_copied_in_one_home_is_pasted_in_another():
    other = new_home("Barn")

    edited = paste(other, read_clip(clip_text(copied(house(), house().rooms.ids()))), level_of(other), (0, 0))

    assert [box.mark for box in edited.home.boxes] == ["B1", "B2", "B3"]
    assert problems(edited.home) == ()


def bad_box(**fields: object) -> str:
    told = json.loads(clip_text(copied(house(), [box_of(house(), "B1")])))
    told["boxes"][0].update(fields)
    return json.dumps(told)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "Milk, bread, 2 bulbs",
        "{}",
        "floorplan-circuits clip 1",
        '{"format": "floorplan-circuits clip 1", "boxes": [{}]}',
        '{"format": "floorplan-circuits clip 1", "rooms": [{"id": 1, "level": 1, "name": "", "outline": [[0, 0]]}]}',
        bad_box(mark=""),
        bad_box(at=[10**9, 0]),
        bad_box(gangs=0),
        bad_box(devices=[{"id": 3, "kind": "switch", "slot": 9}]),
        f'{{"format": "floorplan-circuits clip 1", "note": "{"x" * 5_000_001}"}}',
    ],
)
def test_any_other_text_is_refused_in_words(text):
    with pytest.raises(Refused, match="was not copied from a plan"):
        read_clip(text)


@settings(max_examples=50)
@given(st.text())
def test_no_text_at_all_is_more_than_refused(text):
    with pytest.raises(Refused):
        read_clip(text)
