"""What to know before a handle is turned: panels and sources, what the main leaves live, what is left off, critical."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from floorplan_circuits.drawing.ink import Group, moved
from floorplan_circuits.drawing.lettering import width, wrap
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.panel_words import keep_off_words
from floorplan_circuits.drawing.phrases import capital, listed
from floorplan_circuits.drawing.plates import text_height
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.boxes import Device
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.home.power import Breaker, Panel, Source
from floorplan_circuits.home.trade_words import home_words
from floorplan_circuits.sheets.furniture import BODY_SIZE, text_lines
from floorplan_circuits.sheets.sections import Block, Section

TITLE = "Before you turn one off"
STARTS = {
    "always": "runs always",
    "by hand": "started by hand",
    "by itself": "starts by itself",
    "not known": "nobody knows how it starts",
}
CHANGES_OVER = {
    "by hand": "changed over by hand",
    "by itself": "changes over by itself",
    "not known": "nobody knows how it changes over",
}
LEAST_LEAD = 11.0
"""mm that the bold words before a line take at least, so that lines below each other begin at one place."""
LEAST_COLUMN, BETWEEN = 42.0, 4.0
"""Least mm of a column of short lines, and between two of them."""


@dataclass(frozen=True, slots=True)
class Told:
    """One line of the list: the bold words it begins with, what it says, and whether both stand in columns."""

    lead: str
    says: str
    in_columns: bool = False


def before_you_turn(findings: Findings, wide: float, theme: Theme) -> Section:
    """Return the list of what is to be known before a handle is turned; no blocks where nothing is recorded of it."""
    told = (*_panels(findings), *_sources(findings), *_from_elsewhere(findings), *_breakers(findings))
    return Section(TITLE, tuple(_blocks(told, wide, theme)), wide)


def _blocks(told: Sequence[Told], wide: float, theme: Theme) -> Iterator[Block]:
    """Set line after line; short ones that follow each other stand side by side, read row by row."""
    columns = max(1, int((wide + BETWEEN) / (LEAST_COLUMN + BETWEEN)))
    each = (wide - BETWEEN * (columns - 1)) / columns
    for is_short, run in groupby(told, key=lambda one: _fits_on_a_line(one, each)):
        blocks = [_block(one, each if is_short else wide, theme) for one in run]
        step = columns if is_short else 1
        for row in (blocks[at : at + step] for at in range(0, len(blocks), step)):
            marks = [moved(block.ink, at * (each + BETWEEN), 0.0) for at, block in enumerate(row)]
            yield Block(Group(tuple(marks)), row[0].height)


def _fits_on_a_line(told: Told, wide: float) -> bool:
    return told.in_columns and _inset(told) + width(told.says, BODY_SIZE) <= wide


def _inset(told: Told) -> float:
    return max(LEAST_LEAD, width(told.lead, BODY_SIZE, True) + 1.5)


def _block(told: Told, wide: float, theme: Theme) -> Block:
    """Set one line: its number in a column of its own, or its name before the first words."""
    size = BODY_SIZE
    if told.in_columns:
        inset = _inset(told)
        marks = text_lines((told.lead,), 0, 0, size, theme, bold=True)
        lines = wrap(told.says, wide - inset, size)
        marks += text_lines(lines, inset, 0, size, theme)
        return Block(Group(tuple(marks)), len(lines) * text_height(size) + 0.7)
    lead = f"{told.lead}:"
    first, rest = _first_line(told.says, wide - width(lead, size, True) - 1.2)
    lines = wrap(rest, wide, size) if rest else ()
    marks = text_lines((lead,), 0, 0, size, theme, bold=True)
    marks += text_lines((first,), width(lead, size, True) + 1.2, 0, size, theme) if first else []
    marks += text_lines(lines, 0, text_height(size), size, theme)
    return Block(Group(tuple(marks)), (1 + len(lines)) * text_height(size) + 0.9)


def _first_line(words: str, room: float) -> tuple[str, str]:
    """Return the words that stand behind a name on its line, and the rest."""
    every = words.split(" ")
    taken = 0
    while taken < len(every) and width(" ".join(every[: taken + 1]), BODY_SIZE) <= room:
        taken += 1
    return " ".join(every[:taken]), " ".join(every[taken:])


# --- panels and sources ---------------------------------------------------------------------------------------------


def _panels(findings: Findings) -> Iterator[Told]:
    """Yield every panel: where it is, what feeds it, and what stays live with its main off."""
    for panel in findings.home.panels:
        yield Told(panel.name, ". ".join(map(capital, _of_panel(findings, panel))) + ".")


def _of_panel(findings: Findings, panel: Panel) -> Iterator[str]:
    yield panel.place or _on_the_plan(findings, panel) or "nobody wrote down where it is"
    fed = list(dict.fromkeys(_givers(findings, panel)))
    over = CHANGES_OVER.get(panel.changes_over, "")
    if fed:
        yield f"fed by {listed(fed)}{f', {over}' if over else ''}"
    else:
        yield "nobody wrote down what feeds it"
    if panel.mains:
        names = listed([_main_in_words(findings, main.id, main.amps) for main in panel.mains])
        yield f"{names}: the wires on its supply side stay live with it off"
    elif fed:
        yield "no main of its own is recorded: the wires that feed it stay live until what feeds it is off"
    else:
        yield "no main of its own is recorded"


def _on_the_plan(findings: Findings, panel: Panel) -> str:
    """Return that a panel is drawn, and on which level's plan; '' where it is not."""
    level = findings.home.levels.get(panel.level)
    if level is None or panel.at is None:
        return ""
    return f"on the plan of “{level.name}”" if level.name else "on the plan"


