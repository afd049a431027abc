"""Deliberate faults in `survey/`, each to be caught by a test: see `tests.planted`.

    python -m tests.survey.faults          run all, some minutes
    python -m tests.survey.faults 3 17     run only these

Every fault makes the program bolder or blinder than the evidence.
"""

import sys

from tests.planted import Fault, main

TESTS = ("tests/survey", "tests/reports/test_known.py")
FAULTS = (
    Fault(
        "survey/witness",
        "return method in TESTERS or self._load_shows(place, method)",
        "return True",
        "any load proves",
    ),
    Fault(
        "survey/witness",
        "if method not in STRONG_METHODS:\n            return False",
        "if False:\n            return False",
        "a weak 'live' denies",
    ),
    Fault(
        "survey/witness",
        "control.by in WORKED_BY_HAND for control in self.switched",
        "True for control in self.switched",
        "an automatic light that is out proves",
    ),
    Fault("survey/witness", "len(controls) == 1 and", "", "a switch of two controls is proved with either lamp"),
    Fault("survey/proof", "tester.before and tester.after and", "", "no tester need be proved"),
    Fault("survey/proof", "tester.before and tester.after", "tester.before", "the tester need not be proved after"),
    Fault(
        "survey/proof",
        "if before is None or after is None:\n        return None",
        "if before is None:\n        return None\n    after = after or before",
        "never seen live again, and proved",
    ),
    Fault("survey/proof", "and day(other.round) == day(dead.round)", "", "live on another day completes a proof"),
    Fault(
        "survey/proof", "and other.round.method == dead.round.method", "", "live by another witness completes a proof"
    ),
    Fault("survey/proof", "and other.off == dead.off - handle", "", "other handles may differ between the readings"),
    Fault(
        "survey/proof",
        "return bool(breakers) and bench.together.get(min(breakers)) == breakers",
        "return bool(breakers)",
        "several handles off count as one",
    ),
    Fault(
        "survey/proof",
        "if not (by_lamp or (dead.reading.each_hot and dead.round.method in TESTERS)):",
        "if False:",
        "a lamp proves a breaker that may open the neutral",
    ),
    Fault(
        "survey/proof",
        "return len(end.supplies) == 1 and _is_one_pole(end.supplies[0], home)",
        "return True",
        "a lamp proves a thing with two hots",
    ),
    Fault(
        "survey/proof",
        "    if dead.round.pressed:  # the device behind its own test button may be the reason\n        return False\n",
        "",
        "a pressed test button proves the breaker",
    ),
    Fault(
        "survey/proof",
        "return dead.clear and dead.reading.says",
        "return dead.reading.says",
        "a disputed reading proves",
    ),
    Fault("survey/conclusions", "if case.stated.is_loop:\n        return None", "", "a loop is proved"),
    Fault(
        "survey/conclusions", "if _turned_on_since(proof, evidence):", "if False:", "a proof outlives what it leaned on"
    ),
    Fault(
        "survey/conclusions",
        "or not {*case.stated.breakers} <= nearest:",
        "or False:",
        "rounds overrule the map without a word",
    ),
    Fault(
        "survey/conclusions",
        "if not dead or nearest & evidence.feeders:",
        "if nearest & evidence.feeders:",
        "what was live throughout is suggested",
    ),
    Fault(
        "survey/conclusions",
        "if case.stated.unsure and (case.stated.breakers or case.stated.others):",
        "if False:",
        "half of a supply known is taken for all",
    ),
    Fault(
        "survey/conclusions",
        'candidates = concluded.breakers if standing == "proved" else left.left',
        "candidates = concluded.breakers or left.left",
        "a claim leaves no other candidate",
    ),
    Fault(
        "survey/cases",
        "fresh = tuple(proof for proof in found if proof.since > lapsed)",
        "fresh = found",
        "a change expires nothing",
    ),
    Fault(
        "survey/cases",
        "return max(record.changed_anything, *boxes)",
        "return max(-1, *boxes)",
        "a change of anything lapses nothing",
    ),
    Fault(
        "survey/cases", '(trace.way == "followed by eye" or trace.passes > 1)', "True", "one pass of a tracer points"
    ),
    Fault(
        "survey/conflicts",
        "_live_though_off(case, evidence)\n        or ",
        "",
        "'live' with its breaker off is no conflict",
    ),
    Fault("survey/conflicts", "or _solo_tests_disagree(left, evidence)", "", "two tests of one handle may disagree"),
    Fault("survey/conflicts", "or _did_not_open(case, evidence)", "", "a breaker that did not open is trusted"),
    Fault(
        "survey/conflicts",
        "if case.stated.others or case.stated.joined:",
        "if False:",
        "another supply beside it is forgotten",
    ),
    Fault(
        "survey/narrowing",
        'if one.reading.says == "live":\n            left &= ~against',
        "left &= ~against",
        "a 'dead' excludes breakers",
    ),
    Fault(
        "survey/narrowing",
        "if one.place <= case.box_changed or not one.clear:",
        "if not one.clear:",
        "a change of the box lapses no exclusion",
    ),
    Fault("survey/narrowing", "(tester.before and tester.after)", "True", "a tester that was not proved suggests"),
    Fault("survey/narrowing", "and one.off <= evidence.handles", "", "a handle that is gone concludes"),
    Fault("survey/narrowing", "void.update(since_live)", "pass", "what was dead at the closing check still counts"),
    Fault(
        "survey/narrowing",
        "against = shut.mask(one.off) & ~changed",
        "against = shut.mask(one.off)",
        "work on a panel lapses no exclusion",
    ),
    Fault(
        "survey/shut",
        "opened = off - self.evidence.record.never_opened",
        "opened = off",
        "a breaker that does not open is excluded",
    ),
    Fault(
        "survey/shut",
        'not self.evidence.is_live(("circuit", breaker), opened)',
        "breaker in opened",
        "feeders and mains shut nothing",
    ),
    Fault(
        "survey/behind",
        'if one.reading.says != "dead" or len(one.round.pressed) != 1',
        'if one.reading.says != "dead"',
        "two devices tripped at once tell which",
    ),
    Fault("survey/behind", "before is None or after is None", "before is None", "dead for good hangs behind"),
    Fault(
        "survey/disagreements",
        'if all(one.reading.says == "live" for one in readings):',
        "if False:",
        "the dangerous explanations come last",
    ),
    Fault("survey/boxes", "or apart,", ",", "two unknown feeds that cannot meet share nothing"),
    Fault(
        "survey/boxes",
        "record.named_by_unknown.isdisjoint(number for above in stated.chain for number in above.ids())",
        "True",
        "what a newer program names is harmless",
    ),
    Fault(
        "survey/states",
        "if not seen or not record.opened_since_change(box.id):",
        "if False:",
        "a box nobody opened should be dead",
    ),
    Fault("survey/states", "if any(feed is None for feed in seen):", "if False:", "a cable nobody knows is overlooked"),
    Fault(
        "survey/states",
        'if one.standing != "proved":\n        return "not proved", _only_says(one)',
        "",
        "a label makes a box dead",
    ),
    Fault(
        "survey/states",
        "if feed in judge.at_odds or one.standing",
        "if one.standing",
        "readings at odds are overlooked",
    ),
    Fault("survey/states", "if not frozenset(one.besides) <= opened:", "if False:", "what a proof leans on may be on"),
    Fault("survey/states", "if len(ends) > 1:", "if ends:", "one end seen is enough"),
    Fault("survey/states", "    if wrong:\n", "    if False:\n", "a breaker that runs hot is relied on"),
    Fault("survey/states", "worst: BoxState = min(", "worst: BoxState = max(", "the best feed of a box decides"),
    Fault("survey/log_book", "if entry.id in struck:\n            continue", "", "a struck entry counts"),
    Fault(
        "survey/log_book",
        "return readable and place > max",
        "return readable or place > max",
        "a look before the change is enough",
    ),
    Fault(
        "survey/troubles",
        "for breaker in breakers for _, trouble in record.troubles.get(breaker, ())",
        "for breaker in () for _, trouble in record.troubles.get(breaker, ())",
        "troubles are not told",
    ),
    Fault("survey/proof", "and moved <= dead.off", "", "a handle nailed to another was off alone"),
    Fault("survey/shut", " - self.unsure", "", "a fuse of unknown side is excluded by a live"),
    Fault(
        "survey/witness",
        "any(feed in self._built for feed in controls[0].feeds)",
        "True",
        "a planned lamp bears witness",
    ),
)


if __name__ == "__main__":
    sys.exit(main(FAULTS, TESTS))
