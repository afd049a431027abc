"""Everything that is computed about a home, as frozen plain values. Nothing here is ever saved.

Made by `find.py` and the packages below it, read by the drawing, the sheets, the command line and the window.
Places are house millimetres; breakers, boxes and feeds are named by their ids in the home.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal, NamedTuple

from floorplan_circuits.home.home import Home

Standing = Literal["unknown", "claimed", "suggested", "traced", "proved", "expired", "contradicted"]
Layer = Literal["receptacles", "lights", "both"]
"""What the floor is divided by."""
XY = tuple[float, float]


class Subject(NamedTuple):
    """What a mark on the picture or a line in a list is about."""

    kind: str
    id: int


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


BoxState = Literal["live", "unknown", "not proved", "not opened", "should be dead"]
"""What a box is while given handles are off, worst first. All but the last read 'treat as live'; none reads 'safe'."""


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


@dataclass(frozen=True, slots=True)
class ToTurnOff:
    """One hand movement of a shut-off: its breakers or main, the panel and spaces, and what each is for.

    `ask` tells whose word is needed first.
    """

    handles: tuple[int, ...]
    panel: int
    spaces: tuple[int, ...]
    because: tuple[str, ...]
    ask: str = ""


@dataclass(frozen=True, slots=True)
class GoesDark:
    """A thing that goes dark with the handles off: where it is, what it is, and what to mind if it is critical."""

    feed: int
    box: int
    room: str
    what: str
    critical: str = ""
    mind: str = ""


@dataclass(frozen=True, slots=True)
class OtherChoice:
    """Another set of handles that would do: what it costs more in things that go dark."""

    handles: tuple[int, ...]
    dark: int
    critical: int
    weight: int


@dataclass(frozen=True, slots=True)
class ShutOff:
    """What to turn off before boxes are opened, what that costs, and what it does not do.

    `keep_off`: handles found off that must stay so. `unknown`: what is not known in these boxes. `stays_live`: what no
    handle named here makes dead. `prove_tester_at`: the box of the nearest tested point that stays live, or None.
    `stay_shut`: the boxes that are not to be opened even with all of that off.
    """

    boxes: tuple[int, ...]
    off: tuple[ToTurnOff, ...]
    keep_off: tuple[ToTurnOff, ...]
    goes_dark: tuple[GoesDark, ...]
    states: tuple[BoxWhenOff, ...]
    unknown: tuple[str, ...]
    stays_live: tuple[str, ...]
    prove_tester_at: int | None
    light_to_work_by: int | None
    light_at_panel: int | None
    choices: tuple[OtherChoice, ...]
    only_the_main: bool = False
    stay_shut: tuple[int, ...] = ()

    @property
    def handles(self) -> frozenset[int]:
        """All handles to turn off."""
        return frozenset(handle for one in self.off for handle in one.handles)

    @property
    def is_whole(self) -> bool:
        """Whether every box should be dead with its neutrals known: the sheet may say so, and to test it."""
        return bool(self.states) and all(one.state == "should be dead" and one.neutral_known for one in self.states)


Pair = Literal["hot to ground", "hot to neutral", "neutral to ground", "hot to hot"]
"""Two conductors between which a tester is held. Ground and neutral stand for whatever proved reference there is."""


@dataclass(frozen=True, slots=True)
class ToTest:
    """One conductor in an open box, or one terminal of a device: what it is, and the pairs to test, each a tick.

    `feed` is None where none is recorded for it.
    """

    box: int
    feed: int | None
    what: str
    pairs: tuple[Pair, ...]


StepKind = Literal[
    "stop", "bring", "tell", "mind", "prove", "see it work", "keep off", "off", "tag", "see it stopped",
    "open", "ground", "test", "found live", "prove again", "work", "close", "by itself", "on", "stays off",
    "afterwards", "call",
]  # fmt: skip
"""What a step of a shut-off is. 'stop' and 'found live' end the work; 'call' tells when to call an electrician."""


@dataclass(frozen=True, slots=True)
class Step:
    """One step of a shut-off: what to do, what to know for it, the handles it moves or leaves, the pairs to test."""

    kind: StepKind
    do: str
    more: tuple[str, ...] = ()
    handles: tuple[int, ...] = ()
    to_test: tuple[ToTest, ...] = ()

    @property
    def is_ticked(self) -> bool:
        """Whether it is something to do, with a box to tick; the others tell when to stop."""
        return self.kind not in ("stop", "found live", "call")


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
    """One handle to be turned off alone, and the feeds that should then be dead."""

    handle: str
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


@dataclass(frozen=True, slots=True)
class Hazard:
    """One danger: one plain sentence what it is, why it matters, what to do, and where the rule stands.

    `box` is None where it is about a panel, breakers, a source or several boxes; `named` is what to look for in any
    case: B14, breaker 15A, Main panel, 3 boxes. `about` are the ids of all it is about, which setting it aside names.
    `listed`: it stands in the list of the whole home; if not, it is told with its box alone. `set_aside`: the day and
    the reason of whoever set it aside; it is there all the same.
    """

    kind: str
    box: int | None
    says: str
    why: str
    do: str
    source: str
    rank: int
    named: str = ""
    room: int | None = None
    room_name: str = ""
    level_name: str = ""
    breakers: tuple[int, ...] = ()
    about: tuple[int, ...] = ()
    listed: bool = True
    set_aside: str = ""


@dataclass(frozen=True, slots=True)
class Wall:
    """A straight piece of wall on the edge of one room (outer) or between two."""

    level: int
    a: XY
    b: XY
    outer: bool


@dataclass(frozen=True, slots=True)
class RoomShape:
    """A room's area in mm² and the places where its name may stand, best first (the widest empty middle)."""

    room: int
    area: float
    label_at: tuple[XY, ...]


