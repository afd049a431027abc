"""A paragraph that begins in bold: what to do, then what to know for it, in lines of one width."""

from collections.abc import Iterator
from dataclasses import dataclass

from floorplan_circuits.drawing.ink import Mark, Text
from floorplan_circuits.drawing.lettering import cap_height, width, wrap
from floorplan_circuits.drawing.plates import text_height

LEADING = 1.06


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Set words: their marks from the top left corner, and how high they are in mm."""

    marks: tuple[Mark, ...]
    height: float
    last_wide: float
    """How wide the last line is, in mm."""


def paragraph(bold: str, plain: str, wide: float, size: float, colour: str, lead: str = "") -> Paragraph:
    """Set bold words and plain ones behind them, `size` points, in lines no wider than `wide` mm.

    `lead` is the colour of the bold words, that of the others by default.
    """
    lines = list(_lines(bold, plain, wide, size))
    pitch = text_height(size) * LEADING
    marks: list[Mark] = []
    along = 0.0
    for at, line in enumerate(lines):
        baseline, along = at * pitch + (pitch + cap_height(size)) / 2, 0.0
        for words, is_bold in line:
            shade = lead if is_bold and lead else colour
            marks.append(Text((along, baseline), words, size, is_bold, shade))
            along += width(words, size, is_bold) + _gap(size)
    return Paragraph(tuple(marks), len(lines) * pitch, max(0.0, along - _gap(size)))


def _gap(size: float) -> float:
    return width(" ", size)


def _lines(bold: str, plain: str, wide: float, size: float) -> Iterator[tuple[tuple[str, bool], ...]]:
    """Yield the lines as runs of words: the plain ones go on behind the last bold line as far as they fit."""
    heads = wrap(bold, wide, size, True)
    yield from (((line, True),) for line in heads[:-1])
    words = " ".join(plain.split())
    if not heads:
        yield from (((line, False),) for line in wrap(words, wide, size))
        return
    left = wide - width(heads[-1], size, True) - _gap(size)
    first = wrap(words, left, size)[:1] if words and left > 0 else ()
    begun = first[0] if first and words.startswith(first[0]) and width(first[0], size) <= left else ""
    yield ((heads[-1], True), (begun, False)) if begun else ((heads[-1], True),)
    yield from (((line, False),) for line in wrap(words[len(begun) :], wide, size))
