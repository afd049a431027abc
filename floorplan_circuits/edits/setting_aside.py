"""Taking back that a danger was set aside."""

from collections.abc import Iterable

from floorplan_circuits.edits.edited import Edited, Refused, edit
from floorplan_circuits.edits.logged import logged, told
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.log import Dismissed, Struck
from floorplan_circuits.survey.log_book import LogBook


@edit
def tell_again(home: Home, hazard: str, about: Iterable[int], *, date: str, who: str = "", note: str = "") -> Edited:
    """Strike every entry that sets this danger aside, so that it is told as before. Raises `Refused` for none."""
    things = frozenset(about)
    aside = [
        entry.id
        for _, entry in LogBook(home).entries
        if isinstance(entry, Dismissed) and entry.hazard == hazard and frozenset(entry.about) == things
    ]
    if not aside:
        raise Refused("That danger is not set aside.")
    common = {"kind": "struck", "why": "told again", **told(date, who, note)}
    return logged(home, f"Tell again: {hazard}", Struck, *({**common, "entry": entry} for entry in aside))
