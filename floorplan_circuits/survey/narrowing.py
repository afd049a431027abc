"""What all readings of a feed leave: the breakers that could be its one supply, and those that explain every 'dead'.

A strong 'live' says that at least one supply was not opened: it excludes what was shut as the only supply. A 'dead'
excludes nothing, since a ground-fault device may have tripped or a lamp burnt out; it only tells which of the breakers
that are left would explain it. Elsewhere, and more than one, stay possible until a test of the feed itself shows
otherwise.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from floorplan_circuits.home.boxes import Supplied
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.survey.cases import Case, Evidence
from floorplan_circuits.survey.log_book import Seen
from floorplan_circuits.survey.shut import Shut
from floorplan_circuits.survey.smallest import smallest_cover
from floorplan_circuits.survey.witness import TESTERS


@dataclass(frozen=True, slots=True)
class Narrowed:
    """What is left of one feed's breakers, in the order of the home.

    `left` are those that no reading excludes as its only supply, `fitting` those of them that explain every 'dead' that
    counts. `at_odds` are the fewest readings that no single breaker explains; empty if one does, or a stated loop does.
    `readings`: those that tell something. `is_narrowed`: they leave fewer than all.
    """

    left: tuple[int, ...]
    fitting: tuple[int, ...]
    at_odds: tuple[Seen, ...] = ()
    readings: tuple[Seen, ...] = ()
    is_narrowed: bool = False


def narrowed(case: Case, shut: Shut) -> Narrowed:
    """Return what the readings of a feed leave."""
    told = tuple(_told(case, shut))
    left = fitting = shut.every
    for one, against in told:
        fitting &= ~against
        if one.reading.says == "live":
            left &= ~against
    at_odds: tuple[Seen, ...] = ()
    if shut.every and not fitting and not _otherwise_explained(case, told, shut):
        at_odds = tuple(told[at][0] for at in smallest_cover(tuple(against for _, against in told), shut.every))
    readings = tuple(one for one, _ in told)
    return Narrowed(shut.breakers(left), shut.breakers(fitting), at_odds, readings, left != shut.every)


Told = tuple[Seen, int]
"""A reading, and the breakers that it speaks against."""


def _told(case: Case, shut: Shut) -> Iterator[Told]:
    """Yield the readings that tell something: each 'live' that excludes, each 'dead' that counts."""
    void = void_readings(case, shut.evidence)
    for one in case.seen:
        if one.place <= case.box_changed or not one.clear:
            continue
        changed = shut.changed_since(one.place)
        if one.reading.says == "live" and shut.evidence.bench.witnesses.can_deny(case.place, one.round.method):
            against = shut.mask(one.off) & ~changed
            if against:
                yield one, against
        elif one.place not in void and explains_dead(one, case, shut.evidence):
            yield one, shut.every & ~(shut.explaining(one.off) | changed)


def explains_dead(one: Seen, case: Case, evidence: Evidence) -> bool:
    """Tell whether a 'dead' may be laid to what was off: by a strong witness of this feed, everything off being there.

    Where the round names a handle that is gone, that one may have been it. A device whose test button was pressed is
    the reason itself. A tester that was not proved before and after is no evidence at all (HSE GS38; NFPA 70E 120.5).
    """
    tester = one.round.tester
    return (
        one.reading.says == "dead"
        and not one.round.pressed
        and (one.round.method not in TESTERS or (tester.before and tester.after))
        and evidence.bench.witnesses.can_prove(case.place, one.round.method)
        and one.off <= evidence.handles
    )


def void_readings(case: Case, evidence: Evidence) -> frozenset[int]:
    """Return the places of readings that are void: the feed was not live when all was back on.

    Whatever made it dead then (a tripped device, a burnt lamp) may have made it dead ever since it was last live.
    """
    void, since_live = set[int](), list[int]()
    for one in case.seen:
        says = one.reading.says
        if says == "live" and one.clear and evidence.bench.witnesses.can_deny(case.place, one.round.method):
            since_live.clear()
            continue
        since_live.append(one.place)
        if says != "live" and one.off <= evidence.record.found_off and not one.round.pressed:
            void.update(since_live)
    return frozenset(void)


# --- what explains the readings although no single breaker does -------------------------------------------------------


def _otherwise_explained(case: Case, told: Sequence[Told], shut: Shut) -> bool:
    """Tell whether more than one supply fits that is stated, or that its kind needs: then nothing is at odds."""
    if case.stated.others or case.stated.joined:
        return True
    if case.stated.breakers:
        return len(case.stated.breakers) > 1 and all(_is_as_stated(one, case, shut) for one, _ in told)
    device = case.place.device
    return device is not None and kind_named(device.kind).hots > 1 and _two_together(told, shut)


def _is_as_stated(one: Seen, case: Case, shut: Shut) -> bool:
    """Tell whether a reading is what the stated supplies would show.

    Across two poles a load stops with either, yet a tester finds the other still live: both readings fit.
    """
    open_ones = shut.mask(one.off) if one.reading.says == "live" else shut.explaining(one.off)
    shown = [bool(open_ones >> shut.order.index(breaker) & 1) for breaker in case.stated.breakers]
    across = isinstance(case.stated.end, Supplied) and case.stated.end.how == "all"
    if one.reading.says == "live":
        return not all(shown)
    return any(shown) if across else all(shown)


def _two_together(told: Sequence[Told], shut: Shut) -> bool:
    """Tell whether some two breakers explain all readings of a thing with two hots: none speaks against both."""
    for at in range(len(shut.order)):
        against = 0
        for _, mask in told:
            if mask >> at & 1:
                against |= mask
        if against != shut.every:
            return True
    return False
