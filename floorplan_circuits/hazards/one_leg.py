"""Loads across two hots whose poles are on one leg: the two halves of one space, or spaces of one row."""

from collections.abc import Iterator

from floorplan_circuits.findings import Hazard
from floorplan_circuits.hazards.legs import on_one_leg
from floorplan_circuits.hazards.phrases import numbers, place_of, thing_called
from floorplan_circuits.hazards.poles import PoleOf
from floorplan_circuits.hazards.ranks import OUT_OF_DATE
from floorplan_circuits.hazards.scene import LIVE, Scene
from floorplan_circuits.home.boxes import FromBreaker, Supplied
from floorplan_circuits.home.home import FeedPlace

WHY = "Between them there would be no voltage, so the map is wrong of it somewhere: it may hang on another breaker."
SOURCE = "Common practice, no source: legs follow each other row by row, and both halves of a space are on one."
HOW = {
    "measured": "are on one leg, as somebody measured",
    "halves of one space": "are the halves of one space, hence on one leg",
    "usual layout": "may be on one leg: by the usual layout of a panel they are",
}


def loads_on_one_leg(scene: Scene) -> Iterator[Hazard]:
    """Yield the hazard of each load that needs two hots and is said to have them from one leg."""
    for place in scene.feeds.values():
        poles = _poles(place, scene)
        pair = on_one_leg(poles, scene) if poles and place.box.id in scene.boxes else None
        if pair is None:
            continue
        breakers = scene.in_order((pair.first.breaker, pair.second.breaker))
        hots = "both its poles" if len(breakers) == 1 else "they"
        on = (
            f"{thing_called(place)} is said to be across {numbers(breakers, scene.found.marks)}; {hots} {HOW[pair.how]}"
        )
        yield scene.in_box(
            "halves of one space taken for two legs" if pair.how == "halves of one space" else "one leg taken for two",
            place.box.id,
            f"{place_of(scene.boxes[place.box.id])}: {on}.",
            WHY,
            f"{LIVE} Test again.",
            SOURCE,
            OUT_OF_DATE,
            breakers=breakers,
            about=[place.feed.id],
        )


def _poles(place: FeedPlace, scene: Scene) -> list[PoleOf]:
    """Return the poles that a load is said to be across; nothing unless it works only with all it hangs on."""
    on = place.feed.on
    if not isinstance(on, Supplied) or on.how != "all":
        return []
    found: dict[tuple[int, int], PoleOf] = {}
    for supply in on.supplies:
        breaker = scene.home.breakers.get(supply.breaker) if isinstance(supply, FromBreaker) else None
        if isinstance(supply, FromBreaker) and breaker is not None:
            for at, pole in enumerate(breaker.poles):
                if supply.pole in (None, at):
                    found[(breaker.id, at)] = PoleOf(breaker.panel, breaker.id, pole)
    return list(found.values())
