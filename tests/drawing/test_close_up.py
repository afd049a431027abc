"""The close-up of a box: gangs in their order, a plate for each feed, nothing over anything, nothing outside."""

from io import BytesIO
from itertools import combinations

import pdfplumber
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from floorplan_circuits.drawing.close_up import BESIDE_FROM, LEAST_WIDTH, CloseUp, close_up
from floorplan_circuits.drawing.ink import Hatch, Shape, Stamp, flat
from floorplan_circuits.drawing.palette import DARK, GREY, LIGHT, PAPER, Theme, tint
from floorplan_circuits.drawing.sheet import Page, Sheet
from floorplan_circuits.find import find
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.boxes import Box, Feed
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.kinds import catalogue
from floorplan_circuits.surfaces.collect import CollectingSurface
from floorplan_circuits.surfaces.pdf import pdf_of
from tests.drawing.close_ups import (
    WIDE,
    drawn,
    findings_of,
    groups,
    opened,
    part,
    piece,
    plates_in_picture,
    subjects,
    texts,
)
from tests.drawing.drawn import bounds_of, box, device, fed, overlap, sample, words_in
from tests.homes import homes

LEAST_LETTERS = 6.8
"""Points: LOOK's least on paper."""
THREE = box(
    20,
    (0, 0),
    device(21, fed(31, 103), kind="switch", slot=1),
    device(22, fed(32, 105), kind="three-way switch", slot=2),
    device(23, fed(33), kind="switch", slot=3),
    gangs=3,
    passing=(fed(34, 105, said_by="person"),),
)


def gang_row(count: int) -> Box:
    """A box of many gangs, of all sorts that stand in a row."""
    kinds = ("switch", "duplex receptacle", "dimmer", "ground-fault receptacle", "fan control")
    devices = (
        device(100 + at, fed(200 + at, 101 + at % 12), slot=at, kind=kinds[at % 5]) for at in range(1, count + 1)
    )
    return box(20, (0, 0), *devices, gangs=count)


# --- order and plates -----------------------------------------------------------------------------------------------


def test_gangs_stand_in_the_order_of_their_slots_whatever_order_they_are_written_in() -> None:
    shuffled = THREE.changed(devices=(THREE.devices[2], THREE.devices[0], THREE.devices[1]))
    for one in (THREE, shuffled):
        shown = piece(drawn(one), "picture")
        lefts = {
            number: bounds_of(group)[0]
            for number in (31, 32, 33)
            for group in groups(shown, "feed")
            if group.subject is not None and group.subject.id == number
        }
        assert lefts[31] < lefts[32] < lefts[33]


def test_an_empty_place_stays_empty_and_keeps_its_place() -> None:
    gap = box(20, (0, 0), device(21, fed(31, 103), slot=1), device(22, fed(32, 105), slot=3), gangs=3)
    shown = texts(piece(drawn(gap), "picture"))
    places = {text.words: text.at[0] for text in shown if text.words in ("1", "2", "3") and text.size < 8}
    assert places["1"] < places["2"] < places["3"]
    assert any(text.words in ("empty", "nothing here") for text in shown)


def test_every_feed_has_one_plate_in_the_picture_and_one_in_the_table() -> None:
    one = drawn(THREE)
    shown = [group.subject.id for group in groups(piece(one, "picture"), "feed") if group.subject]
    assert sorted(shown) == [31, 32, 33, 34]
    assert sorted(subjects(piece(one, "table"), "feed")) == [31, 32, 33, 34]


def test_a_cable_tells_its_circuit_too() -> None:
    cables = [words_in(group) for group in groups(piece(drawn(THREE), "picture"), "cable")]
    assert cables == [["3"], ["5"], ["?"]]


def test_feeds_of_one_circuit_that_are_known_alike_share_a_cable_and_others_do_not() -> None:
    alike = device(21, part(31, "upper", 103), part(32, "lower", 103))
    apart = device(21, part(31, "upper", 103), part(32, "lower", 105))
    unknown = device(21, part(31, "upper"), part(32, "lower"))
    for held, count in ((alike, 1), (apart, 2), (unknown, 2)):
        assert len([*groups(piece(drawn(box(20, (0, 0), held)), "picture"), "cable")]) == count


