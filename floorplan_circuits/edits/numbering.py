"""New ids and new marks: from the home's counter, and the next box mark that no paper ever had."""

import re
from dataclasses import dataclass

from floorplan_circuits.home.home import Home

_MARK = re.compile(r"^B(\d{1,6})$", re.ASCII)


@dataclass(slots=True)
class Counter:
    """Hands out ids of a home within one edit; `next_id` goes into the new home."""

    next_id: int

    def new(self) -> int:
        """Return an id that was never used."""
        self.next_id += 1
        return self.next_id - 1


def counter(home: Home) -> Counter:
    """Return the home's counter."""
    return Counter(home.next_id)


def marks_given(home: Home) -> int:
    """Return the highest number that any box's mark has or ever had, as far as the home can tell."""
    numbers = [int(found[1]) for box in home.boxes if (found := _MARK.match(box.mark))]
    return max([home.marks_given, *numbers])


def next_mark(home: Home, after: int = 0) -> str:
    """Return the next mark for a box: one past the highest that was ever handed out, and `after` more.

    Marks are never reused: they are on paper for years. The highest ever given is kept in the home.
    """
    return f"B{marks_given(home) + 1 + after}"
