"""Taking the answers of a plan of test rounds into the log: each round as it was seen, nothing filled in."""

from floorplan_circuits.edits.edited import Edited, Refused, counted, edit
from floorplan_circuits.edits.recording import record_round
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.log import Round
from floorplan_circuits.rounds.answers import Answers
from floorplan_circuits.rounds.course import note_of_round
from floorplan_circuits.survey.log_book import LogBook


@edit
def take_answers(home: Home, answers: Answers) -> Edited:
    """Record every round that was answered, in order; a round in which nothing was looked at leaves no entry.

    Answers may come in parts: what the log has of them already is not recorded twice. No tester counts as proved by
    it: what the plan suggests is proved by a solo pass. Raises `Refused` as `record_round` does.
    """
    after, made, had = home, list[int](), _had(home)
    for one in answers.rounds:
        note = note_of_round(one.nth, answers.plan)
        readings = [reading for reading in one.readings if (note, *reading) not in had]
        if readings:
            edited = record_round(
                after,
                one.off,
                readings,
                method=answers.method,
                tester_before=False,
                tester_after=False,
                date=answers.date,
                who=answers.who,
                note=note,
            )
            after = edited.home
            made.extend(edited.made)
    if not made:
        were_there = any(one.readings for one in answers.rounds)
        raise Refused("All of that is in the log already." if were_there else "Nothing was looked at in these answers.")
    return Edited(after, f"Take the answers of {counted(len(made), 'round')}", tuple(made))


def _had(home: Home) -> set[tuple[str, int, str]]:
    """Return what the log has already: the round of a plan, the feed, what it showed."""
    rounds = [entry for _, entry in LogBook(home).entries if isinstance(entry, Round) and entry.note]
    return {(entry.note, reading.feed, reading.says) for entry in rounds for reading in entry.readings}
