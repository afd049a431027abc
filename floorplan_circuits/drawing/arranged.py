"""Where the names and labels of a plan came to stand, kept while nothing has changed that placing them depends on.

Flipping a breaker changes what plates tell, not where they stand: placing them anew would take most of the time.
"""

from collections.abc import Callable, Hashable, Mapping
from dataclasses import dataclass

from floorplan_circuits.drawing.crowding import Kept
from floorplan_circuits.drawing.ink import Mark
from floorplan_circuits.drawing.plan_labels import Labels
from floorplan_circuits.findings import Findings


@dataclass(frozen=True, slots=True)
class Arranged:
    """Names as they are written, and for each box that wants a label where it stands, None where it found no place.

    `told` says of every box in words what is in it: that doesn't change with handles either.
    """

    kept: Mapping[int, Kept | None]
    names: Labels
    words: tuple[Mark, ...]
    told: Mapping[int, str]


class Arrangement:
    """Remembers how the last plan was arranged. A plan drawn with it is the very plan that is drawn without."""

    def __init__(self) -> None:
        self._findings: Findings | None = None
        self._depends_on: Hashable = None
        self._last: Arranged | None = None

    def of(self, findings: Findings, depends_on: Hashable, arrange: Callable[[], Arranged]) -> Arranged:
        """Return the last arrangement if it is of these very findings and depends on the same, else a new one."""
        if self._last is None or self._findings is not findings or self._depends_on != depends_on:
            self._findings, self._depends_on, self._last = findings, depends_on, arrange()
        return self._last
