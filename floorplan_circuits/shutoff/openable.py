"""Which boxes of a shut-off may be opened to be tested: not one that is live all the same, or that no handle is for."""

from collections.abc import Iterator

from floorplan_circuits.findings import BoxWhenOff, Findings, ShutOff
from floorplan_circuits.shutoff.handles import HANDLE_KINDS
from floorplan_circuits.shutoff.targets import entering, may_hang_on
from floorplan_circuits.supply.graph import supply_graph
from floorplan_circuits.supply.walks import reached
from floorplan_circuits.survey.log_book import LogBook


def stay_shut(plan: ShutOff, findings: Findings) -> tuple[BoxWhenOff, ...]:
    """Return the boxes that are not to be opened with these handles off, in the order in which they were chosen.

    A box stays shut if it is live all the same. It does too if it is treated as live and nothing in it is known to
    hang on a handle that is off: then no test there could tell why it reads dead, nor who may turn it on.
    """
    off = {handle for one in (*plan.off, *plan.keep_off) for handle in one.handles}
    behind = frozenset(_behind(off, findings))
    return tuple(
        one
        for one in plan.states
        if one.state == "live" or (one.state != "should be dead" and not _has_a_handle(one.box, behind, findings))
    )


def _behind(off: set[int], findings: Findings) -> Iterator[int]:
    """Yield the breakers that are off, and those behind a handle that is."""
    supplies = supply_graph(findings.home).supplies
    for breaker in findings.home.breakers.ids():
        above = {number for kind, number in reached(supplies, [("breaker", breaker)]) if kind in HANDLE_KINDS}
        if above & off:
            yield breaker


def _has_a_handle(box: int, behind: frozenset[int], findings: Findings) -> bool:
    """Tell whether something that enters the box is known or narrowed to breakers that are off, or behind one."""
    home, known = findings.home, findings.conclusions
    feeds = (known[feed] for feed in entering(home.boxes[box], LogBook(home)) if feed in known)
    return any(hangs and behind.issuperset(hangs) for hangs in (may_hang_on(one, home) for one in feeds))
