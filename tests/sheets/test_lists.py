"""The lists: every shared box, every box without a place, everything never tested, none twice and none lost."""

import pytest

from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.find import find
from floorplan_circuits.findings.places import OUTDOORS, place_of
from floorplan_circuits.home.building import Level
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.home.table import Table
from floorplan_circuits.sheets.lists import NONE_SHARED, boxes_in, never_tested, no_room, not_placed, shared_boxes
from floorplan_circuits.sheets.sections import Section
from tests.drawing.drawn import SAMPLE_HOMES, bounds_of, box, breaker, device, fed, home, room, sample, words_in

WIDTHS = (42.0, 90.0, 150.0)
BREAKERS = (breaker(6, 1), breaker(7, 2))
HERE, NOWHERE = frozenset({1}), frozenset({None})


def words(section: Section) -> list[str]:
    return [word for block in section.blocks for word in words_in(block.ink)]


@pytest.mark.parametrize("wide", WIDTHS)
@pytest.mark.parametrize("name", SAMPLE_HOMES)
@pytest.mark.parametrize("make", [shared_boxes, never_tested, not_placed])
def test_a_list_stays_in_its_column(name: str, wide: float, make: object) -> None:
    section = make(sample(name), wide, PAPER)  # type: ignore[operator]
    for block in section.blocks:
        left, top, right, bottom = bounds_of(block.ink)
        assert left >= -0.01
        assert top >= -0.01
        assert right <= wide + 0.01
        assert bottom <= block.height + 0.01


# --- shared boxes ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", SAMPLE_HOMES)
def test_every_shared_box_is_listed_once_with_all_its_circuits(name: str) -> None:
    findings = sample(name)
    said = words(shared_boxes(findings, 90.0, PAPER))
    for found in findings.boxes.values():
        mark = findings.home.boxes[found.box].mark
        assert said.count(mark) == (1 if found.shared else 0)


def test_the_worst_comes_first() -> None:
    findings = sample("cottage")
    ranked = [findings.home.boxes[one.box].mark for one in findings.hazards if one.kind == "shared box"]
    marks = [word for word in words(shared_boxes(findings, 90.0, PAPER)) if word in set(ranked)]
    assert marks == ranked


def test_a_home_without_a_shared_box_is_told_what_that_does_not_mean() -> None:
    said = " ".join(words(shared_boxes(find(home()), 90.0, PAPER)))
    assert said == NONE_SHARED
    assert "may still hold one" in said


def test_a_shared_box_on_no_level_is_listed_with_the_scope_that_holds_it() -> None:
    lost = box(20, None, device(21, fed(22, 6), fed(23, 7)), level=None)
    findings = find(home((lost,), BREAKERS))
    assert "B20" in words(shared_boxes(findings, 90.0, PAPER, NOWHERE | HERE))
    assert "B20" not in words(shared_boxes(findings, 90.0, PAPER, HERE))


def test_many_circuits_take_several_rows() -> None:
    many = tuple(breaker(100 + at, at + 1) for at in range(12))
    full = box(20, (0, 0), device(21, *(fed(200 + at, 100 + at) for at in range(12))))
    (block,) = shared_boxes(find(home((full,), many)), 42.0, PAPER).blocks
    assert bounds_of(block.ink)[2] <= 42.0
    assert block.height > 12
    assert {str(at + 1) for at in range(12)} <= set(words_in(block.ink))


# --- not placed, no room --------------------------------------------------------------------------------------------


def test_boxes_without_a_place_are_listed_with_their_circuits() -> None:
    placed, lost = box(20, (0, 0), device(21, fed(22, 6))), box(23, None, device(24, fed(25, 7), kind="switch"))
    said = words(not_placed(find(home((placed, lost), BREAKERS)), 90.0, PAPER))
    assert said[:2] == ["B23", "2"]
    assert "switch" in said[2]
    assert "B20" not in said


