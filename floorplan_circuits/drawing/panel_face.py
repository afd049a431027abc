"""The panel's face: every space in its place, its number large, what it feeds, and how we know."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from floorplan_circuits.drawing.ink import Bounds, Group, Mark, Pen, Shape, Text, polyline, rectangle
from floorplan_circuits.drawing.lettering import cap_height, fits, width
from floorplan_circuits.drawing.palette import Theme, tint
from floorplan_circuits.drawing.panel_body import BODY, body, tie_bar
from floorplan_circuits.drawing.plan_building import fill
from floorplan_circuits.drawing.plates import EVIDENCE_ORDER, SQUARE, SQUARE_PITCH, square, text_height
from floorplan_circuits.findings import Conclusion, Findings, Line, PanelFinding, Standing, Subject
from floorplan_circuits.home.power import Breaker, Panel

NUMBER = 9.0
SPINE = 13.0
NUMBER_SIZE = 15.0
HALF_NUMBER_SIZE = NUMBER_SIZE * 0.72
WORDS_SIZE, LEAST_SIZE = 8.4, 7.5
MOST_SQUARES = 12


@dataclass(frozen=True, slots=True)
class FaceStyle:
    """How a face is laid out: its width and the height of a row in mm, its theme, and where squares overflow to."""

    width: float
    row: float
    theme: Theme
    on_screen: bool = False


@dataclass(slots=True)
class Face:
    """A drawn face: its ink, height, what a point on it names, and which lines had to be shortened."""

    marks: list[Mark] = field(default_factory=list)
    spots: list[tuple[Bounds, Subject]] = field(default_factory=list)
    shortened: list[str] = field(default_factory=list)
    height: float = 0.0

    @property
    def ink(self) -> Group:
        """Everything drawn."""
        return Group(tuple(self.marks))


@dataclass(frozen=True, slots=True)
class Cell:
    """A stretch of one column that one breaker (or nothing) takes: rows from `top` to `bottom`, in halves of a row."""

    breaker: Breaker | None
    column: int
    top: int
    bottom: int
    numbers: tuple[tuple[str, int, int], ...]
    """What to print, and from which half row to which."""

    @property
    def is_half(self) -> bool:
        """Whether it is half a space."""
        return self.bottom - self.top == 1


def face_rows(findings: Findings, panel: Panel) -> int:
    """Return how many rows the panel's face has."""
    return findings.panels[panel.id].rows


def panel_face(findings: Findings, panel: Panel, style: FaceStyle) -> Face:
    """Draw a panel's face with its top left corner at the origin."""
    grid = findings.panels[panel.id]
    face = Face(height=grid.rows * style.row)
    high = face.height
    spine = _spine_bounds(grid, style)
    face.marks.append(Shape(rectangle(0, 0, style.width, high), style.theme.paper))
    face.marks.append(Shape(rectangle(spine[0], 0, spine[1] - spine[0], high), style.theme.metal))
    cells = list(_cells(findings, panel, grid))
    for cell in cells:
        _draw_cell(cell, findings, grid, style, face)
    face.marks += _ties(cells, grid, style)
    face.marks.append(Shape(rectangle(0, 0, style.width, high), None, Pen(0.35, style.theme.ink)))
    return face


# --- what stands where ----------------------------------------------------------------------------------------------


def _cells(findings: Findings, panel: Panel, grid: PanelFinding) -> Iterator[Cell]:
    """Yield the stretches of the face: breakers over their spaces, then what is blank."""
    home = findings.home
    by_column: dict[tuple[int | None, int], list[tuple[int, int, str]]] = {}
    for space, (row, column) in grid.cells.items():
        halves = [grid.taken.get((space, half)) for half in ("A", "B")]
        if halves[0] == halves[1]:
            by_column.setdefault((halves[0], column), []).append((2 * row, 2 * row + 2, f"{panel.prefix}{space}"))
        else:
            for at, half in enumerate(("A", "B")):
                stretch = (2 * row + at, 2 * row + at + 1, f"{panel.prefix}{space}{half}")
                by_column.setdefault((halves[at], column), []).append(stretch)
    for (breaker, column), stretches in by_column.items():
        found = home.breakers.get(breaker)
        for run in _runs(sorted(stretches)) if found is not None else ([one] for one in stretches):
            numbers = tuple((words, top, bottom) for top, bottom, words in run)
            yield Cell(found, column, run[0][0], run[-1][1], numbers)


