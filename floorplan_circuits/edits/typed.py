"""What is typed down a panel's column: the size of a breaker in a few signs, then its old label."""

import re
from typing import NamedTuple


class Typed(NamedTuple):
    """What somebody typed for one space: rating, poles, whether it is a fuse, halves, and the old label."""

    amps: int | None
    poles: int
    fuse: bool
    halves: int
    label: str


_SIZE = re.compile(r"^(\d{1,4})\s?(?:a(?!\w))?(?:\s?/\s?([1-4]|t))?\s?(f|fuse)?(?=\s|$)\s*", re.IGNORECASE | re.ASCII)


def read_typed(words: str) -> Typed:
    """Read what is typed down the panel's column: `20 kitchen plugs`, `30/2 dryer`, `15/t` (two in one space), `15f`.

    A number that is part of a word is a label, not a size.

    Examples:
        >>> read_typed("30/2 dryer")
        Typed(amps=30, poles=2, fuse=False, halves=1, label='dryer')
        >>> read_typed("15/t hall lights").halves, read_typed("spare").label
        (2, 'spare')
        >>> read_typed("2nd floor").label
        '2nd floor'
    """
    tidy = " ".join(words.split())
    found = _SIZE.match(tidy)
    if found is None:
        return Typed(None, 1, False, 1, tidy)
    amps, way, fuse = found.groups()
    tandem = (way or "").lower() == "t"
    poles = 1 if way is None or tandem else int(way)
    return Typed(int(amps), poles, bool(fuse), 2 if tandem else 1, tidy[found.end() :])
