"""Tints of circuits that meet on the plan, measured apart by CIEDE2000 as four sorts of eyes see them.

CIEDE2000: G. Sharma, W. Wu, E. N. Dalal, Color Research & Application 30 (2005). Protan and deutan: Machado and others,
IEEE TVCG 15 (2009), here by colour-science; tritan: Brettel and others, JOSA A 14 (1997), whose matrices colour-science
does not carry, so that only the difference is its own there. That 10 is well apart is our own bound: 1 is about the
least that is noticed (common practice, no source).

Circuits meet where devices of both stand in one room, where both enter one box, or where their areas share an edge.
Run over 500 homes of 40 to 160 devices: 12 741 meetings; every pair of unlike hues at least 18.6 apart for normal
sight, 10.8 protan, 10.7 deutan, 11.1 tritan; 16 pairs share a hue, each where six were taken before, and differ in
hatch.
"""

import warnings
from collections.abc import Iterator
from functools import cache
from itertools import combinations, pairwise
from random import Random
from typing import get_args

import pytest

from floorplan_circuits.drawing.colour import Sight, difference, rgb, simulated
from floorplan_circuits.drawing.palette import DARK, GREY, PAPER, Theme, hatch, hue_index, places, tint
from floorplan_circuits.files.open import open_home
from floorplan_circuits.find import find
from floorplan_circuits.findings import XY, Findings, Zone
from floorplan_circuits.geometry.colouring import HUES, PLACES, colours
from floorplan_circuits.home.boxes import Box, Device, Feed
from floorplan_circuits.home.home import Home, existing_feeds
from floorplan_circuits.home.resources import folder
from tests.homes import generate

with warnings.catch_warnings():
    warnings.simplefilter("ignore")  # it tells at import that its plotting half is not installed, which we never use
    import colour as colour_science

SAMPLES = tuple(sorted(path.stem for path in folder("sample_homes").glob("*.json")))
SEEDS = range(60)
SIGHTS: tuple[Sight, ...] = get_args(Sight)
APART = 10.0
GREYS_APART = 5.0
Pair = tuple[int, int]


@cache
def found(which: str | int) -> Findings:
    """The findings of a sample, or of the home of a seed."""
    if isinstance(which, str):
        return find(open_home(folder("sample_homes") / f"{which}.json").home)
    return find(generate(which, 40 + which * 37 % 121).home)


ALL_HOMES = [*SAMPLES, *SEEDS]


def meetings(findings: Findings) -> set[Pair]:
    """Pairs of circuits that meet, the lower id first."""
    groups: dict[object, set[int]] = {}
    for place in existing_feeds(findings.home):
        one, room = findings.conclusions[place.feed.id], findings.room_of[place.box.id]
        groups.setdefault(("box", place.box.id), set()).update(one.breakers)
        if place.device is not None and room is not None and place.box.at is not None and one.standing != "unknown":
            groups.setdefault(("room", room), set()).update(one.breakers[:1])
    for zone in findings.zones:
        for edge in _edges(zone):
            groups.setdefault(edge, set()).update(() if zone.breaker is None else (zone.breaker,))
    return {pair for group in groups.values() for pair in combinations(sorted(group), 2)}


def _edges(zone: Zone) -> Iterator[frozenset[XY]]:
    return (frozenset(edge) for ring in zone.rings for edge in zip(ring, (*ring[1:], ring[0]), strict=True))


def met_before(findings: Findings) -> Iterator[tuple[int, list[int]]]:
    """Each circuit with the colours of those it meets that were coloured before it: lower ids go first."""
    earlier: dict[int, list[int]] = {}
    for a, b in meetings(findings):
        earlier.setdefault(b, []).append(findings.colours[a])
    yield from earlier.items()


# --- what the palette has to give -----------------------------------------------------------------------------------


@pytest.mark.parametrize("sight", SIGHTS)
@pytest.mark.parametrize("theme", [PAPER, DARK], ids=["paper", "dark"])
def test_tints_of_unlike_hues_are_well_apart_for_every_sight(theme: Theme, sight: Sight) -> None:
    least = min(difference(tint(theme, a), tint(theme, b), sight) for a, b in combinations(range(HUES), 2))

    assert least >= APART


@pytest.mark.parametrize("sight", SIGHTS)
def test_colour_science_measures_the_tints_the_same(sight: Sight) -> None:
    for a, b in combinations(range(HUES), 2):
        one, two = tint(PAPER, a), tint(PAPER, b)
        independent = float(colour_science.delta_E(seen(one, sight), seen(two, sight), method="CIE 2000"))
        assert difference(one, two, sight) == pytest.approx(independent, abs=0.05)


def seen(tinted: str, sight: Sight) -> object:
    """The tint in CIELAB as that sight has it, by colour-science; tritan by our own simulation."""
    channels = rgb(tinted)
    if sight == "tritan":
        channels = simulated(channels, sight)
    elif sight != "normal":
        matrix = colour_science.matrix_cvd_Machado2009({"protan": "Protanomaly", "deutan": "Deuteranomaly"}[sight], 1.0)
        channels = colour_science.models.eotf_inverse_sRGB(matrix @ colour_science.models.eotf_sRGB(channels))
    clipped = [min(1.0, max(0.0, float(channel))) for channel in channels]
    return colour_science.XYZ_to_Lab(
        colour_science.sRGB_to_XYZ(clipped), colour_science.CCS_ILLUMINANTS["cie_2_1931"]["D65"]
    )


def test_places_of_one_hue_differ_by_their_hatch() -> None:
    for a, b in combinations(range(places()), 2):
        if hue_index(a) == hue_index(b):
            assert hatch(PAPER, a) != hatch(PAPER, b)


