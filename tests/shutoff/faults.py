"""Deliberate faults in `shutoff/` and `supply/`, each to be caught by a test: see `tests.planted`.

python -m tests.shutoff.faults          run all, some minutes
"""

import sys

from tests.planted import Fault, main

TESTS = ("tests/shutoff", "tests/supply", "tests/test_what_if.py", "tests/reports/test_shutoff.py")
FAULTS = (
    Fault(
        "shutoff/targets",
        "return (*of_boxes, *_sharing(",
        "return (*of_boxes, *zip((), ())) if used else (*of_boxes, *_sharing(",
        "shared neutrals stay on",
    ),
    Fault(
        "shutoff/targets",
        "seen = (feed for feed in cables(box, record) if feed is not None)",
        "seen = ()",
        "a cable seen there is overlooked",
    ),
    Fault("shutoff/targets", "and len(one.candidates) <= FEW", "", "dozens of candidates are turned off"),
    Fault("shutoff/targets", "(*one.breakers, *left)", "one.breakers", "what a feed may hang on stays on"),
    Fault(
        "shutoff/targets",
        'left = one.candidates if narrowed and one.standing != "proved" else ()',
        "left = ()",
        "candidates stay on",
    ),
    Fault(
        "shutoff/targets", "if isinstance(pole.neutral, int):", "if False:", "a multiwire circuit's other leg stays on"
    ),
    Fault(
        "shutoff/targets",
        'groups[("feed", feed.id)] = [feed.returns.breaker, *known[feed.id].breakers]',
        "pass",
        "a borrowed neutral's circuit stays on",
    ),
    Fault(
        "shutoff/handles",
        'breaker.device == "fuse" and breaker.opens == "not known"',
        "False",
        "a fuse of unknown side is relied on",
    ),
    Fault(
        "shutoff/handles",
        "return fuses | keep_off(home, record)",
        "return fuses",
        "what may never be opened is",
    ),
    Fault(
        "shutoff/handles",
        "fuses | keep_off(home, record)",
        'fuses | {one.id: "" for one in home.breakers if one.may_open.may == "never"}',
        "a breaker in trouble is relied on",
    ),
    Fault(
        "shutoff/cut",
        "if handles.may_open(giver):",
        'if giver[0] in ("breaker", "main"):',
        "barred handles are in the cut",
    ),
    Fault(
        "shutoff/cut", "            else:\n                todo.append(giver)", "", "the search stops at the first node"
    ),
    Fault(
        "shutoff/cut",
        "found |= handles.together[giver[1]] - handles.resting",
        "found |= {giver[1]}",
        "tied handles move alone",
    ),
    Fault("shutoff/cut", "            off = without\n", "            pass\n", "needless handles stay in"),
    Fault("shutoff/cut", "if handle in off and all(", "if handle in off and any(", "needed handles are left out"),
    Fault(
        "shutoff/cut",
        "uncut = tuple(one for one in every if stuck[one.node])",
        "uncut = ()",
        "what nothing cuts is not told",
    ),
    Fault(
        "shutoff/cut",
        "found |= handles.together[giver[1]] - handles.resting",
        "found |= handles.together[giver[1]]",
        "what was found off is turned off again",
    ),
    Fault(
        "shutoff/choices",
        "if board.cuts(board.handles.together[movement], targets)",
        "if True",
        "a handle that does not do is offered",
    ),
    Fault(
        "shutoff/least_cut",
        "capacity=above.weights[node])",
        "capacity=1)",
        "what goes dark weighs nothing",
    ),
    Fault(
        "shutoff/wiring",
        "& self.live_as_found\n",
        "\n",
        "what was dark before goes dark",
    ),
    Fault(
        "shutoff/dark",
        "+ CRITICAL_WEIGHT * len(critical & dark)",
        "",
        "critical things weigh no more",
    ),
    Fault(
        "shutoff/around",
        'for place in points if known[place.feed.id].standing == "proved")',
        "for place in points)",
        "a tester is proved on a guess",
    ),
    Fault("shutoff/around", "relied_on and is_live(", "is_live(", "a tester is proved on a handle in trouble"),
    Fault("shutoff/around", "and kind.hots == 1 ", "", "a lead is plugged in at 240 V"),
    Fault(
        "shutoff/around",
        "place.box.id not in barred and around.stays_live(place)",
        "place.box.id not in barred",
        "a tester is proved on a dead point",
    ),
    Fault(
        "shutoff/around",
        "place.box.id not in barred and around.stays_live(place)",
        "around.stays_live(place)",
        "a tester is proved on the box to be opened",
    ),
    Fault(
        "shutoff/shut_off",
        "cut.keep_off | _leaned_on(wanted, known, board)",
        "cut.keep_off",
        "what a test leans on may be turned on",
    ),
    Fault(
        "shutoff/shut_off", "if not desk.findings.boxes[box].opened:", "if False:", "a box nobody opened is not told"
    ),
    Fault("shutoff/wiring", "| _feeds(dead)", "", "what may hang on it does not go dark"),
    Fault(
        "shutoff/wiring",
        "(before - touched if before & touched else before)",
        "before",
        "what hangs elsewhere goes dark",
    ),
    Fault("shutoff/telling_why", 'if source.kind != "utility":', "if False:", "a second source is not told"),
    Fault("shutoff/telling_why", "for one in cut.uncut:", "for one in ():", "what stays live is not told"),
    Fault("shutoff/revive", "elif breaker in barred:", "elif False:", "a breaker in trouble is reset"),
    Fault("shutoff/revive", "if one.found.is_off:", "if False:", "what was left off is turned on"),
    Fault(
        "supply/handles",
        "if all(_holds(breaker.tie) for breaker in group)]",
        "if any(_holds(breaker.tie) for breaker in group)]",
        "a makeshift tie counts",
    ),
    Fault(
        "supply/graph",
        "draft.join(running_back(draft.supplies, frozenset(draft.roots()), _changing_over(home)))\n",
        "\n",
        "no power runs back",
    ),
    Fault(
        "supply/graph",
        'draft.supply_strays("unknown", [("feed", feed.id) for feed in feeds], cut)\n',
        "\n",
        "what hangs on itself is dead",
    ),
    Fault(
        "supply/edges", 'elif on.how == "not known":\n        yield "unknown", feed.id', "", "what nobody knows is dead"
    ),
    Fault(
        "shutoff/targets",
        "for other, feed in beside.items()",
        "for other, feed in {}.items()",
        "what a switch works with on another circuit stays on",
    ),
    Fault(
        "findings/shut_off", "and dead and self.all_cut", "and dead", "a neutral's circuit that nothing cuts is whole"
    ),
    Fault("survey/log_book", " | self._newer", "", "what a newer program wrote more of is known"),
    Fault("survey/states", "    if one.breakers:\n", "    if False:\n", "what was traced is disconnected"),
    Fault("survey/states", "in judge.evidence.adrift:", "in ():", "a source adrift is nowhere"),
    Fault("survey/states", "elif not own <= {*seen}:", "elif False:", "what nobody saw in the box was seen"),
    Fault(
        "survey/states",
        "if not all(_is_shut(breaker, opened, judge) for breaker in whole):",
        "if False:",
        "half a handle is a whole one",
    ),
    Fault(
        "survey/conclusions",
        "(*concluded.breakers, *astray)",
        "(*concluded.breakers,)",
        "what a tracer points to stays on",
    ),
    Fault(
        "survey/troubles", "return joined | dict(barred)", "return dict(barred)", "a nailed handle may be turned off"
    ),
)

if __name__ == "__main__":
    sys.exit(main(FAULTS, TESTS))
