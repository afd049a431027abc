"""What `directory` says: each panel's lines, the old labels verbatim beside them, and what is wrong with either.

The JSON's form is documented in the project's `shared/`.
"""

from collections.abc import Iterator, Sequence
from typing import Any

from floorplan_circuits.findings import AskedWord, Findings, JudgedLine, Verdict
from floorplan_circuits.home.power import Panel
from floorplan_circuits.supply.numbering import reading_order

FOOT = (
    "As published in NEC 408.4, 2023, or BS 7671 514, 18th edition, and read here from the trade's commentary. "
    "Local code governs. A directory can be wrong: test before you touch."
)


def is_objected_to(findings: Findings) -> bool:
    """Tell whether any line that is drawn now breaks a rule; advice does not count, nor do old labels."""
    return any(not verdict.soft for line in findings.directory.lines.values() for verdict in line.of_now)


# --- JSON -----------------------------------------------------------------------------------------------------------


def as_json(findings: Findings) -> dict[str, Any]:
    """Return the report as plain values, panel by panel, lines in the order of the panel."""
    return {
        "home": findings.home.name,
        "panels": [_panel(panel, findings) for panel in findings.home.panels],
        "asked": [_asked(word, findings) for word in findings.directory.asked],
    }


def _panel(panel: Panel, findings: Findings) -> dict[str, Any]:
    judged = findings.directory.panels[panel.id]
    return {
        "name": panel.name,
        "fed": judged.fed,
        "verdicts": [_verdict(one) for one in judged.verdicts],
        "lines": [_line(line, findings) for line in _lines(panel, findings)],
    }


def _lines(panel: Panel, findings: Findings) -> Iterator[JudgedLine]:
    for number in reading_order(findings.home):
        if findings.home.breakers[number].panel == panel.id:
            yield findings.directory.lines[number]


def _line(line: JudgedLine, findings: Findings) -> dict[str, Any]:
    return {
        "breaker": findings.marks[line.breaker],
        "old": line.old,
        "line": line.now,
        "ours": line.ours,
        "own": findings.lines[line.breaker].own,
        "old_verdicts": [_verdict(one) for one in line.of_old],
        "line_verdicts": [_verdict(one) for one in line.of_now],
    }


def _verdict(one: Verdict) -> dict[str, Any]:
    told = {"rule": one.rule, "words": one.words, "says": one.says, "do": one.do}
    return told | {"better": one.better, "advice": one.soft, "source": one.source}


def _asked(word: AskedWord, findings: Findings) -> dict[str, Any]:
    breakers = [findings.marks[number] for number in word.breakers]
    return {"short": word.short, "may_mean": list(word.may_mean), "breakers": breakers}


# --- text -----------------------------------------------------------------------------------------------------------


def as_text(findings: Findings) -> str:
    """Return the report for a person: the old label and the line side by side, then what is wrong with each."""
    if not findings.home.panels:
        return "No panel is recorded yet."
    pages = [line for panel in findings.home.panels for line in _panel_text(panel, findings)]
    return "\n".join((*pages, *_asked_text(findings), FOOT))


def _panel_text(panel: Panel, findings: Findings) -> Iterator[str]:
    judged = findings.directory.panels[panel.id]
    yield f"{panel.name}. {judged.fed}." if judged.fed else f"{panel.name}. Nobody said what feeds it."
    yield from _verdict_lines(judged.verdicts)
    for line in _lines(panel, findings):
        old = f"   (old label “{line.old}”)" if line.old.strip() else "   (no old label)"
        yield f"\n{findings.marks[line.breaker]}  {line.now}{old}"
        yield from _verdict_lines(line.of_now)
        yield from _verdict_lines(line.of_old, "Old label: ")
    yield ""


def _verdict_lines(verdicts: Sequence[Verdict], start: str = "") -> Iterator[str]:
    for one in verdicts:
        advice = "Advice: " if one.soft else ""
        better = f" Better: “{one.better}”." if one.better else ""
        yield f"    {start}{advice}{one.says} {one.do}{better} [{one.source}]"


def _asked_text(findings: Findings) -> Iterator[str]:
    if findings.directory.asked:
        yield "Say once what these words on the labels mean (--means rec=receptacles):"
    for word in findings.directory.asked:
        may = f": {' or '.join(word.may_mean)}?" if word.may_mean else "?"
        yield f"    {word.short}{may}   on {', '.join(findings.marks[number] for number in word.breakers)}"
    if findings.directory.asked:
        yield ""
