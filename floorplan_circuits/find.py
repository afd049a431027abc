"""`find(home) -> Findings`: everything that can be known about a home, computed one way, nothing stored.

What has the very same inputs as in earlier findings is carried over, so that `find(h, before) == find(h)` always.
"""

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple, TypeGuard

from floorplan_circuits.areas import circuit_colours, loads_by_room, zones
from floorplan_circuits.directory.written import written
from floorplan_circuits.findings import Findings, Layer, PanelFinding, ShutOff, TestPlan, WhatIf
from floorplan_circuits.geometry.nearness import near_boxes
from floorplan_circuits.geometry.neighbours import neighbouring_rooms
from floorplan_circuits.geometry.rooms import room_of_boxes, room_shapes
from floorplan_circuits.geometry.walls import walls
from floorplan_circuits.hazards.all_hazards import hazards
from floorplan_circuits.home.boxes import Box
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import change
from floorplan_circuits.rounds.course import Course, course_in
from floorplan_circuits.rounds.guide import Progress
from floorplan_circuits.rounds.patterns import Strength
from floorplan_circuits.rounds.plan import plan as make_plan
from floorplan_circuits.rounds.steps import GuideStep, Manner, Skipped
from floorplan_circuits.shutoff.handles import barred
from floorplan_circuits.shutoff.revive import Revival
from floorplan_circuits.shutoff.revive import revive as look_for
from floorplan_circuits.shutoff.shut_off import Desk
from floorplan_circuits.shutoff.shut_off import shut_off as work_out
from floorplan_circuits.shutoff.targets import sharing_neutrals
from floorplan_circuits.supply.graph import SupplyGraph, supply_graph
from floorplan_circuits.supply.handles import moves_together
from floorplan_circuits.supply.numbering import marks, panel_finding, reading_order
from floorplan_circuits.survey.boxes import Survey, box_findings, placed_again
from floorplan_circuits.survey.cases import Evidence
from floorplan_circuits.survey.conclusions import conclude
from floorplan_circuits.survey.kept import kept_boxes, kept_conclusions
from floorplan_circuits.survey.log_book import LogBook
from floorplan_circuits.survey.statements import Stated, statements
from floorplan_circuits.survey.states import Judge, box_states, feed_states
from floorplan_circuits.survey.telling import Telling
from floorplan_circuits.survey.troubles import in_trouble


def find(home: Home, before: Findings | None = None, layer: Layer = "both") -> Findings:
    """Return all findings about `home`; `before` are any earlier findings, whose unchanged parts are carried over.

    `layer` tells what the floor is divided by; everything else is the same for each.
    """
    drawn = _drawn(home, before)
    book = LogBook(home)
    surveyed = _surveyed(home, before, drawn, book)
    known, boxes = surveyed.conclusions, surveyed.boxes
    inside = loads_by_room(home, known, drawn.room_of)
    directory = written(home, known, boxes, before)
    both = zones(home, inside, "both")
    return replace(
        surveyed,
        layer=layer,
        zones=both if layer == "both" else zones(home, inside, layer),
        hazards=hazards(surveyed, book),
        loads=directory.loads,
        lines=directory.lines,
        directory=directory.judged,
        colours=circuit_colours(home, inside, boxes, both, drawn.neighbours),
        troubles=in_trouble(book),
        shares_neutral=sharing_neutrals(home, known),
        evidence_to=book.last_date()[:10],
        tested_by=book.testers(),
    )


def shut_off(findings: Findings, boxes: Sequence[int], chosen: frozenset[int] = frozenset()) -> ShutOff:
    """Return what to turn off before these boxes are opened, what goes dark, and what stays live all the same.

    With handles that a person chose it is told of these.
    """
    return work_out(_desk(findings), boxes, chosen)


