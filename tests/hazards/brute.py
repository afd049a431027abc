"""Every family found the slow and plain way: straight from the home and what is known of each feed and box.

Each finder returns the kind with what it is about: a box, device, feed, breaker, panel or source, by its id. Nothing
here is shared with the families but the conclusions, what enters each box, and the words of the records.
"""

from collections.abc import Iterator
from itertools import combinations, product
from math import cos, hypot, radians, sin

from floorplan_circuits.findings import Findings
from floorplan_circuits.home.boxes import Box, Device, Feed
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.home.power import Breaker

Found = Iterator[tuple[str, int]]
LEGS = {
    "split-phase 120/240": 2,
    "three-phase 208Y/120": 3,
    "three-phase 400Y/230": 3,
    "two-wire 120": 1,
    "single-phase 230": 1,
}


def everything(found: Findings) -> set[tuple[str, int]]:
    """All hazards by kind and what each is about."""
    finders = (
        _of_what_enters,
        _passing,
        _meeting,
        _yokes,
        _untied,
        _one_leg,
        _borrowed,
        _switching,
        _sources,
        _neutrals,
        _handles,
        _low_voltage,
        _testers,
        _no_ground,
        _receptacles,
        _conductors,
        _close,
    )
    return {one for finder in finders for one in finder(found)}


# --- what everybody asks --------------------------------------------------------------------------------------------


def together(home: Home, one: int, other: int) -> bool:
    """Whether one handle is the other, or a tie by the factory that holds throughout joins them."""
    if one == other:
        return True
    a, b = home.breakers[one], home.breakers[other]
    if a.tie is None or b.tie is None or a.panel != b.panel or a.tie.group != b.tie.group:
        return False
    group = [x for x in home.breakers if x.panel == a.panel and x.tie is not None and x.tie.group == a.tie.group]
    return all(x.tie is not None and x.tie.made == "by the factory" for x in group)


def all_together(home: Home, breakers: set[int]) -> bool:
    return all(together(home, a, b) for a, b in combinations(breakers, 2))


def on(found: Findings, feed: int) -> set[int]:
    one = found.conclusions.get(feed)
    return set(one.breakers) if one is not None else set()


def built(found: Findings) -> Iterator[tuple[Box, Device]]:
    for box in found.home.boxes:
        if box.id in found.boxes:
            yield from ((box, device) for device in box.devices if not device.planned)


def live_feeds(found: Findings) -> Iterator[tuple[Box, Device | None, Feed]]:
    for box in found.home.boxes:
        if box.id in found.boxes:
            for device in box.devices:
                yield from ((box, device, feed) for feed in device.feeds if not device.planned)
            yield from ((box, None, feed) for feed in box.passing)


def counting(home: Home) -> list:
    """The entries that count, with their places: struck ones out, those struck by a struck one in."""
    unknown = _unknown_numbers(home)
    struck, left = set(), []
    for place in range(len(home.log) - 1, -1, -1):
        entry = home.log[place]
        if entry.id in struck:
            continue
        left.append((place, entry))
        if entry.kind == "struck" and not entry.extras() and entry.id not in unknown | _perhaps(home, unknown):
            struck.add(entry.entry)
    return left[::-1]


def _perhaps(home: Home, unknown: set[int]) -> set[int]:
    """Entries that only an entry strikes of which a newer program wrote."""
    return {entry.entry for entry in home.log if entry.kind == "struck" and (entry.extras() or entry.id in unknown)}


def _unknown_numbers(home: Home) -> set[int]:
    known = ("round", "traced", "opened", "tester", "trouble", "change", "struck", "dismissed")
    return {
        number
        for entry in home.log
        if entry.kind not in known
        for value in entry.extras().values()
        for number in (value if isinstance(value, list) else [value])
        if isinstance(number, int)
    }


def changed_at(home: Home, box: int) -> int:
    """The place of the last change that may have touched a box."""
    return max(
        (
            place
            for place, entry in counting(home)
            if entry.kind == "change" and (box in entry.boxes or not (entry.boxes or entry.panels))
        ),
        default=-1,
    )


# --- boxes ----------------------------------------------------------------------------------------------------------


def _of_what_enters(found: Findings) -> Found:
    for box, one in found.boxes.items():
        standings = {known.standing for known in found.conclusions.values() if known.box == box}
        if one.shared:
            yield "shared box", box
        if one.unknown:
            yield "unknown box", box
        if one.others and not one.shared:
            yield "other supply", box
        if "contradicted" in standings:
            yield "tests disagree", box
        if "expired" in standings:
            yield "tested before a change", box


