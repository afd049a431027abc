"""The sheet of a shut-off, measured from the PDF: all is said, can be ticked and read, and is never too strong."""

import re
from dataclasses import replace
from itertools import combinations
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from floorplan_circuits.drawing.ink import Group, Pen, Shape, Text, flat, path_bounds
from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.drawing.panel_face import RING
from floorplan_circuits.drawing.sheet import Page
from floorplan_circuits.find import find, shut_off
from floorplan_circuits.findings import Findings, ShutOff, Step
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Panel
from floorplan_circuits.home.table import Table
from floorplan_circuits.sheets.paper import PAPERS
from floorplan_circuits.sheets.plan_around import LEAST_SCALE
from floorplan_circuits.sheets.shutoff_sheet import PRACTICE, shutoff_sheet
from floorplan_circuits.sheets.shutoff_steps import TICK, TICK_PEN
from floorplan_circuits.shutoff.steps import steps
from floorplan_circuits.surfaces.pdf import pdf_of
from tests.drawing.drawn import MADE, bounds_of, box, breaker, device, fed, home
from tests.homes import generate, homes
from tests.sheets.shut_offs import (
    CASES,
    CHOSEN,
    POINTS_A_MM,
    READ_BACK,
    pages,
    planned,
    printed,
    sheet_of,
    text_in_columns,
    text_of,
)

Case = tuple[str, tuple[str, ...], str]
ONE_PAGE = (
    ("house", "B14"),
    ("house", "B61"),
    ("house", "B132"),
    ("house", "B156"),
    ("cottage", "B3"),
    ("cottage", "B1"),
    ("flat", "B1"),
)
"""A yoke with a shared neutral on 40 spaces, a switch box at a subpanel in a large room, a junction box for which the
whole house goes dark, 240 V on two breakers, a furnace, two switches on two circuits."""
LEAST_POINTS = 6.75
"""LOOK: captions are 6.8 points at least; a hair of slack for rounding."""


# --- what is said ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("name", "marks", "paper"), READ_BACK)
def test_every_box_is_said_to_be_what_it_is_and_no_better(name: str, marks: tuple[str, ...], paper: str) -> None:
    findings, plan, _ = planned(name, marks)
    first = " ".join(pages(name, marks, paper)[0]["text"].split())
    for one in plan.states:
        assert f"{findings.home.boxes[one.box].mark}: {one.says}" in first
    assert first.count("should be dead") == sum(one.state == "should be dead" for one in plan.states)


@pytest.mark.parametrize(("name", "marks", "paper"), READ_BACK)
def test_every_handle_is_named_in_the_steps_and_ringed_on_the_panel(
    name: str, marks: tuple[str, ...], paper: str
) -> None:
    findings, plan, _ = planned(name, marks)
    said = text_of(name, marks, paper)
    breakers = {handle for one in plan.off for handle in one.handles if handle in findings.home.breakers}
    for handle in breakers:
        assert findings.marks[handle] in said
    ink = [mark for page in sheet_of(name, marks, paper).pages for mark in flat(page.ink)]
    rings = [mark for mark in ink if isinstance(mark, Shape) and mark.pen and mark.pen.width == RING]
    offs = [mark for mark in ink if isinstance(mark, Text) and mark.words == "off" and mark.bold]
    assert len(rings) == len(breakers)
    assert len(offs) >= len(breakers)


@pytest.mark.parametrize(("name", "marks", "paper"), READ_BACK)
def test_every_step_every_pair_and_every_movement_back_has_its_box_of_5_mm(
    name: str, marks: tuple[str, ...], paper: str
) -> None:
    _, plan, found = planned(name, marks)
    sides = 5 * POINTS_A_MM
    drawn = [
        rect
        for page in pages(name, marks, paper)
        for rect in page["rects"]
        if rect["width"] == pytest.approx(sides, abs=0.05) and rect["height"] == pytest.approx(sides, abs=0.05)
    ]
    ticked = sum(step.is_ticked for step in found)
    pairs = sum(len(row.pairs) for step in found for row in step.to_test)
    back = sum(len(step.handles) for step in found if step.kind == "on")
    signs = sum(one.state == "should be dead" for one in plan.states)
    assert len(drawn) == ticked + pairs + back + signs


