"""One danger."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Hazard:
    """One danger: one plain sentence what it is, why it matters, what to do, and where the rule stands.

    `box` is None where it is about a panel, breakers, a source or several boxes; `named` is what to look for in any
    case: B14, breaker 15A, Main panel, 3 boxes. `about` are the ids of all it is about, which setting it aside names.
    `listed`: it stands in the list of the whole home; if not, it is told with its box alone. `set_aside`: the day and
    the reason of whoever set it aside; it is there all the same.
    """

    kind: str
    box: int | None
    says: str
    why: str
    do: str
    source: str
    rank: int
    named: str = ""
    room: int | None = None
    room_name: str = ""
    level_name: str = ""
    breakers: tuple[int, ...] = ()
    about: tuple[int, ...] = ()
    listed: bool = True
    set_aside: str = ""
