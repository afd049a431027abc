"""What `rounds` says: the plan of test rounds as text and as JSON. The JSON's form is documented in `shared/`."""

from collections.abc import Iterator, Sequence
from typing import Any

from floorplan_circuits.findings import Effort, Findings, PlannedRound, TestPlan
from floorplan_circuits.home.called import feed_called
from floorplan_circuits.home.home import existing_feeds
from floorplan_circuits.rounds.answers import plan_code
from floorplan_circuits.rounds.wording import cautions, left_alone, rests

NAMES = {"plan": "this plan", "one_at_a_time": "one breaker at a time", "tracer": "a signal tracer"}


def as_json(plan: TestPlan, findings: Findings) -> dict[str, Any]:
    """Return the plan as plain values, in a stable order."""
    marks = findings.marks
    return {
        "plan": plan_code(plan),
        "handles": len(plan.handles),
        "feeds": len(plan.feeds),
        "rounds": [_round(one, findings) for one in (plan.all_on, *plan.rounds, plan.all_on)],
        "solo": [{"off": marks[one.handle], "feeds": list(_called(one.feeds, findings))} for one in plan.solo],
        "left_alone": {marks[handle]: why for handle, why in plan.left_alone.items() if handle in marks},
        "apart": [marks[handle] for handle in plan.apart],
        "off_at_most": {marks[handle]: minutes for handle, minutes in plan.at_most.items()},
        "kept_on": [[marks[handle] for handle in handles] for handles in plan.kept_on],
        "advice": [
            {"feed": called, "do": plan.advice[feed]}
            for feed, called in zip(plan.advice, _called(plan.advice, findings), strict=True)
        ],
        "compared": {name: _effort(effort) for name, effort in plan.compared.items()},
    }


def _round(one: PlannedRound, findings: Findings) -> dict[str, Any]:
    return {
        "off": [findings.marks[handle] for handle in one.off],
        "moves": [_move(handle, one, findings) for handle in one.moves],
        "walk": [
            {"room": _room(stop.room, findings), "look_at": list(_called(stop.feeds, findings))} for stop in one.walk
        ],
        "metres": round(one.metres, 1),
        "minutes": one.minutes,
        "rests": [
            {"before": called, "on": [findings.marks[handle] for handle in rest.handles]}
            for rest, called in zip(one.rests, _called([rest.feed for rest in one.rests], findings), strict=True)
        ],
    }


def _move(handle: int, one: PlannedRound, findings: Findings) -> str:
    return f"{findings.marks[handle]} {'off' if handle in one.off else 'on'}"


def _room(room: int | None, findings: Findings) -> str:
    found = findings.home.rooms.get(room) if room is not None else None
    return found.name if found is not None else ""


def _called(feeds: Sequence[int] | Any, findings: Findings) -> Iterator[str]:
    places = {place.feed.id: place for place in existing_feeds(findings.home)}
    return (feed_called(places[feed]) for feed in feeds)


def _effort(one: Effort) -> dict[str, float]:
    return {
        "rounds": one.rounds,
        "moves": one.moves,
        "readings": one.readings,
        "metres": round(one.metres, 1),
        "minutes": round(one.minutes, 1),
    }


# --- text -----------------------------------------------------------------------------------------------------------


def as_text(plan: TestPlan, findings: Findings) -> str:
    """Return the plan for a person: what to mind, the rounds, the solo pass, what else it could cost."""
    parts = (
        [_title(plan, findings)],
        list(cautions(plan, findings)),
        list(left_alone(plan, findings)),
        list(_rounds(plan, findings)),
        list(_walk(plan, findings)),
        list(_solo(plan, findings)),
        list(_compared(plan)),
    )
    return "\n\n".join("\n".join(lines) for lines in parts if lines)


def _title(plan: TestPlan, findings: Findings) -> str:
    name, rounds = findings.home.name or "This home", len(plan.rounds)
    return (
        f"{name}: plan {plan_code(plan)}, {len(plan.handles)} handles and {len(plan.feeds)} feeds in {rounds} rounds, "
        "with all on before the first and after the last."
    )


def _rounds(plan: TestPlan, findings: Findings) -> Iterator[str]:
    yield "Round 0: all on. Look at everything once."
    for nth, one in enumerate(plan.rounds, 1):
        off = [findings.marks[handle] for handle in one.moves if handle in one.off]
        back = [findings.marks[handle] for handle in one.moves if handle not in one.off]
        turned = "; ".join(
            part for part in (f"off: {', '.join(off)}" if off else "", f"on: {', '.join(back)}" if back else "") if part
        )
        yield f"Round {nth}: {turned}. Then look at everything. About {max(one.minutes, 1):.0f} min."
        yield from (f"    {words}" for words in rests(one, findings))
    yield f"Round {len(plan.rounds) + 1}: all on again. Look at everything: what is dead now tells nothing before."


def _walk(plan: TestPlan, findings: Findings) -> Iterator[str]:
    yield f"The walk, {plan.all_on.metres:.0f} m:"
    for stop in plan.all_on.walk:
        yield f"    {_room(stop.room, findings) or 'in no room'}: {', '.join(_called(stop.feeds, findings))}"


def _solo(plan: TestPlan, findings: Findings) -> Iterator[str]:
    if plan.solo:
        yield "Then each alone, with a tester proved before and after, seen live before and again:"
    for one in plan.solo:
        yield f"    {findings.marks[one.handle]} off: {', '.join(_called(one.feeds, findings))}"


def _compared(plan: TestPlan) -> Iterator[str]:
    for name, effort in plan.compared.items():
        yield (
            f"{NAMES[name]}: {effort.rounds} rounds, {effort.moves} moves, {effort.readings} looks, "
            f"{effort.metres:.0f} m, about {effort.minutes:.0f} minutes"
        )
