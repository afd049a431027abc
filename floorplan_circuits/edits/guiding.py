"""An answer on an evening of test rounds: into the log at once, so that stopping anywhere loses nothing."""

from collections.abc import Mapping, Sequence

from floorplan_circuits.edits.edited import Edited, Refused, counted, edit
from floorplan_circuits.edits.recording import record_round, strike
from floorplan_circuits.edits.seen import place_of_feed
from floorplan_circuits.edits.ties import tie
from floorplan_circuits.findings import Conclusion
from floorplan_circuits.home.home import Home
from floorplan_circuits.rounds.steps import GuideStep, Manner, group_of

A_SLIP = "answered by mistake"


@edit
def answer(home: Home, step: GuideStep, says: Mapping[int, str], manner: Manner, date: str) -> Edited:
    """Record what feeds of a step showed, one entry a way of looking.

    Raises `Refused` for a feed that the step does not ask about, and as `record_round` does.
    """
    if any(feed not in step.feeds for feed in says):
        raise Refused("That is not asked here any more. Answer what stands in the guide now.")
    by_method: dict[str, list[tuple[int, str]]] = {}
    for feed, shown in says.items():
        by_method.setdefault(manner.method(group_of(place_of_feed(home, feed))), []).append((feed, shown))
    after, made = home, list[int]()
    for method, readings in by_method.items():
        edited = record_round(
            after,
            step.off,
            readings,
            method=method,
            tester_before=manner.tried,
            tester_after=manner.tried,
            each_hot=manner.each_hot,
            helper=manner.helper,
            date=date,
            who=manner.who,
            note=step.note,
        )
        after = edited.home
        made.extend(edited.made)
    if not made:
        raise Refused("Nothing was answered.")
    return Edited(after, f"Record {counted(len(says), 'answer')}", tuple(made))


@edit
def take_back(home: Home, entries: Sequence[int], date: str, who: str) -> Edited:
    """Strike an answer given by mistake: it is asked again. Raises `Refused` as striking does."""
    after, made = home, list[int]()
    for entry in entries:
        edited = strike(after, entry, A_SLIP, date=date, who=who)
        after = edited.home
        made.extend(edited.made)
    return Edited(after, "Take the last answer back", tuple(made))


def to_tie(home: Home, known: Mapping[int, Conclusion], feeds: Sequence[int]) -> tuple[int, ...]:
    """Return the feeds that tests suggest or prove to be on one breaker, and that nobody has tied yet."""
    return tuple(
        feed
        for feed in feeds
        if (one := known.get(feed)) is not None
        and one.standing in ("suggested", "proved")
        and len(one.breakers) == 1
        and place_of_feed(home, feed).feed.on.how == "not known"
    )


@edit
def tie_found(home: Home, known: Mapping[int, Conclusion], feeds: Sequence[int]) -> Edited:
    """Tie feeds to the breakers that tests suggest or prove, one after another; what is tied already stays."""
    after, count = home, 0
    for feed in to_tie(home, known, feeds):
        after = tie(after, [feed], known[feed].breakers[0]).home
        count += 1
    if not count:
        raise Refused("No feed is left that tests lay to one breaker and that is not tied yet.")
    return Edited(after, f"Tie {counted(count, 'feed')} as found")
