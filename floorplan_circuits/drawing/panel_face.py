"""The panel's face: every space in its place, its number large, what it feeds, and how we know."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from floorplan_circuits.drawing.ink import Bounds, Group, Mark, Pen, Shape, Text, polyline, rectangle
from floorplan_circuits.drawing.lettering import cap_height, width
from floorplan_circuits.drawing.palette import tint
from floorplan_circuits.drawing.panel_body import BODY, THUMB, body, common_handle, is_found_off, tie_bar
from floorplan_circuits.drawing.panel_cells import (
    Cell,
    FaceStyle,
    cells,
    edges,
    face_rows,
    is_right,
    spine_bounds,
)
from floorplan_circuits.drawing.panel_words import WORDS_SIZE, row_words
from floorplan_circuits.drawing.plan_building import fill
from floorplan_circuits.findings import Findings, PanelFinding, Subject, WhatIf
from floorplan_circuits.home.power import Breaker, Panel

__all__ = ["Face", "FaceStyle", "face_rows", "panel_face"]

NUMBER = 9.0
NUMBER_SIZE = 15.0
HALF_NUMBER_SIZE = NUMBER_SIZE * 0.72
WORDS_INSET = 1.6
HEAD_SIZE = 7.5
RING = 0.9
"""Weight in mm of the ring round what is to be turned off."""


@dataclass(slots=True)
class Face:
    """A drawn face: its ink, height, what a point on it names, and which lines had to be shortened."""

    marks: list[Mark] = field(default_factory=list)
    spots: list[tuple[Bounds, Subject]] = field(default_factory=list)
    shortened: list[str] = field(default_factory=list)
    height: float = 0.0
    edges: tuple[float, ...] = ()
    """Where each half row begins, in mm from the top, and where the last one ends."""

    @property
    def ink(self) -> Group:
        """Everything drawn."""
        return Group(tuple(self.marks))


@dataclass(frozen=True, slots=True)
class Layout:
    """Where the rows and the spine of one face lie, in mm."""

    findings: Findings
    grid: PanelFinding
    style: FaceStyle
    edges: tuple[float, ...]
    spine: tuple[float, float]
    what_if: WhatIf | None = None

    def is_off(self, breaker: Breaker) -> bool:
        """Tell whether its handle is drawn off: found so, to be turned so, or flipped."""
        flipped = self.what_if is not None and breaker.id in self.what_if.off
        return flipped or breaker.id in self.style.to_turn_off or is_found_off(breaker)

    def colour_of(self, breaker: Breaker | None) -> int | None:
        """Return the colour its number lies on: none without one, and none while it is off or without power."""
        if breaker is None or (self.what_if is not None and breaker.id not in self.what_if.lit):
            return None
        return self.findings.colours.get(breaker.id)

    def span(self, cell: Cell) -> tuple[float, float]:
        """Return the top and bottom of a cell."""
        return self.edges[cell.top], self.edges[cell.bottom]

    def body_left(self, at_right: bool) -> float:
        """Return where the bodies of a column begin; a single column's keep clear of a ring on the panel's edge."""
        aside = 0.3 if self.grid.columns == 2 else RING - 0.3
        return self.spine[1] - BODY - aside if at_right else self.spine[0] + 0.3


def panel_face(findings: Findings, panel: Panel, style: FaceStyle, what_if: WhatIf | None = None) -> Face:
    """Draw a panel's face with its top left corner at the origin, or as it looks with handles off."""
    grid = findings.panels[panel.id]
    layout = Layout(findings, grid, style, edges(grid, style), spine_bounds(grid, style), what_if)
    face = Face(height=layout.edges[-1], edges=layout.edges)
    high, spine = face.height, layout.spine
    face.marks.append(Shape(rectangle(0, 0, style.width, high), style.theme.paper))
    face.marks.append(Shape(rectangle(spine[0], 0, spine[1] - spine[0], high), style.theme.metal))
    drawn = list(cells(findings, panel, grid))
    for cell in drawn:
        _draw_cell(cell, layout, face)
    face.marks += _heads(layout)
    face.marks += _ties(drawn, layout)
    face.marks += _round_others(drawn, layout)
    face.marks += [_ring(cell, layout) for cell in drawn if cell.breaker and cell.breaker.id in style.to_turn_off]
    face.marks.append(Shape(rectangle(0, 0, style.width, high), None, Pen(0.35, style.theme.ink)))
    return face


