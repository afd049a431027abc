"""The photo of a panel as ink: made straight by the corners of its breakers, a numbered tag on each of them."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import dist

from floorplan_circuits.drawing.ink import Bounds, Group, Mark, Pen, PictureMark, Shape, Text, rectangle
from floorplan_circuits.drawing.lettering import cap_height, width
from floorplan_circuits.drawing.palette import LIGHT
from floorplan_circuits.drawing.panel_cells import Cell, cells
from floorplan_circuits.findings import XY, Findings, PanelFinding, Subject
from floorplan_circuits.home.aslant import Aslant, Quad, aslant, is_seen_from_the_front
from floorplan_circuits.home.board_rows import rows_of
from floorplan_circuits.home.power import Breaker, Panel, PhotoFit

TAG_SIZE, TAG_HIGH, TAG_PADDING, TAG_EDGE = 9.0, 4.2, 2.4, 0.35
MOST_BESIDE, MOST_OVER = 0.6, 0.12
"""How much of the photo is shown beside and over the breakers, in parts of their width and height, where it has it:
the labels beside them belong to what the photo proves."""
FROM_EDGE = 0.2
"""How far from the panel's edge a tag stands, in parts of a column: there it hides neither handle nor rating."""
HALF_IN = 0.32
"""How much farther in the lower of two halves has its tag: they are too low for one above the other."""
HALVINGS = 12
SHARES = 10_000


@dataclass(frozen=True, slots=True)
class Tag:
    """A number on the photo: the space (and half) it is of, its middle in mm, and the breaker it names."""

    space: int
    half: str | None
    words: str
    at: XY
    breaker: int


@dataclass(frozen=True, slots=True)
class PhotoDrawn:
    """A drawn photo: its ink and size in mm, its tags, and how mm become parts of the breakers' width and height."""

    ink: Group
    width: float
    height: float
    tags: tuple[Tag, ...] = ()
    shown: Bounds = (0.0, 0.0, 1.0, 1.0)

    def part(self, at: XY) -> XY:
        """Return the place along the breakers, 0 to 1 on them, of a place in mm."""
        left, top, right, bottom = self.shown
        return left + at[0] / self.width * (right - left), top + at[1] / self.height * (bottom - top)


def panel_photo(findings: Findings, panel: Panel, room: tuple[float, float]) -> PhotoDrawn | None:
    """Draw a panel's photo as large as `room` (mm) lets it, straight, with its tags; None for a panel without one.

    Until its corners are marked it is drawn as it was taken.
    """
    fit = panel.photo_fit
    if not panel.photo or 0 in fit.pixels:
        return None
    if fit.corners is None or not is_seen_from_the_front(fit.corners):
        return photo_as_taken(panel, room)
    seen = aslant(fit.corners)
    left, top, right, bottom = shown = _shown(seen, fit)
    wide, high = _fitted(_shape(fit.corners) * (right - left) / (bottom - top), room)
    corners = seen.seen((left, top)), seen.seen((right, top)), seen.seen((right, bottom)), seen.seen((left, bottom))
    photo = PictureMark(panel.photo, (0, 0, wide, high), corners=corners)
    drawn = PhotoDrawn(Group(()), wide, high, (), shown)
    tags = tuple(_tags(findings, panel, drawn))
    return replace(drawn, ink=Group((photo, *(_tag_ink(tag) for tag in tags))), tags=tags)


def photo_as_taken(panel: Panel, room: tuple[float, float]) -> PhotoDrawn | None:
    """Draw a panel's photo as it was taken, as large as `room` (mm) lets it; None for a panel without one."""
    across, down = panel.photo_fit.pixels
    if not panel.photo or not across or not down:
        return None
    wide, high = _fitted(across / down, room)
    return PhotoDrawn(Group((PictureMark(panel.photo, (0, 0, wide, high)),)), wide, high)


def _fitted(shape: float, room: tuple[float, float]) -> tuple[float, float]:
    wide = min(room[0], room[1] * shape)
    return wide, wide / shape


def _shape(corners: Quad) -> float:
    """Return about how many times as wide as high the breakers are: by the means of opposite sides.

    What is seen aslant has no shape of its own; a panel is photographed nearly from the front.
    """
    first, second, third, fourth = corners
    across, down = dist(first, second) + dist(fourth, third), dist(first, fourth) + dist(second, third)
    return min(max(across / down, 0.1), 10.0)


def _shown(seen: Aslant, fit: PhotoFit) -> Bounds:
    """Return how far past the breakers the photo is shown, side by side: no farther than it reaches."""
    left, right = (_reach(seen, fit, side, 0, MOST_BESIDE) for side in (0, 1))
    top, bottom = (_reach(seen, fit, side, 1, MOST_OVER) for side in (0, 1))
    return -left, -top, 1 + right, 1 + bottom


def _reach(seen: Aslant, fit: PhotoFit, side: int, axis: int, most: float) -> float:
    """Return how far one side may move out, up to `most`, until one of its ends leaves the photo."""
    low, high = 0.0, most
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        out = 1 + middle if side else -middle
        ends = ((out, 0.0), (out, 1.0)) if axis == 0 else ((0.0, out), (1.0, out))
        low, high = (middle, high) if all(_is_on(seen, end, fit.pixels) for end in ends) else (low, middle)
    return low


