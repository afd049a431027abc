"""Reading a panel label: its words, and what each tells, from the table of words that people write on labels."""

import re
from collections.abc import Iterable, Iterator, Mapping
from functools import cache, lru_cache
from typing import NamedTuple

from floorplan_circuits.home.resources import read_json

INITIALS = r"(?<![^\W_])[^\W\d_](?:\.[^\W\d_])+(?![^\W_])\.?"
WORD = re.compile(rf"{INITIALS}|[^\W_]+(?:['’/][^\W_]+)*", re.UNICODE)
"""A word, or initials with points: `D.R.` is one word and reads as `dr` does."""
POSSESSIVE = re.compile(r"['’]s?$", re.IGNORECASE)
LONGEST_PHRASE = 4
KINDS = ("receptacle", "light", "switch", "needs a place")
"""What tells a kind of load that stands in many rooms."""


class Word(NamedTuple):
    """A word or phrase of a label: where it stands, and what it tells ('' for one that is not in the table)."""

    start: int
    end: int
    folded: str
    tells: str

    def on(self, label: str) -> str:
        """Return it as it stands on the label."""
        return label[self.start : self.end]


class Vocabulary:
    """Phrases in lower case and what each tells."""

    def __init__(self, tells: Mapping[str, str]) -> None:
        self.tells = tells
        self._begin_phrases = frozenset(phrase.split(maxsplit=1)[0] for phrase in tells if " " in phrase)

    def with_words(self, more: Iterable[tuple[str, str]]) -> "Vocabulary":
        """Return the vocabulary with a home's own words: its rooms, its appliances, its levels."""
        own = {folded(words): tells for words, tells in more if folded(words)}
        return Vocabulary({**own, **self.tells})

    def read(self, label: str) -> list[Word]:
        """Return the words of a label in order, the longest phrases first."""
        found = list(_words(label, self.tells))
        words: list[Word] = []
        at = 0
        while at < len(found):
            sizes = range(LONGEST_PHRASE, 1, -1) if found[at][2] in self._begin_phrases else ()
            size = next((n for n in sizes if self._phrase(found[at : at + n], n)), 1)
            phrase = " ".join(word for _, _, word in found[at : at + size])
            words.append(Word(found[at][0], found[at + size - 1][1], phrase, self._of(phrase)))
            at += size
        return words

    def _phrase(self, some: list[tuple[int, int, str]], size: int) -> bool:
        return len(some) == size and bool(self._of(" ".join(word for _, _, word in some)))

    def _of(self, phrase: str) -> str:
        """Return what a phrase tells, also in the plural; a bare number tells 'number', a possessive a person."""
        if phrase in self.tells:
            return self.tells[phrase]
        if phrase.isdigit():
            return "number"
        for ending in ("s", "es", "'s", "s'", "'"):
            if phrase.endswith(ending) and phrase[: -len(ending)] in self.tells:
                return self.tells[phrase[: -len(ending)]]
        return "person" if "'" in phrase and " " not in phrase else ""

    def has_a_kind(self, words: str) -> bool:
        """Tell whether the words name a kind of load, or an appliance."""
        return any(word.tells in (*KINDS, "appliance") for word in self.read(words))

    def says_unused(self, label: str) -> bool:
        """Tell whether a label claims no load: it is empty, or says only that. One with a question mark asks."""
        words = [word for word in self.read(label) if word.tells != "filler"]
        return "?" not in label and all(word.tells == "unused" for word in words)


def _words(label: str, tells: Mapping[str, str]) -> Iterator[tuple[int, int, str]]:
    for found in WORD.finditer(label):
        word = found[0].lower().replace("’", "'").replace(".", "")
        end = found.end()
        if label[end : end + 1] in ("'", "’"):
            word, end = f"{word}'", end + 1
        if "/" in word and word not in tells and word not in abbreviations():
            start = found.start()
            for part in label[start:end].split("/"):
                yield start, start + len(part), part.lower()
                start += len(part) + 1
        else:
            yield found.start(), end, word


@cache
def vocabulary() -> Vocabulary:
    """Return the words that every home has."""
    rows = read_json("label_words.json")
    return Vocabulary({phrase: tells for tells, phrases in rows.items() if tells != "about" for phrase in phrases})


@cache
def abbreviations() -> dict[str, tuple[str, ...]]:
    """Return every shortened word of the table with what it may mean, the likeliest first."""
    return {short: tuple(means) for short, means in read_json("abbreviations.json")["meanings"].items()}


@lru_cache(maxsize=8192)
def folded(words: str) -> str:
    """Return a line without case, spaces and punctuation: by these alone nobody tells two lines apart.

    Examples:
        >>> folded("Kitchen - Plugs.") == folded("kitchen plugs")
        True
    """
    return " ".join(word.replace(".", "") for word in WORD.findall(words.casefold().replace("’", "'")))


def names_a_person(words: str) -> bool:
    """Tell whether a name says whose a thing is: "Bobbie's room", "kids"."""
    return any(word.tells == "person" for word in vocabulary().read(words))
