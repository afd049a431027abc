"""Integrity: what a home must hold to mean anything. Each rule names the thing, the place, and what to do."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from floorplan_circuits.home.boxes import Box, Feed, Supplied, Supply
from floorplan_circuits.home.home import TABLES, Home, mains
from floorplan_circuits.home.outlines import crossing, doubled_area
from floorplan_circuits.home.power import Breaker, Panel
from floorplan_circuits.home.record import Record
from floorplan_circuits.home.references import references, targets
from floorplan_circuits.home.space_names import space_name
from floorplan_circuits.home.table import Table

LARGEST_ROOM_MM = 200_000
SMALLEST_ROOM_MM2 = 10_000


@dataclass(frozen=True, slots=True)
class Problem:
    """Something wrong with a home: where, what, and what to do about it."""

    where: str
    says: str
    do: str

    def __str__(self) -> str:
        return f"{self.where}: {self.says}. {self.do}."


Problems = Iterator[Problem]


def problems(home: Home) -> tuple[Problem, ...]:
    """Return everything wrong with the home, in the order of the rules; nothing for a sound one."""
    return tuple(problem for rule in RULES for problem in rule(home))


def ids(home: Home) -> dict[int, str]:
    """Return every id in use and the kind of thing it names; the log's entries are among them."""
    kinds: dict[int, str] = {}
    for kind, numbers in _numbers(home):
        kinds.update(dict.fromkeys(numbers, kind))
    return kinds


def _numbers(home: Home) -> Iterator[tuple[str, list[int]]]:
    for table in TABLES:
        yield KIND_OF_TABLE[table], [row.id for row in getattr(home, table)]
    devices = [device for box in home.boxes for device in box.devices]
    yield "device", [device.id for device in devices]
    yield "feed", [feed.id for device in devices for feed in device.feeds]
    yield "feed", [feed.id for box in home.boxes for feed in box.passing]
    yield "main", [main.id for _, main in mains(home)]
    yield "entry", [entry.id for entry in home.log]


KIND_OF_TABLE = {
    "levels": "level",
    "rooms": "room",
    "openings": "opening",
    "stairs": "stair",
    "boxes": "box",
    "controls": "control",
    "panels": "panel",
    "breakers": "breaker",
    "sources": "source",
}


# --- ids and references ---------------------------------------------------------------------------------------------


def _every_id(home: Home) -> Iterator[tuple[str, int]]:
    for table in TABLES:
        for row in getattr(home, table):
            yield f"{KIND_OF_TABLE[table]} {_called(row)}", row.id
    for box in home.boxes:
        yield from ((f"box {box.mark}, device {device.kind}", device.id) for device in box.devices)
        yield from ((f"box {box.mark}, a feed", feed.id) for feed in box.feeds())
    for panel in home.panels:
        yield from ((f"panel {panel.name}, a main", main.id) for main in panel.mains)
    yield from ((f"log entry {place}", entry.id) for place, entry in enumerate(home.log, 1))


def _called(row: Record) -> str:
    return str(getattr(row, "mark", "") or getattr(row, "name", "") or getattr(row, "id", ""))


def unique_ids(home: Home) -> Problems:
    """No two things have one id, and the counter is past them all."""
    used = [number for _, numbers in _numbers(home) for number in numbers]
    if len(set(used)) == len(used) and max(used, default=0) < home.next_id:
        return  # the usual case, told apart before any name is made up
    seen: dict[int, str] = {}
    for where, number in _every_id(home):
        if number in seen:
            yield Problem(where, f"it has the same id as {seen[number]}", "Give one of them the home's next id")
        seen[number] = where
    if seen and max(seen) >= home.next_id:
        yield Problem("next_id", "the counter is not past every id in use", f"Set next_id to {max(seen) + 1}")


def no_dangling(home: Home) -> Problems:
    """Every reference names a thing of its kind; those the log keeps may outlive it.

    All are looked at without their places first: only where one dangles is it worth saying which.
    """
    kinds = ids(home)
    for table in TABLES:
        rows = getattr(home, table)
        if any(kinds.get(target) not in declared.to and declared.fate != "keep" for declared, target in targets(rows)):
            for row in rows:
                yield from _dangling_in(row, f"{KIND_OF_TABLE[table]} {_called(row)}", kinds)


def _dangling_in(row: Record, where: str, kinds: dict[int, str]) -> Problems:
    for path, declared, target in references(row):
        if kinds.get(target) not in declared.to and declared.fate != "keep":
            says = f"{path} names a {' or '.join(declared.to)} that is not there"
            yield Problem(where, says, "Name one that is, or leave it out")