def _is_on(seen: Aslant, at: XY, pixels: tuple[int, int]) -> bool:
    if seen.g * at[0] + seen.h * at[1] + 1 <= 0:  # past the horizon of the picture
        return False
    x, y = seen.seen(at)
    return 0 <= x <= pixels[0] and 0 <= y <= pixels[1]


def grid_lines(fit: PhotoFit, columns: int, rows: int) -> list[tuple[XY, XY]]:
    """Return the lines between the spaces as they lie on the photo, in pixels; none for corners that can't be."""
    if fit.corners is None or not is_seen_from_the_front(fit.corners):
        return []
    seen = aslant(fit.corners).seen
    across = [(seen((0.0, row / rows)), seen((1.0, row / rows))) for row in range(1, rows)]
    return across + [(seen((column / columns, 0.0)), seen((column / columns, 1.0))) for column in range(1, columns)]


# --- tags -----------------------------------------------------------------------------------------------------------


def _tags(findings: Findings, panel: Panel, drawn: PhotoDrawn) -> Iterator[Tag]:
    """Yield a tag for every breaker, where its first space is or where somebody put it."""
    grid = findings.panels[panel.id]
    moved: dict[tuple[int, str | None], tuple[int, int]] = {
        (tag.space, tag.half): tag.at for tag in panel.photo_fit.tags
    }
    left, top, right, bottom = drawn.shown
    tagged: set[int] = set()
    for cell in cells(findings, panel, grid):
        if cell.breaker is None or cell.breaker.id in tagged:
            continue
        tagged.add(cell.breaker.id)
        space, half = _first(cell.breaker)
        x, y = _in_its_row(panel, space) if rows_of(panel) else _usual(cell, grid.columns, grid.rows)
        if (put := moved.get((space, half))) is not None:
            x, y = put[0] / SHARES, put[1] / SHARES
        at = (x - left) / (right - left) * drawn.width, (y - top) / (bottom - top) * drawn.height
        yield Tag(space, half, findings.marks.get(cell.breaker.id, "?"), at, cell.breaker.id)


def photo_grid(panel: Panel, grid: PanelFinding) -> tuple[int, int]:
    """Return how many columns and rows of breakers the photo shows: on a board of rows they stand side by side."""
    rows = rows_of(panel)
    return (max(map(len, rows)), len(rows)) if rows else (grid.columns, grid.rows)


def _in_its_row(panel: Panel, space: int) -> XY:
    """Return the middle of a way of a board of rows, in parts of the board's width and height."""
    rows = rows_of(panel)
    row, at = next((row, spaces.index(space)) for row, spaces in enumerate(rows) if space in spaces)
    return (at + 0.5) / max(map(len, rows)), (row + 0.5) / len(rows)


def _first(breaker: Breaker) -> tuple[int, str | None]:
    """Return the first space of a breaker, and its half."""
    pole = min(breaker.poles, key=lambda pole: (pole.space, pole.half or ""))
    return pole.space, pole.half


def _usual(cell: Cell, columns: int, rows: int) -> XY:
    """Return the middle of a cell's height, near the panel's edge; of two halves the lower stands farther in."""
    edge = FROM_EDGE + (HALF_IN if cell.is_half and cell.top % 2 else 0.0)
    across = 1 - edge if columns == 2 and cell.column == 1 else edge
    return (cell.column + across) / columns, (cell.top + cell.bottom) / 4 / rows


def tag_bounds(tag: Tag) -> Bounds:
    """Return the room a tag takes, in mm."""
    half = max(width(tag.words, TAG_SIZE, True) + TAG_PADDING, TAG_HIGH) / 2
    x, y = tag.at
    return x - half, y - TAG_HIGH / 2, x + half, y + TAG_HIGH / 2


def _tag_ink(tag: Tag) -> Group:
    """Draw a tag: round at its ends, so that it is taken for no plate, which tells how a thing is known.

    It is light in every theme: most breakers are black.
    """
    left, top, right, bottom = tag_bounds(tag)
    outline = rectangle(left, top, right - left, bottom - top, TAG_HIGH / 2)
    baseline = tag.at[1] + cap_height(TAG_SIZE) / 2
    marks: tuple[Mark, ...] = (
        Shape(outline, LIGHT.paper, Pen(TAG_EDGE, LIGHT.ink)),
        Text((tag.at[0], baseline), tag.words, TAG_SIZE, True, LIGHT.ink, "middle"),
    )
    return Group(marks, Subject("breaker", tag.breaker), f"{tag.words} on the photo")


def tag_at(drawn: PhotoDrawn, at: XY, reach: float) -> Tag | None:
    """Return the tag at a place in mm, the nearest of several, None for none."""
    near = {tag: dist(tag.at, at) for tag in drawn.tags if _is_in(tag_bounds(tag), at, reach)}
    return min(near, key=lambda tag: near[tag]) if near else None


def _is_in(bounds: Bounds, at: XY, reach: float) -> bool:
    left, top, right, bottom = bounds
    return left - reach <= at[0] <= right + reach and top - reach <= at[1] <= bottom + reach
