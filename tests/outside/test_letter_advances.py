"""Our widths against independent readers of the same typefaces: fontTools, reportlab and Qt."""

import json
import runpy
from itertools import combinations
from pathlib import Path
from unicodedata import category, normalize

import pytest
from fontTools.pens.recordingPen import RecordingPen
from fontTools.ttLib import TTFont
from PySide6.QtGui import QFont, QRawFont
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont as PdfFont

from floorplan_circuits.drawing.ink import MM_PER_POINT
from floorplan_circuits.drawing.lettering import (
    FILES,
    INVISIBLE,
    Face,
    advances,
    ascent,
    cap_height,
    descent,
    font_file,
    plain,
    runs,
    width,
)
from floorplan_circuits.home.resources import folder

TENTH = 0.1
SIZES = (9.0, 10.5, 14.0, 20.0)
WORDS = (
    "Kitchen counter, west of the window",
    "Utility: washer, receptacles 15A 15B 26A",
    "This map can be wrong. Test before you touch.",
    "AVAToTYWa fi fl ffi, kerning and ligatures off",
    "0O 1lI 8B · × – — … 120/240 V ± ½ °",
    "Küche, Wärmepumpe, Čerpadlo, łazienka, Ærø",
    "Кухня: розетки у окна",
    "Υπνοδωμάτιο, πρίζες",
    "Mixed Жук and Ω with 漢 in one line",
)


@pytest.fixture(scope="module")
def fonts() -> dict[Face, TTFont]:
    return {face: TTFont(file) for face, file in FILES.items()}


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("words", WORDS)
def test_widths_are_the_sums_fonttools_reads(words: str, bold: bool, fonts: dict[Face, TTFont]) -> None:
    total = 0.0
    for run in runs(words, bold):
        font = fonts[run.face]
        names = font.getBestCmap()
        total += sum(font["hmtx"][names[ord(letter)]][0] for letter in run.words) / font["head"].unitsPerEm
    for size in SIZES:
        assert width(words, size, bold) == pytest.approx(total * size * MM_PER_POINT, abs=1e-6)


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("words", WORDS)
def test_reportlab_sets_the_words_as_wide(words: str, bold: bool) -> None:
    for face in FILES:
        pdfmetrics.registerFont(PdfFont(f"advances {face}", str(font_file(face))))
    for size in SIZES:
        points = sum(pdfmetrics.stringWidth(run.words, f"advances {run.face}", size) for run in runs(words, bold))
        assert width(words, size, bold) == pytest.approx(points * MM_PER_POINT, abs=TENTH)


def qt_advances(words: str, bold: bool, pixels: float) -> list[float]:
    """Return Qt's own advance of each letter, in pixels."""
    steps: list[float] = []
    for run in runs(words, bold):
        raw = QRawFont(str(font_file(run.face)), pixels, QFont.HintingPreference.PreferNoHinting)
        glyphs = raw.glyphIndexesForString(run.words)
        assert all(glyphs), "a letter that Qt does not find in the typeface we chose for it"
        steps += [step.x() for step in raw.advancesForGlyphIndexes(glyphs)]
    return steps


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("words", WORDS)
@pytest.mark.usefixtures("qapp")
def test_qt_reads_the_words_as_wide_where_its_grid_is_fine(words: str, bold: bool) -> None:
    """At 1000 pixels a letter, one pixel is one unit of the typeface and Qt has nothing to round."""
    total = sum(qt_advances(words, bold, 1000)) / 1000
    for size in SIZES:
        assert width(words, size, bold) == pytest.approx(total * size * MM_PER_POINT, abs=TENTH)


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("words", WORDS)
@pytest.mark.usefixtures("qapp")
def test_qt_cuts_no_letter_by_more_than_a_64th_of_a_pixel_on_screen(words: str, bold: bool) -> None:
    """Qt counts in 64ths of a pixel. Over 40 letters that adds up to more than 0.1 mm at 96 pixels an inch.

    So the window draws each letter at our position and never lets Qt lay out a line.
    """
    for size in SIZES:
        ours = [step / 25.4 * 96 for step in advances(words, size, bold)]
        assert qt_advances(words, bold, size * 96 / 72) == pytest.approx(ours, abs=1 / 64 + 1e-6)
        assert sum(qt_advances(words[:30], bold, size * 96 / 72)) * 25.4 / 96 == pytest.approx(
            width(words[:30], size, bold), abs=TENTH
        )


def test_a_letter_is_drawn_as_itself_just_if_a_typeface_has_it(fonts: dict[Face, TTFont]) -> None:
    first = {chr(code) for code in fonts["regular"].getBestCmap() if code >= 0x20}
    second = {chr(code) for code in fonts["fallback"].getBestCmap()}
    drawn = first | {letter for letter in second if category(letter) not in INVISIBLE}
    composed = [letter for letter in map(chr, range(0x20, 0x3000)) if normalize("NFC", letter) == letter]
    assert {letter for letter in composed if plain(letter) == letter} == drawn & set(composed)


def test_the_committed_tables_are_what_the_typefaces_give_today(tmp_path: Path) -> None:
    script = runpy.run_path(str(folder("resources") / "make_advances.py"))
    script["main"].__globals__["HERE"] = tmp_path
    script["main"]()
    for name in ("advances.json", "advances_fallback.json"):
        assert json.loads((tmp_path / name).read_text()) == json.loads((folder("resources") / name).read_text())


def test_heights_are_those_of_the_typeface(fonts: dict[Face, TTFont]) -> None:
    font = fonts["regular"]
    scale = 9 * MM_PER_POINT / font["head"].unitsPerEm
    assert cap_height(9) == pytest.approx(font["OS/2"].sCapHeight * scale)
    assert ascent(9) == pytest.approx(font["hhea"].ascent * scale)
    assert descent(9) == pytest.approx(-font["hhea"].descent * scale)
    assert font["OS/2"].sCapHeight == fonts["bold"]["OS/2"].sCapHeight


@pytest.mark.parametrize("face", ["regular", "bold"])
@pytest.mark.parametrize("likes", ["1lI|", "0O", "8B", "5S", "2Z"])
def test_letters_that_are_often_confused_have_outlines_of_their_own(
    face: Face, likes: str, fonts: dict[Face, TTFont]
) -> None:
    glyphs, names = fonts[face].getGlyphSet(), fonts[face].getBestCmap()

    def outline(letter: str) -> list[object]:
        pen = RecordingPen()
        glyphs[names[ord(letter)]].draw(pen)
        return list(pen.value)

    assert all(outline(a) != outline(b) for a, b in combinations(likes, 2))
    assert len(outline("0")) > len(outline("O")), "the zero is slashed: it has more to its outline than the O"


def test_the_letter_l_has_a_tail_and_the_capital_i_has_bars(fonts: dict[Face, TTFont]) -> None:
    widths = {letter: advances(letter, 100)[0] for letter in "lI|"}
    assert widths["I"] > 1.3 * widths["l"]
    glyphs = fonts["regular"].getGlyphSet()
    pen = RecordingPen()
    glyphs[fonts["regular"].getBestCmap()[ord("l")]].draw(pen)
    assert any(step in ("qCurveTo", "curveTo") for step, _ in pen.value)
