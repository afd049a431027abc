"""What lies over the plan while the hand works: the draft of what a gesture is about to do."""

from floorplan_circuits.drawing.ink import Group, Mark, Pen, Shape, Text, polygon, polyline, rectangle
from floorplan_circuits.drawing.lettering import width
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.symbols import bounds as symbol_bounds
from floorplan_circuits.drawing.symbols import stamp
from floorplan_circuits.findings import XY
from floorplan_circuits.view import Draft

DRAFT_PEN = 0.35
DRAFT_DASH = (1.0, 0.8)
WORDS_SIZE = 9.0


def draft_ink(draft: Draft, scale: float, theme: Theme) -> Group:
    """Draw a draft at a scale: dashed lines with their measure, the symbol to be put, a marquee."""
    pen = Pen(DRAFT_PEN, theme.ink, DRAFT_DASH)

    def mm(at: XY) -> XY:
        return at[0] / scale, at[1] / scale

    marks: list[Mark] = [Shape(polyline(*map(mm, line)), None, pen) for line in draft.lines if len(line) > 1]
    if draft.marquee is not None:
        (ax, ay), (bx, by) = map(mm, draft.marquee)
        marks.append(Shape(polygon((ax, ay), (bx, ay), (bx, by), (ax, by)), None, pen))
    if draft.symbol:
        at = mm(draft.at)
        marks.append(stamp(draft.symbol, at, draft.angle, theme.ink, theme.paper))
        left, top, right, bottom = symbol_bounds(draft.symbol, at, draft.angle)
        grow = 1.2 if draft.joins else 0.6
        frame = rectangle(left - grow, top - grow, right - left + 2 * grow, bottom - top + 2 * grow, 0.6)
        marks.append(Shape(frame, None, Pen(DRAFT_PEN, theme.ink) if draft.joins else pen))
    if draft.words:
        marks.append(_words(draft.words, mm(draft.at), theme))
    return Group(tuple(marks))


def _words(words: str, at: XY, theme: Theme) -> Group:
    """Write a measure beside the pointer, on a ground of its own."""
    x, y = at[0] + 3.0, at[1] + 5.5
    ground = rectangle(x - 0.8, y - 3.2, width(words, WORDS_SIZE, True) + 1.6, 4.4, 0.6)
    return Group((Shape(ground, theme.ink), Text((x, y), words, WORDS_SIZE, True, theme.paper)))
