"""All that a family of hazards looks at, gathered once for a home, and how it makes its hazards."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

from floorplan_circuits.findings import BoxFinding, Conclusion, Findings, Hazard
from floorplan_circuits.hazards.phrases import listed
from floorplan_circuits.hazards.poles import neutral_groups
from floorplan_circuits.home.boxes import Box
from floorplan_circuits.home.home import FeedPlace, Home, existing_feeds
from floorplan_circuits.home.power import Breaker, System
from floorplan_circuits.supply.handles import moves_together
from floorplan_circuits.supply.legs import with_system
from floorplan_circuits.supply.numbering import reading_order
from floorplan_circuits.survey.log_book import LogBook
from floorplan_circuits.survey.troubles import keep_off

LIVE = "Treat as live whatever is off."
DOUBTFUL = ("contradicted", "expired")
AMERICAN: tuple[System, ...] = ("split-phase 120/240", "three-phase 208Y/120", "two-wire 120")
"""Systems that the NEC is made for."""


@dataclass(frozen=True)  # not `slots`: what is worked out once is kept beside the fields
class Scene:
    """One home, all that was found of it but its hazards, and its log."""

    found: Findings
    record: LogBook

    @property
    def home(self) -> Home:
        """The home."""
        return self.found.home

    @property
    def boxes(self) -> Mapping[int, BoxFinding]:
        """What enters each box that is built."""
        return self.found.boxes

    @property
    def known(self) -> Mapping[int, Conclusion]:
        """What is known of each feed that is built."""
        return self.found.conclusions

    @cached_property
    def known_in(self) -> Mapping[int, list[Conclusion]]:
        """Box -> what is known of its feeds."""
        gathered: dict[int, list[Conclusion]] = {}
        for one in self.known.values():
            gathered.setdefault(one.box, []).append(one)
        return gathered

    @cached_property
    def feeds(self) -> Mapping[int, FeedPlace]:
        """Every feed that is built and of which there is a conclusion, with its box and device."""
        return {place.feed.id: place for place in existing_feeds(self.home) if place.feed.id in self.known}

    @cached_property
    def together(self) -> Mapping[int, frozenset[int]]:
        """Breaker -> all that its handle moves, itself among them."""
        return moves_together(self.home)

    @cached_property
    def keep_off(self) -> Mapping[int, str]:
        """Breakers and mains that nobody may turn off -> why."""
        return keep_off(self.home, self.record)

    @cached_property
    def order(self) -> Mapping[int, int]:
        """Breaker -> its place as a person reads the panels."""
        return {breaker: place for place, breaker in enumerate(reading_order(self.home))}

    def in_order(self, breakers: Iterable[int]) -> tuple[int, ...]:
        """Return breakers as a person reads them, each once; those that are gone are left out."""
        return tuple(sorted({one for one in breakers if one in self.order}, key=self.order.__getitem__))

    def breakers_of(self, feeds: Iterable[int]) -> tuple[int, ...]:
        """Return the breakers that feeds are on, as far as anything is known of them, as a person reads them."""
        return self.in_order(one for feed in feeds if feed in self.known for one in self.known[feed].breakers)

    def moved_by(self, breakers: Iterable[int]) -> frozenset[int]:
        """Return all breakers that are off once these were turned off by hand."""
        return frozenset(other for one in breakers for other in self.together.get(one, frozenset({one})))

    def are_apart(self, some: Iterable[int], others: Iterable[int]) -> bool:
        """Tell whether no handle that turns off one of the first opens one of the others; false where either is none.

        So both are known, and they are on different circuits throughout.
        """
        first, second = self.moved_by(some), self.moved_by(others)
        return bool(first and second) and first.isdisjoint(second)

    @cached_property
    def _neutral_mates(self) -> Mapping[int, frozenset[int]]:
        mates: dict[int, frozenset[int]] = {}
        for poles in neutral_groups(self.home):
            group = frozenset(one.breaker for one in poles)
            mates |= {breaker: mates.get(breaker, frozenset()) | group for breaker in group}
        return mates

    def sharing_neutral(self, breakers: Iterable[int]) -> frozenset[int]:
        """Return all breakers that share a neutral with one of these, as far as anybody said."""
        return frozenset(mate for one in breakers for mate in self._neutral_mates.get(one, ()))

    # --- rules ------------------------------------------------------------------------------------------------------

    def system_of(self, panel: int | None) -> System:
        """Return what system a panel is, by itself or else by its home."""
        found = self.home.panels.get(panel)
        return self.home.system if found is None else with_system(found, self.home.system).system

    def rule(self, breakers: Iterable[int], american: str, other: str = "") -> str:
        """Return where a rule stands: that of the NEC for American systems, and `other` for all else.

        Where nobody said which system it is, the NEC is named as what may apply.
        """
        system = next((self.system_of(one.panel) for one in self.breakers(breakers)), self.home.system)
        if system in AMERICAN:
            return f"{american} Local code governs."
        if system == "not known":
            return f"Common practice, no source; where the NEC applies: {american} Local code governs."
        return f"Common practice, no source{f'; {other}' if other else '.'} Local code governs."

    # --- making hazards ---------------------------------------------------------------------------------------------

    def in_box(
        self,
        kind: str,
        box: int,
        says: str,
        why: str,
        do: str,
        source: str,
        rank: int,
        *,
        breakers: Iterable[int] = (),
        about: Iterable[int] = (),
        listed: bool = True,
    ) -> Hazard:
        """Return a hazard of one box. `about` is what else it is about than the box and the breakers."""
        found = self.boxes[box]
        circuits = tuple(breakers)
        return Hazard(
            kind=kind,
            box=box,
            says=says,
            why=why,
            do=do,
            source=source,
            rank=rank,
            named=self.home.boxes[box].mark,
            room=found.room,
            room_name=found.room_name,
            level_name=found.level_name,
            breakers=circuits,
            about=tuple(dict.fromkeys((box, *circuits, *about))),
            listed=listed,
        )

    def at_panel(
        self,
        kind: str,
        named: str,
        says: str,
        why: str,
        do: str,
        source: str,
        rank: int,
        *,
        breakers: Iterable[int] = (),
        about: Iterable[int] = (),
    ) -> Hazard:
        """Return a hazard of a panel, of breakers or of a source. `about` is what else it is about."""
        circuits = tuple(breakers)
        concerned = tuple(dict.fromkeys((*circuits, *about)))
        return Hazard(kind, None, says, why, do, source, rank, named=named, breakers=circuits, about=concerned)

    def to_do(self, boxes: Iterable[int], besides: Iterable[int] = ()) -> str:
        """Return what to do before any of these boxes is opened: as much as all that enters them asks for.

        `besides` are breakers that must be off as well. Nobody is told to turn off what must not be touched, nor that
        turning off will do where it may not.
        """
        found = [self.boxes[box] for box in dict.fromkeys(boxes)]
        breakers = tuple(dict.fromkeys((*(one for box in found for one in box.breakers), *besides)))
        barred = self.barred(breakers)
        if barred:
            return f"Leave it closed and treat it as live: {barred}."
        if not breakers or any(self.is_doubtful(box) for box in found):
            return LIVE
        sharing = self.in_order(self.sharing_neutral(breakers) - self.moved_by(breakers))
        neutral = (
            f" Keep the splices of their neutral closed: it is that of {self.marks(sharing)} too." if sharing else ""
        )
        return f"{turn_off(breakers)}, then test every wire.{neutral}"

    def is_doubtful(self, box: BoxFinding) -> bool:
        """Tell whether no breaker that is named is known to make all of the box dead."""
        return (
            bool(box.unknown or box.others)
            or box.apart
            or any(one.standing in DOUBTFUL for one in self.known_in.get(box.box, ()))
        )

    def barred(self, breakers: Iterable[int]) -> str:
        """Return why some of these breakers must not be turned off; empty if all may be."""
        return listed(
            [f"the breaker of {self.mark(one)} {self.keep_off[one]}" for one in breakers if one in self.keep_off]
        )

    # --- names ------------------------------------------------------------------------------------------------------

    def mark(self, handle: int) -> str:
        """Return the number of a breaker or main as on its panel."""
        return self.found.marks.get(handle, "?")

    def marks(self, handles: Iterable[int]) -> str:
        """Return the numbers of handles as a person says them: '5 and 7'."""
        return listed([self.mark(one) for one in handles])

    def panel_name(self, panel: int) -> str:
        """Return what a panel is called."""
        found = self.home.panels.get(panel)
        return found.name if found is not None and found.name.strip() else "Panel"

    def panel_of(self, breakers: Iterable[int]) -> str:
        """Return the name of the panel of breakers, of the first of several panels."""
        return next((self.panel_name(one.panel) for one in self.breakers(breakers)), "Panel")

    def breakers(self, numbers: Iterable[int]) -> tuple[Breaker, ...]:
        """Return the breakers with these ids that are there."""
        return tuple(found for one in numbers if (found := self.home.breakers.get(one)) is not None)

    def box(self, number: int) -> Box:
        """Return a box."""
        return self.home.boxes[number]


def turn_off(breakers: tuple[int, ...]) -> str:
    """Return the words for turning off breakers that were just named."""
    which = {1: "its breaker", 2: "both"}
    return f"Turn off {which.get(len(breakers), 'all of them')}"
