"""What stays as it was when the log only grew at its end: a round tells nothing of the feeds it did not look at."""

from floorplan_circuits.findings import BoxFinding, Findings
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.log import Round
from floorplan_circuits.survey.boxes import Survey, cables
from floorplan_circuits.survey.conclusions import Concluded
from floorplan_circuits.survey.log_book import LogBook


def kept_conclusions(before: Findings, home: Home, record: LogBook) -> dict[int, Concluded]:
    """Return what was concluded `before` of every feed of which it holds unchanged; nothing where that may be none.

    The caller has seen that boxes, controls and panels are as they were. Whatever is not a round may speak of any feed,
    and so may one that had a handle on which was found off: proofs hold only while it stays off.
    """
    was, now = before.home.log, home.log
    added = now[len(was) :]
    if len(now) < len(was) or now[: len(was)] != was:
        return {}
    looked_at = set[int]()
    for entry in added:
        if not isinstance(entry, Round) or not record.found_off <= {*entry.off}:
            return {}
        looked_at.update(reading.feed for reading in entry.readings)
    at_odds = {one.feed: one for one in before.disagreements}
    never = frozenset(before.never_tested)
    return {
        feed: Concluded(one, at_odds.get(feed), feed not in never)
        for feed, one in before.conclusions.items()
        if feed not in looked_at
    }


def kept_boxes(before: Findings, survey: Survey) -> dict[int, BoxFinding]:
    """Return what was found `before` of every box of which all that enters it is known as it was.

    The caller has seen that nothing was added to the log but rounds, and that rooms and levels are as they were.
    """
    was, now, found = before.conclusions, survey.known, before.boxes
    same = {feed for feed, one in now.items() if one is was.get(feed)}
    return {
        box.id: found[box.id]
        for box in survey.home.boxes
        if box.id in found
        and all(feed.id in same or feed.id not in now for feed in box.feeds())
        and all(feed in same or feed not in now for feed in cables(box, survey.record))
    }
