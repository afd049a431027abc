"""Handles that nobody may touch: with a trouble that nobody mended, never to be opened, or joined to such a one."""

from collections.abc import Iterable, Mapping

from floorplan_circuits.home.home import Home
from floorplan_circuits.supply.handles import may_move_along
from floorplan_circuits.survey.log_book import LogBook

IN_WORDS = {
    "did not open": "once did not open",
    "will not reset": "will not reset",
    "runs hot": "runs hot",
    "buzzes": "buzzes",
    "loose": "is loose",
    "other": "gives trouble",
}


def troubles(breakers: Iterable[int], record: LogBook) -> str:
    """Return what is wrong with these breakers, such as 'its breaker runs hot'; empty for nothing."""
    found = (IN_WORDS[trouble.what] for breaker in breakers for _, trouble in record.troubles.get(breaker, ()))
    return ", ".join(f"its breaker {words}" for words in dict.fromkeys(found))


def in_trouble(record: LogBook) -> dict[int, str]:
    """Return the handles, mains among them, that somebody had trouble with and nobody mended: 'runs hot, buzzes'."""
    return {
        handle: ", ".join(dict.fromkeys(IN_WORDS[trouble.what] for _, trouble in some))
        for handle, some in record.troubles.items()
    }


def keep_off(home: Home, record: LogBook) -> dict[int, str]:
    """Return the handles that a person must not turn off, with why: 'must never be turned off', 'runs hot'."""
    return in_trouble(record) | {
        breaker.id: "must never be turned off" for breaker in home.breakers if breaker.may_open.may == "never"
    }


def with_joined(home: Home, barred: Mapping[int, str]) -> dict[int, str]:
    """Return these handles, and those that would move one of them along: by a nail, or by a tie nobody is sure of."""
    joined = {
        breaker: "is joined to one that must be left as it is"
        for breaker, moved in may_move_along(home).items()
        if breaker not in barred and any(one in barred for one in moved)
    }
    return joined | dict(barred)
