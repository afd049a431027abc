"""Answers brought back from a plan: a short text, checked line by line against the plan it was made for.

    plan K7QX4M
    date 2026-11-25
    who Kim
    with lamp plugged in
    0 lllllll
    1 lddlul-
    before 2026-11-25 - ll-----
    alone 57 2026-11-25 ba dd-----
    after 2026-11-25 - ll-----

Line 0 is all on at the start, then each round, then all on at the end; one letter a feed in the order of the plan:
l live, d dead, u unclear, - not looked at. Then what was seen with all on, with the handle of this id off alone, and
with all on again, each on its day: b the tester was proved before, a after, h every hot was read, - none of them. Lines
of what was not done may be missing.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from hashlib import sha256
from typing import Literal

from floorplan_circuits.findings import TestPlan
from floorplan_circuits.home.ways import ways

LETTERS = {"l": "live", "d": "dead", "u": "unclear"}
NOT_SEEN = "-"
FLAGS = "bah"
ALPHABET = "ABCDEFGHJKLMNPQRTUVWXY34679"
"""Letters and digits that are hard to take for one another."""
CODE_LENGTH = 6
LONGEST = 200_000
MOST_HEAD = 50
"""Lines among which the plan's code is looked for."""


class CannotRead(ValueError):
    """Answers do not fit the plan; the message names the line and what to do."""


@dataclass(frozen=True, slots=True)
class Answered:
    """One round as it was answered: its place in the plan (0 all on), what was off, and what each feed showed."""

    nth: int
    off: tuple[int, ...]
    readings: tuple[tuple[int, str], ...]


@dataclass(frozen=True, slots=True)
class Tried:
    """What was seen with one handle off alone, or with all on before and after; on which day, and how well tested.

    `flags` are of `FLAGS`: b the tester was proved before, a after, h every hot was read against a proved reference.
    """

    when: Literal["before", "alone", "after"]
    handle: int | None
    date: str
    flags: str
    readings: tuple[tuple[int, str], ...]


@dataclass(frozen=True, slots=True)
class Answers:
    """All that was brought back: when, by whom, with what, round by round what was seen, and of which plan.

    `tries` are the looks with one handle off alone and those with all on before and after them.
    """

    date: str
    who: str
    method: str
    rounds: tuple[Answered, ...]
    plan: str = ""
    tries: tuple[Tried, ...] = ()


def plan_code(plan: TestPlan) -> str:
    """Return a short code of what answers depend on: the handles of each round and the feeds in their order."""
    told = repr(([one.off for one in plan.rounds], plan.feeds)).encode()
    number = int.from_bytes(sha256(told).digest()[:8], "big")
    letters = []
    for _ in range(CODE_LENGTH):
        number, at = divmod(number, len(ALPHABET))
        letters.append(ALPHABET[at])
    return "".join(letters)


def plan_named(text: str, plans: Sequence[TestPlan]) -> TestPlan:
    """Return the plan whose code answers name, the last one where they name none of these."""
    lines = {line.strip() for line in text.splitlines()[:MOST_HEAD]}
    return next((plan for plan in plans if f"plan {plan_code(plan)}" in lines), plans[-1])


def read_answers(text: str, plan: TestPlan) -> Answers:
    """Return what an answers text says. Raises `CannotRead` for a line that does not fit the plan."""
    if len(text) > LONGEST:
        raise CannotRead("That is too long to be the answers of a plan.")
    head: dict[str, str] = {}
    rounds: dict[int, Answered] = {}
    tries: dict[tuple[str, int | None], Tried] = {}
    for number, line in _lines(text):
        word, _, rest = line.partition(" ")
        if word.isdecimal() and len(word) <= 4:
            nth = int(word)
            if nth in rounds:
                raise CannotRead(f"Line {number}: round {nth} is answered twice. Keep one of the two.")
            rounds[nth] = _round(nth, rest.strip(), plan, number)
        elif word in ("plan", "date", "who", "with") and word not in head:
            head[word] = rest.strip()
            if word == "plan":
                _is_of(head["plan"], plan)  # before any line of it is measured against another plan
        elif word in ("before", "alone", "after"):
            tried = _tried(line, plan, number)
            if (tried.when, tried.handle) in tries:
                raise CannotRead(
                    f"Line {number}: {' '.join(line.split()[:2])!r} is answered twice. Keep one of the two."
                )
            tries[tried.when, tried.handle] = tried
        else:
            raise CannotRead(f"Line {number}: {line[:40]!r} is no line of answers.")
    _fits(head, plan)
    if not rounds and not tries:
        raise CannotRead("No round is answered in it.")
    in_order = tuple(rounds[nth] for nth in sorted(rounds))
    who, method = head.get("who", "")[:120], head.get("with", "not said")
    day = _day(head["date"]) if head.get("date") else ""
    return Answers(day, who, method, in_order, plan_code(plan), tuple(_in_order(tries.values())))


