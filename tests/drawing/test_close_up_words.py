"""What a close-up says: how much enters, what that means, and how each cable is known; never more than is known."""

from dataclasses import replace
from typing import Any

import pytest

from floorplan_circuits.drawing.close_up import close_up
from floorplan_circuits.drawing.close_up_facts import contents_of, how_we_know
from floorplan_circuits.drawing.close_up_words import (
    CHANGED_SINCE,
    NEVER_OPENED,
    NO_ONE_FEEDS_ALL,
    ONE_IS_NOT_ENOUGH,
    TIE_MAY_SLIP,
    WHATEVER_IS_OFF,
    headline,
    subtitle,
    title,
    warnings,
)
from floorplan_circuits.drawing.palette import LIGHT
from floorplan_circuits.findings import BoxFinding, Conclusion, SeenCable
from tests.drawing.close_ups import WIDE, drawn, findings_of, opened, part, piece
from tests.drawing.drawn import SAMPLE_HOMES, box, device, fed, sample, words_in

FOUND = BoxFinding(20, None, "Kitchen", "Ground floor")
SWITCH = box(20, (0, 0), device(21, fed(31, 103), kind="switch", name="hall lights"))


def told(*boxes: Any, **fields: Any) -> str:
    """The words beside the picture of the first box."""
    shown = close_up(findings_of(*boxes, **fields), boxes[0].id, WIDE, LIGHT)
    return " ".join(words for name in ("summary", "table") for words in words_in(piece(shown, name)))


# --- how much enters ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("breakers", "others", "unknown", "says"),
    [
        ((1, 2), (), 1, "Two circuits and one unknown enter."),
        ((1,), (), 0, "One circuit enters."),
        ((), (), 1, "One unknown enters."),
        ((), (), 2, "Two unknowns enter."),
        ((1,), ("elsewhere: the house service",), 0, "One circuit and one other supply enter."),
        ((1,), ("elsewhere", "source: Solar"), 3, "One circuit, two other supplies and three unknowns enter."),
        ((), (), 0, "No circuit of the mains is recorded here."),
    ],
)
def test_the_headline_counts_what_enters(
    breakers: tuple[int, ...], others: tuple[str, ...], unknown: int, says: str
) -> None:
    assert headline(replace(FOUND, breakers=breakers, others=others, unknown=unknown)) == says


def test_of_a_box_that_is_only_planned_nothing_is_claimed() -> None:
    planned = box(20, (0, 0), device(21, fed(31, 103), planned=True))
    assert "Nothing is built here yet." in told(planned)


# --- what it means --------------------------------------------------------------------------------------------------


def said(standings: tuple[str, ...] = ("proved",), **fields: Any) -> tuple[str, ...]:
    contents = contents_of(findings_of(SWITCH), SWITCH)
    return warnings(replace(contents, found=replace(FOUND, **fields)), standings)


def test_one_breaker_is_not_enough_for_a_shared_box_tied_or_not() -> None:
    assert said(shared=True, opened=True) == (ONE_IS_NOT_ENOUGH,)
    assert said(shared=True, tied=True, opened=True) == (ONE_IS_NOT_ENOUGH, TIE_MAY_SLIP)
    assert said(opened=True) == ()


def test_where_tests_leave_no_one_breaker_for_all_it_counts_as_live() -> None:
    assert said(shared=True, apart=True, opened=True) == (ONE_IS_NOT_ENOUGH, NO_ONE_FEEDS_ALL, WHATEVER_IS_OFF)


@pytest.mark.parametrize("standing", ["contradicted", "expired"])
def test_what_is_in_doubt_counts_as_live(standing: str) -> None:
    assert said(("proved", standing), opened=True) == (WHATEVER_IS_OFF,)


def test_an_unknown_or_another_supply_counts_as_live() -> None:
    assert said(unknown=1, opened=True) == said(others=("elsewhere",), opened=True) == (WHATEVER_IS_OFF,)


def test_what_nobody_looked_into_may_hold_more() -> None:
    assert said() == (NEVER_OPENED,)
    assert said(seen=(SeenCable("top", 31),)) == (CHANGED_SINCE,)


