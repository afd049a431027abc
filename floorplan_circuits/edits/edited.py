"""What an edit gives: a new home with its sentence, or a refusal in words."""

from typing import NamedTuple

from floorplan_circuits.home.home import Home


class Edited(NamedTuple):
    """A home after an edit, and the sentence that the undo menu says. `made` names what it put in, newest last."""

    home: Home
    says: str
    made: tuple[int, ...] = ()


class Refused(Exception):
    """An edit can't be done; the message says why and what to do, for the status line."""


def counted(count: int, one: str, many: str = "") -> str:
    """Return a count with its noun.

    Examples:
        >>> counted(1, "box", "boxes"), counted(3, "feed")
        ('1 box', '3 feeds')
    """
    return f"1 {one}" if count == 1 else f"{count} {many or one + 's'}"
