"""What a panel's directory tells of the panel itself: where its power comes from, and where that can be opened."""

from collections.abc import Iterator, Mapping

from floorplan_circuits.findings import JudgedPanel, Verdict
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Panel

FEEDER = "NEC 408.4(B), 2023: the law outside one- and two-family dwellings, good practice in a house"
SECOND = "NEC 705.10 and 702.7 (from memory, not read again)"


def judged_panel(home: Home, panel: Panel, numbers: Mapping[int, str]) -> JudgedPanel:
    """Return the words on what feeds a panel, and what its directory leaves out."""
    return JudgedPanel(panel.id, fed_in_words(home, panel, numbers), tuple(_verdicts(home, panel)))


def fed_in_words(home: Home, panel: Panel, numbers: Mapping[int, str]) -> str:
    """Return 'Fed by 38·40 in Main panel, basement', each feeder named; '' where nobody said what feeds it."""
    told = []
    for one in panel.fed_by:
        if one.kind == "source":
            source = home.sources.get(one.source)
            told.append(source.name.strip() if source is not None else "")
        else:
            breaker = home.breakers.get(one.breaker)
            other = home.panels.get(breaker.panel) if breaker is not None else None
            if other is not None:
                where = f", {other.place.strip()}" if other.place.strip() else ""
                told.append(f"{numbers[one.breaker]} in {other.name.strip() or 'another panel'}{where}")
    told = [words for words in told if words]
    return f"Fed by {' and by '.join(told)}" if told else ""


def _verdicts(home: Home, panel: Panel) -> Iterator[Verdict]:
    if not panel.fed_by and _is_further(home, panel):
        yield Verdict(
            "fed by",
            panel.name,
            f"“{panel.name}” does not say where its power comes from.",
            "Select the breaker that feeds it and say so.",
            FEEDER,
            soft=True,
        )
    for source in home.sources:
        if source.kind in ("generator", "solar", "battery") and not source.disconnect.strip():
            yield Verdict(
                "second source",
                source.name,
                f"Nobody wrote down where “{source.name}” is disconnected.",
                "Find its disconnect and write it down.",
                SECOND,
                soft=True,
            )


def _is_further(home: Home, panel: Panel) -> bool:
    """Tell whether a panel is not the first: that one the utility feeds."""
    return panel.id != home.panels.rows[0].id