def what_if(findings: Findings, handles: Iterable[int]) -> WhatIf:
    """Return what every feed and box would be with these handles off. Nothing is changed."""
    judge = _desk(findings).judge
    together, record = moves_together(findings.home), judge.evidence.record
    moved = frozenset(one for handle in handles for one in together.get(handle, frozenset({handle})))
    off = moved | record.found_off
    opened = off - record.never_opened
    lit = (one for one in findings.home.breakers.ids() if judge.evidence.is_live(("circuit", one), opened))
    return WhatIf(off, feed_states(judge, off), box_states(judge, off), frozenset(lit))


def _desk(findings: Findings) -> Desk:
    """Return what shut-offs and states are worked out from. A person asks again and again of one home: it is kept."""
    if not _last or _last[0].findings is not findings:
        _last[:] = [_new_desk(findings)]
    return _last[0]


def _new_desk(findings: Findings) -> Desk:
    home, at_odds = findings.home, frozenset(one.feed for one in findings.disagreements)
    read = _read[0] if _read and _read[0].home is home else _Read.of(home, LogBook(home))
    judge = Judge(Evidence.of(home, read.graph, read.book), findings.conclusions, read.stated, at_odds)
    return Desk(findings, judge, Telling(read.book, findings.marks))


class _Read(NamedTuple):
    """What is read from a home before anything is concluded."""

    home: Home
    book: LogBook
    graph: SupplyGraph
    stated: Mapping[int, Stated]

    @classmethod
    def of(cls, home: Home, book: LogBook) -> "_Read":
        graph = supply_graph(home)
        return cls(home, book, graph, statements(home, graph))

    @classmethod
    def again(cls, home: Home, book: LogBook) -> "_Read":
        """Read it; of a home that is wired as the last one, nothing but the log is read anew."""
        last = _read[0] if _read else None
        if last is None or any(getattr(home, name) is not getattr(last.home, name) for name in WIRING):
            return cls.of(home, book)
        return last._replace(home=home, book=book)


WIRING = ("boxes", "controls", "panels", "breakers", "sources", "system")
"""The parts of a home that tell what hangs on what, as stated."""
_last: list[Desk] = []
_read: list[_Read] = []
"""What the last findings were concluded from: the first shut-off of the same home begins with it."""


def _book_of(home: Home) -> LogBook:
    """Return the log of a home, read; that of the home that was concluded last is read already."""
    return _read[0].book if _read and _read[0].home is home else LogBook(home)


def plan_rounds(
    findings: Findings,
    *,
    strength: Strength = "equal weight",
    cap: int | None = None,
    leave_on: Collection[int] = (),
    boxes: Collection[int] = (),
    agreed: Collection[int] = (),
    minutes: int | None = None,
) -> TestPlan:
    """Return the plan of test rounds for all that is not proved yet, or for some boxes alone.

    `agreed` are handles to be asked for that whoever it is agreed to. `minutes`: how long any may be off at a stretch.
    """
    home, known, room_of = findings.home, findings.conclusions, findings.room_of
    return make_plan(
        home,
        LogBook(home),
        known,
        room_of,
        strength=strength,
        cap=cap,
        leave_on=leave_on,
        boxes=boxes,
        agreed=agreed,
        minutes=minutes,
    )


def course_of(findings: Findings, make: Callable[[Findings], TestPlan]) -> Course:
    """Return the plan that is being carried out: the last one answered, if `make` gives it again, else a new one.

    It is made from the log as it was before its first answer. Where the home or what is asked for has changed since,
    a new plan goes on from all that the log says.
    """
    home = findings.home
    last = course_in(home.log, LogBook(home))
    if last is not None:
        plan = make(find(change(home, log=home.log[: last.place]), findings))
        course = Course(plan, last.place, last.earlier, last.start, last.done)
        if course.code == last.code:
            return course
    return Course(make(findings), len(home.log))


def renewed(findings: Findings, course: Course, make: Callable[[Findings], TestPlan]) -> Course:
    """Return a plan made anew for what is still open, if a round is over and that saves rounds or looks; else the same.

    It never has more of either left than the plan before it.
    """
    home = findings.home
    book = _book_of(home)
    progress = Progress(course, home, book, findings.conclusions, Manner(), "")
    if not progress.is_between_rounds():
        return course
    earlier, start = (*course.earlier, course.code), course.start if course.earlier else course.begun
    anew = Course(make(findings), len(home.log), earlier, start, progress.rounds_done)
    if anew.code in earlier:
        return course
    left, then = progress.left(), replace(progress, course=anew).left()
    is_less = then != left and then[0] <= left[0] and then[1] <= left[1]
    return anew if is_less else course


