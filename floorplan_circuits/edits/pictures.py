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
    grown = change(found, pictures=(*found.pictures, picture))
    home = with_row(change(home, boxes=home.boxes.put(grown)), picture, media, date, caption)
    return Edited(home, f"Add a photo to {found.mark}")


@edit
def detach_picture(home: Home, box: int, picture: str) -> Edited:
    """Take a picture away from a box, and out of the home if nothing else shows it."""
    found = there(home.boxes, box, "box")
    if picture not in found.pictures:
        raise Refused("That photo is not there any more.")
    lighter = change(found, pictures=tuple(other for other in found.pictures if other != picture))
    home = without_unshown(change(home, boxes=home.boxes.put(lighter)), picture)
    return Edited(home, f"Remove a photo of {found.mark}")


def with_row(home: Home, picture: str, media: str, date: str, caption: str = "") -> Home:
    """Return the home with a row for a picture, one however many things show it.

    Raises `Refused` for a date that is no day.
    """
    if any(row.hash == picture for row in home.pictures):
        return home
    fields = {"hash": picture, "media": media, "date": a_day(date), "caption": " ".join(caption.split())}
    return change(home, pictures=(*home.pictures, Picture.model_validate(fields)))


def without_unshown(home: Home, picture: str) -> Home:
    """Return the home without the row of a picture, unless something still shows it."""
    if picture in _shown(home):
        return home
    return change(home, pictures=tuple(row for row in home.pictures if row.hash != picture))


def _shown(home: Home) -> set[str]:
    """Return every picture that something in the home shows."""
    shown = {picture for box in home.boxes for picture in box.pictures}
    shown.update(panel.photo for panel in home.panels)
    shown.update(level.underlay.picture for level in home.levels if level.underlay is not None)
    return shown
