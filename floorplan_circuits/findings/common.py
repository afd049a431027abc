"""What all findings share: the standings, the layers, places, and what a mark is about."""

from typing import Literal, NamedTuple

Standing = Literal["unknown", "claimed", "suggested", "traced", "proved", "expired", "contradicted"]
Layer = Literal["receptacles", "lights", "both"]
"""What the floor is divided by."""
XY = tuple[float, float]


class Subject(NamedTuple):
    """What a mark on the picture or a line in a list is about."""

    kind: str
    id: int
