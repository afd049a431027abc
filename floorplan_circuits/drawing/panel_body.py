"""One breaker or fuse as it looks in the panel: its body, its rating, which way the handle lies."""

from collections.abc import Iterable, Iterator

from floorplan_circuits.drawing.ink import Mark, Pen, Shape, Text, circle, polyline, rectangle
from floorplan_circuits.drawing.lettering import cap_height, width
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.home.power import Breaker

BODY = 5.95
THUMB = 1.15
RATING_SIZE, LEAST_SIZE = 7.0, 6.8
"""Points of a rating, and the least that can be read: a half space is as high as its letters at least."""
RATING_WIDE = 4.0
"""mm that a body has for its rating beside the thumb."""
TWO_LINES, LINE_PITCH = 5.2, 2.6
"""Least height in mm of a body with letters under its rating, and from one line to the next."""
LETTERS = {"ground fault": "GF", "arc fault": "AF", "residual current": "RC", "surge": "SP"}
"""Two letters each, so that none is taken for a unit: 15 A would be the rating."""
LETTERS_IN_WORDS = {
    "ground fault": "GF trips on a ground fault",
    "arc fault": "AF trips on an arc fault",
    "residual current": "RC trips when current leaks (RCD, RCBO)",
    "surge": "SP guards against surges",
}
SEVERAL = "letters with + stand for several, as G+A for GF and AF"


def is_found_off(breaker: Breaker) -> bool:
    """Tell whether it was off or tripped before anybody touched it."""
    return breaker.found.is_off


def body(
    breaker: Breaker,
    bounds: tuple[float, float, float, float],
    right: bool,
    theme: Theme,
    off: bool = False,
    *,
    letters: bool = True,
) -> list[Mark]:
    """Draw the body in (x, y, width, height) mm; `right`: it stands in the right column, so inward is left.

    `off`: its handle is drawn off, as that of one found off always is. `letters`: with what else trips it.
    """
    x, y, wide, high = bounds
    off = off or is_found_off(breaker)
    marks: list[Mark] = [Shape(rectangle(x, y, wide, high, 0.5), theme.paper, Pen(0.18, theme.soft))]
    inward, outward = (x + 0.35, x + wide - 0.35 - THUMB) if right else (x + wide - 0.35 - THUMB, x + 0.35)
    thumb_x, words_x = (outward, inward) if off else (inward, outward)
    marks += _fuse(thumb_x, y + high / 2, theme) if breaker.device == "fuse" else _thumb(thumb_x, y, high, off, theme)
    side = words_x > thumb_x
    at = thumb_x + THUMB + (x + wide - thumb_x - THUMB) / 2 if side else (x + thumb_x) / 2
    marks += _words(breaker, (at, y + high / 2), high, off, trips_too(breaker) if letters else "", theme)
    return marks


def _words(
    breaker: Breaker, middle: tuple[float, float], high: float, off: bool, letters: str, theme: Theme
) -> Iterator[Mark]:
    """Yield the rating, or that it is off, and below the letters of what else trips it, where both can be read."""
    out = "out" if breaker.device == "fuse" else "off"
    rating = out if off else "" if breaker.amps is None else str(breaker.amps)
    lines = [rating, letters] if letters and high >= TWO_LINES else [rating]
    size = max(LEAST_SIZE, min(RATING_SIZE, RATING_SIZE * high / 4.2))
    x, y = middle
    for at, words in enumerate(lines):
        fitted = min(size, size * RATING_WIDE / max(width(words, size, off), 0.1))
        down = (at - (len(lines) - 1) / 2) * LINE_PITCH
        yield Text((x, y + down + cap_height(fitted) / 2), words, fitted, off, theme.ink, "middle")


def trips_too(breaker: Breaker) -> str:
    """Return the letters of what trips a breaker besides too much current: GF ground fault, G+A ground and arc."""
    found = [letters for name, letters in LETTERS.items() if name in breaker.protects]
    return found[0] if len(found) == 1 else "+".join(letters[0] for letters in found)


def letters_told(breakers: Iterable[Breaker]) -> str:
    """Return what the letters on these breakers stand for, in one sentence; nothing where there are none."""
    protected = [breaker.protects for breaker in breakers]
    found = {name for protects in protected for name in protects}
    words = [said for name, said in LETTERS_IN_WORDS.items() if name in found]
    words += [SEVERAL] if any(len(set(protects)) > 1 for protects in protected) else []
    return f"{'; '.join(words)}." if words else ""


def _thumb(x: float, y: float, high: float, off: bool, theme: Theme) -> list[Mark]:
    length = max(1.8, high - 3.0) if high > 5 else high * 0.62
    outline = rectangle(x, y + (high - length) / 2, THUMB, length, 0.3)
    return [Shape(outline, theme.paper, Pen(0.2, theme.ink))] if off else [Shape(outline, theme.ink)]


def _fuse(x: float, y: float, theme: Theme) -> list[Mark]:
    middle = x + THUMB / 2
    ring = Shape(circle(middle, y, 0.8), theme.paper, Pen(0.25, theme.ink))
    return [ring, Shape(polyline((middle - 0.45, y), (middle + 0.45, y)), None, Pen(0.25, theme.ink))]


def common_handle(x: float, top: float, bottom: float, theme: Theme) -> Mark:
    """Draw the line that joins the two poles of one breaker round the breaker between them, as in a quad."""
    path = polyline((x - 0.5, top), (x, top), (x, bottom), (x - 0.5, bottom))
    return Shape(path, None, Pen(0.35, theme.ink))


def tie_bar(x: float, top: float, bottom: float, theme: Theme, sure: bool = True) -> list[Mark]:
    """Draw the bar that joins the handles of tied breakers, a dot on each end.

    One that is makeshift, or that nobody is sure of, is dashed and has no dots: it counts for nothing.
    """
    pen = Pen(0.25, theme.ink) if sure else Pen(0.25, theme.ink, (0.7, 0.5))
    bar = Shape(rectangle(x - 0.85, top, 1.7, bottom - top, 0.5), theme.paper, pen)
    if not sure:
        return [bar]
    return [bar, Shape(circle(x, top + 0.8, 0.35), theme.ink), Shape(circle(x, bottom - 0.8, 0.35), theme.ink)]
