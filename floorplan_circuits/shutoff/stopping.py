"""When to stop and call a licensed electrician: what is known of these boxes that no person should work on alone."""

from collections.abc import Iterable, Iterator, Mapping

from floorplan_circuits.findings import ShutOff
from floorplan_circuits.home.boxes import Box, Wiring
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.home.log import ReceptacleTest
from floorplan_circuits.home.trade_words import words_of
from floorplan_circuits.survey.log_book import LogBook

ALWAYS = (
    "Anything that is not as the map or this page says.",
    "Work in the panel, or anything that needs its cover off.",
    "Aluminium, cloth insulation, knob and tube, or a box without a ground.",
)
WIRED: Mapping[Wiring, str] = {
    "aluminium": "is wired in aluminium",
    "cloth": "has cloth insulation, which can crumble",
    "knob and tube": "is wired with knob and tube, without a ground",
}
SHOWED = {
    "open ground": "an open ground: readings against it show nothing",
    "open neutral": "an open neutral: readings against it show nothing",
    "hot and neutral reversed": "hot and neutral reversed: its white may be hot",
    "hot and ground reversed": "hot and ground reversed: its ground may be live",
}
"""What a receptacle tester showed, and what that does to a reading."""


def when_to_stop(plan: ShutOff, home: Home) -> tuple[str, ...]:
    """Return when to stop, a sentence each: what holds of these boxes and handles first, then what always does."""
    boxes = [home.boxes[box] for box in plan.boxes]
    own = (*_wired(boxes), *_without_ground(boxes), *_showed(boxes, home), *_metals(plan, home))
    return (*dict.fromkeys(own), *ALWAYS)


def lacks_ground(box: Box) -> bool:
    """Tell whether somebody recorded a device in it without a ground, or wiring that has none."""
    built = (device for device in box.devices if not device.planned)
    return box.wiring == "knob and tube" or any(device.ground == "absent" for device in built)


def _wired(boxes: Iterable[Box]) -> Iterator[str]:
    for box in boxes:
        if box.wiring in WIRED:
            yield f"{box.mark} {WIRED[box.wiring]}."
    not_known = [box.mark for box in boxes if box.wiring == "not known"]
    if not_known:
        yield f"Nobody wrote down what the wires in {', '.join(not_known)} are: look first."


def _without_ground(boxes: Iterable[Box]) -> Iterator[str]:
    for box in boxes:
        for device in box.devices:
            if device.ground == "absent" and not device.planned:
                yield f"{box.mark} {device.name or kind_named(device.kind).label}: no ground."


def _showed(boxes: Iterable[Box], home: Home) -> Iterator[str]:
    """Yield what a receptacle tester last showed of the devices in these boxes, where that is a fault."""
    last = {entry.device: entry for _, entry in LogBook(home).entries if isinstance(entry, ReceptacleTest)}
    for box in boxes:
        for device in box.devices:
            if device.id in last and (shows := SHOWED.get(last[device.id].shows)):
                yield f"{box.mark}: a receptacle tester showed {shows}."


def _metals(plan: ShutOff, home: Home) -> Iterator[str]:
    for movement in plan.off:
        for breaker in (home.breakers[one] for one in movement.handles if one in home.breakers):
            if breaker.conductor.metal in ("aluminium", "copper-clad aluminium"):
                spaces = "·".join(dict.fromkeys(str(pole.space) for pole in breaker.poles))
                space = words_of(home, home.panels.get(breaker.panel)).space
                yield f"The conductor on the breaker in {space} {spaces} is {breaker.conductor.metal}."
