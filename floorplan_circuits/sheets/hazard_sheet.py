"""The list of dangers, room by room: what each is and what to do; why it matters is told once, at the end."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial

from floorplan_circuits.drawing.ink import Group, Mark, Text
from floorplan_circuits.drawing.lettering import cap_height, width, wrap
from floorplan_circuits.drawing.palette import PAPER, Theme
from floorplan_circuits.drawing.phrases import capital
from floorplan_circuits.drawing.plates import BOX_PLATE_SIZE, box_plate, box_plate_width, text_height
from floorplan_circuits.drawing.sheet import Page, Sheet
from floorplan_circuits.findings import Findings, Hazard
from floorplan_circuits.findings.places import place_of
from floorplan_circuits.sheets.continuation import RestOfList, further_pages
from floorplan_circuits.sheets.framed import Framed
from floorplan_circuits.sheets.furniture import BODY_SIZE, text_lines
from floorplan_circuits.sheets.layouts import inner_size
from floorplan_circuits.sheets.paper import MARGIN, Paper, Rect
from floorplan_circuits.sheets.sections import Block, Section, text_block

PRACTICE = "Common practice, no source"
"""How the source of a danger begins that the trade knows and no rule of it is at hand."""
NOWHERE = "The whole home"
NONE = "No danger found among what is recorded. That says nothing of what is not."
MOST_NAMED = 12
LEAD, MIDDLE = 20.0, 2.4
"""mm from a block's left edge to its words, at least, and from its top to the middle of its plate."""


def hazard_sheet(findings: Findings, paper: Paper, made_on: str, theme: Theme = PAPER) -> Sheet:
    """Return the list of dangers, the rooms in the order of their worst; no pages for a home without anything."""
    if not (findings.boxes or findings.hazards or findings.home.panels):
        return Sheet(_title(findings), ())
    lister = _Lister(findings, theme)
    pieces = [RestOfList(make, 0, title) for title, make in lister.lists()]
    size = inner_size(paper, "portrait")
    inks, cut = further_pages(pieces, size, theme)
    frame, pages = Framed.of(findings, paper, made_on, theme), list[Page]()
    shortened = list(cut)
    for number, ink in enumerate(inks, 1):
        caption = f"{number} of {len(inks)}" if len(inks) > 1 else ""
        page, lost = frame.page(size, Rect(MARGIN, 0, size[0] - 2 * MARGIN, 0), (ink,), ("Dangers", caption))
        pages.append(page)
        shortened += lost
    return Sheet(_title(findings), tuple(pages), tuple(dict.fromkeys(shortened)))


def _title(findings: Findings) -> str:
    return f"{findings.home.name or 'Home'}: dangers"


