"""Words that several hazards use: the place of a box, the circuits that enter, devices, small numbers."""

from collections.abc import Mapping, Sequence

from floorplan_circuits.findings import BoxFinding
from floorplan_circuits.home.boxes import Device
from floorplan_circuits.home.home import FeedPlace
from floorplan_circuits.home.kinds import kind_named

SMALL = ("none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


def number(count: int) -> str:
    """Return a small number as a word.

    Examples:
        >>> number(1), number(10), number(11)
        ('one', 'ten', '11')
    """
    return SMALL[count] if 0 <= count < len(SMALL) else str(count)


def listed(words: Sequence[str]) -> str:
    """Join words as a person says them; nothing for none.

    Examples:
        >>> listed([]), listed(["5"]), listed(["5", "7"]), listed(["5", "7", "9"])
        ('', '5', '5 and 7', '5, 7 and 9')
    """
    *most, last = words or ("",)
    return f"{', '.join(most)} and {last}" if most else last


def place_of(found: BoxFinding) -> str:
    """Return where the box is, as well as anybody recorded it."""
    return found.room_name or (f"{found.level_name}, in no room" if found.level_name else "Not placed yet")


def numbers(breakers: Sequence[int], marks: Mapping[int, str]) -> str:
    """Return breakers by their numbers: 'circuit 5', 'circuits 5 and 15A'; nothing for none."""
    return f"circuit{'s' if len(breakers) > 1 else ''} {listed([marks[one] for one in breakers])}" if breakers else ""


def other_supply(words: str) -> str:
    """Return a supply that is no breaker, as a part of a sentence.

    Examples:
        >>> other_supply("elsewhere: the neighbour"), other_supply("source: Solar"), other_supply("elsewhere")
        ('a supply from elsewhere (the neighbour)', 'the source Solar', 'a supply from elsewhere')
    """
    kind, _, name = (part.strip() for part in words.partition(":"))
    if kind == "elsewhere":
        return f"a supply from elsewhere ({name})" if name else "a supply from elsewhere"
    if kind == "source":
        return f"the source {name}" if name else "a source without a name"
    return words


def circuits(found: BoxFinding, marks: Mapping[int, str]) -> str:
    """Return all that enters, such as 'circuits 5 and 15A', other supplies after them."""
    on_panel = numbers(found.breakers, marks)
    return listed([*([on_panel] if on_panel else []), *map(other_supply, found.others)])


def device_called(device: Device) -> str:
    """Return a device as a person points at it in its box: 'the receptacle', 'the receptacle ‘sump pump’'."""
    label = kind_named(device.kind).label
    return f"the {label} ‘{device.name}’" if device.name else f"the {label}"


def thing_called(place: FeedPlace) -> str:
    """Return what a feed supplies, as a person points at it: a device or the cable that passes through."""
    return "the cable that passes through" if place.device is None else device_called(place.device)
