"""What hangs behind what, as seen: a ground-fault device is tripped by its own test button, and reset again.

What was live before, is dead while the button is pressed and live again after the reset hangs behind that device. What
stays live does not, whatever the map says. Nothing else tells: neither the order of the boxes nor a label.
"""

from collections.abc import Iterator, Sequence

from floorplan_circuits.survey.cases import Case, Evidence
from floorplan_circuits.survey.log_book import Seen, day


def seen_behind(case: Case, evidence: Evidence) -> tuple[int, ...]:
    """Return the feeds of the devices that it was seen to hang behind since the last change of its box."""
    if not any(one.round.pressed for one in case.seen):
        return ()
    found = dict.fromkeys(feed for one in _pressed(case, evidence) for feed in one.round.pressed)
    not_behind = {feed for one in denied_behind(case, evidence) for feed in one.round.pressed}
    return tuple(feed for feed in found if feed not in not_behind)


def denied_behind(case: Case, evidence: Evidence) -> tuple[Seen, ...]:
    """Return the readings that found it live, by a strong witness, while a device was tripped."""
    can_deny = evidence.bench.witnesses.can_deny
    return tuple(
        one
        for one in case.current
        if one.round.pressed and one.clear and one.reading.says == "live" and can_deny(case.place, one.round.method)
    )


def _pressed(case: Case, evidence: Evidence) -> Iterator[Seen]:
    """Yield each 'dead' with one device tripped that was live just before and after, by one strong witness and day."""
    readings = case.current
    for at, one in enumerate(readings):
        before, after = _plain(readings[:at][::-1]), _plain(readings[at + 1 :])
        if one.reading.says != "dead" or len(one.round.pressed) != 1 or before is None or after is None:
            continue
        same = all(_is_live_beside(other, one) for other in (before, after))
        if same and one.clear and day(one.round) and evidence.bench.witnesses.can_prove(case.place, one.round.method):
            yield one


def _plain(readings: Sequence[Seen]) -> Seen | None:
    return next((one for one in readings if not one.round.pressed), None)


def _is_live_beside(other: Seen, dead: Seen) -> bool:
    return (
        other.clear
        and other.reading.says == "live"
        and other.off == dead.off
        and other.round.method == dead.round.method
        and day(other.round) == day(dead.round)
    )
