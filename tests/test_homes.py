import time
from collections import Counter

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from floorplan_circuits.home.home import Home, existing_feeds, mains
from floorplan_circuits.home.integrity import problems
from floorplan_circuits.home.log import KNOWN_KINDS
from tests.homes import generate, homes, readings, solo_rounds, with_log

SIZES = (50, 500, 5000)


@pytest.mark.parametrize("devices", [0, 1, 13, *SIZES])
def test_a_generated_home_is_sound_and_has_as_many_devices_as_asked(devices: int) -> None:
    home = generate(7, devices).home
    assert problems(home) == ()
    assert sum(len(box.devices) for box in home.boxes) == devices


def test_the_same_seed_builds_the_same_home_and_another_does_not() -> None:
    first, again, other = generate(3, 200), generate(3, 200), generate(4, 200)
    assert first == again
    assert first.home != other.home


def test_a_home_of_a_normal_size_has_one_panel_and_a_large_one_prefixes() -> None:
    assert len(generate(1, 200).home.panels) == 1
    prefixes = [panel.prefix for panel in generate(1, 5000).home.panels]
    assert len(prefixes) > 2
    assert prefixes[:3] == ["A", "B", "C"]


@pytest.mark.parametrize("devices", SIZES)
def test_no_two_boxes_share_a_place(devices: int) -> None:
    home = generate(11, devices, levels=2).home
    places = Counter((box.level, box.at) for box in home.boxes)
    assert max(places.values()) == 1


def test_wall_boxes_stand_on_a_wall_and_face_into_their_room() -> None:
    home = generate(5, 500).home
    rooms = [(min(room.outline), max(room.outline)) for room in home.rooms]
    for box in home.boxes:
        assert box.at is not None
        step = {0: (1, 0), 90: (0, 1), 180: (-1, 0), 270: (0, -1)}[box.angle]
        x, y = box.at[0] + step[0], box.at[1] + step[1]
        inside = [1 for low, high in rooms if low[0] < x < high[0] and low[1] < y < high[1]]
        on_wall = any(box.at[0] in (low[0], high[0]) or box.at[1] in (low[1], high[1]) for low, high in rooms)
        assert inside == [1]
        assert on_wall or box.mount == "ceiling"


def test_levels_share_the_rooms_among_them() -> None:
    home = generate(2, 500, levels=3).home
    counts = Counter(room.level for room in home.rooms)
    assert sorted(counts) == sorted(home.levels.ids())
    assert max(counts.values()) - min(counts.values()) <= 2


@pytest.mark.parametrize("devices", SIZES)
def test_the_truth_covers_every_existing_feed_and_names_real_breakers(devices: int) -> None:
    generated = generate(9, devices)
    assert set(generated.truth) == {place.feed.id for place in existing_feeds(generated.home)}
    assert frozenset().union(*generated.truth.values()) <= set(generated.home.breakers.ids())


def test_the_home_states_some_of_the_truth_some_wrongly_and_some_not_at_all() -> None:
    generated = generate(9, 2000)
    said = Counter(_verdict(place.feed.on, generated.truth[place.feed.id]) for place in existing_feeds(generated.home))
    total = said.total()
    assert 0.3 < said["right"] / total < 0.7
    assert 0.02 < said["wrong"] / total < 0.2
    assert 0.2 < said["nothing"] / total < 0.6


def _verdict(on: object, truth: frozenset[int]) -> str:
    supplies = getattr(on, "supplies", None)
    if supplies is None:
        return "nothing" if getattr(on, "how", "") == "not known" else "behind"
    named = {supply.breaker for supply in supplies if supply.kind == "breaker"}
    return "right" if named == truth else "wrong"


def test_with_everything_on_all_is_live_and_with_the_mains_off_only_what_comes_from_elsewhere() -> None:
    generated = generate(21, 5000)
    _, first_main = next(mains(generated.home))
    on, off = readings(generated, frozenset()), readings(generated, frozenset({first_main.id}))
    assert generated.outside
    assert set(on.values()) == {"live"}
    assert {feed for feed, says in off.items() if says == "live"} == generated.outside


def test_with_every_breaker_off_only_what_comes_from_elsewhere_is_live() -> None:
    generated = generate(21, 500)
    said = readings(generated, frozenset(generated.home.breakers.ids()))
    assert {feed for feed, says in said.items() if says == "live"} == generated.outside


def test_a_feeder_off_makes_its_whole_panel_dead() -> None:
    generated = generate(8, 5000)
    panel = generated.home.panels.rows[1]
    feeder = panel.fed_by[0]
    assert feeder.kind == "breaker"
    under = {breaker.id for breaker in generated.home.breakers if breaker.panel == panel.id}
    said = readings(generated, frozenset({feeder.breaker}))
    alone = [feed for feed, on in generated.truth.items() if on and on <= under]
    assert alone
    assert {said[feed] for feed in alone} == {"dead"}


