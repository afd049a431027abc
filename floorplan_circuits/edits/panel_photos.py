"""Edits of a panel's photo: put one there, mark the corners of its breakers, put a number elsewhere, remove it."""

from collections.abc import Sequence

from floorplan_circuits.edits.edited import Edited, Refused, edit, there
from floorplan_circuits.edits.pictures import with_row, without_unshown
from floorplan_circuits.home.aslant import is_seen_from_the_front
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Panel, PhotoFit, PhotoTag
from floorplan_circuits.home.record import Point, change

SHARES = 10_000
NO_PHOTO = "This panel has no photo. Choose one, or drag one in."
NO_FRONT = "Four corners of a panel go round it clockwise, none of them dented in. Put this one elsewhere."


@edit
def put_photo(home: Home, panel: int, picture: str, media: str, pixels: tuple[int, int], *, date: str = "") -> Edited:
    """Keep a photo with a panel, in place of the one it has; its corners are then marked anew."""
    found = there(home.panels, panel, "panel")
    shown = change(found, photo=picture, photo_fit=PhotoFit(pixels=pixels))
    after = with_row(change(home, panels=home.panels.put(shown)), picture, media, date)
    return Edited(_dropped(after, found, picture), f"Add a photo of {found.name}")


@edit
def mark_corners(home: Home, panel: int, corners: Sequence[tuple[float, float]]) -> Edited:
    """Say where on the photo the four outer corners of the breakers are, in pixels, from the top left clockwise.

    Raises `Refused` for corners that no panel seen from its front can have, and for a panel without a photo.
    """
    found = _with_photo(home, panel)
    wide, high = found.photo_fit.pixels
    inside = tuple((round(min(max(x, 0), wide)), round(min(max(y, 0), high))) for x, y in corners)
    if len(inside) != 4 or not is_seen_from_the_front(inside):
        raise Refused(NO_FRONT)
    fitted = change(found, photo_fit=change(found.photo_fit, corners=inside))
    return Edited(change(home, panels=home.panels.put(fitted)), f"Mark the corners on the photo of {found.name}")


@edit
def put_tag(home: Home, panel: int, space: int, half: str | None, at: tuple[float, float]) -> Edited:
    """Put the number of a space elsewhere on the photo; `at` counts along the breakers, from 0 to 1 on them."""
    found = _with_photo(home, panel)
    place: Point = round(at[0] * SHARES), round(at[1] * SHARES)
    fields = {"space": space, "half": half, "at": place}
    others = tuple(tag for tag in found.photo_fit.tags if (tag.space, tag.half) != (space, half))
    tags = (*others, PhotoTag.model_validate(fields))
    moved = change(found, photo_fit=change(found.photo_fit, tags=tags))
    return Edited(change(home, panels=home.panels.put(moved)), f"Put number {space}{half or ''} elsewhere on the photo")


@edit
def tags_back(home: Home, panel: int) -> Edited:
    """Put all numbers back to where the spaces are."""
    found = _with_photo(home, panel)
    back = change(found, photo_fit=change(found.photo_fit, tags=()))
    return Edited(change(home, panels=home.panels.put(back)), f"Put the numbers on the photo of {found.name} back")


@edit
def remove_photo(home: Home, panel: int) -> Edited:
    """Take a panel's photo away, and out of the home if nothing else shows it."""
    found = _with_photo(home, panel)
    bare = change(home, panels=home.panels.put(change(found, photo="", photo_fit=PhotoFit())))
    return Edited(_dropped(bare, found, ""), f"Remove the photo of {found.name}")


def _with_photo(home: Home, panel: int) -> Panel:
    found = there(home.panels, panel, "panel")
    if not found.photo:
        raise Refused(NO_PHOTO)
    return found


def _dropped(home: Home, was: Panel, now: str) -> Home:
    return without_unshown(home, was.photo) if was.photo and was.photo != now else home
