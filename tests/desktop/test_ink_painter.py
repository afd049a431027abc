"""Ink on a Qt painter: each kind of mark is seen where it should be."""

from itertools import accumulate, groupby

import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QFont, QImage, QPainter, QRawFont

from floorplan_circuits.desktop.ink_painter import Word, compiled, paint
from floorplan_circuits.drawing.hatching import hatch_dots
from floorplan_circuits.drawing.ink import (
    MM_PER_POINT,
    Group,
    Hatch,
    Mark,
    Pen,
    PictureMark,
    Shape,
    Stamp,
    Text,
    polyline,
    rectangle,
)
from floorplan_circuits.drawing.lettering import advances, cap_height, font_file
from floorplan_circuits.drawing.symbols import bounds
from floorplan_circuits.findings import Subject
from tests.desktop.hand import dark_pixels, is_dark

PX = 10
"""Pixels a millimetre in these pictures."""
PRINT_PX = 300 / 25.4
"""Pixels a millimetre on a printer of 300 dots an inch."""
BLACK, WHITE = "#000000", "#ffffff"

pytestmark = pytest.mark.usefixtures("qapp")


def painted(*marks: Mark, shown: QRectF | None = None) -> QImage:
    """Return 20 × 20 mm of white with the marks on it."""
    image = QImage(20 * PX, 20 * PX, QImage.Format.Format_RGB32)
    image.fill(QColor(WHITE))
    painter = QPainter(image)
    paint(painter, compiled(Group(marks)).ops, PX, 0, 0, shown)
    painter.end()
    return image


def colour(image: QImage, x: float, y: float) -> str:
    """Return the colour at a place in mm."""
    return QColor(image.pixel(round(x * PX), round(y * PX))).name()


def lengths_along(image: QImage, y: float) -> list[int]:
    """Return how long the dark stretches of a row are, in pixels."""
    row = [is_dark(image, x, round(y * PX)) for x in range(image.width())]
    return [len(list(run)) for dark, run in groupby(row) if dark]


# --- marks ----------------------------------------------------------------------------------------------------------


def test_a_shape_is_filled_inside_and_bare_outside() -> None:
    image = painted(Shape(rectangle(5, 5, 10, 10), "#ff0000"))
    assert colour(image, 10, 10) == "#ff0000"
    assert colour(image, 2, 10) == WHITE
    assert colour(image, 10, 17) == WHITE


def test_a_ring_leaves_its_hole_bare() -> None:
    image = painted(Shape((*rectangle(2, 2, 16, 16), *rectangle(6, 6, 8, 8)), "#00ff00"))
    assert colour(image, 4, 10) == "#00ff00"
    assert colour(image, 10, 10) == WHITE


def test_a_line_is_as_wide_as_its_pen() -> None:
    image = painted(Shape(polyline((10, 2), (10, 18)), None, Pen(1.0, BLACK)))
    assert lengths_along(image, 10) == pytest.approx([10], abs=1)


def test_dashes_are_as_long_as_the_pen_says_and_so_are_the_gaps() -> None:
    image = painted(Shape(polyline((0, 10), (20, 10)), None, Pen(1.0, BLACK, (3.0, 2.0))))
    assert lengths_along(image, 10) == pytest.approx([30, 30, 30, 30], abs=1)


def test_a_thin_line_never_fades_away() -> None:
    image = painted(Shape(polyline((10.05, 2), (10.05, 18)), None, Pen(0.001, BLACK)))
    assert any(colour(image, x, 10) != WHITE for x in (9.9, 10.0, 10.1))


def test_a_hatch_stays_in_its_path_and_runs_at_its_angle() -> None:
    image = painted(Hatch(rectangle(5, 5, 10, 10), Pen(0.5, BLACK), 90, 2.0))
    dark = set(dark_pixels(image))
    assert dark
    assert all(49 <= x <= 151 and 49 <= y <= 151 for x, y in dark)
    assert len(lengths_along(image, 10)) == pytest.approx(5, abs=1)  # upright lines, every 2 mm of 10
    assert lengths_along(image, 7) == lengths_along(image, 12)


def test_the_unknown_is_dotted_not_lined() -> None:
    image = painted(Hatch(rectangle(0, 0, 20, 20), Pen(0.5, BLACK), 0, 2.5, dots=True))
    rows = [row for row in range(image.height()) if any(is_dark(image, x, row) for x in range(image.width()))]
    assert 0 < len(rows) < image.height() / 2
    assert all(max(lengths_along(image, row / PX)) <= 6 for row in rows)


def test_the_dots_stand_where_they_do_on_paper() -> None:
    image = painted(Hatch(rectangle(0, 0, 20, 20), Pen(0.6, BLACK), 0, 2.5, dots=True))
    places = [(x, y) for x, y in hatch_dots((0, 0, 20, 20), 2.5) if 0 < x < 19.9 and 0 < y < 19.9]
    assert len(places) > 40
    assert all(is_dark(image, int(x * PX), int(y * PX)) for x, y in places)
    assert not any(is_dark(image, int((x + 1.25) * PX), int(y * PX)) for x, y in places if x < 18)


def test_lines_all_over_a_level_are_painted_whole_though_only_those_in_view_are() -> None:
    lines = tuple(part for x in range(10, 900, 10) for part in polyline((x, 5), (x, 15)))
    op_count = len(compiled(Group((Shape(lines, None, Pen(1.0, BLACK)),))).ops)
    assert op_count > 5
    image = painted(Shape(lines, None, Pen(1.0, BLACK)))
    assert is_dark(image, 100, 100)
    assert not is_dark(image, 50, 100)


