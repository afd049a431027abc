"""Small homes that the tests of edits start from, made by edits alone."""

from floorplan_circuits.edits.boxes import put_device
from floorplan_circuits.edits.breakers import add_breaker
from floorplan_circuits.edits.panels import add_panel
from floorplan_circuits.edits.rooms import add_room
from floorplan_circuits.edits.starting import new_home
from floorplan_circuits.edits.typed import read_typed
from floorplan_circuits.home.boxes import Control
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.log import Opened, Reading, Round
from floorplan_circuits.home.power import Source
from floorplan_circuits.home.record import Record, change

SQUARE = ((0, 0), (4000, 0), (4000, 3000), (0, 3000))


def house() -> Home:
    """A kitchen with three boxes (B1 and B2 receptacles, B3 a switch), and a panel of 8 spaces, 20 A in space 1."""
    home = new_home("House by the ford")
    level = home.levels.rows[0].id
    home = add_room(home, level, SQUARE, "Kitchen").home
    for x, kind in ((1000, "duplex receptacle"), (2000, "duplex receptacle"), (3000, "switch")):
        home = put_device(home, level, (x, 0), 90, kind).home
    home = add_panel(home, 8).home
    return add_breaker(home, home.panels.rows[0].id, 1, read_typed("20 kitchen plugs")).home


def level_of(home: Home) -> int:
    """The first level."""
    return home.levels.rows[0].id


def panel_of(home: Home) -> int:
    """The first panel."""
    return home.panels.rows[0].id


def box_of(home: Home, mark: str) -> int:
    """The box with this mark."""
    return next(box.id for box in home.boxes if box.mark == mark)


def device_of(home: Home, mark: str, place: int = 0) -> int:
    """A device in the box with this mark."""
    return home.boxes[box_of(home, mark)].devices[place].id


def feeds_in(home: Home, mark: str) -> list[int]:
    """The feeds of the box with this mark."""
    return [feed.id for feed in home.boxes[box_of(home, mark)].feeds()]


def breaker_at(home: Home, space: int) -> int:
    """The breaker whose first pole is in a space of the first panel."""
    return next(one.id for one in home.breakers if one.poles[0].space == space)


def typed_in(home: Home, space: int, words: str, panel: int | None = None) -> Home:
    """Type a breaker into a space."""
    return add_breaker(home, panel or panel_of(home), space, read_typed(words)).home


# --- what no edit makes yet -----------------------------------------------------------------------------------------


def with_row(home: Home, table: str, row: Record) -> Home:
    """Add a record that has the home's next id."""
    return change(home, **{table: getattr(home, table).put(row), "next_id": home.next_id + 1})


def grouped(home: Home, switch: int, feeds: list[int]) -> Home:
    """Put a switch and what it switches in one group that enters at the switch's box."""
    box = next(box.id for box in home.boxes for device in box.devices if device.id == switch)
    group = Control(id=home.next_id, name="light", switches=(switch,), feeds=tuple(feeds), enters=box)
    return with_row(home, "controls", group)


def supplied(home: Home, into: int) -> Home:
    """Let the utility reach a panel, a breaker or a feed."""
    return with_row(home, "sources", Source(id=home.next_id, name="utility", kind="utility", into=(into,)))


def read(home: Home, feeds: list[int], off: int) -> Home:
    """Log a round in which one breaker was off and these feeds were dead."""
    readings = tuple(Reading(feed=feed, says="dead") for feed in feeds)
    entry = Round(id=home.next_id, kind="round", off=(off,), readings=readings)
    return change(home, log=(*home.log, entry), next_id=home.next_id + 1)


def opened(home: Home, mark: str) -> Home:
    """Log that somebody looked in a box."""
    entry = Opened(id=home.next_id, kind="opened", box=box_of(home, mark))
    return change(home, log=(*home.log, entry), next_id=home.next_id + 1)
