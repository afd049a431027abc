"""Whether a line is told from all others of its panel (NEC 408.4(A), 2023), and which of several rooms it means."""

import re
from collections.abc import Iterator

from floorplan_circuits.directory.judging import LineToJudge, Objection, in_list
from floorplan_circuits.directory.vocabulary import folded

AT_THE_END = re.compile(r"\s#?(\d{1,2}|[A-D])$")


def distinct(line: LineToJudge) -> Iterator[Objection]:
    """Two lines alike after case, spaces and punctuation are folded tell nobody which is which; spares may be alike."""
    mine = folded(line.words)
    same = [number for number, words in line.others.items() if mine and folded(words) == mine]
    if same and not (line.said and all("unused" in word.tells for word in line.said)):
        also = in_list(same)
        yield Objection(
            line.words,
            f"“{line.words}” stands at {also} too.",
            "Say which part each of them serves.",
            find_out="Find out which part each of them serves: the wall, the kind, the marks of the boxes.",
        )


def told_by_a_number(line: LineToJudge) -> Iterator[Objection]:
    """'Kitchen 1' and 'Kitchen 2' are told apart on the door and nowhere in the kitchen."""
    tidy = " ".join(line.words.split())
    found = AT_THE_END.search(tidy)
    rooms = {folded(room.name) for room in line.home.rooms}
    if found is None or any(folded(tidy).endswith(room) for room in rooms if room):
        return
    stem = folded(tidy[: found.start()])
    if any(folded(AT_THE_END.sub("", " ".join(words.split()))) == stem for words in line.others.values()):
        yield Objection(
            found[1],
            f"“{found[1]}” stands nowhere in the house.",
            "Tell them apart by what a person sees: which wall.",
            find_out="Find out which wall, kind or box each of them serves, and tell them apart by that.",
        )


def which_room(line: LineToJudge) -> Iterator[Objection]:
    """'Bedroom' names none where a home has three. A plural names them all; a number or a side may tell."""
    if line.has("side", "number"):
        return
    for word in line.telling("place"):
        if "short" in word.tells or word.folded.endswith("s"):
            continue
        rooms = [room.name for room in line.home.rooms if word.folded in (folded(room.use), *_kinds_of(room.name))]
        if len(rooms) > 1 and word.folded not in {folded(name) for name in rooms}:
            could_be = in_list(list(dict.fromkeys(rooms)), "or")
            yield Objection(
                word.words, f"“{word.words}” could be {could_be}.", "Say which.", find_out="Find out in which of them."
            )


def _kinds_of(name: str) -> tuple[str, ...]:
    """Return what a name begins or ends with: 'Bedroom 2' and 'Front bedroom' are bedrooms."""
    words = folded(name).split()
    return (words[0], words[-1]) if words else ()