def _heads(layout: Layout) -> Iterator[Mark]:
    """Yield a band over each row of a board, which says which row it is and which half of it stands on either side."""
    style = layout.style
    for row, words in layout.grid.heads.items():
        top, bottom = layout.edges[2 * row], layout.edges[2 * row + 2]
        yield Shape(rectangle(0, top, style.width, bottom - top), style.theme.metal)
        yield Shape(polyline((0, top), (style.width, top)), None, Pen(0.5, style.theme.ink))
        baseline = (top + bottom) / 2 + cap_height(HEAD_SIZE) / 2
        left, right = WORDS_INSET, style.width - WORDS_INSET
        yield Text((left, baseline), f"{words}, left half", HEAD_SIZE, True, style.theme.ink)
        yield Text((right, baseline), f"{words}, right half", HEAD_SIZE, True, style.theme.ink, "end")


# --- one cell -------------------------------------------------------------------------------------------------------


def _draw_cell(cell: Cell, layout: Layout, face: Face) -> None:
    style, (spine_left, spine_right) = layout.style, layout.spine
    (top, bottom), right = layout.span(cell), is_right(cell, layout.grid)
    left_edge, right_edge = (spine_right, style.width) if right else (0.0, spine_left)
    face.marks += _number_column(cell, style.width - NUMBER if right else 0.0, layout)
    words_x = left_edge + WORDS_INSET if right else NUMBER + WORDS_INSET
    if cell.breaker is None:
        if bottom - top > 3.0:
            baseline = (top + bottom) / 2 + cap_height(WORDS_SIZE) / 2
            face.marks.append(Text((words_x, baseline), "blank", WORDS_SIZE, False, style.theme.soft))
    else:
        room = right_edge - left_edge - NUMBER - WORDS_INSET - 0.8
        marks, cut = row_words(
            cell.breaker,
            layout.findings,
            (words_x, top, room, bottom - top),
            style.theme,
            style.on_screen,
            style.words_alone,
        )
        face.marks += marks
        face.shortened += [f"{layout.findings.marks.get(cell.breaker.id, '')}: {cut}"] if cut else []
        body_x = layout.body_left(right or layout.grid.columns == 1)
        bounds = (body_x, top + 0.3, BODY, bottom - top - 0.6)
        is_off = layout.is_off(cell.breaker)
        face.marks += body(cell.breaker, bounds, right, style.theme, is_off, letters=not style.words_alone)
        subject = Subject("breaker", cell.breaker.id)
        middle = (spine_left + spine_right) / 2 if layout.grid.columns == 2 else style.width
        face.spots.append(((middle if right else 0.0, top, right_edge if right else middle, bottom), subject))
    face.marks.append(Shape(polyline((left_edge, bottom), (right_edge, bottom)), None, Pen(0.13, style.theme.line)))


def _number_column(cell: Cell, x: float, layout: Layout) -> Iterator[Mark]:
    theme, (top, bottom) = layout.style.theme, layout.span(cell)
    swatch = rectangle(x, top, NUMBER, bottom - top)
    colour = layout.colour_of(cell.breaker)
    if colour is not None:
        yield from fill(swatch, colour, theme)
    elif cell.breaker is None:
        yield Shape(swatch, theme.furniture)
    for words, first, last in cell.numbers:
        size = _number_size(words, last - first == 1, layout.edges[last] - layout.edges[first])
        y = (layout.edges[first] + layout.edges[last]) / 2
        if colour is not None:
            wide, high = width(words, size, True) + 1.2, cap_height(size) + 1.2
            ground = rectangle(x + (NUMBER - wide) / 2, y - high / 2, wide, high)
            yield Shape(ground, tint(theme, colour))
        shade = theme.ink if cell.breaker else theme.faint
        yield Text((x + NUMBER / 2, y + cap_height(size) / 2), words, size, bool(cell.breaker), shade, "middle")


