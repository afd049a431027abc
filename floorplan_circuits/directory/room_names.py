"""What a room is called on a panel's door: never after who lives there, and told from a namesake by floor or side."""

from collections import Counter
from collections.abc import Mapping

from floorplan_circuits.directory.vocabulary import folded, names_a_person
from floorplan_circuits.home.building import Room
from floorplan_circuits.home.home import Home


def names_of_rooms(home: Home) -> dict[int, str]:
    """Return a name for every room.

    NEC 408.4(A): no line may depend on who happens to live there. "Bobbie's room" is told by its use instead.
    """
    names = {room.id: _lasting(room) for room in home.rooms}
    twice = _namesakes(names)
    if not twice:
        return names
    levels = {level.id: level.name.strip() for level in home.levels}
    for room in home.rooms:
        level = levels.get(room.level, "")
        if room.id in twice and level:
            names[room.id] = f"{level} {_small(names[room.id])}"
    return names


def _lasting(room: Room) -> str:
    name = room.name.strip()
    if not names_a_person(name):
        return name
    return room.use.strip().capitalize() or "Room"


def _namesakes(names: Mapping[int, str]) -> set[int]:
    count = Counter(folded(name) for name in names.values())
    return {room for room, name in names.items() if count[folded(name)] > 1}


def _small(name: str) -> str:
    """Return a name as it stands inside a line; one that is capitals throughout stays so."""
    return name if name[1:2].isupper() else name[:1].lower() + name[1:]
