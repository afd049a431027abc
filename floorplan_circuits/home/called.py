"""What a feed is called in a sentence: the mark of its box, and no more words than tell it from the others there."""

from floorplan_circuits.home.home import FeedPlace
from floorplan_circuits.home.kinds import kind_named


def feed_called(place: FeedPlace) -> str:
    """Return the box's mark with what the feed is there: 'B14 upper', 'B14 fan', 'B7' where its box has only one."""
    return f"{place.box.mark} {called_there(place)}".strip()


def called_there(place: FeedPlace) -> str:
    """Return what tells a feed from the others of its box; nothing where it is the only one."""
    if len(place.box.feeds()) == 1:
        return ""
    if place.device is None:
        return place.feed.part or "cable that passes"
    alone = len(place.box.devices) == 1 and not place.box.passing
    if alone and place.feed.part:
        return place.feed.part
    device = place.device.name or kind_named(place.device.kind).label.lower()
    return f"{device} {place.feed.part}".strip()
