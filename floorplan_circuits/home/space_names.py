"""What a space of a panel is called: its number, its householder's own, or a way and its phase (1L1)."""

from floorplan_circuits.home.power import Panel

WAYS_ODD_LEFT = "ways of three, odd left, even right"
WAYS_DOWN = "ways of three, down one side, then the other"
IN_WAYS = (WAYS_ODD_LEFT, WAYS_DOWN)
"""Numberings by ways, each of three phases one below the other: L1, L2, L3."""
PHASES = 3


def is_in_ways(panel: Panel) -> bool:
    """Tell whether a panel counts ways of three phases."""
    return panel.numbering in IN_WAYS


def way_of(space: int) -> tuple[int, int]:
    """Return the way of a space and its phase, both counted from 1.

    Examples:
        >>> way_of(1), way_of(3), way_of(4)
        ((1, 1), (1, 3), (2, 1))
    """
    way, phase = divmod(space - 1, PHASES)
    return way + 1, phase + 1


def space_name(panel: Panel | None, space: int) -> str:
    """Return what a space is called on its panel, without the panel's letter.

    Examples:
        >>> space_name(None, 5), space_name(Panel(id=1, name="Board", spaces=24, numbering=WAYS_DOWN), 5)
        ('5', '2L2')
    """
    if panel is not None and (own := panel.called[space - 1 : space]) and own[0]:
        return own[0]
    if panel is None or not is_in_ways(panel):
        return str(space)
    way, phase = way_of(space)
    return f"{way}L{phase}"


def spaces_called(panel: Panel, words: str) -> list[int] | None:
    """Return the spaces that names stand for, a mark between two: '5', '2-4', '1L1-L2-L3'; None for what is no name.

    Examples:
        >>> spaces_called(Panel(id=1, name="Board", spaces=24, numbering=WAYS_DOWN), "2L1-L2")
        [4, 5]
    """
    by_name = {space_name(panel, space): space for space in range(1, panel.spaces + 1)}
    found: list[int] = []
    way = ""
    for name in words.split("-"):
        full = name if name in by_name else f"{way}{name}"
        if full not in by_name:
            return None
        found.append(by_name[full])
        way = full.split("L", maxsplit=1)[0]
    return found
