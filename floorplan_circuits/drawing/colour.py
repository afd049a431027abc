"""Colour as the eye meets it: contrast, difference, and how people with a colour-vision deficiency see it.

A colour is '#rrggbb' (sRGB). `Rgb` holds its channels as 0 … 1, either as encoded or, where said, in linear light.
"""

from functools import cache
from math import atan2, cos, degrees, exp, hypot, radians, sin, sqrt
from typing import Literal

Rgb = tuple[float, float, float]
Lab = tuple[float, float, float]
Matrix = tuple[Rgb, Rgb, Rgb]
Sight = Literal["normal", "protan", "deutan", "tritan"]

XYZ_OF_LINEAR: Matrix = (
    (0.4124564, 0.3575761, 0.1804375),
    (0.2126729, 0.7151522, 0.0721750),
    (0.0193339, 0.1191920, 0.9503041),
)
"""sRGB primaries to CIE XYZ (IEC 61966-2-1)."""
D65: Rgb = (0.95047, 1.0, 1.08883)
"""White of daylight, 2° observer."""

MACHADO: dict[Sight, Matrix] = {
    "protan": (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    "deutan": (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
}
"""Machado, Oliveira and Fernandes 2009, severity 1.0, on linear light."""

BRETTEL_TRITAN: tuple[Matrix, Matrix] = (
    ((1.01277, 0.13548, -0.14826), (-0.01243, 0.86812, 0.14431), (0.07589, 0.80500, 0.11911)),
    ((0.93678, 0.18979, -0.12657), (0.06154, 0.81526, 0.12320), (-0.37562, 1.12767, 0.24796)),
)
"""Brettel, Viénot and Mollon 1997 for tritans, folded into linear sRGB: one half plane on each side of the greys."""
BRETTEL_DIVIDE: Rgb = (0.03901, -0.02788, -0.01113)
"""Normal of the plane between the two halves; the first holds where the product is not negative."""


# --- between writings of a colour -----------------------------------------------------------------------------------


def rgb(colour: str) -> Rgb:
    """Return the encoded channels of '#rrggbb'. Raises ValueError on anything else."""
    if len(colour) != 7 or colour[0] != "#":
        raise ValueError(f"not a colour: {colour!r}; write '#rrggbb'")
    red, green, blue = bytes.fromhex(colour[1:])
    return red / 255, green / 255, blue / 255


def written(channels: Rgb) -> str:
    """Return encoded channels as '#rrggbb', clipped to what a screen has."""
    return "#" + "".join(f"{round(255 * min(1.0, max(0.0, channel))):02x}" for channel in channels)


def _linear(channel: float) -> float:
    """Return the light of an encoded channel; negative ones go through the straight part of the curve."""
    return channel / 12.92 if channel <= 0.04045 else float(((channel + 0.055) / 1.055) ** 2.4)


def _encoded(light: float) -> float:
    return 12.92 * light if light <= 0.0031308 else float(1.055 * light ** (1 / 2.4) - 0.055)


def _through(matrix: Matrix, vector: Rgb) -> Rgb:
    x, y, z = (row[0] * vector[0] + row[1] * vector[1] + row[2] * vector[2] for row in matrix)
    return x, y, z


def _light(channels: Rgb) -> Rgb:
    return _linear(channels[0]), _linear(channels[1]), _linear(channels[2])


def mix(a: str, b: str, part: float) -> str:
    """Return `part` of `a` with the rest of `b`, channel by channel as encoded (what a half-transparent pen gives)."""
    one, two, three = (p * part + q * (1 - part) for p, q in zip(rgb(a), rgb(b), strict=True))
    return written((one, two, three))


def grey(colour: str) -> str:
    """Return the grey of the same luminance, which is what paper without colour shows."""
    level = _encoded(luminance(colour))
    return written((level, level, level))


# --- contrast (WCAG 2.2) --------------------------------------------------------------------------------------------


def luminance(colour: str) -> float:
    """Return the relative luminance, 0 for black to 1 for white (WCAG 2.2)."""
    red, green, blue = _light(rgb(colour))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(a: str, b: str) -> float:
    """Return the contrast ratio, 1 to 21, whichever comes first (WCAG 2.2; text 4.5, better 7; marks 3)."""
    darker, lighter = sorted((luminance(a), luminance(b)))
    return (lighter + 0.05) / (darker + 0.05)


# --- difference (CIEDE2000) -----------------------------------------------------------------------------------------


def lab(channels: Rgb) -> Lab:
    """Return CIE L*a*b* of encoded channels (D65, 2° observer)."""
    fx, fy, fz = (
        t ** (1 / 3) if t > (6 / 29) ** 3 else t / (3 * (6 / 29) ** 2) + 4 / 29
        for t in (value / white for value, white in zip(_through(XYZ_OF_LINEAR, _light(channels)), D65, strict=True))
    )
    return 116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)


def _hue(a: float, b: float) -> float:
    return degrees(atan2(b, a)) % 360 if a or b else 0.0


def _turn(h1: float, h2: float) -> float:
    """Return the way from one hue to the other on the shorter arc, -180 to 180."""
    way = h2 - h1
    return way if abs(way) <= 180 else way - 360 if way > 0 else way + 360


def _mean_hue(h1: float, h2: float, colourless: bool) -> float:
    """Return the hue halfway on the shorter arc; a grey has none, so that the other's stands."""
    if colourless or abs(h1 - h2) <= 180:
        return h1 + h2 if colourless else (h1 + h2) / 2
    return (h1 + h2 + (360 if h1 + h2 < 360 else -360)) / 2


def _stretched(one: Lab, two: Lab) -> tuple[float, float]:
    """Return both a* as the formula stretches them, for near greys."""
    chroma7 = ((hypot(*one[1:]) + hypot(*two[1:])) / 2) ** 7
    factor = 1 + (1 - sqrt(chroma7 / (chroma7 + 25.0**7))) / 2
    return one[1] * factor, two[1] * factor


def ciede2000(one: Lab, two: Lab) -> float:
    """Return the difference of two colours, kL = kC = kH = 1 (Sharma, Wu, Dalal 2005). About 1 is just seen."""
    a1, a2 = _stretched(one, two)
    c1, c2 = hypot(a1, one[2]), hypot(a2, two[2])
    h1, h2 = _hue(a1, one[2]), _hue(a2, two[2])
    colourless = c1 * c2 == 0
    d_light, d_chroma, d_hue = two[0] - one[0], c2 - c1, 2 * sqrt(c1 * c2) * sin(radians(_turn(h1, h2) / 2))
    return _weighed((d_light, d_chroma, d_hue), (one[0] + two[0]) / 2, (c1 + c2) / 2, _mean_hue(h1, h2, colourless))


def _weighed(differences: Lab, light: float, chroma: float, hue: float) -> float:
    """Return the length of the three differences, each weighed as it counts at the mean colour."""
    d_light, d_chroma, d_hue = differences
    tone = (
        1
        - 0.17 * cos(radians(hue - 30))
        + 0.24 * cos(radians(2 * hue))
        + 0.32 * cos(radians(3 * hue + 6))
        - 0.20 * cos(radians(4 * hue - 63))
    )
    by_light = d_light / (1 + 0.015 * (light - 50) ** 2 / sqrt(20 + (light - 50) ** 2))
    by_chroma = d_chroma / (1 + 0.045 * chroma)
    by_hue = d_hue / (1 + 0.015 * chroma * tone)
    blue_turn = 60 * exp(-(((hue - 275) / 25) ** 2))
    rotation = -2 * sqrt(chroma**7 / (chroma**7 + 25.0**7)) * sin(radians(blue_turn))
    return sqrt(max(0.0, by_light**2 + by_chroma**2 + by_hue**2 + rotation * by_chroma * by_hue))


# --- colour-vision deficiency ------------------------------------------------------------------------------------


def simulated(channels: Rgb, sight: Sight) -> Rgb:
    """Return the encoded channels as that sight has them, not clipped; normal sight returns them unchanged."""
    if sight == "normal":
        return channels
    light = _light(channels)
    red, green, blue = _through(_brettel(light) if sight == "tritan" else MACHADO[sight], light)
    return _encoded(red), _encoded(green), _encoded(blue)


def _brettel(light: Rgb) -> Matrix:
    side = sum(part * normal for part, normal in zip(light, BRETTEL_DIVIDE, strict=True))
    return BRETTEL_TRITAN[0] if side >= 0 else BRETTEL_TRITAN[1]


def simulate(colour: str, sight: Sight) -> str:
    """Return the colour that shows normal sight what that sight sees, clipped to what a screen has."""
    return written(simulated(rgb(colour), sight))


@cache
def _seen(colour: str, sight: Sight) -> Lab:
    red, green, blue = (min(1.0, max(0.0, channel)) for channel in simulated(rgb(colour), sight))
    return lab((red, green, blue))


def difference(a: str, b: str, sight: Sight = "normal") -> float:
    """Return how far apart two colours are (CIEDE2000) for that sight."""
    return ciede2000(_seen(a, sight), _seen(b, sight))
