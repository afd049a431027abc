from collections import Counter
from random import Random

from hypothesis import given, settings

from floorplan_circuits.directory.telling_apart import told_apart
from floorplan_circuits.directory.vocabulary import folded
from floorplan_circuits.directory.wording import lines
from floorplan_circuits.find import find
from floorplan_circuits.findings import Line
from floorplan_circuits.home.home import Home
from tests.directory.stand_ins import claimed, in_rooms, rewired
from tests.homes import generate, homes


def alike(home: Home, found: dict[int, Line]) -> list[str]:
    """Return what two lines of one panel could both say, whichever variant of each is drawn."""
    for_panel: dict[int, list[set[str]]] = {}
    for breaker in home.breakers:
        line = found[breaker.id]
        if not line.idle and not line.own:
            for_panel.setdefault(breaker.panel, []).append({folded(words) for words in line.variants})
    for breaker in home.breakers:
        if found[breaker.id].own and breaker.panel in for_panel:
            for_panel[breaker.panel].append({f"own {folded(breaker.wording)} {breaker.id}"})
            for ours in for_panel[breaker.panel]:
                assert folded(breaker.wording) not in ours
    return [
        words
        for each in for_panel.values()
        for words, times in Counter(one for line in each for one in line).items()
        if times > 1
    ]


def test_a_thousand_random_homes_have_no_two_lines_alike() -> None:
    said = 0
    for seed in range(100):
        home = generate(seed, 4 + seed % 25, 1 + seed % 2).home
        boxes, rng = in_rooms(home), Random(seed)
        for wiring in range(10):
            found = lines(home, rewired(home, rng) if wiring else claimed(home), boxes)
            said += sum(not line.idle for line in found.values())
            assert alike(home, found) == [], (seed, wiring)
    assert said > 3000


@settings(max_examples=20, deadline=None)
@given(homes())
def test_so_have_wild_homes_with_householders_own_words(home) -> None:
    assert alike(home, dict(find(home).lines)) == []


def test_a_shared_variant_gets_the_first_detail_that_tells_it_apart() -> None:
    same = {1: Line(1, ("Kitchen: receptacles", "Kitchen")), 2: Line(2, ("Kitchen: receptacles", "Kitchen"))}
    details = {1: ("B3", "breaker 1"), 2: ("B3", "breaker 5")}
    told = told_apart(same, details.__getitem__, [])
    assert told[1].variants == ("Kitchen: receptacles (breaker 1)", "Kitchen (breaker 1)")
    assert told[2].variants == ("Kitchen: receptacles (breaker 5)", "Kitchen (breaker 5)")


def test_only_what_is_shared_is_changed_and_never_made_longer_than_a_fuller_one() -> None:
    both = {1: Line(1, ("Kitchen: receptacles, light", "Kitchen")), 2: Line(2, ("Kitchen: hood", "Kitchen"))}
    told = told_apart(both, {1: ("B3, B4",), 2: ("B7, B8",)}.__getitem__, [])
    assert told[1].variants == ("Kitchen: receptacles, light", "Kitchen (B3, B4)")
    assert told[2].variants == ("Kitchen: hood",)


def test_householders_words_stay_theirs_and_ours_give_way() -> None:
    told = told_apart({1: Line(1, ("Kitchen: hood",))}, {1: ("B3",)}.__getitem__, ["kitchen - HOOD."])
    assert told[1].variants == ("Kitchen: hood (B3)",)


def test_two_spares_may_be_alike() -> None:
    spare = {1: Line(1, ("Spare",), idle=True), 2: Line(2, ("Spare",), idle=True)}
    assert told_apart(spare, {}.__getitem__, []) == spare
