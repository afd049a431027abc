"""Taking the answers of a plan of test rounds into the log: each round as it was seen, nothing filled in."""

from floorplan_circuits.edits.edited import Edited, Refused, counted, edit
from floorplan_circuits.edits.recording import record_round
from floorplan_circuits.home.home import Home
from floorplan_circuits.rounds.answers import Answers


@edit
def take_answers(home: Home, answers: Answers) -> Edited:
    """Record every round that was answered, in order; a round in which nothing was looked at leaves no entry.

    No tester counts as proved by it: what the plan suggests is proved by a solo pass. Raises `Refused` as
    `record_round` does.
    """
    after, made = home, list[int]()
    for one in answers.rounds:
        if one.readings:
            edited = record_round(
                after,
                one.off,
                one.readings,
                method=answers.method,
                tester_before=False,
                tester_after=False,
                date=answers.date,
                who=answers.who,
                note=f"round {one.nth} of a plan",
            )
            after = edited.home
            made.extend(edited.made)
    if not made:
        raise Refused("Nothing was looked at in these answers.")
    return Edited(after, f"Take the answers of {counted(len(made), 'round')}", tuple(made))
