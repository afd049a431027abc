"""Boxes, the devices in them, and the feeds that enter: where truth and danger live."""

from typing import Annotated, Literal

from pydantic import Field

from floorplan_circuits.home.building import Height
from floorplan_circuits.home.record import Angle, Date, Id, Name, Note, Point, Record
from floorplan_circuits.home.references import BoxRef, BreakerRef, DeviceRef, FeedRef, LevelRef, SourceRef

# --- what a feed hangs on -------------------------------------------------------------------------------------------


class FromBreaker(Record):
    """Supplied by a breaker, and by one pole of it (0 the first) if that is known."""

    kind: Literal["breaker"]
    breaker: BreakerRef
    pole: int | None = Field(default=None, ge=0, le=2)


class FromSource(Record):
    """Supplied by a source of its own: a generator, solar, a battery."""

    kind: Literal["source"]
    source: SourceRef


class FromElsewhere(Record):
    """Supplied from outside what is recorded: a neighbour, the house service, a lamp post."""

    kind: Literal["elsewhere"]
    where: Name = ""


Supply = Annotated[FromBreaker | FromSource | FromElsewhere, Field(discriminator="kind")]


class NotKnown(Record):
    """Nobody has said what supplies the feed."""

    how: Literal["not known"]


class Supplied(Record):
    """Stated supplies. *any*: live if any is live (one, or a loop); *all*: works only if all are (240 V across two)."""

    how: Literal["any", "all"]
    supplies: tuple[Supply, ...] = Field(min_length=1, max_length=12)


class Behind(Record):
    """In series behind another feed: a ground-fault device, a transformer, a local disconnect."""

    how: Literal["behind"]
    feed: FeedRef


class Disconnected(Record):
    """Not connected to anything: somebody saw both ends."""

    how: Literal["disconnected"]
    seen_by: Name = ""
    date: Date = ""


Hangs = Annotated[NotKnown | Supplied | Behind | Disconnected, Field(discriminator="how")]
NOT_KNOWN = NotKnown(how="not known")


class Feed(Record):
    """One supply that enters a box: of a device's part, or of a cable without a device.

    `returns` tells the neutral: with the same breaker, with a named pole's, or not known.
    """

    id: Id
    part: Name = ""
    on: Hangs = NOT_KNOWN
    returns: Literal["same", "not known"] | FromBreaker = "not known"
    volts: Literal["mains", "low", "not known"] = "mains"
    said_by: Literal["label", "person", "not said"] = "not said"
    note: Note = ""


# --- what sits in a box ---------------------------------------------------------------------------------------------


class Device(Record):
    """What sits in a gang of a box. `kind` is a name in the catalogue; an unknown one is kept and drawn plain.

    `rated`: the amperes stamped on it, if anybody read them.
    """

    id: Id
    slot: int = Field(default=1, ge=1, le=30)
    kind: Name
    name: Name = ""
    feeds: tuple[Feed, ...] = Field(default=(), max_length=30)
    va: int | None = Field(default=None, ge=0, le=1_000_000)
    continuous: bool = False
    critical: Name = ""
    ground: Literal["present", "absent", "not known"] = "not known"
    rated: int | None = Field(default=None, ge=1, le=6000)
    planned: bool = False


Mount = Literal["wall", "ceiling", "floor", "outdoor", "hidden", "loose cable end"]
Wiring = Literal["copper", "aluminium", "cloth", "knob and tube", "not known"]


class Box(Record):
    """An outlet, switch or junction box, or a loose cable end. Its `mark` is on paper for years."""

    id: Id
    mark: Name
    level: LevelRef | None = None
    at: Point | None = None
    placed: Literal["seen", "guessed"] = "seen"
    angle: Angle = 90
    height: Height | None = None
    mount: Mount = "wall"
    reach: Name = ""
    gangs: int = Field(default=1, ge=1, le=30)
    devices: tuple[Device, ...] = Field(default=(), max_length=60)
    passing: tuple[Feed, ...] = Field(default=(), max_length=60)
    wiring: Wiring = "not known"
    note: Note = ""
    pictures: tuple[str, ...] = Field(default=(), max_length=50)

    @property
    def is_bare(self) -> bool:
        """Whether it is a cable end without a box: there is no cover to leave on, and nothing to open."""
        return self.mount == "loose cable end"

    def feeds(self) -> tuple[Feed, ...]:
        """Return every feed that enters: those of its devices, gang by gang, then those that pass."""
        return (*[feed for device in self.devices for feed in device.feeds], *self.passing)


WorkedBy = Literal["hand", "timer", "photocell", "sensor", "thermostat", "radio", "pull cord", "other", "not known"]


class Control(Record):
    """A switching group: its switches and the feeds they switch. Never a supply, never part of a shut-off."""

    id: Id
    name: Name = ""
    switches: tuple[DeviceRef, ...] = Field(default=(), max_length=60)
    feeds: tuple[FeedRef, ...] = Field(default=(), max_length=500)
    by: WorkedBy = "not known"
    enters: BoxRef | None = None