def _runs(stretches: Sequence[tuple[int, int, str]]) -> Iterator[list[tuple[int, int, str]]]:
    """Yield pieces that follow each other without a gap."""
    run: list[tuple[int, int, str]] = []
    for stretch in stretches:
        if run and run[-1][1] != stretch[0]:
            yield run
            run = []
        run.append(stretch)
    if run:
        yield run


def _is_right(cell: Cell, grid: PanelFinding) -> bool:
    return grid.columns == 2 and cell.column == 1


def _spine_bounds(grid: PanelFinding, style: FaceStyle) -> tuple[float, float]:
    if grid.columns == 1:
        return style.width - SPINE / 2 - 0.4, style.width
    return (style.width - SPINE) / 2, (style.width + SPINE) / 2


# --- one cell -------------------------------------------------------------------------------------------------------


def _draw_cell(cell: Cell, findings: Findings, grid: PanelFinding, style: FaceStyle, face: Face) -> None:
    half = style.row / 2
    top, bottom = cell.top * half, cell.bottom * half
    spine = _spine_bounds(grid, style)
    right = _is_right(cell, grid)
    number_x = style.width - NUMBER if right else 0.0
    words_x = spine[1] + 1.6 if right else NUMBER + 1.6
    room = (style.width - NUMBER - spine[1] if right else spine[0] - NUMBER) - 2.4
    left_edge, right_edge = (spine[1], style.width) if right else (0.0, spine[0])
    face.marks += _number_column(cell, findings, number_x, style)
    if cell.breaker is None:
        face.marks.append(_words_line("blank", words_x, (top + bottom) / 2, WORDS_SIZE, style.theme.soft))
    else:
        _draw_words(cell, cell.breaker, findings, (words_x, top, room, bottom - top), style, face)
        body_x = spine[1] - BODY - 0.3 if right or grid.columns == 1 else spine[0] + 0.3
        face.marks += body(cell.breaker, (body_x, top + 0.3, BODY, bottom - top - 0.6), right, style.theme)
        subject = Subject("breaker", cell.breaker.id)
        face.spots.append(((0.0 if not right else spine[0], top, right_edge, bottom), subject))
    line = Pen(0.13, style.theme.line)
    face.marks.append(Shape(polyline((left_edge, bottom), (right_edge, bottom)), None, line))


def _number_column(cell: Cell, findings: Findings, x: float, style: FaceStyle) -> Iterator[Mark]:
    half, theme = style.row / 2, style.theme
    top, bottom = cell.top * half, cell.bottom * half
    swatch = rectangle(x, top, NUMBER, bottom - top)
    colour = findings.colours.get(cell.breaker.id) if cell.breaker else None
    if colour is not None:
        yield from fill(swatch, colour, theme)
    elif cell.breaker is None:
        yield Shape(swatch, theme.furniture)
    for words, first, last in cell.numbers:
        size = _number_size(words, cell.is_half, style)
        y = (first + last) / 2 * half
        if colour is not None:
            wide, high = width(words, size, True) + 1.2, cap_height(size) + 1.2
            ground = rectangle(x + (NUMBER - wide) / 2, y - high / 2, wide, high)
            yield Shape(ground, tint(theme, colour))
        shade = theme.ink if cell.breaker else theme.faint
        yield Text((x + NUMBER / 2, y + cap_height(size) / 2), words, size, bool(cell.breaker), shade, "middle")


def _number_size(words: str, is_half: bool, style: FaceStyle) -> float:
    size = HALF_NUMBER_SIZE if is_half else min(NUMBER_SIZE, NUMBER_SIZE * style.row / 6.4)
    while width(words, size, True) > NUMBER - 0.8:
        size *= 0.94
    return size


# --- words and squares ----------------------------------------------------------------------------------------------