def _ring(cell: Cell, layout: Layout) -> Shape:
    """Draw the ring on a cell's edges, so that it covers no word, from its number to its body."""
    (top, bottom), (left, right) = layout.span(cell), (0.0, layout.style.width)
    middle = (layout.spine[0] + layout.spine[1]) / 2
    if layout.grid.columns == 2:
        left, right = (middle, right) if is_right(cell, layout.grid) else (left, middle)
    outline = rectangle(left + RING / 2, top, right - left - RING, bottom - top, 0.8)
    return Shape(outline, None, Pen(RING, layout.style.theme.ink))


def _number_size(words: str, is_half: bool, high: float) -> float:
    """Return the size in points of a space's number: as large as its column and its row allow."""
    size = min(HALF_NUMBER_SIZE if is_half else NUMBER_SIZE, NUMBER_SIZE * high / 6.4)
    return min(size, size * (NUMBER - 0.8) / width(words, size, True))


def _ties(drawn: Sequence[Cell], layout: Layout) -> list[Mark]:
    """Draw a bar over the thumbs of breakers that stand in one column and are tied."""
    groups: dict[tuple[int, int], list[Cell]] = {}
    for cell in drawn:
        if cell.breaker is not None and cell.breaker.tie is not None:
            groups.setdefault((cell.breaker.tie.group, cell.column), []).append(cell)
    left, right = layout.spine
    marks: list[Mark] = []
    for (_, column), tied in groups.items():
        if len(tied) > 1:
            x = right - 1.2 if layout.grid.columns == 1 else (left + right) / 2 + (1.3 if column == 1 else -1.3)
            if all(cell.breaker is not None and layout.is_off(cell.breaker) for cell in tied):
                x = _outward(column, layout)
            spans = [layout.span(cell) for cell in tied]
            inset = min(2.2, min(bottom - top for top, bottom in spans) / 3)
            ends = min(top for top, _ in spans) + inset, max(bottom for _, bottom in spans) - inset
            sure = all(cell.breaker.tie.made == "by the factory" for cell in tied if cell.breaker and cell.breaker.tie)
            marks += tie_bar(x, ends[0], ends[1], layout.style.theme, sure)
    return marks


def _round_others(drawn: Sequence[Cell], layout: Layout) -> Iterator[Mark]:
    """Yield a line for each breaker whose poles have others between them: both move with one handle."""
    parts: dict[tuple[int, int], list[Cell]] = {}
    for cell in drawn:
        if cell.breaker is not None:
            parts.setdefault((cell.breaker.id, cell.column), []).append(cell)
    for (_, column), cells_of in parts.items():
        if len(cells_of) > 1 and cells_of[0].breaker is not None:
            off = layout.is_off(cells_of[0].breaker)
            at_right = layout.grid.columns == 1 or column == 1
            body_left = layout.body_left(at_right)
            inward_left = at_right and layout.grid.columns == 2
            x = body_left + 0.18 if inward_left != off else body_left + BODY - 0.18
            middles = [sum(layout.span(cell)) / 2 for cell in cells_of]
            yield common_handle(x, min(middles), max(middles), layout.style.theme)


def _outward(column: int, layout: Layout) -> float:
    """Return where the middle of a thumb is that lies outward, so that a bar over thumbs that are off covers them."""
    left, right = layout.spine
    inset = 0.3 + 0.35 + THUMB / 2
    if layout.grid.columns == 1:
        return layout.body_left(at_right=True) + 0.35 + THUMB / 2
    return right - inset if column == 1 else left + inset
