import time
from collections.abc import Callable
from typing import Any

import pytest

from floorplan_circuits.home import integrity
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import RULES, Problem, ids, problems
from tests.home.samples import on_breaker, raw_home, sample, with_more, with_row

Rule = Callable[[Home], Any]


def only(home: Home, rule: Rule) -> list[str]:
    """Return what one rule says, having seen that no other rule says anything."""
    others = [problem for other in RULES if other is not rule for problem in other(home)]
    assert others == []
    return [f"{problem.where}: {problem.says}" for problem in rule(home)]


def room(*outline: tuple[int, int]) -> Home:
    return with_row("rooms", 0, outline=[list(point) for point in outline])


def breaker(number: int, *poles: dict[str, Any], **fields: Any) -> dict[str, Any]:
    return {"id": number, "panel": 20, "poles": list(poles), **fields}


def feed_of(number: int, on: dict[str, Any]) -> Home:
    """Return the home with one more box, B3, that one cable enters."""
    return with_more("boxes", {"id": number, "mark": "B3", "passing": [{"id": number + 1, "part": "fan", "on": on}]})


@pytest.mark.parametrize("home", [Home(), sample()])
def test_a_sound_home_has_no_problems(home: Home) -> None:
    assert problems(home) == ()


def test_a_problem_reads_as_place_fault_and_cure() -> None:
    assert str(Problem("box B1", "it has no kind", "Say which")) == "box B1: it has no kind. Say which."


def test_every_rule_of_the_module_is_run() -> None:
    returning = [
        thing
        for name, thing in vars(integrity).items()
        if not name.startswith("_") and getattr(thing, "__annotations__", {}).get("return") == integrity.Problems
    ]
    assert set(returning) == set(RULES)


def test_all_ids_are_told_with_their_kind() -> None:
    kinds = ids(sample())
    assert (kinds[1], kinds[10], kinds[11], kinds[12], kinds[15]) == ("level", "box", "device", "feed", "feed")
    assert (kinds[21], kinds[30], kinds[50], kinds[40]) == ("main", "breaker", "entry", "source")


# --- ids and references ---------------------------------------------------------------------------------------------


def test_two_things_with_one_id_are_both_named() -> None:
    home = with_more("levels", {"id": 40, "name": "Attic"})
    assert only(home, integrity.unique_ids) == ["source Utility: it has the same id as level Attic"]


def test_a_log_entry_shares_no_id_either() -> None:
    home = with_more("log", {"id": 21, "kind": "sniffed"})
    assert only(home, integrity.unique_ids) == ["log entry 2: it has the same id as panel Main, a main"]


def test_the_counter_is_past_every_id() -> None:
    assert only(sample(next_id=51), integrity.unique_ids) == []
    (problem,) = problems(sample(next_id=50))
    assert str(problem) == "next_id: the counter is not past every id in use. Set next_id to 51."


@pytest.mark.parametrize(
    ("table", "row", "fields", "expected"),
    [
        ("rooms", 0, {"level": 99}, "room Kitchen: level names a level that is not there"),
        ("rooms", 0, {"level": 10}, "room Kitchen: level names a level that is not there"),
        ("stairs", 0, {"head": 99}, "stair 5: head names a level that is not there"),
        ("controls", 0, {"enters": 99}, "control 19: enters names a box that is not there"),
        ("controls", 0, {"switches": [11, 12]}, "control 19: switches.2 names a device that is not there"),
        ("breakers", 2, {"behind": 99}, "breaker 32: behind names a breaker that is not there"),
        ("breakers", 0, {"panel": 99}, "breaker 30: panel names a panel that is not there"),
        ("sources", 0, {"into": [21]}, "source Utility: into.1 names a panel or breaker or feed that is not there"),
        (
            "panels",
            1,
            {"fed_by": [{"kind": "source", "source": 99}]},
            "panel Garage: fed_by.1.source names a source that is not there",
        ),
    ],
)
def test_a_reference_to_nothing_or_to_the_wrong_kind_is_named(
    table: str, row: int, fields: dict[str, Any], expected: str
) -> None:
    assert only(with_row(table, row, **fields), integrity.no_dangling) == [expected]


@pytest.mark.parametrize(
    ("on", "path"),
    [
        (on_breaker(99), "on.supplies.1.breaker names a breaker"),
        ({"how": "all", "supplies": [{"kind": "source", "source": 99}]}, "on.supplies.1.source names a source"),
        ({"how": "behind", "feed": 99}, "on.feed names a feed"),
    ],
)
def test_a_feed_that_hangs_on_nothing_is_named(on: dict[str, Any], path: str) -> None:
    expected = f"box B3: passing.1.{path} that is not there"
    assert only(feed_of(60, on), integrity.no_dangling) == [expected]


