"""The directory card for the panel's door: every space with its words, cut to the size that was typed."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate

from floorplan_circuits.drawing.ink import Group, Mark, Pen, Shape, Text, moved, polyline, rectangle
from floorplan_circuits.drawing.lettering import cap_height, fits, width, wrap
from floorplan_circuits.drawing.palette import PAPER, Theme
from floorplan_circuits.drawing.panel_cells import Cell, cells
from floorplan_circuits.drawing.panel_words import with_note
from floorplan_circuits.drawing.plates import SQUARE, square, text_height
from floorplan_circuits.drawing.sheet import Page, Sheet
from floorplan_circuits.findings import Findings, Line, Standing
from floorplan_circuits.home.power import Breaker, Panel
from floorplan_circuits.home.trade_words import words_of
from floorplan_circuits.sheets.content_code import content_code
from floorplan_circuits.sheets.framed import made_words
from floorplan_circuits.sheets.furniture import fitted_title, one_line, text_lines
from floorplan_circuits.sheets.panel_column import FEEDING
from floorplan_circuits.sheets.paper import MARGIN, Paper, Rect

USUAL_SIZE = (120.0, 200.0)
LEAST_SIDE, MOST_SIDE = 60.0, 500.0
INSET, TITLE_HIGH = 3.0, 7.0
NUMBER_WIDE, GAP = 9.0, 3.0
NUMBER_SIZE, SIZES, CAPTION = 10.0, (9.0, 8.4, 7.5), 6.8
LARGE_ROW, LARGE_NUMBER, LARGE_SIZES = 13.0, 14.0, (11.0, 10.0, *SIZES)
"""From this height in mm of a row on its letters are larger, and how large."""
MOST_ROW = 18.0
HEAD_PART, MOST_HEAD, HEAD_SIZE = 0.5, 5.5, 7.5
"""How high the head of a row of a board is, in parts of a row and at most in mm, and the most points of its letters."""
AIR = 1.0
"""Least mm above and below the words of a row together."""
LEAST_TO_WRITE, LINE_TO_WRITE = 25.0, 9.0
"""Empty mm under the rows from which on they are ruled to be written on by hand, and from one line to the next."""
BY_HAND = "Changed since this was printed: what, by whom, when"
LEAST_HALF = 3.4
"""Least mm of half a row that has a line of its own."""
TICK, TICK_GAP = 4.0, 1.0
CAUTION = "This card can be wrong. Test before you touch."
ABOVE_THE_MAIN = "Wires above the {main} stay live with it off."
INCH = 25.4


class NoSuchSize(ValueError):
    """What was typed is no size that a card can have. Its text is for the person."""


def typed_size(words: str) -> tuple[float, float]:
    """Return width and height in mm from `120x200`, or from `4.75x8in`. Raises `NoSuchSize` with what to type.

    Examples:
        >>> typed_size("120 × 200"), typed_size("4x8in")
        ((120.0, 200.0), (101.6, 203.2))
    """
    found = re.fullmatch(r"\s*(\d+(?:\.\d+)?)\s*[x×X]\s*(\d+(?:\.\d+)?)\s*(mm|in)?\s*", words)
    if found is None:
        raise NoSuchSize(f"{words}: no size. Type width and height in millimetres, as 120x200, or 4.75x8in.")
    unit = INCH if found[3] == "in" else 1.0
    wide, high = float(found[1]) * unit, float(found[2]) * unit
    if not (LEAST_SIDE <= wide <= MOST_SIDE and LEAST_SIDE <= high <= MOST_SIDE):
        raise NoSuchSize(f"{words}: a card measures {LEAST_SIDE:.0f} to {MOST_SIDE:.0f} mm each way.")
    return wide, high


def directory_card(
    findings: Findings,
    paper: Paper,
    made_on: str,
    theme: Theme = PAPER,
    *,
    size: tuple[float, float] = USUAL_SIZE,
    panel: Panel | None = None,
) -> Sheet:
    """Return a card for each panel, or for one: in the middle of its paper, with ticks to cut it out by.

    A panel with more rows than the card has room for goes on several. Raises `NoSuchSize` where it is larger than the
    paper.
    """
    lies = next((way for way in (paper.size("portrait"), paper.size("landscape")) if _holds(way, size)), None)
    if lies is None:
        measured = f"{size[0]:.0f} × {size[1]:.0f} mm"
        raise NoSuchSize(f"A card of {measured} does not fit on this paper. Choose a larger paper.")
    cut: list[str] = []
    pages: list[Page] = []
    for one in [panel] if panel is not None else list(findings.home.panels):
        card = _Card(findings, one, size, theme, (made_words(findings, made_on), content_code(findings)))
        parts = list(card.parts())
        for number, rows in enumerate(parts, 1):
            of = f"{number} of {len(parts)}" if len(parts) > 1 else ""
            pages.append(Page(*lies, _on_paper(Group(tuple(card.ink(rows, of, cut))), size, lies, theme), one.name))
    title = f"{findings.home.name or 'Home'}: directory card"
    return Sheet(title, tuple(pages), tuple(dict.fromkeys(cut)))


def _holds(paper: tuple[float, float], size: tuple[float, float]) -> bool:
    return all(side + 2 * MARGIN <= edge for side, edge in zip(size, paper, strict=True))


def _on_paper(card: Group, size: tuple[float, float], paper: tuple[float, float], theme: Theme) -> Group:
    """Put the card in the middle of its paper and a tick beside each end of its edges."""
    area = Rect((paper[0] - size[0]) / 2, (paper[1] - size[1]) / 2, *size)
    pen = Pen(0.18, theme.ink)
    ticks: list[Mark] = [moved(card, area.x, area.y)]
    reach = min(TICK, area.x - MARGIN + TICK_GAP, area.y - MARGIN + TICK_GAP)
    for x, away in ((area.x, -1), (area.right, 1)):
        for y in (area.y, area.bottom):
            start = x + away * TICK_GAP
            ticks.append(Shape(polyline((start, y), (start + away * reach, y)), None, pen))
    for y, away in ((area.y, -1), (area.bottom, 1)):
        for x in (area.x, area.right):
            start = y + away * TICK_GAP
            ticks.append(Shape(polyline((x, start), (x, start + away * reach)), None, pen))
    return Group(tuple(ticks))


# --- the card -------------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Card:
    """One panel's card: its size in mm, and when it was made with the code of the content."""

    findings: Findings
    panel: Panel
    size: tuple[float, float]
    theme: Theme
    made: tuple[str, str]

    @property
    def room(self) -> Rect:
        """Where the rows stand."""
        wide, high = self.size
        foot = len(self._foot()) * text_height(CAPTION) + 1.5
        return Rect(INSET, INSET + TITLE_HIGH, wide - 2 * INSET, high - 2 * INSET - TITLE_HIGH - foot)

    def parts(self) -> Iterator[tuple[int, int]]:
        """Yield from which to before which row each card goes: as few cards as can be read."""
        grid = self.findings.panels[self.panel.id]
        halved = any(cell.is_half for cell in self._cells())
        least = 2 * LEAST_HALF if halved else LEAST_HALF
        most = max(1, int(self.room.height / least))
        count = -(-grid.rows // most)
        each = -(-grid.rows // count)
        yield from ((first, min(first + each, grid.rows)) for first in range(0, grid.rows, each))

    def ink(self, rows: tuple[int, int], of: str, cut: list[str]) -> Iterator[Mark]:
        """Yield the marks of one card from its top left corner; add to `cut` what had to be shortened."""
        room = self.room
        yield from self._title(of, cut)
        grid = self.findings.panels[self.panel.id]
        weights = [HEAD_PART if row in grid.heads else 1.0 for row in range(*rows)]
        pitch = min(MOST_ROW, room.height / sum(weights))
        heights = (pitch if weight == 1 else min(pitch * weight, MOST_HEAD) for weight in weights)
        tops = list(accumulate(heights, initial=room.y))
        room = Rect(room.x, room.y, room.width, tops[-1] - room.y)
        column = (room.width - GAP * (grid.columns - 1)) / grid.columns
        for cell in self._cells():
            top, bottom = max(cell.top / 2, rows[0]), min(cell.bottom / 2, rows[1])
            if top < bottom:
                x = room.x + cell.column * (column + GAP) if grid.columns > 1 else room.x
                area = Rect(x, tops[int(top) - rows[0]] + top % 1 * pitch, column, (bottom - top) * pitch)
                yield from self._cell(cell, area, rows, cut)
        for row in (row for row in range(*rows) if row in grid.heads):
            yield from self._head(grid.heads[row], tops[row - rows[0]], tops[row - rows[0] + 1])
        yield Shape(rectangle(room.x, room.y, room.width, room.height), None, Pen(0.25, self.theme.ink))
        yield from self._lines_to_write(room.bottom)
        yield from text_lines(self._foot(), INSET, self.room.bottom + 1.2, CAPTION, self.theme)

    def _head(self, words: str, top: float, bottom: float) -> Iterator[Mark]:
        """Draw the band over a row of a board: which row it is, and which half of it stands on either side."""
        room, size = self.room, min(HEAD_SIZE, (bottom - top) * 2.2)
        y = (top + bottom) / 2 + cap_height(size) / 2
        yield Shape(rectangle(room.x, top, room.width, bottom - top), self.theme.metal, Pen(0.25, self.theme.ink))
        yield Text((room.x + 1.6, y), f"{words}, left half", size, True, self.theme.ink)
        yield Text((room.right - 1.6, y), f"{words}, right half", size, True, self.theme.ink, "end")

    def _lines_to_write(self, top: float) -> Iterator[Mark]:
        """Rule what is left under few rows, to be written on by hand when something is changed."""
        room = self.room
        if room.bottom - top < LEAST_TO_WRITE:
            return
        yield from text_lines((BY_HAND,), room.x, top + 3.5, CAPTION, self.theme)
        y = top + 3.5 + LINE_TO_WRITE
        while y <= room.bottom - 2.0:
            yield Shape(polyline((room.x, y), (room.right, y)), None, Pen(0.18, self.theme.soft))
            y += LINE_TO_WRITE

    def _title(self, of: str, cut: list[str]) -> Iterator[Mark]:
        wide, theme = self.size[0], self.theme
        code = Text((wide - INSET, INSET + 4.2), self.made[1], CAPTION, False, theme.soft, "end")
        room = wide - 2 * INSET - width(self.made[1], CAPTION) - 3
        name, size, was_cut = fitted_title(f"{self.panel.name} {of}".strip(), room, (13.0, 11.0, 9.0))
        cut += [self.panel.name] if was_cut else []
        yield Text((INSET, INSET + 4.6), name, size, True, theme.ink)
        yield code

    def _cells(self) -> list[Cell]:
        return list(cells(self.findings, self.panel, self.findings.panels[self.panel.id]))

    def _foot(self) -> tuple[str, ...]:
        wide = self.size[0] - 2 * INSET
        key = "A full square: all of it tested. A hollow one: not all."
        judged = self.findings.directory.panels.get(self.panel.id)
        fed = f"{judged.fed}." if judged is not None and judged.fed else ""
        return (
            *wrap(fed, wide, CAPTION),
            *wrap(f"{CAUTION} {self._stays_live()}", wide, CAPTION),
            *wrap(key, wide, CAPTION),
            *wrap(f"{self.made[0]}.", wide, CAPTION),
        )

    def _stays_live(self) -> str:
        """Return what no handle of this panel opens: the wires above its main, or those that feed it."""
        if self.panel.mains:
            return ABOVE_THE_MAIN.format(main=words_of(self.findings.home, self.panel).main)
        return FEEDING

    def _cell(self, cell: Cell, area: Rect, rows: tuple[int, int], cut: list[str]) -> Iterator[Mark]:
        """Draw one breaker: its numbers, its square, its words in the largest letters that fit."""
        theme = self.theme
        shown = [(words, top, bottom) for words, top, bottom in cell.numbers if rows[0] <= top / 2 < rows[1]]
        step = area.height / max(1, len(shown))
        usual = LARGE_NUMBER if step >= LARGE_ROW else NUMBER_SIZE
        for at, (words, _, _) in enumerate(shown):
            fitting = NUMBER_SIZE * (NUMBER_WIDE - 1) / width(words, NUMBER_SIZE, True)
            size = min(usual, NUMBER_SIZE * step / 3.6, fitting)
            y = area.y + (at + 0.5) * step + cap_height(size) / 2
            shade = theme.ink if cell.breaker else theme.soft
            yield Text((area.x + NUMBER_WIDE / 2, y), words, size, bool(cell.breaker), shade, "middle")
        x, room = area.x + NUMBER_WIDE + 1.0, area.width - NUMBER_WIDE - 2.2
        if cell.breaker is None:
            yield Text((x, area.y + area.height / 2 + cap_height(7.5) / 2), "blank", 7.5, False, theme.soft)
        else:
            if (standing := self._standing(cell.breaker)) is not None:
                yield from square(standing, x, area.y + area.height / 2 - SQUARE / 2, theme)
                x, room = x + SQUARE + 1.2, room - SQUARE - 1.2
            yield from self._words(cell.breaker, Rect(x, area.y, room, area.height), step, cut)
        yield Shape(polyline((area.x, area.bottom), (area.right, area.bottom)), None, Pen(0.13, theme.line))

    def _words(self, breaker: Breaker, area: Rect, row: float, cut: list[str]) -> Iterator[Mark]:
        """Draw a line: large where rows are high, and no larger over two spaces than beside one."""
        line = self.findings.lines.get(breaker.id, Line(breaker.id, ("",)))
        variants = with_note(line, breaker, self.findings.troubles.get(breaker.id, ""))
        lines, size, was_cut = _fitted(variants, area, LARGE_SIZES if row >= LARGE_ROW else SIZES)
        cut += [f"{self.findings.marks.get(breaker.id, '')}: {variants[0]}"] if was_cut else []
        top = area.y + (area.height - len(lines) * text_height(size)) / 2
        yield from text_lines(lines, area.x, top, size, self.theme)

    def _standing(self, breaker: Breaker) -> Standing | None:
        """Return 'proved' where all that is recorded on a breaker was tested, 'claimed' where not all was."""
        found = {one.standing for one in self.findings.conclusions.values() if breaker.id in one.breakers}
        return None if not found else "proved" if found == {"proved"} else "claimed"


def _fitted(variants: Sequence[str], area: Rect, sizes: tuple[float, ...]) -> tuple[tuple[str, ...], float, bool]:
    """Return the fullest words that fit, their size, and whether they had to be cut.

    Smaller letters, then shorter words, then letters as small as captions are taken before a word is broken.
    """
    for tried, is_whole in ((sizes, True), ((CAPTION,), True), (sizes, False)):
        for variant in variants:
            for size in tried:
                if is_whole and any(width(word, size) > area.width for word in variant.split()):
                    continue
                lines = max(1, int((area.height - AIR) / text_height(size)))
                shown, was_cut = fits((variant,), area.width, size, lines=lines)
                if not was_cut:
                    return shown, size, False
    last, was_cut = one_line((variants[-1],), area.width, SIZES[-1])
    return (last,), SIZES[-1], was_cut
