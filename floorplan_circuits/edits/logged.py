"""The end of the log, where alone entries go, and what each of them tells: the day, who, a note."""

from datetime import date as calendar
from typing import Any

from floorplan_circuits.edits.edited import Edited, Refused
from floorplan_circuits.edits.numbering import counter
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.log import Entry
from floorplan_circuits.home.record import change

Fields = dict[str, Any]
A_DAY = "2026-03-14"


def logged(home: Home, says: str, model: type[Entry], *entries: Fields) -> Edited:
    """Return the home with these entries at the end of its log, each with an id that was never used."""
    ids = counter(home)
    made = [model.model_validate({"id": ids.new(), **fields}) for fields in entries]
    after = change(home, log=(*home.log, *made), next_id=ids.next_id)
    return Edited(after, says, tuple(entry.id for entry in made))


def told(date: str, who: str, note: str) -> Fields:
    """Return what every entry tells. Raises `Refused` for a date that is neither empty nor a day of the calendar."""
    return {"date": a_day(date), "who": " ".join(who.split()), "note": note.strip()}


def a_day(date: str) -> str:
    """Return a date that is empty or a day of the calendar. Raises `Refused` for another."""
    try:
        if date and (len(date) != len(A_DAY) or calendar.fromisoformat(date).isoformat() != date):
            raise ValueError
    except ValueError:
        raise Refused(f"A date is a day of the calendar, year first: {A_DAY}.") from None
    return date


def reason(why: str) -> str:
    """Return why, on one line. Raises `Refused` for no reason at all."""
    tidy = " ".join(why.split())
    if not tidy:
        raise Refused("Say why, in a few words: they stay in the log.")
    return tidy
