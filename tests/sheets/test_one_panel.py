"""A map of one panel: what may hang on it is never left out."""

from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.find import find
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.power import Panel
from floorplan_circuits.home.table import Table
from floorplan_circuits.sheets.legend import how_to_read
from floorplan_circuits.sheets.one_panel import narrowed
from floorplan_circuits.sheets.paper import PAPERS
from floorplan_circuits.sheets.wall_map import wall_map
from tests.drawing.drawn import MADE, box, breaker, device, fed, home, room, sample, words_in

PANELS = Table([Panel(id=5, name="Main panel", spaces=12), Panel(id=8, name="Barn", prefix="B", spaces=4)])
BREAKERS = (breaker(6, 1), breaker(7, 1, panel=8))


def two_panels() -> Findings:
    boxes = (
        box(20, (500, 500), device(21, fed(22, 6))),
        box(30, (1500, 500), device(31, fed(32, 7))),
        box(40, (2500, 500), device(41, fed(42))),
        box(50, (3500, 500), device(51, fed(52, 6), fed(53, 7))),
        box(60, (500, 2500)),
    )
    return find(home(boxes, BREAKERS, (room(70, "Hall", 0, 0, 5000, 3000),), panels=PANELS))


def test_a_box_is_pale_only_if_all_of_it_is_said_to_be_on_other_panels() -> None:
    findings = two_panels()
    assert narrowed(findings, findings.home.panels[8]).pale == {20}
    assert narrowed(findings, findings.home.panels[5]).pale == {30}


def test_its_map_shows_its_face_alone_and_says_so_in_its_title() -> None:
    findings = two_panels()
    sheet = wall_map(findings, PAPERS["letter"], MADE, panel=findings.home.panels[8])
    said = [word for page in sheet.pages for word in words_in(page.ink)]
    assert sheet.title == "Test house: wall map, Barn only"
    assert "Barn" in said
    assert "Main panel" not in said
    assert "pale: all of it on other panels" in said
    assert {"B30", "B50"} & set(said) == {"B50"}  # only what is shared or in doubt wears its mark
    assert "B1" in said


def test_the_unknown_is_on_the_map_of_every_panel() -> None:
    findings = two_panels()
    for panel in findings.home.panels:
        lists = narrowed(findings, panel).lists
        assert {40, 50, 60} <= set(lists.home.boxes.ids())
        assert 42 in lists.never_tested


def test_pale_is_told_only_where_something_is() -> None:
    section = how_to_read(sample("cottage"), 90.0, PAPER, frozenset({None, *sample("cottage").home.levels.ids()}))
    assert not any(word.startswith("pale") for block in section.blocks for word in words_in(block.ink))


def test_the_map_of_an_only_panel_tells_of_nothing_pale() -> None:
    findings = sample("cottage")
    (page,) = wall_map(findings, PAPERS["letter"], MADE, panel=next(iter(findings.home.panels))).pages
    assert not any(word.startswith("pale") for word in words_in(page.ink))


def test_the_title_is_whole_though_the_panel_is_named_beside_it() -> None:
    findings = sample("cottage")
    sheet = wall_map(findings, PAPERS["letter"], MADE, panel=next(iter(findings.home.panels)))
    assert "Ground floor" in words_in(sheet.pages[0].ink)
    assert "Ground floor" not in sheet.shortened
