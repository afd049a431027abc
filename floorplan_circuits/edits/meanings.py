"""Saying once what a shortened word on old labels means in this home. The labels themselves stay verbatim."""

from floorplan_circuits.edits.edited import Edited, Refused, edit
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.meanings import Meaning
from floorplan_circuits.home.record import change


@edit
def explain(home: Home, short: str, means: str) -> Edited:
    """Say what a shortened word means; nothing takes back what was said. Raises `Refused` for an empty word."""
    word, tidy = " ".join(short.lower().split()), " ".join(means.split())
    if not word:
        raise Refused("Say which word on the labels is meant.")
    others = tuple(one for one in home.meanings if one.short != word)
    if not tidy:
        return Edited(change(home, meanings=others), f"Ask about “{word}” again")
    return Edited(change(home, meanings=(*others, Meaning(short=word, means=tidy))), f"“{word}” means {tidy}")
