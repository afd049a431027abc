"""The shut-off of chosen boxes: everything a person needs to know before the cover comes off."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from floorplan_circuits.findings import BoxWhenOff, Conclusion, Findings, GoesDark, OtherChoice, ShutOff, ToTurnOff
from floorplan_circuits.home.boxes import Device
from floorplan_circuits.home.called import feed_called
from floorplan_circuits.home.critical import rank, to_mind
from floorplan_circuits.home.home import FeedPlace, Home, mains
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.shutoff.around import Around, Helping, light, tested_point
from floorplan_circuits.shutoff.choices import Board, Choice, cheapest, single_handles
from floorplan_circuits.shutoff.cut import Cut, chosen_cut, nearest_cut
from floorplan_circuits.shutoff.dark import critical_among, places_of
from floorplan_circuits.shutoff.handles import Handles
from floorplan_circuits.shutoff.nearest import Spot, spot_of
from floorplan_circuits.shutoff.openable import stay_shut
from floorplan_circuits.shutoff.targets import Target, entering, targets, with_candidates
from floorplan_circuits.shutoff.telling_why import stays_live, unknown, why
from floorplan_circuits.shutoff.wiring import Wiring
from floorplan_circuits.supply.handles import HANDLE_KINDS
from floorplan_circuits.supply.walks import reached
from floorplan_circuits.survey.states import Judge, box_states
from floorplan_circuits.survey.telling import Telling

MOST_CHOICES = 3
NOT_OPENED = "nobody has looked inside, or not since it changed: more may enter"


@dataclass(frozen=True)
class Desk:
    """What every shut-off of a home is worked out from: its findings, and what they were judged by.

    What is the same for all boxes is worked out once, when it is first asked for.
    """

    findings: Findings
    judge: Judge
    tell: Telling

    @property
    def home(self) -> Home:
        """The home."""
        return self.findings.home

    @cached_property
    def places(self) -> Mapping[int, FeedPlace]:
        """Where each existing feed is."""
        return places_of(self.home)

    @cached_property
    def handles(self) -> Handles:
        """Which handles may be turned off, and which move together."""
        return Handles.of(self.home, self.judge.evidence.record)

    @cached_property
    def critical(self) -> frozenset[int]:
        """The feeds of critical things."""
        return critical_among(self.places)

    @cached_property
    def helping(self) -> Helping:
        """Points to prove a tester on, and lights."""
        known, rooms = self.findings.conclusions, self.findings.room_of
        return Helping(self.places.values(), known, rooms, self.home, self.judge.evidence.record)

    @cached_property
    def order(self) -> Mapping[int, int]:
        """Handle -> its place among all, as a person reads the panels."""
        return {handle: at for at, handle in enumerate(self.findings.marks)}

    @cached_property
    def wiring(self) -> Wiring:
        """What supplies what, and the breakers that tests put feeds on though the map does not say so."""
        supplies = self.judge.evidence.graph.supplies
        return Wiring.of({**supplies, **with_candidates(supplies, self._elsewhere_than_stated())}, self.handles.resting)

    def _elsewhere_than_stated(self) -> Iterator[Target]:
        """Yield every feed that was tested or suggested on a breaker that the map does not say."""
        for feed, one in self.findings.conclusions.items():
            if not {*one.breakers} <= {*self.judge.stated[feed].breakers}:
                yield Target(("feed", feed), feed, tuple(b for b in one.breakers if b in self.home.breakers))


def shut_off(desk: Desk, boxes: Sequence[int], chosen: frozenset[int] = frozenset()) -> ShutOff:
    """Return what to turn off before these boxes are opened, and what it does and does not do.

    Handles that were `chosen` stand in place of those nearest the load: all that is told is of them.
    """
    wanted = targets(desk.judge.evidence, boxes, desk.findings.conclusions, desk.findings.shares_neutral)
    wiring = desk.wiring.laid_over(with_candidates(desk.judge.evidence.graph.supplies, wanted))
    board = Board(wiring, desk.handles, desk.critical)
    nearest = nearest_cut(wanted, wiring.supplies, board.handles)
    cut = chosen_cut(wanted, chosen, wiring.supplies, board.handles) if chosen else nearest
    told = _told(desk, tuple(boxes), wanted, cut, board)
    others = _choices(desk, wanted, nearest, cut, board)
    return replace(told, choices=tuple(others), only_the_main=_is_the_main(nearest.off, desk.home))


def _told(desk: Desk, boxes: tuple[int, ...], wanted: Sequence[Target], cut: Cut, board: Board) -> ShutOff:
    home, known, places, tell = desk.home, desk.findings.conclusions, desk.places, desk.tell
    dark = sorted(board.wiring.goes_dark(cut.off))
    inside = {one.feed for one in wanted}
    states = box_states(desk.judge, cut.off, boxes)
    off = cut.off | board.handles.resting
    around, near = Around(desk.helping, known, off, board.supplies), _spot(home, boxes)
    within = desk.findings.room_of.get(boxes[0]) if boxes else None
    above = {number for kind, number in reached(board.supplies, [one.node for one in wanted]) if kind in HANDLE_KINDS}
    barred = {one: why for one, why in board.handles.barred.items() if one in above - board.handles.resting}
    return ShutOff(
        boxes=boxes,
        off=tuple(_movements(desk, cut.off, cut, board)),
        keep_off=tuple(_movements(desk, cut.keep_off | _leaned_on(wanted, known, board), cut, board)),
        goes_dark=_dark(desk, [feed for feed in dark if feed not in inside], places),
        states=tuple(states[box] for box in boxes if box in states),
        unknown=tuple(dict.fromkeys((*unknown(wanted, known, places), *_untold(desk, boxes, states)))),
        stays_live=tuple(dict.fromkeys(stays_live(home, cut, places, barred, tell))),
        prove_tester_at=tested_point(near, boxes, around),
        light_to_work_by=light(near, around, within),
        light_at_panel=_light_at_panel(desk, cut, around),
        choices=(),
        all_cut=not cut.uncut,
        stay_shut=stay_shut((states[box] for box in boxes if box in states), off, desk.judge, board.supplies),
    )


def _leaned_on(wanted: Iterable[Target], known: Mapping[int, Conclusion], board: Board) -> frozenset[int]:
    """Return what was found off and the proofs of these feeds lean on: they hold only while it stays so."""
    besides = (one for target in wanted if target.feed is not None for one in known[target.feed].besides)
    return frozenset(besides) & board.handles.resting


def _untold(desk: Desk, boxes: Iterable[int], states: Mapping[int, BoxWhenOff]) -> Iterator[str]:
    """Yield what is not known of the boxes themselves, but for what their feeds say."""
    known, record = desk.findings.conclusions, desk.judge.evidence.record
    feeds = (feed for box in states for feed in entering(desk.home.boxes[box], record) if feed in known)
    said = {known[feed].says for feed in feeds if known[feed].box in states}
    for box in boxes:
        if box in states:
            mark = desk.home.boxes[box].mark
            yield from (
                f"{mark}: {why}" for why in states[box].because if states[box].state == "unknown" and why not in said
            )
            if not desk.findings.boxes[box].opened:
                yield f"{mark}: {NOT_OPENED}"


def _movements(desk: Desk, handles: frozenset[int], cut: Cut, board: Board) -> Iterator[ToTurnOff]:
    """Yield the hand movements in the order of the panels, branches before mains."""
    done = set[int]()
    order = desk.order
    for handle in sorted(handles, key=lambda one: (one not in desk.home.breakers, order.get(one, 0))):
        if handle in done:
            continue
        moved = tuple(sorted(board.handles.together[handle] & handles, key=lambda one: order.get(one, 0)))
        done.update(moved)
        every = cut.why.get(min(board.handles.together[handle]), ())
        cut_for = [one for one in every if one.worked_with is None] or every  # else what works along tells nothing new
        because = [why(one, moved, desk.findings.conclusions, desk.places, desk.tell) for one in cut_for]
        yield ToTurnOff(moved, *_on_panel(desk.home, moved), tuple(dict.fromkeys(because)), _ask(desk.home, moved))


def _on_panel(home: Home, handles: tuple[int, ...]) -> tuple[int, tuple[int, ...]]:
    for panel, main in mains(home):
        if main.id in handles:
            return panel.id, ()
    breakers = [home.breakers[one] for one in handles]
    spaces = sorted(pole.space for breaker in breakers for pole in breaker.poles)
    return breakers[0].panel, tuple(dict.fromkeys(spaces))


def _ask(home: Home, handles: Iterable[int]) -> str:
    asks = [home.breakers[one].may_open for one in handles if one in home.breakers]
    return "; ".join(
        f"ask {may.whose or 'first'}{f': {may.why}' if may.why else ''}" for may in asks if may.may == "ask"
    )


def _dark(desk: Desk, feeds: Iterable[int], places: Mapping[int, FeedPlace]) -> tuple[GoesDark, ...]:
    """Return what else goes dark: the critical first, the most pressing of them foremost, then room by room.

    A feed of what is only planned is not there to go dark, though others may be said to hang behind it.
    """
    found = [_goes_dark(desk, places[feed]) for feed in feeds if feed in places]
    rooms = {room: at for at, room in enumerate(dict.fromkeys(one.room for one in found))}
    return tuple(sorted(found, key=lambda one: (not one.critical, _pressing(one), rooms[one.room])))


def _pressing(one: GoesDark) -> int:
    return rank(one.what, one.critical) if one.critical else 0


def _goes_dark(desk: Desk, place: FeedPlace) -> GoesDark:
    found, device = desk.findings.boxes.get(place.box.id), place.device
    critical = device.critical if device is not None else ""
    what = _what(place, device)
    mind = to_mind(what, critical) if critical else ""
    return GoesDark(place.feed.id, place.box.id, found.room_name if found else "", what, critical, mind)


def _what(place: FeedPlace, device: Device | None) -> str:
    if device is None:
        return feed_called(place)
    named = device.name or kind_named(device.kind).label
    return f"{named}, {place.feed.part}" if place.feed.part else named


def _spot(home: Home, boxes: Sequence[int]) -> Spot:
    return spot_of(home.boxes[boxes[0]]) if boxes else (None, None)


def _light_at_panel(desk: Desk, cut: Cut, around: Around) -> int | None:
    """Return a light at the first panel a handle is in, so that nobody stands there in the dark."""
    panels = [panel for handle in sorted(cut.off) for panel in [_on_panel(desk.home, (handle,))[0]]]
    panel = desk.home.panels.get(panels[0]) if panels else None
    if panel is None or panel.at is None:
        return None
    return light((panel.level, (panel.at[0], panel.at[1])), around, None)


def _is_the_main(off: frozenset[int], home: Home) -> bool:
    return bool(off) and off <= {main.id for _, main in mains(home)}


def _choices(desk: Desk, wanted: Sequence[Target], nearest: Cut, told_of: Cut, board: Board) -> Iterator[OtherChoice]:
    """Yield what else would cut all that can be cut: the cheapest by weight, then single handles, none told twice.

    Where handles were chosen, those nearest the load come first.
    """
    cuttable = [one for one in wanted if one not in nearest.uncut]
    if not cuttable:
        return
    likely = nearest.off | desk.judge.evidence.feeders | {main.id for _, main in mains(desk.home)}
    least = cheapest(cuttable, board, likely)
    told = {told_of.off, frozenset[int]()}
    first = board.choice({min(board.handles.together[one]) for one in nearest.off})
    for choice in [first, *([least] if least is not None else []), *single_handles(cuttable, board, likely)]:
        if choice.off not in told and len(told) <= MOST_CHOICES + 1:
            told.add(choice.off)
            yield _choice(choice, board)


def _choice(choice: Choice, board: Board) -> OtherChoice:
    critical = len(board.critical & choice.dark)
    return OtherChoice(tuple(sorted(choice.off)), len(choice.dark), critical, choice.cost)
