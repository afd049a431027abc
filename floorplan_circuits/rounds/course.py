"""A plan being carried out: which one it is, by the notes of the log alone, and the plans that it goes on from.

Each answer stands in the log with the plan's code in its note. So whoever stops can go on at the very feed, on another
day, or after a crash: the plan is made again from the log as it was before its first answer. Where the rest of an
evening was planned anew, the note names the plan before it, too.
"""

import re
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import NamedTuple

from floorplan_circuits.findings import TestPlan
from floorplan_circuits.home.log import Entry, Round
from floorplan_circuits.rounds.answers import ALPHABET, CODE_LENGTH, plan_code
from floorplan_circuits.survey.log_book import LogBook, Seen

CODE = rf"([{ALPHABET}]{{{CODE_LENGTH}}})"
WALKS = r"round \d+|one alone|all on|all on after|feeder off|main off"
WALK_OF = {"before": "all on", "alone": "one alone", "after": "all on after"}
"""The walk that a look of answers brought back belongs to."""
NOTE = re.compile(rf"^({WALKS}), plan {CODE}(?:, after {CODE})?$")


class Noted(NamedTuple):
    """What the note of an answer says: which walk it belongs to, of which plan, and the plan before that."""

    walk: str
    code: str
    after: str


def noted(entry: Entry) -> Noted | None:
    """Return what the note of an entry says; None where it is no answer of a plan.

    Examples:
        >>> NOTE.match("round 2, plan K7QX4M, after ABCDEF").groups()
        ('round 2', 'K7QX4M', 'ABCDEF')
    """
    return _read(entry.note) if isinstance(entry, Round) else None


@lru_cache(maxsize=4096)
def _read(note: str) -> Noted | None:
    found = NOTE.match(note)
    return Noted(found[1], found[2], found[3] or "") if found else None


@dataclass(frozen=True)
class Course:
    """A plan being carried out. Its answers count from the place `begun` in the log.

    `earlier` are the codes of the plans of the same evening that it goes on from, oldest first, of which the first was
    begun at `start`; `done` rounds of those were answered.
    """

    plan: TestPlan
    begun: int
    earlier: tuple[str, ...] = ()
    start: int = -1
    done: int = 0

    @cached_property
    def code(self) -> str:
        """The code that its answers bear."""
        return plan_code(self.plan)

    def note(self, walk: str) -> str:
        """Return the note that answers of a walk of it bear."""
        after = f", after {self.earlier[-1]}" if self.earlier else ""
        return f"{walk}, plan {self.code}{after}"

    def has(self, seen: Seen) -> bool:
        """Tell whether a reading answers it, or a plan of the same evening that it goes on from."""
        told = noted(seen.round)
        first = self.start if self.earlier else self.begun
        return told is not None and seen.place >= first and told.code in (self.code, *self.earlier)


def note_of_round(nth: int, code: str) -> str:
    """Return the note that answers of a planned round bear.

    Examples:
        >>> note_of_round(3, "K7QX4M")
        'round 3, plan K7QX4M'
    """
    return f"round {nth}, plan {code}"


def note_of_try(when: str, code: str) -> str:
    """Return the note that answers of a look bear: with a handle off alone, or with all on before or after."""
    return f"{WALK_OF[when]}, plan {code}"


class Begun(NamedTuple):
    """The plan that was answered last: its code, the place of its first answer, and what it goes on from."""

    code: str
    place: int
    earlier: tuple[str, ...]
    start: int
    done: int


def course_in(log: Sequence[Entry], counting: LogBook) -> Begun | None:
    """Return the plan that was answered last; None if none was."""
    answers = [told for _, entry in counting.entries if (told := noted(entry))]
    if not answers:
        return None
    earlier = tuple(_before(answers[-1], answers))
    places = [(place, told.code) for place, entry in enumerate(log) if (told := noted(entry))]
    first = {code: place for place, code in reversed(places)}
    code = answers[-1].code
    return Begun(code, first[code], earlier, min(first[one] for one in (*earlier, code)), rounds_done(answers, earlier))


def _before(last: Noted, answers: Collection[Noted]) -> Iterator[str]:
    """Yield the codes of the plans that an answer's plan goes on from, oldest first."""
    after = {told.code: told.after for told in answers}
    found, at = list[str](), last.after
    while at and at in after and at not in found and at != last.code:
        found.append(at)
        at = after[at]
    yield from reversed(found)


def rounds_done(answers: Collection[Noted], codes: Collection[str]) -> int:
    """Return how many rounds of these plans were answered, those with all on left out."""
    rounds = (told for told in answers if told.code in codes and told.walk.startswith("round "))
    return len({(told.walk, told.code) for told in rounds if told.walk != "round 0"})
