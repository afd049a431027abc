"""What a rule is given to judge one line by, and the words it answers with."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from floorplan_circuits.directory.abbreviations import meanings, short_words
from floorplan_circuits.directory.vocabulary import Vocabulary, Word, abbreviations, vocabulary
from floorplan_circuits.findings import Load, Verdict
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.kinds import kind_named

KINDS = frozenset({"receptacle", "light", "switch", "needs a place", "no appliance"})
PLACES = frozenset({"place", "use of today"})


class Said(NamedTuple):
    """A word of a line: as it stands there, folded, and all that it may tell here."""

    words: str
    folded: str
    tells: frozenset[str]


@dataclass(frozen=True, slots=True)
class LineToJudge:
    """A line with what it must agree with: the other lines of its panel, and what hangs on its breaker.

    `others` are the other lines of the panel by their breakers' numbers. `onward`: it feeds a panel, or more breakers.
    `shared`: the loads of which other breakers serve the rest, with these breakers' numbers.
    """

    words: str
    said: tuple[Said, ...]
    home: Home
    others: Mapping[str, str]
    loads: tuple[Load, ...] = ()
    shared: tuple[tuple[Load, tuple[str, ...]], ...] = ()
    onward: bool = False
    all_proved: bool = False

    @property
    def is_known(self) -> bool:
        """Whether anything is known to hang on the breaker."""
        return bool(self.loads) or self.onward

    def telling(self, *tells: str) -> Iterator[Said]:
        """Yield the words that tell one of these."""
        return (word for word in self.said if word.tells & set(tells))

    def first(self, *tells: str) -> Said | None:
        """Return the first word that tells one of these."""
        return next(self.telling(*tells), None)

    def has(self, *tells: str) -> bool:
        """Tell whether any word tells one of these."""
        return self.first(*tells) is not None


class Objection(NamedTuple):
    """What a rule objects to: the words, why, what to do. `soft`: advice only. `practice`: no published rule has it.

    `find_out` says what to find out where nobody knows enough for a better line.
    """

    words: str
    says: str
    do: str
    soft: bool = False
    practice: bool = False
    find_out: str = ""


Rule = Callable[[LineToJudge], Iterator[Objection]]


def own_words(home: Home) -> list[tuple[str, str]]:
    """Return the words that this home alone has, and what each tells: rooms and levels are places."""
    named = (device for box in home.boxes for device in box.devices if device.name.strip())
    own = [(device.name, "appliance") for device in named if kind_named(device.kind).group == "appliance"]
    own += [(room.name, "place") for room in home.rooms] + [(level.name, "place") for level in home.levels]
    return own + [(panel.name, "appliance") for panel in home.panels]


def home_vocabulary(home: Home) -> Vocabulary:
    """Return the words of labels in this home. A room that is named after somebody adds no place."""
    base = vocabulary()
    return base.with_words(
        (words, tells)
        for words, tells in own_words(home)
        if not any(word.tells == "person" for word in base.read(words))
    )


def said_in(label: str, home: Home, known: Vocabulary) -> tuple[Said, ...]:
    """Return the words of a label; a shortened one tells what it was said to mean, or else all it may mean."""
    explained = meanings(home)
    short = {word.start: word for word in short_words(label)}
    return tuple(_said(word, label, word.start in short, explained, known) for word in known.read(label))


def _said(word: Word, label: str, is_short: bool, explained: Mapping[str, str], known: Vocabulary) -> Said:
    if not is_short or (word.tells and word.folded not in abbreviations()):
        return Said(word.on(label), word.folded, frozenset({word.tells} if word.tells else ()))
    if word.folded in explained:
        means: tuple[str, ...] = (explained[word.folded],)
        asks = frozenset[str]()
    else:
        means, asks = abbreviations().get(word.folded, ()), frozenset({"short"})
    tells = {inner.tells for one in means for inner in known.read(one) if inner.tells}
    return Said(word.on(label), word.folded, frozenset(tells) | asks)


def as_verdict(rule: str, objection: Objection, source: str, better: str) -> Verdict:
    """Return an objection as a verdict: with the line that is proposed instead, else with what to find out."""
    where = "common practice, no source" if objection.practice else source
    do = objection.do if better or not objection.find_out else objection.find_out
    return Verdict(rule, objection.words, objection.says, do, where, better, objection.soft)


def in_list(words: list[str], joined_by: str = "and") -> str:
    """Return words as a sentence lists them.

    Examples:
        >>> in_list(["5"]), in_list(["5", "7", "9"]), in_list(["door", "dryer"], "or")
        ('5', '5, 7 and 9', 'door or dryer')
    """
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} {joined_by} {words[-1]}"
