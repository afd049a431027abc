"""The whole directory of a home, written and judged at once: both need the loads of every breaker."""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from floorplan_circuits.directory.judge import Desk, judge
from floorplan_circuits.directory.judging import own_words
from floorplan_circuits.directory.loads import loads_of
from floorplan_circuits.directory.rules_of_people import testers
from floorplan_circuits.directory.wording import all_tested, line_drawn, our_lines
from floorplan_circuits.findings import BoxFinding, Conclusion, Directory, Findings, JudgedLine, Line, Loads
from floorplan_circuits.home.home import Home


class Written(NamedTuple):
    """What hangs on every breaker, its line, and what the judge says of the lines and of the old labels."""

    loads: Loads
    lines: Mapping[int, Line]
    judged: Directory


def written(
    home: Home, known: Mapping[int, Conclusion], boxes: Mapping[int, BoxFinding], before: Findings | None = None
) -> Written:
    """Write and judge the directories of all panels; a line that is as it was `before` is not judged anew."""
    loads = loads_of(home, known, boxes)
    if before is not None and not _looks_at_the_same(home, known, before):
        before = None
    if before is not None and loads == before.loads:
        return Written(before.loads, before.lines, before.directory)
    ours = our_lines(home, loads, known)
    drawn = {breaker.id: line_drawn(breaker, ours[breaker.id]) for breaker in home.breakers}
    desk = Desk(home, loads, ours, drawn, all_tested(known))
    kept = {} if before is None else dict(_kept(desk, before))
    return Written(loads, drawn, judge(desk, kept))


def _looks_at_the_same(home: Home, known: Mapping[int, Conclusion], before: Findings) -> bool:
    """Tell whether all that lines and rules look at, besides what hangs on the breakers, is as it was."""
    was = before.home
    tables = ("breakers", "panels", "sources", "rooms", "levels")
    return (
        all(getattr(home, name) is getattr(was, name) for name in tables)
        and (home.meanings, home.system, bool(home.boxes)) == (was.meanings, was.system, bool(was.boxes))
        and all_tested(known) == all_tested(before.conclusions)
        and (home.log is was.log or testers(home) == testers(was))
        and (home.boxes is was.boxes or own_words(home) == own_words(was))
    )


def _kept(desk: Desk, before: Findings) -> Iterator[tuple[int, JudgedLine]]:
    """Yield the judged lines that would come out the same: their words are the same, and what hangs on the breaker.

    The householder's own line is held against the others of its panel: it is kept only where no line changed.
    """
    there, was_there = desk.loads.there, before.loads.there
    changed = {key for key in there.keys() | was_there.keys() if there.get(key) != was_there.get(key)}
    no_line_changed = desk.drawn == before.lines
    for breaker, judged in before.directory.lines.items():
        line, mine = desk.drawn[breaker], desk.loads.of.get(breaker, ())
        same_words = line == before.lines[breaker] and desk.ours[breaker].variants[0] == judged.ours
        same_loads = mine == before.loads.of.get(breaker, ()) and not any(
            (load.place, load.group) in changed for load in mine
        )
        if same_words and same_loads and (no_line_changed or not line.own):
            yield breaker, judged
