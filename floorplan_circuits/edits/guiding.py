"""An answer on an evening of test rounds: into the log at once, so that stopping anywhere loses nothing."""

from collections.abc import Collection, Iterable, Mapping, Sequence

from floorplan_circuits.edits.breakers import set_breaker
from floorplan_circuits.edits.edited import Edited, Refused, counted, edit, there
from floorplan_circuits.edits.recording import record_round, strike
from floorplan_circuits.edits.seen import place_of_feed
from floorplan_circuits.edits.ties import tie
from floorplan_circuits.findings import Conclusion
from floorplan_circuits.home.home import Home
from floorplan_circuits.rounds.steps import GuideStep, Manner, group_of
from floorplan_circuits.supply.numbering import reading_order

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


def opens_unsaid(home: Home, known: Mapping[int, Conclusion], feeds: Iterable[int], off: Collection[int]) -> list[int]:
    """Return the breakers, in the panel's order, that open feeds may be on, where nobody said what they open.

    `off` are those tried now. While it is not said, a lamp proves nothing: a breaker that opens the neutral puts a lamp
    out and may leave the hot live.
    """
    open_ones = (one for feed in feeds if (one := known.get(feed)) is not None and one.standing != "proved")
    named = {*off, *(breaker for one in open_ones for breaker in one.breakers)}
    return [one for one in reading_order(home) if one in named and home.breakers[one].opens == "not known"]


@edit
def say_opens_hot(home: Home, breakers: Sequence[int]) -> Edited:
    """Say of breakers, as somebody knows, that they open the hot alone, those of two poles both hots."""
    after = home
    for one in breakers:
        poles = len(there(after.breakers, one, "breaker").poles)
        after = set_breaker(after, one, opens="hot" if poles == 1 else "both hots").home
    return Edited(after, f"Say that {counted(len(breakers), 'breaker opens', 'breakers open')} the hot alone")