def _draw_words(
    cell: Cell,
    breaker: Breaker,
    findings: Findings,
    bounds: tuple[float, float, float, float],
    style: FaceStyle,
    face: Face,
) -> None:
    x, top, room, high = bounds
    line = findings.lines.get(breaker.id, Line(breaker.id, ("",)))
    squares = _squares(findings, breaker)
    most = 1 if cell.is_half or high < 9 else 2 if high < 16 else 3
    shown, size, was_cut = _fitted(_with_note(line.variants, breaker), room, most, cell.is_half or style.row < 8.5)
    if was_cut:
        face.shortened.append(f"{findings.marks.get(breaker.id, '')}: {line.variants[-1]}")
    pitch = text_height(size)
    squares_high = SQUARE + (0.5 if cell.is_half else 0.9) if squares else 0.0
    y = top + (high - pitch * len(shown) - squares_high) / 2
    quiet = not squares and not line.own
    for words in shown:
        face.marks.append(_words_line(words, x, y + pitch / 2, size, style.theme.soft if quiet else style.theme.ink))
        y += pitch
    face.marks += _square_row(squares, x, y + (0.2 if cell.is_half else 0.5), room, style)


def _fitted(variants: tuple[str, ...], room: float, lines: int, small: bool) -> tuple[tuple[str, ...], float, bool]:
    """Return the fullest variant that fits, as large as it can be, its size, and whether it had to be cut."""
    sizes = (LEAST_SIZE,) if small else (WORDS_SIZE, LEAST_SIZE)
    for variant in variants:
        for size in sizes:
            shown, was_cut = fits((variant,), room, size, False, lines)
            if not was_cut:
                return shown, size, False
    return (*fits(variants[-1:], room, LEAST_SIZE, False, lines)[:1], LEAST_SIZE, True)


def _with_note(variants: tuple[str, ...], breaker: Breaker) -> tuple[str, ...]:
    """Add to each variant what a person must know before touching the breaker, in full, then short."""
    notes = _notes(breaker)
    return tuple(f"{words} ({note})" for words in variants for note in notes) if notes else variants


def _notes(breaker: Breaker) -> tuple[str, ...]:
    found = breaker.found
    if found.state in ("off", "tripped"):
        short = f"found {found.state}"
        return (f"{short}: {found.why}", short) if found.why else (short,)
    return ("never turn off",) if breaker.may_open.may == "never" else ()


def _words_line(words: str, x: float, middle: float, size: float, colour: str) -> Text:
    return Text((x, middle + cap_height(size) / 2), words, size, False, colour)


def _squares(findings: Findings, breaker: Breaker) -> list[Standing]:
    """Return the standings of all feeds on the breaker, the most proved first."""
    found = (one for one in findings.conclusions.values() if breaker.id in one.breakers)
    return sorted((one.standing for one in found), key=EVIDENCE_ORDER.index)


def _square_row(squares: Sequence[Standing], x: float, y: float, room: float, style: FaceStyle) -> Iterable[Mark]:
    if len(squares) > MOST_SQUARES or len(squares) * SQUARE_PITCH > room + 0.6:
        words = _counted(squares, style.on_screen)
        return [_words_line(words, x, y + SQUARE / 2, 7.0, style.theme.soft)]
    return [mark for at, one in enumerate(squares) for mark in square(one, x + at * SQUARE_PITCH, y, style.theme)]


def _counted(squares: Sequence[Standing], on_screen: bool) -> str:
    """Return in words what too many squares would say: paper points to its list, it gives no share."""
    tested = squares.count("proved")
    if on_screen:
        return f"{tested} of {len(squares)} tested"
    return "all tested" if tested == len(squares) else f"{len(squares) - tested} not tested: see the list"


def _ties(cells: Sequence[Cell], grid: PanelFinding, style: FaceStyle) -> list[Mark]:
    """Draw a bar over the thumbs of breakers that stand in one column and are tied."""
    groups: dict[tuple[int, int], list[Cell]] = {}
    for cell in cells:
        if cell.breaker is not None and cell.breaker.tie is not None:
            groups.setdefault((cell.breaker.tie.group, cell.column), []).append(cell)
    spine, half = _spine_bounds(grid, style), style.row / 2
    marks: list[Mark] = []
    for (_, column), tied in groups.items():
        if len(tied) > 1:
            inner = (spine[0] + spine[1]) / 2 if grid.columns == 2 else spine[1] - 1.2
            x = inner + (1.3 if column == 1 else -1.3) if grid.columns == 2 else inner
            ends = min(cell.top for cell in tied) * half + 2.2, max(cell.bottom for cell in tied) * half - 2.2
            marks += tie_bar(x, ends[0], ends[1], style.theme)
    return marks


def feeds_on(findings: Findings, breaker: int) -> list[Conclusion]:
    """Return the conclusions of all feeds on a breaker."""
    return [one for one in findings.conclusions.values() if breaker in one.breakers]
