"""Conclusions and box findings without evidence or geometry: what is stated is claimed. Quick, for many homes."""

from dataclasses import replace
from random import Random

from floorplan_circuits.findings import BoxFinding, Conclusion
from floorplan_circuits.home.boxes import FromBreaker, Supplied
from floorplan_circuits.home.home import Home, existing_feeds


def claimed(home: Home) -> dict[int, Conclusion]:
    found = {}
    for place in existing_feeds(home):
        on = place.feed.on
        supplies = on.supplies if isinstance(on, Supplied) else ()
        breakers = tuple(dict.fromkeys(one.breaker for one in supplies if isinstance(one, FromBreaker)))
        device = place.device.id if place.device else None
        standing = "claimed" if breakers else "unknown"
        found[place.feed.id] = Conclusion(place.feed.id, place.box.id, device, standing, breakers)
    return found


def rewired(home: Home, rng: Random) -> dict[int, Conclusion]:
    """Hang every feed on some breaker of the home, now and then on two (a loop) or on none that is known."""
    breakers = home.breakers.ids()
    found = {}
    for number, one in claimed(home).items():
        some = tuple(rng.sample(breakers, min(len(breakers), rng.choice((0, 1, 1, 1, 1, 1, 2)))))
        found[number] = replace(one, breakers=some, standing="claimed" if some else "unknown")
    return found


def in_rooms(home: Home) -> dict[int, BoxFinding]:
    """Put each box into the first room of its level whose outline's bounds hold it."""
    levels = {level.id: level.name for level in home.levels}
    bounds = [
        (room, min(x for x, _ in room.outline), max(x for x, _ in room.outline),
         min(y for _, y in room.outline), max(y for _, y in room.outline))
        for room in home.rooms if room.outline
    ]  # fmt: skip
    found = {}
    for box in home.boxes:
        x, y = box.at or (10**7, 10**7)
        holding = (r for r, x0, x1, y0, y1 in bounds if r.level == box.level and x0 <= x <= x1 and y0 <= y <= y1)
        room = next(holding, None)
        name = room.name if room else ""
        found[box.id] = BoxFinding(box.id, room.id if room else None, name, levels.get(box.level or 0, ""))
    return found
