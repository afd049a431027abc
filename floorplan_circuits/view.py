"""`View`: what the person looks at and holds in hand. Never saved with the home, never in undo."""

from dataclasses import dataclass, replace
from typing import Self

from floorplan_circuits.findings import XY, Layer, Subject


@dataclass(frozen=True, slots=True)
class Draft:
    """What is drawn while a gesture goes on, in house mm: lines, a marquee, a symbol to be put, words beside it."""

    lines: tuple[tuple[XY, ...], ...] = ()
    marquee: tuple[XY, XY] | None = None
    symbol: str = ""
    at: XY = (0.0, 0.0)
    angle: int = 0
    joins: bool = False
    words: str = ""


@dataclass(frozen=True, slots=True)
class View:
    """The level shown, what is selected, and the draft of the gesture that goes on.

    `layer` is what the floor is divided by, `only` the one breaker that is shown alone. Zoom is the canvas's `Camera`.
    `picked` are the boxes chosen to be opened, `flipped` the handles that are off on the screen alone: nothing is
    turned in the home, and nothing of it is ever written down. `switching`: what each switch works is drawn.
    """

    level: int | None = None
    layer: Layer = "both"
    only: int | None = None
    selected: tuple[Subject, ...] = ()
    draft: Draft | None = None
    picked: tuple[int, ...] = ()
    flipped: frozenset[int] = frozenset()
    switching: bool = False

    def with_changes(self, **fields: object) -> Self:
        """Return a copy with `fields` replaced."""
        return replace(self, **fields)  # type: ignore[arg-type]  # dataclasses check the names at run time
