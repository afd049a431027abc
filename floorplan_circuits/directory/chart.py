"""What a chart tells of each circuit where BS 7671 514.9.1 is followed: points served, sizes, protection.

The list is that of a home on one phase. For a simple home a circuit-and-test schedule fixed by the board is taken to
be enough, so what is missing here is advice.
"""

from collections import Counter
from collections.abc import Iterator, Sequence

from floorplan_circuits.findings import Load, Verdict
from floorplan_circuits.home.power import Breaker

SOURCE = "BS 7671 514.9.1, 18th edition"


def chart_verdicts(breaker: Breaker, line: str, loads: Sequence[Load]) -> Iterator[Verdict]:
    """Yield one verdict that names all that the record lacks for this circuit; none where nothing is lacking."""
    lacking = [words for words, is_there in _list(breaker) if not is_there]
    if not loads or not lacking:
        return
    yield Verdict(
        "chart",
        line,
        f"Serves {points_served(loads)}. Not recorded: {', '.join(lacking)}.",
        "Fill in what you can read. A circuit-and-test schedule by the board does it too.",
        SOURCE,
        soft=True,
    )


def _list(breaker: Breaker) -> Iterator[tuple[str, bool]]:
    yield "rating of its device", breaker.amps is not None
    yield "size of conductors", bool(breaker.conductor.size.strip())
    yield "kind of wiring", breaker.conductor.metal != "not known"
    yield "residual-current protection", bool(breaker.protects) or breaker.behind is not None


def points_served(loads: Sequence[Load]) -> str:
    """Return what the circuit serves, counted: '5 receptacles, 1 ceiling light'."""
    count = Counter(
        (load.called if load.group == "appliance" else load.kind, load.plural)
        for load in loads
        if load.group != "switch"
    )
    return ", ".join(f"1 {one}" if times == 1 else f"{times} {many}" for (one, many), times in count.items())