# --- the drawing ----------------------------------------------------------------------------------------------------


def sound_outlines(home: Home) -> Problems:
    """A room is a simple polygon of a size that a room can have."""
    for room in home.rooms:
        where = f"room {room.name}"
        xs, ys = [x for x, _ in room.outline], [y for _, y in room.outline]
        if len(set(room.outline)) < 3:
            yield Problem(where, "its outline has fewer than three corners", "Draw at least three")
        elif max(max(xs) - min(xs), max(ys) - min(ys)) > LARGEST_ROOM_MM:
            yield Problem(where, "it is over 200 m long", "Check its corners: they are whole millimetres")
        elif place := crossing(room.outline):
            yield Problem(where, f"its outline crosses itself near {place}", "Put its corners in order round the room")
        elif abs(doubled_area(room.outline)) < 2 * SMALLEST_ROOM_MM2:
            yield Problem(where, "it has next to no area", "Check its corners: they are whole millimetres")


def placed_on_levels(home: Home) -> Problems:
    """A thing with a place has a level to be on."""
    for box in home.boxes:
        if box.at is not None and box.level is None:
            yield Problem(f"box {box.mark}", "it has a place but no level", "Say which level it is on")


# --- boxes and devices ----------------------------------------------------------------------------------------------


def boxes_make_sense(home: Home) -> Problems:
    """Every box has a mark of its own, and every device a kind and a gang of its box."""
    counts = Counter(box.mark for box in home.boxes)
    for mark, count in counts.items():
        if not mark:
            yield Problem("a box", "it has no mark", "Give it the next free one, such as B14")
        elif count > 1:
            yield Problem(
                f"box {mark}", f"{count} boxes have this mark", "A mark is on paper for years: give each its own"
            )
    for box in home.boxes:
        yield from _devices_of(box)


def _devices_of(box: Box) -> Problems:
    for device in box.devices:
        where = f"box {box.mark}, gang {device.slot}"
        if not device.kind:
            yield Problem(where, "a device of no kind is in it", "Say what it is, such as 'duplex receptacle'")
        if device.slot > box.gangs:
            yield Problem(where, f"the box has only {box.gangs} gangs", "Give the box more gangs or move the device")


def behind_ends(home: Home) -> Problems:
    """What hangs behind a feed does not come back to itself."""
    above = {feed.id: feed.on.feed for box in home.boxes for feed in box.feeds() if feed.on.how == "behind"}
    round_again = _in_rings(above)
    for box in home.boxes if round_again else ():
        for feed in box.feeds():
            if feed.id in round_again:
                where = _feed_place(box, feed)
                yield Problem(where, "it hangs behind itself", "Say which of them comes first from the panel")


def _feed_place(box: Box, feed: Feed) -> str:
    return f"box {box.mark}, {f'the {feed.part} feed' if feed.part else 'a feed'}"


def _in_rings(above: Mapping[int, int]) -> set[int]:
    """Return all that come back to themselves, where each hangs on at most one other; each is looked at once."""
    rings, done = set[int](), set[int]()
    for start in above:
        walk, at = dict[int, None](), start
        while at in above and at not in done and at not in walk:
            walk[at] = None
            at = above[at]
        if at in walk:
            passed = list(walk)
            rings.update(passed[passed.index(at) :])
        done.update(walk)
    return rings


def supplies_fit(home: Home) -> Problems:
    """A feed names a pole that its breaker has, and no supply twice."""
    for box in home.boxes:
        for feed in box.feeds():
            if isinstance(feed.on, Supplied):
                for says, do in _misfits(feed.on.supplies, home.breakers):
                    yield Problem(_feed_place(box, feed), says, do)


def _misfits(stated: tuple[Supply, ...], breakers: Table[Breaker]) -> Iterator[tuple[str, str]]:
    for at, supply in enumerate(stated):
        if at and supply in stated[:at]:
            yield "it names one supply twice", "Name each supply once"
        if supply.kind == "breaker" and supply.pole:
            breaker = breakers.get(supply.breaker)
            if breaker is not None and supply.pole >= len(breaker.poles):
                yield f"its breaker has no pole {supply.pole + 1}", "Name a pole that it has"


# --- panels ---------------------------------------------------------------------------------------------------------


def _where(panel: Panel, space: int, half: str | None) -> str:
    return f"panel {panel.name}, space {space}{half or ''}"


