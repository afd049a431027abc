"""A flat thing in a photograph taken aslant: which place of the photo shows which place of the thing.

The mapping is the projective one from the unit square to a quadrilateral, in the closed form that P. Heckbert gives in
'Fundamentals of Texture Mapping and Image Warping' (1989), written down from memory; it is checked against
scikit-image.
"""

from dataclasses import dataclass

Place = tuple[float, float]
Quad = tuple[Place, Place, Place, Place]
"""Four places, from the top left clockwise."""

LEAST_TURN = 1e-3
"""How much each corner must turn, as the area of its triangle against that of the whole: flatter, nothing is told."""


@dataclass(frozen=True, slots=True)
class Aslant:
    """Where on the photo each place of the unit square is seen: (ax + by + c, dx + ey + f) / (gx + hy + 1)."""

    a: float
    b: float
    c: float
    d: float
    e: float
    f: float
    g: float
    h: float

    def seen(self, at: Place) -> Place:
        """Return where on the photo a place of the unit square is seen. Raises `ZeroDivisionError` on the horizon.

        Examples:
            >>> aslant(((0, 0), (4, 0), (4, 2), (0, 2))).seen((0.5, 0.5))
            (2.0, 1.0)
        """
        x, y = at
        w = self.g * x + self.h * y + 1
        return (self.a * x + self.b * y + self.c) / w, (self.d * x + self.e * y + self.f) / w

    def shown(self, at: Place) -> Place:
        """Return which place of the unit square is seen at a place of the photo: the way back."""
        u, v = at
        a, b, c = self.a - self.g * u, self.b - self.h * u, u - self.c
        d, e, f = self.d - self.g * v, self.e - self.h * v, v - self.f
        det = a * e - b * d
        return (c * e - b * f) / det, (a * f - c * d) / det

    def of_rectangle(self, left: float, top: float, right: float, bottom: float, wide: float, high: float) -> "Aslant":
        """Return the mapping of a part of the square's plane that is drawn `wide` × `high`, such as in pixels."""
        x, y = (right - left) / wide, (bottom - top) / high
        w = self.g * left + self.h * top + 1
        return Aslant(
            self.a * x / w,
            self.b * y / w,
            (self.a * left + self.b * top + self.c) / w,
            self.d * x / w,
            self.e * y / w,
            (self.d * left + self.e * top + self.f) / w,
            self.g * x / w,
            self.h * y / w,
        )


def aslant(corners: Quad) -> Aslant:
    """Return the mapping onto four corners. Raises `ZeroDivisionError` for corners that lie on one line."""
    (x0, y0), (x1, y1), (x2, y2), (x3, y3) = corners
    dx1, dx2, sx = x1 - x2, x3 - x2, x0 - x1 + x2 - x3
    dy1, dy2, sy = y1 - y2, y3 - y2, y0 - y1 + y2 - y3
    det = dx1 * dy2 - dx2 * dy1
    g, h = (sx * dy2 - dx2 * sy) / det, (dx1 * sy - sx * dy1) / det
    return Aslant(x1 - x0 + g * x1, x3 - x0 + h * x3, x0, y1 - y0 + g * y1, y3 - y0 + h * y3, y0, g, h)


def is_seen_from_the_front(corners: Quad) -> bool:
    """Tell whether four corners go round clockwise without a dent: as any flat thing does whose front is seen."""
    turns = [_turn(corners[place - 1], corners[place], corners[(place + 1) % 4]) for place in range(4)]
    area = _turn(corners[0], corners[1], corners[2]) + _turn(corners[0], corners[2], corners[3])
    return area > 0 and all(turn > LEAST_TURN * area for turn in turns)


def _turn(a: Place, b: Place, c: Place) -> float:
    """Return twice the area of a triangle, positive where it turns clockwise as the eye sees it."""
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])
