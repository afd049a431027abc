import pytest

from floorplan_circuits.directory.written import written
from floorplan_circuits.find import find
from floorplan_circuits.home.boxes import Feed
from floorplan_circuits.home.building import Level, Room
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import change
from floorplan_circuits.home.table import Table
from sample_homes.write_samples import SAMPLES
from tests.directory.stand_ins import claimed, in_rooms
from tests.homes import generate
from tests.supply.wiring import on
from tests.survey.houses import FEED, A, B, a_test, house


def kitchen_and_hall(*kinds: tuple[str, int], label: str = "", wording: str = "") -> Home:
    """A kitchen and then a hall, each kind of device in the kitchen but the last; each on breaker A or B."""
    home = house({FEED + at: on(breaker) for at, (_, breaker) in enumerate(kinds)})
    rooms = [
        Room(
            id=50_000 + at,
            level=49_000,
            name=name,
            use=name.lower(),
            outline=((x, 0), (x + 4000, 0), (x + 4000, 3000), (x, 3000)),
        )
        for at, (name, x) in enumerate((("Kitchen", 0), ("Hall", 4000)))
    ]
    boxes = [
        change(
            box,
            level=49_000,
            at=(500 + 700 * at if at < len(kinds) - 1 else 6000, 100),
            devices=(change(box.devices[0], kind=kind),),
        )
        for at, (box, (kind, _)) in enumerate(zip(home.boxes, kinds, strict=True))
    ]
    breakers = home.breakers.put(change(home.breakers[A], as_found=label, wording=wording))
    levels = Table([Level(id=49_000, name="Ground floor")])
    return change(home, levels=levels, rooms=Table(rooms), boxes=Table(boxes), breakers=breakers)


RECEPTACLE, LIGHT, APPLIANCE, PLUG_240 = "duplex receptacle", "ceiling light", "fixed appliance", "240 V receptacle"
ALL_ON_A = ((RECEPTACLE, A), (RECEPTACLE, A), (LIGHT, A))


def rules(home: Home) -> dict[str, str]:
    return {verdict.rule: verdict.words for verdict in find(home).directory.lines[A].of_old}


@pytest.mark.parametrize(
    ("label", "expected"),
    [
        ("Kitchen receptacles, hall light", {}),
        ("kitchen plugs and hall lights", {}),
        ("Kitchen receptacles", {"left out": "Kitchen receptacles"}),
        ("Hall lights", {"left out": "Hall lights"}),
        ("Basement receptacles and lights", {}),
        ("Kitchen and hall receptacles", {"left out": "Kitchen and hall receptacles"}),
        ("Spare", {"spare": "Spare"}),
    ],
)
def test_a_label_is_held_against_what_hangs_on_the_breaker(label, expected) -> None:
    assert rules(kitchen_and_hall(*ALL_ON_A, label=label)) == expected


def test_a_room_and_a_kind_that_are_not_on_it_are_quoted() -> None:
    only_kitchen = ((RECEPTACLE, A), (RECEPTACLE, A), (LIGHT, B))
    assert rules(kitchen_and_hall(*only_kitchen, label="Hall receptacles"))["not on it"] == "Hall"
    assert rules(kitchen_and_hall(*only_kitchen, label="Kitchen receptacles and lights"))["not on it"] == "lights"
    assert rules(kitchen_and_hall(*only_kitchen, label="Receptacles, kitchen, wall to hall")) == {}


def test_where_another_circuit_serves_the_rest_a_line_must_say_which_part() -> None:
    halves = ((RECEPTACLE, A), (RECEPTACLE, B), (LIGHT, B))
    home = kitchen_and_hall(*halves, label="Kitchen receptacles")
    (verdict,) = find(home).directory.lines[A].of_old
    assert (verdict.rule, verdict.words) == ("which part", "receptacles")
    assert verdict.better == find(home).lines[A].variants[0]
    mark = home.boxes.rows[0].mark
    assert mark in verdict.better
    assert rules(kitchen_and_hall(*halves, label=f"Kitchen receptacle {mark}")) == {}
    assert rules(kitchen_and_hall(*halves, label="Kitchen receptacles, left wall")) == {}


def test_an_appliance_under_another_name_is_not_said_to_be_left_out_but_a_second_one_is() -> None:
    one = kitchen_and_hall((APPLIANCE, A), (RECEPTACLE, B), label="Dishwasher")
    assert rules(one) == {}
    two = kitchen_and_hall((APPLIANCE, A), (APPLIANCE, A), (RECEPTACLE, B), label="Dishwasher")
    assert "left out" in rules(two)


def test_the_receptacle_that_a_range_is_plugged_into_is_what_range_names() -> None:
    plug = kitchen_and_hall((PLUG_240, A), (RECEPTACLE, B), label="RANGE")
    assert rules(plug) == {}
    assert rules(kitchen_and_hall((PLUG_240, A), (RECEPTACLE, B), label="Range, hall")) == {"not on it": "hall"}
    assert "left out" in rules(kitchen_and_hall((PLUG_240, A), (RECEPTACLE, A), label="Range"))
    assert "left out" in rules(kitchen_and_hall((PLUG_240, A), (PLUG_240, A), label="Range"))


