"""Who draws the plan of a page at the scales it is asked for: one level, or all levels side by side."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import chain
from typing import Protocol

from floorplan_circuits.drawing.ink import Bounds, Group, Mark, Text, moved
from floorplan_circuits.drawing.lettering import width
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.plan import Plan, plan
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.building import Level
from floorplan_circuits.sheets.furniture import SECTION_SIZE
from floorplan_circuits.sheets.paper import Rect

SCALES = (50, 60, 75, 90, 100, 125, 150, 175, 200, 250, 300, 400, 500, 750, 1000, 2000, 5000)
NAME_HIGH, BETWEEN = 6.0, 6.0
"""mm that a level's name takes over its plan, and between the plans of two levels."""


class Draws(Protocol):
    """What a page asks of whoever draws its plan."""

    @property
    def findings(self) -> Findings:
        """What is drawn."""
        ...

    @property
    def magnify(self) -> float:
        """How many times larger the page is printed than it is laid out."""
        ...

    @property
    def theme(self) -> Theme:
        """The colours."""
        ...

    def least_scale(self, area: Rect) -> float:
        """Return the first scale at which the walls alone fit: no larger plan is worth a try."""
        ...

    def largest(self, area: Rect, most: float | None = None) -> Plan | None:
        """Return the largest plan that fits; None once its scale would be over `most`."""
        ...


@dataclass(slots=True)
class Drawer:
    """Draws a level at the scales that are asked for, each once; the boxes in `pale` without their labels.

    `switching` adds what each switch works.
    """

    findings: Findings
    level: Level
    magnify: float
    theme: Theme
    pale: frozenset[int] = frozenset()
    switching: bool = False
    _plans: dict[float, Plan] = field(default_factory=dict)
    _extent: tuple[float, float] | None = None

    def largest(self, area: Rect, most: float | None = None) -> Plan | None:
        """Return the largest plan that fits; None once its scale would be over `most`."""
        least = self.least_scale(area)
        for full in (scale * self.magnify for scale in SCALES):
            if most is not None and full > most:
                return None
            if full >= least and fits_in(self.drawn(full), area):
                return self.drawn(full)
        return self.drawn(SCALES[-1] * self.magnify)

    def least_scale(self, area: Rect) -> float:
        """Return the first scale at which the walls alone fit: no larger plan is worth a try."""
        wide, high = self.extent()
        scales = (scale * self.magnify for scale in SCALES)
        fitting = (scale for scale in scales if wide / scale <= area.width and high / scale <= area.height)
        return next(fitting, SCALES[-1] * self.magnify)

    def extent(self) -> tuple[float, float]:
        """Return how wide and how high the walls are, in house mm."""
        if self._extent is None:
            ends = [end for wall in self.findings.walls if wall.level == self.level.id for end in (wall.a, wall.b)]
            xs, ys = [x for x, _ in ends], [y for _, y in ends]
            self._extent = (max(xs) - min(xs), max(ys) - min(ys)) if ends else (0.0, 0.0)
        return self._extent

    def drawn(self, scale: float) -> Plan:
        """Return the plan at a scale in house mm a mm of the layout."""
        if scale not in self._plans:
            self._plans[scale] = plan(
                self.findings, self.level.id, scale, self.theme, pale=self.pale, switching=self.switching
            )
        return self._plans[scale]


def fits_in(drawn: Plan, area: Rect) -> bool:
    """Tell whether a plan is no larger than an area."""
    left, top, right, bottom = drawn.bounds
    return right - left <= area.width and bottom - top <= area.height


# --- all levels at one scale ----------------------------------------------------------------------------------------

Size = tuple[float, float]
Places = list[tuple[float, float]]


