"""Lengths typed and shown: metric, or feet and inches. Inside the program all are whole millimetres."""

import re
from fractions import Fraction
from typing import Literal

Units = Literal["metric", "feet and inches"]

MM_PER_INCH = Fraction(254, 10)
"""Exact since 1959 (international yard and pound agreement)."""

_METRIC = {"mm": Fraction(1), "cm": Fraction(10), "m": Fraction(1000)}
_NUMBER = r"\d+(?:[.,]\d+)?"
_METRIC_FORM = re.compile(rf"^({_NUMBER})\s*(mm|cm|m)?$")
_INCHES = rf"(?:({_NUMBER})(?:[ -]+(\d+)/(\d+))?|(\d+)/(\d+))\s*(?:\"|in)"
_FEET_FORM = re.compile(rf"^({_NUMBER})\s*(?:'|ft)(?:[ -]*{_INCHES})?$")
_INCH_FORM = re.compile(rf"^{_INCHES}$")
_BARE_FEET_INCHES = re.compile(r"^(\d+)\s*'\s*(\d+)$")
_QUOTES = str.maketrans(
    {"′": "'", "’": "'", "‘": "'", "″": '"', "”": '"', "“": '"', "½": " 1/2", "¼": " 1/4", "¾": " 3/4"}
)
LONGEST = 10**7
LONGEST_TEXT = 40


class NotALength(ValueError):
    """What was typed is no length; the message says how to type one."""


def parse_length(text: str, units: Units = "metric") -> int:
    """Read a typed length as whole millimetres, rounded half up. A bare number is metres, or feet.

    Raises `NotALength` for anything else, for a negative length and for one over ten kilometres.

    Examples:
        >>> parse_length("12' 6 1/2\\""), parse_length("3.81 m"), parse_length("381 cm")
        (3823, 3810, 3810)
        >>> parse_length("3.81"), parse_length("3.81", "feet and inches")
        (3810, 1161)
    """
    tidy = text.translate(_QUOTES).strip().lower().replace("''", '"')
    exact = _read(tidy, units) if len(tidy) <= LONGEST_TEXT else None
    shown = text.strip()[:LONGEST_TEXT]
    if exact is None:
        raise NotALength(f'"{shown}" is not a length: type for example 3.81 m, 381 cm, or 12\' 6 1/2"')
    whole = int(exact + Fraction(1, 2))
    if whole > LONGEST:
        raise NotALength(f'"{shown}" is over ten kilometres: type the length of a wall')
    return whole


def _read(text: str, units: Units) -> Fraction | None:
    return _read_feet(text) if _looks_imperial(text) else _read_metric(text, units)


def _looks_imperial(text: str) -> bool:
    return any(sign in text for sign in ("'", '"', "ft", "in"))


def _number(text: str) -> Fraction:
    return Fraction(text.replace(",", "."))


def _read_metric(text: str, units: Units) -> Fraction | None:
    match = _METRIC_FORM.match(text)
    if match is None:
        return None
    bare = _METRIC["m"] if units == "metric" else 12 * MM_PER_INCH
    return _number(match[1]) * (_METRIC[match[2]] if match[2] else bare)


def _read_feet(text: str) -> Fraction | None:
    if match := _BARE_FEET_INCHES.match(text):
        return (_number(match[1]) * 12 + _number(match[2])) * MM_PER_INCH
    if match := _FEET_FORM.match(text):
        inches = _read_inches(match.groups()[1:])
        return None if inches is None else (_number(match[1]) * 12 + inches) * MM_PER_INCH
    if match := _INCH_FORM.match(text):
        inches = _read_inches(match.groups())
        return None if inches is None else inches * MM_PER_INCH
    return None


def _read_inches(parts: tuple[str | None, ...]) -> Fraction | None:
    whole, top, bottom, lone_top, lone_bottom = parts
    if any(part and int(part) == 0 for part in (bottom, lone_bottom)):
        return None
    inches = _number(whole) if whole else Fraction(0)
    if top and bottom:
        inches += Fraction(int(top), int(bottom))
    if lone_top and lone_bottom:
        inches += Fraction(int(lone_top), int(lone_bottom))
    return inches


def show_length(mm: int, units: Units = "metric") -> str:
    """Show a length: metres to the centimetre, or feet and inches to the nearest half inch.

    Examples:
        >>> show_length(3810), show_length(3810, "feet and inches"), show_length(410, "feet and inches")
        ('3.81 m', '12\\' 6"', '1\\' 4"')
    """
    sign = "−" if mm < 0 else ""
    if units == "metric":
        return f"{sign}{abs(mm) / 1000:.2f} m"
    halves = int(Fraction(abs(mm)) / MM_PER_INCH * 2 + Fraction(1, 2))
    feet, rest = divmod(halves, 24)
    inches, half = divmod(rest, 2)
    fraction = " 1/2" if half and inches else "1/2" if half else ""
    shown = f'{inches or ("" if half else 0)}{fraction}"'
    return f"{sign}{feet}' {shown}" if feet else f"{sign}{shown}"


def show_area(mm2: float, units: Units = "metric") -> str:
    """Show an area: square metres to a tenth, or whole square feet.

    Examples:
        >>> show_area(12_000_000), show_area(12_000_000, "feet and inches")
        ('12.0 m²', '129 sq ft')
    """
    if units == "metric":
        return f"{mm2 / 1e6:.1f} m²"
    return f"{mm2 / float((12 * MM_PER_INCH) ** 2):.0f} sq ft"
