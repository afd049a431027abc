"""What a reading that was just recorded now means, in one sentence that is never stronger than the evidence."""

from collections.abc import Iterable, Iterator, Mapping

from floorplan_circuits.findings import Findings
from floorplan_circuits.home.called import feed_called
from floorplan_circuits.home.days import written
from floorplan_circuits.home.home import FeedPlace, feeds
from floorplan_circuits.home.log import Round, Traced
from floorplan_circuits.home.ways import way_named
from floorplan_circuits.supply.handles import may_move_along, moves_together
from floorplan_circuits.survey.cases import points
from floorplan_circuits.survey.log_book import LogBook, Seen, day
from floorplan_circuits.survey.witness import TESTERS, Witnesses

TREAT = "Treat as live."
NOT_LIVE = "not live with all on when last looked at: a lamp that burnt out, or something that tripped"
NO_HAND = "nobody said yet that a hand alone works its switch: in “Draw the home” press H, click the switch, then Enter"


def what_it_means(findings: Findings, feed: int, entries: Iterable[int]) -> str:
    """Return what the entries just made, about one feed, mean now; nothing if they or the feed are gone."""
    home = findings.home
    place = next((place for place in feeds(home) if place.feed.id == feed), None)
    made = set(entries)
    book = LogBook(home)
    seen = [one for one in book.readings.get(feed, ()) if one.round.id in made]
    if place is None or feed not in findings.conclusions:
        return ""
    trace = next((trace for _, trace in book.traces.get(feed, ()) if trace.id in made), None)
    if trace is not None:
        return f"{feed_called(place)}: {_pointed(trace, place, findings)}"
    if not seen:
        return ""
    told = next((one for one in seen if one.off - book.found_off), None)
    if told is None:
        return f"{feed_called(place)}: {_as_usual(seen[-1])}"
    return f"{feed_called(place)}: {_with_something_off(told, place, findings, book)}"


def what_is_missing(findings: Findings, feed: int) -> str:
    """Return why a feed that was tried is not tested, in words that say what to do; nothing if it is, or was not tried.

    It is told from the last reading that was dead with one handle alone off.
    """
    home, known = findings.home, findings.conclusions.get(feed)
    place = next((place for place in feeds(home) if place.feed.id == feed), None)
    if place is None or known is None or known.standing == "proved":
        return ""
    book = LogBook(home)
    seen = book.readings.get(feed, [])
    usual = next((one for one in reversed(seen) if one.off <= book.found_off), None)
    if usual is not None and usual.reading.says != "live":
        return f"{NOT_LIVE}, so nothing is proved by it being dead"
    together = moves_together(home)
    alone = [one for one in seen if one.reading.says == "dead" and _is_one_handle(one.off - book.found_off, together)]
    return ", ".join(_missing(alone[-1], place, findings, book)) if alone else ""


def _is_one_handle(off: frozenset[int], together: Mapping[int, frozenset[int]]) -> bool:
    return bool(off) and together.get(min(off)) == off


def _pointed(trace: Traced, place: FeedPlace, findings: Findings) -> str:
    if not points(trace):
        return f"the first pass only learns how strong the signal gets. Make the second, too. {TREAT}"
    known = findings.conclusions[place.feed.id]
    if known.standing == "traced":
        return f"traced to {_named(known.breakers, findings.marks)}. It points, and proves nothing. {TREAT}"
    return f"{known.says}. It points, and proves nothing. {TREAT}"


def _as_usual(one: Seen) -> str:
    if one.reading.says == "live":
        return "live with all as usual. Turn a breaker off, and look again."
    if one.reading.says == "dead":
        return f"dead with all as usual, so that no breaker can be found by it. {TREAT}"
    return f"unclear tells nothing. {TREAT}"


