"""The steps of a shut-off in their order: off, proved dead at the point of work, worked on, and back as it was found.

The order follows published practice (NFPA 70E 120.5, 29 CFR 1910.333 and 1910.147, HSE GS38), in words of our own. No
step says that anything is dead: it says what to test, and when to stop.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from floorplan_circuits.findings import BoxWhenOff, Findings, ShutOff, Step, ToTurnOff
from floorplan_circuits.home.critical import to_mind
from floorplan_circuits.home.handling import FUSE_BACK, FUSE_CARE, FUSE_KEPT, any_fuse, to_open
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.home.trade_words import words_of
from floorplan_circuits.shutoff.conductors import to_test
from floorplan_circuits.shutoff.restoring import Loses, loses_power, mains_first, starts_by_itself
from floorplan_circuits.shutoff.stopping import lacks_ground, when_to_stop

NO_HANDLE = "No handle is known that makes it dead. Find out first what feeds it, or call a licensed electrician."
LIVE_IS_LIKELY = (
    "Live is likely in it. Find out first what feeds it, or have a licensed electrician open and test it, with what is "
    "ringed on the panel off."
)
LEAVE_ITS_COVER = "Leave its cover on, and call a licensed electrician."
KEEP_AWAY = "Keep everybody away from it, and call a licensed electrician."
"""What to do about a cable end without a box, which has no cover."""
NO_COVER = "There is no cover to take off: the cable end is bare."
NOT_NON_CONTACT = "A non-contact tester is not enough."
BRING_A_GROUND = (
    "None there, or nothing shown? Bring a known ground, proved likewise, or stop: without one every reading can be 0 "
    "and the hot live."
)
NO_POINT_FOR_THE_GROUND = (
    "No tested point that will do stays live to prove it on: bring a known ground, proved before, or stop."
)
SMART_SWITCH = "A smart switch asks for a neutral of the same circuit, tested, not seen: a white may be hot."


@dataclass(frozen=True, slots=True)
class _Job:
    """What the steps are made from; `boxes` are those that may be opened to be tested."""

    plan: ShutOff
    findings: Findings
    boxes: tuple[BoxWhenOff, ...]
    losing: tuple[Loses, ...]

    def mark(self, box: int) -> str:
        """Return a box's mark."""
        return self.findings.home.boxes[box].mark

    def place(self, box: int) -> str:
        """Return a box's mark and its room, as far as that is known."""
        found = self.findings.boxes.get(box)
        return f"{self.mark(box)}, {found.room_name}" if found is not None and found.room_name else self.mark(box)

    def opened(self) -> str:
        """Return the marks of the boxes that may be opened."""
        return _listed(tuple(self.mark(one.box) for one in self.boxes))

    def handles(self, handles: tuple[int, ...]) -> str:
        """Return handles by their numbers on the panel."""
        return _listed(tuple(self.findings.marks.get(one, "one that is gone") for one in handles))


def steps(plan: ShutOff, findings: Findings) -> tuple[Step, ...]:
    """Return what to do in order. First come the boxes that are not to be opened, with why.

    The last step tells when to call an electrician; where no box is left to open it follows at once.
    """
    barred = tuple(one for one in plan.states if one.box in plan.stay_shut)
    boxes = tuple(one for one in plan.states if one.box not in plan.stay_shut)
    job = _Job(plan, findings, boxes, loses_power(plan, findings))
    call = Step("call", "Stop, and call a licensed electrician, for:", when_to_stop(plan, findings.home))
    stops = tuple(_not_to_open(one, job) for one in barred)
    if not boxes:
        return (*stops, call)
    return (*stops, *_before(job), *_turning_off(job), *_testing(job), *_afterwards(job), call)


def _not_to_open(one: BoxWhenOff, job: _Job) -> Step:
    bare = job.findings.home.boxes[one.box].is_bare
    do = f"{'Don’t touch' if bare else 'Don’t open'} {job.place(one.box)}: {one.says}."
    because = tuple(f"{_capital(why)}." for why in one.because)
    otherwise = LIVE_IS_LIKELY if job.plan.off else NO_HANDLE
    if bare:
        return Step("stop", do, (*because, KEEP_AWAY))
    return Step("stop", do, (*because, LEAVE_ITS_COVER if one.state == "live" else otherwise))


# --- before ---------------------------------------------------------------------------------------------------------


