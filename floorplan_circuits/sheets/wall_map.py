"""The wall map: a level's plan beside the panel's face, for the wall next to the panel. One page a level."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from floorplan_circuits.drawing.ink import Group, Mark, scaled
from floorplan_circuits.drawing.palette import PAPER, Theme
from floorplan_circuits.drawing.phrases import written
from floorplan_circuits.drawing.sheet import Page, Sheet
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.building import Level
from floorplan_circuits.sheets.content_code import content_code
from floorplan_circuits.sheets.continuation import Piece, RestOfList, further_pages, title_of
from floorplan_circuits.sheets.furniture import caution_height, foot_caution, head
from floorplan_circuits.sheets.layouts import inner_size
from floorplan_circuits.sheets.level_page import LevelPage, Lists, level_page
from floorplan_circuits.sheets.lists import no_room
from floorplan_circuits.sheets.panel_column import PanelOnSheet
from floorplan_circuits.sheets.paper import MARGIN, Paper, Rect

OF_THE_HOME = ("before",)
"""Lists that are about the whole home, on whatever level's page they begin."""


def wall_map(findings: Findings, paper: Paper, made_on: str, theme: Theme = PAPER) -> Sheet:
    """Return the wall map, one page a level, laid out so that the plan is as large as it goes.

    `made_on` is the day it is made, in ISO 8601. What finds no room, and every further panel, goes on further pages.
    """
    maker = _Maker(findings, paper, _made(findings, made_on), theme, content_code(findings))
    levels = _shown_levels(findings)
    for number, level in enumerate(levels, 1):
        maker.level(level, levels, f"Wall map {number} of {len(levels)}" if len(levels) > 1 else "Wall map")
    maker.rest(levels)
    pages, cut = tuple(maker.pages), tuple(dict.fromkeys(maker.cut))
    return Sheet(f"{findings.home.name or 'Home'}: wall map", pages, cut, tuple(maker.not_placed))


def _made(findings: Findings, made_on: str) -> str:
    evidence = written(findings.evidence_to)
    return f"Made {written(made_on)}" + (f" from evidence up to {evidence}" if evidence else ", nothing tested")


def _shown_levels(findings: Findings) -> list[Level]:
    """Return the levels that have something drawn, the lowest first."""
    home = findings.home
    drawn = {room.level for room in home.rooms} | {box.level for box in home.boxes if box.at is not None}
    return sorted((level for level in home.levels if level.id in drawn), key=lambda level: level.order)


def _scope(findings: Findings, level: Level, shown: Sequence[Level]) -> frozenset[int | None]:
    """Return the levels a page's lists are about: its own, and with the first those that have no page."""
    if level is not shown[0]:
        return frozenset({level.id})
    return frozenset({None, *findings.home.levels.ids()}) - {other.id for other in shown[1:]}


@dataclass(slots=True)
class _Maker:
    """Makes the pages one after another; on large paper everything is laid out smaller and then magnified."""

    findings: Findings
    paper: Paper
    made: str
    theme: Theme
    code: str
    pages: list[Page] = field(default_factory=list)
    cut: list[str] = field(default_factory=list)
    not_placed: list[str] = field(default_factory=list)
    _rest: list[Piece] = field(default_factory=list)
    _panel_shown: bool = False

    def level(self, level: Level, shown: Sequence[Level], caption: str) -> None:
        """Make one level's page."""
        lists = Lists(self.findings, self.theme, _scope(self.findings, level, shown), level is shown[0])
        made = level_page(self.findings, level, lists, self._main_panel(), self.paper, self.theme)
        self._panel_shown |= made.layout.panel is not None
        self.cut += made.cut
        self.not_placed += [f"{level.name}: {what}" for what in made.not_placed]
        self._rest += self._unfinished(made, lists, level.name if len(shown) > 1 else "")
        self._close(made.layout.width, made.layout.height, made.layout.head, (made.ink,), (level.name, caption))

    def _main_panel(self) -> PanelOnSheet | None:
        panel = next(iter(self.findings.home.panels), None)
        return None if panel is None else PanelOnSheet(self.findings, panel, self.theme)

    def _unfinished(self, made: LevelPage, lists: Lists, level: str) -> Iterable[Piece]:
        """Yield the lists that the level's page shows in part or not at all."""
        for kind in made.layout.lost():
            yield _rest_of(lists, kind, made.layout.shown(kind), level)
        if made.listed:
            findings, theme, boxes = self.findings, self.theme, made.listed
            title = f"No room on the plan: {level}" if level else "No room on the plan"
            yield RestOfList(lambda wide: no_room(findings, wide, theme, boxes), 0, title)

    def rest(self, shown: Sequence[Level]) -> None:
        """Make the further pages: panels without a place so far, and the rest of the lists."""
        panels = list(self.findings.home.panels)[1 if self._panel_shown else 0 :]
        pieces: list[Piece] = [PanelOnSheet(self.findings, panel, self.theme) for panel in panels]
        if not shown and self.findings.home.boxes:
            lists = Lists(self.findings, self.theme, None)
            pieces += [_rest_of(lists, kind, 0, "") for kind in lists.kinds() if kind not in ("read",)]
        pieces += self._rest
        width, height = inner_size(self.paper, "portrait")
        inks, cut = further_pages(pieces, (width, height), self.theme)
        self.cut += cut
        title = title_of(pieces)
        for number, ink in enumerate(inks, 1):
            caption = "Wall map, continued" if self.pages else "Wall map"
            words = f"{title} {number} of {len(inks)}" if len(inks) > 1 else title
            self._close(width, height, Rect(MARGIN, 0, width - 2 * MARGIN, 0), (ink,), (words, caption))

    def _close(self, width: float, height: float, area: Rect, marks: Sequence[Mark], named: tuple[str, str]) -> None:
        """Add a page: head, marks, caution."""
        top, cut = head(area, *named, self.findings.home.name, self.made, self.theme)
        self.cut += cut
        high = caution_height(width - 2 * MARGIN)
        foot = foot_caution(Rect(MARGIN, height - MARGIN - high, width - 2 * MARGIN, high), self.theme, self.code)
        ink, size = Group((top, *marks, foot)), self.paper.magnify
        page = scaled(ink, size) if size != 1 else ink
        assert isinstance(page, Group)
        self.pages.append(Page(width * size, height * size, page, named[0]))


def _rest_of(lists: Lists, kind: str, start: int, level: str) -> RestOfList:
    title = lists.make(kind, 90.0).title
    of_level = level and kind not in OF_THE_HOME
    return RestOfList(lambda wide: lists.make(kind, wide), start, f"{title}: {level}" if of_level else title)
