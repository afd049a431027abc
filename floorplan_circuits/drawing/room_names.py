"""Names of rooms on the plan: where nothing stands, if they can off doors' swings and edges, else a key letter."""

from collections.abc import Callable, Iterator, Sequence
from string import ascii_lowercase

from floorplan_circuits.drawing.candidates import round_the_middle
from floorplan_circuits.drawing.frame import Frame
from floorplan_circuits.drawing.ink import Bounds, Group, Text, path_bounds, polygon
from floorplan_circuits.drawing.lettering import cap_height, width, wrap
from floorplan_circuits.drawing.overlaps import around
from floorplan_circuits.drawing.placement import Ground, Placed, place
from floorplan_circuits.drawing.plan_labels import Labels
from floorplan_circuits.drawing.plates import text_height
from floorplan_circuits.findings import Subject
from floorplan_circuits.home.building import Room

NAME_SIZES = (9.0, 8.0)
Lines = tuple[str, ...]
Shuns = Callable[[Bounds], bool]


def name_rooms(rooms: Sequence[Room], frame: Frame, ground: Ground, labels: Labels) -> None:
    """Place the rooms' names, the largest room first; where none fits, a key letter, told beside the plan."""
    shapes = frame.findings.rooms
    named = [room for room in rooms if room.name and room.id in shapes]
    for room in sorted(named, key=lambda room: -shapes[room.id].area):
        _name_room(room, frame, ground, labels)


def name_rooms_of_overview(rooms: Sequence[Room], frame: Frame, ground: Ground, labels: Labels) -> None:
    """Place the names that find room among the dots, in their smaller size; the others show closer up."""
    shapes, size = frame.findings.rooms, NAME_SIZES[-1]
    for room in rooms:
        left, _, right, _ = path_bounds(polygon(*room.outline)) if room.outline else (0.0, 0.0, 0.0, 0.0)
        if room.id not in shapes or width(room.name, size, True) * frame.scale > right - left:
            continue
        found = _place_name((room.name,), size, room, frame, ground, _nothing)
        if found is not None and room.name:
            _write((room.name,), size, found, Subject("room", room.id), frame, ground, labels)


def _name_room(room: Room, frame: Frame, ground: Ground, labels: Labels) -> None:
    subject = Subject("room", room.id)
    for shuns, size, lines in _tries(room.name, ground):
        found = _place_name(lines, size, room, frame, ground, shuns)
        if found is not None:
            _write(lines, size, found, subject, frame, ground, labels)
            return
    key = _key(len(labels.keys))
    labels.keys.append((key, room.name))
    found = _place_name((key,), NAME_SIZES[0], room, frame, ground, _nothing)
    if found is None:
        labels.not_placed.append(room.name)
    else:
        _write((key,), NAME_SIZES[0], found, subject, frame, ground, labels)


def _tries(name: str, ground: Ground) -> Iterator[tuple[Shuns, float, Lines]]:
    """Yield what to avoid, the size and the lines: off swings and edges first, then over edges, then anywhere."""
    for shuns in (ground.is_shunned, lambda bounds: ground.is_shunned(bounds, lines=False), _nothing):
        for size in NAME_SIZES:
            for lines in _ways_to_write(name, size):
                yield shuns, size, lines


def _nothing(_bounds: Bounds) -> bool:
    return False


def _key(place: int) -> str:
    """Return a, b, … z, aa, ab, …: letters, since a number would read as a circuit."""
    more, letter = divmod(place, 26)
    return (ascii_lowercase[more - 1] if more else "") + ascii_lowercase[letter]


def _ways_to_write(name: str, size: float) -> list[Lines]:
    """Return the name on one line, and in two or more that break between words only."""
    words = name.split()
    if len(words) < 2:
        return [(name,)]
    longest = max(width(word, size, True) for word in words)
    return [(name,), wrap(name, max(longest, width(name, size, True) * 0.55), size, True)]


def _place_name(lines: Lines, size: float, room: Room, frame: Frame, ground: Ground, shuns: Shuns) -> Placed | None:
    block = max(width(line, size, True) for line in lines) + 0.6, text_height(size) * len(lines)
    places = tuple(frame.mm(at) for at in frame.findings.rooms[room.id].label_at)
    within = path_bounds(polygon(*map(frame.mm, room.outline)))
    tried = round_the_middle(places, block, within)
    return place(ground, places[0], block, (one for one in tried if not shuns(around(one.centre, block))))


def _write(
    lines: Lines, size: float, found: Placed, subject: Subject, frame: Frame, ground: Ground, labels: Labels
) -> None:
    pitch = text_height(size)
    first = found.bounds[1] + (pitch + cap_height(size)) / 2
    words = (
        Text((found.centre[0], first + at * pitch), line, size, True, frame.theme.ink, "middle")
        for at, line in enumerate(lines)
    )
    ground.take(found.bounds)
    labels.spots.append((found.bounds, subject))
    labels.marks.append(Group(tuple(words), subject))