def test_the_log_may_name_what_is_gone() -> None:
    entries = [
        {"id": 60, "kind": "opened", "box": 999, "cables": [{"feed": 999}]},
        {"id": 61, "kind": "traced", "feed": 999, "handle": 999},
        {"id": 62, "kind": "struck", "entry": 999},
        {"id": 63, "kind": "change", "what": "rewired", "boxes": [999], "panels": [999]},
    ]
    assert problems(with_more("log", *entries)) == ()


# --- the drawing ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("outline", "says"),
    [
        ((), "its outline has fewer than three corners"),
        (((0, 0), (1000, 0), (0, 0)), "its outline has fewer than three corners"),
        (((0, 0), (3000, 3000), (3000, 0), (0, 3000)), "its outline crosses itself near (1500, 1500)"),
        (((0, 0), (4000, 0), (4000, 3000), (4000, 0), (0, 3000)), "its outline crosses itself near (4000, 3000)"),
        (((0, 0), (4000, 0), (2000, 0), (2000, 3000)), "its outline crosses itself near (4000, 0)"),
        (((0, 0), (4000, 0), (4000, 0), (4000, 3000)), "its outline crosses itself near (4000, 0)"),
        (((0, 0), (2000, 0), (4000, 0)), "its outline crosses itself near (4000, 0)"),
        (((0, 0), (50, 0), (50, 50), (0, 50)), "it has next to no area"),
        (((0, 0), (200_001, 0), (200_001, 3000), (0, 3000)), "it is over 200 m long"),
    ],
)
def test_an_outline_that_no_room_has_is_named(outline: tuple[tuple[int, int], ...], says: str) -> None:
    assert only(room(*outline), integrity.sound_outlines) == [f"room Kitchen: {says}"]


@pytest.mark.parametrize(
    "outline",
    [
        ((0, 0), (4000, 0), (0, 3000)),
        ((0, 3000), (4000, 3000), (4000, 0), (0, 0)),
        ((0, 0), (4000, 0), (4000, 2000), (2000, 2000), (2000, 4000), (0, 4000)),
        ((0, 0), (2000, 0), (4000, 0), (4000, 3000), (0, 3000)),
        ((-100_000, 0), (100_000, 0), (100_000, 1), (-100_000, 1)),
    ],
)
def test_a_simple_polygon_is_sound_either_way_round(outline: tuple[tuple[int, int], ...]) -> None:
    assert problems(room(*outline)) == ()


def test_a_place_needs_a_level() -> None:
    home = with_more("boxes", {"id": 60, "mark": "B3", "at": [0, 0]})
    assert only(home, integrity.placed_on_levels) == ["box B3: it has a place but no level"]


# --- boxes and devices ----------------------------------------------------------------------------------------------


def test_two_boxes_with_one_mark_are_named() -> None:
    home = with_more("boxes", {"id": 60, "mark": "B1"}, {"id": 61, "mark": "B1"})
    assert only(home, integrity.boxes_make_sense) == ["box B1: 3 boxes have this mark"]


def test_a_box_without_a_mark_is_named() -> None:
    home = with_more("boxes", {"id": 60, "mark": ""})
    assert only(home, integrity.boxes_make_sense) == ["a box: it has no mark"]


def test_a_device_of_no_kind_is_named_by_its_gang() -> None:
    home = with_more("boxes", {"id": 60, "mark": "B3", "devices": [{"id": 61, "kind": ""}]})
    assert only(home, integrity.boxes_make_sense) == ["box B3, gang 1: a device of no kind is in it"]


def test_a_device_of_an_unknown_kind_is_kept() -> None:
    assert problems(with_more("boxes", {"id": 60, "mark": "B3", "devices": [{"id": 61, "kind": "flux lamp"}]})) == ()


def test_a_device_in_a_gang_that_the_box_has_not_is_named() -> None:
    home = with_more("boxes", {"id": 60, "mark": "B3", "devices": [{"id": 61, "kind": "switch", "slot": 2}]})
    assert only(home, integrity.boxes_make_sense) == ["box B3, gang 2: the box has only 1 gangs"]


def behind(*pairs: tuple[int, int]) -> Home:
    cables = [{"id": feed, "part": f"f{feed}", "on": {"how": "behind", "feed": target}} for feed, target in pairs]
    return with_more("boxes", {"id": 60, "mark": "B3", "passing": cables})


def test_feeds_that_hang_behind_one_another_in_a_ring_are_named_and_those_on_the_way_to_it_not() -> None:
    assert only(behind((61, 61)), integrity.behind_ends) == ["box B3, the f61 feed: it hangs behind itself"]
    ring = behind((64, 61), (61, 62), (62, 63), (63, 61), (65, 64))
    named = [line.split(":")[0] for line in only(ring, integrity.behind_ends)]
    assert named == [f"box B3, the f{feed} feed" for feed in (61, 62, 63)]


def test_a_chain_of_feeds_that_ends_is_sound() -> None:
    assert problems(behind((61, 62), (62, 63), (63, 12))) == ()


