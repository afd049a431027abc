"""What an edit gives: a new home with its sentence, or a refusal in words; and what every edit keeps to."""

from collections.abc import Callable, Collection, Iterator
from functools import wraps
from typing import NamedTuple, ParamSpec, TypeVar

from pydantic import ValidationError

from floorplan_circuits.edits.misfits import misfit
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import Problem
from floorplan_circuits.home.table import HasId, Table

Plain = ParamSpec("Plain")
Row = TypeVar("Row", bound=HasId)
Rule = Callable[[Home], Iterator[Problem]]


class Edited(NamedTuple):
    """A home after an edit, and the sentence that the undo menu says. `made` names what it put in, newest last."""

    home: Home
    says: str
    made: tuple[int, ...] = ()


class Refused(Exception):
    """An edit can't be done; the message says why and what to do, for the status line."""


def edit(verb: Callable[Plain, Edited]) -> Callable[Plain, Edited]:
    """Make a verb, whose first value is the home, keep what all edits promise.

    A value that no record can hold is `Refused` in words, and what changes nothing gives back the very home, so that
    it never enters the history.
    """

    @wraps(verb)
    def kept(*values: Plain.args, **named: Plain.kwargs) -> Edited:
        try:
            edited = verb(*values, **named)
        except ValidationError as error:
            raise Refused(misfit(error)) from error
        before = values[0]
        return edited._replace(home=before) if isinstance(before, Home) and edited.home == before else edited

    return kept


def there(rows: Table[Row], number: int, noun: str) -> Row:
    """Return the row with this id. Raises `Refused` if it is gone."""
    row = rows.get(number)
    if row is None:
        raise Refused(f"That {noun} is not there any more.")
    return row


def sound(before: Home, after: Home, *rules: Rule) -> Home:
    """Return `after`. Raises `Refused` in the words of the first rule that it breaks and `before` did not."""
    for rule in rules:
        known = set(rule(before))
        for problem in rule(after):
            if problem not in known:
                says = problem.says
                raise Refused(f"{says[:1].upper()}{says[1:]}. {problem.do}.")
    return after


def only(fields: Collection[str], allowed: frozenset[str]) -> None:
    """Raise `TypeError` for a field that this edit does not set: a mistake of the program, not of the person."""
    if odd := set(fields) - allowed:
        raise TypeError(f"this edit does not set {', '.join(sorted(odd))}")


def as_done(says: str) -> str:
    """Return the undo menu's sentence as the status line says it once it is done: else it reads as an order.

    Examples:
        >>> as_done("Put a breaker in space 17")
        'Done: put a breaker in space 17.'
    """
    return f"Done: {says[:1].lower()}{says[1:]}."


def counted(count: int, one: str, many: str = "") -> str:
    """Return a count with its noun.

    Examples:
        >>> counted(1, "box", "boxes"), counted(3, "feed")
        ('1 box', '3 feeds')
    """
    return f"1 {one}" if count == 1 else f"{count} {many or one + 's'}"
