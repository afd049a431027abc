"""Plates: the small labels that say a circuit's number and, by their ink, how we know."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from floorplan_circuits.drawing.ink import (
    MM_PER_POINT,
    Group,
    Mark,
    Path,
    Pen,
    Shape,
    Text,
    circle,
    polygon,
    polyline,
    rectangle,
)
from floorplan_circuits.drawing.lettering import cap_height, width
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.findings import XY, BoxFinding, Conclusion, Standing, Subject

PLATE_HEIGHT = 3.5
PLATE_PADDING = 1.5
PLATE_CORNER = 0.55
PLATE_SIZE = 9.0
BOX_PLATE_SIZE = 8.5
BOX_PLATE_HEIGHT = 4.2
PLATE_GAP = 0.5
STROKE_ROOM = 1.2
UNKNOWN_WORD = "?"

DOTTED = (0.3, 0.6)
DASHED = (0.75, 0.55)


@dataclass(frozen=True, slots=True)
class Plate:
    """What one plate says: words and standing; `passing`: of a cable without a device here."""

    words: str
    standing: Standing
    passing: bool = False

    @property
    def body(self) -> float:
        """Width in mm of the plate itself."""
        return max(width(self.words, PLATE_SIZE, self.standing != "claimed") + PLATE_PADDING, PLATE_HEIGHT * 0.9)

    @property
    def width(self) -> float:
        """Width in mm, with the strokes that say it passes through."""
        return self.body + (2 * STROKE_ROOM if self.passing else 0.0)


def plate_of(one: Conclusion, marks: Mapping[int, str], passing: bool = False) -> Plate:
    """Return the plate of a feed: its breakers' numbers, or a question mark."""
    words = [marks.get(breaker, UNKNOWN_WORD) for breaker in one.breakers] + ["else" for _ in one.others]
    if one.standing == "unknown":
        return Plate(UNKNOWN_WORD, "unknown", passing)
    return Plate("+".join(words) or "none", one.standing, passing)


def plate(shown: Plate, centre: XY, theme: Theme, subject: Subject | None = None) -> Group:
    """Draw a plate around its centre."""
    x, y = centre[0] - shown.body / 2, centre[1] - PLATE_HEIGHT / 2
    inked = shown.standing == "proved"
    colour = theme.paper if inked else theme.caution_ink if shown.standing == "contradicted" else theme.ink
    baseline = centre[1] + cap_height(PLATE_SIZE) / 2
    words = Text((centre[0], baseline), shown.words, PLATE_SIZE, shown.standing != "claimed", colour, "middle")
    strokes = _passing_strokes(x, centre[1], shown.body, theme) if shown.passing else ()
    return Group((*strokes, *_body(shown.standing, x, y, shown.body, theme), words), subject)


def _passing_strokes(x: float, y: float, wide: float, theme: Theme) -> tuple[Mark, ...]:
    pen = Pen(0.35, theme.ink)
    ends = ((x - STROKE_ROOM + 0.1, x - 0.15), (x + wide + 0.15, x + wide + STROKE_ROOM - 0.1))
    return tuple(Shape(polyline((a, y), (b, y)), None, pen) for a, b in ends)


def _body(standing: Standing, x: float, y: float, wide: float, theme: Theme) -> tuple[Mark, ...]:
    outline = rectangle(x, y, wide, PLATE_HEIGHT, PLATE_CORNER)
    if standing == "proved":
        return (Shape(outline, theme.ink),)
    if standing == "contradicted":
        edge = Pen(0.35, theme.caution_ink, join="round")
        return (Shape(_zigzag(x, y, wide, PLATE_HEIGHT), theme.caution, edge),)
    pens = {
        "unknown": Pen(0.3, theme.ink, DOTTED, cap="round"),
        "claimed": Pen(0.22, theme.ink, DASHED),
        "suggested": Pen(0.3, theme.ink, DASHED),
    }
    body = Shape(outline, theme.paper, pens.get(standing, Pen(0.35, theme.ink)))
    if standing != "expired":
        return (body,)
    foot = rectangle(x, y + PLATE_HEIGHT - 0.55, wide, 0.55)
    corner = polygon((x, y), (x + 1.1, y), (x, y + 1.1))
    return (body, Shape(foot, theme.ink), Shape(corner, theme.ink))


def _zigzag(x: float, y: float, wide: float, high: float) -> Path:
    teeth = max(2, round(wide / 1.4))
    step = wide / teeth
    top = [(x + step * at / 2, y + (0.45 if at % 2 else 0.0)) for at in range(2 * teeth + 1)]
    foot = [(px, y + high - (py - y)) for px, py in reversed(top)]
    return polygon(*top, *foot)


# --- rows of plates -------------------------------------------------------------------------------------------------


def row_width(plates: Sequence[Plate]) -> float:
    """Return the width in mm of plates side by side."""
    return sum(one.width for one in plates) + PLATE_GAP * max(0, len(plates) - 1)


