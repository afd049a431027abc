"""A panel's grid, its lines, and what is wrong with them."""

from collections.abc import Mapping
from dataclasses import dataclass, field


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
