"""Power that runs back: where two supplies meet, either can make the other's conductors live from behind.

A loop between two breakers keeps both circuits live while one breaker is off; a generator plugged into a receptacle
makes its circuit live, and through the closed breaker the whole panel. Common practice, no source.
"""

from collections.abc import Iterable, Iterator, Mapping

from floorplan_circuits.supply.walks import Node, walk

Edge = tuple[Node, Node]
Above = dict[Node, dict[Node, None]]


def running_back(
    supplies: Mapping[Node, Iterable[Node]], roots: frozenset[Node], one_way: frozenset[Node] = frozenset()
) -> list[Edge]:
    """Return the edges, lower end first, along which power can also run up from the load.

    It runs from a node up to one that supplies it where some root supplies the lower one without the upper: so up to
    where all supplies of a loop have a common origin, and to the very roots where they have none. Into `one_way`
    nodes it only runs down: panels that change over between their supplies.
    """
    above: Above = {node: dict.fromkeys(givers) for node, givers in supplies.items()}
    joins = [node for node, givers in above.items() if len(givers) > 1 and node not in one_way]
    added: list[Edge] = []
    while fresh := [edge for node in joins for edge in _up_from(node, above, roots)]:
        added += fresh
        for node, giver in fresh:
            above.setdefault(giver, {})[node] = None
        joins = list(dict.fromkeys([*joins, *(giver for _, giver in fresh if giver not in one_way)]))
    return added


def _up_from(node: Node, above: Above, roots: frozenset[Node]) -> Iterator[Edge]:
    for giver in above.get(node, ()):
        runs_already = node in above.get(giver, ())
        if giver not in roots and not runs_already and _supplied_without(giver, node, above, roots):
            yield node, giver


def _supplied_without(giver: Node, node: Node, above: Above, roots: frozenset[Node]) -> bool:
    return any(one in roots for one in walk(above, [node], frozenset({giver})))
