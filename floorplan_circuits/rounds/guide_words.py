"""A step of the guide in words: what to turn, where the handle sits, where to go, what to look at."""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace

from floorplan_circuits.findings import Findings, Look, TestPlan
from floorplan_circuits.home.days import written
from floorplan_circuits.home.home import FeedPlace, Home, existing_feeds, mains
from floorplan_circuits.home.power import Panel
from floorplan_circuits.home.trade_words import home_words
from floorplan_circuits.rounds.steps import GuideStep
from floorplan_circuits.rounds.wording import CAUTIONS, look
from floorplan_circuits.supply.handles import moves_together
from floorplan_circuits.supply.numbering import reading_order

STARTS_AGAIN = (
    "What starts by itself when power is back, such as a saw, a heater or an oven: switch it off at the thing first."
)
MAIN_CARE = (
    "The whole home goes dark, where you stand too, and this computer if it has no battery: save, and take a torch. "
    "Tell everybody first. Nobody's medical equipment, lift or lock may depend on it.",
    "Whatever draws much, such as a range, heating or pumps: switch it off at the thing first, and on again one after "
    "another once the {main} is back on.",
    "A {main} that nobody moved for years may not go back on. If the home cannot wait for an electrician, leave it "
    "out.",
    "Wires on the supply side of it stay live. The panel's cover stays on.",
)
"""Before a main is turned off: common practice, no source."""
FEW = 5
"""So many handles are each told with where they sit."""
HEADS = {
    "all on": "All on",
    "round": "Round {nth} of {of}",
    "all on again": "All on again",
    "before alone": "All on, before each is tried alone",
    "alone": "Alone, {nth} of {of}",
    "after alone": "All on, the last look",
    "feeder": "{off} alone, with all behind it",
    "main": "The {main}, alone and last",
    "after kept on": "All on, the last look",
    "done": "That is all for now",
}
WHY = {
    "all on": "Look once at everything while all is as usual. What is dead now shows nothing later.",
    "round": "Look only at what stands here: nothing else can tell anything in this round.",
    "all on again": "What was dead must be live again. If not, look for a tripped device or a burnt-out lamp.",
    "before alone": "See each of these live today, before its breaker is tried alone.",
    "alone": "One breaker alone is off now. This is what proves.",
    "after alone": "See that each is live again.",
    "feeder": "All behind it should be dead now. What is live has another supply: treat as live whatever is off.",
    "main": "Everything should be dead now. What is live has another supply: treat as live whatever is off.",
    "after kept on": "See that each is live again.",
    "done": "",
}

AGAIN = (
    "Not live with all on: a lamp that burnt out, or something that tripped, such as a breaker or a ground-fault "
    "device. See to it, then look again. Whoever skips it goes on without it: nothing is found or proved of it."
)
"""What stops the walk: whatever is dead with all on shows nothing by being dead with a breaker off."""
LOOKED_BEFORE = "it was not live when you looked before"


@dataclass(frozen=True, slots=True)
class ToTurn:
    """What to turn before a walk: handles off, handles back on, in the panel's order, with where each sits.

    `mind`: what to see to before anything is turned.
    """

    off: tuple[str, ...]
    on: tuple[str, ...]
    also: str = ""
    mind: tuple[str, ...] = ()

    @property
    def is_nothing(self) -> bool:
        """Whether all handles are as they should be."""
        return not (self.off or self.on)


@dataclass(frozen=True, slots=True)
class GuideWords:
    """One step as a person reads it. `looks` are those of this room, each with its feed."""

    head: str
    why: str
    state: str
    room: str
    left: str
    looks: tuple[tuple[int, Look], ...]


def guide_words(step: GuideStep, plan: TestPlan, findings: Findings) -> GuideWords:
    """Return a step in words."""
    off = ", ".join(_marks(step.off, findings))
    places = {place.feed.id: place for place in existing_feeds(findings.home)}
    looks = tuple((feed, _look(feed, places[feed], step, plan, findings)) for feed in step.feeds)
    main = home_words(findings.home).main
    return GuideWords(
        head=HEADS[step.stage].format(nth=step.nth + step.done, of=step.of + step.done, off=off, main=main),
        why=AGAIN if step.again else WHY[step.stage],
        state=state_in_words(step.off, findings),
        room=_room(step, looks, findings),
        left="This is the last look of this walk." if step.left == 1 else f"{step.left} looks left in this walk.",
        looks=looks,
    )


def _look(feed: int, place: FeedPlace, step: GuideStep, plan: TestPlan, findings: Findings) -> Look:
    shown = look(0, place, plan.advice.get(feed, ""), findings)
    return replace(shown, mind=(LOOKED_BEFORE, *shown.mind)) if feed in step.again else shown


def _room(step: GuideStep, looks: tuple[tuple[int, Look], ...], findings: Findings) -> str:
    found = findings.home.rooms.get(step.room) if step.room is not None else None
    if found is None:
        return "Not in a drawn room" if findings.home.rooms else ""
    return " · ".join(words for words in (found.name, looks[0][1].level if looks else "") if words)


