"""What a panel's directory says of each breaker, in ranked variants of which a drawing takes the longest that fits."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from floorplan_circuits.findings import BoxFinding, Conclusion, Line
from floorplan_circuits.home.boxes import Device
from floorplan_circuits.home.home import Home, existing_feeds
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.home.power import Breaker

NAMED_GROUPS = ("appliance", "alarm", "other")


@dataclass(frozen=True, slots=True)
class Load:
    """One thing that a breaker feeds: the room it is in, its group, what it is called, how many of its kind."""

    room: str
    group: str
    called: str
    plural: str


def lines(home: Home, known: Mapping[int, Conclusion], boxes: Mapping[int, BoxFinding]) -> dict[int, Line]:
    """Return the directory's line for every breaker: the householder's own wording, else what is tied to it."""
    loads = _loads(home, known, boxes)
    fed = {feeder.breaker: panel.name for panel in home.panels for feeder in panel.fed_by if feeder.kind == "breaker"}
    some_unknown = any(one.standing == "unknown" for one in known.values())
    return {
        breaker.id: _line(breaker, loads.get(breaker.id, []), fed.get(breaker.id), some_unknown)
        for breaker in home.breakers
    }


def _line(breaker: Breaker, loads: Sequence[Load], panel: str | None, some_unknown: bool) -> Line:
    if breaker.wording:
        return Line(breaker.id, (breaker.wording,), own=True)
    if panel is not None:
        return Line(breaker.id, (f"Feeds {panel}",))
    if loads:
        return Line(breaker.id, _variants(loads))
    return Line(breaker.id, _idle(breaker, some_unknown))


def _idle(breaker: Breaker, some_unknown: bool) -> tuple[str, ...]:
    """Return the words for a breaker that nothing is tied to: never 'Spare' while its label claims a load."""
    if breaker.as_found and breaker.as_found.strip().lower() not in ("spare", "unused"):
        return (f"Unknown. Old label “{breaker.as_found}”", f"Unknown: “{breaker.as_found}”", "Unknown")
    return ("Nothing found on it yet", "Nothing found") if some_unknown else ("Spare",)


def _loads(home: Home, known: Mapping[int, Conclusion], boxes: Mapping[int, BoxFinding]) -> dict[int, list[Load]]:
    found: dict[int, dict[tuple[int, int], Load]] = {}
    for place in existing_feeds(home):
        one = known.get(place.feed.id)
        where = boxes.get(place.box.id)
        if one is None or where is None or place.device is None:
            continue
        load = _load(place.device, place.feed.part, where)
        for breaker in one.breakers:
            found.setdefault(breaker, {}).setdefault((place.device.id, 0), load)
    return {breaker: list(loads.values()) for breaker, loads in found.items()}


def _load(device: Device, part: str, where: BoxFinding) -> Load:
    kind = kind_named(device.kind)
    room = where.room_name or ("Outdoors" if where.level_name else "Not placed")
    group = part if part in ("light", "fan", "heater") else kind.group
    group = "light" if group in ("light", "switch") else group
    return Load(room, group, device.name or kind.label, device.name or kind.plural)


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
    ranked.append(f"{rooms[0]} + {len(rooms) - 1}" if len(rooms) > 1 else rooms[0])
    fitting = sorted(dict.fromkeys(_capital(words) for words in ranked), key=len, reverse=True)
    return tuple(fitting)


def _by_room(loads: Iterable[Load]) -> dict[str, list[Load]]:
    rooms: dict[str, list[Load]] = {}
    for load in loads:
        rooms.setdefault(load.room, []).append(load)
    return dict(sorted(rooms.items(), key=lambda item: -len(item[1])))


def _words(loads: Sequence[Load]) -> list[str]:
    """Return the kinds of load, named appliances first, then receptacles, then lights."""
    named = dict.fromkeys(load.called for load in loads if load.group in (*NAMED_GROUPS, "fan", "heater"))
    receptacles = [load for load in loads if load.group == "receptacle"]
    lights = [load for load in loads if load.group == "light"]
    words = list(named)
    if receptacles:
        words.append("receptacles" if len(receptacles) > 1 else receptacles[0].called)
    if lights:
        words.append("lights" if len(lights) > 1 else "light")
    return words


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