def test_our_own_line_of_an_unnamed_appliance_says_what_is_missing() -> None:
    home = kitchen_and_hall((APPLIANCE, A), (RECEPTACLE, B))
    (verdict,) = find(home).directory.lines[A].of_now
    assert (verdict.rule, verdict.words) == ("which appliance", "Fixed appliance")
    assert verdict.better == ""


def test_a_room_named_after_somebody_stands_on_no_line_of_ours() -> None:
    home = kitchen_and_hall(*ALL_ON_A)
    named = change(home, rooms=home.rooms.put(change(home.rooms[50_000], name="Bobbie's room", use="bedroom")))
    assert find(named).lines[A].variants[0] == "Bedroom: receptacles; Hall: light"
    unused = change(home, rooms=home.rooms.put(change(home.rooms[50_000], name="Bobbie's room", use="")))
    assert find(unused).lines[A].variants[0] == "Room: receptacles; Hall: light"


def test_namesakes_on_two_levels_are_told_by_their_level() -> None:
    home = kitchen_and_hall(*ALL_ON_A)
    upper = Room(id=50_002, level=49_001, name="Hall", outline=((0, 0), (900, 0), (900, 900)))
    levels = home.levels.put(Level(id=49_001, name="Upper floor", order=1))
    both = change(home, levels=levels, rooms=home.rooms.put(upper), next_id=home.next_id + 90_000)
    assert "Ground floor hall: light" in find(both).lines[A].variants[0]


def test_a_chart_elsewhere_names_what_is_not_recorded_and_falls_silent_when_it_is() -> None:
    home = change(kitchen_and_hall(*ALL_ON_A), system="single-phase 230")
    (verdict,) = [one for one in find(home).directory.lines[A].of_now if one.rule == "chart"]
    assert "Serves 2 receptacles, 1 ceiling light." in verdict.says
    assert "514.9.1" in verdict.source
    breaker = home.breakers[A].changed(
        amps=32, conductor={"size": "2.5 mm²", "metal": "copper"}, protects=("residual current",)
    )
    full = change(home, breakers=home.breakers.put(breaker))
    assert not [one for one in find(full).directory.lines[A].of_now if one.rule == "chart"]
    assert (
        "514.8.1"
        in find(change(home, breakers=home.breakers.put(change(breaker, as_found="plugs"))))
        .directory.lines[A]
        .of_old[0]
        .source
    )


def test_what_is_tested_and_empty_is_a_spare_without_a_word_against_it() -> None:
    home = house({FEED: on(B)}, *a_test(B))
    spare = change(home, breakers=home.breakers.put(change(home.breakers[A], as_found="spare")))
    judged = find(spare).directory.lines[A]
    assert (judged.now, judged.of_old, judged.of_now) == ("Spare", (), ())


# --- our lines before our judge -------------------------------------------------------------------------------------

ADVICE = {"use of today", "chart"}


def as_householders(home: Home, said: dict[int, str]) -> Home:
    """The same home in which the householder wrote what the program says."""
    rows = [change(one, wording=said.get(one.id, "") or one.wording) for one in home.breakers]
    return change(home, breakers=Table(rows))


@pytest.mark.parametrize("name", sorted(SAMPLES))
def test_our_lines_of_the_samples_pass_every_rule_as_if_somebody_else_had_written_them(name) -> None:
    home = SAMPLES[name]()
    found = find(home)
    ours = {number: line.variants[0] for number, line in found.lines.items() if not (line.own or line.idle)}
    ours = {number: words for number, words in ours.items() if len(words) <= 120}
    judged = find(as_householders(home, ours)).directory.lines
    assert len(ours) > 4
    assert [
        (verdict.rule, judged[n].now) for n in ours for verdict in judged[n].of_now if verdict.rule not in ADVICE
    ] == []


def test_our_lines_of_random_homes_pass_too() -> None:
    judged_lines = 0
    for seed in range(15):
        home = generate(seed, 20, 2).home
        known, boxes = claimed(home), in_rooms(home)
        lines = written(home, known, boxes).lines
        ours = {n: line.variants[0] for n, line in lines.items() if not line.idle and len(line.variants[0]) <= 120}
        judged = written(as_householders(home, ours), known, boxes).judged.lines
        for number in ours:
            judged_lines += 1
            rules = {verdict.rule for verdict in judged[number].of_now} - ADVICE - {"which appliance"}
            assert not rules, (seed, judged[number])
    assert judged_lines > 60


def test_a_part_of_a_device_is_judged_with_its_own_feed() -> None:
    home = kitchen_and_hall(("exhaust fan", A), (RECEPTACLE, B), label="Kitchen fan")
    (box, *_) = home.boxes
    parts = tuple(Feed(id=70_000 + at, part=part, on=on(A)) for at, part in enumerate(("light", "fan")))
    fan = change(box, devices=(change(box.devices[0], feeds=parts),))
    home = change(home, boxes=home.boxes.put(fan), next_id=80_000)
    assert rules(home) == {"left out": "Kitchen fan"}
