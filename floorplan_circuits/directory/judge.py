"""The judge of panel directories: every old label and every line drawn now, and what each panel must tell.

As published in NEC 408.4, 2023, or BS 7671 514, 18th edition, for single-phase homes elsewhere; local code governs.
"""

from collections.abc import Iterator, Mapping, Sequence

from floorplan_circuits.directory import rules_of_people, rules_of_purpose, rules_of_the_map, rules_of_the_panel
from floorplan_circuits.directory.abbreviations import asked
from floorplan_circuits.directory.chart import chart_verdicts
from floorplan_circuits.directory.judging import LineToJudge, Objection, Rule, as_verdict, home_vocabulary, said_in
from floorplan_circuits.directory.loads import further
from floorplan_circuits.directory.mending import mended
from floorplan_circuits.directory.panel_verdicts import judged_panel
from floorplan_circuits.directory.variants import DIVIDED
from floorplan_circuits.directory.vocabulary import Vocabulary
from floorplan_circuits.directory.wording import SPARE
from floorplan_circuits.findings import Directory, JudgedLine, Line, Load, Loads, Verdict
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Breaker
from floorplan_circuits.home.trade_words import is_on_230_v
from floorplan_circuits.supply.numbering import marks

NEC, BS = "NEC 408.4(A), 2023", "BS 7671 514.8.1, 18th edition"

RULES: dict[str, Rule] = {
    "no label": rules_of_purpose.is_empty,
    "shortened": rules_of_purpose.shortened,
    "says nothing": rules_of_purpose.says_nothing,
    "a guess": rules_of_purpose.unsure,
    "points elsewhere": rules_of_purpose.points_elsewhere,
    "which appliance": rules_of_purpose.which_appliance,
    "where": rules_of_purpose.where,
    "what": rules_of_purpose.what,
    "no load": rules_of_purpose.names_a_load,
    "spare": rules_of_purpose.spare,
    "a person": rules_of_people.person,
    "passing": rules_of_people.passing,
    "use of today": rules_of_people.use_of_today,
    "not distinct": rules_of_the_panel.distinct,
    "a number only": rules_of_the_panel.told_by_a_number,
    "which room": rules_of_the_panel.which_room,
    "not on it": rules_of_the_map.names_what_is_there,
    "left out": rules_of_the_map.leaves_nothing_out,
    "which part": rules_of_the_map.which_part,
}
"""Every rule by its plain name, in the order in which a person would mend a line."""

OF_OURS = ("which appliance", "a person", "use of today")
"""The rules that a line of ours can break: it says what is known, but it can name things no better than they are named.

The map's rules would only ask it about itself; that no two are alike is made so.
"""


def judge(desk: "Desk", kept: Mapping[int, JudgedLine]) -> Directory:
    """Judge the directory of every panel; `kept` are lines that were judged before by the very same."""
    home = desk.home
    return Directory(
        lines={breaker.id: kept.get(breaker.id) or desk.judged(breaker) for breaker in home.breakers},
        panels={panel.id: judged_panel(home, panel, desk.numbers) for panel in home.panels},
        asked=asked(home),
    )


def _how_to_find_out(breaker: Breaker) -> str:
    """Return what to do about a breaker that nobody knows: never to turn one on, or off, that must stay as it is."""
    if breaker.found.is_off:
        return "It was found so: leave it, and ask why before anything else."
    if breaker.may_open.may == "never":
        return "Find out what it feeds without touching it."
    return "Find out what it feeds."