def _with_something_off(told: Seen, place: FeedPlace, findings: Findings, book: LogBook) -> str:
    known = findings.conclusions[place.feed.id]
    off = _named(sorted(told.off - book.found_off), findings.marks)
    if known.standing == "proved":
        resting = _named(known.besides, findings.marks)
        while_off = f", while {resting} stays off" if resting else ""
        return f"tested {written(known.date)}, on {_named(known.breakers, findings.marks)}{while_off}."
    clash = next((one for one in findings.disagreements if one.feed == place.feed.id), None)
    if clash is not None:
        says = known.says if known.standing == "contradicted" else "no one breaker explains what was read"
        return f"{says}; perhaps {clash.may_be[0]}. {clash.do}"
    if told.reading.says == "live":
        if Witnesses(findings.home).can_deny(place, told.round.method):
            return f"live with {off} off, so {off} is not all that feeds it. {TREAT}"
        return f"{way_named(told.round.method).label.lower()} rules no breaker out. {TREAT}"
    if told.reading.says == "unclear":
        return f"unclear tells nothing. {TREAT}"
    missing = list(_missing(told, place, findings, book))
    return f"one ‘dead’ is not proof: {', '.join(missing) or known.says}. {TREAT}"


def _named(handles: Iterable[int], marks: Mapping[int, str]) -> str:
    return ", ".join(marks.get(handle, "a breaker that is gone") for handle in handles)


# --- what a proof still lacks ---------------------------------------------------------------------------------------


def _missing(dead: Seen, place: FeedPlace, findings: Findings, book: LogBook) -> Iterator[str]:
    """Yield in words each part of a proof that this 'dead' lacks, so that the person can go and see it."""
    if not Witnesses(findings.home).can_prove(place, dead.round.method):
        hand = f" ({NO_HAND})" if Witnesses(findings.home).lacks_a_hand(place, dead.round.method) else ""
        yield f"{way_named(dead.round.method).label.lower()} can’t prove it here{hand}"
    seen = book.readings.get(place.feed.id, [])
    at = next(at for at, one in enumerate(seen) if one.round.id == dead.round.id)
    if not _is_live(reversed(seen[:at]), dead, book):
        yield "not seen live just before, with all as usual"
    if not _is_live(seen[at + 1 :], dead, book):
        yield "not seen live again"
    yield from _unproved(dead.round)
    if not day(dead.round):
        yield "no date"
    along = may_move_along(findings.home)
    turned = dead.off - book.found_off
    if not all(along.get(one, frozenset()) <= dead.off for one in turned):
        yield "its handle may have moved another along, which it may hang on as well"
    elif len(turned) > 1 and along.get(min(turned)) == turned != moves_together(findings.home).get(min(turned)):
        yield "two handles were off that something joins: take it off, or say that the factory made it, and test again"
    if not (dead.reading.each_hot and dead.round.method in TESTERS):
        yield from _one_hot_only(dead, findings)


def _is_live(others: Iterable[Seen], dead: Seen, book: LogBook) -> bool:
    """Tell whether the nearest reading with all as usual was live, by the same way on the same day."""
    nearest = next((one for one in others if one.off <= book.found_off), None)
    same = nearest is not None and (nearest.round.method, day(nearest.round)) == (dead.round.method, day(dead.round))
    return nearest is not None and same and nearest.reading.says == "live" and not nearest.round.pressed


def _unproved(entry: Round) -> Iterator[str]:
    tester = entry.tester
    if not (tester.before or tester.after):
        yield "the tester not proved before and after"
    elif not tester.before:
        yield "the tester not proved before"
    elif not tester.after:
        yield "the tester not proved after"


def _one_hot_only(dead: Seen, findings: Findings) -> Iterator[str]:
    """Tell that a breaker of which nobody knows what it opens can leave a hot live that a lamp does not show."""
    breakers = [findings.home.breakers.get(handle) for handle in dead.off]
    if any(one is not None and one.opens not in ("hot", "both hots") for one in breakers):
        yield "not each hot shown, and nobody said that the breaker opens the hot alone"
