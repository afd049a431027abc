"""How often a box is wrongly told 'should be dead' when the log holds something false, by kind of lie.

    python -m tests.shutoff.lies 300

Nothing can be right about a log that lies in the right way: what is counted is how much it takes.
"""

import sys
from collections import Counter
from collections.abc import Callable
from random import Random
from typing import Any

from floorplan_circuits.find import find, shut_off
from tests.shutoff.plans import handles_off
from tests.survey.hidden import Hidden, evening, hidden_home, with_evening
from tests.survey.houses import logged, opened

Entries = list[dict[str, Any]]
Lie = Callable[[Hidden, Entries, Random], Entries]


def false_dead(_hidden: Hidden, entries: Entries, rng: Random) -> Entries:
    """One reading in fifty says dead though it was live."""
    return _changed(entries, rng, "live", "dead", 0.02)


def false_live(_hidden: Hidden, entries: Entries, rng: Random) -> Entries:
    """One reading in fifty says live though it was dead."""
    return _changed(entries, rng, "dead", "live", 0.02)


def wrong_handle(hidden: Hidden, entries: Entries, rng: Random) -> Entries:
    """In one round in ten the neighbour of the breaker that is written down was turned."""
    handles = hidden.home.breakers.ids()
    return [
        entry | {"off": [rng.choice(handles) if rng.random() < 0.1 else one for one in entry["off"]]}
        for entry in entries
    ]


def mixed_up_feeds(_hidden: Hidden, entries: Entries, rng: Random) -> Entries:
    """In one round in ten two things are written down for each other."""
    changed = []
    for entry in entries:
        readings = list(entry["readings"])
        if len(readings) > 1 and rng.random() < 0.1:
            a, b = rng.sample(range(len(readings)), 2)
            first, second = readings[a], readings[b]
            readings[a] = first | {"says": second["says"]}
            readings[b] = second | {"says": first["says"]}
        changed.append(entry | {"readings": readings})
    return changed


def _changed(entries: Entries, rng: Random, was: str, told: str, share: float) -> Entries:
    return [
        entry
        | {
            "readings": [
                one | {"says": told} if one["says"] == was and rng.random() < share else one
                for one in entry["readings"]
            ]
        }
        for entry in entries
    ]


LIES: tuple[Lie, ...] = (false_dead, false_live, wrong_handle, mixed_up_feeds)


def counted(lie: Lie, homes: int) -> Counter[str]:
    """Return how many boxes were told 'should be dead', and how many of these were live."""
    found = Counter[str]()
    for seed in range(homes):
        hidden, rng = hidden_home(seed), Random(seed)
        entries = lie(hidden, evening(hidden, 40, solo=True), rng)
        home = with_evening(hidden, entries)
        home = logged(home, *(opened(box.id, *(feed.id for feed in box.feeds())) for box in home.boxes))
        findings = find(home)
        resting = frozenset(one.id for one in home.breakers if one.found.state == "off")
        for box in home.boxes:
            plan = shut_off(findings, (box.id,))
            if plan.states and plan.states[0].state == "should be dead":
                off = frozenset(handles_off(plan)) | resting
                found["told"] += 1
                found["live"] += any(hidden.hot(feed.id, off) for feed in box.feeds())
    return found


if __name__ == "__main__":
    for one in LIES:
        told = counted(one, int(sys.argv[1]) if len(sys.argv) > 1 else 300)
        print(f"{one.__name__}: {told['told']} told should be dead, {told['live']} of them live")  # noqa: T201
