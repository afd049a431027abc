from itertools import combinations, pairwise
from math import dist
from pathlib import Path

import pytest

from floorplan_circuits.files.open import open_home
from floorplan_circuits.files.save import text_of
from floorplan_circuits.home.boxes import Box, Feed, Supplied
from floorplan_circuits.home.building import Room
from floorplan_circuits.home.home import Home, feeds
from floorplan_circuits.home.integrity import problems
from floorplan_circuits.home.kinds import catalogue
from floorplan_circuits.home.log import STRONG_METHODS, Opened, Round
from floorplan_circuits.home.record import Point
from floorplan_circuits.home.resources import folder
from sample_homes.write_samples import SAMPLES, write_samples

FACING = {0: (1, 0), 90: (0, 1), 180: (-1, 0), 270: (0, -1)}
APART_MM = 600
CLEAR_OF_OPENING_MM = 100


@pytest.fixture(params=sorted(SAMPLES))
def sample(request: pytest.FixtureRequest) -> Home:
    return open_home(folder("sample_homes") / request.param).home


@pytest.fixture
def cottage() -> Home:
    return open_home(folder("sample_homes") / "cottage.json").home


@pytest.fixture
def flat() -> Home:
    return open_home(folder("sample_homes") / "flat.json").home


# --- the files ------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", sorted(SAMPLES))
def test_the_file_is_what_the_script_writes(name: str) -> None:
    assert (folder("sample_homes") / name).read_text(encoding="utf-8") == text_of(SAMPLES[name]())


def test_writing_again_leaves_nothing_but_the_samples(tmp_path: Path) -> None:
    write_samples(tmp_path)
    write_samples(tmp_path)
    assert sorted(path.name for path in tmp_path.iterdir()) == sorted(SAMPLES)


def test_a_sample_is_sound(sample: Home) -> None:
    assert problems(sample) == ()


def test_every_device_is_of_a_known_kind(sample: Home) -> None:
    assert {device.kind for box in sample.boxes for device in box.devices} <= set(catalogue())


def test_nobody_is_named_in_the_log(sample: Home) -> None:
    assert {entry.who for entry in sample.log} <= {"owner", "helper"}


# --- as many as promised --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("name", "rooms", "devices", "spaces"), [("cottage", 8, 50, 12), ("flat", 7, 39, 12)])
def test_a_sample_has_the_promised_size(name: str, rooms: int, devices: int, spaces: int) -> None:
    home = SAMPLES[f"{name}.json"]()
    assert len(home.levels) == 1
    assert len(home.rooms) == rooms
    assert sum(len(box.devices) for box in home.boxes) == devices
    assert [panel.spaces for panel in home.panels] == [spaces]


def test_the_rooms_tile_the_footprint(sample: Home) -> None:
    xs = [x for room in sample.rooms for x, _ in room.outline]
    ys = [y for room in sample.rooms for _, y in room.outline]
    assert sum(_area(room.outline) for room in sample.rooms) == (max(xs) - min(xs)) * (max(ys) - min(ys))


def test_the_cottage_is_nine_by_eleven_metres_and_the_flat_is_as_large_as_promised(cottage: Home, flat: Home) -> None:
    assert sum(_area(room.outline) for room in cottage.rooms) == 10_973 * 9_144
    assert 60e6 <= sum(_area(room.outline) for room in flat.rooms) <= 75e6


def _area(outline: tuple[Point, ...]) -> float:
    return abs(sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in pairwise((*outline, outline[0])))) / 2


def test_the_shared_boxes_are_those_that_two_supplies_enter(cottage: Home, flat: Home) -> None:
    assert {box.mark for box in cottage.boxes if len(_entering(cottage, box)) > 1} == {
        "B1",  # porch and living room, by the front door
        "B19",  # bathroom switches, and the cable that passes
        "B24",  # back hall and garden
        "B34",  # split receptacles of the multiwire pair
        "B35",
    }
    assert {box.mark for box in flat.boxes if len(_entering(flat, box)) > 1} == {"B1", "B2", "B6", "B18", "B27"}


def _entering(home: Home, box: Box) -> set[object]:
    """Return what enters the box, each behind followed to what it hangs on."""
    by_id = {place.feed.id: place.feed for place in feeds(home)}
    return {supply for feed in box.feeds() if feed.volts == "mains" for supply in _supplies(feed, by_id)}


