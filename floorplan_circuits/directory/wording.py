"""What a panel's directory says of each breaker, in ranked variants of which a drawing takes the longest that fits."""

from collections.abc import Mapping, Sequence

from floorplan_circuits.directory.abbreviations import expanded
from floorplan_circuits.directory.loads import further, loads_of
from floorplan_circuits.directory.parts import marks_in_words
from floorplan_circuits.directory.telling_apart import told_apart
from floorplan_circuits.directory.variants import ranked, variants
from floorplan_circuits.directory.vocabulary import vocabulary
from floorplan_circuits.findings import BoxFinding, Conclusion, Line, Load, Loads
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Breaker
from floorplan_circuits.supply.numbering import mark

SPARE = "Spare"
NOTHING_FOUND = ("Nothing found on it yet", "Nothing found")
NOT_KNOWN = ("What it feeds is not known yet", "Not known yet")
"""Said while no box is recorded, so that nothing could have been found."""


def lines(home: Home, known: Mapping[int, Conclusion], boxes: Mapping[int, BoxFinding]) -> dict[int, Line]:
    """Return the directory's line for every breaker: the householder's own wording, else ours."""
    ours = our_lines(home, loads_of(home, known, boxes), known)
    return {breaker.id: line_drawn(breaker, ours[breaker.id]) for breaker in home.breakers}


def line_drawn(breaker: Breaker, ours: Line) -> Line:
    """Return the householder's own words where there are any: they stand as they are."""
    own = breaker.wording.strip()
    return Line(breaker.id, (breaker.wording,), own=True) if own else ours


def our_lines(home: Home, loads: Loads, known: Mapping[int, Conclusion]) -> dict[int, Line]:
    """Return what the program says of every breaker, each told from all others of its panel."""
    onward = further(home)
    all_proved = all_tested(known)
    raw = {breaker.id: _line(home, breaker, loads, onward.get(breaker.id, []), all_proved) for breaker in home.breakers}
    told: dict[int, Line] = {}
    for panel in {breaker.panel: None for breaker in home.breakers}:
        here = [breaker for breaker in home.breakers if breaker.panel == panel]
        details = lambda number: _details(home, home.breakers[number], loads)  # noqa: E731  # asked for where two meet
        own = [one.wording for one in here if one.wording.strip()]
        told.update(told_apart({one.id: raw[one.id] for one in here}, details, own))
    return told


def all_tested(known: Mapping[int, Conclusion]) -> bool:
    """Tell whether there are feeds and every one of them is proved: only then can a breaker have nothing on it."""
    return bool(known) and all(one.standing == "proved" for one in known.values())


def _line(home: Home, breaker: Breaker, all_loads: Loads, onward: Sequence[str], all_proved: bool) -> Line:
    loads = all_loads.of.get(breaker.id, ())
    if onward or loads:
        start = ", ".join(onward)
        ways = variants(breaker.id, loads, all_loads) if loads else ("",)
        return Line(breaker.id, ranked("; ".join(part for part in (start, words) if part) for words in ways))
    return Line(breaker.id, _idle(home, breaker, all_proved), idle=True)


def _idle(home: Home, breaker: Breaker, all_proved: bool) -> tuple[str, ...]:
    """Return the words for a breaker that nothing is tied to.

    'Spare' only where its label says so and every feed is proved elsewhere: an unlabelled one nobody called unused.
    """
    label = breaker.as_found.strip()
    if not vocabulary().says_unused(label):
        means = expanded(home, label)
        said = f" ({means})" if means != label else ""
        return ranked((f"Unknown. Old label “{label}”{said}", f"Unknown: “{label}”", "Unknown"))
    if label and all_proved:
        return (SPARE,)
    return NOTHING_FOUND if home.boxes else NOT_KNOWN


def _details(home: Home, breaker: Breaker, loads: Loads) -> tuple[str, ...]:
    """Return what may be put behind a line to tell it from another: where it is, what else is on the same, its number.

    The number is the last resort: it stands beside the line anyway, but nothing else in the house bears it.
    """
    mine = loads.of.get(breaker.id, ())
    number = mark(home.panels.get(breaker.panel), breaker)
    there = marks_in_words([load.mark for load in mine])
    with_others = sorted(
        (mark(home.panels.get(other.panel), other) for other in home.breakers if _same(mine, loads, other, breaker)),
    )
    said = f"with {', '.join(with_others[:3])}" if with_others else ""
    return tuple(words for words in (there, said, f"breaker {number}", f"breaker {number} alone") if words)


def _same(mine: Sequence[Load], loads: Loads, other: Breaker, breaker: Breaker) -> bool:
    """Tell whether another breaker feeds some of the very same things: a loop, or 240 V across two breakers."""
    theirs = {load.device for load in loads.of.get(other.id, ())}
    return other.id != breaker.id and not theirs.isdisjoint(load.device for load in mine)