def _day(words: str) -> str:
    """Return a day as it is written. Raises `CannotRead` for what is none."""
    try:
        return date.fromisoformat(words).isoformat()
    except ValueError as error:
        raise CannotRead(f"{words[:20]!r} is no day. Write it as 2026-03-14.") from error


def _lines(text: str) -> Iterator[tuple[int, str]]:
    for number, line in enumerate(text.splitlines(), 1):
        if line.strip():
            yield number, line.strip()


def _fits(head: Mapping[str, str], plan: TestPlan) -> None:
    _is_of(head.get("plan", ""), plan)
    if head.get("with", "not said") not in {way.name for way in ways().values() if "round" in way.recorded_as}:
        raise CannotRead(f"Nobody can tell what {head['with'][:40]!r} is to test with.")


def _is_of(code: str, plan: TestPlan) -> None:
    if code != plan_code(plan):
        raise CannotRead(
            f"These answers are of plan {code[:40] or 'unknown'}, and this home's plan is now {plan_code(plan)}. "
            "Open the home as it was when that plan was made, or print the plan anew."
        )


def _round(nth: int, letters: str, plan: TestPlan, number: int) -> Answered:
    last = len(plan.rounds) + 1
    if nth > last:
        raise CannotRead(f"Line {number}: the plan has no round {nth}; its last is {last}, all on again.")
    readings = _readings(letters, f"round {nth}", plan, number)
    return Answered(nth, plan.rounds[nth - 1].off if 0 < nth < last else (), readings)


def _tried(line: str, plan: TestPlan, number: int) -> Tried:
    """Read what was seen with one handle off alone, or with all on before or after."""
    when, *rest = line.split()
    handle = None
    if when == "alone":
        known = {str(one.handle): one.handle for one in plan.solo}
        given = rest.pop(0) if rest else ""
        if given not in known:
            raise CannotRead(f"Line {number}: this plan tries no handle {given[:20]!r} alone. Print the plan anew.")
        handle = known[given]
    if len(rest) != 3:
        raise CannotRead(f"Line {number}: {line[:40]!r} must hold a day, how it was tested, and the answers.")
    day, flags, letters = rest
    if flags != NOT_SEEN and not {*flags} <= {*FLAGS}:
        raise CannotRead(f"Line {number}: {flags[:20]!r} says nothing of how it was tested. Use b, a, h or -.")
    readings = _readings(letters, "it" if handle is None else f"handle {handle} alone", plan, number)
    return Tried(when, handle, _day(day), "" if flags == NOT_SEEN else flags, readings)  # type: ignore[arg-type]


def _in_order(tries: Iterable[Tried]) -> list[Tried]:
    """Return looks as they are taken: all on before, each handle alone as given, all on after."""
    return sorted(tries, key=lambda look: ("before", "alone", "after").index(look.when))


def _readings(letters: str, of_what: str, plan: TestPlan, number: int) -> tuple[tuple[int, str], ...]:
    """Read one letter a feed. Raises `CannotRead` naming the line and what its letters are of."""
    if len(letters) != len(plan.feeds):
        wanted, given = len(plan.feeds), len(letters)
        raise CannotRead(f"Line {number}: {of_what} has {given} answers, and the plan has {wanted} feeds.")
    odd = next((letter for letter in letters if letter not in LETTERS and letter != NOT_SEEN), "")
    if odd:
        raise CannotRead(f"Line {number}: {odd!r} is no answer. Use l, d, u or -.")
    seen = zip(plan.feeds, letters, strict=True)
    return tuple((feed, LETTERS[letter]) for feed, letter in seen if letter != NOT_SEEN)


def answers_text(plan: TestPlan, answers: Answers) -> str:
    """Return the text of answers, as a phone gives it back."""
    lines = [f"plan {plan_code(plan)}", f"date {answers.date}", f"who {answers.who}", f"with {answers.method}"]
    lines += [f"{one.nth} {_letters(one.readings, plan)}" for one in answers.rounds]
    for look in answers.tries:
        handle = [] if look.handle is None else [str(look.handle)]
        lines.append(" ".join([look.when, *handle, look.date, look.flags or NOT_SEEN, _letters(look.readings, plan)]))
    return "\n".join(lines) + "\n"


def _letters(readings: Iterable[tuple[int, str]], plan: TestPlan) -> str:
    shown, letter_of = dict(readings), {says: letter for letter, says in LETTERS.items()}
    return "".join(letter_of[shown[feed]] if feed in shown else NOT_SEEN for feed in plan.feeds)
