"""A better line for one verdict: the smallest change that mends the words, so that as much as can be stays a person's.

What no change of words can mend needs what hangs on the breaker: the program's own line where that is known, and where
it is not, nothing better can be said.
"""

import re
from collections.abc import Callable, Mapping

from floorplan_circuits.directory.abbreviations import meanings, short_words
from floorplan_circuits.directory.judging import LineToJudge, Objection
from floorplan_circuits.directory.vocabulary import abbreviations, folded

EDGES = " ,;:/&+-–—."
"""What may be left over at the ends, or between two words, where a word was taken out."""

TWO_STATES = ("now", "for now", "was", "used to be", "former", "future")
"""Words that part what a breaker fed once from what it feeds now."""

Mend = Callable[[LineToJudge, Objection], str]


def mended(rule: str, line: LineToJudge, objection: Objection) -> str:
    """Return the words with one small change that answers the objection; '' where no change of words does."""
    words = MENDS[rule](line, objection) if rule in MENDS else ""
    return "" if folded(words) == folded(line.words) else words[:1].upper() + words[1:]


def written_out(line: LineToJudge, objection: Objection) -> str:
    """Write every shortened word out, if each can mean one thing alone; '' where the householder must say which."""
    said = meanings(line.home)
    words = line.words
    for word in reversed(list(short_words(words))):
        may = (said[word.folded],) if word.folded in said else abbreviations().get(word.folded, ())
        if len(may) != 1:
            return ""
        point = words[word.end : word.end + 1] == "."
        words = words[: word.start] + may[0] + words[word.end + point :]
    return words


def without(line: LineToJudge, objection: Objection) -> str:
    """Leave out the words objected to, and what then stands alone between commas.

    A word that says what was and what is leaves what its writer says is so today.
    """
    if folded(objection.words) in TWO_STATES:
        return _as_of_today(line, folded(objection.words))
    found = re.search(rf"(?<!\w){re.escape(objection.words)}(?!\w)", line.words)
    if found is None:
        return ""
    before, after = line.words[: found.start()], line.words[found.end() :]
    if before.endswith("(") and after.startswith(")"):
        before, after = before[:-1], after[1:]
    if not before.strip(EDGES):
        return after.strip(EDGES)
    return " ".join(f"{before.rstrip(EDGES)}{' ' if _goes_on(before, after) else ''}{after}".split()).strip(EDGES)


def _as_of_today(line: LineToJudge, word: str) -> str:
    """Return the one appliance that a line says is there today; '' where it does not part two of them clearly.

    'Dryer now hot tub' and 'dryer hot tub now' leave the hot tub, 'hot tub was dryer' too.
    """
    at = [said.folded for said in line.said].index(word)
    before, after = line.said[:at], line.said[at + 1 :]
    if not all("appliance" in said.tells for said in (*before, *after)):
        return ""
    if word in ("was", "used to be", "former"):
        return before[0].words if len(before) == len(after) == 1 else ""
    if word not in ("now", "for now"):
        return ""
    return after[0].words if len(after) == 1 else before[1].words if len(before) == 2 and not after else ""


def with_floor(line: LineToJudge, objection: Objection) -> str:
    """Add the floor of the one room that is meant, where a home has several."""
    levels = {level.id: level.name.strip() for level in line.home.levels}
    rooms = [room for room in line.home.rooms if folded(objection.words) in (folded(room.name), folded(room.use))]
    if len(levels) < 2 or len(rooms) != 1 or not levels.get(rooms[0].level, ""):
        return ""
    floor = levels[rooms[0].level]
    return "" if folded(floor) in folded(line.words) else f"{line.words.strip()} ({floor})"


def _goes_on(before: str, after: str) -> bool:
    """Tell whether what stands behind a word that was left out goes on with a word, not with a comma."""
    return before[-1:] == " " and after.lstrip()[:1].isalnum()


MENDS: Mapping[str, Mend] = {
    "shortened": written_out,
    "says nothing": without,
    "a person": without,
    "passing": without,
    "use of today": with_floor,
}
"""How the words themselves may be mended, by the rule they break; all other rules ask what hangs on the breaker."""
