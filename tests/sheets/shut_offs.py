"""Sheets of shut-offs, made once for all tests, and read back from the PDF by a program that knows nothing of ours."""

from functools import cache
from io import BytesIO
from typing import Any

import pdfplumber

from floorplan_circuits.drawing.palette import GREY, PAPER, Theme
from floorplan_circuits.drawing.sheet import Sheet
from floorplan_circuits.find import shut_off
from floorplan_circuits.findings import Findings, ShutOff, Step
from floorplan_circuits.sheets.paper import MARGIN, PAPERS
from floorplan_circuits.sheets.shutoff_flow import GUTTER, MOST_RIGHT
from floorplan_circuits.sheets.shutoff_sheet import shutoff_sheet
from floorplan_circuits.shutoff.steps import steps
from floorplan_circuits.surfaces.pdf import pdf_of
from tests.drawing.drawn import MADE, sample

POINTS_A_MM = 72 / 25.4
PRINTED = ("letter", "a4")
CHOSEN = (
    ("house", ("B42",)),
    ("house", ("B14",)),
    ("house", ("B10",)),
    ("house", ("B73",)),
    ("house", ("B61",)),
    ("house", ("B14", "B42")),
    ("cottage", ("B3",)),
    ("flat", ("B7", "B15", "B20")),
)
"""Boxes of the samples: one of each state, a panel behind a feeder, several at once."""
CASES = [*((name, marks, paper) for name, marks in CHOSEN for paper in PRINTED), (*CHOSEN[0], "legal")]
"""Each on every paper: for what is measured in the ink."""
READ_BACK = [
    *((name, marks, PRINTED[at % 2]) for at, (name, marks) in enumerate(CHOSEN)),
    (*CHOSEN[0], "legal"),
]
"""Each on one paper, in turn: for what is read back from the PDF, which takes most of a second a page."""


@cache
def planned(name: str, marks: tuple[str, ...]) -> tuple[Findings, ShutOff, tuple[Step, ...]]:
    """The findings of a sample, the shut-off of these boxes, and its steps."""
    findings = sample(name)
    by_mark = {box.mark: box.id for box in findings.home.boxes}
    plan = shut_off(findings, [by_mark[mark] for mark in marks])
    return findings, plan, steps(plan, findings)


@cache
def sheet_of(name: str, marks: tuple[str, ...], paper: str = "letter", grey: bool = False) -> Sheet:
    """The sheet of these boxes."""
    theme: Theme = GREY if grey else PAPER
    return shutoff_sheet(*planned(name, marks), PAPERS[paper], MADE, theme)


@cache
def printed(name: str, marks: tuple[str, ...], paper: str = "letter", grey: bool = False) -> bytes:
    """The sheet as a PDF."""
    return pdf_of(sheet_of(name, marks, paper, grey))


@cache
def pages(name: str, marks: tuple[str, ...], paper: str = "letter", grey: bool = False) -> tuple[dict[str, Any], ...]:
    """What is on each page of the PDF: its size, letters, words, rectangles and curves."""
    with pdfplumber.open(BytesIO(printed(name, marks, paper, grey))) as document:
        return tuple(
            {
                "width": page.width,
                "height": page.height,
                "chars": page.chars,
                "words": page.extract_words(x_tolerance=1.2, extra_attrs=["size"]),
                "text": page.extract_text() or "",
                "columns": [page.crop(part).extract_text() or "" for part in _columns(page.width, page.height)],
                "rects": page.rects,
                "marks": [*page.rects, *page.curves, *page.lines, *page.chars],
            }
            for page in document.pages
        )


def _columns(width: float, height: float) -> list[tuple[float, float, float, float]]:
    """The rectangles of the two columns: read one by one, no line runs on into the column beside it."""
    gutter = width - (MARGIN + MOST_RIGHT + GUTTER / 2) * POINTS_A_MM
    return [(0, 0, gutter, height), (gutter, 0, width, height)]


def text_in_columns(name: str, marks: tuple[str, ...], paper: str = "letter") -> str:
    """All words of the PDF column by column, spaces made one."""
    return " ".join(" ".join(part.split()) for page in pages(name, marks, paper) for part in page["columns"])


def text_of(name: str, marks: tuple[str, ...], paper: str = "letter", grey: bool = False) -> str:
    """All words of the PDF, spaces made one."""
    return " ".join(" ".join(page["text"].split()) for page in pages(name, marks, paper, grey))