def _supplies(feed: Feed, by_id: dict[int, Feed]) -> set[object]:
    while feed.on.how == "behind":
        feed = by_id[feed.on.feed]
    if not isinstance(feed.on, Supplied):
        return set()
    return {supply.breaker if supply.kind == "breaker" else supply.kind for supply in feed.on.supplies}


def test_both_samples_show_what_the_program_is_for(sample: Home) -> None:
    hangs = [place.feed.on.how for place in feeds(sample)]
    kinds = {device.kind for box in sample.boxes for device in box.devices}
    assert {"not known", "any", "behind"} <= set(hangs)
    assert {"ground-fault receptacle", "smoke alarm", "exhaust fan", "junction box", "loose cable end"} <= kinds
    assert any(len(control.switches) == 2 for control in sample.controls)
    assert any(box.passing and box.devices[0].feeds for box in sample.boxes)
    assert sum(isinstance(pole.neutral, int) for breaker in sample.breakers for pole in breaker.poles) == 2
    assert any(breaker.as_found.startswith("spare") for breaker in sample.breakers)
    assert len(_blanks(sample)) == 2
    assert sum(bool(breaker.wording) for breaker in sample.breakers) == 1


def _blanks(home: Home) -> set[int]:
    taken = {pole.space for breaker in home.breakers for pole in breaker.poles}
    return set(range(1, home.panels.rows[0].spaces + 1)) - taken


def test_the_cottage_has_its_own_marks(cottage: Home) -> None:
    halves = {pole.half for breaker in cottage.breakers for pole in breaker.poles}
    across = [place.device.name for place in feeds(cottage) if place.device and place.feed.on.how == "all"]
    found_off = [breaker.found.why for breaker in cottage.breakers if breaker.found.state == "off"]
    grounds = [device.ground for box in cottage.boxes for device in box.devices if "receptacle" in device.kind]
    assert halves == {None, "A", "B"}
    assert across == ["dryer", "range"]
    assert len(found_off) == 1
    assert found_off[0]
    assert {"present", "absent"} == set(grounds)
    assert cottage.panels.rows[0].mains[0].amps == 100


def test_the_flat_has_a_residual_current_device_and_something_from_elsewhere(flat: Home) -> None:
    guards = {breaker.id for breaker in flat.breakers if "residual current" in breaker.protects}
    assert [breaker.behind in guards for breaker in flat.breakers].count(True) == 3
    assert any("elsewhere" in _entering(flat, box) for box in flat.boxes)
    assert flat.panels.rows[0].numbering == "single row"


# --- the drawing ----------------------------------------------------------------------------------------------------


def test_every_wall_box_lies_on_a_wall_and_faces_into_a_room_of_its_level(sample: Home) -> None:
    for box in sample.boxes:
        if box.mount in ("wall", "loose cable end"):
            assert box.at is not None
            dx, dy = FACING[box.angle]
            facing = [room for room in sample.rooms if _contains(room, (box.at[0] + dx, box.at[1] + dy))]
            assert len(facing) == 1, box.mark
            assert facing[0].level == box.level
            assert any(_on_edge(box.at, *edge) for edge in _edges(facing[0])), box.mark


def test_an_outdoor_box_lies_on_an_outer_wall_and_faces_out(sample: Home) -> None:
    outdoor = [box for box in sample.boxes if box.mount == "outdoor"]
    assert outdoor
    for box in outdoor:
        assert box.at is not None
        dx, dy = FACING[box.angle]
        assert not any(_contains(room, (box.at[0] + dx, box.at[1] + dy)) for room in sample.rooms), box.mark
        assert any(_on_edge(box.at, *edge) for room in sample.rooms for edge in _edges(room)), box.mark


def test_ceiling_boxes_lie_inside_a_room(sample: Home) -> None:
    ceiling = [box.at for box in sample.boxes if box.mount == "ceiling" and box.at]
    assert ceiling
    assert all(sum(_contains(room, at) for room in sample.rooms) == 1 for at in ceiling)


def test_no_two_boxes_crowd_each_other_or_the_panel(sample: Home) -> None:
    places = [*((box.mark, box.at) for box in sample.boxes), *(("panel", panel.at) for panel in sample.panels)]
    assert [(a, b) for (a, p), (b, q) in combinations(places, 2) if p and q and dist(p, q) < APART_MM] == []


