"""Plates: the small labels that say a circuit's number and, by their ink, how we know."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from floorplan_circuits.drawing.ink import (
    MM_PER_POINT,
    Group,
    Mark,
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
from floorplan_circuits.drawing.plate_bodies import (
    LEAF_WIDE,
    PLATE_CORNER,
    PLATE_HEIGHT,
    TICK,
    caution_body,
    dead_body,
    live_body,
    not_opened_leaf,
    standing_body,
    unknown_body,
)
from floorplan_circuits.findings import XY, BoxFinding, Conclusion, Standing, Subject

PLATE_PADDING = 1.5
PLATE_SIZE = 9.0
BOX_PLATE_SIZE = 8.5
BOX_PLATE_HEIGHT = 4.2
PLATE_GAP = 0.5
STROKE_ROOM = 1.2
UNKNOWN_WORD = "?"

TICK_ROOM = TICK + 0.3
"""How much wider in mm the box to tick makes a plate."""
Liveness = Literal["", "live", "not proved", "caution", "unknown", "should be dead", "not opened"]
"""What a plate tells while handles are off: nothing of it, what its feed is, or that nobody looked into its box.

'caution' is not proved in a box picked for work.
"""


@dataclass(frozen=True, slots=True)
class Plate:
    """What one plate says: words and standing; `passing`: of a cable without a device here.

    With a `liveness` its ink tells that in place of the standing.
    """

    words: str
    standing: Standing
    passing: bool = False
    liveness: Liveness = ""

    @property
    def bold(self) -> bool:
        """Whether its words are bold."""
        if self.liveness in ("live", "unknown"):
            return True
        return self.standing != "claimed" and self.liveness != "should be dead"

    @property
    def body(self) -> float:
        """Width in mm of the plate itself."""
        if self.liveness == "not opened":
            return LEAF_WIDE
        ticked = TICK_ROOM if self.liveness == "should be dead" else 0.0
        return max(width(self.words, PLATE_SIZE, self.bold) + PLATE_PADDING, PLATE_HEIGHT * 0.9) + ticked

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
    strokes = _passing_strokes(x, centre[1], shown.body, theme) if shown.passing else ()
    if shown.liveness == "not opened":
        return Group((*strokes, *not_opened_leaf(*centre, theme)), subject)
    baseline = centre[1] + cap_height(PLATE_SIZE) / 2
    middle = centre[0] + (TICK_ROOM / 2 if shown.liveness == "should be dead" else 0.0)
    words = Text((middle, baseline), shown.words, PLATE_SIZE, shown.bold, _ink_of(shown, theme), "middle")
    return Group((*strokes, *_body(shown, x, y, theme), words), subject)


def _ink_of(shown: Plate, theme: Theme) -> str:
    """Return the colour of a plate's words."""
    inked = shown.liveness == "live" or (shown.standing == "proved" and shown.liveness in ("", "not proved"))
    if inked:
        return theme.paper
    yellow = shown.liveness in ("caution", "unknown")
    return theme.caution_ink if yellow or (shown.standing == "contradicted" and not shown.liveness) else theme.ink


def _body(shown: Plate, x: float, y: float, theme: Theme) -> tuple[Mark, ...]:
    match shown.liveness:
        case "live":
            return live_body(x, y, shown.body, theme)
        case "should be dead":
            return dead_body(x, y, shown.body, theme)
        case "unknown":
            return unknown_body(x, y, shown.body, theme)
        case "caution":
            return caution_body(shown.standing, x, y, shown.body, theme)
        case _:
            return standing_body(shown.standing, x, y, shown.body, theme)


def _passing_strokes(x: float, y: float, wide: float, theme: Theme) -> tuple[Mark, ...]:
    pen = Pen(0.35, theme.ink)
    ends = ((x - STROKE_ROOM + 0.1, x - 0.15), (x + wide + 0.15, x + wide + STROKE_ROOM - 0.1))
    return tuple(Shape(polyline((a, y), (b, y)), None, pen) for a, b in ends)


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
