"""The bodies of plates, without their words: how a standing is inked, and what a feed is while handles are off."""

from math import ceil

from floorplan_circuits.drawing.ink import Mark, Path, Pen, Shape, polygon, polyline, rectangle
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.findings import Standing

PLATE_HEIGHT = 3.5
PLATE_CORNER = 0.55
TICK = 2.0
"""Side in mm of the empty box to tick once somebody has tested."""
THIN = 0.18
STRIPES, STRIPE = 0.6, 1.1
"""Height of the striped band at head and foot of an unknown feed's plate, and how far apart its stripes are, in mm."""
LEAF_WIDE, LEAF_HIGH, LEAF_CORNER = 2.2, 2.9, 0.8
DOTTED = (0.3, 0.6)
DASHED = (0.75, 0.55)


# --- how we know ----------------------------------------------------------------------------------------------------


def standing_body(standing: Standing, x: float, y: float, wide: float, theme: Theme) -> tuple[Shape, ...]:
    """Draw the body of a plate that tells how we know, its top left corner at (x, y)."""
    outline = rectangle(x, y, wide, PLATE_HEIGHT, PLATE_CORNER)
    if standing == "proved":
        return (Shape(outline, theme.ink),)
    if standing == "contradicted":
        edge = Pen(0.35, theme.caution_ink, join="round")
        return (Shape(_zigzag(x, y, wide, PLATE_HEIGHT), theme.caution, edge),)
    body = Shape(outline, theme.paper, _edge(standing, theme.ink))
    if standing != "expired":
        return (body,)
    foot = rectangle(x, y + PLATE_HEIGHT - 0.55, wide, 0.55)
    corner = polygon((x, y), (x + 1.1, y), (x, y + 1.1))
    return (body, Shape(foot, theme.ink), Shape(corner, theme.ink))


def _edge(standing: Standing, ink: str) -> Pen:
    pens = {
        "unknown": Pen(0.3, ink, DOTTED, cap="round"),
        "claimed": Pen(0.22, ink, DASHED),
        "suggested": Pen(0.3, ink, DASHED),
    }
    return pens.get(standing, Pen(0.35, ink))


def _zigzag(x: float, y: float, wide: float, high: float) -> Path:
    teeth = max(2, round(wide / 1.4))
    step = wide / teeth
    top = [(x + step * at / 2, y + (0.45 if at % 2 else 0.0)) for at in range(2 * teeth + 1)]
    foot = [(px, y + high - (py - y)) for px, py in reversed(top)]
    return polygon(*top, *foot)


# --- while handles are off ------------------------------------------------------------------------------------------


def live_body(x: float, y: float, wide: float, theme: Theme) -> tuple[Mark, ...]:
    """Draw the body of a live feed's plate: solid ink."""
    return (Shape(rectangle(x, y, wide, PLATE_HEIGHT, PLATE_CORNER), theme.ink),)


def dead_body(x: float, y: float, wide: float, theme: Theme) -> tuple[Mark, ...]:
    """Draw the body of a plate of what should be dead: thin, with an empty box to tick once it was tested."""
    outline = rectangle(x, y, wide, PLATE_HEIGHT, PLATE_CORNER)
    tick = rectangle(x + 0.6, y + (PLATE_HEIGHT - TICK) / 2, TICK, TICK, 0.2)
    pen = Pen(THIN, theme.ink)
    return Shape(outline, theme.paper, pen), Shape(tick, theme.paper, Pen(0.25, theme.ink))


def caution_body(standing: Standing, x: float, y: float, wide: float, theme: Theme) -> tuple[Mark, ...]:
    """Draw the body of a plate that is not proved, in a box picked for work: its own edge on the caution's yellow.

    Stripes at its foot say so where grey paper has no yellow.
    """
    outline = rectangle(x, y, wide, PLATE_HEIGHT, PLATE_CORNER)
    edge = _edge(standing, theme.caution_ink)
    ground = Shape(outline, theme.caution, Pen(max(edge.width, 0.35), edge.colour, edge.dash, edge.cap))
    return ground, _stripes(x, y + PLATE_HEIGHT - STRIPES, wide, theme.caution_ink)


def unknown_body(x: float, y: float, wide: float, theme: Theme) -> tuple[Mark, ...]:
    """Draw the body of a plate of which nobody knows whether it is live: caution, stripes at head and foot."""
    ink = theme.caution_ink
    ground = Shape(rectangle(x, y, wide, PLATE_HEIGHT, PLATE_CORNER), theme.caution)
    edge = Shape(rectangle(x, y, wide, PLATE_HEIGHT, PLATE_CORNER), None, Pen(0.35, ink))
    bands = [_stripes(x, top, wide, ink) for top in (y, y + PLATE_HEIGHT - STRIPES)]
    return (ground, *bands, edge)


def _stripes(x: float, y: float, wide: float, ink: str) -> Shape:
    """Draw slanting stripes in a band, each cut off at the band's ends."""
    pieces: list[Path] = []
    for nth in range(-1, ceil(wide / STRIPE)):
        foot = x + nth * STRIPE
        corners = (
            (foot, y + STRIPES),
            (foot + STRIPE / 2, y + STRIPES),
            (foot + STRIPE / 2 + STRIPES, y),
            (foot + STRIPES, y),
        )
        kept = [(min(max(at, x), x + wide), high) for at, high in corners]
        pieces.append(polygon(*kept))
    return Shape(tuple(step for piece in pieces for step in piece), ink)


def not_opened_leaf(x: float, y: float, theme: Theme) -> tuple[Mark, ...]:
    """Draw about (x, y) the small outline, its upper right corner cut, of a box that nobody has looked into."""
    left, top = x - LEAF_WIDE / 2, y - LEAF_HIGH / 2
    right, foot = left + LEAF_WIDE, top + LEAF_HIGH
    outline = polygon((left, top), (right - LEAF_CORNER, top), (right, top + LEAF_CORNER), (right, foot), (left, foot))
    fold = polyline((right - LEAF_CORNER, top), (right - LEAF_CORNER, top + LEAF_CORNER), (right, top + LEAF_CORNER))
    pen = Pen(0.22, theme.ink)
    return Shape(outline, theme.paper, pen), Shape(fold, None, Pen(0.15, theme.ink))
