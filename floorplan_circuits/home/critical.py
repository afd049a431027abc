"""What minds being turned off, and what to do about it: from the householder's own words for it."""

import json
from functools import cache
from typing import NamedTuple

from floorplan_circuits.home.resources import folder

OTHERWISE = "Ask whoever depends on it before it goes off."


class Kind(NamedTuple):
    """A kind of critical load: words that tell it, and what to do about it. Common practice, no source."""

    name: str
    words: tuple[str, ...]
    mind: str


@cache
def kinds() -> tuple[Kind, ...]:
    """Return all kinds, the most pressing first."""
    text = (folder("resources") / "critical_loads.json").read_text(encoding="utf-8")
    return tuple(Kind(one["name"], tuple(one["words"]), one["mind"]) for one in json.loads(text)["critical"])


def to_mind(*words: str) -> str:
    """Return what to do about a thing that somebody called critical, by whatever words tell of it.

    Examples:
        >>> to_mind("freezer", "the food in it")
        "Keep its door shut. Look afterwards that it runs again."
    """
    place = rank(*words)
    return kinds()[place].mind if place < len(kinds()) else OTHERWISE


def rank(*words: str) -> int:
    """Return how pressing it is, 0 the most; past the last kind for what none tells."""
    told = " ".join(words).lower()
    found = (at for at, kind in enumerate(kinds()) if any(word in told for word in kind.words))
    return next(found, len(kinds()))