def next_step(findings: Findings, course: Course, manner: Manner, today: str, skipped: Skipped = ()) -> GuideStep:
    """Return what comes next on the evening, by the log alone, but for what the person passed by."""
    home = findings.home
    return Progress(course, home, _book_of(home), findings.conclusions, manner, today, skipped).next_step()


def revive(findings: Findings, box: int) -> Revival:
    """Return what to look at where something in a box went dead, nearest first, and when to stop."""
    home = findings.home
    return look_for(findings, statements(home, supply_graph(home)), barred(home, LogBook(home)), box)


def _surveyed(home: Home, before: Findings | None, drawn: Findings, book: LogBook) -> Findings:
    """Return what is known of every feed and what enters every box. Where boxes only moved, that is what it was."""
    if before is not None and _same_wiring(before, home):
        boxes = placed_again(before.boxes, home, drawn.room_of)
        return replace(
            drawn,
            conclusions=before.conclusions,
            disagreements=before.disagreements,
            boxes=boxes,
            never_tested=before.never_tested,
        )
    read = _Read.again(home, book)
    _read[:] = [read]
    as_wired = before if before is not None and _same(before, home, *WIRING) else None
    kept = {} if as_wired is None else kept_conclusions(as_wired, home, book)
    known = conclude(home, read.graph, book, read.stated, kept)
    order = {breaker: place for place, breaker in enumerate(reading_order(home))}
    survey = Survey(home, book, known.conclusions, read.stated, drawn.room_of, order)
    boxes = kept_boxes(as_wired, survey) if kept and _same(as_wired, home, "levels", "rooms") else {}
    return replace(
        drawn,
        conclusions=known.conclusions,
        disagreements=known.disagreements,
        boxes=box_findings(survey, boxes),
        never_tested=known.never_proved,
    )


def _same_wiring(before: Findings, home: Home) -> bool:
    """Tell whether nothing changed that a conclusion could depend on: of a box, only where it is may have."""
    if not _same(before, home, "controls", "panels", "breakers", "sources", "log", "system"):
        return False
    was, now = before.home.boxes.rows, home.boxes.rows
    return len(was) == len(now) and all(a is b or _same_contents(a, b) for a, b in zip(was, now, strict=True))


def _same_contents(a: Box, b: Box) -> bool:
    return (a.id, a.mark) == (b.id, b.mark) and a.devices is b.devices and a.passing is b.passing and a.mount == b.mount


def _drawn(home: Home, before: Findings | None) -> Findings:
    """Return what follows from the drawing and the panels alone: what an edit elsewhere leaves as it was."""
    return Findings(
        home=home,
        marks=before.marks if _same(before, home, "panels", "breakers", "system") else marks(home),
        rooms=before.rooms if _same(before, home, "rooms") else room_shapes(home),
        room_of=before.room_of if _same(before, home, "rooms", "boxes") else room_of_boxes(home),
        near=before.near if _same(before, home, "boxes") else near_boxes(home),
        neighbours=before.neighbours if _same(before, home, "rooms") else neighbouring_rooms(home),
        walls=before.walls if _same(before, home, "levels", "rooms") else walls(home),
        panels=before.panels if _same(before, home, "panels", "breakers", "system") else _panels(home),
    )


def _same(before: Findings | None, home: Home, *fields: str) -> TypeGuard[Findings]:
    """Tell whether the named fields are the very objects that `before` was computed from."""
    return before is not None and all(getattr(home, name) is getattr(before.home, name) for name in fields)


def _panels(home: Home) -> dict[int, PanelFinding]:
    return {panel.id: panel_finding(home, panel) for panel in home.panels}
