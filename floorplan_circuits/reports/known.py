"""What `known` says of a home: each feed with what it may hang on and how we know, and the readings that clash.

The JSON's form is documented in the project's `shared/`.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from floorplan_circuits.findings import Conclusion, Disagreement, Findings
from floorplan_circuits.home.called import called_there
from floorplan_circuits.home.days import written
from floorplan_circuits.home.home import FeedPlace, existing_feeds
from floorplan_circuits.home.log import Traced
from floorplan_circuits.reports.check import part_in_words
from floorplan_circuits.supply.reach import Nearest, nearest_breakers
from floorplan_circuits.survey.log_book import LogBook, day
from floorplan_circuits.survey.telling import Telling

MORE_THAN_ONE, ELSEWHERE = "more than one", "elsewhere"
SAID_BY = {"label": "a label says so", "person": "a person says so", "not said": "nobody says who says so"}
IN_WORDS = {
    "proved": "tested",
    "traced": "traced",
    "suggested": "rounds suggest it",
    "claimed": "only said to be",
    "unknown": "nobody knows",
    "expired": "tested before a change",
    "contradicted": "tests disagree",
}
CAUTION = "Whatever is not tested counts as live. Test before you touch, and prove the tester before and after."


@dataclass(frozen=True, slots=True)
class Sources:
    """What the report is made from: findings, the log in order, its words, and what is stated of each feed."""

    findings: Findings
    book: LogBook
    tell: Telling
    near: dict[int, Nearest]

    @classmethod
    def of(cls, findings: Findings) -> "Sources":
        """Gather them."""
        book = LogBook(findings.home)
        return cls(findings, book, Telling.of(findings.home, book), nearest_breakers(findings.home))


def as_json(findings: Findings) -> dict[str, Any]:
    """Return the report as plain values, feeds in the order of their boxes."""
    sources = Sources.of(findings)
    return {
        "home": findings.home.name,
        "feeds": [_feed(place, sources) for place in existing_feeds(findings.home)],
        "conflicts": [_conflict(one, findings) for one in findings.disagreements],
    }


def _feed(place: FeedPlace, sources: Sources) -> dict[str, Any]:
    one = sources.findings.conclusions[place.feed.id]
    return {
        **_where(place.feed.id, sources.findings),
        "stated": _stated(place, sources),
        "candidates": _candidates(one, sources),
        "standing": one.standing,
        "because": list(_because(place, one, sources)),
    }


def _where(feed: int, findings: Findings) -> dict[str, Any]:
    one = findings.conclusions[feed]
    found, box = findings.boxes.get(one.box), findings.home.boxes[one.box]
    record = next(record for record in box.feeds() if record.id == feed)
    return {
        "feed": feed,
        "box": box.mark,
        "room": found.room_name if found else "",
        "device": part_in_words(feed, findings),
        "part": record.part,
    }


def _stated(place: FeedPlace, sources: Sources) -> list[str]:
    near = sources.near[place.feed.id]
    return [*(sources.tell.handle(breaker) for breaker in near.breakers), *near.others]


def _candidates(one: Conclusion, sources: Sources) -> list[str]:
    """Return the breakers that no reading excludes; until a test of the feed itself, the world beside them too."""
    named = [sources.tell.handle(breaker) for breaker in one.candidates]
    return named if one.standing == "proved" else [*named, MORE_THAN_ONE, ELSEWHERE]


def _because(place: FeedPlace, one: Conclusion, sources: Sources) -> Iterator[str]:
    """Yield how we know: what follows first, then what is stated, then what was seen in the order of the log."""
    yield from _follows(place, one, sources)
    yield from (words for _, _, words in _seen(place, sources))


def _follows(place: FeedPlace, one: Conclusion, sources: Sources) -> Iterator[str]:
    yield one.says
    if stated := _stated(place, sources):
        hangs = "behind another device, on" if place.feed.on.how == "behind" else "on"
        yield f"stated {hangs} {', '.join(stated)}: {SAID_BY[place.feed.said_by]}"
    for device in one.behind:
        yield f"seen to hang behind {sources.findings.home.boxes[sources.findings.conclusions[device].box].mark}"


def _seen(place: FeedPlace, sources: Sources) -> list[tuple[int, str, str]]:
    """Return its readings and traces in the order of the log: where they stand there, what they say, in words."""
    feed, tell = place.feed.id, sources.tell
    seen = [(one.place, one.reading.says, tell.reading(one)) for one in sources.book.readings.get(feed, ())]
    traced = [(at, "traced", _trace(entry, tell)) for at, entry in sources.book.traces.get(feed, ())]
    return sorted([*seen, *traced])


def _trace(entry: Traced, tell: Telling) -> str:
    how = "cable followed by eye" if entry.way == "followed by eye" else f"signal traced, {_passes(entry.passes)}"
    when = ", ".join(part for part in (written(day(entry)) or "no date", entry.who) if part)
    return f"{when}: {how} to {tell.handle(entry.handle)}"


def _passes(count: int) -> str:
    return "one pass" if count == 1 else f"{count} passes"


def _conflict(one: Disagreement, findings: Findings) -> dict[str, Any]:
    return {
        **_where(one.feed, findings),
        "says": one.says,
        "may_be": list(one.may_be),
        "do": one.do,
        "entries": list(one.entries),
    }


# --- text -----------------------------------------------------------------------------------------------------------


def as_text(findings: Findings) -> str:
    """Return the report for a person, room by room, what clashes first."""
    sources = Sources.of(findings)
    rooms: dict[str, list[FeedPlace]] = {}
    for place in existing_feeds(findings.home):
        found = findings.boxes.get(place.box.id)
        rooms.setdefault((found.room_name if found else "") or "In no room", []).append(place)
    lines = [_title(findings), *(line for one in findings.disagreements for line in _clash(one))]
    for room, places in rooms.items():
        lines += ["", room, *(line for place in places for line in _lines(place, sources))]
    return "\n".join([*lines, "", CAUTION])


def _title(findings: Findings) -> str:
    name, feeds = findings.home.name or "This home", len(findings.conclusions)
    tested = sum(one.standing == "proved" for one in findings.conclusions.values())
    clashes = len(findings.disagreements)
    odds = "no readings clash" if not clashes else f"readings clash about {clashes}"
    return f"{name}: {feeds} {'feed' if feeds == 1 else 'feeds'}, {tested} tested, {odds}."


def _clash(one: Disagreement) -> Iterator[str]:
    yield f"\n{one.says}"
    yield f"    Perhaps {'; or '.join(one.may_be)}."
    yield f"    {one.do}"


def _lines(place: FeedPlace, sources: Sources) -> Iterator[str]:
    one = sources.findings.conclusions[place.feed.id]
    what = called_there(place) or part_in_words(place.feed.id, sources.findings)
    date = f" {written(one.date)}" if one.date else ""
    yield f"  {place.box.mark}  {what}: {_on(one, sources)}{IN_WORDS[one.standing]}{date}"
    for words in _follows(place, one, sources):
        if words != IN_WORDS[one.standing]:
            yield f"      {words}"
    yield from (f"      {words}" for _, says, words in _seen(place, sources) if says != "live")
    if lives := _live_with_off(place, sources):
        yield f"      live with {lives} off"


def _live_with_off(place: FeedPlace, sources: Sources) -> str:
    """Return all that was ever off while it was live, many rounds in one line."""
    seen = sources.book.readings.get(place.feed.id, ())
    off = [handle for one in seen if one.reading.says == "live" for handle in sorted(one.off)]
    turned = [handle for handle in dict.fromkeys(off) if handle not in sources.book.found_off]
    return ", ".join(sources.tell.handle(handle) for handle in turned)


def _on(one: Conclusion, sources: Sources) -> str:
    named = [sources.tell.handle(breaker) for breaker in one.breakers] + list(one.others)
    return f"{', '.join(named)}, " if named else ""