def spaces_hold_one(home: Home) -> Problems:
    """No space half holds two breakers, and no pole lies past the end of the panel."""
    taken: dict[tuple[int, int, str], Breaker] = {}
    for breaker in home.breakers:
        panel = home.panels.get(breaker.panel)
        if panel is None:
            continue  # named by `no_dangling`
        for pole in breaker.poles:
            if pole.space > panel.spaces:
                yield Problem(
                    _where(panel, pole.space, pole.half),
                    f"a pole lies past the end: the panel has {panel.spaces} spaces",
                    "Give the panel more spaces or move the breaker",
                )
            for half in (pole.half,) if pole.half else ("A", "B"):
                key = (panel.id, pole.space, half)
                if key in taken:
                    where = _where(panel, pole.space, pole.half)
                    yield Problem(where, "two breakers are in it", "Move one, or say that each takes a half (A, B)")
                    break
                taken[key] = breaker


def panels_told_apart(home: Home) -> Problems:
    """Breakers of two panels never read alike: each further panel has a prefix of its own."""
    counts = Counter(panel.prefix for panel in home.panels)
    for panel in home.panels:
        if counts[panel.prefix] > 1:
            shown = f'"{panel.prefix}"' if panel.prefix else "no prefix"
            cure = "Give each a letter of its own, such as G for the garage"
            yield Problem(f"panel {panel.name}", f"another panel has {shown} too", cure)


def spaces_told_apart(home: Home) -> Problems:
    """No two spaces of a home are called alike where their householder gave them numbers of their own."""
    if not any(panel.called for panel in home.panels):
        return
    counts = Counter(name for panel in home.panels for name in _space_names(panel))
    for panel in home.panels:
        twice = next((name for name in _space_names(panel) if counts[name] > 1), "")
        if twice:
            cure = "Give each a number of its own"
            yield Problem(f"panel {panel.name}", f"more than one space is called {twice}", cure)


def _space_names(panel: Panel) -> list[str]:
    return [f"{panel.prefix}{space_name(panel, space)}" for space in range(1, panel.spaces + 1)]


def not_fed_by_itself(home: Home) -> Problems:
    """No panel hangs on itself, directly or through others."""
    above: dict[int, set[int]] = {panel.id: set() for panel in home.panels}
    for panel in home.panels:
        for feeder in panel.fed_by:
            breaker = home.breakers.get(feeder.breaker) if feeder.kind == "breaker" else None
            if breaker is not None:
                above[panel.id].add(breaker.panel)
    for panel in home.panels:
        if panel.id in _reached(above, above[panel.id]):
            yield Problem(f"panel {panel.name}", "it is fed by itself", "Say which panel comes first from the meter")


def breakers_behind(home: Home) -> Problems:
    """No breaker is protected behind itself, directly or through others."""
    round_again = _in_rings({breaker.id: breaker.behind for breaker in home.breakers if breaker.behind is not None})
    for breaker in home.breakers:
        if breaker.id in round_again:
            panel = home.panels.get(breaker.panel)
            where = _where(panel, breaker.poles[0].space, breaker.poles[0].half) if panel else "a breaker"
            yield Problem(where, "it stands behind itself", "Say which device protects which")


def _reached(above: dict[int, set[int]], start: Iterable[int]) -> set[int]:
    seen, todo = set[int](), list(start)
    while todo:
        panel = todo.pop()
        if panel not in seen:
            seen.add(panel)
            todo.extend(above.get(panel, ()))
    return seen


def pictures_there(home: Home) -> Problems:
    """Every picture that something shows is among the home's pictures."""
    known = {picture.hash for picture in home.pictures}
    shown = [(f"box {box.mark}", picture) for box in home.boxes for picture in box.pictures]
    shown += [(f"panel {panel.name}", panel.photo) for panel in home.panels if panel.photo]
    shown += [(f"level {level.name}", level.underlay.picture) for level in home.levels if level.underlay]
    for where, picture in shown:
        if picture not in known:
            yield Problem(
                where, f"its picture {picture[:8]} is not in the file", "Add the picture again or leave it out"
            )


RULES = (
    unique_ids,
    no_dangling,
    sound_outlines,
    placed_on_levels,
    boxes_make_sense,
    behind_ends,
    supplies_fit,
    spaces_hold_one,
    panels_told_apart,
    spaces_told_apart,
    not_fed_by_itself,
    breakers_behind,
    pictures_there,
)