def _before(job: _Job) -> Iterator[Step]:
    asks = tuple(f"{job.handles(one.handles)}: {one.ask}." for one in job.plan.off if one.ask)
    yield Step("bring", "Bring a two-lead tester, a lamp with a battery, locks or tape, tags.", _light(job))
    yield Step("tell", "Tell everybody in the home what goes dark, and for how long.", asks)
    critical = [one for one in job.losing if one.critical]
    if critical:
        yield Step("mind", "First see to what must not simply go off:", tuple(_minding(critical)))
    if job.plan.prove_tester_at is None:
        yield _prove_before_off()
    more = ("What is dead already shows nothing.",)
    yield Step("see it work", f"See first that what is in {job.opened()} works.", more)


def _light(job: _Job) -> tuple[str, ...]:
    plan = job.plan
    said = [NOT_NON_CONTACT]
    if plan.light_to_work_by is not None:
        said.append(f"The nearest light that should stay on: {job.place(plan.light_to_work_by)}.")
    if plan.light_at_panel is not None and plan.light_at_panel != plan.light_to_work_by:
        said.append(f"Nearest to the panel: {job.place(plan.light_at_panel)}.")
    return tuple(said)


def _minding(critical: list[Loses]) -> Iterator[str]:
    """Yield what to do about critical loads, those together of which the same holds."""
    told = {f"{one.what}{f', {one.room}' if one.room else ''}": to_mind(one.what, one.critical) for one in critical}
    for mind, names in groupby(sorted(told, key=lambda name: list(told.values()).index(told[name])), told.__getitem__):
        yield f"{_capital('; '.join(names))}: {mind[:1].lower()}{mind[1:]}"


def _prove_before_off() -> Step:
    more = ("No tested point that will do stays live. Prove it now on a point known to be live, or on a proving unit.",)
    return Step("prove", "Prove the tester before the last handle goes off.", more)


# --- off ------------------------------------------------------------------------------------------------------------


def _turning_off(job: _Job) -> Iterator[Step]:
    plan = job.plan
    if plan.keep_off:
        handles = tuple(handle for one in plan.keep_off for handle in one.handles)
        is_are = "is" if len(handles) == 1 else "are"
        where = _listed(tuple(dict.fromkeys(job.findings.home.panels[one.panel].name for one in plan.keep_off)))
        do = f"See that {job.handles(handles)} ({where}) {is_are} off, as found. Leave it so."
        yield Step("keep off", do, (), handles)
    panel = None
    for one in plan.off:
        yield _off(one, job, one.panel != panel)
        panel = one.panel
    if plan.off:
        fuses = (FUSE_KEPT,) if any_fuse(job.findings.home, _handles(plan)) else ()
        yield Step("tag", "Lock or tape each handle, and hang a tag on it: who and when.", fuses)
    stopped = ("What still lights or runs means stop: leave its cover on.",)
    yield Step("see it stopped", f"See that nothing in {job.opened()} works now{_tried(job)}.", stopped)
    if plan.prove_tester_at is not None:
        more = ("It must show live there.",)
        yield Step("prove", f"Prove the tester at {job.place(plan.prove_tester_at)}.", more)


def _tried(job: _Job) -> str:
    """Return how to see that it stopped, by what is in the boxes."""
    boxes = (job.findings.home.boxes[one.box] for one in job.boxes)
    groups = {kind_named(device.kind).group for box in boxes for device in box.devices if not device.planned}
    tried = {"switch": "its switches on and off", "receptacle": "a lamp plugged in"}
    said = [words for group, words in tried.items() if group in groups]
    return f", {' and '.join(said)}" if said else ""


def _off(one: ToTurnOff, job: _Job, is_first: bool) -> Step:
    panel = job.findings.home.panels[one.panel]
    said = [f"{panel.name}."] if is_first else []
    said += [f"{_capital('; '.join(one.because))}."] if one.because else []
    home = job.findings.home
    said += [FUSE_CARE] if any_fuse(home, one.handles) else []
    said += ["Tied, yet one can slip: see that each is off."] if len(one.handles) > 1 else []
    main = words_of(home, panel).main
    said += [f"Only the {main} will do: all of the home goes dark."] if job.plan.only_the_main else []
    return Step("off", f"{to_open(home, one.handles, job.handles(one.handles))}.", tuple(said), one.handles)


# --- testing --------------------------------------------------------------------------------------------------------


