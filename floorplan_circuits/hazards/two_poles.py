"""Loads across two hots on single breakers that nothing ties: each off alone leaves them dead and half live."""

from collections.abc import Iterator

from floorplan_circuits.findings import Hazard
from floorplan_circuits.hazards.phrases import numbers, place_of, thing_called
from floorplan_circuits.hazards.ranks import SECOND_CIRCUIT
from floorplan_circuits.hazards.scene import Scene
from floorplan_circuits.home.boxes import FromBreaker, Supplied
from floorplan_circuits.home.home import FeedPlace

WHY = "With one of them off it stands still, and one of its hots is live."
RULE = "NEC 2023 240.15(B): single-pole breakers that serve one load across two hots have identified handle ties."


def loads_on_untied_breakers(scene: Scene) -> Iterator[Hazard]:
    """Yield the hazard of each feed that works only with several breakers on which no one handle turns off."""
    for place in scene.feeds.values():
        breakers = _needed(place, scene)
        if breakers and place.box.id in scene.boxes:
            where, on = place_of(scene.boxes[place.box.id]), numbers(breakers, scene.found.marks)
            says = f"{where}: {thing_called(place)} needs {on} together, and nothing ties their handles."
            yield scene.in_box(
                "one load on untied breakers",
                place.box.id,
                says,
                WHY,
                scene.to_do([place.box.id], breakers),
                scene.rule(breakers, RULE),
                SECOND_CIRCUIT,
                breakers=breakers,
                about=[place.feed.id],
            )


def _needed(place: FeedPlace, scene: Scene) -> tuple[int, ...]:
    on = place.feed.on
    if not isinstance(on, Supplied) or on.how != "all":
        return ()
    there = scene.in_order(one.breaker for one in on.supplies if isinstance(one, FromBreaker))
    return () if len(there) < 2 or set(there) <= scene.moved_by(there[:1]) else there
