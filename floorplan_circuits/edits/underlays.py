"""Edits of the picture under a level: put one there, set its scale, straighten, turn, move, fade, lock, remove it."""

from floorplan_circuits.edits.edited import Edited, Refused, edit, there
from floorplan_circuits.edits.pictures import with_row, without_unshown
from floorplan_circuits.home.building import Level, Underlay
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.lengths import show_length
from floorplan_circuits.home.placement import Place, corners, lean, placed, turned_by
from floorplan_circuits.home.record import Point, change

LEAST_WIDE_MM, MOST_WIDE_MM = 300, 500_000
"""What a whole picture of a floor may stand for: less than a cupboard or more than a street is a slip of the hand."""
LEAST_SHARE = 0.01
"""How far apart two marks must be, of the picture's width: nearer, a hand's tremble decides the scale."""
NO_PICTURE = "This level has no picture to draw over. Drag one in, or choose one in the Picture menu."
LOCKED = "The picture is locked. Unlock it first."


@edit
def put_underlay(
    home: Home,
    level: int,
    picture: str,
    media: str,
    pixels: tuple[int, int],
    *,
    at: Point,
    width: int,
    date: str = "",
    caption: str = "",
) -> Edited:
    """Lay a picture under a level, in place of one that lies there. `width` is a guess until its scale is set.

    Raises `Refused` where the one that lies there is locked.
    """
    found = there(home.levels, level, "level")
    if found.underlay is not None and found.underlay.locked:
        raise Refused("A locked picture lies here already. Unlock it to put another in its place.")
    home_with = with_row(home, picture, media, date, caption)
    laid = change(found, underlay=Underlay(picture=picture, pixels=pixels, at=at, width=width))
    home_with = change(home_with, levels=home_with.levels.put(laid))
    if found.underlay is not None:
        home_with = without_unshown(home_with, found.underlay.picture)
    return Edited(home_with, f"Lay a picture under {found.name}")


@edit
def set_known_length(home: Home, level: int, a: Place, b: Place, length: int) -> Edited:
    """Size the picture so that the line from `a` to `b`, in house mm, is `length` mm long; `a` stays where it is.

    Raises `Refused` for marks that are too near each other, and for a picture that would be no floor.
    """
    found, laid = _free(home, level)
    apart = lean(a, b).length
    if apart < LEAST_SHARE * laid.width:
        raise Refused("The two marks are too near each other. Mark a longer length.")
    wide = laid.width * length / apart
    if not LEAST_WIDE_MM <= wide <= MOST_WIDE_MM:
        shown = show_length(round(min(wide, 10**9)), home.units)
        raise Refused(f"The whole picture would be {shown} wide. Check the two marks and the length.")
    return _laid(home, found, placed(laid, wide, turned_by(laid), a), "Set the scale of the picture")


@edit
def straighten(home: Home, level: int, a: Place, b: Place) -> Edited:
    """Turn the picture so that the line from `a` to `b` is level or upright, whichever is nearer; `a` stays."""
    found, laid = _free(home, level)
    line = lean(a, b)
    if line.length < LEAST_SHARE * laid.width:
        raise Refused("The two marks are too near each other. Mark a longer wall.")
    return _laid(home, found, placed(laid, laid.width, turned_by(laid) - line.from_level, a), "Straighten the picture")


@edit
def turn_underlay(home: Home, level: int, angle: float) -> Edited:
    """Turn the picture about its middle by so many degrees, clockwise."""
    found, laid = _free(home, level)
    first, _, third, _ = corners(laid)
    middle = (first[0] + third[0]) / 2, (first[1] + third[1]) / 2
    return _laid(home, found, placed(laid, laid.width, turned_by(laid) + angle, middle), "Turn the picture")


@edit
def move_underlay(home: Home, level: int, by: Point) -> Edited:
    """Move the picture: what was drawn over it stays."""
    found, laid = _free(home, level)
    moved = change(laid, at=(laid.at[0] + by[0], laid.at[1] + by[1]))
    return _laid(home, found, moved, "Move the picture")


@edit
def fade_underlay(home: Home, level: int, percent: int) -> Edited:
    """Say how strongly the picture shows: 0 not at all, 100 in full. A locked one may be faded too."""
    found, laid = _any(home, level)
    return _laid(home, found, change(laid, opacity_percent=percent), f"Show the picture at {percent} %")


@edit
def lock_underlay(home: Home, level: int, locked: bool) -> Edited:
    """Lock the picture, so that no hand moves it, or unlock it."""
    found, laid = _any(home, level)
    return _laid(home, found, change(laid, locked=locked), f"{'Lock' if locked else 'Unlock'} the picture")


@edit
def remove_underlay(home: Home, level: int) -> Edited:
    """Take the picture away from under a level; what was drawn over it stays. Raises `Refused` for a locked one."""
    found, laid = _free(home, level)
    bare = change(home, levels=home.levels.put(change(found, underlay=None)))
    return Edited(without_unshown(bare, laid.picture), f"Remove the picture under {found.name}")


def _any(home: Home, level: int) -> tuple[Level, Underlay]:
    found = there(home.levels, level, "level")
    if found.underlay is None:
        raise Refused(NO_PICTURE)
    return found, found.underlay


def _free(home: Home, level: int) -> tuple[Level, Underlay]:
    """Return the level with its picture. Raises `Refused` where there is none, and where it is locked."""
    found, laid = _any(home, level)
    if laid.locked:
        raise Refused(LOCKED)
    return found, laid


def _laid(home: Home, level: Level, underlay: Underlay, says: str) -> Edited:
    return Edited(change(home, levels=home.levels.put(change(level, underlay=underlay))), says)
