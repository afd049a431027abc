"""A plan in words, for those who carry it out away from the computer: on paper and on a phone alike."""

from collections.abc import Collection, Iterator

from floorplan_circuits.findings import (
    Alone,
    Findings,
    Look,
    PlannedRound,
    RoundsInWords,
    TestPlan,
    ToTry,
    Turned,
    Walked,
)
from floorplan_circuits.findings.places import OUTDOORS, is_outdoors
from floorplan_circuits.home.called import feed_called
from floorplan_circuits.home.handling import FUSE_BACK, FUSE_CARE, is_fuse
from floorplan_circuits.home.home import FeedPlace, existing_feeds, mains
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.home.trade_words import home_words
from floorplan_circuits.rounds.answers import plan_code
from floorplan_circuits.rounds.kept_on import never_dark
from floorplan_circuits.rounds.minded import minded
from floorplan_circuits.supply.numbering import reading_order

CAUTIONS = (
    "Before the first round: tell the household. Medical equipment (breathing, oxygen, a stairlift) stays on until "
    "whoever depends on it agrees. Shut computers down; mind pumps, freezers, aquariums, locks and alarms.",
    "Only one person turns breakers, and says each number aloud. Keep off one that buzzes, is hot or does not open.",
    "Nothing is opened and nothing is touched for this. A plan suggests; it never shows that a wire is dead.",
)

FEEDER_ALONE = "It feeds others; only if wanted: all behind it should be dead. Tell whoever is there first."
MAIN_ALONE = (
    "The {main}, last and only if wanted: everything should be dead. Torch in hand, what draws much switched off "
    "first. One that nobody moved for years may not go back on."
)


def in_words(plan: TestPlan, findings: Findings) -> RoundsInWords:
    """Return the plan as people carry it out: handles as the panel numbers them, rooms in walking order."""
    places = {place.feed.id: place for place in existing_feeds(findings.home)}
    looks = {feed: look(at, places[feed], plan.advice.get(feed, ""), findings) for at, feed in enumerate(plan.feeds)}
    return RoundsInWords(
        code=plan_code(plan),
        home=findings.home.name,
        cautions=cautions(plan, findings),
        left_alone=tuple(left_alone(plan, findings)),
        not_watched=tuple(not_watched(plan, findings)),
        walk=tuple(_walked(stop.room, [looks[feed] for feed in stop.feeds], findings) for stop in plan.all_on.walk),
        rounds=tuple(_rounds(plan, findings)),
        to_try=tuple(_to_try(plan, findings)),
        solo=tuple(
            Alone(findings.marks[one.handle], one.handle, tuple(looks[feed] for feed in one.feeds)) for one in plan.solo
        ),
    )


def cautions(plan: TestPlan, findings: Findings) -> tuple[str, ...]:
    """Return what to mind before the first round: all that holds everywhere, and what of this home goes off when."""
    household, *others = CAUTIONS
    return (household, *minded(plan, findings), *others)


def left_alone(plan: TestPlan, findings: Findings) -> Iterator[str]:
    """Yield what stays as it is in every round, and what is tested by itself, in sentences."""
    marks = findings.marks
    for handle, why in plan.left_alone.items():
        if handle in marks:
            yield f"Leave {marks[handle]} as it is: {why}."
    if plan.at_most:
        yield _limits(plan, findings)
    resting = [breaker.id for breaker in findings.home.breakers if breaker.found.is_off]
    dark = never_dark(findings.home, plan.apart, plan.left_alone, resting)
    apart = [marks[handle] for handle in plan.apart if handle not in dark]
    if apart:
        yield f"Kept on, tested by themselves: {', '.join(apart)}."
    if plan.kept_on:
        told = ", then ".join(" with ".join(marks[handle] for handle in handles) for handles in plan.kept_on)
        yield f"After the rounds, each alone, and only if you want to: {told}. What hangs on it should then be dead."
    if dark:
        yield f"Never off for a test, since something on it must stay on: {', '.join(marked(dark, findings))}."
    fuses = [marks[handle] for handle in plan.apart if is_fuse(findings.home, handle)]
    if fuses:
        one = len(fuses) == 1
        yield f"{', '.join(fuses)} {'is a fuse' if one else 'are fuses'}: out one at a time. {FUSE_CARE} {FUSE_BACK}"


def not_watched(plan: TestPlan, findings: Findings) -> Iterator[str]:
    """Yield what shows nothing from outside, those for which the same is to be done in one sentence."""
    places = {place.feed.id: place for place in existing_feeds(findings.home)}
    called: dict[str, dict[str, None]] = {}
    watched = {*plan.feeds}
    for feed, do in plan.advice.items():
        if feed not in watched:
            called.setdefault(do, {})[feed_called(places[feed])] = None
    for do, feeds in called.items():
        yield f"{', '.join(feeds)}: {do}."


