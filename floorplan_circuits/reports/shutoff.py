"""What `shutoff` says: the handles to turn off and why, what goes dark, each box's state, and what stays live.

The JSON's form is documented in the project's `shared/`.
"""

from collections.abc import Iterator, Sequence
from typing import Any

from floorplan_circuits.findings import BoxWhenOff, Findings, GoesDark, OtherChoice, ShutOff, ToTurnOff
from floorplan_circuits.home.handling import FUSE_CARE, any_fuse, to_open
from floorplan_circuits.shutoff.revive import Revival
from floorplan_circuits.shutoff.steps import KEEP_AWAY

CAUTION = (
    "A map can be wrong: test every conductor before you touch it, and prove the tester before and after, on a known "
    "live point. Wires on the supply side stay live. Local codes apply."
)
NO_LIVE_POINT = (
    "No tested point that will do stays live: prove the tester on a known live point before the last handle goes off, "
    "and again once power is back, or on a proving unit. If it fails afterwards, nothing was shown."
)
NOT_OPENED_LIVE = "Leave its cover on, and call a licensed electrician."
NOT_OPENED_UNKNOWN = "Find out first what feeds it, or have a licensed electrician open and test it."
NOTHING_TO_TURN_OFF = "No handle is known that makes this dead. Treat it as live; call a licensed electrician."


def as_json(plan: ShutOff, findings: Findings) -> dict[str, Any]:
    """Return the shut-off as plain values, in a stable order."""
    return {
        "home": findings.home.name,
        "off": [_movement(one, findings) for one in plan.off],
        "keep_off": [_movement(one, findings) for one in plan.keep_off],
        "goes_dark": [_dark(one, findings) for one in plan.goes_dark],
        "boxes": [_box(one, findings) for one in plan.states],
        "stay_shut": [findings.home.boxes[box].mark for box in plan.stay_shut],
        "unknown": list(plan.unknown),
        "stays_live": list(plan.stays_live),
        "prove_tester_at": _mark(plan.prove_tester_at, findings),
        "light_to_work_by": _mark(plan.light_to_work_by, findings),
        "light_at_panel": _mark(plan.light_at_panel, findings),
        "choices": [_choice(one, findings) for one in plan.choices],
    }


def _movement(one: ToTurnOff, findings: Findings) -> dict[str, Any]:
    return {
        "panel": findings.home.panels[one.panel].name,
        "handles": [findings.marks[handle] for handle in one.handles],
        "spaces": list(one.spaces),
        "because": list(one.because),
        "ask": one.ask,
    }


def _dark(one: GoesDark, findings: Findings) -> dict[str, Any]:
    return {
        "box": findings.home.boxes[one.box].mark,
        "room": one.room,
        "what": one.what,
        "critical": one.critical,
        "mind": one.mind,
    }


def _box(one: BoxWhenOff, findings: Findings) -> dict[str, Any]:
    return {
        "mark": findings.home.boxes[one.box].mark,
        "state": one.says,
        "because": list(one.because),
        "neutral_known": one.neutral_known,
    }


def _mark(box: int | None, findings: Findings) -> str | None:
    return None if box is None else findings.home.boxes[box].mark


def _choice(one: OtherChoice, findings: Findings) -> dict[str, Any]:
    handles = [findings.marks[handle] for handle in one.handles]
    return {"handles": handles, "goes_dark": one.dark, "critical": one.critical, "weight": one.weight}


# --- text -----------------------------------------------------------------------------------------------------------


def as_text(plan: ShutOff, findings: Findings) -> str:
    """Return the shut-off for a person, in the order of what to do."""
    boxes = ", ".join(findings.home.boxes[box].mark for box in plan.boxes)
    parts = (
        [f"To open {boxes}:"],
        list(stay_shut_lines(plan, findings)),
        list(_turn_off(plan, findings)),
        list(_states(plan, findings)),
        _listed("Not known, and so live until it is tested", plan.unknown),
        _listed("Stays live", plan.stays_live),
        _listed("Goes dark", list(dark_lines(plan.goes_dark))),
        list(around_lines(plan, findings)),
        _listed("Instead", [choice_line(one, findings) for one in plan.choices]),
        [CAUTION],
    )
    return "\n\n".join("\n".join(lines) for lines in parts if lines)