def _testing(job: _Job) -> Iterator[Step]:
    covered = tuple(job.mark(one.box) for one in job.boxes if not job.findings.home.boxes[one.box].is_bare)
    yield Step("open", f"Take the cover off {_listed(covered)}." if covered else NO_COVER, _opening(job))
    yield Step("ground", "Prove the ground or neutral that each reading leans on.", _leaning(job))
    rows = tuple(row for one in job.boxes for row in to_test(job.findings.home.boxes[one.box], job.findings))
    yield Step("test", "Test every pair below on bare metal, switches both ways.", (), (), rows)
    more = ("Touch nothing more, put the cover back: the map is wrong there.",)
    yield Step("found live", "Found live at:", more)
    yield _proving_again(job)
    unknown = tuple(job.mark(one.box) for one in job.boxes if one.state == "unknown")
    if unknown:
        more = ("Whatever the tests showed: find out first what feeds it.",)
        yield Step("stop", f"Don’t work in {_listed(unknown)} yet: unknown, it may turn live.", more)
    if len(unknown) < len(job.boxes):
        yield Step("work", "Only if nothing was live, and the tester passed again: work.", tuple(_working(job)))


def _opening(job: _Job) -> tuple[str, ...]:
    own = tuple(job.mark(one.box) for one in job.boxes if one.of_neutral)
    splices = (f"Neutral not known in {_listed(own)}: keep its splices closed until tested.",) if own else ()
    return ("Touch no wire yet.", *splices)


def _leaning(job: _Job) -> tuple[str, ...]:
    groundless = [job.mark(one.box) for one in job.boxes if lacks_ground(job.findings.home.boxes[one.box])]
    own = (f"{_listed(tuple(groundless))}: no ground there.",) if groundless else ()
    if job.plan.prove_tester_at is None:
        return (
            *own,
            "No tested point that will do stays live to prove it on: bring a known ground, proved before, or stop.",
        )
    point = job.mark(job.plan.prove_tester_at)
    hot = f"Plug an extension lead in at {point}: from its hot slot to that ground the tester must show full voltage."
    return (*own, hot, BRING_A_GROUND)


def _proving_again(job: _Job) -> Step:
    if job.plan.prove_tester_at is None:
        more = ("On a proving unit, or a point live from elsewhere. Where that cannot be, nothing was shown: stop.",)
        return Step("prove again", "Prove the tester again.", more)
    more = ("If it fails, nothing was shown: test anew.",)
    return Step("prove again", f"Prove the tester again at {job.mark(job.plan.prove_tester_at)}.", more)


def _working(job: _Job) -> Iterator[str]:
    yield "After a break, test again."
    doubtful = tuple(job.mark(one.box) for one in job.boxes if one.state in ("not proved", "not opened"))
    if doubtful:
        yield f"{_listed(doubtful)}: each conductor is live until its own test."
    boxes = [job.findings.home.boxes[one.box] for one in job.boxes if one.state != "unknown"]
    kinds = (kind_named(device.kind) for box in boxes for device in box.devices)
    if any(kind.group == "switch" for kind in kinds):
        yield SMART_SWITCH


# --- afterwards -----------------------------------------------------------------------------------------------------


def _afterwards(job: _Job) -> Iterator[Step]:
    plan = job.plan
    yield Step("close", "Covers on, tools away. Switch loads off before power comes back.")
    starting = starts_by_itself(job.losing, job.findings)
    named = f"{'; '.join(starting)}." if starting else "a motor may."
    yield Step("by itself", "Keep everybody’s hands off what starts by itself:", (named,))
    handles = mains_first(_handles(plan), job.findings)
    if handles:
        order = ", in this order" if len(handles) > 1 else ""
        back = (FUSE_BACK,) if any_fuse(job.findings.home, handles) else ()
        more = ("What trips stays off.", *back)
        yield Step("on", f"Tags off. Turn on one at a time{order}." if order else "Tag off. Turn it on.", more, handles)
    resting = tuple(handle for one in plan.keep_off for handle in one.handles)
    if resting:
        yield Step("stays off", f"Leave {job.handles(resting)} off: it was found so.", (), resting)
    yield Step("afterwards", "See that all runs again, tell everybody, record what you found.")


def _handles(plan: ShutOff) -> tuple[int, ...]:
    return tuple(handle for one in plan.off for handle in one.handles)


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _listed(words: tuple[str, ...]) -> str:
    *most, last = words or ("",)
    return f"{', '.join(most)} and {last}" if most else last
