"""What minds going dark in a plan's rounds: named with the round and the handle, the most pressing first."""

from collections.abc import Collection, Iterator

from floorplan_circuits.findings import Findings, TestPlan
from floorplan_circuits.home.critical import rank, to_mind
from floorplan_circuits.home.home import FeedPlace, Home, existing_feeds
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.rounds.kept_on import below
from floorplan_circuits.supply.handles import moves_together
from floorplan_circuits.supply.numbering import reading_order
from floorplan_circuits.survey.statements import breakers_above

NOT_KNOWN = "Any round, since nobody knows its breaker"


def minded(plan: TestPlan, findings: Findings) -> tuple[str, ...]:
    """Return what minds going off in the rounds, those together of which the same is to be done.

    What hangs on a handle by the map is told, proved or not; what hangs on none that is known may go off in any round.
    """
    told: dict[str, dict[str, list[str]]] = {}
    places = (place for place in existing_feeds(findings.home) if place.device is not None and place.device.critical)
    for place in sorted(places, key=_pressing):
        when = "; ".join(_when(place, plan, findings))
        if when:
            told.setdefault(to_mind(*_words(place)), {}).setdefault(when, []).append(_called(place, findings))
    return tuple(
        " ".join((*(f"{when} – {'; '.join(things)}." for when, things in some.items()), mind))
        for mind, some in told.items()
    )


def _words(place: FeedPlace) -> tuple[str, str]:
    assert place.device is not None
    return place.device.name or kind_named(place.device.kind).label, place.device.critical


def _pressing(place: FeedPlace) -> int:
    return rank(*_words(place))


def _when(place: FeedPlace, plan: TestPlan, findings: Findings) -> Iterator[str]:
    """Yield the rounds in which it goes off with the handles that do it, then the feeder that does it alone."""
    home, known = findings.home, findings.conclusions[place.feed.id]
    if not known.breakers:
        if not known.others:
            yield NOT_KNOWN
        return
    above = breakers_above(home)
    over = frozenset(known.breakers).union(*(above.get(one, frozenset[int]()) for one in known.breakers))
    together = moves_together(home)
    by_handle: dict[tuple[int, ...], list[int]] = {}
    for nth, one in enumerate(plan.rounds, 1):
        off = tuple(handle for handle in reading_order(home) if handle in one.off and together[handle] & over)
        if off:
            by_handle.setdefault(off, []).append(nth)
    for off, rounds in by_handle.items():
        yield f"Round {', '.join(map(str, rounds))}: {_numbers(off, findings)}"
    for handles in plan.kept_on:
        if over & _opened_by(home, handles):
            yield f"{_numbers(handles, findings)} alone"


def _opened_by(home: Home, handles: Collection[int]) -> frozenset[int]:
    """Return the breakers that a feeder opens, itself among them; none for mains, of which all is told anyway."""
    feeders = frozenset(handles) & frozenset(home.breakers.ids())
    return below(home, feeders).breakers | feeders if feeders else frozenset()


def _numbers(handles: Collection[int], findings: Findings) -> str:
    return ", ".join(findings.marks[one] for one in handles)


def _called(place: FeedPlace, findings: Findings) -> str:
    """Return what it is, why it minds and where it is: 'medical: breathing machine, by the bed (B89, Main bedroom)'."""
    named, critical = _words(place)
    room = findings.boxes[place.box.id].room_name
    where = ", ".join(words for words in (place.box.mark, room) if words)
    what = named if critical.casefold() in named.casefold() else f"{critical}, {named}"
    return f"{what} ({where})"
