"""The ways of testing: what each is called, what it shows, what it cannot show, and what to mind."""

from dataclasses import dataclass
from functools import cache

from floorplan_circuits.home.log import STRONG_METHODS
from floorplan_circuits.home.resources import read_json


@dataclass(frozen=True, slots=True)
class Way:
    """One way to find out. `recorded_as`: kinds of log entry that can hold it, none for what is only stated.

    `adapters` are what some points need so that it can be used there.
    """

    name: str
    label: str
    shows: str
    cannot: str
    caution: str
    recorded_as: tuple[str, ...] = ()
    adapters: tuple[str, ...] = ()

    @property
    def is_strong(self) -> bool:
        """Whether its word, once all is seen with it that a proof takes, can prove what a feed hangs on."""
        return self.name in STRONG_METHODS


@cache
def ways() -> dict[str, Way]:
    """Return every way by name: all methods of a round, the ways to trace, and what is seen or stated otherwise."""
    rows = read_json("ways_of_testing.json")["ways"]
    lists = ("recorded_as", "adapters")
    return {row["name"]: Way(**{**row, **{name: tuple(row.get(name, ())) for name in lists}}) for row in rows}


def way_named(name: str) -> Way:
    """Return the way; one that a newer program wrote counts as not said, under its own name."""
    known = ways().get(name)
    if known is not None:
        return known
    nobody = ways()["not said"]
    return Way(name, name, nobody.shows, nobody.cannot, nobody.caution)