def state_in_words(off: Collection[int], findings: Findings) -> str:
    """Return what is off in a walk, however it came about: whoever comes back reads it at the panel."""
    found_off = any(breaker.found.is_off for breaker in findings.home.breakers)
    but = ", but for those found off" if found_off else ""
    return f"Off: {', '.join(_marks(off, findings))}. All others on{but}." if off else f"All breakers on{but}."


def to_turn(now_off: Collection[int], step: GuideStep, findings: Findings) -> ToTurn:
    """Return what changes from the handles that are off to those of the step."""
    off, on = {*step.off} - {*now_off}, {*now_off} - {*step.off}
    together = moves_together(findings.home)
    tied = [one for one in off if len(together.get(one, ())) > 1]
    also = f"{', '.join(_marks(tied, findings))} moves with what it is tied to." if tied else ""
    mind = tuple(_minded(step, findings)) if off else ()
    return ToTurn(tuple(_told(off, findings)), tuple(_told(on, findings)), also, mind)


def _minded(step: GuideStep, findings: Findings) -> Iterator[str]:
    """Yield what to see to before a feeder or a main is turned off."""
    if step.stage == "main":
        main = home_words(findings.home).main
        yield from (words.format(main=main) for words in MAIN_CARE)
    elif step.stage == "feeder":
        named = ", ".join(_fed_by(step.off, findings.home)) or "What is behind it"
        yield f"{named} goes dark with it, whole: tell whoever is there. {STARTS_AGAIN}"


def _fed_by(feeders: Collection[int], home: Home) -> Iterator[str]:
    """Yield the names of the panels that some breakers feed."""
    for panel in home.panels:
        if any(by.kind == "breaker" and by.breaker in feeders for by in panel.fed_by):
            yield panel.name


def _told(handles: Collection[int], findings: Findings) -> Iterator[str]:
    """Yield a few handles each with its place; of many, one line a panel: the drawn face rings them all."""
    home = findings.home
    if len(handles) <= FEW:
        yield from _where(handles, findings)
        return
    for panel in home.panels:
        marks = _marks([one for one in handles if home.breakers[one].panel == panel.id], findings)
        if marks:
            name = f"{panel.name}: " if len(home.panels) > 1 else ""
            yield f"{name}{', '.join(marks)}"


def _where(handles: Collection[int], findings: Findings) -> Iterator[str]:
    """Yield each handle with where it sits on the panel: '7, left, 4th down'."""
    for handle in in_order(findings.home):
        if handle in handles:
            yield ", ".join(words for words in (findings.marks[handle], position(handle, findings)) if words)


def position(handle: int, findings: Findings) -> str:
    """Return where a breaker sits on its panel's face, in words; '' where that is not known."""
    breaker = findings.home.breakers.get(handle)
    panel = findings.panels.get(breaker.panel) if breaker is not None else None
    if breaker is None or panel is None or not _is_laid_out(findings.home.panels[breaker.panel]):
        return ""
    row, column = panel.cells.get(breaker.poles[0].space, (-1, 0))
    if row < 0:
        return ""
    name = findings.home.panels[breaker.panel].name if len(findings.home.panels) > 1 else ""
    if panel.rows == 1:
        return ", ".join(words for words in (name, f"{nth(column + 1)} from the left") if words)
    side = ("left", "right")[column] if panel.columns > 1 else ""
    return ", ".join(words for words in (name, side, f"{nth(row + 1)} down") if words)


def _is_laid_out(panel: Panel) -> bool:
    """Tell whether somebody said how the panel's spaces lie: of one that came with a box alone nobody was asked."""
    asked = panel.level is not None or panel.at is not None or panel.system != "not known"
    return asked or bool(panel.rows) or panel.numbering != Panel.model_fields["numbering"].default


def nth(number: int) -> str:
    """Return a number as its place in a row.

    Examples:
        >>> [nth(number) for number in (1, 2, 3, 4, 11, 22)]
        ['1st', '2nd', '3rd', '4th', '11th', '22nd']
    """
    ending = {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th") if number % 100 not in (11, 12, 13) else "th"
    return f"{number}{ending}"


def _marks(handles: Collection[int], findings: Findings) -> list[str]:
    return [findings.marks[handle] for handle in in_order(findings.home) if handle in handles]


def in_order(home: Home) -> tuple[int, ...]:
    """Return all handles in the order a hand finds them: the mains, then the breakers panel by panel."""
    return (*(main.id for _, main in mains(home)), *reading_order(home))


def cautions(findings: Findings) -> tuple[str, ...]:
    """Return what to mind before the first handle is turned: what all homes have, and what this one names."""
    named = [
        f"{box.mark} {device.name or device.kind}: {device.critical}"
        for box in findings.home.boxes
        for device in box.devices
        if device.critical
    ]
    return (*CAUTIONS, STARTS_AGAIN, *([f"In this home: {'; '.join(named)}."] if named else []))


def evidence(feed: int, findings: Findings, shown: Mapping[int, Collection[tuple[str, str]]]) -> str:
    """Return why a feed is suggested or proved to be on its breaker: how we know, and in which states it was dead.

    `shown` holds, for each feed, what it showed with what off.
    """
    one = findings.conclusions[feed]
    dead = [off for says, off in shown.get(feed, ()) if says == "dead" and off]
    said = f"{one.says} ({written(one.date)})" if one.date else one.says
    return f"{said}; dead with {' · with '.join(dead)} off" if dead else said