@pytest.mark.parametrize(("name", "marks", "paper"), READ_BACK)
def test_everything_the_steps_and_lists_say_is_on_the_pages(name: str, marks: tuple[str, ...], paper: str) -> None:
    _, plan, found = planned(name, marks)
    said = "".join(text_in_columns(name, marks, paper).split())
    whole = "".join(text_of(name, marks, paper).split())
    for step in found[:-1]:
        assert "".join(step.do.split()) in said or step.kind == "found live", step.do
    for words in (*found[-1].more, *plan.stays_live, *plan.unknown, PRACTICE):
        assert "".join(words.split())[:24] in said + whole, words
    for one in plan.goes_dark:
        assert one.what.split(",")[0].split()[0] in text_of(name, marks, paper)


@pytest.mark.parametrize(("name", "marks", "paper"), READ_BACK)
def test_the_cautions_the_dates_and_the_home_are_on_every_page(name: str, marks: tuple[str, ...], paper: str) -> None:
    findings, _, _ = planned(name, marks)
    for page in pages(name, marks, paper):
        words = " ".join(page["text"].split())
        assert "Test before you touch" in words
        assert "NFPA 70E 120.5" in words
        assert "Made 14 March 2026 from evidence up to" in words
        assert findings.home.name in words


@pytest.mark.parametrize(("name", "marks", "paper"), READ_BACK)
def test_nothing_is_called_safe(name: str, marks: tuple[str, ...], paper: str) -> None:
    assert "safe" not in text_of(name, marks, paper).lower()


def test_a_bare_cable_end_is_not_to_be_touched_and_has_no_cover_to_leave_shut() -> None:
    said = text_of("cottage", ("B31",), "a4")
    assert "Don’t touch B31, Back hall" in said
    assert "Leave it shut" not in said
    assert "Don’t open" not in said


def test_a_box_that_is_not_to_be_opened_has_nothing_to_tick_and_no_step_that_opens_it() -> None:
    said = text_of("house", ("B73",), "a4")
    assert "Don’t open B73" in said
    assert "Take the cover off" not in said
    assert "In this order" not in said


# --- how it looks ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("name", "marks", "paper"), READ_BACK)
def test_pages_are_portrait_and_as_large_as_their_paper(name: str, marks: tuple[str, ...], paper: str) -> None:
    for page in pages(name, marks, paper):
        assert page["width"] == pytest.approx(PAPERS[paper].short * POINTS_A_MM, abs=0.5)
        assert page["height"] == pytest.approx(PAPERS[paper].long * POINTS_A_MM, abs=0.5)


@pytest.mark.parametrize(("name", "marks", "paper"), READ_BACK)
def test_nothing_is_printed_in_the_margin(name: str, marks: tuple[str, ...], paper: str) -> None:
    margin = 8.5 * POINTS_A_MM
    within_margins(sheet_of(name, marks, paper).pages)
    for page in pages(name, marks, paper):
        large = [rect for rect in page["rects"] if rect["width"] > 3]  # a hatch's dots are cut by its area
        for mark in (*large, *page["chars"]):
            assert mark["x0"] >= margin
            assert mark["x1"] <= page["width"] - margin
        for letter in page["chars"]:
            assert letter["top"] >= margin - 6  # the em box of a title reaches above its letters
            assert letter["bottom"] <= page["height"] - margin + 6


@pytest.mark.parametrize("at", [(4.0, 40.0), (205.0, 40.0), (40.0, 5.0), (40.0, 275.0)])
def test_a_mark_in_the_margin_would_be_found(at: tuple[float, float]) -> None:
    (first, *_) = sheet_of("cottage", ("B3",)).pages
    within_margins((first,))
    astray = Text(at, "astray", 8.0, False, PAPER.ink)
    with pytest.raises(AssertionError, match="astray"):
        within_margins((replace(first, ink=Group((first.ink, astray))),))


@pytest.mark.parametrize(("name", "marks", "paper"), READ_BACK)
def test_letters_are_never_smaller_than_can_be_read(name: str, marks: tuple[str, ...], paper: str) -> None:
    for page in pages(name, marks, paper):
        for word in page["words"]:
            # letters in a symbol and the count in a triangle are part of a drawing, a gang's number too
            assert word["size"] >= (3.9 if len(word["text"]) <= 3 else LEAST_POINTS), word["text"]


@pytest.mark.parametrize(("name", "marks", "paper"), CASES)
def test_no_word_stands_on_another(name: str, marks: tuple[str, ...], paper: str) -> None:
    for page in sheet_of(name, marks, paper).pages:
        texts = [mark for mark in flat(page.ink) if isinstance(mark, Text) and mark.words.strip()]
        boxes = [(text.words, bounds_of(text)) for text in texts]
        assert [(a, b) for (a, one), (b, other) in combinations(boxes, 2) if _overlap(one, other)] == []


