"""Which breakers are shut while given handles are off: a bit each, so that many readings are compared at once."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import cached_property

from floorplan_circuits.survey.cases import Evidence, last_panel_change


@dataclass(frozen=True)
class Shut:
    """Masks of the breakers of one home: bit n stands for the breaker at place n of `order`.

    A breaker is shut where nothing stated reaches its load side: its own handle is off, or one above it, or a main, and
    no other source keeps it live. One that is known not to open is never shut by its own handle, nor is a fuse of which
    nobody knows which side it opens: with the neutral out the hot stays live.
    """

    evidence: Evidence
    order: tuple[int, ...]
    _masks: dict[frozenset[int], int] = field(default_factory=dict)
    _explaining: dict[frozenset[int], int] = field(default_factory=dict)
    _changed: dict[int, int] = field(default_factory=dict)
    _listed: dict[int, tuple[int, ...]] = field(default_factory=dict)

    @classmethod
    def of(cls, evidence: Evidence) -> "Shut":
        """Prepare it for the breakers of the home."""
        return cls(evidence, tuple(evidence.home.breakers.ids()))

    @property
    def every(self) -> int:
        """All breakers."""
        return (1 << len(self.order)) - 1

    @cached_property
    def unsure(self) -> frozenset[int]:
        """The fuses of which nobody knows which side they open."""
        return frozenset(
            one.id for one in self.evidence.home.breakers if one.device == "fuse" and one.opens == "not known"
        )

    def mask(self, off: frozenset[int]) -> int:
        """Return the breakers that are shut while these handles are off."""
        if off not in self._masks:
            opened = off - self.evidence.record.never_opened - self.unsure
            shut = (not self.evidence.is_live(("circuit", breaker), opened) for breaker in self.order)
            self._masks[off] = _bits(shut)
        return self._masks[off]

    def explaining(self, off: frozenset[int]) -> int:
        """Return the breakers that would explain a 'dead' while these handles are off: turned off themselves, or shut.

        So does one that may have moved along with such a handle, and one that another supply keeps live on the map: the
        map may be wrong about that supply.
        """
        if off not in self._explaining:
            turned = off - self.evidence.record.found_off
            moved = off.union(*(self.evidence.bench.along.get(one, frozenset()) for one in turned))
            self._explaining[off] = self.mask(off) | _bits(breaker in moved for breaker in self.order)
        return self._explaining[off]

    def changed_since(self, place: int) -> int:
        """Return the breakers whose panel, or one that feeds it, was worked on after this place in the log."""
        if place not in self._changed:
            changed = (last_panel_change([breaker], self.evidence) > place for breaker in self.order)
            self._changed[place] = _bits(changed) if self.evidence.record.last_panel_change > place else 0
        return self._changed[place]

    def breakers(self, mask: int) -> tuple[int, ...]:
        """Return the breakers of a mask, in the order of the home."""
        if mask not in self._listed:  # of most feeds the readings leave the same
            self._listed[mask] = tuple(breaker for at, breaker in enumerate(self.order) if mask >> at & 1)
        return self._listed[mask]


def _bits(flags: Iterable[bool]) -> int:
    return sum(1 << at for at, flag in enumerate(flags) if flag)
