"""Answers brought back from a plan: a short text, checked line by line against the plan it was made for.

    plan K7QX2M
    date 2026-11-25
    who Kim
    with lamp plugged in
    0 lllllll
    1 lddlul-

Line 0 is all on at the start, then each round, then all on at the end; one letter a feed in the order of the plan:
l live, d dead, u unclear, - not looked at. Lines of rounds that were not done may be missing.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from hashlib import sha256

from floorplan_circuits.findings import TestPlan
from floorplan_circuits.home.ways import ways

LETTERS = {"l": "live", "d": "dead", "u": "unclear"}
NOT_SEEN = "-"
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
class Answers:
    """All that was brought back: when, by whom, with what, round by round what was seen, and of which plan."""

    date: str
    who: str
    method: str
    rounds: tuple[Answered, ...]
    plan: str = ""


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
        else:
            raise CannotRead(f"Line {number}: {line[:40]!r} is no line of answers.")
    _fits(head, plan)
    if not rounds:
        raise CannotRead("No round is answered in it.")
    in_order = tuple(rounds[nth] for nth in sorted(rounds))
    who, method = head.get("who", "")[:120], head.get("with", "not said")
    return Answers(head.get("date", "")[:10], who, method, in_order, plan_code(plan))


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
    if len(letters) != len(plan.feeds):
        wanted, given = len(plan.feeds), len(letters)
        raise CannotRead(f"Line {number}: round {nth} has {given} answers, and the plan has {wanted} feeds.")
    odd = next((letter for letter in letters if letter not in LETTERS and letter != NOT_SEEN), "")
    if odd:
        raise CannotRead(f"Line {number}: {odd!r} is no answer. Use l, d, u or -.")
    seen = zip(plan.feeds, letters, strict=True)
    readings = tuple((feed, LETTERS[letter]) for feed, letter in seen if letter != NOT_SEEN)
    return Answered(nth, plan.rounds[nth - 1].off if 0 < nth < last else (), readings)


def answers_text(plan: TestPlan, answers: Answers) -> str:
    """Return the text of answers, as a phone gives it back."""
    lines = [f"plan {plan_code(plan)}", f"date {answers.date}", f"who {answers.who}", f"with {answers.method}"]
    letter_of = {says: letter for letter, says in LETTERS.items()}
    for one in answers.rounds:
        shown = dict(one.readings)
        letters = "".join(letter_of[shown[feed]] if feed in shown else NOT_SEEN for feed in plan.feeds)
        lines.append(f"{one.nth} {letters}")
    return "\n".join(lines) + "\n"