def test_a_very_long_chain_is_looked_at_once() -> None:
    chain = {number: number + 1 for number in range(200_000)}
    started = time.perf_counter()
    assert integrity._in_rings(chain) == set()
    assert integrity._in_rings({**chain, 200_000: 199_998}) == {199_998, 199_999, 200_000}
    assert time.perf_counter() - started < 5  # looked at again for each, it would take hours


def test_a_pole_that_the_breaker_has_not_is_named() -> None:
    assert only(feed_of(60, on_breaker(30, pole=1)), integrity.supplies_fit) == [
        "box B3, the fan feed: its breaker has no pole 2"
    ]
    assert problems(feed_of(60, on_breaker(31, pole=1))) == ()
    assert problems(feed_of(60, on_breaker(30, pole=0))) == ()


def test_a_supply_named_twice_is_named() -> None:
    assert only(feed_of(60, on_breaker(30, 31, 30)), integrity.supplies_fit) == [
        "box B3, the fan feed: it names one supply twice"
    ]


# --- panels ---------------------------------------------------------------------------------------------------------


def test_a_pole_past_the_end_of_the_panel_is_named() -> None:
    home = with_more("breakers", breaker(60, {"space": 8}, {"space": 9}))
    assert only(home, integrity.spaces_hold_one) == [
        "panel Main, space 9: a pole lies past the end: the panel has 8 spaces"
    ]


def test_two_breakers_in_one_space_are_named() -> None:
    home = with_more("breakers", breaker(60, {"space": 1}))
    assert only(home, integrity.spaces_hold_one) == ["panel Main, space 1: two breakers are in it"]


def test_halves_of_a_space_hold_one_breaker_each() -> None:
    halves = [breaker(60, {"space": 5, "half": "A"}), breaker(61, {"space": 5, "half": "B"})]
    assert problems(with_more("breakers", *halves)) == ()
    third = with_more("breakers", *halves, breaker(62, {"space": 5, "half": "B"}))
    assert only(third, integrity.spaces_hold_one) == ["panel Main, space 5B: two breakers are in it"]


@pytest.mark.parametrize("half_first", [True, False])
def test_a_half_and_a_whole_breaker_do_not_share_a_space(half_first: bool) -> None:
    rows = [breaker(60, {"space": 5, "half": "B"}), breaker(61, {"space": 5})]
    home = with_more("breakers", *(rows if half_first else reversed(rows)))
    (said,) = only(home, integrity.spaces_hold_one)
    assert said.startswith("panel Main, space 5")


def test_a_breaker_does_not_take_one_space_twice() -> None:
    home = with_more("breakers", breaker(60, {"space": 5}, {"space": 5}))
    assert only(home, integrity.spaces_hold_one) == ["panel Main, space 5: two breakers are in it"]


def test_two_panels_do_not_count_alike() -> None:
    home = with_row("panels", 1, prefix="")
    assert only(home, integrity.panels_told_apart) == [
        "panel Main: another panel has no prefix too",
        "panel Garage: another panel has no prefix too",
    ]


def fed(*feeders: tuple[int, int]) -> Home:
    """Return the home with panels fed by the breakers named: (panel, breaker)."""
    by = dict(feeders)
    panels = [
        {**row, "fed_by": [{"kind": "breaker", "breaker": by[row["id"]]}] if row["id"] in by else []}
        for row in raw_home()["panels"]
    ]
    return sample(panels=panels)


def test_a_panel_fed_by_its_own_breaker_is_named() -> None:
    assert only(fed((20, 30)), integrity.not_fed_by_itself) == ["panel Main: it is fed by itself"]


def test_panels_that_feed_one_another_are_named() -> None:
    assert only(fed((20, 32), (22, 31)), integrity.not_fed_by_itself) == [
        "panel Main: it is fed by itself",
        "panel Garage: it is fed by itself",
    ]


def test_breakers_behind_one_another_are_named_by_their_spaces() -> None:
    assert only(with_row("breakers", 0, behind=30), integrity.breakers_behind) == [
        "panel Main, space 1: it stands behind itself"
    ]
    ring = with_row("breakers", 1, behind=32)
    assert only(ring, integrity.breakers_behind) == [
        "panel Main, space 2: it stands behind itself",
        "panel Garage, space 1: it stands behind itself",
    ]


def test_a_picture_that_is_shown_and_not_there_is_named() -> None:
    name = "abcdef0123456789"
    shown = {
        "boxes": [{**raw_home()["boxes"][0], "pictures": [name]}, raw_home()["boxes"][1]],
        "panels": [{**raw_home()["panels"][0], "photo": name}, raw_home()["panels"][1]],
        "levels": [{**raw_home()["levels"][0], "underlay": {"picture": name, "width": 1000}}, raw_home()["levels"][1]],
    }
    assert only(sample(**shown), integrity.pictures_there) == [
        "box B1: its picture abcdef01 is not in the file",
        "panel Main: its picture abcdef01 is not in the file",
        "level Ground floor: its picture abcdef01 is not in the file",
    ]
    assert problems(sample(**shown, pictures=[{"hash": name, "media": "image/png"}])) == ()