@dataclass(frozen=True, slots=True)
class Zone:
    """A piece of floor that shows what its devices are on: `breaker`, or None for an unknown feed.

    `rings` are closed outlines, outer ones and holes alike (even-odd). `settled`: all feeds in it proved or traced.
    """

    room: int
    breaker: int | None
    rings: tuple[tuple[XY, ...], ...]
    settled: bool


@dataclass(frozen=True, slots=True)
class PanelFinding:
    """A panel's grid: for each space its row and column, each half space's breaker, and each space's leg.

    `columns` is 1 for a single row, else 2. `heads`: rows of the grid without a space, which say what begins below.
    """

    panel: int
    columns: int
    rows: int
    cells: Mapping[int, tuple[int, int]]
    taken: Mapping[tuple[int, str], int]
    legs: Mapping[int, str]
    heads: Mapping[int, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Load:
    """One thing in one place: its room as the directory names it, its group, what it is called, how it is told apart.

    `named` is the householder's name for it, if any; `part` the half or part that this feed supplies; `mark` its box's;
    `side` where in its room a person sees it ('on the wall to Hall', 'in the ceiling'), '' where nothing tells.
    """

    place: str
    room: int | None
    group: str
    called: str
    kind: str
    plural: str
    named: str
    device: int
    part: str
    mark: str
    side: str


@dataclass(frozen=True, slots=True)
class Loads:
    """All loads, those of each breaker, and for each place and group everything there with what it hangs on."""

    of: Mapping[int, tuple[Load, ...]] = field(default_factory=dict)
    there: Mapping[tuple[str, str], tuple[tuple[Load, tuple[int, ...]], ...]] = field(default_factory=dict)

    def rest(self, breaker: int, place: str, group: str) -> list[Load]:
        """Return what is in a place, of one group, and not on this breaker as far as anybody knows."""
        return [load for load, on in self.there.get((place, group), ()) if breaker not in on]


@dataclass(frozen=True, slots=True)
class Line:
    """What a panel's directory says of one breaker: ranked variants, longest first; `own`: the householder's words.

    `idle`: nothing is known to hang on it, so that it says this and no purpose.
    """

    breaker: int
    variants: tuple[str, ...]
    own: bool = False
    idle: bool = False


@dataclass(frozen=True, slots=True)
class Verdict:
    """What is wrong with a line on a panel: the rule, the words it objects to ('' where there are none), what to do.

    `better` is a line that would do, or '' where only the householder can say. A `soft` one is advice: the line
    stands without it.
    """

    rule: str
    words: str
    says: str
    do: str
    source: str
    better: str = ""
    soft: bool = False


@dataclass(frozen=True, slots=True)
class JudgedLine:
    """One breaker's old label, verbatim, and the line that is drawn now, each with what is wrong with it.

    `ours` is the line as the program would write it, whatever the householder wrote.
    """

    breaker: int
    old: str
    now: str
    ours: str
    of_old: tuple[Verdict, ...] = ()
    of_now: tuple[Verdict, ...] = ()


@dataclass(frozen=True, slots=True)
class AskedWord:
    """A shortened word on labels that nobody explained yet: what it may mean, and the breakers whose labels have it."""

    short: str
    may_mean: tuple[str, ...]
    breakers: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class JudgedPanel:
    """What a panel's directory must tell besides its lines: where its power comes from, and what it leaves out."""

    panel: int
    fed: str
    verdicts: tuple[Verdict, ...] = ()


@dataclass(frozen=True, slots=True)
class Directory:
    """The panels' directories judged: each line, each panel, and the words to ask about."""

    lines: Mapping[int, JudgedLine] = field(default_factory=dict)
    panels: Mapping[int, JudgedPanel] = field(default_factory=dict)
    asked: tuple[AskedWord, ...] = ()


@dataclass(frozen=True, slots=True)
class Findings:
    """All that is known about `home`, which these findings name."""

    home: Home
    marks: Mapping[int, str] = field(default_factory=dict)
    """Breaker or main -> its number as on the panel: 5, 15A, 2·4, G3."""
    rooms: Mapping[int, RoomShape] = field(default_factory=dict)
    room_of: Mapping[int, int | None] = field(default_factory=dict)
    """Box -> the room it belongs to."""
    near: tuple[tuple[int, int, float], ...] = ()
    """Pairs of boxes within 300 mm of each other on one level, with their distance in mm."""
    walls: tuple[Wall, ...] = ()
    layer: Layer = "both"
    zones: tuple[Zone, ...] = ()
    """The floor as the layer divides it."""
    neighbours: tuple[tuple[int, int], ...] = ()
    """Pairs of rooms with a wall between them."""
    panels: Mapping[int, PanelFinding] = field(default_factory=dict)
    conclusions: Mapping[int, Conclusion] = field(default_factory=dict)
    disagreements: tuple[Disagreement, ...] = ()
    """What readings say against each other or against the map, in the order of the boxes."""
    boxes: Mapping[int, BoxFinding] = field(default_factory=dict)
    hazards: tuple[Hazard, ...] = ()
    loads: Loads = field(default_factory=Loads)
    """What hangs on each breaker, as a directory names it."""
    lines: Mapping[int, Line] = field(default_factory=dict)
    directory: Directory = field(default_factory=Directory)
    """The lines and the old labels judged."""
    colours: Mapping[int, int] = field(default_factory=dict)
    """Breaker -> its place in the palette, counted from 0; none for one that takes no area."""
    never_tested: tuple[int, ...] = ()
    """Feeds that no test ever proved, in the order of the boxes."""
    evidence_to: str = ""
    """Date of the last log entry that has one."""
    tested_by: tuple[str, ...] = ()
    """Who took readings or traced cables, in the order they first did."""
