"""Lettering: which typeface draws a letter, how wide words are, and how they are cut to the room there is.

Sizes are points, widths paper millimetres. There is no kerning and there are no ligatures: a width is the plain sum
of advances, from tables made of the shipped typefaces, so that screen, PDF and SVG agree. What is measured and drawn
is always `plain(words)`, one advance a character.
"""

from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache, lru_cache
from itertools import accumulate, groupby
from pathlib import Path
from typing import Any, Literal
from unicodedata import category, normalize

import fontpkg_atkinson_hyperlegible
import fontpkg_noto_sans

from floorplan_circuits.drawing.ink import MM_PER_POINT
from floorplan_circuits.home.resources import read_json

Face = Literal["regular", "bold", "fallback"]

FILES: dict[Face, Path] = {
    "regular": fontpkg_atkinson_hyperlegible.ROOT / "files" / "AtkinsonHyperlegible-Regular.ttf",
    "bold": fontpkg_atkinson_hyperlegible.ROOT / "files" / "AtkinsonHyperlegible-Bold.ttf",
    "fallback": fontpkg_noto_sans.ROOT / "files" / "NotoSans[wdth,wght].ttf",
}
REPLACEMENT = "\N{REPLACEMENT CHARACTER}"
"""Stands, visibly, for what neither typeface has (neither has the white square); the fallback draws it."""
MORE = "…"
BREAK = "-"
INVISIBLE = frozenset({"Cc", "Cf", "Co", "Cs", "Cn", "Zl", "Zp"})
"""Unicode categories of characters that leave no ink or mean nothing here: never drawn as if they were not there."""
WHOLE_WORDS = 60_000
"""How many measured words are kept: more than a large home has on all its sheets."""


@dataclass(frozen=True, slots=True)
class Run:
    """Words that one typeface draws."""

    face: Face
    words: str


def font_file(face: Face) -> Path:
    """Return the file of a typeface. The fallback is a variable font: its default instance serves both weights."""
    return FILES[face]


# --- the tables -----------------------------------------------------------------------------------------------------


@cache
def _table() -> Any:
    return read_json("advances.json")


def _advances_of(table: Any, face: Face) -> dict[str, float]:
    """Return advances by letter, in parts of the letter size."""
    units = table["units"]
    return {chr(first + i): wide / units for first, row in table[face] for i, wide in enumerate(row)}


@cache
def _letters(bold: bool) -> dict[str, float]:
    return _advances_of(_table(), "bold" if bold else "regular")


@cache
def _fallback() -> dict[str, float]:
    """Return what the first typeface lacks: read only when such a letter is met, since few homes have one."""
    table = _advances_of(read_json("advances_fallback.json"), "fallback")
    return {letter: wide for letter, wide in table.items() if category(letter) not in INVISIBLE}


def cap_height(size: float) -> float:
    """Return the height of a capital, in mm, at a size in points."""
    return float(_table()["cap height"] / _table()["units"] * size * MM_PER_POINT)


def ascent(size: float) -> float:
    """Return how far letters reach above the baseline, in mm."""
    return float(_table()["ascent"] / _table()["units"] * size * MM_PER_POINT)


def descent(size: float) -> float:
    """Return how far letters reach below the baseline, in mm, as a positive number."""
    return float(_table()["descent"] / _table()["units"] * size * MM_PER_POINT)


# --- which letters --------------------------------------------------------------------------------------------------


@lru_cache(WHOLE_WORDS)
def plain(words: str) -> str:
    """Return the words as they are drawn: composed (NFC), line ends and tabs as spaces, the undrawable replaced."""
    known = _letters(False)
    spaced = (" " if letter in "\t\n\r\v\f\N{LINE SEPARATOR}" else letter for letter in normalize("NFC", words))
    return "".join(letter if letter in known or letter in _fallback() else REPLACEMENT for letter in spaced)


def missing(words: str) -> tuple[str, ...]:
    """Return the characters that `plain` replaces, each once, in order."""
    composed = normalize("NFC", words)
    lost = (was for was, now in zip(composed, plain(words), strict=True) if now == REPLACEMENT != was)
    return tuple(dict.fromkeys(lost))


def runs(words: str, bold: bool = False) -> tuple[Run, ...]:
    """Return the words split by the typeface that has each letter; together they are `plain(words)`."""
    own: Face = "bold" if bold else "regular"
    known = _letters(bold)
    parts = groupby(plain(words), key=lambda letter: letter in known)
    return tuple(Run(own if has else "fallback", "".join(letters)) for has, letters in parts)


