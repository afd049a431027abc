"""It went dead: what to look at, nearest first, and when to stop. A thing that trips again is left off."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from floorplan_circuits.findings import Findings
from floorplan_circuits.home.boxes import Device
from floorplan_circuits.home.called import feed_called
from floorplan_circuits.home.home import FeedPlace, Home, existing_feeds
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.supply.reach import nearest_breakers
from floorplan_circuits.survey.statements import Stated

STOP = (
    "If it trips again, leave it off: a wire, a plug or a thing on it is at fault. Unplug what is on it and call a "
    "licensed electrician. Never hold a breaker on, and keep off one that buzzes or is hot."
)
ON_PURPOSE = "First ask whether somebody turned it off on purpose: a lock or a tag on a breaker stays where it is."
NOBODY_KNOWS = "Nobody knows what it hangs on. A breaker that was tripped stands between on and off: look for one."


@dataclass(frozen=True, slots=True)
class Revival:
    """What to look at for one dead box, in order, what else is on the same breakers, and when to stop."""

    box: int
    steps: tuple[str, ...]
    also_on: tuple[int, ...]
    stop: str = STOP


def revive(findings: Findings, stated: Mapping[int, Stated], barred: Mapping[int, str], box: int) -> Revival:
    """Return what to look at where something in a box went dead. `barred` are handles to keep off, with why."""
    home, near = findings.home, nearest_breakers(findings.home)
    feeds = [feed.id for feed in home.boxes[box].feeds() if feed.id in findings.conclusions]
    breakers = dict.fromkeys(one for feed in feeds for one in findings.conclusions[feed].breakers)
    others = [feed for feed in findings.conclusions if feed not in feeds and {*near[feed].breakers} & {*breakers}]
    steps = [*_devices(findings, stated, feeds), *_breakers(findings, breakers, barred)]
    boxes = dict.fromkeys(findings.conclusions[feed].box for feed in others)
    return Revival(box, (ON_PURPOSE, *(dict.fromkeys(steps) or (NOBODY_KNOWS,))), tuple(boxes))


def _devices(findings: Findings, stated: Mapping[int, Stated], feeds: list[int]) -> Iterator[str]:
    """Yield the ground-fault devices that the feeds hang behind, nearest first, with where each is."""
    places = {place.feed.id: place for place in existing_feeds(findings.home)}
    for feed in feeds:
        seen = findings.conclusions[feed].behind
        above = [place.feed.id for place in stated[feed].chain[1:]]
        for device in dict.fromkeys((*seen, *above)):
            if device in places:
                how = "it was seen to hang behind it" if device in seen else "the map says it hangs behind it"
                yield f"Press reset on {_where(places[device], findings)}: {how}."
    if any(_has_reset(place.device) for place in (places[feed] for feed in feeds)):
        yield "It has a reset button of its own: press that first."


def _has_reset(device: Device | None) -> bool:
    return device is not None and kind_named(device.kind).in_series == "ground fault"


def _where(place: FeedPlace, findings: Findings) -> str:
    found = findings.boxes.get(place.box.id)
    room = f", {found.room_name}" if found is not None and found.room_name else ""
    kind = kind_named(place.device.kind).label if place.device is not None else "device"
    return f"the {kind} {feed_called(place)}{room}"


def _breakers(findings: Findings, breakers: Mapping[int, None], barred: Mapping[int, str]) -> Iterator[str]:
    home = findings.home
    for breaker in breakers:
        one = home.breakers[breaker]
        panel = home.panels.get(one.panel)
        where = f" in {panel.name}{f' ({panel.place})' if panel.place else ''}" if panel is not None else ""
        if one.found.is_off:
            why = f" ({one.found.why})" if one.found.why else ""
            yield f"Breaker {findings.marks[breaker]}{where} was found {one.found.state}{why}: leave it as it is."
        elif breaker in barred:
            yield f"Breaker {findings.marks[breaker]}{where} {barred[breaker]}: keep off it."
        elif one.device == "fuse":
            yield f"Look at fuse {findings.marks[breaker]}{where}: a new one must have the same rating."
        else:
            tripped = "turn it fully off, then on, once"
            yield f"Look at breaker {findings.marks[breaker]}{where}: if it stands between on and off, {tripped}."
        yield from _above(home, findings, one.panel)


def _above(home: Home, findings: Findings, panel: int) -> Iterator[str]:
    found = home.panels.get(panel)
    for feeder in found.fed_by if found is not None else ():
        if feeder.kind == "breaker" and feeder.breaker in home.breakers:
            above = home.panels.get(home.breakers[feeder.breaker].panel)
            where = f" in {above.name}" if above is not None else ""
            yield f"If all of {found.name if found else 'it'} is dead: look at {findings.marks[feeder.breaker]}{where}."
