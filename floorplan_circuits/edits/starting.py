"""Starting a home from nothing: one level, one panel still to be set up."""

from floorplan_circuits.edits.rooms import add_level
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.lengths import Units


def new_home(name: str = "New home", units: Units = "metric") -> Home:
    """Return an empty home with its ground floor."""
    return add_level(Home(name=name, units=units), "Ground floor", 0).home
