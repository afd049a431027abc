"""Words that several hazards use: the place of a box, the circuits that enter, small numbers."""

from collections.abc import Mapping, Sequence

from floorplan_circuits.findings import BoxFinding

SMALL = ("none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


def number(count: int) -> str:
    """Return a small number as a word.

    Examples:
        >>> number(1), number(10), number(11)
        ('one', 'ten', '11')
    """
    return SMALL[count] if count < len(SMALL) else str(count)


def listed(words: Sequence[str]) -> str:
    """Join words as a person says them.

    Examples:
        >>> listed(["5"]), listed(["5", "7"]), listed(["5", "7", "9"])
        ('5', '5 and 7', '5, 7 and 9')
    """
    *most, last = words
    return f"{', '.join(most)} and {last}" if most else last


def place_of(found: BoxFinding) -> str:
    """Return where the box is, as well as anybody recorded it."""
    return found.room_name or (f"{found.level_name}, in no room" if found.level_name else "Not placed yet")


def circuits(found: BoxFinding, marks: Mapping[int, str]) -> str:
    """Return the circuits that enter, such as 'circuits 5 and 15A'; other supplies in words."""
    numbers = [marks[breaker] for breaker in found.breakers]
    words = [*numbers, *found.others]
    return f"{'circuits' if len(numbers) > 1 else 'circuit'} {listed(words)}" if numbers else listed(words)