def plate_row(plates: Sequence[Plate], centre: XY, theme: Theme, subject: Subject | None = None) -> Group:
    """Draw plates side by side around one centre."""
    x = centre[0] - row_width(plates) / 2
    drawn = []
    for one in plates:
        drawn.append(plate(one, (x + one.width / 2, centre[1]), theme))
        x += one.width + PLATE_GAP
    return Group(tuple(drawn), subject)


# --- the plate of a box ---------------------------------------------------------------------------------------------


def count_of(found: BoxFinding) -> str:
    """Return what the triangle holds: how many circuits are known, + for anything unknown, ? for fewer than two."""
    known = len(found.breakers) + len(found.others)
    if known < 2:
        return "?"
    return f"{known}+" if found.unknown else str(known)


def box_plate_width(mark: str, tied: bool = False) -> float:
    """Return the width in mm of a box plate."""
    return 5.4 + width(mark, BOX_PLATE_SIZE, True) + 1.0 + (1.9 if tied else 0.0)


def box_plate(mark: str, found: BoxFinding, centre: XY, theme: Theme, subject: Subject | None = None) -> Group:
    """Draw the caution plate of a shared box: a triangle with the count, then the box's mark."""
    wide = box_plate_width(mark, found.tied)
    x, y = centre[0] - wide / 2, centre[1] - BOX_PLATE_HEIGHT / 2
    ink = theme.caution_ink
    baseline = centre[1] + cap_height(BOX_PLATE_SIZE) / 2
    marks: list[Mark] = [
        Shape(rectangle(x, y, wide, BOX_PLATE_HEIGHT, PLATE_CORNER), theme.caution, Pen(0.35, ink)),
        *_triangle(x + 0.55, centre[1] - 1.65, 4.3, 3.3, count_of(found), theme),
        Text((x + 5.2, baseline), mark, BOX_PLATE_SIZE, True, ink),
    ]
    if found.tied:
        marks += _tie_bar(x + wide - 1.5, y + 0.6, BOX_PLATE_HEIGHT - 1.2, ink)
    return Group(tuple(marks), subject, f"box {mark}")


def _triangle(x: float, y: float, wide: float, high: float, count: str, theme: Theme) -> tuple[Mark, ...]:
    outline = polygon((x + wide / 2, y), (x + wide, y + high), (x, y + high))
    size = 5.6 if len(count) == 1 else 4.8
    at = (x + wide / 2, y + high - 0.4)
    return Shape(outline, theme.caution_ink), Text(at, count, size, True, theme.caution, "middle")


def _tie_bar(x: float, y: float, high: float, ink: str) -> list[Mark]:
    bar = Shape(polyline((x, y), (x, y + high)), None, Pen(0.35, ink))
    return [bar, Shape(circle(x, y + 0.3, 0.45), ink), Shape(circle(x, y + high - 0.3, 0.45), ink)]


# --- squares of the panel's rows ------------------------------------------------------------------------------------

SQUARE = 1.45
SQUARE_PITCH = 2.0
EVIDENCE_ORDER: tuple[Standing, ...] = (
    "proved",
    "traced",
    "suggested",
    "claimed",
    "expired",
    "unknown",
    "contradicted",
)


def square(standing: Standing, x: float, y: float, theme: Theme) -> tuple[Mark, ...]:
    """Draw the small square of one feed, its top left corner at (x, y). An unknown feed has none."""
    if standing == "unknown":
        return ()
    edge = Pen(0.2, theme.ink)
    inner = SQUARE - 0.2
    body = rectangle(x + 0.1, y + 0.1, inner, inner)
    middle = (x + SQUARE / 2, y + SQUARE / 2)
    if standing == "proved":
        return (Shape(rectangle(x, y, SQUARE, SQUARE), theme.ink),)
    if standing == "contradicted":
        reach = SQUARE * 0.68
        corners = [(middle[0] + dx * reach, middle[1] + dy * reach) for dx, dy in ((0, -1), (1, 0), (0, 1), (-1, 0))]
        return (Shape(polygon(*corners), theme.caution, Pen(0.2, theme.caution_ink)),)
    extra: dict[str, Shape] = {
        "traced": Shape(rectangle(middle[0] - 0.25, middle[1] - 0.25, 0.5, 0.5), theme.ink),
        "suggested": Shape(polyline((x + 0.35, middle[1]), (x + SQUARE - 0.35, middle[1])), None, Pen(0.25, theme.ink)),
        "expired": Shape(polygon((x, y), (x + SQUARE, y), (x, y + SQUARE)), theme.ink),
    }
    marks: tuple[Mark, ...] = (Shape(body, theme.paper, edge),)
    return (*marks, extra[standing]) if standing in extra else marks


def text_height(size: float) -> float:
    """Return the pitch of one line in mm at 1.16 times the letters' size."""
    return size * MM_PER_POINT * 1.16
