"""What else an edit did, in sentences for the status line: feeds that lost their breaker, readings left without one."""

from floorplan_circuits.edits.edited import counted
from floorplan_circuits.home.boxes import NotKnown
from floorplan_circuits.home.home import Home, existing_feeds
from floorplan_circuits.home.log import Round


def consequences(before: Home, after: Home) -> tuple[str, ...]:
    """Return what happened beside the edit itself, the most dangerous first; nothing if nothing did."""
    return tuple(sentence for rule in (_feeds_untied, _feeds_gone, _panels_unfed) for sentence in rule(before, after))


def _unknown(home: Home) -> dict[int, bool]:
    return {place.feed.id: isinstance(place.feed.on, NotKnown) for place in existing_feeds(home)}


def _feeds_untied(before: Home, after: Home) -> list[str]:
    if before.boxes is after.boxes:
        return []
    was, now = _unknown(before), _unknown(after)
    lost = sum(unknown and not was.get(feed, True) for feed, unknown in now.items())
    return [f"{counted(lost, 'feed has', 'feeds have')} no breaker now: treat as live."] if lost else []


def _feeds_gone(before: Home, after: Home) -> list[str]:
    if before.boxes is after.boxes:
        return []
    tested = {reading.feed for entry in before.log if isinstance(entry, Round) for reading in entry.readings}
    gone = tested & _unknown(before).keys() - _unknown(after).keys()
    return [f"{counted(len(gone), 'feed')} with test readings went with it."] if gone else []


def _panels_unfed(before: Home, after: Home) -> list[str]:
    lost = [
        panel.name
        for panel in after.panels
        if not panel.fed_by and (was := before.panels.get(panel.id)) is not None and was.fed_by
    ]
    return [f"Nothing is said to feed {', '.join(lost)} now."] if lost else []