def look(at: int, place: FeedPlace, advice: str, findings: Findings) -> Look:
    """Return in words what to look at for one feed."""
    found = findings.boxes[place.box.id]
    mind = tuple(words for words in (place.box.reach, advice) if words)
    room = OUTDOORS if is_outdoors(place.box, found.room_name) else found.room_name
    return Look(at, place.box.mark, _what(place), mind, room, found.level_name)


def _what(place: FeedPlace) -> str:
    """Return what the feed is of: the device by name and kind, its part, and its gang where the box has several."""
    device, box = place.device, place.box
    if device is None:
        return place.feed.part or "cable that passes"
    kind = kind_named(device.kind).label
    told = kind.casefold() in device.name.casefold()
    called = device.name if told else f"{device.name} ({kind})" if device.name else kind
    gang = f"gang {device.slot} of {box.gangs}" if box.gangs > 1 else ""
    return ", ".join(words for words in (called, place.feed.part, gang) if words)


def _walked(room: int | None, looks: Collection[Look], findings: Findings) -> Walked:
    found = findings.home.rooms.get(room) if room is not None else None
    levels = {look.level for look in looks}
    outdoors = OUTDOORS if {look.room for look in looks} == {OUTDOORS} else ""
    return Walked(found.name if found else outdoors, levels.pop() if len(levels) == 1 else "", tuple(looks))


def _rounds(plan: TestPlan, findings: Findings) -> Iterator[Turned]:
    """Yield all on, each round, all on again, each with what is turned before it."""
    before: Collection[int] = ()
    for one in (plan.all_on, *plan.rounds, plan.all_on):
        off = one.off
        yield Turned(
            _marks(off, findings),
            _marks({*off} - {*before}, findings),
            _marks({*before} - {*off}, findings),
            tuple(rests(one, findings)),
        )
        before = off


def rests(one: PlannedRound, findings: Findings) -> Iterator[str]:
    """Yield where on the walk of a round something is turned on for a while, in sentences."""
    places = {place.feed.id: place for place in existing_feeds(findings.home)}
    for rest in one.rests:
        told, place = ", ".join(marked(rest.handles, findings)), places[rest.feed]
        if rest.feed == one.walk[0].feeds[0]:
            yield f"First: {told} on for as long as off, then off again with the others of this round."
            continue
        room = findings.boxes[place.box.id].room_name
        first = next((stop.feeds[0] for stop in one.walk if rest.feed in stop.feeds), None)
        where = room if room and rest.feed == first else " in ".join(word for word in (place.box.mark, room) if word)
        yield f"Before {where}: turn {told} on for as long as off, then off again."


def _to_try(plan: TestPlan, findings: Findings) -> Iterator[ToTry]:
    """Yield the handles to be tried alone of which nothing is suggested yet, with what to mind."""
    home, suggested = findings.home, {one.handle for one in plan.solo}
    for handle in reading_order(home):
        if handle in plan.handles and handle not in suggested:
            yield ToTry(findings.marks[handle])
    for handle in plan.apart:
        if is_fuse(home, handle):
            yield ToTry(findings.marks[handle], f"A fuse: out alone. {FUSE_CARE} {FUSE_BACK}")
    main_alone = MAIN_ALONE.format(main=home_words(home).main)
    for handles in plan.kept_on:
        is_main = not any(handle in home.breakers for handle in handles)
        yield ToTry(", ".join(findings.marks[one] for one in handles), main_alone if is_main else FEEDER_ALONE)


def _limits(plan: TestPlan, findings: Findings) -> str:
    """Return how long handles may be off, told of all at once where it is the same for all."""
    by_minutes: dict[int, list[int]] = {}
    for handle, minutes in plan.at_most.items():
        by_minutes.setdefault(minutes, []).append(handle)
    if len(by_minutes) == 1 and {*plan.handles} <= {*plan.at_most}:
        return f"No breaker stays off for longer than {next(iter(by_minutes))} min at a stretch."
    told = "; ".join(f"{', '.join(marked(some, findings))} {minutes} min" for minutes, some in by_minutes.items())
    return f"Not off for longer at a stretch: {told}."


def marked(handles: Collection[int], findings: Findings) -> tuple[str, ...]:
    """Return the numbers of handles, mains among them, in the order in which a hand finds them."""
    return tuple(findings.marks[one] for one in (*_mains(findings), *reading_order(findings.home)) if one in handles)


def _mains(findings: Findings) -> Iterator[int]:
    return (main.id for _, main in mains(findings.home))


def _marks(handles: Collection[int], findings: Findings) -> tuple[str, ...]:
    """Return the numbers of handles in the panel's order, so that the hand goes down it once."""
    return tuple(findings.marks[handle] for handle in reading_order(findings.home) if handle in handles)
