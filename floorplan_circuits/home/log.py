"""The log: what was seen, in order. Append-only; a mistaken entry is struck by a later one, never erased."""

from typing import Annotated, Any, Literal

from pydantic import BaseModel, Discriminator, Field, Tag

from floorplan_circuits.home.record import Date, Id, Name, Note, Record
from floorplan_circuits.home.references import (
    AnyMark,
    BoxMark,
    DeviceMark,
    EntryMark,
    FeedMark,
    HandleMark,
    PanelMark,
)

Method = Literal[
    "lamp plugged in",
    "radio plugged in, no battery",
    "the fixture itself",
    "two-lead tester",
    "low-impedance meter",
    "high-impedance meter",
    "non-contact tester",
    "signal tracer",
    "not said",
]
STRONG_METHODS: frozenset[str] = frozenset(
    {"lamp plugged in", "radio plugged in, no battery", "the fixture itself", "two-lead tester", "low-impedance meter"}
)
"""What can say live or dead by its own power drawn from the mains (DESIGN: witness)."""

TracedBy = Literal["signal tracer", "followed by eye"]


class Entry(Record):
    """What every log entry tells: when it was made, by whom, and a note."""

    id: Id
    date: Date = ""
    who: Name = ""
    note: Note = ""


class Reading(Record):
    """What one feed showed in a round. `each_hot`: every hot was shown against ground or another proved reference."""

    feed: FeedMark
    says: Literal["dead", "live", "unclear"]
    each_hot: bool = False


class Tester(Record):
    """Whether the tester was proved on a known live point before and after."""

    before: bool = False
    after: bool = False


class Round(Entry):
    """Readings taken while exactly the handles in `off` were not on, those found off included.

    `pressed` names the feeds whose ground-fault device was tripped by its own test button meanwhile: what is dead then
    and live after the reset hangs behind it. `helper`: who stood at the panel or at the device and called across, where
    two did it.
    """

    kind: Literal["round"]
    off: tuple[HandleMark, ...] = Field(default=(), max_length=500)
    pressed: tuple[FeedMark, ...] = Field(default=(), max_length=20)
    method: Method = "not said"
    tester: Tester = Tester()
    helper: Name = ""
    readings: tuple[Reading, ...] = Field(default=(), max_length=100_000)


class Traced(Entry):
    """A plug-in signal tracer pointed from a feed to a handle in one or two passes, or somebody saw the whole cable."""

    kind: Literal["traced"]
    feed: FeedMark
    handle: HandleMark
    way: TracedBy = "signal tracer"
    passes: int = Field(default=1, ge=1, le=9)
    adapter: Name = ""


class Cable(Record):
    """One cable seen in an opened box: where it enters, and the feed it is, or None for not known."""

    enters: Name = ""
    feed: FeedMark | None = None


class Opened(Entry):
    """Somebody looked in a box and told every cable in it."""

    kind: Literal["opened"]
    box: BoxMark
    cables: tuple[Cable, ...] = Field(default=(), max_length=60)


class ReceptacleTest(Entry):
    """What a receptacle tester showed. Its fault is a hint: such a tester cannot tell all of them apart."""

    kind: Literal["tester"]
    device: DeviceMark
    shows: Literal[
        "correct",
        "open ground",
        "open neutral",
        "open hot or dead",
        "hot and neutral reversed",
        "hot and ground reversed",
        "other",
    ]


class Trouble(Entry):
    """A handle that cannot be relied on."""

    kind: Literal["trouble"]
    handle: HandleMark
    what: Literal["did not open", "will not reset", "runs hot", "buzzes", "loose", "other"]


class Change(Entry):
    """The wiring changed: what was proved before about these boxes and panels lapses."""

    kind: Literal["change"]
    what: Literal["rewired", "panel work", "plates mixed up", "unknown work"]
    boxes: tuple[BoxMark, ...] = Field(default=(), max_length=100_000)
    panels: tuple[PanelMark, ...] = Field(default=(), max_length=200)


class Struck(Entry):
    """An earlier entry was a mistake and counts no more."""

    kind: Literal["struck"]
    entry: EntryMark
    why: Name = ""


class Dismissed(Entry):
    """A hazard was set aside, with a reason that prints."""

    kind: Literal["dismissed"]
    hazard: Name
    about: tuple[AnyMark, ...] = Field(default=(), max_length=60)
    why: Name


class UnknownEntry(Entry):
    """An entry of a kind that a newer program wrote: kept, and what it names counts as unknown."""

    kind: Name


KNOWN_KINDS = ("round", "traced", "opened", "tester", "trouble", "change", "struck", "dismissed")


def _tag(value: Any) -> str:
    if isinstance(value, BaseModel):
        kind = getattr(value, "kind", None)
    else:
        kind = value.get("kind") if isinstance(value, dict) else None
    return kind if kind in KNOWN_KINDS else "unknown"


LogEntry = Annotated[
    Annotated[Round, Tag("round")]
    | Annotated[Traced, Tag("traced")]
    | Annotated[Opened, Tag("opened")]
    | Annotated[ReceptacleTest, Tag("tester")]
    | Annotated[Trouble, Tag("trouble")]
    | Annotated[Change, Tag("change")]
    | Annotated[Struck, Tag("struck")]
    | Annotated[Dismissed, Tag("dismissed")]
    | Annotated[UnknownEntry, Tag("unknown")],
    Discriminator(_tag),
]