def _passing(found: Findings) -> Found:
    for number, one in found.boxes.items():
        box = found.home.boxes[number]
        devices = {feed.id for device in box.devices if not device.planned for feed in device.feeds}
        entries = [entry for _, entry in counting(found.home) if entry.kind == "opened" and entry.box == number]
        seen = {cable.feed for cable in entries[-1].cables} if entries else set()
        through = ({feed.id for feed in box.passing} | seen) - devices
        extra = {b for feed in through if feed for b in on(found, feed)} - {b for f in devices for b in on(found, f)}
        if devices and extra & set(one.breakers):
            yield "conductors passing", number


def _meeting(found: Findings) -> Found:
    for _, _, feed in live_feeds(found):
        if feed.on.how == "any":
            breakers = {one.breaker for one in feed.on.supplies if one.kind == "breaker"}
            others = [one for one in feed.on.supplies if one.kind != "breaker"]
            if len(breakers) + len(others) > 1:
                yield "two supplies meet", feed.id


def _yokes(found: Findings) -> Found:
    for _, device in built(found):
        if kind_named(device.kind).group not in ("receptacle", "switch"):
            continue
        sides = {feed.part.split(" ")[-1] for feed in device.feeds}
        quad = device.kind == "double duplex receptacle"
        for side in sides if quad else {None}:
            mine = [feed for feed in device.feeds if side is None or feed.part.split(" ")[-1] == side]
            sets = [on(found, feed.id) for feed in mine if on(found, feed.id)]
            two_circuits = any(a != b for a, b in combinations(sets, 2))
            if two_circuits and not all_together(found.home, set().union(*sets)):
                yield "one yoke on two breakers", device.id


def _untied(found: Findings) -> Found:
    for _, _, feed in live_feeds(found):
        if feed.on.how == "all":
            breakers = {one.breaker for one in feed.on.supplies if one.kind == "breaker"}
            if not all_together(found.home, breakers):
                yield "one load on untied breakers", feed.id


def _borrowed(found: Findings) -> Found:
    home = found.home
    for _, _, feed in live_feeds(found):
        mine = on(found, feed.id)
        if isinstance(feed.returns, str) or not mine:
            continue
        lender = feed.returns.breaker
        same_handle = any(together(home, lender, one) for one in mine)
        group = {pole.neutral for pole in home.breakers[lender].poles if isinstance(pole.neutral, int)}
        multiwire = any(pole.neutral in group for one in mine for pole in home.breakers[one].poles)
        if not same_handle and not multiwire:
            yield "borrowed neutral", feed.id


def _low_voltage(found: Findings) -> Found:
    for number in found.boxes:
        feeds = [(device, feed) for box, device, feed in live_feeds(found) if box.id == number]
        mains = [feed for _, feed in feeds if feed.volts != "low"]
        low = [(device, feed) for device, feed in feeds if feed.volts == "low"]
        for device, feed in low:
            own = device is not None and "transformer" in device.kind and feed.on.how == "behind"
            if mains and not (own and any(feed.on.feed == other.id for other in device.feeds)):
                yield "low voltage beside mains", number


def _testers(found: Findings) -> Found:
    unknown = _unknown_numbers(found.home)
    unknown |= _perhaps(found.home, unknown)
    for box, device in built(found):
        tests = [
            (place, entry)
            for place, entry in counting(found.home)
            if entry.kind == "tester" and entry.device == device.id
        ]
        tests = [
            (place, entry)
            for place, entry in tests
            if entry.shows != "correct" or not (entry.extras() or entry.id in unknown)
        ]
        if tests and tests[-1][1].shows != "correct" and tests[-1][0] > changed_at(found.home, box.id):
            yield "receptacle tester's fault", device.id


def _no_ground(found: Findings) -> Found:
    for _, device in built(found):
        if device.ground == "absent":
            yield "no ground", device.id


