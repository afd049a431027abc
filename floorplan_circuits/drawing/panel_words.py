"""What a row of the panel's face says: the fullest wording that fits, and a small square for every feed."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from floorplan_circuits.drawing.ink import Mark, Text
from floorplan_circuits.drawing.lettering import cap_height, fits, width
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.plates import EVIDENCE_ORDER, SQUARE, SQUARE_PITCH, square, text_height
from floorplan_circuits.findings import Findings, Line, Standing
from floorplan_circuits.home.power import Breaker

WORDS_SIZE, LEAST_SIZE, COUNT_SIZE = 8.4, 7.5, 7.0
CAPTION_SIZE = 6.8
"""Points of a row's words at least where they only help to find a handle."""
MOST_SQUARES = 12
MOST_LINES = 4
AIR = 0.5
"""Least mm left above and below all of a row's words and squares together."""
FUSE_STATES = {"off": "taken out", "tripped": "blown"}
BRACKETED = re.compile(r"(.+?) \((.+)\)")
BESIDE = 1.3
"""mm between the last word and the squares that stand behind it."""


@dataclass(frozen=True, slots=True)
class Fitted:
    """Words as they will stand: lines, their size in points, squares under them or behind the last; whether cut."""

    lines: tuple[str, ...]
    size: float
    beside: bool = False
    cut: bool = False


@dataclass(frozen=True, slots=True)
class Squares:
    """The squares of one row, or the words that stand for too many of them."""

    standings: tuple[Standing, ...]
    words: str = ""

    @property
    def width(self) -> float:
        """Width in mm."""
        return width(self.words, COUNT_SIZE) if self.words else len(self.standings) * SQUARE_PITCH

    @property
    def height(self) -> float:
        """Height in mm under the words, with the gap above; 0 where there are none."""
        return 0.0 if not self.standings else text_height(COUNT_SIZE) if self.words else SQUARE + 0.5


def row_words(
    breaker: Breaker,
    findings: Findings,
    bounds: tuple[float, float, float, float],
    theme: Theme,
    on_screen: bool,
    words_alone: bool = False,
) -> tuple[list[Mark], str]:
    """Draw words and squares in (x, y, width, height) mm; return them, and the wording that had to be cut, if any.

    `words_alone`: without squares, and as small as captions may be.
    """
    x, top, room, high = bounds
    line = findings.lines.get(breaker.id, Line(breaker.id, ("",)))
    all_squares = _squares(findings, breaker, room, on_screen)
    variants = with_note(line, breaker, findings.troubles.get(breaker.id, ""))
    if not (all_squares.standings or line.own or _notes(breaker) or breaker.id in findings.troubles):
        variants = keeping_label(variants, breaker)
    if on_screen:
        variants = beside_old_label(variants, breaker)
    if words_alone:
        squares = Squares(())
        fitted = fit_words(variants, squares, room, high, (WORDS_SIZE, LEAST_SIZE, CAPTION_SIZE))
    else:
        squares, fitted = _told(variants, all_squares, room, high, on_screen)
    pitch = text_height(fitted.size)
    below = 0.0 if fitted.beside else squares.height
    y = top + (high - pitch * len(fitted.lines) - below) / 2
    shade = theme.soft if not all_squares.standings and not line.own else theme.ink
    marks = [_line(words, x, y + (at + 0.5) * pitch, fitted.size, shade) for at, words in enumerate(fitted.lines)]
    y += pitch * len(fitted.lines)
    if fitted.beside:
        x, middle = x + width(fitted.lines[-1], fitted.size) + BESIDE, y - pitch / 2
    else:
        middle = y + below - (text_height(COUNT_SIZE) / 2 if squares.words else SQUARE / 2)
    marks += _draw_squares(squares, x, middle, theme)
    return marks, line.variants[0] if fitted.cut else ""


def _told(
    variants: Sequence[str], squares: Squares, room: float, high: float, on_screen: bool
) -> tuple[Squares, Fitted]:
    """Return the squares with the words beside or over them; a count, or none, where squares would crowd the words."""
    for fewer in (squares, Squares(squares.standings, _counted(squares.standings, on_screen)), Squares(())):
        fitted = fit_words(variants, fewer, room, high)
        last = width(fitted.lines[-1], fitted.size) if fitted.beside and fitted.lines else 0.0
        if not fitted.cut and last + BESIDE + fewer.width <= room + BESIDE + 0.01:
            return fewer, fitted
    return fewer, fitted


def fit_words(
    variants: Sequence[str],
    squares: Squares,
    room: float,
    high: float,
    sizes: Sequence[float] = (WORDS_SIZE, LEAST_SIZE),
) -> Fitted:
    """Return the fullest variant that fits a row, its letters as large as can be, the squares under or behind it."""
    for variant in (*variants, *last_resorts(variants[-1])):
        for size in sizes:
            for beside in (False, True) if squares.standings else (False,):
                shown, cut = fits((variant,), room, size, False, _lines_in(high, size, 0 if beside else squares.height))
                last = width(shown[-1], size) + BESIDE + squares.width if beside and shown else 0.0
                if not cut and last <= room:
                    return Fitted(shown, size, beside)
    return _cut_to(variants[-1], squares, room, high, sizes[-1])


