"""Making every line of a panel unlike every other, whichever variant of each is drawn.

NEC 408.4(A), 2023: in enough detail to tell each circuit from all others.
"""

from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from floorplan_circuits.directory.vocabulary import folded
from floorplan_circuits.findings import Line

MOST_DETAILS = 4
"""The details that a line is tried with before it is left alike."""


@dataclass(frozen=True, slots=True)
class _Way:
    """One variant of a line: its words, and the detail put behind it, after how many that were in vain."""

    words: str
    detail: str = ""
    tried: int = 0

    @property
    def says(self) -> str:
        return f"{self.words} ({self.detail})" if self.detail else self.words

    def with_next(self, details: Sequence[str]) -> "_Way":
        """Return it with the next detail, as long as there is one."""
        return _Way(self.words, details[self.tried], self.tried + 1) if self.tried < len(details) else self


def told_apart(
    lines: Mapping[int, Line], details: Callable[[int], Sequence[str]], others: Iterable[str]
) -> dict[int, Line]:
    """Return the lines of one panel, no variant of one like any of another, nor like any of the `others`.

    A variant that two lines share gets the first of its line's `details` that tells it apart. What says that nothing
    is known stands as it is: spares may be alike.
    """
    taken = {folded(words) for words in others}
    ways = {number: [_Way(words) for words in line.variants] for number, line in lines.items() if not line.idle}
    for _ in range(MOST_DETAILS):
        shared = _shared(ways.values(), taken)
        if not shared:
            break
        for number, each in ways.items():
            if any(folded(way.says) in shared for way in each):
                more = details(number)
                ways[number] = [way.with_next(more) if folded(way.says) in shared else way for way in each]
    return {
        number: replace(line, variants=_shorter_and_shorter(ways[number])) if number in ways else line
        for number, line in lines.items()
    }


def _shared(each: Iterable[Sequence[_Way]], taken: set[str]) -> set[str]:
    count = Counter(words for ways in each for words in {folded(way.says) for way in ways})
    return {words for words, times in count.items() if times > 1 or words in taken}


def _shorter_and_shorter(ways: Iterable[_Way]) -> tuple[str, ...]:
    """Return the words in their rank, without those that a detail made longer than a fuller one."""
    kept: list[str] = []
    for words in (way.says for way in ways):
        if not kept or len(words) < len(kept[-1]):
            kept.append(words)
    return tuple(kept)