def _close(found: Findings) -> Found:
    home = found.home
    for a, b in product(home.boxes, home.boxes):
        if a.id == b.id or a.at is None or b.at is None or a.level != b.level:
            continue
        if not {a.id, b.id} <= found.boxes.keys() or not {a.mount, b.mount} <= {"wall", "outdoor"}:
            continue
        other, mine = found.boxes[b.id], found.boxes[a.id]
        covered = all(any(together(home, x, y) for y in mine.breakers) for x in other.breakers)
        if covered and not (other.unknown or other.others or other.apart):
            continue
        dx, dy = b.at[0] - a.at[0], b.at[1] - a.at[1]
        if hypot(dx, dy) > 300:
            continue
        ahead = dx * cos(radians(a.angle)) + dy * sin(radians(a.angle))
        up = 0 if a.height is None or b.height is None else a.height - b.height
        if a.angle == b.angle and abs(ahead) <= 50 and hypot(dx, dy, up) <= 300:
            yield "looks like its neighbour", a.id
        if (a.angle - b.angle) % 360 == 180 and ahead <= 50:
            yield "back to back", a.id


# --- legs and neutrals ----------------------------------------------------------------------------------------------


def system_of(home: Home, panel: int) -> str:
    own = home.panels[panel].system
    return home.system if own == "not known" else own


def leg_by_layout(home: Home, panel: int, space: int) -> int | None:
    found = home.panels[panel]
    count = LEGS.get(system_of(home, panel), 0)
    if count < 2 or space > found.spaces:
        return None
    rows = (found.spaces + 1) // 2
    row = {
        "odd left, even right": (space - 1) // 2,
        "single row": space - 1,
        "row by row": space - 1,
        "down one side, then the other": (space - 1) % rows,
    }[found.numbering]
    return row % count


def same_leg(home: Home, one: tuple[Breaker, int], other: tuple[Breaker, int]) -> str:
    """How two poles are known to be on one leg: 'sure', 'halves', 'may', or '' for not."""
    a, b = one[0].poles[one[1]], other[0].poles[other[1]]
    if a.leg and b.leg:
        return "sure" if a.leg == b.leg else ""
    if one[0].panel != other[0].panel:
        return ""
    if a.space == b.space:
        return "halves" if a.half != b.half else ""
    first, second = (leg_by_layout(home, one[0].panel, pole.space) for pole in (a, b))
    first = "ABC".index(a.leg) if a.leg else first
    second = "ABC".index(b.leg) if b.leg else second
    return "may" if first is not None and first == second else ""


def surest(home: Home, poles: list[tuple[Breaker, int]]) -> str:
    ways = {same_leg(home, a, b) for a, b in combinations(poles, 2)}
    return next((way for way in ("sure", "halves", "may") if way in ways), "")


def _one_leg(found: Findings) -> Found:
    home = found.home
    for _, _, feed in live_feeds(found):
        if feed.on.how != "all":
            continue
        poles = {
            (one.breaker, at)
            for one in feed.on.supplies
            if one.kind == "breaker"
            for at in range(len(home.breakers[one.breaker].poles))
            if one.pole is None or one.pole == at
        }
        way = surest(home, [(home.breakers[breaker], at) for breaker, at in poles])
        if way:
            yield (
                ("halves of one space" if way == "halves" else "one leg")
                + (" taken for two legs" if way == "halves" else " taken for two"),
                feed.id,
            )


def _neutrals(found: Findings) -> Found:
    home = found.home
    groups = {pole.neutral for breaker in home.breakers for pole in breaker.poles if isinstance(pole.neutral, int)}
    for group in groups:
        poles = [
            (breaker, at) for breaker in home.breakers for at, pole in enumerate(breaker.poles) if pole.neutral == group
        ]
        if len(poles) < 2:
            continue
        breakers = {breaker.id for breaker, _ in poles}
        panels = {breaker.panel for breaker, _ in poles}
        legs = LEGS.get(system_of(home, min(panels)), 0) if len(panels) == 1 else 0
        way = surest(home, poles)
        kinds = ["shared neutral, no common handle"] if not all_together(home, breakers) else []
        if legs and len(poles) > legs:
            kinds.append("more hots than legs on one neutral")
        elif way:
            kinds.append("halves of one space on one neutral" if way == "halves" else "one leg, one neutral")
        yield from ((kind, breaker) for kind in kinds for breaker in breakers)


# --- switches, sources, handles -------------------------------------------------------------------------------------


def _apart(home: Home, some: set[int], others: set[int]) -> bool:
    return bool(some and others) and not any(together(home, a, b) for a in some for b in others)


