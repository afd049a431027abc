"""One breaker's loads in words, from fullest to shortest, in the order a person looks for them.

An appliance is looked for by its name, all else by its room; a switch is told only where there is nothing else.
"""

from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence

from floorplan_circuits.directory.parts import part_words
from floorplan_circuits.findings import Load, Loads

NAMED_GROUPS = ("appliance", "alarm", "other", "fan", "heater")
DIVIDED = ("receptacle", "light")
"""Groups of which a room mostly has many, so that a line must say which."""

SOME = "some "
MIXED = "mixed"
"""The fewest words for loads of several kinds."""

Say = Callable[[Sequence[Load]], str]
"""Gives the words for some loads of one divided group."""


def variants(breaker: int, loads: Sequence[Load], all_loads: Loads) -> tuple[str, ...]:
    """Return the line: rooms with their loads and which part of them, loads with their rooms, then rooms alone."""
    by_room = _by_room(loads)
    rooms = list(by_room)
    alone = _one_appliance(loads)
    if alone:
        return ranked((f"{alone}, {rooms[0]}", alone))

    def exactly(some: Sequence[Load]) -> str:
        return part_words(some, all_loads.rest(breaker, some[0].place, some[0].group))

    def roughly(some: Sequence[Load]) -> str:
        partly = any(all_loads.rest(breaker, load.place, load.group) for load in some)
        return f"{SOME if partly and len(some) > 1 else ''}{_plainly(some)}"

    words = _words(loads, roughly)
    groups = ", ".join(words)
    ways = [_by_place(by_room, exactly), _by_place(by_room, roughly), f"{', '.join(rooms)}: {groups}"]
    if len(rooms) > 2:
        ways.append(f"{', '.join(rooms[:2])} and {_more_rooms(len(rooms) - 2)}: {groups}")
    every, short = ", ".join(rooms), _in_short(rooms)
    named = (every, *short) if len(rooms) == 2 else short
    ways += [f"{first}: {said}" for said in (groups, *_summed_up(loads, words)) for first in named]
    last = f"{rooms[0]} + {len(rooms) - 1}"  # where not even that has room; never behind a number, as in Bedroom 2
    narrow = (last,) if len(rooms) > 1 and not rooms[0][-1:].isdigit() else ()
    return ranked((*ways, every, *short, *narrow))


def _in_short(rooms: Sequence[str]) -> tuple[str, ...]:
    """Return the first room and how many more there are, in ever fewer words that cannot be taken for its number."""
    if len(rooms) == 1:
        return (rooms[0],)
    more = len(rooms) - 1
    return f"{rooms[0]} and {_more_rooms(more)}", f"{rooms[0]}, {more} more"


def _more_rooms(count: int) -> str:
    return f"{count} more {'room' if count == 1 else 'rooms'}"


def _summed_up(loads: Sequence[Load], words: Sequence[str]) -> tuple[str, ...]:
    """Return in ever fewer words what kinds of load there are: a line drops them last, after how much of each it is."""
    if len(words) < 2:
        return tuple(word.removeprefix(SOME) for word in words)
    told = Counter(f"{load.group}s" if load.group in DIVIDED else load.plural for load in loads)
    (most, count), *_ = told.most_common(1)
    return (*((f"{most} and other",) if count > 1 else ()), MIXED)


def ranked(ways: Iterable[str]) -> tuple[str, ...]:
    """Return those that are shorter than every fuller one: the longest first, each once."""
    kept: list[str] = []
    for words in ways:
        if not kept or len(words) < len(kept[-1]):
            kept.append(words[:1].upper() + words[1:])
    return tuple(kept)


def _by_place(by_room: Mapping[str, Sequence[Load]], say: Say) -> str:
    return "; ".join(f"{room}: {', '.join(_words(inside, say))}" for room, inside in by_room.items())


def _by_room(loads: Iterable[Load]) -> dict[str, list[Load]]:
    """Return the loads of each room: first where an appliance is, then where most are, last where only switches are."""
    rooms: dict[str, list[Load]] = {}
    for load in loads:
        rooms.setdefault(load.place, []).append(load)
    groups = {room: {load.group for load in inside} for room, inside in rooms.items()}

    def sought(item: tuple[str, list[Load]]) -> tuple[bool, bool, int]:
        return groups[item[0]] == {"switch"}, "appliance" not in groups[item[0]], -len(item[1])

    return dict(sorted(rooms.items(), key=sought))


def _one_appliance(loads: Sequence[Load]) -> str:
    """Return the name of the one appliance that is all there is, apart from a switch for it in its room."""
    doing = [load for load in loads if load.group != "switch"]
    names = {load.called for load in doing if load.group == "appliance"}
    if len(names) != 1 or any(load.group != "appliance" for load in doing) or len({load.place for load in loads}) > 1:
        return ""
    return names.pop()


def _words(loads: Sequence[Load], say: Say) -> list[str]:
    """Return the kinds of load: named appliances, receptacles, lights; switches only where there is nothing else."""
    words = list(dict.fromkeys(load.called for load in loads if load.group in NAMED_GROUPS))
    for group in DIVIDED:
        some = [load for load in loads if load.group == group]
        words += [say(some)] if some else []
    return words or ["switch" if len(loads) == 1 else "switches"]


def _plainly(some: Sequence[Load]) -> str:
    if len(some) > 1:
        return f"{some[0].group}s"
    return "light" if some[0].group == "light" and not some[0].named else some[0].called
