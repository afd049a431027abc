"""The ways in which the sheet of a shut-off may be set, from what reads best to what saves most room."""

from dataclasses import dataclass
from typing import Literal

MOST_PLAN, LEAST_PLAN, LOW_PLAN, LOWEST_PLAN = 80.0, 56.0, 48.0, 42.0
"""mm that the piece of the plan is wide and high at most, is high at least, and at least where that saves a page."""


@dataclass(frozen=True, slots=True)
class Way:
    """A way to set the sheet.

    `dense`: what goes dark runs on in place of a line a room. `picture`: the open box stands beside the plan, apart, or
    nowhere on the first page. `in_part`: of a panel only the rows that matter, which are `fewest` where what only stays
    off is named in place of its rows. `most_plan`: mm that the plan may be high. `is_tight`: lists stand where most
    finds place, else where there is most room.
    """

    dense: bool
    picture: Literal["none", "beside", "apart"] = "none"
    in_part: bool = False
    most_plan: float = MOST_PLAN
    is_tight: bool = False
    fewest: bool = False


WHOLE = Way(False)
"""The way that leaves nothing out."""
ONE_PAGE = (
    Way(True, "beside"),
    Way(True, "beside", False, LEAST_PLAN, True),
    Way(True, "apart", False, LEAST_PLAN, True),
    Way(True, "beside", True),
    Way(True, "beside", True, LEAST_PLAN, True),
    Way(True, "apart", True, MOST_PLAN, True),
    Way(True, "apart", True, LEAST_PLAN, True),
    Way(True, "beside", True, LEAST_PLAN, True, fewest=True),
    Way(True, "apart", True, LEAST_PLAN, True, fewest=True),
    Way(True, "beside", True, LOWEST_PLAN, True, fewest=True),
)
"""How one box may stand on one page: with the whole panel if it can be, then with the rows that matter."""
FIRST_PAGE = tuple(
    Way(True, "none", True, most_plan, True, fewest=fewest)
    for most_plan in (LEAST_PLAN, LOW_PLAN)
    for fewest in (False, True)
)
"""How all but the box with its plate off may stand on the first of two pages."""
