"""The panel on a sheet: title, face, and the notes that must not run off the paper."""

import pytest

from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.find import find
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.power import Main, Source
from floorplan_circuits.home.table import Table
from floorplan_circuits.sheets.panel_column import (
    MOST_ROW,
    TITLE_HIGH,
    PanelOnSheet,
    panel_captions,
    panel_notes,
)
from floorplan_circuits.sheets.paper import Rect
from tests.drawing.drawn import SAMPLE_HOMES, bounds_of, box, breaker, device, home, sample, words_in


def on_sheet(findings: Findings) -> PanelOnSheet:
    return PanelOnSheet(findings, next(iter(findings.home.panels)), PAPER)


@pytest.mark.parametrize("name", SAMPLE_HOMES)
@pytest.mark.parametrize("wide", [80.0, 90.0, 108.0])
def test_title_face_and_notes_stay_in_the_column(name: str, wide: float) -> None:
    panel = on_sheet(sample(name))
    area = Rect(20, 40, wide, panel.height(wide, 10.9))
    ink, _ = panel.ink(area, 10.9, in_head=False)
    left, top, right, bottom = bounds_of(ink)
    assert left >= 20 - 0.01
    assert right <= 20 + wide + 0.01
    assert top >= 40 - TITLE_HIGH
    assert bottom <= area.bottom + 0.01


def test_many_reset_points_wrap_and_do_not_run_off_the_paper() -> None:
    boxes = tuple(
        box(20 + 2 * at, (100 * at, 0), device(21 + 2 * at, kind="ground-fault receptacle")) for at in range(20)
    )
    panel = on_sheet(find(home(boxes)))
    lines = panel.notes(90.0)
    assert sum("B" in line for line in lines) > 1
    assert bounds_of(panel.ink(Rect(0, 20, 90, 100), 8.0, in_head=False)[0])[2] <= 90.01
    assert all(f"(B{20 + 2 * at})" in " ".join(lines) for at in range(20))


def test_other_sources_and_their_disconnects_are_told() -> None:
    sources = Table(
        [
            Source(id=90, name="the utility", kind="utility"),
            Source(id=91, name="the solar roof", kind="solar", disconnect="beside the meter"),
            Source(id=92, name="the battery", kind="battery"),
        ]
    )
    findings = find(home(sources=sources))
    notes = panel_notes(findings, next(iter(findings.home.panels)))
    assert "The main does not stop the solar roof. Its disconnect: beside the meter." in notes
    assert "The main does not stop the battery. Nobody wrote down its disconnect." in notes
    assert not any("utility" in note for note in notes)


def test_what_stays_live_is_told_with_and_without_a_main() -> None:
    findings = find(home())
    panel = next(iter(findings.home.panels))
    assert panel_notes(findings, panel)[0] == "The wires that feed it stay live with every breaker off."
    with_main = panel.model_copy(update={"mains": (Main(id=60, amps=100),)})
    assert panel_notes(findings, with_main)[0] == "Wires above the main stay live with every breaker off."


def test_the_caption_says_place_main_and_system_in_ever_fewer_words() -> None:
    findings = sample("cottage")
    ways = panel_captions(findings.home, next(iter(findings.home.panels)))
    assert ways[0] == "back hall, behind the coats · main 100 A · 120/240 V"
    assert "back hall, behind the coats" in ways
    assert all(len(way) < len(ways[0]) for way in ways[1:])


def test_rows_grow_into_the_room_there_is_up_to_a_limit() -> None:
    panel = on_sheet(sample("cottage"))
    for room in (70.0, 80.0, 500.0):
        row = panel.row_in(90.0, room)
        assert panel.height(90.0, row) <= room + 0.01
        assert row <= MOST_ROW
    assert panel.row_in(90.0, 500.0) == MOST_ROW


def test_a_long_name_is_told_when_it_is_cut() -> None:
    findings = find(home())
    named = next(iter(findings.home.panels)).model_copy(
        update={"name": "The panel behind the third door of the long hall"}
    )
    ink, cut = PanelOnSheet(findings, named, PAPER).ink(Rect(0, 20, 60, 100), 8.0, in_head=False)
    assert cut == (named.name,)
    assert any(word.endswith("…") for word in words_in(ink))


def test_breakers_that_trip_for_a_leak_are_reset_points_too() -> None:
    findings = find(home(breakers=(breaker(6, 3, protects=("ground fault",)), breaker(7, 4, protects=("arc fault",)))))
    assert "Reset points: breaker 3." in panel_notes(findings, next(iter(findings.home.panels)))
