"""What is known of feeds and of what enters boxes."""

from dataclasses import dataclass

from floorplan_circuits.findings.common import Standing


@dataclass(frozen=True, slots=True)
class Conclusion:
    """What is known of one feed: its standing, the breakers it is said or proved to hang on, and how we know.

    `others` tells, in words, supplies that are no breaker of the panels (a source, elsewhere). `besides` are the
    handles found off that a proof leans on: it holds only while they stay off. `candidates` are the breakers that no
    reading excludes as its only supply; unless it is proved, more than one, or a supply from elsewhere, may be it too.
    `fits` are those of them that explain every 'dead' that counts; empty where none does, or nothing was read.
    `behind` are the feeds of ground-fault devices that it was seen to hang behind.
    """

    feed: int
    box: int
    device: int | None
    standing: Standing
    breakers: tuple[int, ...] = ()
    others: tuple[str, ...] = ()
    says: str = ""
    date: str = ""
    besides: tuple[int, ...] = ()
    candidates: tuple[int, ...] = ()
    behind: tuple[int, ...] = ()
    fits: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Disagreement:
    """Readings of one feed that cannot all hold, the fewest that show it: what they are, and what to do.

    `may_be` tells what may explain them, the dangerous first where there is danger. `entries` are theirs in the log.
    """

    feed: int
    says: str
    may_be: tuple[str, ...]
    do: str
    entries: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class SeenCable:
    """A cable that somebody saw in an open box: where it enters, in their words, and its feed or None for not known."""

    enters: str
    feed: int | None


@dataclass(frozen=True, slots=True)
class BoxFinding:
    """What enters one box: the breakers (in the panel's order), other supplies in words, how many feeds nobody knows.

    `shared`: no one hand movement makes its conductors dead together. `tied`: their handles move together all the
    same, but can trip apart. `apart`: tests leave no one handle that could feed all of it, though nobody knows which
    two do. `opened`: somebody looked inside since the last change of it. `seen` are the cables in it when it was last
    opened, changed since or not, and `seen_on` the day, as far as it was written down.
    """

    box: int
    room: int | None
    room_name: str
    level_name: str
    breakers: tuple[int, ...] = ()
    others: tuple[str, ...] = ()
    unknown: int = 0
    shared: bool = False
    tied: bool = False
    apart: bool = False
    opened: bool = False
    seen: tuple[SeenCable, ...] = ()
    seen_on: str = ""
