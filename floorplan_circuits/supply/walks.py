"""Walks over a graph kept as plain dicts: quick enough to be asked for every breaker of a home."""

from collections.abc import Iterable, Iterator, Mapping

Node = tuple[str, int]
"""A kind and an id, such as ('breaker', 5)."""

Follows = Mapping[Node, Iterable[Node]]


def walk(follows: Follows, start: Iterable[Node], closed: frozenset[Node] = frozenset()) -> Iterator[Node]:
    """Yield each node that can be reached from `start`, those included, once, without entering a closed one."""
    todo = [node for node in dict.fromkeys(start) if node not in closed]
    seen = set(todo)
    while todo:
        at = todo.pop()
        yield at
        for node in follows.get(at, ()):
            if node not in seen and node not in closed:
                seen.add(node)
                todo.append(node)


def reached(follows: Follows, start: Iterable[Node], closed: frozenset[Node] = frozenset()) -> set[Node]:
    """Return all nodes that can be reached from `start`, those included, without entering a closed one.

    Examples:
        >>> sorted(reached({("bus", 1): [("breaker", 2)]}, [("bus", 1)]))
        [('breaker', 2), ('bus', 1)]
        >>> reached({("bus", 1): [("breaker", 2)]}, [("bus", 1)], frozenset({("bus", 1)}))
        set()
    """
    return set(walk(follows, start, closed))
