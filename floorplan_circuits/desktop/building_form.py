"""The form of a door, a window, an open way or a flight of stairs; and how large a room is, in a line."""

from collections.abc import Callable

from floorplan_circuits.desktop.fields import Choice
from floorplan_circuits.desktop.form_page import FormPage
from floorplan_circuits.desktop.session import Session
from floorplan_circuits.edits.edited import Edited, Refused
from floorplan_circuits.edits.levels import ranked_levels
from floorplan_circuits.edits.openings import set_opening, turn_over
from floorplan_circuits.edits.stairs import set_stair
from floorplan_circuits.findings import Subject
from floorplan_circuits.home.building import Opening, Room, Stair
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.insides import inside_area
from floorplan_circuits.home.lengths import NotALength, Units, parse_length, show_area, show_length

KINDS = ("door", "window", "open way")
NOWHERE = "no level yet"

Edit = Callable[[Home], Edited]


def building_row(home: Home, subject: Subject) -> Opening | Stair | None:
    """Return the opening or the stairs that a subject is; None for anything else."""
    if subject.kind == "opening":
        return home.openings.get(subject.id)
    return home.stairs.get(subject.id) if subject.kind == "stair" else None


def size_of(room: Room, units: Units, wall: int = 0) -> str:
    """Return how large a room is over all, and its area, between walls of this thickness in mm.

    Examples:
        >>> size_of(Room(id=1, level=1, name="", outline=((0, 0), (4120, 0), (4120, 3120), (0, 3120))), "metric", 120)
        '4.00 m × 3.00 m, 12.0 m²'
    """
    xs, ys = [x for x, _ in room.outline], [y for _, y in room.outline]
    wide, deep = (show_length(max(0, max(values) - min(values) - wall), units) for values in (xs, ys))
    return f"{wide} × {deep}, {show_area(inside_area(room.outline, wall), units)}"


class BuildingForm(FormPage):
    """Tells of one opening or flight of stairs, and changes it."""

    def __init__(self, session: Session, row: Opening | Stair) -> None:
        super().__init__()
        self._session = session
        if isinstance(row, Opening):
            self._opening(row, session.home.units)
        else:
            self._stair(row, session.home)

    def _opening(self, row: Opening, units: Units) -> None:
        self._words(row.kind.capitalize(), "section")
        form = self._form()
        kind = Choice("Kind", KINDS, row.kind, narrow=True)
        kind.textActivated.connect(lambda words: self._attempt(lambda home: set_opening(home, row.id, kind=words)))
        form.addRow("Kind", kind)
        self._line(form, "Width", show_length(row.width, units), lambda words: _wide(row, words, units))
        if row.kind == "door":
            self._button("Hang it the other way", lambda: self._attempt(lambda home: turn_over(home, row.id)))

    def _stair(self, row: Stair, home: Home) -> None:
        self._words("Stairs", "section")
        form = self._form()
        levels = {level.name: level.id for level in ranked_levels(home) if level.id != row.level}
        now = next((name for name, number in levels.items() if number == row.head), NOWHERE)
        head = Choice("Lead to", [NOWHERE, *levels], now, narrow=True)
        head.textActivated.connect(
            lambda words: self._attempt(lambda home: set_stair(home, row.id, head=levels.get(words)))
        )
        form.addRow("Lead to", head)
        for label, field in (("Length", "run"), ("Width", "width")):
            shown = show_length(getattr(row, field), home.units)
            self._line(form, label, shown, lambda words, field=field: _sized(row, field, words, home.units))  # type: ignore[misc]  # `field` is bound


def _wide(row: Opening, words: str, units: Units) -> Edit:
    return lambda home: set_opening(home, row.id, width=length_typed(words, units))


def _sized(row: Stair, field: str, words: str, units: Units) -> Edit:
    return lambda home: set_stair(home, row.id, **{field: length_typed(words, units)})


def length_typed(words: str, units: Units) -> int:
    """Read a length that was typed. Raises `Refused` in words for anything else."""
    try:
        return parse_length(words, units)
    except NotALength as error:
        raise Refused(f"{error}.") from error
