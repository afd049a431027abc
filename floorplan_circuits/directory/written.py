"""The whole directory of a home, written and judged at once: both need the loads of every breaker."""

from collections.abc import Mapping
from typing import NamedTuple

from floorplan_circuits.directory.judge import judge
from floorplan_circuits.directory.loads import loads_of
from floorplan_circuits.directory.wording import line_drawn, our_lines
from floorplan_circuits.findings import BoxFinding, Conclusion, Directory, Line
from floorplan_circuits.home.home import Home


class Written(NamedTuple):
    """The line of every breaker, and what the judge says of them and of the old labels."""

    lines: dict[int, Line]
    judged: Directory


def written(home: Home, known: Mapping[int, Conclusion], boxes: Mapping[int, BoxFinding]) -> Written:
    """Write and judge the directories of all panels."""
    loads = loads_of(home, known, boxes)
    ours = our_lines(home, loads, known)
    drawn = {breaker.id: line_drawn(breaker, ours[breaker.id]) for breaker in home.breakers}
    all_proved = all(one.standing == "proved" for one in known.values())
    return Written(drawn, judge(home, loads, ours, drawn, all_proved))
