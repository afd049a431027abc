"""Looking things up by name, mark or old label."""

import pytest

from floorplan_circuits.find import find
from floorplan_circuits.findings import Subject
from floorplan_circuits.looking_up import MOST_FOUND, look_up
from tests.edits.samples import box_of, breaker_at, house

FOUND = find(house())


@pytest.mark.parametrize("words", ["B2", "b2", " b2 "])
def test_a_mark_comes_first(words):
    assert look_up(FOUND, words)[0].subject == Subject("box", box_of(FOUND.home, "B2"))


def test_rooms_kinds_and_old_labels_are_found():
    kitchen = FOUND.home.rooms.ids()[0]

    assert [one.subject.kind for one in look_up(FOUND, "kitchen")] == ["room", "breaker"]
    assert look_up(FOUND, "kitchen")[0].subject == Subject("room", kitchen)
    assert look_up(FOUND, "plugs")[0].subject == Subject("breaker", breaker_at(FOUND.home, 1))
    assert len(look_up(FOUND, "recept")) == 2
    assert look_up(FOUND, "switch")[0].says == "B3 · switch · Kitchen"


def test_no_words_and_odd_ones_find_nothing():
    assert look_up(FOUND, "  ") == look_up(FOUND, "no such thing") == ()
    assert len(look_up(FOUND, "e")) <= MOST_FOUND