def _main_in_words(findings: Findings, main: int, amps: int | None) -> str:
    name = findings.marks.get(main, "main") or "main"
    return f"{name} {amps} A" if amps and str(amps) not in name else name


def _givers(findings: Findings, panel: Panel) -> Iterator[str]:
    """Yield in words what feeds a panel, as the panel tells it and as the sources do."""
    home = findings.home
    for fed in panel.fed_by:
        if fed.kind == "breaker":
            giver = home.breakers.get(fed.breaker)
            where = home.panels.get(giver.panel) if giver is not None else None
            yield f"{findings.marks.get(fed.breaker, '?')}{f' in {where.name}' if where is not None else ''}"
        elif (source := home.sources.get(fed.source)) is not None:
            yield _with_disconnect(source)
    handles = {panel.id, *(main.id for main in panel.mains)}
    yield from (_with_disconnect(source) for source in home.sources if handles & set(source.into))


def _with_disconnect(source: Source) -> str:
    """Return a source's name; the utility's disconnect stands behind it, since it has no line of its own."""
    return (
        f"{source.name} (its disconnect: {source.disconnect or 'not written down'})"
        if _is_plain(source)
        else source.name
    )


def _is_plain(source: Source) -> bool:
    """Tell whether it is the utility: what the main is there to stop."""
    return source.kind == "utility"


def _sources(findings: Findings) -> Iterator[Told]:
    """Yield every source that the main does not stop, and a utility that feeds no panel."""
    fed = {one for panel in findings.home.panels for one in (panel.id, *(main.id for main in panel.mains))}
    stated = {one.source for panel in findings.home.panels for one in panel.fed_by if one.kind == "source"}
    for source in findings.home.sources:
        if not (_is_plain(source) and (source.id in stated or fed & set(source.into))):
            yield Told(source.name, ". ".join(map(capital, _of_source(findings, source))) + ".")


def _of_source(findings: Findings, source: Source) -> Iterator[str]:
    if not _is_plain(source):
        yield f"{source.kind}, {STARTS[source.starts]}: the {home_words(findings.home).main} does not stop it"
    reached = listed([*_reached(findings, source)])
    yield f"into {reached}" if reached else "nobody wrote down what it reaches"
    yield f"its disconnect: {source.disconnect}" if source.disconnect else "nobody wrote down its disconnect"


def _reached(findings: Findings, source: Source) -> Iterator[str]:
    names = {panel.id: panel.name for panel in findings.home.panels}
    marks = {feed.id: box.mark for box in findings.home.boxes for feed in box.feeds()}
    for one in source.into:
        yield names.get(one) or marks.get(one) or findings.marks.get(one) or "?"


