"""The collecting surface: it keeps every mark of every page, in order."""

from floorplan_circuits.drawing.ink import Group, Shape, Text, rectangle
from floorplan_circuits.surfaces.collect import CollectingSurface


def test_groups_are_undone_and_the_order_is_kept() -> None:
    first, second = Text((1, 1), "one", 9.0), Shape(rectangle(0, 0, 1, 1), "#000000")
    surface = CollectingSurface()
    surface.page(100, 50, Group((Group((first,)), second)))
    surface.page(50, 100, Group((first,)))
    one, other = surface.pages
    assert (one.width, one.height, one.marks) == (100, 50, [first, second])
    assert one.words() == other.words() == ["one"]
