"""Shut-offs of the small houses of the survey's tests, and of homes with a hidden truth."""

from floorplan_circuits.find import find, shut_off
from floorplan_circuits.findings import ShutOff
from floorplan_circuits.home.home import Home
from floorplan_circuits.shutoff.choices import Board
from floorplan_circuits.shutoff.cut import Cut, nearest_cut
from floorplan_circuits.shutoff.dark import critical_among, places_of
from floorplan_circuits.shutoff.handles import Handles
from floorplan_circuits.shutoff.targets import Target, sharing_neutrals, targets, with_candidates
from floorplan_circuits.shutoff.wiring import Wiring
from floorplan_circuits.supply.graph import supply_graph
from floorplan_circuits.survey.cases import Evidence
from floorplan_circuits.survey.conclusions import conclude
from floorplan_circuits.survey.log_book import LogBook
from floorplan_circuits.survey.statements import statements
from tests.survey.houses import FEED, box_of


def plan_of(home: Home, *boxes: int) -> ShutOff:
    """The shut-off of these boxes; of the first one if none is named."""
    return shut_off(find(home), boxes or (box_of(FEED),))


def handles_off(plan: ShutOff) -> set[int]:
    """Every handle to be turned off."""
    return {handle for movement in plan.off for handle in movement.handles}


def bench(home: Home, *boxes: int) -> tuple[tuple[Target, ...], Board, Cut]:
    """The targets of boxes, what they are weighed by, and the cut."""
    record, graph = LogBook(home), supply_graph(home)
    known = conclude(home, graph, record, statements(home, graph), {}).conclusions
    wanted = targets(Evidence.of(home, graph, record), boxes, known, sharing_neutrals(home, known))
    supplies, handles = graph.supplies, Handles.of(home, record)
    wiring = Wiring.of(supplies, handles.resting).laid_over(with_candidates(supplies, wanted))
    board = Board(wiring, handles, critical_among(places_of(home)))
    return wanted, board, nearest_cut(wanted, wiring.supplies, handles)
