"""Printing in the window: made off its thread, stopped when asked, out as PDF, SVG, PNG and to a printer."""

from pathlib import Path

import pytest
from pypdf import PdfReader
from PySide6.QtCore import Qt
from PySide6.QtGui import QImage
from PySide6.QtPrintSupport import QPrinter

from floorplan_circuits.desktop.print_page import NOTHING, PrintView
from floorplan_circuits.desktop.rail import PRINT, SHUT_OFF
from floorplan_circuits.files.save import text_of
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.resources import folder
from floorplan_circuits.printing import NO_BOX

HOUSE, COTTAGE = folder("sample_homes") / "house.json", folder("sample_homes") / "cottage.json"


@pytest.fixture
def view(window, hand, qtbot) -> PrintView:
    """The page that prints the house, of three levels and two panels."""
    return printing(HOUSE, window, hand, qtbot)


@pytest.fixture
def small(window, hand, qtbot) -> PrintView:
    """The page that prints the cottage, where which home it is does not matter."""
    return printing(COTTAGE, window, hand, qtbot)


def printing(home: Path, window, hand, qtbot) -> PrintView:
    assert window.open(home)
    hand.settle()
    hand.stage(PRINT)
    shown = window.work.staging.print_view
    settle(shown, qtbot)
    return shown


def settle(view: PrintView, qtbot) -> None:
    qtbot.waitUntil(lambda: not view.is_making, timeout=20_000)


def choose(view: PrintView, qtbot, **wanted: str) -> None:
    for name, words in wanted.items():
        choice = getattr(view.choices, name)
        choice.setCurrentText(words)
        choice.activated.emit(choice.currentIndex())
    settle(view, qtbot)


@pytest.mark.parametrize(
    ("sheet", "pages"), [("Wall map", 4), ("Directory card", 2), ("List of dangers", 1), ("Plan alone", 3)]
)
def test_every_sheet_can_be_chosen_and_is_previewed(view, qtbot, sheet, pages) -> None:
    choose(view, qtbot, sheet=sheet)
    assert view.document.pageCount() >= pages
    assert view.save_button.isEnabled()
    assert view.print_button.isEnabled()


def test_one_panel_can_be_chosen(view, qtbot, tmp_path) -> None:
    choose(view, qtbot, panel="Garage panel")
    view.save(tmp_path / "garage.pdf")
    assert "Garage panel only" in PdfReader(tmp_path / "garage.pdf").pages[0].extract_text()


def test_a_size_that_is_none_is_told_and_nothing_can_be_saved(small, qtbot) -> None:
    choose(small, qtbot, sheet="Directory card")
    small.choices.card_size.setText("huge")
    small.choices.card_size.editingFinished.emit()
    settle(small, qtbot)
    assert small.notes.text().startswith("huge: no size.")
    assert not small.save_button.isEnabled()
    assert small.document.pageCount() == 0


def test_it_is_saved_as_what_its_name_ends_with(view, qtbot, tmp_path) -> None:
    choose(view, qtbot, sheet="Plan alone")
    for ending in ("pdf", "svg", "png"):
        view.save(tmp_path / f"plan.{ending}")
    names = sorted(path.name for path in tmp_path.glob("plan*"))
    assert names == ["plan-1.png", "plan-1.svg", "plan-2.png", "plan-2.svg", "plan-3.png", "plan-3.svg", "plan.pdf"]
    picture = QImage(str(tmp_path / "plan-2.png"))
    assert max(picture.width(), picture.height()) == pytest.approx(11 * 200, abs=3)
    assert picture.pixelColor(2, 2).lightness() == 255
    dark = sum(picture.pixelColor(x, y).lightness() < 90 for x in range(0, picture.width(), 9)
               for y in range(0, picture.height(), 9))  # fmt: skip
    assert dark > 100


def test_an_ending_that_is_none_of_these_is_told(small, tmp_path, monkeypatch) -> None:
    said = []
    monkeypatch.setattr(small, "_say", said.append)
    small.save(tmp_path / "map.doc")
    assert said == [f"{tmp_path / 'map.doc'}: end it with .pdf or .svg."]
    small.save(tmp_path / "no" / "map.pdf")
    assert "can’t be written" in said[1]


