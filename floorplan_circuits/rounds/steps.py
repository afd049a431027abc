"""The steps of the guide: how somebody looks, and one thing to do at a time."""

from collections.abc import Collection
from dataclasses import dataclass
from typing import Literal

from floorplan_circuits.home.home import FeedPlace
from floorplan_circuits.home.kinds import kind_named

Stage = Literal[
    "all on", "round", "all on again", "before alone", "alone", "after alone", "feeder", "main", "after kept on", "done"
]
Says = Literal["dead", "live", "unclear"]


@dataclass(frozen=True, slots=True)
class Manner:
    """How somebody looks, as they say themselves.

    `way`: a way of testing, or '' for what is there: a lamp plugged in, or the thing itself. `tried`: whatever reads
    dead was tried on something live before and after. `each_hot`: every hot is read to a proved reference.
    """

    way: str = ""
    tried: bool = False
    each_hot: bool = False
    who: str = ""
    helper: str = ""

    def method(self, group: str) -> str:
        """Return what a reading of a thing of this group of kinds is taken with."""
        return self.way or ("lamp plugged in" if group == "receptacle" else "the fixture itself")


@dataclass(frozen=True, slots=True)
class GuideStep:
    """One thing to do: the handles to have off, and in one room the feeds to look at that are not answered yet.

    `nth` of `of` counts the rounds, or the handles that are tried alone; `done` rounds went before, of a plan that was
    made anew since. `off` names one handle of each movement. `left` counts the looks that are left in this round, other
    rooms included. `note` goes into the log. `again` are the feeds that were not live with all on when they were last
    looked at: they are asked about until they are, or are passed by.
    """

    stage: Stage
    nth: int = 0
    of: int = 0
    off: tuple[int, ...] = ()
    room: int | None = None
    feeds: tuple[int, ...] = ()
    left: int = 0
    note: str = ""
    done: int = 0
    again: tuple[int, ...] = ()

    @property
    def key(self) -> tuple[str, int]:
        """Which walk it belongs to: what is skipped is skipped for this walk."""
        return self.stage, self.nth


DONE = GuideStep("done")
Skipped = Collection[tuple[tuple[str, int], int]]
"""Walks with feeds that the person passed by."""


def group_of(place: FeedPlace) -> str:
    """Return the group of kinds that a feed's device belongs to; '' for a cable."""
    return "" if place.device is None else kind_named(place.device.kind).group