def last_resorts(words: str) -> tuple[str, ...]:
    """Return what a wording becomes before it is cut: boxes counted after the first, a thing by the last word for it.

    Examples:
        >>> last_resorts("Kitchen (B14, B15, B18)"), last_resorts("Baseboard heater (with 31)")
        (('Kitchen (B14, 2 more)',), ('Heater (with 31)',))
    """
    found = BRACKETED.fullmatch(words)
    if found is None:
        return ()
    head, inside = found.groups()
    marks = inside.split(", ")
    if len(marks) > 1 and all(mark[:1] == "B" and mark[1:].isdecimal() for mark in marks):
        return (f"{head} ({marks[0]}, {len(marks) - 1} more)",)
    return (f"{head.split()[-1].capitalize()} ({inside})",) if inside.startswith("with ") and " " in head else ()


def _cut_to(words: str, squares: Squares, room: float, high: float, size: float) -> Fitted:
    """Return what is left of the words where even the shortest is too long."""
    under = high >= text_height(size) + squares.height
    lines = _lines_in(high, size, squares.height if under else 0.0)
    narrow = room if under or not squares.standings else max(room - squares.width - BESIDE, room / 3)
    shown, _ = fits((words,), narrow, size, False, lines)
    return Fitted(shown, size, not under, cut=True)


def _lines_in(high: float, size: float, below: float) -> int:
    return max(0 if below else 1, min(MOST_LINES, int((high - AIR - below) / text_height(size))))


def _line(words: str, x: float, middle: float, size: float, colour: str) -> Mark:
    return Text((x, middle + cap_height(size) / 2), words, size, False, colour)


# --- what must be known before the breaker is touched ---------------------------------------------------------------


def with_note(line: Line, breaker: Breaker, trouble: str) -> tuple[str, ...]:
    """Add to each variant what a person must know before touching the breaker, in full, then short.

    `trouble`: what somebody found wrong with it, '' where nobody did. It comes first, and is in every variant.
    """
    notes = _notes(breaker)
    if trouble:
        keep_off = keep_off_words(trouble)
        notes = (*(f"{keep_off}; {note}" for note in notes), keep_off)
    if not notes:
        return line.variants
    noted = tuple(f"{words} ({note})" for words in line.variants for note in notes)
    return noted if line.own and not trouble else (*noted, notes[-1][:1].upper() + notes[-1][1:])


def keep_off_words(trouble: str) -> str:
    """Return what to do about a handle in trouble: 'runs hot: keep off'."""
    return f"{trouble}: keep off"


def _notes(breaker: Breaker) -> tuple[str, ...]:
    found, may = breaker.found, breaker.may_open
    if found.is_off:
        short = f"found {FUSE_STATES[found.state] if breaker.device == 'fuse' else found.state}"
        return (f"{short}: {found.why}", short) if found.why else (short,)
    if may.may == "never":
        short = "never take out" if breaker.device == "fuse" else "never turn off"
        return (f"{short}: {may.why}", short) if may.why else (short,)
    if may.may == "ask":
        return (f"ask {may.whose} first", "ask first") if may.whose else ("ask first",)
    return ()


def keeping_label(variants: Sequence[str], breaker: Breaker) -> tuple[str, ...]:
    """Return those wordings alone, of a breaker nothing is known of, that hold its old label; all where none does.

    Where none of them fits, the shortest is cut with its dots: the label is all that there is to go by, and the bare
    'Unknown' would hide that there is one.
    """
    label = breaker.as_found.strip().casefold()
    with_label = (words for words in variants if label and label in words.casefold())
    return tuple(with_label) or tuple(variants)


def beside_old_label(variants: Sequence[str], breaker: Breaker) -> tuple[str, ...]:
    """Return each wording with the old label verbatim beside it, then without, so that where it fits both are read."""
    label = breaker.as_found.strip()
    if not label or label.casefold() in variants[0].casefold():
        return tuple(variants)
    return tuple(words for one in variants for words in (f"{one}. Old label “{label}”", one))


# --- squares --------------------------------------------------------------------------------------------------------


def _squares(findings: Findings, breaker: Breaker, room: float, on_screen: bool) -> Squares:
    """Return the standings of all feeds on the breaker, the most proved first; in words where they are too many."""
    found = (one.standing for one in findings.conclusions.values() if breaker.id in one.breakers)
    standings = tuple(sorted(found, key=EVIDENCE_ORDER.index))
    too_many = len(standings) > MOST_SQUARES or len(standings) * SQUARE_PITCH > room + 0.6
    return Squares(standings, _counted(standings, on_screen) if too_many else "")


def _counted(standings: Sequence[Standing], on_screen: bool) -> str:
    """Return in words what too many squares would say: paper points to its list, it gives no share."""
    tested = standings.count("proved")
    if on_screen:
        return f"{tested} of {len(standings)} tested"
    return "all tested" if tested == len(standings) else f"{len(standings) - tested} not tested: see the list"


def _draw_squares(squares: Squares, x: float, middle: float, theme: Theme) -> Iterable[Mark]:
    if squares.words:
        return [_line(squares.words, x, middle, COUNT_SIZE, theme.soft)]
    top = middle - SQUARE / 2
    return [mark for at, one in enumerate(squares.standings) for mark in square(one, x + at * SQUARE_PITCH, top, theme)]
