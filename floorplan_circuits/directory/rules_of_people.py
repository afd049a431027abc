"""Whether a line outlasts whoever lives there now: NEC 408.4(A), 2023, bans what depends on them."""

from collections.abc import Iterator

from floorplan_circuits.directory.judging import LineToJudge, Objection
from floorplan_circuits.home.home import Home


def person(line: LineToJudge) -> Iterator[Objection]:
    """Nobody's name, and nobody's place in the family: the next people have no such room.

    A first name without a possessive is known only if somebody of that name tested in this home.
    """
    tested = testers(line.home)
    for word in line.said:
        if "person" in word.tells or (not word.tells and word.folded in tested):
            yield Objection(
                word.words,
                f"“{word.words}” depends on who lives there.",
                "Name the room by its floor and side: “Upstairs, street side”.",
                find_out="Find out which room is meant, and name it by its floor and side: “Upstairs, street side”.",
            )


def testers(home: Home) -> frozenset[str]:
    """Return every name under which somebody tested in this home, in lower case."""
    return frozenset(name.casefold() for entry in home.log for name in getattr(entry, "who", "").split())


def passing(line: LineToJudge) -> Iterator[Objection]:
    """What is new today is old tomorrow."""
    for word in line.telling("passing"):
        if "short" not in word.tells:
            yield Objection(
                word.words,
                f"“{word.words}” is true only for a while.",
                "Say which by its place.",
                find_out="Find out which one it is, and say which by its place.",
            )


def use_of_today(line: LineToJudge) -> Iterator[Objection]:
    """A room that is an office now may be a bedroom next: forums of the trade argue about it, so it is advice."""
    for word in line.telling("use of today"):
        yield Objection(
            word.words,
            f"“{word.words}” is what the room is used for today.",
            "Add its floor and side, so that it is found when the use changes.",
            soft=True,
        )
