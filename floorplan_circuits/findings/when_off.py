"""The state of boxes and feeds while handles are off."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, get_args

BoxState = Literal["live", "unknown", "not proved", "not opened", "should be dead"]
"""What a box is while given handles are off, worst first. All but the last read 'treat as live'; none reads 'safe'."""
WORST_FIRST: tuple[BoxState, ...] = get_args(BoxState)


def state_in_words(state: BoxState) -> str:
    """Return a state as a person reads it.

    Examples:
        >>> state_in_words("not proved")
        'not proved: treat as live'
    """
    return {"live": "live", "should be dead": "should be dead: test it"}.get(state, f"{state}: treat as live")


@dataclass(frozen=True, slots=True)
class BoxWhenOff:
    """The state of a box while given handles are off, and why: what in it keeps it from a better one, or what it needs.

    It speaks of hot conductors. Where `neutral_known` is false the splices of its neutrals stay closed until tested.
    """

    box: int
    state: BoxState
    because: tuple[str, ...] = ()
    neutral_known: bool = False

    @property
    def says(self) -> str:
        """The state as a person reads it."""
        return state_in_words(self.state)

    @property
    def of_neutral(self) -> str:
        """What is not known of its neutrals, and what to do about it; '' where they are."""
        return "" if self.neutral_known else "neutral not known: keep its splices closed until tested"


@dataclass(frozen=True, slots=True)
class FeedWhenOff:
    """What one feed is while given handles are off, and why; 'not opened' is said of boxes alone."""

    feed: int
    state: BoxState
    because: str = ""


@dataclass(frozen=True, slots=True)
class WhatIf:
    """The home as it would be with these handles off: nothing is turned, and the home is not changed.

    `off` holds all that the hand would move along and what was found off. `lit` tells the breakers that still have
    power on their load side: a subpanel's go with its feeder.
    """

    off: frozenset[int]
    feeds: Mapping[int, FeedWhenOff]
    boxes: Mapping[int, BoxWhenOff]
    lit: frozenset[int]