@dataclass(frozen=True, slots=True)
class _Lister:
    """Sets the dangers of each room as a list."""

    findings: Findings
    theme: Theme

    def lists(self) -> Iterator[tuple[str, Callable[[float], Section]]]:
        """Yield title and maker of each list: rooms, what was set aside, why, what nobody has looked into."""
        rooms = self._rooms()
        for room, found in rooms.items():
            yield room, partial(self._hazards, room, found)
        if not rooms:
            yield "Found", partial(self._sentences, "Found", [NONE])
        if aside := self._aside():
            yield "Set aside", partial(self._hazards, "Set aside", aside)
        if why := list(dict.fromkeys(map(_why, self._listed()))):
            yield "Why", partial(self._sentences, "Why", why)
        yield "Not looked into", partial(self._sentences, "Not looked into", [_not_opened(self.findings)])

    def _hazards(self, title: str, found: Sequence[Hazard], wide: float) -> Section:
        return Section(title, tuple(self._block(title, hazard, wide) for hazard in found), wide)

    def _sentences(self, title: str, words: Sequence[str], wide: float) -> Section:
        return Section(title, tuple(text_block(wrap(one, wide, BODY_SIZE), self.theme) for one in words), wide)

    def _listed(self) -> list[Hazard]:
        return [one for one in self.findings.hazards if _is_listed(one) and not _set_aside(one)]

    def _aside(self) -> list[Hazard]:
        return [one for one in self.findings.hazards if _set_aside(one)]

    def _rooms(self) -> dict[str, list[Hazard]]:
        found: dict[str, list[Hazard]] = {}
        for hazard in self._listed():
            found.setdefault(_room(hazard, self.findings), []).append(hazard)
        return found

    def _block(self, title: str, hazard: Hazard, wide: float) -> Block:
        """Draw the plate or the name of what it is about, what it is in bold, and what to do."""
        marks, lead = self._lead(hazard)
        inset, size, theme = max(LEAD, lead + 2.0), BODY_SIZE, self.theme
        said = wrap(_said_under(title, hazard), wide - inset, size, True)
        todo = wrap(" ".join((hazard.do, _set_aside(hazard))).strip(), wide - inset, size)
        marks += text_lines(said, inset, 0.5, size, theme, bold=True)
        marks += text_lines(todo, inset, 0.5 + len(said) * text_height(size), size, theme)
        return Block(Group(tuple(marks)), max(5.2, (len(said) + len(todo)) * text_height(size) + 1.6))

    def _lead(self, hazard: Hazard) -> tuple[list[Mark], float]:
        box = None if hazard.box is None else self.findings.home.boxes.get(hazard.box)
        found = None if box is None else self.findings.boxes.get(box.id)
        if box is not None and found is not None and found.shared:
            wide = box_plate_width(box.mark, found.tied)
            return [box_plate(box.mark, found, (wide / 2, MIDDLE), self.theme)], wide
        words = box.mark if box is not None else hazard.named
        lines = wrap(words, LEAD - 2.0, BOX_PLATE_SIZE, True) if words else ()
        first = MIDDLE + cap_height(BOX_PLATE_SIZE) / 2
        marks: list[Mark] = [
            Text((0, first + at * text_height(BOX_PLATE_SIZE)), line, BOX_PLATE_SIZE, True, self.theme.ink)
            for at, line in enumerate(lines)
        ]
        return marks, max((width(line, BOX_PLATE_SIZE, True) for line in lines), default=0.0)


def _is_listed(hazard: Hazard) -> bool:
    return hazard.listed


def _set_aside(hazard: Hazard) -> str:
    return hazard.set_aside


def _said_under(title: str, hazard: Hazard) -> str:
    """Return what a danger is, without the name of the room that it stands under."""
    said = hazard.says.removeprefix(f"{title}: ")
    return said if said == hazard.says else capital(said)


def _room(hazard: Hazard, findings: Findings) -> str:
    """Return where a danger is: its room, else its level, else the whole home."""
    of_box = place_of(hazard.box, findings) if hazard.box is not None else ""
    return hazard.room_name or of_box or hazard.level_name or NOWHERE


def _why(hazard: Hazard) -> str:
    return f"{hazard.why} {_source(hazard.source.rstrip('.'))}" if hazard.source else hazard.why


def _source(source: str) -> str:
    """Return where a rule comes from; of what only the trade does that nobody published it, or what else says it."""
    if not source.startswith(PRACTICE):
        return f"Source: {source}."
    besides = source.removeprefix(PRACTICE)
    return f"Common practice{besides}." if besides else "Common practice; no published rule that we know of."


def _not_opened(findings: Findings) -> str:
    """Return which boxes nobody has looked into since they changed, or the fewer that somebody has."""
    marks = {found.box: findings.home.boxes[found.box].mark for found in findings.boxes.values()}
    closed = [mark for box, mark in marks.items() if not findings.boxes[box].opened]
    opened = [mark for box, mark in marks.items() if findings.boxes[box].opened]
    if not closed:
        return "Somebody looked into every box that is recorded, since it was last changed."
    if len(closed) <= len(opened) or len(closed) <= MOST_NAMED:
        return f"More may enter than the map shows in {', '.join(_ordered(closed))}."
    but = f" but {', '.join(_ordered(opened))}" if opened else ""
    return f"Nobody has looked into any of the {len(marks)} boxes{but}: more may enter there than the map shows."


def _ordered(marks: Iterable[str]) -> Iterator[str]:
    yield from sorted(marks, key=lambda mark: (len(mark), mark))
