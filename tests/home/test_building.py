from typing import Any

import pytest
from pydantic import ValidationError

from floorplan_circuits.home.building import Level, Opening, Room, Stair, Underlay


def test_a_level_is_the_ground_floor_until_it_is_said_otherwise() -> None:
    assert (Level(id=1, name="").order, Level(id=1, name="").underlay) == (0, None)


def test_a_picture_to_draw_over_starts_pale_and_can_be_moved() -> None:
    underlay = Underlay(picture="abcdef01", width=10_000)
    assert (underlay.at, underlay.angle, underlay.opacity_percent, underlay.locked) == ((0, 0), 0, 40, False)


def test_a_stair_may_lead_nowhere_yet() -> None:
    assert Stair(id=1, level=2, at=(0, 0), angle=90).head is None


@pytest.mark.parametrize(
    "fields",
    [
        {"kind": "hatch"},
        {"width": 0},
        {"width": 10**6 + 1},
        {"hinge": "top"},
        {"at": (0,)},
        {"at": None},
        {"angle": 400},
    ],
)
def test_an_opening_that_no_wall_has_is_refused(fields: dict[str, Any]) -> None:
    sound = {"id": 1, "level": 2, "kind": "door", "at": (0, 0), "width": 800, "angle": 0}
    assert Opening(**sound).hinge == "none"
    with pytest.raises(ValidationError):
        Opening(**{**sound, **fields})


def test_a_room_has_at_most_a_thousand_corners() -> None:
    corners = tuple((place, place) for place in range(1000))
    assert len(Room(id=1, level=1, name="", outline=corners).outline) == 1000
    with pytest.raises(ValidationError):
        Room(id=1, level=1, name="", outline=(*corners, (0, 0)))


@pytest.mark.parametrize("order", [-21, 201])
def test_no_home_has_so_many_levels(order: int) -> None:
    with pytest.raises(ValidationError):
        Level(id=1, name="", order=order)
