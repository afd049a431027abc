from itertools import combinations, pairwise
from math import dist
from pathlib import Path

import pytest
from shapely import Polygon, unary_union

from floorplan_circuits.files.open import open_home
from floorplan_circuits.files.save import text_of
from floorplan_circuits.find import find
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.boxes import Box, Feed, Supplied
from floorplan_circuits.home.building import Opening, Room
from floorplan_circuits.home.home import Home, feeds
from floorplan_circuits.home.integrity import problems
from floorplan_circuits.home.kinds import catalogue
from floorplan_circuits.home.log import STRONG_METHODS, Change, Opened, ReceptacleTest, Round, Trouble
from floorplan_circuits.home.power import Panel
from floorplan_circuits.home.record import Point
from floorplan_circuits.home.resources import folder
from floorplan_circuits.sheets.paper import PAPERS
from floorplan_circuits.sheets.wall_map import wall_map
from floorplan_circuits.supply.handles import moves_together
from sample_homes.write_samples import SAMPLES, write_samples

FACING = {0: (1, 0), 90: (0, 1), 180: (-1, 0), 270: (0, -1)}
APART_MM = 600
CEILING_APART_MM = 900
CLEAR_OF_OPENING_MM = 100
SLIT_MM = 100


@pytest.fixture(params=sorted(SAMPLES))
def sample(request: pytest.FixtureRequest) -> Home:
    return open_home(folder("sample_homes") / request.param).home


@pytest.fixture
def cottage() -> Home:
    return open_home(folder("sample_homes") / "cottage.json").home


@pytest.fixture
def flat() -> Home:
    return open_home(folder("sample_homes") / "flat.json").home


@pytest.fixture
def house() -> Home:
    return open_home(folder("sample_homes") / "house.json").home


@pytest.fixture(params=["cottage.json", "house.json"])
def split_phase(request: pytest.FixtureRequest) -> Home:
    return open_home(folder("sample_homes") / request.param).home


@pytest.fixture(scope="module")
def house_found() -> Findings:
    return find(open_home(folder("sample_homes") / "house.json").home)


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


@pytest.mark.parametrize(
    ("name", "levels", "rooms", "devices", "spaces", "blanks"),
    [("cottage", 1, 8, 50, [12], [2]), ("flat", 1, 7, 39, [12], [2]), ("house", 3, 24, 178, [40, 8], [3, 1])],
)
def test_a_sample_has_the_promised_size(
    name: str, levels: int, rooms: int, devices: int, spaces: list[int], blanks: list[int]
) -> None:
    home = SAMPLES[f"{name}.json"]()
    assert (len(home.levels), len(home.rooms)) == (levels, rooms)
    assert sum(len(box.devices) for box in home.boxes) == devices
    assert [panel.spaces for panel in home.panels] == spaces
    assert [len(_blanks(home, panel)) for panel in home.panels] == blanks


def _blanks(home: Home, panel: Panel) -> set[int]:
    taken = {pole.space for breaker in home.breakers if breaker.panel == panel.id for pole in breaker.poles}
    return set(range(1, panel.spaces + 1)) - taken


def test_the_rooms_tile_the_footprint_of_each_level(sample: Home) -> None:
    for level in sample.levels:
        rooms = [Polygon(room.outline) for room in sample.rooms if room.level == level.id]
        footprint = unary_union(rooms)
        assert footprint.geom_type == "Polygon", level.name
        assert not footprint.interiors, level.name
        assert sum(room.area for room in rooms) == footprint.area
        without_slits = footprint.buffer(SLIT_MM, join_style="mitre").buffer(-SLIT_MM, join_style="mitre")
        assert without_slits.area == pytest.approx(footprint.area, abs=1), level.name


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


def test_every_sample_shows_what_the_program_is_for(sample: Home) -> None:
    hangs = [place.feed.on.how for place in feeds(sample)]
    kinds = {device.kind for box in sample.boxes for device in box.devices}
    assert {"not known", "any", "behind"} <= set(hangs)
    assert {"ground-fault receptacle", "smoke alarm", "exhaust fan", "junction box", "loose cable end"} <= kinds
    assert any(len(control.switches) == 2 for control in sample.controls)
    assert any(box.passing and box.devices[0].feeds for box in sample.boxes)
    assert sum(isinstance(pole.neutral, int) for breaker in sample.breakers for pole in breaker.poles) == 2
    assert any(breaker.as_found.startswith("spare") for breaker in sample.breakers)
    assert sum(bool(breaker.wording) for breaker in sample.breakers) == 1


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
            facing = [room for room in _on_level(sample, box) if _contains(room, (box.at[0] + dx, box.at[1] + dy))]
            assert len(facing) == 1, box.mark
            assert any(_on_edge(box.at, *edge) for edge in _edges(facing[0])), box.mark


