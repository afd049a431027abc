"""A plan of test rounds, as numbers and as words."""

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Stop:
    """A room on the walk of a round, None for boxes in no room: the feeds to look at there, box by box."""

    room: int | None
    feeds: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Rest:
    """Before a feed is looked at: handles to turn on for as long as they were off, and off again."""

    feed: int
    handles: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class PlannedRound:
    """One round of a plan: the handles that are off, those to move beforehand, and the walk past the feeds.

    `off` and `moves` name one handle of each movement. `moves` are turned off where they are in `off`, else back on.
    `minutes` are a guess, with the way back to the panel and the `rests` that keep each handle from being off for
    longer than it may.
    """

    off: tuple[int, ...]
    moves: tuple[int, ...]
    walk: tuple[Stop, ...]
    metres: float
    minutes: float = 0.0
    rests: tuple[Rest, ...] = ()


@dataclass(frozen=True, slots=True)
class Solo:
    """One handle to be turned off alone, and the feeds that are said or suggested to be on it."""

    handle: int
    feeds: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Effort:
    """What a way of finding out takes."""

    rounds: int
    moves: int
    readings: int
    metres: float
    minutes: float


@dataclass(frozen=True, slots=True)
class TestPlan:
    """A plan of test rounds. All is read once with all on before the first and again after the last round.

    `handles` are those to be told apart, one of each movement. `left_alone`: handles that stay as they are, with why.
    `apart`: feeders and mains, and fuses, which are tested by themselves. `advice`: feeds with nothing to watch, with
    what to put there. `all_on` is the walk with all on. `kept_on`: the feeders and mains among `apart` that are tested
    after the rounds, what is turned off together; the mains last. `at_most`: the minutes that a handle may be off at a
    stretch, for those that have a limit.
    """

    __test__ = False

    handles: tuple[int, ...]
    left_alone: Mapping[int, str]
    apart: tuple[int, ...]
    feeds: tuple[int, ...]
    advice: Mapping[int, str]
    all_on: PlannedRound
    rounds: tuple[PlannedRound, ...]
    solo: tuple[Solo, ...]
    compared: Mapping[str, Effort]
    kept_on: tuple[tuple[int, ...], ...] = ()
    at_most: Mapping[int, int] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Look:
    """One feed to look at: its place in the plan's order, its box's mark, what it is and where, what to do or mind.

    `room` and `level` are empty where it has none.
    """

    place: int
    mark: str
    what: str
    mind: tuple[str, ...]
    room: str
    level: str


@dataclass(frozen=True, slots=True)
class Walked:
    """A room on the walk in words, and the feeds to look at there. `name` is empty for what lies in no room."""

    name: str
    level: str
    looks: tuple[Look, ...]


@dataclass(frozen=True, slots=True)
class Turned:
    """One round in words: what is off in it, and the handles to turn before it, as numbered on the panel.

    `rests` are sentences: where on the walk something is turned on for a while.
    """

    off: tuple[str, ...]
    turn_off: tuple[str, ...]
    turn_on: tuple[str, ...]
    rests: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Alone:
    """One handle to be turned off alone, as numbered and by its id, and the feeds that should then be dead."""

    handle: str
    id: int
    looks: tuple[Look, ...]


@dataclass(frozen=True, slots=True)
class ToTry:
    """One handle to be turned off alone of which nothing is suggested yet, and what to mind with it."""

    handle: str
    how: str = ""


@dataclass(frozen=True, slots=True)
class RoundsInWords:
    """A plan of test rounds as people carry it out, away from the computer.

    `code` is the plan's. `left_alone` and `not_watched` are sentences. `rounds` begin and end with all on. `to_try` are
    the handles that are not in `solo`: those of the rounds, then fuses, feeders, and mains last.
    """

    code: str
    home: str
    cautions: tuple[str, ...]
    left_alone: tuple[str, ...]
    not_watched: tuple[str, ...]
    walk: tuple[Walked, ...]
    rounds: tuple[Turned, ...]
    solo: tuple[Alone, ...]
    to_try: tuple[ToTry, ...] = ()
