"""What to turn off before boxes are opened, in steps."""

from dataclasses import dataclass
from typing import Literal

from floorplan_circuits.findings.when_off import BoxWhenOff


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
    `stay_shut`: the boxes that are not to be opened even with all of that off. `all_cut`: these handles leave neither
    a conductor of the boxes nor a circuit that shares a neutral or a switch with one a way to any source.
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
    all_cut: bool = True

    @property
    def handles(self) -> frozenset[int]:
        """All handles to turn off."""
        return frozenset(handle for one in self.off for handle in one.handles)

    @property
    def is_whole(self) -> bool:
        """Whether every box should be dead with its neutrals known: the sheet may say so, and to test it."""
        dead = all(one.state == "should be dead" and one.neutral_known for one in self.states)
        return bool(self.states) and dead and self.all_cut


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
