"""A surface that only collects: what was put on each page, for tests and for measuring."""

from dataclasses import dataclass, field

from floorplan_circuits.drawing.ink import Ink, Mark, Text, flat


@dataclass(slots=True)
class Collected:
    """One page: its size in mm and its marks in the order they were put down, groups undone."""

    width: float
    height: float
    marks: list[Mark] = field(default_factory=list)

    def words(self) -> list[str]:
        """Return all words on the page."""
        return [mark.words for mark in self.marks if isinstance(mark, Text)]


@dataclass(slots=True)
class CollectingSurface:
    """Keeps every page that is put on it."""

    pages: list[Collected] = field(default_factory=list)

    def page(self, width: float, height: float, ink: Ink) -> None:
        """Put one page of ink down."""
        self.pages.append(Collected(width, height, list(flat(ink))))
