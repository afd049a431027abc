"""Hazards that somebody set aside: still there, told last with the reason, and told anew by anything newer."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from floorplan_circuits.findings import Hazard
from floorplan_circuits.hazards.scene import Scene
from floorplan_circuits.home.days import written
from floorplan_circuits.home.log import Change, Dismissed, Entry, Opened, ReceptacleTest, Round, Traced, Trouble
from floorplan_circuits.survey.log_book import LogBook, day

Key = tuple[str, frozenset[int]]


def with_set_aside(hazards: Iterable[Hazard], scene: Scene) -> Iterator[Hazard]:
    """Yield all hazards, those that were set aside with the day and the reason.

    It takes both, and the very things that the hazard is about: a circuit more makes it another. It holds until
    anything newer in the log is about one of them, work on their boxes and panels among that.
    """
    aside = _set_aside(scene.record)
    if not aside:
        yield from hazards
        return
    news = _news(scene.record)
    for hazard in hazards:
        place, words = aside.get((hazard.kind, frozenset(hazard.about)), (-1, ""))
        holds = words and place > _last_news(hazard, news, scene)
        yield replace(hazard, set_aside=words) if holds else hazard


def _set_aside(record: LogBook) -> dict[Key, tuple[int, str]]:
    """Return what was set aside last of each danger: its place in the log, the day and the reason."""
    return {
        (entry.hazard, frozenset(entry.about)): (place, f"Set aside on {written(day(entry))}: {entry.why.strip()}")
        for place, entry in record.entries
        if isinstance(entry, Dismissed) and _counts(entry, record)
    }


def _counts(entry: Dismissed, record: LogBook) -> bool:
    """Tell whether an entry has a day and a reason, and a newer program neither added to it nor wrote of it."""
    readable = not entry.extras() and entry.id not in record.named_by_unknown
    return readable and bool(entry.date and entry.why.strip())


def _news(record: LogBook) -> dict[int, int]:
    """Return for each thing the place of the last entry in the log that tells something new of it."""
    return {thing: place for place, entry in record.entries for thing in _told_of(entry)}


def _told_of(entry: Entry) -> Iterator[int]:
    if isinstance(entry, Round):
        yield from (reading.feed for reading in entry.readings)
    elif isinstance(entry, Change):
        yield from (*entry.boxes, *entry.panels)
    elif isinstance(entry, Opened):
        yield entry.box
    elif isinstance(entry, Traced):
        yield from (entry.feed, entry.handle)
    elif isinstance(entry, ReceptacleTest):
        yield entry.device
    elif isinstance(entry, Trouble):
        yield entry.handle


def _last_news(hazard: Hazard, news: dict[int, int], scene: Scene) -> int:
    """Return the place of what was told last of anything the hazard is about; the end where nobody can read it."""
    if not scene.record.named_by_unknown.isdisjoint(hazard.about):
        return len(scene.home.log)
    panels = (breaker.panel for breaker in scene.breakers(hazard.breakers))
    told = (news.get(thing, -1) for thing in (*hazard.about, *hazard.breakers, *panels))
    return max(scene.record.changed_anything, *told, -1)
