"""One breaker or fuse as it looks in the panel: its body, its rating, which way the handle lies."""

from floorplan_circuits.drawing.ink import Mark, Pen, Shape, Text, circle, polyline, rectangle
from floorplan_circuits.drawing.lettering import cap_height
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.home.power import Breaker

BODY = 5.95
THUMB = 1.15
RATING_SIZE = 7.0


def body(
    breaker: Breaker, bounds: tuple[float, float, float, float], right: bool, theme: Theme, turned_off: bool = False
) -> list[Mark]:
    """Draw the body in (x, y, width, height) mm; `right`: it stands in the right column, so inward is left.

    It is drawn off where it was found so, or where it is to be `turned_off`.
    """
    x, y, wide, high = bounds
    off = turned_off or breaker.found.state in ("off", "tripped")
    marks: list[Mark] = [Shape(rectangle(x, y, wide, high, 0.5), theme.paper, Pen(0.18, theme.soft))]
    inward, outward = (x + 0.35, x + wide - 0.35 - THUMB) if right else (x + wide - 0.35 - THUMB, x + 0.35)
    thumb_x, words_x = (outward, inward) if off else (inward, outward)
    marks += _fuse(thumb_x, y + high / 2, theme) if breaker.device == "fuse" else _thumb(thumb_x, y, high, off, theme)
    words = "off" if off else "" if breaker.amps is None else str(breaker.amps)
    side = words_x > thumb_x
    at = thumb_x + THUMB + (x + wide - thumb_x - THUMB) / 2 if side else (x + thumb_x) / 2
    size = min(RATING_SIZE, RATING_SIZE * high / 4.2)
    marks.append(Text((at, y + high / 2 + cap_height(size) / 2), words, size, off, theme.ink, "middle"))
    return marks


def _thumb(x: float, y: float, high: float, off: bool, theme: Theme) -> list[Mark]:
    length = max(1.8, high - 3.0) if high > 5 else high * 0.62
    outline = rectangle(x, y + (high - length) / 2, THUMB, length, 0.3)
    return [Shape(outline, theme.paper, Pen(0.2, theme.ink))] if off else [Shape(outline, theme.ink)]


def _fuse(x: float, y: float, theme: Theme) -> list[Mark]:
    middle = x + THUMB / 2
    ring = Shape(circle(middle, y, 0.8), theme.paper, Pen(0.25, theme.ink))
    return [ring, Shape(polyline((middle - 0.45, y), (middle + 0.45, y)), None, Pen(0.25, theme.ink))]


def tie_bar(x: float, top: float, bottom: float, theme: Theme) -> list[Mark]:
    """Draw the bar that joins the handles of tied breakers, a dot on each end."""
    bar = Shape(rectangle(x - 0.85, top, 1.7, bottom - top, 0.5), theme.paper, Pen(0.25, theme.ink))
    return [bar, Shape(circle(x, top + 0.8, 0.35), theme.ink), Shape(circle(x, bottom - 0.8, 0.35), theme.ink)]
