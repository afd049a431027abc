"""Two-storey house at Larch Hill: invented, North American, basement, garage, 40 spaces and 8 in the garage."""

from floorplan_circuits.home.home import Home

from .builder import Builder  # relative: packaged with the program
from .house_basement import basement
from .house_circuits import panels
from .house_ground import garage, ground_floor
from .house_log import keep_log
from .house_rooms import draw
from .house_upper import upper_floor


def build() -> Home:
    """Return the house."""
    home = Builder("Two-storey house at Larch Hill", units="feet and inches", system="split-phase 120/240")
    house = draw(home)
    circuits = panels(home, house.basement.furnace_room, house.ground.garage)
    stairs = ground_floor(home, house.ground, circuits)
    garage(home, house.ground.garage, circuits)
    upper_floor(home, house.upper, circuits, stairs.up)
    basement(home, house.basement, circuits, stairs.down)
    keep_log(home, circuits)
    return home.home()