def stay_shut_lines(plan: ShutOff, findings: Findings) -> Iterator[str]:
    """Yield which boxes are not to be opened even so, each with why: it is told before all else."""
    for one in plan.states:
        if one.box in plan.stay_shut:
            box = findings.home.boxes[one.box]
            otherwise = KEEP_AWAY if box.is_bare else NOT_OPENED_LIVE if one.state == "live" else NOT_OPENED_UNKNOWN
            yield f"Don’t {'touch' if box.is_bare else 'open'} {box.mark}: {one.says}. {otherwise}"


def _turn_off(plan: ShutOff, findings: Findings) -> Iterator[str]:
    if not plan.off and not plan.keep_off:
        yield NOTHING_TO_TURN_OFF
    for one in plan.off:
        does = to_open(findings.home, one.handles, named(one, findings))
        yield f"{does}{f' – {one.ask}' if one.ask else ''}"
        yield from (f"    {FUSE_CARE}" for _ in one.handles[:1] if any_fuse(findings.home, one.handles))
        yield from (f"    {why}" for why in one.because)
    for one in plan.keep_off:
        yield f"Keep off {named(one, findings)}: it was found so"


def named(one: ToTurnOff, findings: Findings) -> str:
    """Return a hand movement by its numbers and its panel."""
    handles = " and ".join(findings.marks[handle] for handle in one.handles)
    return f"{handles} ({findings.home.panels[one.panel].name})"


def _states(plan: ShutOff, findings: Findings) -> Iterator[str]:
    for one in plan.states:
        because = f" ({'; '.join(one.because)})" if one.because else ""
        yield f"{findings.home.boxes[one.box].mark}: {one.says}{because}"
        if one.of_neutral:
            yield f"    {one.of_neutral}"


def dark_lines(dark: Sequence[GoesDark]) -> Iterator[str]:
    """Yield what goes dark: the critical a line each with what to mind, the rest a line a room."""
    rooms: dict[str, list[str]] = {}
    for one in dark:
        if one.critical:
            yield f"{f'{one.room}: ' if one.room else ''}{one.what} ({one.critical}). {one.mind}"
        else:
            rooms.setdefault(one.room or "in no room", []).append(one.what)
    for room, things in rooms.items():
        yield f"{room}: {', '.join(dict.fromkeys(things))}"


def around_lines(plan: ShutOff, findings: Findings) -> Iterator[str]:
    """Yield where the tester is proved, and which lights should stay on: by the work and on the way to the panel."""
    if plan.prove_tester_at is None:
        yield NO_LIVE_POINT
    else:
        yield f"Prove the tester at {_place(plan.prove_tester_at, findings)}, before and after."
    if plan.light_to_work_by is not None:
        yield f"Nearest light that should stay on: {_place(plan.light_to_work_by, findings)}. Take a lamp all the same."
    else:
        yield "No light is known to stay on: take a lamp with a battery."
    if plan.light_at_panel not in (None, plan.light_to_work_by):
        yield f"Nearest to the panel: {_place(plan.light_at_panel or 0, findings)}."


def _place(box: int, findings: Findings) -> str:
    """Return a box by its mark and its room."""
    found, mark = findings.boxes.get(box), findings.home.boxes[box].mark
    return f"{mark} ({found.room_name})" if found is not None and found.room_name else mark


def choice_line(one: OtherChoice, findings: Findings) -> str:
    """Return another choice with what it costs."""
    handles = " and ".join(findings.marks[handle] for handle in one.handles)
    critical = f", {one.critical} of them critical" if one.critical else ""
    return f"{handles}: {one.dark} feeds go dark{critical}"


def _listed(head: str, lines: Sequence[str]) -> list[str]:
    return [f"{head}:", *(f"    {line}" for line in lines)] if lines else []


# --- it went dead ---------------------------------------------------------------------------------------------------


def revival_as_text(found: Revival, findings: Findings) -> str:
    """Return what to look at where something went dead."""
    others = [findings.home.boxes[box].mark for box in found.also_on]
    lines = [f"Something in {findings.home.boxes[found.box].mark} is dead:"]
    lines += [f"{nth}. {step}" for nth, step in enumerate(found.steps, 1)]
    if others:
        lines += ["", f"The same breaker should feed {', '.join(others)}: if these work, it has not tripped."]
    return "\n".join([*lines, "", found.stop, "Dead to the eye is not dead: test before you touch."])