def test_no_box_or_panel_stands_at_an_opening_and_openings_lie_on_walls(sample: Home) -> None:
    standing = [*(box.at for box in sample.boxes if box.mount != "ceiling"), *(panel.at for panel in sample.panels)]
    for opening in sample.openings:
        along = 0 if opening.angle in (90, 270) else 1
        clear = opening.width / 2 + CLEAR_OF_OPENING_MM
        on_line = [at[along] for at in standing if at and at[1 - along] == opening.at[1 - along]]
        assert all(abs(at - opening.at[along]) >= clear for at in on_line), opening
        assert any(_on_edge(opening.at, *edge) for room in sample.rooms for edge in _edges(room)), opening


def _edges(room: Room) -> list[tuple[Point, Point]]:
    return list(pairwise((*room.outline, room.outline[0])))


def _on_edge(at: Point, a: Point, b: Point) -> bool:
    """Tell whether a place lies on an upright or level edge."""
    return min(a[0], b[0]) <= at[0] <= max(a[0], b[0]) and min(a[1], b[1]) <= at[1] <= max(a[1], b[1])


def _contains(room: Room, at: Point) -> bool:
    """Tell whether a place lies strictly inside a room of upright and level walls: a ray to the right crosses odd."""
    if any(_on_edge(at, *edge) for edge in _edges(room)):
        return False
    crossed = [a for a, b in _edges(room) if (a[1] > at[1]) != (b[1] > at[1]) and a[0] > at[0]]
    return len(crossed) % 2 == 1


# --- the log --------------------------------------------------------------------------------------------------------


def test_some_feeds_are_shown_dead_with_one_breaker_off_and_live_before_and_after(sample: Home) -> None:
    resting = {breaker.id for breaker in sample.breakers if breaker.found.state == "off"}
    shown = {feed for day in _days(sample) for feed in _shown(day, resting)}
    stated = {place.feed.id for place in feeds(sample) if place.feed.on.how in ("any", "all")}
    assert len(shown) >= 20
    assert len(stated - shown) >= 5, "some are only claimed"
    assert shown <= stated


def _days(home: Home) -> list[list[Round]]:
    rounds = [entry for entry in home.log if isinstance(entry, Round)]
    return [[one for one in rounds if one.date == day] for day in sorted({one.date for one in rounds})]


def _shown(day: list[Round], resting: set[int]) -> set[int]:
    """Return the feeds that a day's solo pass shows to hang on one breaker each."""
    assert all(one.method in STRONG_METHODS and one.tester.before and one.tester.after for one in day)
    first, *alone, last = day
    assert set(first.off) == set(last.off) == resting
    assert all(len(set(one.off) - resting) == 1 for one in alone)
    live = {r.feed for r in first.readings if r.says == "live"} & {r.feed for r in last.readings if r.says == "live"}
    return live & {reading.feed for one in alone for reading in one.readings if reading.says == "dead"}


def test_240_volt_loads_are_shown_on_each_hot(cottage: Home) -> None:
    across = {place.feed.id for place in feeds(cottage) if place.feed.on.how == "all"}
    rounds = [one for day in _days(cottage) for one in day]
    shown = [reading.each_hot for one in rounds for reading in one.readings if reading.feed in across]
    assert shown
    assert all(shown)


def test_nothing_with_a_battery_is_a_witness(sample: Home) -> None:
    alarms = {place.feed.id for place in feeds(sample) if place.device and place.device.kind == "smoke alarm"}
    rounds = [one for day in _days(sample) for one in day]
    assert alarms
    assert alarms.isdisjoint(reading.feed for one in rounds for reading in one.readings)


def test_a_switch_is_read_only_by_a_lamp_that_it_works_itself(sample: Home) -> None:
    switch_of = {
        feed.id: device.id
        for box in sample.boxes
        for device in box.devices
        if catalogue()[device.kind].group == "switch"
        for feed in device.feeds
    }
    for one in (one for day in _days(sample) for one in day):
        says = {reading.feed: reading.says for reading in one.readings}
        for feed in says.keys() & switch_of.keys():
            lamps = {
                lamp for control in sample.controls if switch_of[feed] in control.switches for lamp in control.feeds
            }
            assert lamps & says.keys() or one.off
            assert all(says[lamp] == says[feed] for lamp in lamps & says.keys())


def test_some_boxes_were_opened_and_every_cable_in_them_told(sample: Home) -> None:
    boxes = {box.id: box for box in sample.boxes}
    opened = [entry for entry in sample.log if isinstance(entry, Opened)]
    assert len(opened) >= 3
    for entry in opened:
        assert {cable.feed for cable in entry.cables} == {feed.id for feed in boxes[entry.box].feeds()}
