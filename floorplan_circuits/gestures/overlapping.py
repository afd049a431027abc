"""A room drawn over others: what could be drawn instead, offered before anything is made."""

from dataclasses import dataclass
from typing import Literal

from floorplan_circuits.edits.dividing import add_room_into, lapped
from floorplan_circuits.edits.edited import Edited, Refused
from floorplan_circuits.edits.outlines import sound_outline
from floorplan_circuits.edits.rooms import add_room
from floorplan_circuits.edits.walls import named
from floorplan_circuits.gestures.events import Context
from floorplan_circuits.home.record import Point

Mending = Literal["cut back", "cut out", "neither"]
OVER_KEY = "l"


@dataclass(frozen=True, slots=True)
class Offer:
    """A room as drawn, the rooms it lies over, and how it could do without: cut back, or cut out of them."""

    drawn: tuple[Point, ...]
    shown: tuple[Point, ...]
    over: str
    mending: Mending

    @property
    def says(self) -> str:
        """What can be done, for the status line."""
        lies = f"It lies over {self.over}."
        if self.mending == "neither":
            return f"{lies} L draws it so, Esc drops it."
        does = "draws the part outside" if self.mending == "cut back" else f"cuts it out of {self.over}"
        return f"{lies} Enter {does}, L lets it lie over, Esc drops it."


def offer_for(corners: tuple[Point, ...], context: Context) -> Offer | None:
    """Return what is offered for a room with these corners; None where it lies over no other.

    Raises `Refused` for an outline that is no room.
    """
    drawn = sound_outline(corners)
    over = lapped(context.home, context.level, drawn)
    if not over:
        return None
    from floorplan_circuits.geometry.cutting import without  # late: shapely must not delay the first frame

    left = without(drawn, [room.outline for room in over])
    if left is not None and _is_sound(left):
        return Offer(drawn, left, named(over), "cut back")
    return Offer(drawn, drawn, named(over), "cut out" if _can_be_cut_out(drawn, context) else "neither")


def _is_sound(outline: tuple[Point, ...]) -> bool:
    try:
        sound_outline(outline)
    except Refused:
        return False
    return True


def _can_be_cut_out(drawn: tuple[Point, ...], context: Context) -> bool:
    try:
        add_room_into(context.home, context.level, drawn)
    except Refused:
        return False
    return True


def taken(offer: Offer, context: Context, over: bool) -> Edited:
    """Return the edit that an answer makes: `over` lets the room lie over the others. Raises `Refused`."""
    if over or offer.mending == "neither":
        return add_room(context.home, context.level, offer.drawn)
    if offer.mending == "cut back":
        return add_room(context.home, context.level, offer.shown)
    return add_room_into(context.home, context.level, offer.drawn)
