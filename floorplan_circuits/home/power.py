"""Panels, breakers and sources: where power comes from and what can open it."""

from typing import Annotated, Literal

from pydantic import Field

from floorplan_circuits.home.boxes import FromBreaker, FromSource
from floorplan_circuits.home.record import Angle, Id, Name, Note, Pixels, Point, Record
from floorplan_circuits.home.references import BreakerRef, FedRef, LevelIfAnyRef, PanelRef

System = Literal[
    "split-phase 120/240",
    "three-phase 208Y/120",
    "two-wire 120",
    "single-phase 230",
    "three-phase 400Y/230",
    "not known",
]
Numbering = Literal[
    "odd left, even right",
    "odd left, even right, from the bottom",
    "down one side, then the other",
    "single row",
    "row by row",
    "ways of three, odd left, even right",
    "ways of three, down one side, then the other",
]
Amps = Annotated[int, Field(ge=1, le=6000)]
Starts = Literal["always", "by hand", "by itself", "not known"]


class Main(Record):
    """One main handle of a panel. Wires on its supply side stay live with it off."""

    id: Id
    name: Name = ""
    amps: Amps | None = None


FedBy = Annotated[FromBreaker | FromSource, Field(discriminator="kind")]


Share = Annotated[int, Field(ge=-100_000, le=100_000)]
"""A place along the breakers of a panel, in ten-thousandths of their width or height; it may lie beside them."""


class PhotoTag(Record):
    """Where on a panel's photo the number of a space, or of half of one, was put by hand."""

    space: int = Field(ge=1, le=200)
    half: Literal["A", "B"] | None = None
    at: tuple[Share, Share]


class PhotoFit(Record):
    """How a panel's photo is laid over its spaces: where on it, in pixels, the corners of the breakers are seen.

    `corners` go clockwise from the top left one, as the panel hangs; None until somebody marked them.
    """

    pixels: Pixels = (0, 0)
    corners: tuple[Pixels, Pixels, Pixels, Pixels] | None = None
    tags: tuple[PhotoTag, ...] = Field(default=(), max_length=400)


OwnNumber = Annotated[str, Field(max_length=5, pattern=r"^([AC-HJ-NP-Z]{0,2}[0-9]{1,3})?$")]
"""A space's number as its householder has it, such as 12 or C4; "" where it is as counted. Not B: B14 is a box."""


class Panel(Record):
    """A panelboard, subpanel, consumer unit, or a local disconnect (a panel of one space).

    `prefix` goes before its breakers' numbers where a home has several panels (G3: space 3 of the garage panel).
    `rows` are the ways of each row of a board that counts row by row, from the top; `called` what its householder calls
    the spaces, in their order, where that is not as counted.
    """

    id: Id
    name: Name
    prefix: Annotated[str, Field(max_length=3, pattern=r"^[A-Z]*$")] = ""
    place: Name = ""
    level: LevelIfAnyRef | None = None
    at: Point | None = None
    angle: Angle = 90
    spaces: int = Field(ge=1, le=200)
    numbering: Numbering = "odd left, even right"
    rows: tuple[Annotated[int, Field(ge=1, le=200)], ...] = Field(default=(), max_length=20)
    called: tuple[OwnNumber, ...] = Field(default=(), max_length=200)
    system: System = "not known"
    mains: tuple[Main, ...] = Field(default=(), max_length=6)
    fed_by: tuple[FedBy, ...] = Field(default=(), max_length=6)
    changes_over: Literal["none", "by hand", "by itself", "not known"] = "none"
    photo: str = Field(default="", max_length=64)
    photo_fit: PhotoFit = PhotoFit()
    note: Note = ""


class Pole(Record):
    """The part of a breaker in one space. `neutral`: own, a multiwire group's number, or not known.

    `leg`: the one that somebody measured; None where the usual layout of panels is all there is to go by.
    """

    space: int = Field(ge=1, le=200)
    half: Literal["A", "B"] | None = None
    neutral: Literal["own", "not known"] | Id = "not known"
    leg: Literal["A", "B", "C"] | None = None


class Tie(Record):
    """Handles that move together: all breakers of one `group`. A makeshift tie (a nail, a wire) counts as none."""

    group: Id
    made: Literal["by the factory", "makeshift", "not sure"] = "not sure"


class Found(Record):
    """How the breaker was found before anybody touched it, and why."""

    state: Literal["on", "off", "tripped", "not recorded"] = "not recorded"
    why: Name = ""

    @property
    def is_off(self) -> bool:
        """Whether it was found off or tripped: no plan ever asks to turn it on."""
        return self.state in ("off", "tripped")


class Permission(Record):
    """Whether the breaker may be opened, for how many minutes at a stretch, whose word that is, and why."""

    may: Literal["yes", "ask", "never"] = "yes"
    whose: Name = ""
    why: Name = ""
    minutes: Annotated[int, Field(ge=1, le=1440)] | None = None


class Conductor(Record):
    """The conductor on the breaker's terminal, as seen by whoever may look: size and metal."""

    size: Name = ""
    metal: Literal["copper", "aluminium", "copper-clad aluminium", "not known"] = "not known"


Protection = Literal["ground fault", "arc fault", "residual current", "surge"]


class Breaker(Record):
    """An overcurrent device: one common trip over its poles. `behind` names a residual-current device or sub-main."""

    id: Id
    panel: PanelRef
    poles: tuple[Pole, ...] = Field(min_length=1, max_length=4)
    amps: Amps | None = None
    device: Literal["breaker", "fuse"] = "breaker"
    opens: Literal["hot", "hot and neutral", "both hots", "not known"] = "not known"
    protects: tuple[Protection, ...] = ()
    behind: BreakerRef | None = None
    tie: Tie | None = None
    found: Found = Found()
    may_open: Permission = Permission()
    as_found: Name = ""
    wording: Name = ""
    conductor: Conductor = Conductor()
    note: Note = ""


class Source(Record):
    """Where power enters: the utility, a generator, solar, a battery, or elsewhere. `into` names what it reaches."""

    id: Id
    name: Name
    kind: Literal["utility", "generator", "solar", "battery", "elsewhere"]
    into: tuple[FedRef, ...] = Field(default=(), max_length=20)
    starts: Starts = "not known"
    disconnect: Name = ""
    note: Note = ""