@pytest.mark.parametrize(("name", "marks", "paper"), READ_BACK)
def test_no_letter_of_the_pdf_stands_on_another(name: str, marks: tuple[str, ...], paper: str) -> None:
    for page in pages(name, marks, paper):
        rows = sorted((_core(letter) for letter in page["chars"] if letter["text"].strip()), key=lambda one: one[0])
        for at, one in enumerate(rows):
            for other in rows[at + 1 :]:
                if other[0] >= one[2] - 0.1:
                    break
                assert not _overlap(one, other), (one, other)


def _core(letter: dict[str, Any]) -> tuple[float, float, float, float]:
    """The box of a letter from its baseline up to nine tenths of its capitals, which are 0.67 of its size high."""
    up = letter["matrix"][5]  # the baseline, counted from the foot of the page
    return letter["x0"] + 0.15, -up - 0.6 * letter["size"], letter["x1"] - 0.15, -up


def _overlap(a: tuple[float, ...], b: tuple[float, ...]) -> bool:
    slack = 0.05
    return a[0] + slack < b[2] and b[0] + slack < a[2] and a[1] + slack < b[3] and b[1] + slack < a[3]


@pytest.mark.parametrize(("name", "marks", "paper"), READ_BACK[::3])
def test_grey_paper_loses_no_word_and_gets_no_colour(name: str, marks: tuple[str, ...], paper: str) -> None:
    assert text_of(name, marks, paper) == text_of(name, marks, paper, grey=True)
    drawn = [mark for page in pages(name, marks, paper, grey=True) for mark in page["marks"]]
    used = {mark[key] for mark in drawn for key in ("non_stroking_color", "stroking_color")}
    colours = [colour for colour in used if colour and len(colour) == 3]
    assert len(colours) > 3
    assert all(max(colour) - min(colour) < 0.004 for colour in colours)


def test_on_colour_paper_red_goes_only_with_the_word_live() -> None:
    for name, marks, paper in CASES:
        for page in sheet_of(name, marks, paper).pages:
            reds = [mark for mark in flat(page.ink) if isinstance(mark, Text) and mark.colour == PAPER.stop]
            if reds:
                assert "live" in " ".join(mark.words for mark in reds)


@pytest.mark.parametrize(("name", "marks", "paper"), READ_BACK[::3])
def test_equal_input_gives_equal_bytes(name: str, marks: tuple[str, ...], paper: str) -> None:
    again = shutoff_sheet(*planned(name, marks), PAPERS[paper], MADE)
    assert pdf_of(again) == printed(name, marks, paper)


@pytest.mark.parametrize(("name", "marks"), CHOSEN)
def test_it_takes_a_page_one_for_what_goes_on_and_no_more_than_one_a_box(name: str, marks: tuple[str, ...]) -> None:
    found = len(sheet_of(name, marks).pages)
    assert found <= 2 + len(marks)
    assert sheet_of(name, marks).pages[0].name.startswith(f"Shut-off: {marks[0]}")


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize(("name", "mark"), ONE_PAGE)
def test_one_box_is_one_page_with_its_picture_and_what_goes_dark(name: str, mark: str, paper: str) -> None:
    sheet = sheet_of(name, (mark,), paper)
    assert len(sheet.pages) == 1
    said = inked(sheet.pages[0])
    assert f"Inside {mark}" in said
    assert "Goes dark" in said
    assert sheet.shortened == sheet.not_placed == ()
    assert scale_told(said) <= LEAST_SCALE


def inked(page: Page) -> str:
    return " ".join(" ".join(mark.words for mark in flat(page.ink) if isinstance(mark, Text)).split())


def scale_told(said: str) -> float:
    found = re.search(r"1:(\d+)", said)
    assert found is not None
    return float(found[1])


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_where_three_gangs_find_no_room_all_but_their_picture_is_on_the_first_page(paper: str) -> None:
    _, plan, found = planned("house", ("B42",))
    first, second = map(inked, sheet_of("house", ("B42",), paper).pages)
    said = "".join(first.split())
    for step in found[:-1]:
        assert "".join(step.do.split())[:24] in said or step.kind == "found live", step.do
    assert "Goesdark" in said
    assert all("".join(one.room.split()) in said for one in plan.goes_dark)
    assert scale_told(first) <= LEAST_SCALE
    assert "Two circuits enter" in second