# --- circuits that meet ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize("which", ALL_HOMES)
def test_circuits_that_meet_differ_in_hue_while_six_suffice_and_else_in_hatch(which: str | int) -> None:
    findings = found(which)
    for one, before in met_before(findings):
        mine = findings.colours[one]
        if len({place % HUES for place in before}) < HUES:
            assert mine % HUES not in {place % HUES for place in before}
        assert mine not in before  # so at least its hatch differs


@pytest.mark.parametrize("sight", SIGHTS)
def test_the_least_difference_of_circuits_that_meet_and_differ_in_hue(sight: Sight) -> None:
    least = {"normal": 18.6, "protan": 10.8, "deutan": 10.7, "tritan": 11.1}[sight]
    measured = [
        difference(tint(PAPER, findings.colours[a]), tint(PAPER, findings.colours[b]), sight)
        for findings in map(found, ALL_HOMES)
        for a, b in meetings(findings)
        if findings.colours[a] % HUES != findings.colours[b] % HUES
    ]

    assert len(measured) > 1000
    assert min(measured) == pytest.approx(least, abs=0.1)


def test_few_pairs_of_random_homes_have_to_share_a_hue() -> None:
    """16 of 12 741 in 500 homes."""
    pairs = [
        (findings.colours[a], findings.colours[b]) for findings in map(found, SEEDS) for a, b in meetings(findings)
    ]
    alike = [pair for pair in pairs if pair[0] % HUES == pair[1] % HUES]

    assert len(alike) <= 0.005 * len(pairs)


@pytest.mark.parametrize("size", [2, 6, 7, 12, 29, PLACES])
def test_up_to_thirty_that_all_meet_look_all_different(size: int) -> None:
    rng = Random(size)
    for _ in range(20):
        order = rng.sample(range(200), size)
        given = colours(order, {pair: rng.choice((1, 2, 3)) for pair in combinations(order, 2)})
        assert len(set(given.values())) == size


# --- on grey paper ---------------------------------------------------------------------------------------------------


def lightness(tinted: str) -> float:
    """L* of a grey, by colour-science."""
    y = colour_science.sRGB_to_XYZ(rgb(tinted))[1]
    return float(colour_science.lightness(100 * y))


def test_the_greys_of_the_six_hues_are_evenly_apart() -> None:
    greys = sorted(lightness(tint(GREY, place)) for place in range(HUES))

    assert all(b - a >= GREYS_APART for a, b in pairwise(greys))


def test_areas_with_a_common_edge_differ_on_grey_paper_in_lightness_or_hatch() -> None:
    """5 of 949 edges' pairs in 60 homes don't; before, with greys 3.5 to 5 apart and hatches in their order, 161."""
    pairs = {(which, *pair) for which in ALL_HOMES for pair in along_edges(found(which))}
    alike = 0
    for which, a, b in pairs:
        one, two = found(which).colours[a], found(which).colours[b]
        near = abs(lightness(tint(GREY, one)) - lightness(tint(GREY, two))) < GREYS_APART
        alike += near and one // HUES % 5 == two // HUES % 5

    assert len(pairs) > 500
    assert alike <= 0.01 * len(pairs)


def along_edges(findings: Findings) -> set[Pair]:
    """Pairs of circuits whose areas have an edge in common, the lower id first."""
    beside: dict[frozenset[XY], set[int]] = {}
    for zone in findings.zones:
        for edge in _edges(zone) if zone.breaker is not None else ():
            beside.setdefault(edge, set()).add(zone.breaker or 0)
    return {pair for both in beside.values() for pair in combinations(sorted(both), 2)}


# --- colours that stay ----------------------------------------------------------------------------------------------


def with_twins(findings: Findings, rng: Random) -> Home:
    """The home with more devices just where devices on the same circuit are, and some that have no place yet."""
    home, boxes = findings.home, []
    circuits = sorted({breaker for one in findings.boxes.values() for breaker in one.breakers})
    alone = [box for box in home.boxes if _is_plain(box, findings)]
    for at, box in enumerate(rng.sample(alone, min(6, len(alone)))):
        boxes.append(_twin(home.next_id + 3 * at, box, box.feeds()[0].changed(id=home.next_id + 3 * at + 2)))
    start = home.next_id + 3 * len(boxes)
    for at in range(start, start + 12, 3):
        supply = {"kind": "breaker", "breaker": rng.choice(circuits)}
        feed = Feed.model_validate({"id": at + 2, "on": {"how": "any", "supplies": (supply,)}})
        boxes.append(_twin(at, Box(id=at, mark=""), feed))
    return home.changed(boxes=type(home.boxes)([*home.boxes, *boxes]), next_id=start + 12)


def _is_plain(box: Box, findings: Findings) -> bool:
    """Tell whether a box holds one device with one feed on one known circuit that feeds other devices too."""
    feeds = box.feeds()
    if len(feeds) != 1 or len(box.devices) != 1 or box.devices[0].planned or box.at is None:
        return False
    one = findings.conclusions[feeds[0].id]
    others = [other for other in findings.conclusions.values() if other.breakers == one.breakers]
    return len(one.breakers) == 1 and one.standing == "claimed" and len(others) > 3


def _twin(number: int, box: Box, feed: Feed) -> Box:
    device = Device(id=number + 1, kind=box.devices[0].kind if box.devices else "duplex receptacle", feeds=(feed,))
    return box.changed(id=number, mark=f"N{number}", devices=(device,), passing=())


@pytest.mark.parametrize("seed", SEEDS)
def test_a_device_that_makes_no_new_meeting_changes_no_colour(seed: int) -> None:
    before = found(seed)
    after = find(with_twins(before, Random(seed)))

    assert len(after.home.boxes) > len(before.home.boxes) + 4
    assert after.colours == before.colours
