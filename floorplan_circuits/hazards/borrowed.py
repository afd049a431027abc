"""Borrowed neutrals: a feed whose current comes back with another circuit than it goes out on."""

from collections.abc import Iterator

from floorplan_circuits.findings import Hazard
from floorplan_circuits.hazards.phrases import numbers, place_of, thing_called
from floorplan_circuits.hazards.ranks import AT_TIMES
from floorplan_circuits.hazards.scene import Scene
from floorplan_circuits.home.boxes import FromBreaker
from floorplan_circuits.home.home import FeedPlace

WHY = "With its own breaker off, that neutral can still carry the other circuit's current: opened, it is live."
SOURCE = (
    "Common practice, no source; BS 7671 (18th edition) 314.4, where it applies: each circuit is electrically "
    "separate from every other. Local code governs."
)


def borrowed_neutrals(scene: Scene) -> Iterator[Hazard]:
    """Yield the hazard of each feed whose neutral is another circuit's, unless both share one as a multiwire group.

    Those the shared neutrals tell of.
    """
    for place in scene.feeds.values():
        lender = _lender(place, scene)
        if lender is None or place.box.id not in scene.boxes:
            continue
        own, marks = scene.breakers_of([place.feed.id]), scene.found.marks
        says = (
            f"{place_of(scene.boxes[place.box.id])}: {thing_called(place)} is on {numbers(own, marks)}, "
            f"and its neutral is {marks[lender]}'s."
        )
        yield scene.in_box(
            "borrowed neutral",
            place.box.id,
            says,
            WHY,
            scene.to_do([place.box.id], [lender]),
            SOURCE,
            AT_TIMES,
            breakers=scene.in_order((*own, lender)),
            about=[place.feed.id],
        )


def _lender(place: FeedPlace, scene: Scene) -> int | None:
    """Return the breaker whose neutral the feed uses though it is on another; None where there is none."""
    returns = place.feed.returns
    if not isinstance(returns, FromBreaker) or returns.breaker not in scene.home.breakers:
        return None
    own = scene.breakers_of([place.feed.id])
    if not own or returns.breaker in scene.moved_by(own):
        return None
    return None if returns.breaker in scene.sharing_neutral(own) else returns.breaker
