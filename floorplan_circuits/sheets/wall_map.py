"""The wall map: a level's plan beside the panel's face, for the wall next to the panel. One page a level."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field, replace

from floorplan_circuits.drawing.ink import Mark
from floorplan_circuits.drawing.palette import PAPER, Theme
from floorplan_circuits.drawing.sheet import Page, Sheet
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.building import Level
from floorplan_circuits.home.power import Panel
from floorplan_circuits.sheets.continuation import Piece, RestOfList, further_pages, title_of
from floorplan_circuits.sheets.drawers import Drawer, LevelsDrawer
from floorplan_circuits.sheets.framed import Framed, Named
from floorplan_circuits.sheets.layouts import inner_size
from floorplan_circuits.sheets.level_page import LevelPage, Lists, level_page
from floorplan_circuits.sheets.lists import no_room
from floorplan_circuits.sheets.one_panel import Narrowed, narrowed
from floorplan_circuits.sheets.panel_column import PanelOnSheet
from floorplan_circuits.sheets.paper import MARGIN, Paper, Rect
from floorplan_circuits.sheets.part_pages import Cut, how_to_cut, part_pages

Tell = Callable[[str], object]
"""What is told of each page before it is made."""


def silently(_page: str) -> None:
    """Tell nobody."""


OF_THE_HOME = ("before", "parts")
"""Lists that are about the whole home, on whatever level's page they begin."""


def wall_map(
    findings: Findings,
    paper: Paper,
    made_on: str,
    theme: Theme = PAPER,
    *,
    together: bool = False,
    panel: Panel | None = None,
    switching: bool = False,
    tell: Tell = silently,
) -> Sheet:
    """Return the wall map, one page a level, laid out so that the plan is as large as it goes.

    `made_on` is the day it is made, in ISO 8601. What finds no room, and every further panel, goes on further pages; a
    level that is too dense for the paper goes on pages of its parts. `together`: all levels on one page, if their
    numbers can be read there. `panel`: only what is on it or may be. `switching`: with curves
    from switches to what they work. `tell` is told of each page before it is made,
    and may raise to end it all.
    """
    maker = _Maker(findings, paper, theme, Framed.of(findings, paper, made_on, theme), panel, switching, tell)
    levels = shown_levels(maker.plan)
    caption = f"Wall map, {panel.name} only" if panel is not None else "Wall map"
    if not (together and len(levels) > 1 and maker.together(levels, caption)):
        for number, level in enumerate(levels, 1):
            maker.level(level, levels, f"{caption} {number} of {len(levels)}" if len(levels) > 1 else caption)
    maker.rest(levels, caption)
    pages, cut = tuple(maker.pages), tuple(dict.fromkeys(maker.cut))
    title = f"{findings.home.name or 'Home'}: {caption[:1].lower()}{caption[1:]}"
    return Sheet(title, pages, cut, tuple(maker.not_placed), tuple(maker.notes))