def test_a_stamp_stands_at_its_place_and_is_filled_with_the_ground() -> None:
    image = painted(Stamp("duplex receptacle", (10, 10), 0, 2.0, 0.3, BLACK, "#ffff00"))
    xs, ys = zip(*dark_pixels(image), strict=True)
    left, top, right, bottom = bounds("duplex receptacle", (10, 10), 0, 2.0)
    drawn = [min(xs) / PX, min(ys) / PX, (max(xs) + 1) / PX, (max(ys) + 1) / PX]
    assert drawn == pytest.approx([left, top, right, bottom], abs=0.35)  # lines are 0.3 mm wide
    assert "#ffff00" in {QColor(image.pixel(x, y)).name() for x in range(200) for y in range(200)}


def test_a_stamp_turns_with_its_angle() -> None:
    ahead, turned = (painted(Stamp("duplex receptacle", (10, 10), angle, 2.0, 0.3, BLACK, WHITE)) for angle in (0, 90))
    quarter = {(199 - y, x) for x, y in dark_pixels(ahead)}  # clockwise about the middle, as the eye reads it
    seen = set(dark_pixels(turned))
    assert len(seen ^ quarter) < 0.1 * len(seen)


def test_a_picture_keeps_its_room() -> None:
    image = painted(PictureMark("0" * 64, (5, 5, 15, 15)))
    assert colour(image, 10, 5) != WHITE
    assert colour(image, 10, 10) == WHITE


def test_later_marks_cover_earlier_ones() -> None:
    image = painted(Shape(rectangle(0, 0, 20, 20), "#ff0000"), Shape(rectangle(5, 5, 10, 10), "#0000ff"))
    assert (colour(image, 2, 2), colour(image, 10, 10)) == ("#ff0000", "#0000ff")


def test_what_lies_outside_the_part_shown_is_left_out() -> None:
    marks = Shape(rectangle(1, 1, 4, 4), BLACK), Shape(rectangle(12, 12, 4, 4), BLACK)
    image = painted(*marks, shown=QRectF(10, 10, 10, 10))
    assert (colour(image, 3, 3), colour(image, 14, 14)) == (WHITE, BLACK)


# --- letters --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("size", [10, 20, 40])  # the larger two are over 64 pixels high here
def test_letters_stand_on_their_baseline_as_high_as_capitals_are(size: float) -> None:
    image = painted(Text((10, 18), "H", size, bold=True, colour=BLACK, anchor="middle"))
    xs, ys = zip(*dark_pixels(image), strict=True)
    assert (max(ys) + 1) / PX == pytest.approx(18, abs=0.1)
    assert (max(ys) + 1 - min(ys)) / PX == pytest.approx(cap_height(size), abs=0.15)
    assert (min(xs) + max(xs) + 1) / 2 / PX == pytest.approx(10, abs=0.1)


@pytest.mark.parametrize(("anchor", "left"), [("start", 0.0), ("middle", 0.5), ("end", 1.0)])
def test_an_anchor_tells_which_end_of_the_words_stands_at_their_place(anchor: str, left: float) -> None:
    word = words_of(Text((50, 10), "Kitchen 15A", 9, anchor=anchor))[0]  # type: ignore[arg-type]  # all three are
    assert word.at[0][0] == pytest.approx(50 - left * sum(advances("Kitchen 15A", 9)))


def words_of(mark: Text) -> list[Word]:
    """Return the glyph runs of a text."""
    return [op for op in compiled(Group((mark,))).ops if isinstance(op, Word)]


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("words", ["Kitchen", "15A · 2·4", "Never tested: 1 l I, 0 O, 8 B", "Ł ż Ω ≤ 3 mm"])
def test_letters_stand_where_lettering_says(words: str, bold: bool) -> None:
    found = [x for word in words_of(Text((0, 10), words, 10, bold)) for x, _ in word.at]
    steps = advances(words, 10, bold)
    assert found == pytest.approx([0, *accumulate(steps)][:-1])


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("words", ["Kitchen and dining room", "Ground-fault receptacle 15A", "Ω ≤ Ł"])
def test_qt_would_set_the_words_the_same_to_a_tenth_of_a_millimetre_in_print(words: str, bold: bool) -> None:
    size = 10.0
    for word in words_of(Text((0, 10), words, size, bold)):
        pixels = size * MM_PER_POINT * PRINT_PX
        font = QRawFont(str(font_file(word.face)), pixels, QFont.HintingPreference.PreferNoHinting)
        own = [step.x() / PRINT_PX for step in font.advancesForGlyphIndexes(list(word.glyphs))]
        along = [x - word.at[0][0] for x, _ in word.at]
        assert along == pytest.approx([0, *accumulate(own)][:-1], abs=0.1)


# --- subjects -------------------------------------------------------------------------------------------------------


def test_what_is_about_a_subject_is_found_again_through_all_groups_round_it() -> None:
    room, box = Subject("room", 1), Subject("box", 2)
    inner = Group((Shape(rectangle(0, 0, 1, 1), BLACK),), box)
    made = compiled(Group((Shape(rectangle(2, 2, 1, 1), BLACK), Group((inner,), room))))
    assert len(made.ops) == 2
    assert made.about == {room: (made.ops[1],), box: (made.ops[1],)}