def test_an_outdoor_box_lies_on_an_outer_wall_and_faces_out(sample: Home) -> None:
    outdoor = [box for box in sample.boxes if box.mount == "outdoor"]
    assert outdoor
    for box in outdoor:
        assert box.at is not None
        dx, dy = FACING[box.angle]
        rooms = _on_level(sample, box)
        assert not any(_contains(room, (box.at[0] + dx, box.at[1] + dy)) for room in rooms), box.mark
        assert any(_on_edge(box.at, *edge) for room in rooms for edge in _edges(room)), box.mark


def test_ceiling_boxes_lie_inside_a_room_with_space_about_them(sample: Home) -> None:
    ceiling = [box for box in sample.boxes if box.mount == "ceiling" and box.at]
    assert ceiling
    assert all(sum(_contains(room, box.at) for room in _on_level(sample, box)) == 1 for box in ceiling if box.at)
    places = [(box.mark, box.level, box.at) for box in ceiling]
    assert _crowded(places, CEILING_APART_MM) == []


def test_no_two_boxes_crowd_each_other_or_a_panel(sample: Home) -> None:
    boxes = [(box.mark, box.level, box.at) for box in sample.boxes]
    assert _crowded([*boxes, *((panel.name, panel.level, panel.at) for panel in sample.panels)], APART_MM) == []


def _crowded(places: list[tuple[str, int | None, Point | None]], apart: int) -> list[tuple[str, str]]:
    pairs = combinations(places, 2)
    return [(a, b) for (a, la, p), (b, lb, q) in pairs if la == lb and p and q and dist(p, q) < apart]


def test_no_box_or_panel_stands_at_an_opening_and_openings_lie_on_walls(sample: Home) -> None:
    for opening in sample.openings:
        along = 0 if opening.angle in (90, 270) else 1
        clear = opening.width / 2 + CLEAR_OF_OPENING_MM
        on_line = [at[along] for at in _standing(sample, opening.level) if at[1 - along] == opening.at[1 - along]]
        assert all(abs(at - opening.at[along]) >= clear for at in on_line), opening
        edges = [edge for room in sample.rooms if room.level == opening.level for edge in _edges(room)]
        assert any(_on_edge(opening.at, *edge) for edge in edges), opening


def _standing(home: Home, level: int) -> list[Point]:
    """Return where boxes and panels stand on the walls of a level."""
    boxes = [box.at for box in home.boxes if box.level == level and box.at and box.mount not in ("ceiling", "hidden")]
    return [*boxes, *(panel.at for panel in home.panels if panel.level == level and panel.at)]


def test_no_box_is_in_the_swing_of_a_door(sample: Home) -> None:
    for door in (one for one in sample.openings if one.swing != "none"):
        boxes = [box for box in sample.boxes if box.level == door.level]
        assert [box.mark for box in boxes if _is_swept(door, box)] == []


def _is_swept(door: Opening, box: Box) -> bool:
    """Tell whether a door, half a width to each side of its middle and a width deep, can hide or hit the box."""
    assert box.at is not None
    ahead = FACING[door.angle] if door.swing == "ahead" else FACING[(door.angle + 180) % 360]
    face = FACING[box.angle] if box.mount == "wall" else (0, 0)
    dx, dy = box.at[0] + face[0] - door.at[0], box.at[1] + face[1] - door.at[1]
    deep, aside = dx * ahead[0] + dy * ahead[1], dx * ahead[1] - dy * ahead[0]
    return 0 < deep < door.width and abs(aside) < door.width / 2


def _on_level(home: Home, box: Box) -> list[Room]:
    return [room for room in home.rooms if room.level == box.level]


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
    shown = {feed for day in _days(sample) for feed in _shown(day, resting, moves_together(sample))}
    stated = {place.feed.id for place in feeds(sample) if place.feed.on.how in ("any", "all")}
    assert len(shown) >= 20
    assert len(stated - shown) >= 5, "some are only claimed"
    assert shown <= stated


def _days(home: Home) -> list[list[Round]]:
    rounds = [entry for entry in home.log if isinstance(entry, Round)]
    return [[one for one in rounds if one.date == day] for day in sorted({one.date for one in rounds})]


def _shown(day: list[Round], resting: set[int], together: dict[int, frozenset[int]]) -> set[int]:
    """Return the feeds that a day's solo pass shows to hang on one handle each."""
    assert all(one.method in STRONG_METHODS and one.tester.before and one.tester.after for one in day)
    first, *alone, last = day
    assert set(first.off) == set(last.off) == resting
    assert all(set(one.off) - resting in together.values() for one in alone)
    live = {r.feed for r in first.readings if r.says == "live"} & {r.feed for r in last.readings if r.says == "live"}
    return live & {reading.feed for one in alone for reading in one.readings if reading.says == "dead"}


