"""The panels of a generated home: as many as its circuits need, all fed from the first."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import count
from math import ceil
from random import Random
from string import ascii_uppercase
from typing import Literal

from floorplan_circuits.home.boxes import FromBreaker, FromSource
from floorplan_circuits.home.power import Breaker, Found, Main, Panel, Pole, Source

SMALL, LARGE = 42, 84
"""Spaces of a panel, where all fit in one and where they do not."""

SLACK = 4
FEEDERS_A_PANEL = 20
"""Panels that one panel feeds; those past them hang on the next, so that there are chains."""

LABELS = ("plugs", "lts", "bth lts", "kit", "bdrm 2", "grge", "?", "", "")


@dataclass(frozen=True, slots=True)
class Service:
    """The panels with their breakers: general circuits, and those of the 240 V loads."""

    panels: Sequence[Panel]
    breakers: Sequence[Breaker]
    sources: Sequence[Source]
    circuits: tuple[int, ...]
    loads_240: tuple[int, ...]
    next_id: int


@dataclass
class _Row:
    """The free spaces of one panel: next odd one on the left, next even one on the right."""

    panel: int
    spaces: int
    odd: int = 1
    even: int = 2

    def free(self) -> int:
        """Return how many spaces are left."""
        return max(0, (self.spaces - self.odd) // 2 + 1) + max(0, (self.spaces - self.even) // 2 + 1)

    def single(self) -> tuple[Pole, ...]:
        """Take the lower of the next two spaces."""
        if self.odd < self.even:
            self.odd += 2
            return (Pole(space=self.odd - 2),)
        self.even += 2
        return (Pole(space=self.even - 2),)

    def double(self) -> tuple[Pole, ...]:
        """Take two spaces of one side, one below the other: they lie on different legs."""
        if self.odd < self.even:
            self.odd += 4
            return Pole(space=self.odd - 4, neutral="own"), Pole(space=self.odd - 2, neutral="own")
        self.even += 4
        return Pole(space=self.even - 4, neutral="own"), Pole(space=self.even - 2, neutral="own")


@dataclass
class _Wiring:
    """Breakers as they are put in."""

    rng: Random
    ids: "count[int]"
    breakers: list[Breaker] = field(default_factory=list)

    def put(self, row: _Row, poles: tuple[Pole, ...], label: str | None = None, found: Found | None = None) -> int:
        """Add a breaker with these poles and return its id."""
        opens: Literal["hot", "both hots"] = "hot" if len(poles) == 1 else "both hots"
        made = Breaker(
            id=next(self.ids),
            panel=row.panel,
            poles=poles,
            amps=self.rng.choice((15, 20)) if len(poles) == 1 else 40,
            opens=opens,
            as_found=self.rng.choice(LABELS) if label is None else label,
            found=found or Found(),
        )
        self.breakers.append(made)
        return made.id


def build_panels(rng: Random, circuits: int, loads_240: int) -> Service:
    """Build panels for these circuits, 240 V loads and one spare that was found off."""
    wiring = _Wiring(rng, count(1))
    source = next(wiring.ids)
    wanted = circuits + 2 * loads_240 + 1
    rows = _rows(wiring.ids, wanted)
    fed_by = _feeders(wiring, rows, source)
    doubles = tuple(wiring.put(_roomy(rows, 4), _roomy(rows, 4).double()) for _ in range(loads_240))
    spare = _roomy(rows, 1)
    wiring.put(spare, spare.single(), "spare", Found(state="off", why="nothing on it"))
    singles = _singles(wiring, rows, circuits)
    panels = [
        Panel(
            id=row.panel,
            name=f"Panel {place + 1}",
            prefix=_prefix(place) if len(rows) > 1 else "",
            spaces=row.spaces,
            system="split-phase 120/240",
            mains=(Main(id=next(wiring.ids), amps=200),),
            fed_by=(fed_by[place],),
        )
        for place, row in enumerate(rows)
    ]
    into = (panels[0].id,)
    utility = Source(id=source, name="Utility", kind="utility", into=into, starts="always")
    return Service(panels, wiring.breakers, [utility], singles, doubles, next(wiring.ids))


def _rows(ids: "count[int]", wanted: int) -> list[_Row]:
    if wanted + SLACK <= SMALL:
        return [_Row(next(ids), SMALL)]
    panels = ceil((wanted - 2) / (LARGE - SLACK - 2))
    return [_Row(next(ids), LARGE) for _ in range(panels)]


def _feeders(wiring: _Wiring, rows: list[_Row], source: int) -> list[FromSource | FromBreaker]:
    fed: list[FromSource | FromBreaker] = [FromSource(kind="source", source=source)]
    for place in range(1, len(rows)):
        above = rows[(place - 1) // FEEDERS_A_PANEL]
        feeder = wiring.put(above, above.double(), f"subpanel {_prefix(place)}")
        fed.append(FromBreaker(kind="breaker", breaker=feeder))
    return fed


def _singles(wiring: _Wiring, rows: list[_Row], circuits: int) -> tuple[int, ...]:
    """Put in the general circuits, now and then two in the halves of one space."""
    made: list[int] = []
    while len(made) < circuits:
        row = _roomy(rows, 1)
        (pole,) = row.single()
        halves: tuple[Literal["A", "B"], ...] = ("A", "B")
        if wiring.rng.random() < 0.05 and len(made) + 2 <= circuits:
            made += [wiring.put(row, (Pole(space=pole.space, half=half),)) for half in halves]
        else:
            made.append(wiring.put(row, (pole,)))
    return tuple(made)


def _roomy(rows: list[_Row], spaces: int) -> _Row:
    """Return the first panel with so many spaces left."""
    return next(row for row in rows if row.free() >= spaces)


def _prefix(place: int) -> str:
    """Return A, B … Z, AA, AB … ZZ."""
    tens, ones = divmod(place, 26)
    return (ascii_uppercase[tens - 1] if tens else "") + ascii_uppercase[ones]
