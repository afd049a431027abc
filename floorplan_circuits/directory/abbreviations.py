"""Shortened words on old labels: nobody but who wrote one can be sure, so each is asked about once in a home."""

from collections.abc import Iterator

from floorplan_circuits.directory.vocabulary import Word, abbreviations, vocabulary
from floorplan_circuits.findings import AskedWord
from floorplan_circuits.home.home import Home

VOWELS = frozenset("aeiouyäöüéèàáíóú")
LONGEST_BARE = 6
"""Letters: a longer word without a vowel is no usual shortening, but may be a name in another language."""


def short_words(label: str) -> Iterator[Word]:
    """Yield the shortened words of a label, as they stand there."""
    for word in vocabulary().read(label):
        if word.folded in abbreviations() or (not word.tells and _looks_short(word, label)):
            yield word


def _looks_short(word: Word, label: str) -> bool:
    """Tell whether a word that no table has looks cut short: without a vowel, or with a point behind it."""
    letters = word.folded
    if not letters.isalpha() or not 1 < len(letters) <= LONGEST_BARE:
        return False
    return not VOWELS & set(letters) or (label[word.end : word.end + 1] == "." and word.end + 1 < len(label))


def meanings(home: Home) -> dict[str, str]:
    """Return what the householder said of shortened words; said twice, the later counts."""
    return {one.short: one.means for one in home.meanings}


def expanded(home: Home, label: str) -> str:
    """Return a label with the shortened words that somebody explained written out; the rest as it stands."""
    said = meanings(home)
    words = [word for word in short_words(label) if word.folded in said]
    for word in reversed(words):
        point = label[word.end : word.end + 1] == "."
        label = label[: word.start] + said[word.folded] + label[word.end + point :]
    return label


def asked(home: Home) -> tuple[AskedWord, ...]:
    """Return the shortened words on this home's labels that nobody explained, in the order of the panels' lines."""
    said = meanings(home)
    on: dict[str, list[int]] = {}
    for breaker in home.breakers:
        for label in (breaker.as_found, breaker.wording):
            for word in short_words(label):
                if word.folded not in said and breaker.id not in on.setdefault(word.folded, []):
                    on[word.folded].append(breaker.id)
    return tuple(AskedWord(short, abbreviations().get(short, ()), tuple(breakers)) for short, breakers in on.items())