def _switching(found: Findings) -> Found:
    home = found.home
    places = {feed.id: feed for _, _, feed in live_feeds(found)}
    devices = {device.id: device for _, device in built(found)}
    for control in home.controls:
        if control.by == "radio":
            continue
        switches = {
            one: {b for feed in devices[one].feeds if feed.volts != "low" for b in on(found, feed.id)}
            for one in control.switches
            if one in devices
        }
        if any(_apart(home, switches[a], switches[b]) for a, b in combinations(switches, 2)):
            yield from (("switches on two circuits", one) for one in switches if switches[one])
            continue
        loads = [feed for feed in control.feeds if feed in places and places[feed].volts != "low"]
        apart = [one for one in switches if any(_apart(home, switches[one], on(found, feed)) for feed in loads)]
        if apart:
            yield "switch on another circuit", apart[0]


def _sources(found: Findings) -> Found:
    home = found.home
    feeds = {feed.id for _, _, feed in live_feeds(found)}
    for panel in home.panels:
        sources = {one.source for one in panel.fed_by if one.kind == "source"}
        sources |= {source.id for source in home.sources if panel.id in source.into}
        feeders = {one.breaker for one in panel.fed_by if one.kind == "breaker"}
        handles = {frozenset(other for other in feeders if together(home, one, other)) for one in feeders}
        if len(sources) + len(handles) > 1:
            yield "more than one supply", panel.id
    for source in home.sources:
        yield from (("second source", one) for one in source.into if one in home.breakers or one in feeds)


def _handles(found: Findings) -> Found:
    home = found.home
    handles = {breaker.id: breaker.panel for breaker in home.breakers}
    handles |= {main.id: panel.id for panel in home.panels for main in panel.mains}
    for handle, panel in handles.items():
        is_main = handle not in home.breakers
        for place, entry in counting(home):
            if entry.kind == "trouble" and entry.handle == handle:
                mended = any(
                    later > place
                    and other.kind == "change"
                    and ((not is_main and panel in other.panels) or not (other.boxes or other.panels))
                    for later, other in counting(home)
                )
                if not mended:
                    yield "breaker in trouble", panel if is_main else handle
    for breaker in home.breakers:
        if breaker.found.state in ("off", "tripped"):
            yield "breaker found off", breaker.id
        if breaker.tie is not None:
            mates = [
                one for one in home.breakers
                if one.tie is not None and (one.panel, one.tie.group) == (breaker.panel, breaker.tie.group)
            ]  # fmt: skip
            if len(mates) > 1 and any(one.tie.made != "by the factory" for one in mates):
                yield "handles joined", breaker.id


# --- ratings --------------------------------------------------------------------------------------------------------


def _american(home: Home, breaker: int) -> bool:
    return system_of(home, home.breakers[breaker].panel) in (
        "split-phase 120/240",
        "three-phase 208Y/120",
        "two-wire 120",
    )


def _receptacles(found: Findings) -> Found:
    home = found.home
    fits = {15: range(1, 16), 20: (15, 20), 30: (30,), 40: (40, 50), 50: (50,)}
    for _, device in built(found):
        breakers = {b for feed in device.feeds for b in on(found, feed.id)}
        if kind_named(device.kind).group != "receptacle" or device.rated is None or len(breakers) != 1:
            continue
        (breaker,) = breakers
        amps = home.breakers[breaker].amps
        if amps is None or not _american(home, breaker):
            continue
        pieces, all_feeds = 0, 0
        for _, other, feed in live_feeds(found):
            if breaker in on(found, feed.id):
                all_feeds += 1
                if other is not None and kind_named(other.kind).group == "receptacle":
                    pieces += max(1, len(kind_named(other.kind).parts)) if len(other.feeds) == 1 else 1
        single = not kind_named(device.kind).parts
        if (single and all_feeds == 1 and device.rated < amps) or (
            pieces > 1 and amps in fits and device.rated not in fits[amps]
        ):
            yield "receptacle and breaker", device.id


def _conductors(found: Findings) -> Found:
    most = {("14", 0): 15, ("12", 0): 20, ("10", 0): 30, ("12", 1): 15, ("10", 1): 25}
    for breaker in found.home.breakers:
        size = breaker.conductor.size.strip().lstrip("#").split(" ")[0]
        limit = most.get((size, int("alum" in breaker.conductor.metal or "clad" in breaker.conductor.metal)))
        if breaker.amps and limit and breaker.amps > limit and _american(found.home, breaker.id):
            yield "conductor and breaker", breaker.id