def _from_elsewhere(findings: Findings) -> Iterator[Told]:
    """Yield the boxes that a supply from outside the panels enters: no main here stops it."""
    home, told = findings.home, dict[int, dict[str, None]]()
    names, main = {source.name for source in home.sources}, home_words(home).main
    for one in findings.conclusions.values():
        outside = [other for other in one.others if other not in names]
        if outside:
            told.setdefault(one.box, {}).update(dict.fromkeys(outside))
    for box, others in told.items():
        found = findings.boxes.get(box)
        room = f", {found.room_name}" if found is not None and found.room_name else ""
        yield Told(f"{home.boxes[box].mark}{room}", f"{capital(listed([*others]))}: the {main} does not stop it.")


# --- breakers -------------------------------------------------------------------------------------------------------


def _breakers(findings: Findings) -> Iterator[Told]:
    """Yield the handles of which anything is to be known.

    They are in trouble, were left off, are to be asked about, share a neutral, or something critical needs them.
    """
    critical = _critical(findings)
    for panel in findings.home.panels:
        for main in panel.mains:
            for words in _in_trouble(findings, main.id):
                yield Told(findings.marks.get(main.id, "main"), f"{capital(words)}.", in_columns=True)
    for breaker in _in_order(findings):
        trouble = _in_trouble(findings, breaker.id)
        says = [*trouble, *_left_off(breaker), *_may_open(breaker), *_neutral(findings, breaker)]
        says += critical.get(breaker.id, ())
        if says:
            words = ". ".join(map(capital, says))
            yield Told(findings.marks.get(breaker.id, "?"), f"{words}.", in_columns=True)
    if None in critical:
        yield Told("?", f"{capital(listed(critical[None]))}: nobody knows which breaker it hangs on.", in_columns=True)


def _in_order(findings: Findings) -> Iterator[Breaker]:
    """Yield the breakers panel by panel, as their spaces are counted."""
    panels = {panel: place for place, panel in enumerate(findings.home.panels.ids())}
    yield from sorted(
        findings.home.breakers,
        key=lambda one: (panels.get(one.panel, 0), min((pole.space, pole.half or "") for pole in one.poles)),
    )


def _in_trouble(findings: Findings, handle: int) -> Iterator[str]:
    if handle in findings.troubles:
        yield keep_off_words(findings.troubles[handle])


def _neutral(findings: Findings, breaker: Breaker) -> Iterator[str]:
    others = findings.shares_neutral.get(breaker.id, ())
    if others:
        together = "both" if len(others) == 1 else "all of them"
        numbers = listed([findings.marks.get(other, "?") for other in others])
        yield f"shares a neutral with {numbers}: turn {together} off together"


def _left_off(breaker: Breaker) -> Iterator[str]:
    found = breaker.found
    if found.is_off:
        yield f"found {found.state}: {found.why}" if found.why else f"found {found.state}, nobody wrote down why"


def _may_open(breaker: Breaker) -> Iterator[str]:
    may = breaker.may_open
    why = f": {may.why}" if may.why else ""
    if may.may == "never":
        yield f"never turn it off{why}" + (f" ({may.whose})" if may.whose else "")
    elif may.may == "ask":
        yield f"ask {may.whose or 'first'}{why}"


def _critical(findings: Findings) -> Mapping[int | None, list[str]]:
    """Return, by breaker (None: nobody knows), what critical things are on it, several of a name told once."""
    found: dict[int | None, dict[str, None]] = {}
    for box in findings.home.boxes:
        for device in box.devices:
            if not device.critical or device.planned:
                continue
            for feed in device.feeds:
                one = findings.conclusions.get(feed.id)
                for breaker in (one.breakers or (None,)) if one is not None else ():
                    found.setdefault(breaker, {})[_critical_in_words(device)] = None
    return {breaker: list(words) for breaker, words in found.items()}


def _critical_in_words(device: Device) -> str:
    called = device.name or kind_named(device.kind).label
    return called if device.critical in (called, kind_named(device.kind).label) else f"{called} ({device.critical})"
