"""Which handles a person may turn off, and which move together."""

from collections.abc import Mapping
from dataclasses import dataclass

from floorplan_circuits.home.home import Home, mains
from floorplan_circuits.supply.handles import moves_together
from floorplan_circuits.supply.walks import Node
from floorplan_circuits.survey.log_book import LogBook
from floorplan_circuits.survey.troubles import IN_WORDS, keep_off

HANDLE_KINDS = ("breaker", "main")


@dataclass(frozen=True, slots=True)
class Handles:
    """The handles of a home. `barred`: those no cut may use, with why. `together`: handle -> all that move with it.

    `resting` were found off and stay so.
    """

    barred: Mapping[int, str]
    together: Mapping[int, frozenset[int]]
    resting: frozenset[int]

    @classmethod
    def of(cls, home: Home, record: LogBook) -> "Handles":
        """Read them from a home."""
        alone = {main.id: frozenset({main.id}) for _, main in mains(home)}
        return cls(barred(home, record), moves_together(home) | alone, record.found_off)

    def may_open(self, node: Node) -> bool:
        """Tell whether a node is a handle that a person may turn off, with all that move along."""
        return node[0] in HANDLE_KINDS and not any(one in self.barred for one in self.together[node[1]])


def barred(home: Home, record: LogBook) -> dict[int, str]:
    """Return the handles that no cut may use: in trouble, never to be opened, or a fuse of which nobody knows the side.

    A fuse that opens a neutral leaves the hot live: with its side not known its removal makes nothing dead for sure.
    """
    fuses = {
        breaker.id: "is a fuse, and nobody knows which side it opens"
        for breaker in home.breakers
        if breaker.device == "fuse" and breaker.opens == "not known"
    }
    return fuses | in_trouble(record) | keep_off(home, record)


def in_trouble(record: LogBook) -> dict[int, str]:
    """Return the handles, mains among them, that somebody had trouble with and nobody mended: 'runs hot, buzzes'."""
    return {
        handle: ", ".join(dict.fromkeys(IN_WORDS[trouble.what] for _, trouble in some))
        for handle, some in record.troubles.items()
    }
