"""Edits of photographs: kept with a box by their hash. Their bytes lie beside the home, never in its history."""

from floorplan_circuits.edits.edited import Edited, Refused, edit, there
from floorplan_circuits.edits.logged import a_day
from floorplan_circuits.home.home import Home, Picture
from floorplan_circuits.home.record import change


@edit
def attach_picture(home: Home, box: int, picture: str, media: str, *, date: str, caption: str = "") -> Edited:
    """Keep a picture with a box: by its hash, with its media type and the day it was added.

    Raises `Refused` for one that the box has already, and for a date that is no day.
    """
    found = there(home.boxes, box, "box")
    if picture in found.pictures:
        raise Refused(f"{found.mark} has this photo already.")
    fields = {"hash": picture, "media": media, "date": a_day(date), "caption": " ".join(caption.split())}
    known = any(row.hash == picture for row in home.pictures)
    rows = home.pictures if known else (*home.pictures, Picture.model_validate(fields))
    grown = change(found, pictures=(*found.pictures, picture))
    return Edited(change(home, boxes=home.boxes.put(grown), pictures=rows), f"Add a photo to {found.mark}")


@edit
def detach_picture(home: Home, box: int, picture: str) -> Edited:
    """Take a picture away from a box, and out of the home if nothing else shows it."""
    found = there(home.boxes, box, "box")
    if picture not in found.pictures:
        raise Refused("That photo is not there any more.")
    lighter = change(found, pictures=tuple(other for other in found.pictures if other != picture))
    home = change(home, boxes=home.boxes.put(lighter))
    if picture not in _shown(home):
        home = change(home, pictures=tuple(row for row in home.pictures if row.hash != picture))
    return Edited(home, f"Remove a photo of {found.mark}")


def _shown(home: Home) -> set[str]:
    """Return every picture that something in the home shows."""
    shown = {picture for box in home.boxes for picture in box.pictures}
    shown.update(panel.photo for panel in home.panels)
    shown.update(level.underlay.picture for level in home.levels if level.underlay is not None)
    return shown
