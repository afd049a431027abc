"""Random homes on paper, read back by pdfium: all print, and no letter lies on another.

PRINTED_HOMES says how many; a few by default, 500 by hand.
"""

import os
from random import Random

import pypdfium2 as pdfium
import pytest

from floorplan_circuits.find import find
from floorplan_circuits.printing import Wanted, make_sheet
from floorplan_circuits.sheets.wall_map import shown_levels
from floorplan_circuits.surfaces.pdf import pdf_of
from tests.drawing.drawn import MADE
from tests.homes import generate
from tests.outside.test_pages_measured import collisions

COUNT = int(os.environ.get("PRINTED_HOMES", "6"))
IN_A_CORNER = (32, 122)
"""Homes in which two boxes share a corner, their letters once on one another."""
PAPERS = ("letter", "a4", "legal", "tabloid", "a3")


@pytest.mark.parametrize("seed", sorted({*range(COUNT), *IN_A_CORNER}))
def test_a_random_home_prints_without_a_letter_on_a_letter(seed: int) -> None:
    rng = Random(seed)
    levels = rng.randint(1, 3)
    home = generate(seed, rng.randint(6, 90) * levels, levels).home
    wanted = Wanted(paper=rng.choice(PAPERS), grey=rng.random() < 0.3, together=rng.random() < 0.3)
    found = find(home)
    sheet = make_sheet(found, wanted, MADE)
    document = pdfium.PdfDocument(pdf_of(sheet))
    drawn = len(shown_levels(found))  # a level without anything drawn has no page
    assert len(document) == len(sheet.pages) >= (1 if wanted.together else drawn)
    for number, page in enumerate(document):
        assert collisions(page) == [], sheet.pages[number].name
