"""The picture a level is drawn over: seen through the floors of rooms that are drawn, under walls and symbols."""

from typing import Literal

from floorplan_circuits.drawing.frame import Frame
from floorplan_circuits.drawing.ink import Bounds, PictureMark
from floorplan_circuits.home.placement import corners, size, turned_by


def underlay(frame: Frame) -> PictureMark | None:
    """Draw the level's picture in its place, None for none or one that is faded out.

    It is blended into what it lies on: the white of a plan leaves tints as they are, and only its lines show, so that
    devices can still be found on it where a room is drawn already.
    """
    level = frame.findings.home.levels.get(frame.level)
    laid = level.underlay if level is not None else None
    if laid is None or laid.opacity_percent == 0:
        return None
    left, top = frame.mm(laid.at)
    wide, high = frame.mm(size(laid))
    blend: Literal["darken", "lighten"] = "lighten" if frame.theme.name == "dark" else "darken"
    box = left, top, left + wide, top + high
    return PictureMark(laid.picture, box, turned_by(laid), laid.opacity_percent / 100, blend)


def underlay_bounds(frame: Frame) -> Bounds:
    """Return the box round the level's picture, in paper mm. Raises `KeyError` or `ValueError` where there is none."""
    laid = frame.findings.home.levels[frame.level].underlay
    if laid is None:
        raise ValueError("the level has no picture")
    xs, ys = zip(*map(frame.mm, corners(laid)), strict=True)
    return min(xs), min(ys), max(xs), max(ys)
