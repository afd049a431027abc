"""The doors, windows and open ways of the third sample, drawn by hand: by walks, by drags along walls, by clicks.

A walk names the rooms it goes through, '' for outdoors; it goes by the doors and open ways of the sample, and the tool
puts one in each wall that is not open yet.
"""

from itertools import pairwise
from math import cos, hypot, radians, sin

from floorplan_circuits.findings import XY
from floorplan_circuits.geometry.wall_spots import is_inside
from floorplan_circuits.gestures.putting_openings import PutOpening
from floorplan_circuits.home.building import Opening
from floorplan_circuits.home.home import Home
from tests.gestures.hand import Hand

ASIDE_MM, PROBE_MM = 250, 150
GROUND_WALKS = (("", "Family room", "Living room", "Entry hall", ""), ("Passage", "Laundry", "Garage", ""))
UPPER_WALKS = (
    ("Main bathroom", "Main bedroom", "Landing", "Bedroom 2"),
    ("Landing", "Upper hall", "Bedroom 4", "Upper hall", "Bedroom 3", "Upper hall", "Sewing room"),
)
BASEMENT_WALK = ("Workshop", "Recreation room", "Furnace room", "Recreation room", "Exercise room")
WAYS = ("Living room", "Entry hall", "Passage", "Kitchen", "Passage", "Laundry")


class Opener:
    """A hand with openings, the sample they are drawn after, and what its levels are called in the drawing."""

    def __init__(self, sample: Home, hand: Hand, levels: dict[int, int]) -> None:
        self.sample, self.hand, self.levels = sample, hand, levels

    def take(self, kind: str) -> None:
        """Take another kind in hand."""
        self.hand.tool = PutOpening(kind)
        self.hand.gestures += 1

    def width(self, width: int) -> None:
        """Type a width for those that come."""
        self.hand.type(f"{width} mm")
        self.hand.key("enter")
        self.hand.gestures += 1

    def click(self, one: Opening) -> None:
        """Click where an opening is."""
        self.hand.level = self.levels[one.level]
        self.hand.click(_beside(one, 40))

    def span(self, one: Opening) -> None:
        """Drag from one jamb to the other."""
        self.hand.level = self.levels[one.level]
        (x, y), along = one.at, radians(one.angle + 90)
        dx, dy = cos(along) * one.width / 2, sin(along) * one.width / 2
        self.hand.drag((x - dx, y - dy), (x + dx, y + dy))

    def along(self, first: Opening, last: Opening) -> None:
        """Drag along a wall from before the middle of one room's wall to past the middle of another's."""
        self.hand.level = self.levels[first.level]
        (ax, ay), (bx, by) = first.at, last.at
        far = hypot(bx - ax, by - ay)
        ux, uy = (bx - ax) / far * 400, (by - ay) / far * 400
        self.hand.drag((ax - ux, ay - uy), (bx + ux, by + uy))

    def walk(self, level: str, *rooms: str) -> None:
        """Drag through rooms, each by the one opening that leads there."""
        found = next(one.id for one in self.sample.levels if one.name == level)
        self.hand.level = self.levels[found]
        path: list[XY] = []
        for start, end in pairwise(rooms):
            one = next(one for one in self.sample.openings if one.level == found and one.kind != "window"
                       and set(self._sides(one)) == {start, end} and one.width < 2000)  # fmt: skip
            here = _beside(one, ASIDE_MM) if self._sides(one)[0] == start else _beside(one, -ASIDE_MM)
            there = _beside(one, -ASIDE_MM) if self._sides(one)[0] == start else _beside(one, ASIDE_MM)
            path += (here, there)
        self.hand.gestures += 1
        self.hand.press(path[0])
        for at in path[1:]:
            self.hand.move(at)
        self.hand.let_go(path[-1])

    def _sides(self, one: Opening) -> tuple[str, str]:
        return self._room(one, _beside(one, PROBE_MM)), self._room(one, _beside(one, -PROBE_MM))

    def _room(self, one: Opening, at: XY) -> str:
        rooms = (room for room in self.sample.rooms if room.level == one.level and is_inside(at, room.outline))
        return next((room.name for room in rooms), "")

    def of(self, kind: str, *widths: int) -> list[Opening]:
        """The openings of a kind, of these widths or of all."""
        return [one for one in self.sample.openings if one.kind == kind and (not widths or one.width in widths)]


def exactly(opener: Opener) -> None:
    """Draw all as wide as they are: by a drag from jamb to jamb, and walks for those of one width."""
    opener.take("open way")
    for one in opener.of("open way", 1016, 1219, 1524):
        opener.span(one)
    opener.walk("Ground floor", *WAYS)
    opener.take("door")
    for one in opener.of("door", 711, 762, 4877):
        opener.span(one)
    opener.walk("Basement", *BASEMENT_WALK)
    for walk in UPPER_WALKS:
        opener.walk("Upper floor", *walk)
    opener.span(next(one for one in opener.of("door", 813) if one.at == (11887, 5182)))
    opener.width(914)
    for walk in GROUND_WALKS:
        opener.walk("Ground floor", *walk)
    opener.take("window")
    for one in opener.of("window"):
        opener.span(one)


def as_usual(opener: Opener) -> None:
    """Draw all as wide as is usual, windows in the middle of a room's wall where that is nearly their place."""
    opener.take("open way")
    opener.walk("Upper floor", "Landing", "Upper hall")
    opener.walk("Ground floor", "Dining room", "Passage", "Laundry", "Passage", "Kitchen", "Passage", "Entry hall",
                "Living room", "Family room", "Kitchen")  # fmt: skip
    opener.take("door")
    opener.span(opener.of("door", 4877)[0])
    opener.walk("Basement", "Workshop", "Recreation room", "Exercise room", "Recreation room", "Furnace room", "Store")
    opener.walk("Upper floor", *UPPER_WALKS[0], *UPPER_WALKS[1], "Upper hall", "Bathroom")
    opener.walk("Ground floor", *GROUND_WALKS[0])
    opener.walk("Ground floor", "Study", "Passage", "Laundry", "Powder room", "Laundry", "Garage", "")
    opener.take("window")
    rows = {one.id: one for one in opener.of("window")}
    for row in _rows(list(rows.values())):
        opener.along(row[0], row[-1])
        for one in row:
            del rows[one.id]
    for one in rows.values():
        opener.click(one)


def _rows(windows: list[Opening]) -> list[list[Opening]]:
    """Windows of one face of the house that stand in the middle of their rooms' walls, or nearly, two or more."""
    faces: dict[tuple[int, int, int], list[Opening]] = {}
    for one in windows:
        across = one.at[1] if one.angle % 180 == 90 else one.at[0]
        if one.at not in OFF_THE_MIDDLE:
            faces.setdefault((one.level, one.angle, across), []).append(one)
    return [sorted(face, key=lambda one: one.at) for face in faces.values() if len(face) > 1]


OFF_THE_MIDDLE = {(1219, 0), (20117, 5181), (10821, 0)}


def _beside(one: Opening, far: float) -> XY:
    (x, y), turn = one.at, radians(one.angle)
    return x + far * cos(turn), y + far * sin(turn)