def test_where_all_have_a_place_the_list_is_empty() -> None:
    assert not_placed(find(home((box(20, (0, 0)),))), 90.0, PAPER).blocks == ()


def test_boxes_that_found_no_room_are_listed_by_name() -> None:
    findings = find(home((box(20, (0, 0), device(21, fed(22, 6))),), BREAKERS))
    assert words(no_room(findings, 90.0, PAPER, [20]))[:2] == ["B20", "1"]


# --- never tested ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", SAMPLE_HOMES)
def test_what_was_never_tested_is_counted_in_full(name: str) -> None:
    findings = sample(name)
    boxes, said = findings.home.boxes, dict[str, list[str]]()
    for block in never_tested(findings, 2000.0, PAPER).blocks:
        place, items = words_in(block.ink)
        said[place] = items.split(", ")
    for feed in findings.never_tested:
        one, found = findings.conclusions[feed], findings.boxes[findings.conclusions[feed].box]
        items = said[place_of(found.box, findings)]
        each = next((device for device in boxes[one.box].devices if device.id == one.device), None)
        if each is None:
            assert any(item.endswith(f"in {boxes[one.box].mark}") for item in items)
        else:
            kind = kind_named(each.kind)
            assert each.name in items or kind.label in items or any(item.endswith(kind.plural) for item in items)
    counts = [
        int(item.split()[0]) if item[0].isdigit() and item[:3] != "240" else 1
        for all_in in said.values()
        for item in all_in
    ]
    told = [findings.conclusions[feed] for feed in findings.never_tested]
    each_once = {one.device for one in told if one.device is not None}
    assert sum(counts) <= len(each_once) + sum(one.device is None for one in told)


def test_a_device_with_two_feeds_that_were_never_tested_is_one_thing() -> None:
    transformer = device(21, fed(22), fed(23), kind="doorbell transformer")
    findings = find(home((box(20, (500, 500), transformer),), BREAKERS))
    assert words(never_tested(findings, 200.0, PAPER))[1] == "doorbell transformer"


def test_what_is_outdoors_is_told_by_that_one_word_not_by_its_level() -> None:
    outside = box(20, (500, 500), device(21, fed(22)), mount="outdoor")
    said = words(never_tested(find(home((outside,), BREAKERS)), 200.0, PAPER))
    assert said[0] == OUTDOORS


def test_things_of_one_kind_are_counted() -> None:
    devices = [device(100 + 2 * at, fed(101 + 2 * at, 6)) for at in range(3)]
    boxes = tuple(box(20 + at, (500 * at, 500), one) for at, one in enumerate(devices))
    said = words(never_tested(find(home(boxes, BREAKERS, (room(30, "Hall", -100, 0, 3000, 2000),))), 90.0, PAPER))
    assert said == ["Hall", "3 receptacles"]


def test_a_cable_is_told_by_its_box() -> None:
    said = words(never_tested(find(home((box(20, (0, 0), passing=(fed(22, 6),)),), BREAKERS)), 90.0, PAPER))
    assert said == ["Ground floor", "cable in B20"]


def test_planned_devices_are_nobodys_task_yet() -> None:
    planned = box(20, (0, 0), device(21, fed(22, 6), planned=True))
    findings = find(home((planned,), BREAKERS))
    assert boxes_in(findings, None) == []
    assert "receptacle" not in words(never_tested(findings, 90.0, PAPER))


def test_each_level_lists_its_own() -> None:
    levels = Table([Level(id=1, name="Ground floor"), Level(id=2, name="Upper floor", order=1)])
    boxes = (box(20, (0, 0), device(21, fed(22, 6))), box(23, (0, 0), device(24, fed(25, 6), kind="switch"), level=2))
    findings = find(home(boxes, BREAKERS, levels=levels))
    assert words(never_tested(findings, 90.0, PAPER, HERE)) == ["Ground floor", "receptacle"]
    assert words(never_tested(findings, 90.0, PAPER, frozenset({2}))) == ["Upper floor", "switch"]
