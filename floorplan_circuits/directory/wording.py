"""What a panel's directory says of each breaker, in ranked variants of which a drawing takes the longest that fits."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from floorplan_circuits.findings import BoxFinding, Conclusion, Line
from floorplan_circuits.home.boxes import Box, Device
from floorplan_circuits.home.home import Home, existing_feeds
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.home.power import Breaker

NAMED_GROUPS = ("appliance", "alarm", "other", "fan", "heater")
PARTS_OF_THEIR_OWN = ("light", "fan", "heater")
SAYS_NOTHING = ("", "spare", "unused", "blank")
"""Old labels that claim no load."""


@dataclass(frozen=True, slots=True)
class Load:
    """One thing that a breaker feeds: the room it is in, its group, what it is called."""

    room: str
    group: str
    called: str


def lines(home: Home, known: Mapping[int, Conclusion], boxes: Mapping[int, BoxFinding]) -> dict[int, Line]:
    """Return the directory's line for every breaker: the householder's own wording, else what is tied to it."""
    loads, further = _loads(home, known, boxes), _further(home)
    all_proved = all(one.standing == "proved" for one in known.values())
    return {
        breaker.id: _line(breaker, loads.get(breaker.id, []), further.get(breaker.id, []), all_proved)
        for breaker in home.breakers
    }


def _line(breaker: Breaker, loads: Sequence[Load], further: Sequence[str], all_proved: bool) -> Line:
    if breaker.wording.strip():
        return Line(breaker.id, (breaker.wording,), own=True)
    if further or loads:
        start = ", ".join(dict.fromkeys(further))
        return Line(breaker.id, _ranked(_joined(start, words) for words in (_variants(loads) if loads else ("",))))
    return Line(breaker.id, _idle(breaker.as_found.strip(), all_proved))


def _joined(start: str, words: str) -> str:
    return "; ".join(part for part in (start, words) if part)


def _idle(label: str, all_proved: bool) -> tuple[str, ...]:
    """Return the words for a breaker that nothing is tied to.

    Never 'Spare' while its label claims a load, nor while any feed is unproved: that one may hang on it.
    """
    if label.lower() not in SAYS_NOTHING:
        return (f"Unknown. Old label “{label}”", f"Unknown: “{label}”", "Unknown")
    return ("Spare",) if all_proved else ("Nothing found on it yet", "Nothing found")


# --- what is tied to it ---------------------------------------------------------------------------------------------


def _further(home: Home) -> dict[int, list[str]]:
    """Return what stands behind or feeds each breaker besides loads: panels, other breakers, sources."""
    found: dict[int, list[str]] = {}
    for breaker, words in _feeding_further(home):
        found.setdefault(breaker, []).append(words)
    return found


def _feeding_further(home: Home) -> Iterator[tuple[int, str]]:
    for panel in home.panels:
        for feeder in panel.fed_by:
            if feeder.kind == "breaker":
                yield feeder.breaker, f"Feeds {panel.name.strip() or 'another panel'}"
    for breaker in home.breakers:
        if breaker.behind is not None:
            yield breaker.behind, "Feeds the breakers behind it"
    for source in home.sources:
        for target in source.into:
            if target in home.breakers:
                yield target, f"Fed by {source.name.strip() or 'a source'} too"


def _loads(home: Home, known: Mapping[int, Conclusion], boxes: Mapping[int, BoxFinding]) -> dict[int, list[Load]]:
    found: dict[int, dict[tuple[int, str], Load]] = {}
    for place in existing_feeds(home):
        one = known.get(place.feed.id)
        where = boxes.get(place.box.id)
        if one is None or where is None or place.device is None or one.standing == "unknown":
            continue
        load = _load(place.device, place.feed.part, _room(place.box, where))
        for breaker in one.breakers:
            found.setdefault(breaker, {}).setdefault((place.device.id, load.group), load)
    return {breaker: list(loads.values()) for breaker, loads in found.items()}


def _room(box: Box, where: BoxFinding) -> str:
    outside = "Outdoors" if box.mount == "outdoor" else where.level_name.strip()
    return where.room_name.strip() or outside or "Not placed"


def _load(device: Device, part: str, room: str) -> Load:
    kind = kind_named(device.kind)
    group = part if part in PARTS_OF_THEIR_OWN else kind.group
    return Load(room, group, device.name.strip() or kind.label)


# --- variants -------------------------------------------------------------------------------------------------------


def _variants(loads: Sequence[Load]) -> tuple[str, ...]:
    """Return the line from fullest to shortest: rooms with their loads, loads with their rooms, then rooms alone."""
    by_room = _by_room(loads)
    full = "; ".join(f"{room}: {', '.join(_words(inside))}" for room, inside in by_room.items())
    groups = ", ".join(_words(loads))
    rooms = list(by_room)
    ranked = [full, f"{', '.join(rooms)}: {groups}"]
    if len(rooms) > 2:
        ranked.append(f"{', '.join(rooms[:2])} and {len(rooms) - 2} more: {groups}")
    ranked.append(f"{rooms[0]} and {len(rooms) - 1} more: {groups}" if len(rooms) > 1 else f"{rooms[0]}: {groups}")
    ranked.append(", ".join(rooms))
    ranked.append(f"{rooms[0]} + {len(rooms) - 1}" if len(rooms) > 1 else rooms[0])
    return tuple(ranked)


def _ranked(variants: Iterable[str]) -> tuple[str, ...]:
    """Return those that are shorter than every fuller one: the longest first, each once."""
    kept: list[str] = []
    for words in variants:
        if not kept or len(words) < len(kept[-1]):
            kept.append(words[:1].upper() + words[1:])
    return tuple(kept)


def _by_room(loads: Iterable[Load]) -> dict[str, list[Load]]:
    rooms: dict[str, list[Load]] = {}
    for load in loads:
        rooms.setdefault(load.room, []).append(load)
    return dict(sorted(rooms.items(), key=lambda item: -len(item[1])))


def _words(loads: Sequence[Load]) -> list[str]:
    """Return the kinds of load: named appliances, receptacles, lights; switches only where there is nothing else."""
    words = list(dict.fromkeys(load.called for load in loads if load.group in NAMED_GROUPS))
    receptacles = [load for load in loads if load.group == "receptacle"]
    lights = [load for load in loads if load.group == "light"]
    if receptacles:
        words.append("receptacles" if len(receptacles) > 1 else receptacles[0].called)
    if lights:
        words.append("light" if len(lights) == 1 else "lights")
    return words or ["switch" if len(loads) == 1 else "switches"]
