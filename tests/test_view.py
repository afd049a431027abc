"""The view: frozen, altered by copies, and no part of a home's file."""

from dataclasses import FrozenInstanceError, fields

import pytest

from floorplan_circuits.files.save import text_of
from floorplan_circuits.findings import Subject
from floorplan_circuits.home.home import Home
from floorplan_circuits.view import Draft, View


def test_a_change_is_a_copy_and_leaves_the_first_alone() -> None:
    first = View()
    second = first.with_changes(level=3, selected=(Subject("box", 7),), scale=100.0)
    assert (first.level, first.selected, first.scale) == (None, (), 50.0)
    assert (second.level, second.selected, second.scale) == (3, (Subject("box", 7),), 100.0)
    assert second.with_changes() == second


def test_a_field_that_is_not_there_is_refused() -> None:
    with pytest.raises(TypeError):
        View().with_changes(zoom=2)


@pytest.mark.parametrize("value", [View(), Draft()])
def test_nothing_is_changed_in_place(value: View | Draft) -> None:
    name = fields(value)[0].name
    with pytest.raises(FrozenInstanceError):
        setattr(value, name, None)


def test_equal_views_are_equal_and_can_be_told_apart_by_any_field() -> None:
    changes = {
        "level": 1, "layer": "lights", "selected": (Subject("room", 1),), "hover": Subject("room", 1),
        "scale": 75.0, "centre": (1.0, 0.0), "draft": Draft(words="2 m"),
    }  # fmt: skip
    assert View() == View()
    assert all(View().with_changes(**{name: value}) != View() for name, value in changes.items())


def test_nothing_of_a_view_is_written_with_a_home() -> None:
    names = {field.name for field in fields(View)}
    assert names.isdisjoint(Home.model_fields)
    assert not any(f'"{name}"' in text_of(Home()) for name in names)