@given(seed=st.integers(0, 10**6), part=st.floats(0, 1))
@settings(max_examples=30, deadline=None)
def test_turning_more_off_never_brings_anything_to_life(seed: int, part: float) -> None:
    generated = generate(seed, 60)
    breakers = generated.home.breakers.ids()
    fewer = readings(generated, frozenset(breakers[: int(part * len(breakers) / 2)]))
    more = readings(generated, frozenset(breakers[: int(part * len(breakers))]))
    assert all(more[feed] == "dead" for feed, says in fewer.items() if says == "dead")


def test_a_solo_pass_says_what_is_true_and_fits_into_the_log() -> None:
    generated = generate(6, 100)
    some = generated.home.breakers.rows[:5]
    handles = [breaker.id for breaker in some if breaker.found.state != "off"]
    rounds = solo_rounds(generated, [breaker.id for breaker in some])
    home = with_log(generated.home, rounds)
    resting = frozenset(breaker.id for breaker in home.breakers if breaker.found.state == "off")
    assert len(handles) == 4
    assert problems(home) == ()
    assert len(home.log) == len(handles) + 2
    assert [frozenset(one.off) - resting for one in rounds] == [
        frozenset(),
        *({handle} for handle in handles),
        frozenset(),
    ]
    for one in rounds:
        said = readings(generated, frozenset(one.off))
        assert all(reading.says == said[reading.feed] for reading in one.readings)
    assert any(reading.says == "dead" for one in rounds for reading in one.readings)


def test_fifty_thousand_devices_are_built_within_twenty_seconds() -> None:
    start = time.perf_counter()
    generated = generate(1, 50_000)
    assert time.perf_counter() - start < 20
    assert len(generated.home.rooms) == 3847


@given(home=homes())
@settings(max_examples=100, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_a_wild_home_is_sound_and_reads_back_as_it_was(home: Home) -> None:
    assert problems(home) == ()
    assert Home.model_validate_json(home.model_dump_json()) == home


def test_wild_homes_hold_every_kind_of_record_and_of_log_entry() -> None:
    met = Counter[str]()

    @given(home=homes())
    @settings(max_examples=100, deadline=None, database=None, derandomize=True)
    def meet(home: Home) -> None:
        met.update(_kinds(home))

    meet()
    assert not EVERYTHING - set(met)


EVERYTHING = {
    *(f"log {kind}" for kind in (*KNOWN_KINDS, "from a newer program")),
    *(f"feed {how}" for how in ("not known", "any", "all", "behind", "disconnected", "several")),
    *(f"supply {kind}" for kind in ("breaker", "source", "elsewhere")),
    *("fuse", "tandem", "subpanel", "main", "tie", "shared neutral", "neutral not known", "behind another breaker"),
    *("box without a place", "planned device", "low volts", "passing", "control", "opening", "stair", "picture"),
}


def _kinds(home: Home) -> set[str]:
    return {*_building_kinds(home), *_feed_kinds(home), *_power_kinds(home), *_log_kinds(home)}


def _building_kinds(home: Home) -> set[str]:
    found = {
        name
        for name, rows in (("opening", home.openings), ("stair", home.stairs), ("control", home.controls))
        if len(rows)
    }
    found |= {"box without a place" for box in home.boxes if box.at is None}
    found |= {"planned device" for box in home.boxes for device in box.devices if device.planned}
    found |= {"passing" for box in home.boxes if box.passing}
    return found | {"picture" for _ in home.pictures}


def _feed_kinds(home: Home) -> set[str]:
    feeds = [feed for box in home.boxes for feed in box.feeds()]
    stated = [feed.on for feed in feeds if feed.on.how in ("any", "all")]
    found = {f"feed {feed.on.how}" for feed in feeds} | {"low volts" for feed in feeds if feed.volts == "low"}
    found |= {"feed several" for on in stated if len(on.supplies) > 1}
    return found | {f"supply {supply.kind}" for on in stated for supply in on.supplies}


def _power_kinds(home: Home) -> set[str]:
    poles = [pole for breaker in home.breakers for pole in breaker.poles]
    found = {"main" for _ in mains(home)} | {"fuse" for breaker in home.breakers if breaker.device == "fuse"}
    found |= {"subpanel" for panel in home.panels for feeder in panel.fed_by if feeder.kind == "breaker"}
    found |= {"tie" for breaker in home.breakers if breaker.tie}
    found |= {"behind another breaker" for breaker in home.breakers if breaker.behind}
    found |= {"tandem" for pole in poles if pole.half}
    found |= {"shared neutral" for pole in poles if isinstance(pole.neutral, int)}
    return found | {"neutral not known" for pole in poles if pole.neutral == "not known"}


def _log_kinds(home: Home) -> set[str]:
    return {f"log {entry.kind if entry.kind in KNOWN_KINDS else 'from a newer program'}" for entry in home.log}