def test_the_upper_half_stands_over_the_lower_whatever_order_they_are_written_in() -> None:
    upper, lower = part(31, "upper", 103), part(32, "lower", 105)
    for feeds in ((upper, lower), (lower, upper)):
        shown = piece(drawn(box(20, (0, 0), device(21, *feeds))), "picture")
        tops = {group.subject.id: bounds_of(group)[1] for group in groups(shown, "feed") if group.subject}
        assert tops[31] < tops[32]


def test_what_passes_says_so_at_its_foot_and_where_it_goes() -> None:
    one = THREE.changed(passing=(THREE.passing[0].changed(note="to the pantry"),))
    assert "passes through: to the pantry" in words_in(piece(drawn(one), "picture"))
    assert any("To the pantry" in words for words in words_in(piece(drawn(one), "table")))


def test_what_nobody_recorded_is_drawn_as_unknown() -> None:
    for one in (box(20, (0, 0)), box(20, (0, 0), device(21, kind="switch"))):
        shown = piece(drawn(one), "picture")
        assert "?" in words_in(shown)
        assert any(isinstance(mark, Hatch) and mark.dots for mark in flat(shown))


def test_what_is_only_planned_is_not_there() -> None:
    one = box(20, (0, 0), device(21, fed(31, 103), planned=True), device(22, fed(32, 105), slot=2), gangs=2)
    assert subjects(drawn(one).ink, "feed").count(31) == 0
    assert "3" not in words_in(piece(drawn(one), "table"))


# --- what was seen --------------------------------------------------------------------------------------------------


def test_a_cable_that_was_seen_and_that_nobody_knows_is_drawn_dotted_with_a_question_mark() -> None:
    known = box(20, (0, 0), device(21, fed(31, 103), kind="switch"))
    before = piece(drawn(known), "picture")
    after = piece(drawn(known, log=[opened(20, ("top", 31), ("left", None))]), "picture")
    assert "?" not in words_in(before)
    assert words_in(after).count("?") == 1
    assert any(isinstance(mark, Hatch) and mark.dots for mark in flat(after))


def test_a_cable_stands_below_the_box_where_it_was_seen_to_enter_at_the_bottom() -> None:
    known = box(20, (0, 0), device(21, fed(31, 103), kind="switch"))

    def cable_top(enters: str) -> tuple[float, float]:
        shown = piece(drawn(known, log=[opened(20, (enters, 31))]), "picture")
        (cable,), (feed,) = groups(shown, "cable"), groups(shown, "feed")
        return bounds_of(cable)[1], bounds_of(feed)[1]

    for enters in ("bottom", "at the Bottom left"):
        cable, face = cable_top(enters)
        assert cable > face
    cable, face = cable_top("back")
    assert cable < face


def test_a_feed_that_comes_in_and_goes_on_is_drawn_once_from_above_and_told_to_enter_twice() -> None:
    known = box(20, (0, 0), device(21, fed(31, 103)))
    shown = drawn(known, log=[opened(20, ("bottom", 31), ("top", 31), ("bottom", 31))])
    (cable,), (face,) = (groups(piece(shown, "picture"), name) for name in ("cable", "feed"))
    assert bounds_of(cable)[3] < bounds_of(face)[1]
    assert any("Enters at the bottom and top." in words for words in words_in(piece(shown, "table")))


def test_a_cable_of_another_boxs_feed_tells_its_circuit_and_that_box() -> None:
    here, there = box(20, (0, 0), device(21, fed(31, 103))), box(40, (900, 0), device(41, fed(42, 107)))
    findings = findings_of(here, there, log=[opened(20, ("top", 31), ("top", 42))])
    shown = close_up(findings, 20, WIDE, LIGHT)
    assert "7" in words_in(piece(shown, "picture"))
    assert any("B40" in words for words in words_in(piece(shown, "table")))


# --- colours --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("theme", [LIGHT, DARK, PAPER, GREY], ids=lambda theme: theme.name)
def test_a_cable_has_the_tint_its_circuit_has_on_the_plan(theme: Theme) -> None:
    findings = sample("cottage")
    found = next(box for box in findings.home.boxes if box.mark == "B1")
    fills = {mark.fill for mark in flat(close_up(findings, found.id, WIDE, theme).ink) if isinstance(mark, Shape)}
    breakers = findings.boxes[found.id].breakers
    assert len(breakers) == 2
    assert {tint(theme, findings.colours[one]) for one in breakers} <= fills


