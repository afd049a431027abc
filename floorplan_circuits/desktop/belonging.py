"""What belongs to what is pointed at: the boxes a breaker feeds, the breakers of a box, in words and as subjects."""

from collections.abc import Iterator
from typing import NamedTuple

from floorplan_circuits.drawing.plan_boxes import circuits_in_words
from floorplan_circuits.edits.edited import counted
from floorplan_circuits.findings import Findings, Subject

NOT_ON_PLAN = "Nothing on the plan is known to hang on it."


class Belonging(NamedTuple):
    """What keeps its ink (all else pales), what gets a ring on the plan, and which breakers get one on the panel."""

    lit: frozenset[Subject] = frozenset()
    ringed: frozenset[Subject] = frozenset()
    breakers: frozenset[Subject] = frozenset()


def belonging(findings: Findings | None, subjects: tuple[Subject, ...]) -> Belonging:
    """Return what belongs to these subjects."""
    if findings is None:
        return Belonging()
    breakers = {one.id for one in subjects if one.kind == "breaker"}
    lit = {Subject("box", one.box) for one in findings.conclusions.values() if not breakers.isdisjoint(one.breakers)}
    ringed = {_on_plan(one, findings) for one in subjects if one.kind != "breaker"}
    entering = {
        Subject("breaker", breaker)
        for one in ringed
        if one.kind == "box" and one.id in findings.boxes
        for breaker in findings.boxes[one.id].breakers
    }
    own = {Subject("breaker", breaker) for breaker in breakers}
    dark = own if breakers and not lit else set()
    return Belonging(frozenset(lit | dark), frozenset(ringed), frozenset(own | entering))


def _on_plan(subject: Subject, findings: Findings) -> Subject:
    """Return the box of a device; anything else stands for itself."""
    if subject.kind != "device":
        return subject
    boxes = (box.id for box in findings.home.boxes if any(device.id == subject.id for device in box.devices))
    return Subject("box", next(boxes, 0))


def levels_lit(findings: Findings | None, lit: frozenset[Subject]) -> dict[int, int]:
    """Return how many lit boxes each level has, so that a breaker is followed through the house."""
    counts: dict[int, int] = {}
    for subject in lit:
        box = findings.home.boxes.get(subject.id) if findings is not None and subject.kind == "box" else None
        if box is not None and box.level is not None:
            counts[box.level] = counts.get(box.level, 0) + 1
    return counts


def sentence(findings: Findings | None, subject: Subject | None) -> str:
    """Return one sentence for the status line about what is pointed at."""
    if findings is None or subject is None:
        return ""
    if subject.kind == "breaker":
        return _of_breaker(findings, subject.id)
    box = findings.home.boxes.get(subject.id) if subject.kind == "box" else None
    if box is not None:
        return circuits_in_words(box, findings)
    room = findings.home.rooms.get(subject.id) if subject.kind == "room" else None
    return room.name if room is not None else ""


def _of_breaker(findings: Findings, number: int) -> str:
    """Return what a breaker feeds, what its old label said, how it was found and whose word it takes to turn it off."""
    breaker, line = findings.home.breakers.get(number), findings.lines.get(number)
    said = [line.variants[0] if line is not None else ""]
    if breaker is not None:
        label, found, may = breaker.as_found.strip(), breaker.found, breaker.may_open
        said += [f"Old label “{label}”"] if label and label not in said[0] else []
        if found.is_off:
            said.append(f"Found {found.state}{f': {found.why}' if found.why else ''}: leave it so")
        if may.may != "yes":
            word = "Never turn it off" if may.may == "never" else f"Ask {may.whose or 'first'}"
            said.append(f"{word}{f': {may.why}' if may.why else ''}")
    count = sum(number in one.breakers for one in findings.conclusions.values())
    said.append(counted(count, "feed"))
    return f"{findings.marks.get(number, '')}: {'. '.join(filter(None, said))}."


# --- what was looked up ---------------------------------------------------------------------------------------------


def where_found(findings: Findings, subject: Subject, now: int | None) -> tuple[int | None, Subject]:
    """Return the level to look at for something, and what of it to bring into sight there.

    A breaker is seen where its devices are: on the level looked at `now` if it has any there, else where most are.
    """
    home = findings.home
    if subject.kind == "breaker":
        lit = belonging(findings, (subject,)).lit
        counts = levels_lit(findings, lit)
        level = now if now in counts else max(counts, key=lambda one: counts[one], default=None)
        here = (one for one in sorted(lit, key=lambda one: one.id) if _level_of_box(findings, one) == level)
        return level, next(here, subject) if level is not None else subject
    if subject.kind == "level":
        return subject.id, subject
    shown = _on_plan(subject, findings)
    levels = {one.id: one.level for one in home.boxes} | {one.id: one.level for one in home.panels}
    return (levels | {one.id: one.level for one in home.rooms}).get(shown.id), subject


def _level_of_box(findings: Findings, subject: Subject) -> int | None:
    box = findings.home.boxes.get(subject.id) if subject.kind == "box" else None
    return None if box is None else box.level


def found_sentence(findings: Findings, subject: Subject) -> str:
    """Return what was found, and where."""
    home = findings.home
    if subject.kind == "breaker":
        counts = levels_lit(findings, belonging(findings, (subject,)).lit)
        where = ", ".join(f"{home.levels[one].name} {counts[one]}" for one in home.levels.ids() if one in counts)
        return f"{_of_breaker(findings, subject.id)} {f'On the plan: {where}.' if where else NOT_ON_PLAN}"
    places = ", ".join(_places(findings, subject))
    if subject.kind in ("box", "device"):
        said = sentence(findings, _on_plan(subject, findings))
        return f"{said} In {places}." if places else said
    names = {one.id: one.name for one in home.rooms} | {one.id: one.name for one in home.panels}
    name = (names | {one.id: one.name for one in home.levels}).get(subject.id, "")
    return f"{name}: {places}." if places else f"{name}."


def _places(findings: Findings, subject: Subject) -> Iterator[str]:
    """Yield the room and the level that something is in."""
    home, shown = findings.home, _on_plan(subject, findings)
    room = home.rooms.get(findings.room_of.get(shown.id) or 0) if shown.kind == "box" else None
    if room is not None:
        yield room.name
    level = home.levels.get(where_found(findings, shown, None)[0])
    if level is not None and subject.kind != "level":
        yield level.name