def test_a_printer_gets_every_page_on_its_own_paper(view, tmp_path) -> None:
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(tmp_path / "printed.pdf"))
    printer.setResolution(150)
    view.print_on(printer)
    printed = PdfReader(tmp_path / "printed.pdf").pages
    assert len(printed) == view.document.pageCount() > 1
    for at, page in enumerate(printed):
        size = view.document.pagePointSize(at)
        edges = float(page.mediabox.width), float(page.mediabox.height)
        assert edges == pytest.approx((size.width(), size.height()), abs=2)


def test_what_takes_long_says_its_page_and_can_be_stopped(small, qtbot) -> None:
    small.refresh()
    small._on_began("Ground floor")
    small._show_progress()
    assert small.cancel_button.isVisible()
    assert small.notes.text() == "Making Ground floor…"
    small.cancel_button.click()
    assert not small.is_making
    assert not small.cancel_button.isVisible()
    assert small.document.pageCount() == 0
    qtbot.wait(1500)  # what was being made is not heard of
    assert small.document.pageCount() == 0
    assert small.notes.text().startswith("Stopped.")


def test_the_newest_of_several_choices_is_shown(small, qtbot) -> None:
    for paper in ("A4", "Legal", "A3"):
        small.choices.paper.setCurrentText(paper)
        small.choices.paper.activated.emit(0)
    settle(small, qtbot)
    edges = sorted((small.document.pagePointSize(0).width(), small.document.pagePointSize(0).height()))
    assert edges == pytest.approx([297 * 72 / 25.4, 420 * 72 / 25.4], abs=1)


def test_an_empty_home_says_what_is_missing(window, hand, qtbot, tmp_path: Path) -> None:
    (tmp_path / "empty.json").write_text(text_of(Home()), encoding="utf-8")
    assert window.open(tmp_path / "empty.json")
    hand.settle()
    hand.stage(PRINT)
    shown = window.work.staging.print_view
    settle(shown, qtbot)
    assert shown.notes.text() == NOTHING
    assert not shown.save_button.isEnabled()


def test_a_shut_off_is_printed_from_its_stage_and_of_the_choice_that_is_shown(view, window, hand, qtbot, tmp_path):
    choose(view, qtbot, sheet="Shut-off sheet")
    assert view.notes.text() == NO_BOX
    assert not view.save_button.isEnabled()

    (box,) = (one.id for one in window.session.home.boxes if one.mark == "B42")
    choose(view, qtbot, sheet="Wall map")
    page, shutting = window.work.rail.shut_off_page, window.work.shutting
    hand.stage(SHUT_OFF)
    window.session.pick((box,))
    shutting._ask()
    qtbot.waitUntil(lambda: shutting._answer is not None, timeout=5000)
    qtbot.mouseClick(page.sheet, Qt.MouseButton.LeftButton)
    assert window.work.rail.stage == PRINT
    settle(view, qtbot)
    view.save(tmp_path / "nearest.pdf")
    said = " ".join(PdfReader(tmp_path / "nearest.pdf").pages[0].extract_text().split())
    assert "Shut-off: B42" in said
    assert "Turn off 18A." in said

    hand.stage(SHUT_OFF)
    qtbot.waitUntil(lambda: shutting._answer is not None, timeout=5000)
    (main,) = (one for one in shutting._answer.plan.choices if len(one.handles) == 1)
    shutting._flip_to(frozenset(main.handles))
    qtbot.waitUntil(lambda: shutting.chosen == frozenset(main.handles), timeout=5000)
    qtbot.mouseClick(page.sheet, Qt.MouseButton.LeftButton)
    settle(view, qtbot)
    view.save(tmp_path / "main.pdf")
    said = " ".join(PdfReader(tmp_path / "main.pdf").pages[0].extract_text().split())
    assert "Turn off main." in said
    assert "Turn off 18A." not in said