def test_only_a_shared_box_has_a_rim_in_the_colour_of_caution() -> None:
    single = box(20, (0, 0), device(21, fed(31, 103)))
    for one, shared in ((THREE, True), (single, False)):
        pens = {mark.pen.colour for mark in flat(piece(drawn(one), "picture")) if isinstance(mark, Shape) and mark.pen}
        assert (LIGHT.caution in pens) == shared


# --- room -----------------------------------------------------------------------------------------------------------


def clashes(one: CloseUp) -> list[tuple[list[str], list[str]]]:
    """Plates and words in the picture that lie over each other, and lines of words that do in head and table."""
    plates = plates_in_picture(one)
    inside = {id(text) for group in plates for text in texts(group)}
    loose = [text for text in texts(piece(one, "picture")) if id(text) not in inside]
    letters = {id(text) for text in loose if text.bold and text.size > 8}  # a switch's S and the 3 that hangs below it
    things = [*plates, *(text for text in loose if id(text) not in letters)]
    words = [text for name in ("head", "summary", "table") for text in texts(piece(one, name))]
    pairs = [*combinations(things, 2), *combinations([*words, piece(one, "picture")], 2)]
    return [(words_in(a), words_in(b)) for a, b in pairs if overlap(bounds_of(a), bounds_of(b))]


def is_inside(one: CloseUp) -> bool:
    left, top, right, bottom = bounds_of(one.ink)
    return left >= -1e-6 and top >= -1e-6 and right <= one.width + 1e-6 and bottom <= one.height + 1e-6


@pytest.mark.parametrize("count", [1, 2, 3, 5, 8, 14, 30])
@pytest.mark.parametrize("wide", [LEAST_WIDTH, 100.0, WIDE, 320.0])
def test_up_to_thirty_gangs_stand_without_overlap_and_in_letters_that_can_be_read(count: int, wide: float) -> None:
    one = drawn(gang_row(count), wide)
    assert clashes(one) == []
    assert is_inside(one)
    subscripts = {"3", "4", "D", "F"}
    assert min(text.size for text in texts(one.ink) if text.words not in subscripts or text.size > 9) >= LEAST_LETTERS


@pytest.mark.parametrize("kind", [*catalogue(), "a kind nobody listed"])
@pytest.mark.parametrize("mount", ["wall", "ceiling", "outdoor", "loose cable end"])
def test_every_kind_of_device_has_a_face_with_its_plates(kind: str, mount: str) -> None:
    parts = (catalogue()[kind].parts if kind in catalogue() else ()) or ("",)
    feeds = tuple(part(31 + nth, name, 103 + nth) for nth, name in enumerate(parts))
    one = drawn(box(20, (0, 0), device(21, *feeds, kind=kind), mount=mount))
    shown = [group.subject.id for group in groups(piece(one, "picture"), "feed") if group.subject]
    assert shown == [feed.id for feed in feeds]
    assert clashes(one) == []
    assert is_inside(one)


def test_numbers_too_long_for_a_plate_are_cut_there_and_told_in_full_in_the_table() -> None:
    loop = device(21, fed(31, *range(101, 113)), kind="switch")
    one = drawn(box(20, (0, 0), loop))
    assert any(words.endswith("…") for words in words_in(piece(one, "picture")))
    told = " ".join(words_in(piece(one, "table")))
    assert "1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11 and 12" in told
    assert clashes(one) == []


def test_words_at_a_foot_that_had_to_be_cut_are_reported() -> None:
    long = THREE.changed(passing=(THREE.passing[0].changed(note="to the far end of the garden " * 8),))
    assert drawn(long).shortened
    assert drawn(THREE).shortened == ()


@pytest.mark.parametrize("wide", [LEAST_WIDTH, BESIDE_FROM - 1, BESIDE_FROM, 300.0])
def test_the_words_stand_beside_the_picture_where_there_is_room_else_what_matters_most_over_it(wide: float) -> None:
    one = drawn(THREE, wide)
    matters, shown, told = (bounds_of(piece(one, name)) for name in ("summary", "picture", "table"))
    beside = wide >= BESIDE_FROM
    assert (min(matters[0], told[0]) >= shown[2]) == beside
    assert (matters[3] <= shown[1] and shown[3] <= told[1]) != beside
    assert matters[3] < told[1]


def test_too_narrow_a_width_is_refused() -> None:
    with pytest.raises(ValueError, match="at least 60 mm"):
        drawn(THREE, LEAST_WIDTH - 1)


