"""`View`: a value of its own."""

import pytest

from floorplan_circuits.findings import Subject
from floorplan_circuits.view import Draft, View


def test_a_view_is_changed_by_making_another():
    view = View(level=3)
    changed = view.with_changes(selected=(Subject("box", 7),), draft=Draft(words="3.81 m"))

    assert (view.selected, view.draft) == ((), None)
    assert (changed.level, changed.selected, changed.draft.words) == (3, (Subject("box", 7),), "3.81 m")


def test_a_field_that_a_view_does_not_have_is_a_mistake_of_the_program():
    with pytest.raises(TypeError):
        View().with_changes(colour="red")