def shown_levels(findings: Findings) -> list[Level]:
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
    theme: Theme
    frame: Framed
    panel: Panel | None
    switching: bool
    tell: Tell
    pages: list[Page] = field(default_factory=list)
    cut: list[str] = field(default_factory=list)
    not_placed: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    _rest: list[Piece] = field(default_factory=list)
    _panel_page: str | None = None
    _narrowed: Narrowed | None = None
    _shown: PanelOnSheet | None = None

    def __post_init__(self) -> None:
        """Narrow what is printed to the one panel, if it is."""
        if self.panel is not None:
            self._narrowed = narrowed(self.findings, self.panel)

    @property
    def plan(self) -> Findings:
        """What the plans show."""
        return self._narrowed.plan if self._narrowed is not None else self.findings

    def _drawer(self, level: Level) -> Drawer:
        pale = self._narrowed.pale if self._narrowed is not None else frozenset[int]()
        return Drawer(self.plan, level, self.paper.magnify, self.theme, pale, self.switching)

    def _lists(self, scope: frozenset[int | None] | None, is_first: bool = True) -> Lists:
        if self._narrowed is None:
            return Lists(self.findings, self.theme, scope, is_first, switching=self.switching)
        return Lists(self._narrowed.lists, self.theme, scope, is_first, drawn=self.plan, switching=self.switching)

    def level(self, level: Level, shown: Sequence[Level], caption: str) -> None:
        """Make one level's page, and those of its parts where that shows no more than dots."""
        self.tell(level.name)
        drawer, scope, is_first = self._drawer(level), _scope(self.findings, level, shown), level is shown[0]
        lists = self._lists(scope, is_first)
        made = level_page(drawer, lists, self._main_panel(), self.paper, self._panel_page)
        cut = how_to_cut(drawer, self.paper) if made.plan.is_overview else None
        if cut is not None:
            lists = replace(lists, parts=cut.parts)  # what was set so far serves again
            made = level_page(drawer, lists, self._main_panel(), self.paper, self._panel_page)
        self._note_panel(made, level.name)
        self.cut += made.cut
        several = level.name if len(shown) > 1 else ""
        if cut is None:
            self.not_placed += [f"{level.name}: {what}" for what in made.plan.not_placed]
        self._rest += self._unfinished(made, lists, several, () if cut is not None else made.plan.listed)
        self._close(made.layout.width, made.layout.height, made.layout.head, (made.ink,), (level.name, caption))
        if cut is not None:
            self._parts(drawer, cut)

    def _parts(self, drawer: Drawer, cut: Cut) -> None:
        """Make the pages of a level's parts."""
        count = len(cut.parts.bounds())
        for part in part_pages(drawer, cut, self.paper):
            name = f"{drawer.level.name}, part {part.number}"
            self.tell(name)
            self.not_placed += [f"{name}: {what}" for what in part.plan.not_placed]
            self._rest += self._no_room(part.plan.listed, name)
            area = Rect(MARGIN, 0, part.width - 2 * MARGIN, 0)
            self._close(part.width, part.height, area, (part.ink,), (name, f"of {count}"))

    def together(self, levels: Sequence[Level], caption: str) -> bool:
        """Make one page of all levels; return whether it can be read. If not, nothing is made."""
        self.tell("All levels")
        drawer, lists = LevelsDrawer([self._drawer(level) for level in levels]), self._lists(None)
        made = level_page(drawer, lists, self._main_panel(), self.paper, self._panel_page)
        if made.plan.is_overview:
            self.notes.append("All levels on one page could not be read on this paper: each has a page of its own.")
            return False
        self._note_panel(made, "All levels")
        self.cut += made.cut
        self.not_placed += made.plan.not_placed
        self._rest += self._unfinished(made, lists, "", made.plan.listed)
        self._close(made.layout.width, made.layout.height, made.layout.head, (made.ink,), ("All levels", caption))
        return True

    def _main_panel(self) -> PanelOnSheet | None:
        panel = self.panel or next(iter(self.findings.home.panels), None)
        if self._shown is None and panel is not None:
            self._shown = PanelOnSheet(self.findings, panel, self.theme)
        return self._shown

    def _note_panel(self, made: LevelPage, page: str) -> None:
        if made.layout.panel is not None and self._panel_page is None:
            self._panel_page = page

    def _unfinished(self, made: LevelPage, lists: Lists, level: str, listed: tuple[int, ...]) -> Iterable[Piece]:
        """Yield the lists that the level's page shows in part or not at all."""
        for kind in made.layout.lost():
            yield _rest_of(lists, kind, made.layout.shown(kind), level)
        yield from self._no_room(listed, level)

    def _no_room(self, boxes: tuple[int, ...], level: str) -> Iterable[Piece]:
        if boxes:
            title = f"No room on the plan: {level}" if level else "No room on the plan"
            yield RestOfList(lambda wide: no_room(self.findings, wide, self.theme, boxes), 0, title)

    def rest(self, shown: Sequence[Level], whole: str) -> None:
        """Make the further pages: panels without a place so far, and the rest of the lists."""
        every = [self.panel] if self.panel is not None else list(self.findings.home.panels)
        panels = every[0 if self._panel_page is None else 1 :]
        pieces: list[Piece] = [PanelOnSheet(self.findings, panel, self.theme) for panel in panels]
        if not shown:
            lists = self._lists(None)
            home = self.findings.home
            kinds = [kind for kind in lists.kinds() if kind != "read"] if home.boxes else []
            kinds += ["before"] if not home.boxes and (home.sources or home.breakers) else []
            pieces += [_rest_of(lists, kind, 0, "") for kind in kinds]
        pieces += self._rest
        if pieces:
            self.tell("further pages")
        width, height = inner_size(self.paper, "portrait")
        inks, cut = further_pages(pieces, (width, height), self.theme)
        self.cut += cut
        title = title_of(pieces)
        for number, ink in enumerate(inks, 1):
            caption = f"{whole}, continued" if self.pages else whole
            words = f"{title} {number} of {len(inks)}" if len(inks) > 1 else title
            self._close(width, height, Rect(MARGIN, 0, width - 2 * MARGIN, 0), (ink,), (words, caption))

    def _close(self, width: float, height: float, area: Rect, marks: Sequence[Mark], named: Named) -> None:
        """Add a page: head, marks, caution."""
        page, cut = self.frame.page((width, height), area, marks, named)
        self.pages.append(page)
        self.cut += cut


def _rest_of(lists: Lists, kind: str, start: int, level: str) -> RestOfList:
    title = lists.make(kind, 90.0).title
    of_level = level and kind not in OF_THE_HOME
    return RestOfList(lambda wide: lists.make(kind, wide), start, f"{title}: {level}" if of_level else title)