@pytest.mark.parametrize("name", ["cottage", "flat", "house"])
def test_no_box_of_the_samples_is_crowded_and_each_is_reproducible(name: str) -> None:
    findings = sample(name)
    for one in findings.home.boxes:
        shown = close_up(findings, one.id, WIDE, LIGHT)
        assert clashes(shown) == [], one.mark
        assert is_inside(shown), one.mark
    assert shown == close_up(findings, one.id, WIDE, LIGHT)


@settings(max_examples=60, suppress_health_check=[HealthCheck.too_slow], deadline=None)
@given(homes(), st.floats(LEAST_WIDTH, 320.0), st.sampled_from([LIGHT, DARK, PAPER, GREY]))
def test_any_box_is_drawn_inside_its_size_with_a_plate_for_each_feed(home: Home, wide: float, theme: Theme) -> None:
    findings = find(home)
    for one in home.boxes:
        shown = close_up(findings, one.id, wide, theme)
        surface = CollectingSurface()
        surface.page(shown.width, shown.height, shown.ink)
        assert surface.pages[0].marks
        assert clashes(shown) == []
        assert is_inside(shown)
        plates = [group.subject.id for group in groups(piece(shown, "picture"), "feed") if group.subject]
        built = [feed.id for feed in one.feeds() if feed.id in findings.conclusions]
        assert [plates.count(feed) for feed in built] == [1] * len(built)
        assert not any(isinstance(mark, Stamp) and mark.radius <= 0 for mark in flat(shown.ink))


@st.composite
def crammed_boxes(draw: st.DrawFn) -> tuple[Box, list[dict[str, object]]]:
    """A box with more in it than any has, and what somebody saw there."""
    ids = iter(range(1000, 3000))
    gangs = draw(st.integers(1, 6))

    def feeds(most: int, parts: tuple[str, ...]) -> tuple[Feed, ...]:
        held = draw(st.lists(st.lists(st.integers(101, 112), max_size=4, unique=True), max_size=most))
        return tuple(part(next(ids), draw(st.sampled_from(parts)), *on) for on in held)

    parts = ("", "upper", "lower", "upper left", "a part that somebody gave a very long name of many words")
    devices = (
        device(next(ids), *feeds(12, parts), slot=slot, kind=draw(st.sampled_from([*catalogue()])))
        for slot in draw(st.lists(st.integers(1, gangs), max_size=8))
    )
    mount = draw(st.sampled_from(("wall", "ceiling", "outdoor", "hidden", "loose cable end")))
    one = box(20, (0, 0), *devices, gangs=gangs, passing=feeds(6, ("", "to the shed")), mount=mount)
    known = [feed.id for feed in one.feeds()]
    places = st.sampled_from(("top", "bottom", "behind the stud", ""))
    seen = st.tuples(places, st.one_of(st.none(), st.sampled_from(known) if known else st.none()))
    return one, [opened(20, *draw(st.lists(seen, max_size=6)))]


@settings(max_examples=40, suppress_health_check=[HealthCheck.too_slow], deadline=None)
@given(crammed_boxes(), st.floats(LEAST_WIDTH, 260.0))
def test_however_much_is_in_a_box_nothing_lies_over_anything_else(
    crammed: tuple[Box, list[dict[str, object]]], wide: float
) -> None:
    one, log = crammed
    shown = drawn(one, wide, log=log)
    assert clashes(shown) == []
    assert is_inside(shown)
    assert {feed.id for feed in one.feeds()} <= {*subjects(piece(shown, "picture"), "feed")}


# --- on paper -------------------------------------------------------------------------------------------------------


def read_back(findings: Findings, one: Box) -> list[str]:
    shown = close_up(findings, one.id, WIDE, PAPER)
    page = Page(shown.width, shown.height, shown.ink, one.mark)
    with pdfplumber.open(BytesIO(pdf_of(Sheet("close-up", (page,))))) as document:
        return [word["text"] for word in document.pages[0].extract_words(x_tolerance=1.2)]


def test_read_back_from_a_pdf_the_picture_has_every_circuits_number() -> None:
    findings = sample("house")
    shared = [one for one in findings.home.boxes if one.id in findings.boxes and findings.boxes[one.id].shared]
    assert len(shared) > 10
    for one in shared:
        words = read_back(findings, one)
        numbers = {findings.marks[breaker] for breaker in findings.boxes[one.id].breakers}
        assert numbers <= {number for word in words for number in word.split("+")}, one.mark
        assert one.mark in words
