"""Dangers by room: each listed one in exactly one room, panels first, then the levels from below."""

from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.by_room import AT_THE_PANEL, IN_NO_ROOM, NOT_PLACED, hazards_by_room
from floorplan_circuits.find import find
from floorplan_circuits.home.building import Level
from floorplan_circuits.home.table import Table
from tests.hazards.dense import dense
from tests.hazards.small import LEVEL, box, device, feed, found
from tests.homes import homes
from tests.supply.wiring import UNKNOWN
from tests.survey.houses import trouble


@settings(max_examples=60)
@given(st.one_of(homes(), st.integers(0, 10**6).map(dense)))
def test_each_listed_hazard_is_in_one_room_and_in_its_order(home) -> None:
    findings = find(home)
    rooms = hazards_by_room(findings)
    listed = [one for one in findings.hazards if one.listed]
    told = [one for room in rooms for one in room.hazards]
    assert len(told) == len(listed)
    assert {*told} == {*listed}
    for room in rooms:
        assert room.place
        assert list(room.hazards) == [one for one in listed if one in room.hazards]
        assert len({(one.room, one.room_name, one.level_name) for one in room.hazards}) == 1


def unknown(number: int, **fields):
    return box(number, device(1000 + number, feed(2000 + number, UNKNOWN)), **fields)


def test_panels_come_first_then_levels_from_below_then_what_has_no_place() -> None:
    boxes = [
        unknown(1001, level=None, at=None),
        unknown(1002, level=9, at=(0, 0)),
        unknown(1003, at=(90_000, 0)),
        unknown(1004),
    ]
    levels = Table([Level(id=LEVEL, name="Ground floor", order=0), Level(id=9, name="Basement", order=-1)])
    findings = found(*boxes, levels=levels, log=[trouble(105, "buzzes")])
    assert [(room.place, room.level) for room in hazards_by_room(findings)] == [
        (AT_THE_PANEL, ""),
        (IN_NO_ROOM, "Basement"),
        ("Kitchen", "Ground floor"),
        (IN_NO_ROOM, "Ground floor"),
        (NOT_PLACED, ""),
    ]
