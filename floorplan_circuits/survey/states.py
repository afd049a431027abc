"""The state of each box while given handles are off: never more than what is proved of every conductor in it.

`should be dead: test it` needs all of these, and any one missing gives a worse state:

- somebody looked inside since the last change, told every cable, and knew each to be one of the box's feeds;
- every feed is proved, or disconnected with both ends seen, or low voltage behind a stated transformer;
- each proved feed's handle, or all that is above it, is off, and what its proof leans on is off too;
- no other source reaches it, nothing is at odds about it, and none of those handles gives trouble.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from floorplan_circuits.findings import WORST_FIRST, BoxState, BoxWhenOff, Conclusion, FeedWhenOff
from floorplan_circuits.home.boxes import Box, Disconnected, Feed, FromBreaker
from floorplan_circuits.home.home import Home, mains
from floorplan_circuits.home.power import Breaker
from floorplan_circuits.survey.boxes import cables, is_harmless, is_only_planned, not_recorded
from floorplan_circuits.survey.cases import Evidence, panels_above
from floorplan_circuits.survey.conclusions import FEW
from floorplan_circuits.survey.statements import Stated
from floorplan_circuits.survey.troubles import IN_WORDS

UNKNOWN_STANDINGS = ("unknown", "expired", "contradicted")
HOLDS_A_NEUTRAL = ("ground fault", "arc fault", "residual current")
"""A breaker that compares hot and neutral trips where its neutral is shared (common practice, no source)."""

SAID_SO = ("a label says", "a person says")

Told = tuple[BoxState, str]


@dataclass(frozen=True, slots=True)
class Judge:
    """What the states of boxes are judged by. `at_odds` are the feeds whose readings disagree."""

    evidence: Evidence
    known: Mapping[int, Conclusion]
    stated: Mapping[int, Stated]
    at_odds: frozenset[int]

    @property
    def home(self) -> Home:
        """The home."""
        return self.evidence.home


def box_states(judge: Judge, off: Iterable[int], boxes: Iterable[int] | None = None) -> dict[int, BoxWhenOff]:
    """Return the state of these boxes, or of all, while these handles and what was found off are off.

    A box of which nothing is built yet has none.
    """
    open_ones = frozenset(off) | judge.evidence.record.found_off
    asked = judge.home.boxes if boxes is None else (judge.home.boxes[box] for box in boxes)
    return {box.id: _state(box, judge, open_ones) for box in asked if not is_only_planned(box, judge.evidence.record)}


def feed_states(judge: Judge, off: Iterable[int]) -> dict[int, FeedWhenOff]:
    """Return what each feed is while these handles and what was found off are off, whatever else is in its box."""
    open_ones = frozenset(off) | judge.evidence.record.found_off
    return {feed: FeedWhenOff(feed, *_of_feed(feed, judge, open_ones)) for feed in judge.known}


def _of_feed(feed: int, judge: Judge, off: frozenset[int]) -> Told:
    if is_harmless(feed, judge.stated[feed], judge.known[feed], judge.evidence.record):
        return "should be dead" if _is_off(feed, judge, off) else "live", "low voltage behind a transformer"
    return _feed(feed, judge, off)


def _is_off(feed: int, judge: Judge, off: frozenset[int]) -> bool:
    return not judge.evidence.is_live(("feed", feed), off - judge.evidence.record.never_opened)


def _state(box: Box, judge: Judge, off: frozenset[int]) -> BoxWhenOff:
    told = [*_feeds(box, judge, off), *_contents(box, judge)]
    worst: BoxState = min((state for state, _ in told), key=WORST_FIRST.index, default="should be dead")
    because = tuple(dict.fromkeys(why for state, why in told if state == worst and why))
    return BoxWhenOff(box.id, worst, because, _neutral_known(box, judge))


def _contents(box: Box, judge: Judge) -> Iterator[Told]:
    """Yield what is missing before the box itself is known: what it holds, and that somebody looked."""
    record = judge.evidence.record
    seen, own = list(cables(box, record)), {feed.id for feed in box.feeds() if feed.id in judge.known}
    if not_recorded(box):
        yield "unknown", "what enters it is not recorded"
    for source in judge.evidence.adrift:
        yield "unknown", f"nobody said where {source.name or 'a source'} comes in: it may be here"
    if any(feed is None for feed in seen):
        yield "unknown", "a cable was seen in it that nobody knows"
    if any(feed is not None and feed not in own and feed not in judge.known for feed in seen):
        yield "unknown", "a cable was seen in it that is not on the map, or only planned"
    if any(feed is not None and feed not in own and feed in judge.known for feed in seen):
        yield "not proved", "a cable was seen in it that the map has in another box"
    if not seen or not record.opened_since_change(box.id):
        yield "not opened", "nobody has looked inside, or not since it changed"
    elif not own <= {*seen}:
        yield "not opened", "whoever looked inside told nothing of a cable that the map has in it"


def _feeds(box: Box, judge: Judge, off: frozenset[int]) -> Iterator[Told]:
    own = [feed.id for feed in box.feeds() if feed.id in judge.known]
    strange = [feed for feed in cables(box, judge.evidence.record) if feed in judge.known and feed not in own]
    for feed in (*own, *(one for one in strange if one is not None)):
        if not is_harmless(feed, judge.stated[feed], judge.known[feed], judge.evidence.record):
            yield _feed(feed, judge, off)
            yield from _worked_together(feed, judge, off)


def _worked_together(feed: int, judge: Judge, off: frozenset[int]) -> Iterator[Told]:
    """Yield that a switch works a feed together with something that is live all the same: its wires run there too."""
    opened = off - judge.evidence.record.never_opened
    for other in judge.evidence.groups.beside(feed):
        one, may_be = judge.known[other], _few_candidates(judge.known[other], judge)
        if one.others:
            yield "live", "a switch works it together with something that another supply feeds"
        elif other in judge.at_odds:
            yield "unknown", "a switch works it together with something of which tests disagree"
        elif not all(_is_shut(breaker, opened, judge) for breaker in one.breakers):
            yield "live", "a switch works it together with something on another circuit, which is on"
        elif not all(_is_shut(breaker, opened, judge) for breaker in may_be):
            yield "unknown", "a switch works it together with something that may be on another circuit"
        elif not (one.breakers or may_be) and _was_live_without(other, judge.known[feed].breakers, judge):
            yield "unknown", "a switch works it together with something that was found live with its breaker off"


def _few_candidates(one: Conclusion, judge: Judge) -> tuple[int, ...]:
    """Return the few breakers that are left for a feed of which nobody says what it hangs on."""
    narrowed = not one.breakers and len(one.candidates) <= FEW < len(judge.home.breakers)
    return one.candidates if narrowed else ()


def _was_live_without(feed: int, breakers: tuple[int, ...], judge: Judge) -> bool:
    """Tell whether anybody found a feed live while all these breakers were off."""
    seen = judge.evidence.record.readings.get(feed, ()) if breakers else ()
    return any(one.reading.says == "live" and one.off.issuperset(breakers) for one in seen)


def _feed(feed: int, judge: Judge, off: frozenset[int]) -> Told:
    one, stated = judge.known[feed], judge.stated[feed]
    if feed in judge.at_odds or one.standing in UNKNOWN_STANDINGS:
        return "unknown", "tests disagree" if feed in judge.at_odds else one.says
    if isinstance(stated.chain[0].feed.on, Disconnected):
        return _disconnected(feed, one, judge)
    if stated.others or stated.joined:
        return _other_supply(stated, judge)
    opened = off - judge.evidence.record.never_opened
    if not all(_is_shut(breaker, opened, judge) for breaker in one.breakers):
        return "live", _still_on(one, opened, judge)
    if stated.breakers and judge.evidence.is_live(("feed", feed), opened):
        return "live", "another supply keeps it live"
    if one.standing != "proved":
        return "not proved", _only_says(one)
    return _proved(one, opened, judge)


def _only_says(one: Conclusion) -> str:
    """Return why a feed is not proved: 'only a label says so'."""
    return f"only {one.says} so" if one.says in SAID_SO else one.says


def _other_supply(stated: Stated, judge: Judge) -> Told:
    if any(kind == "source" for kind, _ in stated.others):
        return "live", "a source keeps it live that no breaker of the panels opens"
    said = "it has a supply besides its breaker" if stated.breakers else "no breaker of these panels feeds it"
    return "unknown", said


def _disconnected(feed: int, one: Conclusion, judge: Judge) -> Told:
    record = judge.evidence.record
    if one.breakers:
        return "unknown", f"said to be connected to nothing, but {one.says}"
    ends = [box for box in record.opened if record.opened_since_change(box) and feed in _cables_of(box, judge)]
    if len(ends) > 1:
        return "should be dead", ""
    return "not proved", f"{one.says}; nobody saw both its ends"


def _cables_of(box: int, judge: Judge) -> list[int | None]:
    there = judge.home.boxes.get(box)
    return list(cables(there, judge.evidence.record)) if there is not None else []


def _is_shut(breaker: int, opened: frozenset[int], judge: Judge) -> bool:
    return breaker in judge.evidence.above and not judge.evidence.is_live(("circuit", breaker), opened)


def _still_on(one: Conclusion, opened: frozenset[int], judge: Judge) -> str:
    closed = [breaker for breaker in one.breakers if not _is_shut(breaker, opened, judge)]
    if any(breaker in judge.evidence.record.never_opened for breaker in closed):
        return "its breaker did not open when it was turned off"
    return "its breaker is on" if len(closed) == 1 else "its breakers are on"


def _proved(one: Conclusion, opened: frozenset[int], judge: Judge) -> Told:
    record, above, together = judge.evidence.record, judge.evidence.above, judge.evidence.bench.together
    whole = {moved for breaker in one.breakers for moved in together.get(breaker, ())}
    if not all(_is_shut(breaker, opened, judge) for breaker in whole):
        return "not proved", "its test was of the whole handle, which is not off"
    if not frozenset(one.besides) <= opened:
        return "not proved", "its test holds only while what was found off stays off"
    handles = {handle for breaker in one.breakers for handle in (breaker, *above.get(breaker, ()))}
    panels = panels_above(one.breakers, judge.evidence)
    handles = (handles | {main.id for panel, main in mains(judge.home) if panel.id in panels}) & opened
    wrong = [IN_WORDS[trouble.what] for handle in sorted(handles) for _, trouble in record.troubles.get(handle, ())]
    if wrong:
        return "not proved", f"its breaker {wrong[0]}"
    return "should be dead", ""


def _neutral_known(box: Box, judge: Judge) -> bool:
    """Tell whether every neutral in it is known as its own circuit's; one that is borrowed from another is not."""
    breakers, lent = judge.home.breakers, judge.evidence.lent
    if any(_borrows(feed, judge.known[feed.id]) for feed in box.feeds() if feed.id in judge.known):
        return False
    used = [breaker for feed in box.feeds() if feed.id in judge.known for breaker in judge.known[feed.id].breakers]
    if any(breaker not in judge.known[feed].breakers for breaker in used for feed in lent.get(breaker, ())):
        return False  # a feed elsewhere returns by it, and is not known to hang on it
    return bool(used) and all(breaker in breakers and _has_own_neutral(breakers[breaker]) for breaker in used)


def _borrows(feed: Feed, one: Conclusion) -> bool:
    return isinstance(feed.returns, FromBreaker) and feed.returns.breaker not in one.breakers


def _has_own_neutral(breaker: Breaker) -> bool:
    return bool({*breaker.protects} & {*HOLDS_A_NEUTRAL}) or all(pole.neutral == "own" for pole in breaker.poles)
