"""Taking the answers of a plan of test rounds into the log: each look as it was seen, nothing filled in."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from floorplan_circuits.edits.edited import Edited, Refused, counted, edit
from floorplan_circuits.edits.recording import record_round
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.log import Round
from floorplan_circuits.rounds.answers import Answers
from floorplan_circuits.rounds.course import note_of_round, note_of_try
from floorplan_circuits.survey.log_book import LogBook


@dataclass(frozen=True, slots=True)
class _Taken:
    """One entry to be made: what was off, what was read, when, how well tested, and the note that it bears."""

    off: tuple[int, ...]
    readings: tuple[tuple[int, str], ...]
    date: str
    note: str
    flags: str = ""


@edit
def take_answers(home: Home, answers: Answers) -> Edited:
    """Record every look that was answered, in order; one in which nothing was looked at leaves no entry.

    Answers may come in parts: what the log has of them already is not recorded twice. In a round no tester counts as
    proved: what the plan suggests is proved with one handle off alone, by a tester proved before and after. Raises
    `Refused` as `record_round` does.
    """
    after, made = home, list[int]()
    before = [entry for _, entry in LogBook(home).entries if isinstance(entry, Round) and entry.note]
    for one in _all(answers):
        had = _had(before, one)
        readings = [reading for reading in one.readings if reading not in had]
        if readings:
            edited = record_round(
                after,
                one.off,
                readings,
                method=answers.method,
                tester_before="b" in one.flags,
                tester_after="a" in one.flags,
                each_hot="h" in one.flags,
                date=one.date,
                who=answers.who,
                note=one.note,
            )
            after = edited.home
            made.extend(edited.made)
    if not made:
        were_there = any(one.readings for one in _all(answers))
        raise Refused("All of that is in the log already." if were_there else "Nothing was looked at in these answers.")
    return Edited(after, f"Take the answers of {counted(len(made), 'round')}", tuple(made))


def _all(answers: Answers) -> Iterator[_Taken]:
    """Yield what was answered in the order of an evening: the rounds, then each handle alone."""
    for one in answers.rounds:
        yield _Taken(one.off, one.readings, answers.date, note_of_round(one.nth, answers.plan))
    for look in answers.tries:
        off = () if look.handle is None else (look.handle,)
        yield _Taken(off, look.readings, look.date, note_of_try(look.when, answers.plan), look.flags)


def _had(before: Iterable[Round], one: _Taken) -> set[tuple[int, str]]:
    """Return what the log has of it already: a round stands there once, a handle alone once for each day."""
    is_round = one.note.startswith("round ")
    same = (entry for entry in before if entry.note == one.note and {*one.off} <= {*entry.off})
    return {(at.feed, at.says) for entry in same if is_round or entry.date == one.date for at in entry.readings}
