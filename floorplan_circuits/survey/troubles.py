"""Handles that nobody may touch: those with a trouble that nobody mended, and those that may never be opened."""

from collections.abc import Iterable

from floorplan_circuits.home.home import Home
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


def keep_off(home: Home, record: LogBook) -> dict[int, str]:
    """Return the breakers that a person must not turn off, with why: 'must never be turned off', 'runs hot'."""
    found = {
        breaker: ", ".join(dict.fromkeys(IN_WORDS[trouble.what] for _, trouble in some))
        for breaker, some in record.troubles.items()
    }
    return found | {
        breaker.id: "must never be turned off" for breaker in home.breakers if breaker.may_open.may == "never"
    }