@dataclass(slots=True)
class LevelsDrawer:
    """Draws all levels at one scale, the lowest first, each under its name, in rows of equally many."""

    levels: Sequence[Drawer]
    _joined_before: dict[tuple[float, int], Plan] = field(default_factory=dict)

    @property
    def findings(self) -> Findings:
        """What is drawn."""
        return self.levels[0].findings

    @property
    def magnify(self) -> float:
        """How many times larger the page is printed than it is laid out."""
        return self.levels[0].magnify

    @property
    def theme(self) -> Theme:
        """The colours."""
        return self.levels[0].theme

    def largest(self, area: Rect, most: float | None = None) -> Plan | None:
        """Return the largest plan that fits; None once its scale would be over `most`."""
        least = self.least_scale(area)
        for full in (scale * self.magnify for scale in SCALES):
            if most is not None and full > most:
                return None
            if full >= least and (found := self._together(full, area)) is not None:
                return found
        return self._together(SCALES[-1] * self.magnify, None)

    def least_scale(self, area: Rect) -> float:
        """Return the first scale at which the walls alone fit."""
        scales = (scale * self.magnify for scale in SCALES)
        return next((scale for scale in scales if self._walls_fit(scale, area)), SCALES[-1] * self.magnify)

    def _walls_fit(self, scale: float, area: Rect) -> bool:
        sizes = [(wide / scale, high / scale + NAME_HIGH) for wide, high in (one.extent() for one in self.levels)]
        return any(_within(_taken(sizes, columns), area) for columns in range(1, len(sizes) + 1))

    def _together(self, scale: float, area: Rect | None) -> Plan | None:
        """Return the levels in the first number of columns that fits the area; None for none. No area: one column."""
        drawn = [one.drawn(scale) for one in self.levels]
        sizes = [_framed(one.bounds, level.level.name) for one, level in zip(drawn, self.levels, strict=True)]
        for columns in range(1, len(drawn) + 1):
            if area is None or _within(_taken(sizes, columns), area):
                if (scale, columns) not in self._joined_before:  # many layouts ask for the same
                    together = self._joined(drawn, _places(sizes, columns), _taken(sizes, columns), scale)
                    self._joined_before[scale, columns] = together
                return self._joined_before[scale, columns]
        return None

    def _joined(self, drawn: Sequence[Plan], places: Places, taken: Size, scale: float) -> Plan:
        marks: list[Mark] = []
        for one, (x, y), level in zip(drawn, places, self.levels, strict=True):
            left, top, _, _ = one.bounds
            marks.append(Text((x, y + 4.0), level.level.name, SECTION_SIZE, True, self.theme.ink))
            marks.append(moved(one.ink, x - left, y + NAME_HIGH - top))
        return Plan(
            Group(tuple(marks)),
            (0.0, 0.0, *taken),
            tuple(chain.from_iterable(one.spots for one in drawn)),
            tuple(chain.from_iterable(_keys(drawn, self.levels))),
            tuple(chain.from_iterable(one.not_placed for one in drawn)),
            scale,
            tuple(chain.from_iterable(one.listed for one in drawn)),
        )


def _keys(drawn: Sequence[Plan], levels: Sequence[Drawer]) -> Iterator[tuple[tuple[str, str], ...]]:
    """Yield what key letters stand for, with the level, since each begins with a."""
    for one, level in zip(drawn, levels, strict=True):
        yield tuple((f"{level.level.name} {key}", name) for key, name in one.keys)


def _framed(bounds: Bounds, name: str) -> Size:
    left, top, right, bottom = bounds
    return max(right - left, width(name, SECTION_SIZE, True)), bottom - top + NAME_HIGH


def _rows(sizes: Sequence[Size], columns: int) -> list[Sequence[Size]]:
    return [sizes[at : at + columns] for at in range(0, len(sizes), columns)]


def _column_widths(sizes: Sequence[Size], columns: int) -> list[float]:
    return [max(wide for wide, _ in sizes[at::columns]) for at in range(min(columns, len(sizes)))]


def _taken(sizes: Sequence[Size], columns: int) -> Size:
    widths, rows = _column_widths(sizes, columns), _rows(sizes, columns)
    high = sum(max(tall for _, tall in row) for row in rows)
    return sum(widths) + BETWEEN * (len(widths) - 1), high + BETWEEN * (len(rows) - 1)


def _places(sizes: Sequence[Size], columns: int) -> Places:
    """Return the top left corner of each level, row by row."""
    widths, places, y = _column_widths(sizes, columns), Places(), 0.0
    for row in _rows(sizes, columns):
        places += [(sum(widths[:at]) + BETWEEN * at, y) for at in range(len(row))]
        y += max(tall for _, tall in row) + BETWEEN
    return places


def _within(size: Size, area: Rect) -> bool:
    return size[0] <= area.width and size[1] <= area.height