@pytest.mark.parametrize("name", SAMPLE_HOMES)
def test_no_close_up_says_that_anything_is_safe_or_dead_for_sure(name: str) -> None:
    findings = sample(name)
    for one in findings.home.boxes:
        words = " ".join(words_in(close_up(findings, one.id, WIDE, LIGHT).ink)).lower()
        assert "safe" not in words
        assert "illegal" not in words
        assert " is dead" not in words


# --- the head -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("fields", "says"),
    [
        ({}, "One gang, plate off."),
        ({"gangs": 3}, "Three gangs, plate off."),
        ({"mount": "ceiling"}, "One gang, in the ceiling, plate off."),
        ({"reach": "behind the piano"}, "One gang, plate off. Behind the piano."),
        ({"mount": "loose cable end"}, "A cable end without a box."),
    ],
)
def test_the_head_says_what_kind_of_box_it_is_and_how_it_is_reached(fields: dict[str, Any], says: str) -> None:
    one = SWITCH.changed(**fields)
    assert subtitle(contents_of(findings_of(one), one)) == says


def test_a_hidden_box_of_cables_alone_is_a_junction_box() -> None:
    one = box(20, (0, 0), device(21, kind="junction box"), passing=(fed(31, 103),), mount="hidden")
    assert subtitle(contents_of(findings_of(one), one)) == "Hidden junction box, cover off."


def test_the_head_says_when_it_was_opened_and_whether_it_changed_since() -> None:
    change = {"kind": "change", "what": "rewired", "boxes": [20]}
    for log, says in (
        ([opened(20, ("top", 31))], "Opened and recorded 2 March 2026."),
        ([opened(20, ("top", 31), date="")], "Opened and recorded."),
        ([opened(20, ("top", 31)), change], "Opened 2 March 2026, changed since."),
    ):
        words = subtitle(contents_of(findings_of(SWITCH, log=log), SWITCH))
        assert words.replace("\N{NO-BREAK SPACE}", " ").endswith(says)


def test_the_title_is_the_room_or_says_that_there_is_none() -> None:
    outside, nowhere = SWITCH.changed(at=(90_000, 0)), box(20, None, *SWITCH.devices, level=None)
    titles = [title(contents_of(findings_of(one), one)) for one in (SWITCH, outside, nowhere)]
    assert titles == ["Kitchen", "Ground floor, in no room", "Not placed yet"]


# --- the table ------------------------------------------------------------------------------------------------------


def test_a_row_says_what_it_is_how_we_know_and_where_it_enters() -> None:
    words = told(SWITCH, log=[opened(20, ("left", 31))])
    assert "Hall lights, switch" in words
    assert "A label says. Enters at the left." in words


def test_how_we_know_gives_the_day_and_keeps_it_in_one_line() -> None:
    assert how_we_know(Conclusion(1, 2, 3, "proved", says="tested", date="2026-03-14")) == (
        "Tested (14\N{NO-BREAK SPACE}March\N{NO-BREAK SPACE}2026)",
    )
    assert how_we_know(Conclusion(1, 2, 3, "unknown")) == ("Nobody knows",)


def test_parts_are_told_by_name_and_their_gang_is_numbered_once() -> None:
    halves = box(20, (0, 0), device(21, part(31, "upper", 103), part(32, "lower", 105)))
    words = words_in(piece(drawn(halves), "table"))
    assert "Receptacle: upper" in words
    assert "Receptacle: lower" in words
    assert words.count("1") == 1


def test_a_supply_that_is_no_breaker_is_told_in_words() -> None:
    supply = {"kind": "elsewhere", "where": "the house service"}
    feed = fed(31).changed(on={"how": "any", "supplies": (supply,)}, said_by="person")
    assert "From elsewhere: the house service" in told(box(20, (0, 0), device(21, feed)))


def test_low_voltage_is_told() -> None:
    feed = fed(31, 103).changed(volts="low")
    assert "Low voltage" in told(box(20, (0, 0), device(21, feed, kind="doorbell transformer")))


def test_the_boxs_note_stands_under_the_table() -> None:
    assert "Note: The neutral is spliced at the back." in told(
        SWITCH.changed(note="The neutral is\nspliced at the back.")
    )


def test_a_screen_reader_is_told_each_row() -> None:
    shown = piece(drawn(SWITCH), "table")
    names = [mark.name for mark in shown.marks if getattr(mark, "name", "")]
    assert names == ["Gang 1: 3, Hall lights, switch. A label says."]
