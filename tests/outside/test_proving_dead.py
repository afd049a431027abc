"""Live, dead, live again, with a tester that is proved: what published rules ask before anything counts as dead.

HSE GS38 'Electrical test equipment for use on low voltage electrical systems', 4th edition 2015 (United Kingdom, Open
Government Licence): prove the detector on a known live source, test every conductor, prove the detector again.

NFPA 70E-2021, 120.5, step 7 (United States): test each conductor with an adequate instrument, and determine before and
after each test, on a known voltage source, that the instrument works. Until all that applies is done, treat as live.

Both are about the point of work, at each job; here they are what a lasting record of a test must not fall short of.
That the point was live before, and is live again after, with one handle as the only difference: common practice, no
source.
"""

from itertools import product

import pytest

from tests.supply.wiring import breaker
from tests.survey.houses import A, B, house, known, went

PARTS = ("live before", "tester proved before", "dead", "tester proved after", "live after", "one handle alone")


def evening(parts: set[str]) -> tuple[dict, ...]:
    """The three rounds of a test, each part of it done or not."""
    tester = {"before": "tester proved before" in parts, "after": "tester proved after" in parts}
    off = (A,) if "one handle alone" in parts else (A, B)
    return (
        went("live" if "live before" in parts else "dead"),
        went("dead" if "dead" in parts else "unclear", *off, tester=tester),
        went("live" if "live after" in parts else "dead"),
    )


@pytest.mark.parametrize("done", list(product((True, False), repeat=len(PARTS))))
def test_only_all_parts_together_prove(done) -> None:
    parts = {part for part, was_done in zip(PARTS, done, strict=True) if was_done}
    standing = known(house(None, *evening(parts))).standing
    assert (standing == "proved") is all(done)


@pytest.mark.parametrize("left_out", range(3))
def test_a_test_of_which_one_step_was_never_logged_proves_nothing(left_out) -> None:
    steps = list(evening(set(PARTS)))
    del steps[left_out]
    assert known(house(None, *steps)).standing == ("unknown" if left_out == 1 else "suggested")


@pytest.mark.parametrize("tester", [{"before": True}, {"after": True}, {}])
def test_dead_by_a_tester_that_was_not_proved_is_no_evidence_at_all(tester) -> None:
    """GS38 and 70E 120.5: a detector that is not proved on a live source, before and after, has shown nothing."""
    one = known(house(None, went(), went("dead", A, tester=tester), went()))
    assert (one.standing, one.candidates) == ("unknown", (101, 102, 103))


@pytest.mark.parametrize(
    ("method", "enough"),
    [
        ("two-lead tester", True),
        ("low-impedance meter", True),
        ("non-contact tester", False),  # GS38: not a non-contact tester
        ("high-impedance meter", False),  # GS38: not a plain multimeter; ghost voltages
        ("signal tracer", False),  # shows where a signal goes, never that nothing is live
        ("not said", False),
    ],
)
def test_only_an_adequate_instrument_proves(method, enough) -> None:
    steps = (step | {"method": method} for step in evening(set(PARTS)))
    assert (known(house(None, *steps)).standing == "proved") is enough


@pytest.mark.parametrize("each_conductor", [True, False])
def test_every_conductor_is_tested_where_there_is_more_than_one(each_conductor) -> None:
    """NFPA 70E 120.5, step 7: each phase conductor, to another and to ground."""
    steps = (went(says, *off, each_hot=each_conductor) for says, off in (("live", ()), ("dead", (A,)), ("live", ())))
    two_poles = [breaker(A, 1, 3, opens="both hots")]
    standing = known(house(None, *steps, kind="240 V receptacle", breakers=two_poles)).standing
    assert (standing == "proved") is each_conductor