def many_gangs(gangs: int, circuits: int) -> tuple[Findings, ShutOff, tuple[Step, ...]]:
    """A box of as many switches, and cables of further circuits that pass, on a panel of 40 spaces."""
    devices = [device(1000 + at, fed(2000 + at, 100 + at), slot=at + 1, kind="switch") for at in range(gangs)]
    passing = [fed(3000 + at, 100 + at) for at in range(gangs, circuits)]
    own = tuple(breaker(100 + at, at + 1) for at in range(40))
    panels = Table([Panel(id=5, name="Main panel", spaces=40, level=1, at=(0, 2000))])
    findings = find(
        home((box(20, (500, 500), *devices, gangs=gangs, passing=tuple(passing)),), breakers=own, panels=panels)
    )
    plan = shut_off(findings, (20,))
    return findings, plan, steps(plan, findings)


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_of_eight_gangs_and_twelve_circuits_nothing_is_lost_or_leaves_its_page(paper: str) -> None:
    findings, plan, found = many_gangs(8, 12)
    sheet = shutoff_sheet(findings, plan, found, PAPERS[paper], MADE)
    within_margins(sheet.pages)
    said = "".join(mark.words for page in sheet.pages for mark in flat(page.ink) if isinstance(mark, Text))
    said = "".join(said.split())
    assert len(plan.handles) == 12
    for step in found[:-1]:
        assert "".join(step.do.split()) in said or step.kind == "found live", step.do
        for row in step.to_test:
            assert "".join(row.what.split()) in said, row.what
    ticks = [mark for page in sheet.pages for mark in flat(page.ink) if isinstance(mark, Shape) and is_tick(mark)]
    pairs = sum(len(row.pairs) for step in found for row in step.to_test)
    assert len(ticks) == sum(step.is_ticked for step in found) + pairs + len(plan.handles)
    first = " ".join(mark.words for mark in flat(sheet.pages[0].ink) if isinstance(mark, Text))
    for needed in ("treat as live", "Turn off", "Stop, and call", "Where", "page 1 of"):
        assert needed in first


def is_tick(mark: Shape) -> bool:
    left, top, right, bottom = path_bounds(mark.path)
    return abs(right - left - TICK) < 0.01 and abs(bottom - top - TICK) < 0.01 and mark.pen == Pen(TICK_PEN, PAPER.ink)


# --- any home -------------------------------------------------------------------------------------------------------


def within_margins(sheet_pages: tuple[object, ...]) -> None:
    for page in sheet_pages:
        for mark in flat(page.ink):  # type: ignore[attr-defined]
            if isinstance(mark, Text | Shape):
                left, top, right, bottom = bounds_of(mark) if isinstance(mark, Text) else path_bounds(mark.path)
                assert min(left, top) >= 8.5, mark
                assert right <= page.width - 8.5, mark  # type: ignore[attr-defined]
                assert bottom <= page.height - 8.5, mark  # type: ignore[attr-defined]


@settings(max_examples=15, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(homes(), st.data())
def test_any_boxes_of_any_home_print_within_the_margins(any_home: Home, data: st.DataObject) -> None:
    findings = find(any_home)
    if not findings.boxes:
        return
    boxes = data.draw(st.lists(st.sampled_from(sorted(findings.boxes)), min_size=1, max_size=4, unique=True))
    paper = PAPERS[data.draw(st.sampled_from(["letter", "legal", "a4"]))]
    plan = shut_off(findings, tuple(boxes))
    sheet = shutoff_sheet(findings, plan, steps(plan, findings), paper, MADE)
    within_margins(sheet.pages)
    said = "".join(mark.words for page in sheet.pages for mark in flat(page.ink) if isinstance(mark, Text))
    for one in plan.states:
        assert "".join(one.says.split()) in "".join(said.split())


def test_a_whole_level_of_a_large_home_prints_within_the_margins() -> None:
    findings = find(generate(7, 60).home)
    boxes = [box.id for box in findings.home.boxes if box.id in findings.boxes][:10]
    plan = shut_off(findings, boxes)
    sheet = shutoff_sheet(findings, plan, steps(plan, findings), PAPERS["a4"], MADE)
    within_margins(sheet.pages)
    said = [mark.words for page in sheet.pages for mark in flat(page.ink) if isinstance(mark, Text)]
    for one in plan.states:
        assert f"{findings.home.boxes[one.box].mark}: {one.says}" in said
