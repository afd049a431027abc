"""Whether a line tells a purpose at all: clear, evident and specific (NEC 408.4(A), 2023). One function a rule."""

from collections.abc import Iterator

from floorplan_circuits.directory.judging import KINDS, PLACES, LineToJudge, Objection, in_list
from floorplan_circuits.directory.vocabulary import abbreviations

EXAMPLE = {"receptacle": "“Kitchen: receptacles”", "light": "“Hall: lights”", "switch": "“Hall: switch”"}


def is_empty(line: LineToJudge) -> Iterator[Objection]:
    """A line must be there at all."""
    if not line.words.strip():
        yield Objection(
            "",
            "There is no label.",
            "Say what it feeds.",
            find_out="Find out what it feeds. Call it a spare only once all else is tested.",
        )


def shortened(line: LineToJudge) -> Iterator[Objection]:
    """A word that only its writer can be sure of is no clear one."""
    for word in line.telling("short"):
        may_mean = abbreviations().get(word.folded, ())
        do = f"Say once what it means: {in_list(list(may_mean), 'or')}." if may_mean else "Say once what it means."
        yield Objection(word.words, f"“{word.words}” is cut short: nobody but its writer can be sure.", do)


def says_nothing(line: LineToJudge) -> Iterator[Objection]:
    """Words such as 'misc' and 'general' name no purpose; beside a named one they hide a second."""
    for word in line.telling("says nothing"):
        if "short" not in word.tells:
            yield Objection(
                word.words,
                f"“{word.words}” tells nobody what it feeds.",
                "Name each load and its room.",
                find_out=f"Find out what “{word.words}” is: each load and its room.",
            )


def unsure(line: LineToJudge) -> Iterator[Objection]:
    """A guess is no evident purpose."""
    words = [word.words for word in line.telling("unsure")] + (["?"] if "?" in line.words else [])
    if words:
        yield Objection(
            words[0],
            f"“{words[0]}” is a guess.",
            "Write what is known.",
            find_out="Find out, and write what you know.",
        )


def points_elsewhere(line: LineToJudge) -> Iterator[Objection]:
    """A line that sends its reader to another is not on the door."""
    words = [word.words for word in line.telling("points elsewhere")]
    words += (
        [line.words.strip()] if line.words.strip() in ('"', "''", "”", "„", "〃", "-", "–", "—", "...", "…") else []
    )
    if words:
        yield Objection(
            words[0],
            f"“{words[0]}” sends the reader to another line.",
            "Write the purpose here too.",
            find_out="Find out what this one feeds alone: two breakers seldom feed the same.",
        )


def which_appliance(line: LineToJudge) -> Iterator[Objection]:
    """'Appliance' and 'motor' name none: the trade's commentary asks which."""
    word = line.first("no appliance")
    if word is not None and not line.has("appliance"):
        yield Objection(
            word.words,
            f"“{word.words}” does not say which.",
            "Name it: “Dishwasher, Kitchen”.",
            find_out="Find out which one it feeds, and name it: “Dishwasher, Kitchen”.",
        )


def where(line: LineToJudge) -> Iterator[Objection]:
    """Lights and receptacles are everywhere: without a room they name none."""
    word = line.first("receptacle", "light", "switch", "needs a place")
    if word is not None and not line.has(*PLACES, "appliance"):
        example = next((f": {EXAMPLE[kind]}" for kind in EXAMPLE if kind in word.tells), ", or what it serves")
        yield Objection(
            word.words,
            f"“{word.words}” could be anywhere.",
            f"Say where{example}.",
            find_out=f"Find out in which rooms, and say where{example}.",
        )


def what(line: LineToJudge) -> Iterator[Objection]:
    """A room is no load: its lights, its receptacles and its appliances may hang on three breakers."""
    places = list(line.telling(*PLACES))
    if places and not line.has(*KINDS, "appliance", "unused", "says nothing"):
        words = places[0].words
        yield Objection(
            words,
            f"“{words}” does not say what there: lights, receptacles, an appliance?",
            "Say what is on it there.",
            find_out=f"Find out what in “{words}” it feeds, and what else.",
        )


def names_a_load(line: LineToJudge) -> Iterator[Objection]:
    """A line of numbers, or of words that a stranger may not know, names no load."""
    told = (*KINDS, *PLACES, "appliance", "unused", "says nothing", "unsure", "points elsewhere", "short")
    if not line.words.strip() or line.has(*told):
        return
    strange = [word.words for word in line.said if not word.tells]
    if strange:
        yield Objection(
            strange[0],
            f"“{in_list(strange)}” may mean nothing to a stranger.",
            "Say what it is and where.",
            soft=True,
            find_out="Find out what it feeds, and say what it is and where.",
        )
    elif line.said:
        yield Objection(
            line.words,
            f"“{line.words}” names no load.",
            "Say what it feeds and where.",
            find_out="Find out what it feeds, and say it with its room.",
        )


def spare(line: LineToJudge) -> Iterator[Objection]:
    """A spare has nothing on it; and nobody knows that before all is tested."""
    word = line.first("unused")
    if word is None or "short" in word.tells or line.has(*KINDS, "appliance"):
        return
    if line.is_known:
        yield Objection(word.words, f"It says “{word.words}”, and something hangs on it.", "Treat it as in use.")
    elif not line.all_proved:
        yield Objection(
            word.words,
            f"“{word.words}” is not known yet: not all is recorded and tested.",
            "Call it a spare once all is tested.",
            soft=True,
            practice=True,
        )
