"""Loops: a feed that two supplies reach, each of which keeps it live."""

from collections.abc import Iterator

from floorplan_circuits.findings import Hazard
from floorplan_circuits.hazards.phrases import listed, numbers, other_supply, place_of, thing_called
from floorplan_circuits.hazards.ranks import LIVE_WHATEVER_IS_OFF
from floorplan_circuits.hazards.scene import Scene
from floorplan_circuits.home.boxes import FromBreaker, FromElsewhere, Supplied
from floorplan_circuits.home.home import FeedPlace

WHY = "With one of them off the other keeps it live, and can make all that is on the first live from behind."
SOURCE = "Common practice, no source."


def feeds_that_two_supplies_reach(scene: Scene) -> Iterator[Hazard]:
    """Yield the hazard of each feed where two supplies are said to meet; what hangs behind it is not told again."""
    for place in scene.feeds.values():
        breakers, others = _meeting(place, scene)
        if len(breakers) + len(others) < 2 or place.box.id not in scene.boxes:
            continue
        on_panel = numbers(breakers, scene.found.marks)
        both = listed([*([on_panel] if on_panel else []), *map(other_supply, others)])
        says = f"{place_of(scene.boxes[place.box.id])}: {both} meet at {thing_called(place)}: each keeps it live."
        yield scene.in_box(
            "two supplies meet",
            place.box.id,
            says,
            WHY,
            scene.to_do([place.box.id], breakers),
            SOURCE,
            LIVE_WHATEVER_IS_OFF,
            breakers=breakers,
            about=[place.feed.id],
        )


def _meeting(place: FeedPlace, scene: Scene) -> tuple[tuple[int, ...], list[str]]:
    """Return the breakers and, in words, the other supplies any one of which keeps the feed live."""
    on = place.feed.on
    if not isinstance(on, Supplied) or on.how != "any":
        return (), []
    breakers = scene.in_order(one.breaker for one in on.supplies if isinstance(one, FromBreaker))
    others: list[str] = []
    for one in on.supplies:
        if isinstance(one, FromElsewhere):
            others.append(f"elsewhere: {one.where}")
        elif not isinstance(one, FromBreaker):
            source = scene.home.sources.get(one.source)
            others.append(f"source: {source.name if source is not None else ''}")
    return breakers, others