class Desk:
    """All that lines of one home are judged with.

    `ours` are the lines as the program writes them, `drawn` those that stand.
    """

    def __init__(
        self, home: Home, loads: Loads, ours: Mapping[int, Line], drawn: Mapping[int, Line], all_proved: bool
    ) -> None:
        self.home, self.loads, self.ours, self.drawn, self.all_proved = home, loads, ours, drawn, all_proved
        self.numbers = marks(home)
        self.known: Vocabulary = home_vocabulary(home)
        self.onward = further(home)

    def judged(self, breaker: Breaker) -> JudgedLine:
        """Judge one breaker's old label and its line."""
        ours, drawn = self.ours[breaker.id], self.drawn[breaker.id]
        now = drawn.variants[0]
        return JudgedLine(
            breaker.id,
            breaker.as_found,
            now,
            ours.variants[0],
            tuple(self._of_old(breaker)),
            tuple(self._of_now(breaker, drawn)),
        )

    def _of_old(self, breaker: Breaker) -> Iterator[Verdict]:
        others = {self.numbers[one.id]: one.as_found for one in self._beside(breaker)}
        yield from self._verdicts(breaker, breaker.as_found, others, RULES)

    def _of_now(self, breaker: Breaker, line: Line) -> Iterator[Verdict]:
        words = line.variants[0]
        if line.own:
            others = {self.numbers[one.id]: self.drawn[one.id].variants[0] for one in self._beside(breaker)}
            yield from self._verdicts(breaker, words, others, RULES)
        elif not line.idle:
            yield from self._verdicts(breaker, words, {}, {name: RULES[name] for name in OF_OURS})
        elif words != SPARE:
            quoted = words.split(".", maxsplit=1)[0]
            says = f"“{quoted}”: its purpose is not known."
            yield Verdict("not known", quoted, says, _how_to_find_out(breaker), self._source(breaker))
        if is_on_230_v(self.home, self.home.panels.get(breaker.panel)):
            yield from chart_verdicts(breaker, words, self.loads.of.get(breaker.id, ()))

    def _verdicts(
        self, breaker: Breaker, words: str, others: Mapping[str, str], rules: Mapping[str, Rule]
    ) -> Iterator[Verdict]:
        line = self._to_judge(breaker, words, others)
        for name, rule in rules.items():
            for objection in rule(line):
                yield as_verdict(name, objection, self._source(breaker), self._better(breaker, line, name, objection))

    def _to_judge(self, breaker: Breaker, words: str, others: Mapping[str, str]) -> LineToJudge:
        mine = self.loads.of.get(breaker.id, ())
        return LineToJudge(
            words=words,
            said=said_in(words, self.home, self.known),
            home=self.home,
            others=others,
            loads=mine,
            shared=tuple(self._shared(breaker.id, mine)),
            onward=breaker.id in self.onward,
            all_proved=self.all_proved,
        )

    def _better(self, breaker: Breaker, line: LineToJudge, rule: str, objection: Objection) -> str:
        """Return a line that would do: these words, mended, else ours where it tells a purpose; '' where none does."""
        words = mended(rule, line, objection)
        if words and self._passes(breaker, words, line.others):
            return words
        ours = self.ours[breaker.id]
        return "" if ours.idle or ours.variants[0] == line.words else ours.variants[0]

    def _passes(self, breaker: Breaker, words: str, others: Mapping[str, str]) -> bool:
        """Tell whether a line breaks no rule and names a load; other advice does not count."""
        line = self._to_judge(breaker, words, others)
        return all(objection.soft and name != "no load" for name, rule in RULES.items() for objection in rule(line))

    def _shared(self, breaker: int, mine: Sequence[Load]) -> Iterator[tuple[Load, tuple[str, ...]]]:
        """Yield the loads of which other breakers serve the rest of their room, with the numbers of these."""
        for load in mine:
            if load.group in DIVIDED:
                there = self.loads.there.get((load.place, load.group), ())
                others = {one for other, on in there if breaker not in on for one in on}
                if others:
                    yield load, tuple(self.numbers[one] for one in self.numbers if one in others)

    def _beside(self, breaker: Breaker) -> Iterator[Breaker]:
        return (one for one in self.home.breakers if one.panel == breaker.panel and one.id != breaker.id)

    def _source(self, breaker: Breaker) -> str:
        return BS if is_on_230_v(self.home, self.home.panels.get(breaker.panel)) else NEC