def test_240_volt_loads_are_shown_on_each_hot(split_phase: Home) -> None:
    across = {place.feed.id for place in feeds(split_phase) if place.feed.on.how == "all"}
    rounds = [one for day in _days(split_phase) for one in day]
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


# --- the house ------------------------------------------------------------------------------------------------------


def test_the_house_has_its_shared_boxes_and_passing_conductors(house: Home, house_found: Findings) -> None:
    shared = {box.id for box in house.boxes if len(_entering(house, box)) > 1}
    found = {box.box: box for box in house_found.boxes.values() if box.shared}
    assert shared == found.keys()
    assert len(shared) == 13
    assert sum(box.tied for box in found.values()) == 2
    assert sum(len(box.passing) for box in house.boxes if any(device.feeds for device in box.devices)) == 2


def test_the_house_is_told_in_every_standing_but_that_of_the_plans(house_found: Findings) -> None:
    standings = [one.standing for one in house_found.conclusions.values()]
    counts = {standing: standings.count(standing) for standing in set(standings)}
    assert counts.pop("proved") >= 120
    assert counts.pop("claimed") >= 30
    assert counts == {"traced": 3, "expired": 1, "contradicted": 3, "unknown": 5}


def test_the_house_has_its_odd_wiring(house: Home) -> None:
    places = list(feeds(house))
    names = {place.device.name: place.feed for place in places if place.device}
    singles = {breaker.id for breaker in house.breakers if len(breaker.poles) == 1 and breaker.tie is None}
    heater = names["baseboard heater"].on
    assert isinstance(heater, Supplied)
    assert heater.how == "all"
    assert {supply.breaker for supply in heater.supplies if supply.kind == "breaker"} <= singles
    assert len(heater.supplies) == 2
    lamp = names["over the stairs"]
    assert not isinstance(lamp.returns, str)
    assert {lamp.returns.breaker}.isdisjoint(_supplies(lamp, {}))
    assert names["patio receptacle"].on.how == "behind"
    assert {"range", "dryer", "water heater", "air conditioner"} <= {
        place.device.name for place in places if place.device and place.feed.on.how == "all"
    }


def test_the_house_has_its_panels(house: Home) -> None:
    main, garage = house.panels
    feeder = next(breaker for breaker in house.breakers if [pole.space for pole in breaker.poles] == [38, 40])
    halves = [(pole.space, pole.half) for breaker in house.breakers for pole in breaker.poles if pole.half]
    ties = [breaker for breaker in house.breakers if breaker.tie is not None]
    off = [breaker.found.why for breaker in house.breakers if breaker.found.state == "off"]
    assert main.mains[0].amps == 200
    assert (garage.prefix, garage.mains) == ("G", ())
    assert [fed.breaker for fed in garage.fed_by if fed.kind == "breaker"] == [feeder.id]
    assert sorted(halves) == [(17, "A"), (17, "B"), (18, "A"), (18, "B")]
    assert {breaker.tie.made for breaker in ties if breaker.tie} == {"by the factory"}
    assert len({pole.neutral for breaker in ties for pole in breaker.poles}) == 1
    assert len(off) == 1
    assert off[0]


def test_the_house_has_stairs_with_a_switch_at_each_end(house: Home) -> None:
    order = {level.id: level.order for level in house.levels}
    level_of = {device.id: order[box.level] for box in house.boxes if box.level for device in box.devices}
    assert [(order[stair.level], order[stair.head]) for stair in house.stairs if stair.head] == [(-1, 0), (0, 1)]
    ends = {control.name: [level_of[switch] for switch in control.switches] for control in house.controls}
    assert sorted(ends["basement stairs"]) == [-1, 0]
    assert sorted(ends["stairs"]) == [0, 1]
    assert sum(control.by == "photocell" for control in house.controls) == 1


def test_the_house_has_a_hidden_box_and_critical_loads(house: Home) -> None:
    hidden = [box for box in house.boxes if box.mount == "hidden"]
    critical = {device.critical for box in house.boxes for device in box.devices if device.critical}
    assert [box.reach.startswith("behind the drywall") for box in hidden] == [True]
    for word in ("medical", "food", "dry", "smoke alarm", "network", "heating"):
        assert any(word in what for what in critical), word


def test_the_house_has_a_log_of_more_than_tests(house: Home) -> None:
    kinds = [type(entry) for entry in house.log]
    assert (kinds.count(ReceptacleTest), kinds.count(Trouble), kinds.count(Change)) == (2, 1, 1)
    assert all(entry.date.startswith("2026-") for entry in house.log)


def test_every_label_of_the_house_finds_room_on_tabloid(house_found: Findings) -> None:
    sheet = wall_map(house_found, PAPERS["tabloid"], "2026-05-01")
    assert sheet.not_placed == ()
    assert sheet.shortened == ()
    assert [page.name for page in sheet.pages[:3]] == ["Basement", "Ground floor", "Upper floor"]
