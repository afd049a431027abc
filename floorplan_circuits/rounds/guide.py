"""What comes next on an evening of test rounds, given the plan and the log: nothing else is remembered anywhere.

A feed is looked at in a round only if something that it may hang on is off in it. That keeps what equal weight
promises: a loop on two breakers, read truly, is live in some round of every handle, and passes for none.
"""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from floorplan_circuits.findings import Conclusion
from floorplan_circuits.home.home import Home, existing_feeds
from floorplan_circuits.rounds.course import Course, noted
from floorplan_circuits.rounds.kept_on import below
from floorplan_circuits.rounds.steps import DONE, GuideStep, Manner, Skipped, group_of
from floorplan_circuits.supply.handles import moves_together
from floorplan_circuits.survey.log_book import LogBook, Seen, day
from floorplan_circuits.survey.statements import breakers_above
from floorplan_circuits.survey.troubles import keep_off

FEW_TO_TRY = 5
"""Where a wrong answer left a feed so few breakers, each is tried alone: that settles it, whatever the rounds say.

Of equal weight w, w + 1 patterns lie within w + 1 'dead': one wrong 'dead' leaves no more (w is 4 up to 70 handles).
"""
MADE_TO_PROVE = ("suggested", "claimed", "traced", "expired")


@dataclass(frozen=True)
class Progress:
    """How far a course has come, by the log and by what is known from it."""

    course: Course
    home: Home
    book: LogBook
    known: Mapping[int, Conclusion]
    manner: Manner
    today: str
    skipped: Skipped = ()

    # --- what comes next --------------------------------------------------------------------------------------------

    def next_step(self) -> GuideStep:
        """Return the first walk that is not finished, with the first room of it where something is left to look at."""
        return next((step for walk in self._walks() if (step := self._in_walk(*walk))), DONE)

    def _walks(self) -> Iterator[tuple[GuideStep, Collection[int]]]:
        """Yield every walk in order, each with the feeds to look at in it; later ones depend on earlier answers."""
        plan, course = self.course.plan, self.course
        last = len(plan.rounds) + 1
        if self._is_fresh:
            yield GuideStep("all on", 0, last - 1, note=course.note("round 0")), plan.feeds
        yield from self._rounds()
        again = GuideStep("all on again", last, last - 1, note=course.note(f"round {last}"))
        yield again, [feed for feed in plan.feeds if self._was_dead(feed)]
        yield from self._alone()
        yield from self._kept_on()

    def _rounds(self) -> Iterator[tuple[GuideStep, Collection[int]]]:
        plan, course = self.course.plan, self.course
        for nth, one in enumerate(plan.rounds, 1):
            off = tuple(handle for handle in one.off if not self._moved(handle) & self._barred)
            step = GuideStep("round", nth, len(plan.rounds), off, note=course.note(f"round {nth}"), done=course.done)
            moved = frozenset(other for handle in off for other in self._moved(handle))
            yield step, [feed for feed in plan.feeds if self._worth_it(feed, moved)]

    def left(self) -> tuple[int, int]:
        """Return how many rounds are left in which something is to be looked at, and how many looks at the most."""
        open_ones = [one for step, feeds in self._rounds() if (one := self._in_walk(step, feeds)) is not None]
        return len(open_ones), sum(one.left for one in open_ones)

    @property
    def rounds_done(self) -> int:
        """How many rounds of this evening were answered, those with all on left out."""
        walks = {noted(seen.round) for some in self._mine.values() for seen in some if seen.off - self.book.found_off}
        return len({told[:2] for told in walks if told is not None and told.walk.startswith("round")})

    def is_between_rounds(self) -> bool:
        """Tell whether a round comes next of which nothing is answered yet, after one that was."""
        step = self.next_step()
        if step.stage != "round" or self._is_fresh:
            return False
        return not any(seen.round.note == step.note for some in self._mine.values() for seen in some)

    @property
    def _is_fresh(self) -> bool:
        """Whether the all-on walk at the start may still be going on: no round of it was answered."""
        return not any(seen.off - self.book.found_off for some in self._mine.values() for seen in some)

    def _in_walk(self, step: GuideStep, feeds: Collection[int]) -> GuideStep | None:
        answered = {feed for feed in feeds if self._is_answered(step, feed)}
        passed = {feed for key, feed in self.skipped if key == step.key}
        left = {*feeds} - answered - passed
        for stop in self.course.plan.all_on.walk if left else ():
            here = tuple(feed for feed in stop.feeds if feed in left)
            if here:
                again = tuple(feed for feed in here if self._is_again(step, feed))
                return replace(step, room=stop.room, feeds=here, left=len(left), again=again)
        return None

    def _is_answered(self, step: GuideStep, feed: int) -> bool:
        """Tell whether a walk needs no more of a feed; with all on again it must be live before it goes on."""
        seen = [one for one in self._in(step, feed) if one.round.note == step.note]
        return bool(seen) and (step.stage != "all on again" or seen[-1].reading.says == "live")

    def _is_again(self, step: GuideStep, feed: int) -> bool:
        """Tell whether this very walk, with all on, found it not live when it was last looked at."""
        last = self._last_as_usual(feed)
        return not step.off and last is not None and last.round.note == step.note and last.reading.says != "live"

    def _in(self, step: GuideStep, feed: int) -> Iterator[Seen]:
        """Yield the readings that answer a walk: those of its handles, where it is one handle alone or all on."""
        wanted = frozenset(one for handle in step.off for one in self._moved(handle))
        for seen in self._mine.get(feed, ()):
            if step.stage in ("alone", "feeder", "main") and seen.off - self.book.found_off != wanted:
                continue
            if step.stage in ("before alone", "after alone", "after kept on"):
                continue  # answered where the last look with all on tells; the walk lists only what that leaves
            yield seen

    # --- rounds -----------------------------------------------------------------------------------------------------

    @cached_property
    def _mine(self) -> Mapping[int, list[Seen]]:
        """The readings of this course, feed by feed."""
        found = {feed: [one for one in some if self.course.has(one)] for feed, some in self.book.readings.items()}
        return {feed: mine for feed, mine in found.items() if mine}

    def _worth_it(self, feed: int, moved: frozenset[int]) -> bool:
        """Tell whether a look says anything: it was live at first, and something it may hang on is off."""
        known = self.known.get(feed)
        first = next((seen.reading.says for seen in self._mine.get(feed, ())), "live")
        if known is None or known.standing == "proved" or first == "dead":
            return False
        return not moved.isdisjoint(known.candidates)

    @cached_property
    def _barred(self) -> frozenset[int]:
        """The breakers that nobody may turn, those that came to give trouble since the plan was made among them."""
        return frozenset(keep_off(self.home, self.book)) | self.book.found_off

    @cached_property
    def _together(self) -> Mapping[int, frozenset[int]]:
        return moves_together(self.home)

    def _moved(self, handle: int) -> frozenset[int]:
        """Return all that one movement opens; a main moves nothing else."""
        return self._together.get(handle, frozenset({handle}))

    def _was_dead(self, feed: int) -> bool:
        """Tell whether it was anything but live in a round: then it is looked at again with all on."""
        return any(
            seen.reading.says != "live" and seen.off - self.book.found_off and _walk_of(seen).startswith("round")
            for seen in self._mine.get(feed, ())
        )

    # --- one alone --------------------------------------------------------------------------------------------------

    def _alone(self) -> Iterator[tuple[GuideStep, Collection[int]]]:
        tries = [(handle, feeds) for handle, feeds in self._targets() if feeds]
        waiting = [feed for _, feeds in tries for feed in feeds if not self._tried(feed)]
        yield (
            GuideStep("before alone", 0, len(tries), note=self.course.note("all on")),
            [feed for feed in waiting if not self._seen_live_today(feed) and self._may_be_live(feed)],
        )
        for nth, (handle, feeds) in enumerate(tries, 1):
            step = GuideStep("alone", nth, len(tries), (handle,), note=self.course.note("one alone"))
            yield step, [feed for feed in feeds if self._seen_live_today(feed) or self._tried(feed)]
        after = GuideStep("after alone", 0, len(tries), note=self.course.note("all on"))
        yield after, [feed for feed in self.course.plan.feeds if self._waits_for_power(feed, "one alone")]

    def _targets(self) -> Iterator[tuple[int, tuple[int, ...]]]:
        """Yield each handle, fuses last, with the feeds that are suggested, said or already tried to be on it."""
        plan = self.course.plan
        fuses = [one for one in plan.apart if one in self.home.breakers and self.home.breakers[one].device == "fuse"]
        for handle in (*plan.handles, *fuses):
            moved = self._moved(handle)
            if moved & self._barred:
                continue
            yield handle, tuple(feed for feed in plan.feeds if self._may_be_on(feed, moved))

    def _may_be_on(self, feed: int, moved: frozenset[int]) -> bool:
        if any(seen.off - self.book.found_off == moved and _is_alone(seen) for seen in self._mine.get(feed, ())):
            return True
        known = self.known.get(feed)
        if known is None or known.standing not in (*MADE_TO_PROVE, "unknown"):
            return False
        possible = {*known.candidates} - self._feeders
        said = {*known.breakers} & possible
        if any(self.home.breakers[one].device == "fuse" for one in moved if one in self.home.breakers):
            return bool(moved & possible) and not (said and not said & moved)
        if said:
            return bool(said & moved)
        return bool(moved & possible) and len({self._moved(one) for one in possible}) <= FEW_TO_TRY

    @cached_property
    def _feeders(self) -> frozenset[int]:
        """The breakers that stay on: what hangs behind one hangs on a nearer breaker."""
        return frozenset().union(*breakers_above(self.home).values())

    def _tried(self, feed: int) -> bool:
        return any(_is_alone(seen) for seen in self._mine.get(feed, ()))

    def _last_as_usual(self, feed: int) -> Seen | None:
        seen = self.book.readings.get(feed, ())
        return next((one for one in reversed(seen) if one.off <= self.book.found_off), None)

    def _seen_live_today(self, feed: int) -> bool:
        """Tell whether the last look with all on was today, the same way, and live: a proof takes that before it."""
        last = self._last_as_usual(feed)
        if last is None or last.reading.says != "live" or day(last.round) != self.today:
            return False
        return last.round.method == self.manner.method(self.groups[feed])

    def _may_be_live(self, feed: int) -> bool:
        """Tell whether looking again with all on can help: today's rounds did not end with it dead."""
        last = self._last_as_usual(feed)
        if last is None or last.reading.says == "live" or day(last.round) != self.today:
            return True
        return _walk_of(last) == "all on" and self.course.has(last)

    def _waits_for_power(self, feed: int, *walks: str) -> bool:
        """Tell whether it was dead in one of these walks, and nobody saw it live since all is back on."""
        last, tried = self._last_as_usual(feed), [seen for seen in self._mine.get(feed, ()) if _walk_of(seen) in walks]
        dead = [seen.place for seen in tried if seen.reading.says != "live"]
        return bool(dead) and (last is None or last.place < dead[-1] or last.reading.says != "live")

    # --- feeders and mains, which stayed on ---------------------------------------------------------------------------

    def _kept_on(self) -> Iterator[tuple[GuideStep, Collection[int]]]:
        """Yield what stayed on in the rounds, each alone, mains last: all that hangs on it should be dead with it."""
        plan = self.course.plan
        for nth, off in enumerate(plan.kept_on, 1):
            if self._barred.intersection(off):
                continue
            is_main = not any(handle in self.home.breakers for handle in off)
            note = self.course.note("main off" if is_main else "feeder off")
            step = GuideStep("main" if is_main else "feeder", nth, len(plan.kept_on), off, note=note)
            yield step, [feed for feed in plan.feeds if self._should_be_dead(feed, off)]
        after = GuideStep("after kept on", 0, len(plan.kept_on), note=self.course.note("all on"))
        yield after, [feed for feed in plan.feeds if self._waits_for_power(feed, "feeder off", "main off")]

    def _should_be_dead(self, feed: int, off: Collection[int]) -> bool:
        """Tell whether it was live with all on, and hangs, as tested or stated, on what these handles open.

        With the main of the whole home off everything should be: also that of which nobody knows the breaker. What the
        rounds only suggest is no reason to look: it would tell nothing but that its breaker is one of those below.
        """
        known, last = self.known.get(feed), self._last_as_usual(feed)
        if known is None or last is None or last.reading.says != "live":
            return False
        under = below(self.home, off)
        if known.standing in ("proved", "claimed", "traced", "expired"):
            return bool(known.breakers) and {*known.breakers} <= under.breakers
        return under.is_all

    @cached_property
    def groups(self) -> Mapping[int, str]:
        """Feed -> the group of its kind."""
        return {place.feed.id: group_of(place) for place in existing_feeds(self.home)}


def _walk_of(seen: Seen) -> str:
    """Return the walk that a reading's note names."""
    told = noted(seen.round)
    return told.walk if told else ""


def _is_alone(seen: Seen) -> bool:
    return _walk_of(seen) == "one alone"