# --- how wide -------------------------------------------------------------------------------------------------------


@lru_cache(WHOLE_WORDS)
def _steps(words: str, bold: bool) -> tuple[float, ...]:
    known = _letters(bold)
    return tuple(known[letter] if letter in known else _fallback()[letter] for letter in plain(words))


@lru_cache(WHOLE_WORDS)
def _sum(words: str, bold: bool) -> float:
    return sum(_steps(words, bold))


def advances(words: str, size: float, bold: bool = False) -> tuple[float, ...]:
    """Return the advance of each character of `plain(words)`, in mm."""
    scale = size * MM_PER_POINT
    return tuple(step * scale for step in _steps(words, bold))


def width(words: str, size: float, bold: bool = False) -> float:
    """Return how wide the words are, in mm; nothing is 0 wide."""
    return _sum(words, bold) * size * MM_PER_POINT


# --- how to cut -----------------------------------------------------------------------------------------------------


def _words(words: str) -> list[str]:
    """Return what stands between plain spaces; other spaces hold together."""
    return [word for word in plain(words).split(" ") if word]


def _pieces(word: str, room: float, bold: bool) -> Iterator[str]:
    """Yield a word that is wider than the room in pieces, each but the last ending in a visible break.

    `room` is in parts of the letter size. A room narrower than a letter still gets one letter a line.
    """
    rest = word
    while _sum(rest, bold) > room and len(rest) > 1:
        reach = list(accumulate(_steps(rest, bold)))
        cut = max(1, bisect_right(reach, room - _sum(BREAK, bold), hi=len(rest) - 1))
        yield rest[:cut] + BREAK
        rest = rest[cut:]
    yield rest


@lru_cache(WHOLE_WORDS)
def _wrapped(words: str, room: float, bold: bool) -> tuple[str, ...]:
    lines: list[str] = []
    for word in _words(words):
        if lines and _sum(f"{lines[-1]} {word}", bold) <= room:
            lines[-1] += f" {word}"
        else:
            lines.extend(_pieces(word, room, bold))
    return tuple(lines)


def _in_sizes(room_mm: float, size: float) -> float:
    """Return the room in parts of the letter size, with a hair of slack for what rounding adds."""
    return room_mm / (size * MM_PER_POINT) + 1e-9


def wrap(words: str, room_mm: float, size: float, bold: bool = False) -> tuple[str, ...]:
    """Return the words in lines no wider than the room, filled from the first on; no words make no lines.

    A word wider than the room is broken with a hyphen. A no-break space holds two words together.
    """
    return _wrapped(words, _in_sizes(room_mm, size), bold)


def _is_whole(words: str, room: float, bold: bool) -> bool:
    return all(_sum(word, bold) <= room for word in _words(words))


def _shortened(words: str, room: float, bold: bool, lines: int) -> tuple[str, ...]:
    """Return the longest beginning of the words that fits with '…' after it, down to '…' alone."""
    text = " ".join(_words(words))
    most = bisect_right(list(accumulate(_steps(text, bold))), room * lines)
    beginnings = (text[:length].rstrip(" ,;:·–-") for length in range(min(most, len(text) - 1), 0, -1))
    for beginning in beginnings:
        cut = _wrapped(beginning + MORE, room, bold)
        if len(cut) <= lines and all(_sum(line, bold) <= room for line in cut):
            return cut
    return (MORE,)


def fits(
    variants: tuple[str, ...], room_mm: float, size: float, bold: bool = False, lines: int = 1
) -> tuple[tuple[str, ...], bool]:
    """Return the first variant that fits, in lines, and whether words had to be shortened with '…'.

    A variant whose words stay whole is taken before one that must break a word; where none fits, the last is
    shortened. Raises ValueError without variants.
    """
    if not variants:
        raise ValueError("nothing to fit: give at least one variant")
    return _fitted(variants, _in_sizes(room_mm, size), bold, lines)


@lru_cache(WHOLE_WORDS)
def _fitted(variants: tuple[str, ...], room: float, bold: bool, lines: int) -> tuple[tuple[str, ...], bool]:
    short = [words for words in variants if len(_wrapped(words, room, bold)) <= lines]
    whole = [words for words in short if _is_whole(words, room, bold)]
    for words in whole or short:
        cut = _wrapped(words, room, bold)
        if all(_sum(line, bold) <= room for line in cut):
            return cut, False
    return _shortened(variants[-1], room, bold, lines), True
