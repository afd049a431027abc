"""Whether a line agrees with what is known to hang on its breaker. A line that names too little is judged elsewhere."""

from collections.abc import Iterator
from itertools import pairwise

from floorplan_circuits.directory.judging import KINDS, PLACES, LineToJudge, Objection, Said, in_list
from floorplan_circuits.directory.parts import PLAIN
from floorplan_circuits.directory.vocabulary import folded
from floorplan_circuits.findings import Load

FOR_ONE = ("240 V receptacle",)
"""Receptacles that one large appliance is plugged into, whatever it is called."""
LEADS_TO = ("to", "by", "near", "beside", "behind", "over", "under", "above", "below", "at", "opposite")
"""Before a place, these say which side of a room is meant: 'on the wall to Hall'."""
GROUPS = {"receptacle": "receptacles", "light": "lights"}


def names_what_is_there(line: LineToJudge) -> Iterator[Objection]:
    """Nothing that it names may be missing: lights where none is on it, a room in which it has nothing."""
    if not line.loads or _is_vague(line):
        return
    for before, word in pairwise((None, *line.said)):
        if word is None or (before is not None and before.folded in LEADS_TO):
            continue
        if word.tells == {"place"} and not _in_it(word, line):
            yield Objection(word.words, f"Nothing known to be on it is in “{word.words}”.", "Say where its loads are.")
        for group, plural in GROUPS.items():
            if word.tells == {group} and not any(load.group == group for load in line.loads):
                yield Objection(word.words, f"No {plural} are known to be on it.", "Say what is on it.")


def leaves_nothing_out(line: LineToJudge) -> Iterator[Objection]:
    """Everything on it is named: what a line hides is what stays live, or goes dark unseen."""
    if not line.loads or _is_vague(line):
        return
    hidden = _hidden(line)
    if hidden:
        told = list(dict.fromkeys(f"{load.called} in {load.place}" for load in hidden))
        more = f" and {len(told) - 2} more" if len(told) > 2 else ""
        yield Objection(
            line.words, f"“{line.words}” leaves out: {', '.join(told[:2])}{more}.", "Name all that is on it."
        )


def which_part(line: LineToJudge) -> Iterator[Objection]:
    """Where other circuits serve the rest of a room, a line says which part is on it."""
    if _is_vague(line) or line.has("side", "number"):
        return
    said = " ".join(folded(line.words).split())
    told: set[tuple[str, str]] = set()
    for load, others in line.shared:
        word = next((word for word in line.said if load.group in word.tells), None)
        if word is None or _is_told(load, said) or (load.place, load.group) in told:
            continue
        told.add((load.place, load.group))
        serve = "serve" if len(others) > 1 else "serves"
        yield Objection(
            word.words,
            f"{in_list(list(others))} {serve} {GROUPS[load.group]} in {load.place} too.",
            "Say which are on this one: the wall, the kind, the marks of the boxes.",
        )


def _is_told(load: Load, said: str) -> bool:
    """Tell whether a line names this very thing: by its box's mark, its own name, or a kind that is not the usual."""
    if folded(load.mark) in said.split() or (load.named and folded(load.named) in said):
        return True
    return load.kind not in PLAIN and (folded(load.kind) in said or folded(load.plural) in said)


def _is_vague(line: LineToJudge) -> bool:
    """Tell whether the line says too little to be held against the map."""
    if line.has("short", "says nothing", "unused", "unsure") or not line.has(*KINDS, "appliance"):
        return True
    return not line.has(*PLACES, "appliance")


def _rooms_meant(word: Said, line: LineToJudge) -> set[int]:
    """Return the rooms that a place may mean: by their name, or by what they are used for."""
    stem = word.folded.removesuffix("s")
    return {
        room.id
        for room in line.home.rooms
        if stem in folded(room.name) or folded(room.name) in word.folded or stem == folded(room.use)
    }


def _in_it(word: Said, line: LineToJudge) -> bool:
    """Tell whether something on the breaker is in a place named; a place that is no room here can't be held to it."""
    meant = _rooms_meant(word, line)
    return not meant or any(_covers(word, load, line) for load in line.loads)


def _hidden(line: LineToJudge) -> list[Load]:
    """Return the loads that a line does not name.

    An appliance may go by another word than the map's: only what is more than the line's own words is hidden. So may
    the receptacle that one appliance is plugged into: it is what the line's words name first.
    """
    hidden = [load for load in line.loads if load.group != "switch" and not _named(load, line)]
    others = [load for load in hidden if load.kind in FOR_ONE]
    others += [load for load in hidden if load.group not in GROUPS]
    own_words = [word for word in line.telling("appliance", "needs a place", "no appliance") if not _met(word, line)]
    return [load for load in hidden if load not in others[: len(own_words)]]


def _met(word: Said, line: LineToJudge) -> bool:
    return any(word.folded.split()[-1] in folded(load.called) for load in line.loads)


def _named(load: Load, line: LineToJudge) -> bool:
    """Tell whether a load is named: an appliance or a kind by its word, and its place where the line names places."""
    words = folded(line.words)
    places = list(line.telling(*PLACES))
    is_placed = not places or folded(load.place) in words or any(_covers(place, load, line) for place in places)
    if load.group in GROUPS:
        return is_placed and any(load.group in word.tells for word in line.said)
    return any(part in words for part in (folded(load.called), folded(load.kind)) if part) or any(
        word.tells & {"appliance", "needs a place", "no appliance"} and word.folded.split()[-1] in folded(load.called)
        for word in line.said
    )


def _covers(place: Said, load: Load, line: LineToJudge) -> bool:
    """Tell whether a place named takes in the load's: 'bath' the main bathroom, 'upstairs' whatever is not known."""
    meant = _rooms_meant(place, line)
    if load.room is not None:
        return not meant or load.room in meant
    return not meant or place.folded in OUTSIDE


OUTSIDE = {"outdoors", "outside", "exterior", "yard", "garden", "patio", "porch", "deck", "driveway", "balcony"}
"""Places that a box outside may be said to be in, whatever rooms have the word in their names."""
