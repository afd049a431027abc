"""What hangs on each breaker as a person who stands at the panel would call it: loads with their places."""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from floorplan_circuits.directory.room_names import names_of_rooms
from floorplan_circuits.directory.sides import Sides
from floorplan_circuits.directory.vocabulary import vocabulary
from floorplan_circuits.findings import BoxFinding, Conclusion, Load, Loads
from floorplan_circuits.home.boxes import Box, Device
from floorplan_circuits.home.home import Home, existing_feeds
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.home.power import Breaker
from floorplan_circuits.home.trade_words import device_word
from floorplan_circuits.supply.numbering import mark, reading_order

MOST_BEHIND = 8
"""Breakers behind a residual-current device that a line names one by one."""
PARTS_OF_THEIR_OWN = ("light", "fan", "heater")
LEADS_ON = ("by", "at", "behind", "under", "over", "in", "on", "near", "beside", "next", "above", "below", "for", "to")
"""First words of a name that tells where a thing is, not what it is: 'by the bed'."""


def loads_of(home: Home, known: Mapping[int, Conclusion], boxes: Mapping[int, BoxFinding]) -> Loads:
    """Return the loads of every breaker; what nobody knows the breaker of is there as the rest of its place."""
    of: dict[int, dict[tuple[int, str], Load]] = {}
    there: dict[tuple[str, str], list[tuple[Load, tuple[int, ...]]]] = {}
    for load, on in _told(home, known, boxes):
        there.setdefault((load.place, load.group), []).append((load, on))
        for breaker in on:
            of.setdefault(breaker, {}).setdefault((load.device, load.group), load)
    return Loads(
        {breaker: tuple(loads.values()) for breaker, loads in of.items()},
        {key: tuple(loads) for key, loads in there.items()},
    )


def _told(
    home: Home, known: Mapping[int, Conclusion], boxes: Mapping[int, BoxFinding]
) -> Iterator[tuple[Load, tuple[int, ...]]]:
    names = names_of_rooms(home)
    sides = Sides(home, names)
    for place in existing_feeds(home):
        one, where = known.get(place.feed.id), boxes.get(place.box.id)
        if one is None or where is None or place.device is None:
            continue
        on = () if one.standing == "unknown" else tuple(dict.fromkeys(one.breakers))
        room = names.get(where.room, "") if where.room is not None else ""
        side = sides.of(place.box, where.room)
        yield _load(place.device, place.feed.part, place.box, where, room, side), on


def _load(device: Device, part: str, box: Box, where: BoxFinding, room: str, side: str) -> Load:
    kind, named = kind_named(device.kind), device.name.strip()
    group = _group(kind.group, part, named)
    is_light_of = group == "light" != kind.group
    outside = "Outdoors" if box.mount == "outdoor" else where.level_name.strip()
    return Load(
        place=room or outside or "Not placed",
        room=where.room,
        group=group,
        called="light" if is_light_of else in_words(named, group, kind.label),
        kind="light" if is_light_of else kind.label,
        plural="lights" if is_light_of else kind.plural,
        named=named,
        device=device.id,
        part=part,
        mark=box.mark,
        side=side,
    )


def _group(group: str, part: str, named: str) -> str:
    """Return what a load counts as: a part of a fan for itself, and a receptacle named 'range' as an appliance."""
    if part in PARTS_OF_THEIR_OWN:
        return part
    is_for_one = any(word.tells == "appliance" for word in vocabulary().read(named))
    return "appliance" if group == "receptacle" and is_for_one else group


def in_words(named: str, group: str, label: str) -> str:
    """Return what one thing is called: a name alone says where a receptacle is, not that it is one.

    Examples:
        >>> in_words("by the bed", "receptacle", "receptacle"), in_words("garden", "receptacle", "receptacle")
        ('receptacle by the bed', 'garden receptacle')
        >>> in_words("range", "appliance", "240 V appliance"), in_words("", "light", "ceiling light")
        ('range', 'ceiling light')
    """
    if not named:
        return label
    if named.split(maxsplit=1)[0].lower() in LEADS_ON:
        return f"{label} {named}"
    if group in ("receptacle", "light") and not vocabulary().has_a_kind(named):
        return f"{named} {group}"
    return named


# --- what a breaker feeds besides loads -----------------------------------------------------------------------------


def further(home: Home) -> dict[int, list[str]]:
    """Return what stands behind or feeds each breaker besides loads: panels, other breakers, sources."""
    found: dict[int, list[str]] = {}
    for breaker, words in _feeding_further(home):
        if words not in (told := found.setdefault(breaker, [])):
            told.append(words)
    return found


def _behind(home: Home) -> dict[int, list[Breaker]]:
    """Return the breakers behind each, as a person reads them."""
    found: dict[int, list[Breaker]] = {}
    for number in reading_order(home):
        one = home.breakers[number]
        if one.behind is not None:
            found.setdefault(one.behind, []).append(one)
    return found


def _protects(home: Home, breaker: int, behind: Sequence[Breaker]) -> str:
    """Return what a breaker with others behind it feeds: their numbers, as long as they can be read at a glance."""
    kinds = {device_word(home, one) for one in behind}
    noun = next(iter(kinds)) if len(kinds) == 1 else "breaker"
    found = home.breakers.get(breaker)
    feeds = "RCD: feeds" if found is not None and device_word(home, found) == "RCD" else "Feeds"
    if len(behind) > MOST_BEHIND:
        return f"{feeds} the {len(behind)} {noun}s behind it"
    marks = [mark(home.panels.get(one.panel), one) for one in behind]
    listed = f"{', '.join(marks[:-1])} and {marks[-1]}" if len(marks) > 1 else marks[0]
    return f"{feeds} {noun}{'s' if len(marks) > 1 else ''} {listed}"


def _feeding_further(home: Home) -> Iterable[tuple[int, str]]:
    for panel in home.panels:
        for feeder in panel.fed_by:
            if feeder.kind == "breaker":
                yield feeder.breaker, f"Feeds {panel.name.strip() or 'another panel'}"
    yield from ((breaker, _protects(home, breaker, behind)) for breaker, behind in _behind(home).items())
    for source in home.sources:
        for target in source.into:
            if target in home.breakers:
                yield target, f"Fed by {source.name.strip() or 'a source'} too"
