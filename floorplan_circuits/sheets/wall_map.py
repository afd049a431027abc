"""The wall map: a level's plan beside the panel's face, for the wall next to the panel. One page a level."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from floorplan_circuits.drawing.ink import Group, Mark, moved, scaled
from floorplan_circuits.drawing.lettering import wrap
from floorplan_circuits.drawing.palette import PAPER, Theme
from floorplan_circuits.drawing.panel_face import Face, FaceStyle, face_rows, panel_face
from floorplan_circuits.drawing.plan import Plan, plan
from floorplan_circuits.drawing.plates import text_height
from floorplan_circuits.drawing.sheet import Page, Sheet
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.building import Level
from floorplan_circuits.home.power import Panel
from floorplan_circuits.sheets.furniture import (
    CAPTION_SIZE,
    HEAD_RULE,
    caution_height,
    foot_caution,
    head,
    scale_bar,
    text_lines,
    written,
)
from floorplan_circuits.sheets.panel_column import panel_notes, panel_title
from floorplan_circuits.sheets.paper import MARGIN, Orientation, Paper, Rect
from floorplan_circuits.sheets.sections import Block, Section, flow, how_to_read, never_tested, put, shared_boxes

SCALES = (50, 75, 100, 125, 150, 200, 250, 300, 400, 500, 750, 1000, 2000, 5000)
PANEL_WIDTH = 90.0
GUTTER = 5.5
PLAN_TOP = 20.0
SCALE_BAR = 7.5
ROW, ROW_OVER_30 = 10.9, 7.6
LEAST_PLAN = 60.0
INCOMPLETE = 1.4
"""How much smaller a plan may be for the sake of a sheet that is complete."""
LIST_HEIGHTS = (50.0, 62.0, 80.0, 110.0, 125.0)
"""How high the lists may grow below the plan, tried in turn."""


@dataclass(frozen=True, slots=True)
class Layout:
    """Where everything stands on one page, in mm; `sections` with the place each starts at and how high it may be."""

    orientation: Orientation
    width: float
    height: float
    head: Rect
    plan: Rect
    panel: Rect
    foot: Rect
    sections: tuple[tuple[Section, Rect], ...]


def wall_map(findings: Findings, paper: Paper, made_on: str, theme: Theme = PAPER) -> Sheet:
    """Return the wall map, one page a level, on landscape or portrait, whichever draws the plan larger.

    `made_on` is the day it is made, in ISO 8601. Lists that do not fit go on in a page of their own.
    """
    maker = _Maker(findings, paper, made_on, theme)
    levels = [level for level in _levels(findings) if _has_something(findings, level)]
    for number, level in enumerate(levels, 1):
        maker.level_page(level, f"Wall map {number} of {len(levels)}" if len(levels) > 1 else "Wall map")
    maker.further_panels()
    maker.overflow_page()
    pages = tuple(maker.pages)
    return Sheet(f"{findings.home.name}: wall map", pages, tuple(maker.shortened), tuple(maker.not_placed))


def _levels(findings: Findings) -> list[Level]:
    return sorted(findings.home.levels, key=lambda level: level.order)


def _has_something(findings: Findings, level: Level) -> bool:
    home = findings.home
    return any(room.level == level.id for room in home.rooms) or any(box.level == level.id for box in home.boxes)


def _left_out(layout: Layout) -> int:
    """Return how many blocks of its lists a layout has no room for."""
    return sum(len(flow(section, area.height)[1]) for section, area in layout.sections)


def _cost(layout: Layout, drawn: Plan) -> tuple[float, int]:
    """Weigh a larger plan against lists that go on elsewhere: one whole sheet is worth a step of the scale."""
    lost = _left_out(layout)
    return drawn.scale * (INCOMPLETE if lost else 1.0), lost


class _Maker:
    """Makes the pages one after another; on large paper everything is laid out smaller and then magnified."""

    def __init__(self, findings: Findings, paper: Paper, made_on: str, theme: Theme) -> None:
        self.findings, self.paper, self.made_on, self.theme = findings, paper, made_on, theme
        self.pages: list[Page] = []
        self.shortened: list[str] = []
        self.not_placed: list[str] = []
        self.rest: list[tuple[str, Section, tuple[Block, ...]]] = []
        self.panel = next(iter(findings.home.panels), None)

    # --- a level ----------------------------------------------------------------------------------------------------

    def level_page(self, level: Level, caption: str) -> None:
        """Make one level's page."""
        layout, drawn = self._best(level)
        overflowing = [part for part in layout.sections if flow(part[0], part[1].height)[1]]
        marks: list[Mark] = [
            self._head(layout.head, level.name, caption),
            *self._plan(drawn, layout.plan, level),
            *self._panel(layout),
            *self._sections(layout, level),
            foot_caution(layout.foot, self.theme),
        ]
        self.not_placed += [f"{level.name}: {what}" for what in drawn.not_placed]
        self.rest += [(level.name, section, flow(section, area.height)[1]) for section, area in overflowing]
        self._finish(layout, marks, level.name)

    def _best(self, level: Level) -> tuple[Layout, Plan]:
        """Return the layout that draws the plan largest; among equals the one whose lists lose least."""
        found = []
        for orientation in ("landscape", "portrait"):
            for lists_high in LIST_HEIGHTS:
                layout = self._layout(orientation, level, lists_high)
                found.append((layout, self._largest(level, layout.plan)))
        return min(found, key=lambda pair: _cost(*pair))

    def _largest(self, level: Level, area: Rect) -> Plan:
        for scale in SCALES:
            if not self._can_fit(level, area, scale):
                continue
            drawn = plan(self.findings, level.id, scale * self.paper.magnify, self.theme)
            left, top, right, bottom = drawn.bounds
            if right - left <= area.width and bottom - top <= area.height:
                return drawn
        return plan(self.findings, level.id, SCALES[-1] * self.paper.magnify, self.theme)

    def _can_fit(self, level: Level, area: Rect, scale: float) -> bool:
        """Tell from the walls alone whether drawing at this scale is worth a try."""
        ends = [end for wall in self.findings.walls if wall.level == level.id for end in (wall.a, wall.b)]
        xs, ys = [x for x, _ in ends], [y for _, y in ends]
        full = scale * self.paper.magnify
        return not ends or ((max(xs) - min(xs)) / full <= area.width and (max(ys) - min(ys)) / full <= area.height)

    def _plan(self, drawn: Plan, area: Rect, level: Level) -> Iterator[Mark]:
        left, top, right, bottom = drawn.bounds
        dx = area.x + (area.width - (right - left)) / 2 - left
        dy = area.y + (area.height - (bottom - top)) / 2 - top
        yield moved(drawn.ink, dx, dy)
        y = area.bottom + 2.2
        shown = drawn.scale / self.paper.magnify
        yield scale_bar(area.x + 1, y, drawn.scale, self.findings.home.units, self.theme, shown)
        notes = [f"{key} {name}" for key, name in drawn.keys]
        missing = [box.mark for box in self.findings.home.boxes if box.level in (level.id, None) and box.at is None]
        notes += [f"not placed yet: {', '.join(missing)}"] if missing else []
        if notes:
            room = area.width - 75
            for at, line in enumerate(wrap(" · ".join(notes), room, CAPTION_SIZE)[:2]):
                yield from text_lines((line,), area.x + 72, y - 1 + at * 3.2, CAPTION_SIZE, self.theme)

    def _sections(self, layout: Layout, level: Level) -> Iterator[Mark]:
        for section, area in layout.sections:
            blocks, rest = flow(section, area.height)
            if not blocks:
                continue  # no room even for its head: it stands whole on the last sheet
            more = f"and {len(rest)} more: see the last sheet" if rest else ""
            yield put(section, blocks, more, area.x, area.y, self.theme)

    # --- layouts ----------------------------------------------------------------------------------------------------

    def _layout(self, orientation: Orientation, level: Level, lists_high: float) -> Layout:
        width, height = (edge / self.paper.magnify for edge in self.paper.size(orientation))
        foot_high = caution_height(width - 2 * MARGIN)
        foot = Rect(MARGIN, height - MARGIN - foot_high, width - 2 * MARGIN, foot_high)
        place = self._landscape if orientation == "landscape" else self._portrait
        return place(level, width, height, foot, lists_high)

    def _panel_height(self, room: float) -> float:
        """Return the height of the panel's column with its notes, rows no higher than they need be."""
        if self.panel is None:
            return 0.0
        return min(face_rows(self.findings, self.panel) * self._row(room), room) + self._notes_height()

    def _row(self, room: float) -> float:
        rows = face_rows(self.findings, self.panel) if self.panel else 1
        return min(ROW if rows <= 15 else ROW_OVER_30, (room - self._notes_height()) / rows)

    def _notes_height(self) -> float:
        notes = panel_notes(self.findings, self.panel) if self.panel else ()
        return 2.0 + len(notes) * text_height(CAPTION_SIZE)

    def _landscape(self, level: Level, width: float, height: float, foot: Rect, lists_high: float) -> Layout:
        left_wide = width - 2 * MARGIN - PANEL_WIDTH - GUTTER
        right_x, top, bottom = width - MARGIN - PANEL_WIDTH, HEAD_RULE + 2.0, foot.y - 4.0
        panel_high = self._panel_height(bottom - top)
        panel = Rect(right_x, top, PANEL_WIDTH, panel_high)
        column = Rect(right_x, panel.bottom + 3.5, PANEL_WIDTH, bottom - panel.bottom - 3.5)
        beside, below = self._share_out(level, column)
        strip_high = 0.0
        sections = list(beside)
        if below:
            wide = (left_wide - GUTTER * (len(below) - 1)) / len(below)
            made = [self._section(kind, wide, level) for kind in below]
            strip_high = min(
                max(section.height for section in made), (bottom - PLAN_TOP) - LEAST_PLAN - SCALE_BAR, lists_high
            )
            for at, section in enumerate(made):
                x = MARGIN + at * (wide + GUTTER)
                sections.append((section, Rect(x, bottom - strip_high, wide, strip_high)))
        plan_high = bottom - PLAN_TOP - SCALE_BAR - (strip_high + 2.5 if below else 0.0)
        plan_area = Rect(MARGIN, PLAN_TOP, left_wide, plan_high)
        head_area = Rect(MARGIN, 0, left_wide, 0)
        return Layout("landscape", width, height, head_area, plan_area, panel, foot, tuple(sections))

    def _share_out(self, level: Level, column: Rect) -> tuple[list[tuple[Section, Rect]], list[str]]:
        """Put lists under the panel as long as they fit there whole; the rest goes below the plan."""
        beside, below, y = list[tuple[Section, Rect]](), list[str](), column.y
        for kind in ("shared", "read", "tested"):
            section = self._section(kind, column.width, level)
            if y + section.height <= column.bottom:
                beside.append((section, Rect(column.x, y, column.width, section.height)))
                y += section.height + 3.5
            else:
                below.append(kind)
        return beside, below

    def _portrait(self, level: Level, width: float, height: float, foot: Rect, lists_high: float) -> Layout:
        bottom = foot.y - 4.0
        right_x = MARGIN + PANEL_WIDTH + GUTTER
        right_wide = width - MARGIN - right_x
        made = [self._section(kind, right_wide, level) for kind in ("shared", "read", "tested")]
        needed = min(sum(section.height + 3.0 for section in made), lists_high + 30.0)
        title = 7.5
        most = bottom - PLAN_TOP - SCALE_BAR - LEAST_PLAN - 4
        block_high = min(max(self._panel_height(most - title) + title, needed), most)
        top = bottom - block_high
        sections, y = list[tuple[Section, Rect]](), top
        for section in made:
            high = max(min(section.height, bottom - y), 0.0)
            sections.append((section, Rect(right_x, y, right_wide, high)))
            y += high + 3.0
        panel = Rect(MARGIN, top + title, PANEL_WIDTH, block_high - title)
        plan_area = Rect(MARGIN, PLAN_TOP, width - 2 * MARGIN, top - PLAN_TOP - SCALE_BAR - 4)
        head_area = Rect(MARGIN, 0, width - 2 * MARGIN, 0)
        return Layout("portrait", width, height, head_area, plan_area, panel, foot, tuple(sections))

    def _section(self, kind: str, wide: float, level: Level) -> Section:
        if kind == "shared":
            return shared_boxes(self.findings, wide, self.theme, level.id)
        if kind == "read":
            return how_to_read(self.findings, wide, self.theme, level.id)
        return never_tested(self.findings, wide, self.theme, level.id)

    # --- head, panel, further pages -----------------------------------------------------------------------------------

    def _head(self, area: Rect, title: str, caption: str) -> Group:
        evidence = written(self.findings.evidence_to)
        made = f"Made {written(self.made_on)}" + (
            f" from evidence up to {evidence}" if evidence else ", nothing tested"
        )
        return head(area, title, caption, self.findings.home.name, made, self.theme)

    def _panel(self, layout: Layout) -> list[Mark]:
        if self.panel is None:
            return []
        area = layout.panel
        style = FaceStyle(area.width, self._row(area.height), self.theme)
        face = panel_face(self.findings, self.panel, style)
        return self._place_face(self.panel, face, area, in_head=layout.orientation == "landscape")

    def _place_face(self, panel: Panel, face: Face, area: Rect, in_head: bool) -> list[Mark]:
        self.shortened += face.shortened
        title = panel_title(self.findings, panel, area, self.theme, in_head)
        notes = panel_notes(self.findings, panel)
        foot = text_lines(notes, area.x, area.y + face.height + 1.2, CAPTION_SIZE, self.theme)
        return [title, moved(face.ink, area.x, area.y), *foot]

    def further_panels(self) -> None:
        """Give every further panel a page of its own, with its face as wide as the sheet's column allows."""
        for panel in list(self.findings.home.panels)[1:]:
            width, height = (edge / self.paper.magnify for edge in self.paper.size("portrait"))
            area = Rect(MARGIN, 30.0, width - 2 * MARGIN, height - 70.0)
            rows = face_rows(self.findings, panel)
            style = FaceStyle(area.width, min(ROW, area.height / rows), self.theme)
            face = panel_face(self.findings, panel, style)
            marks = [
                self._head(Rect(MARGIN, 0, area.width, 0), panel.name, "Panel"),
                *self._place_face(panel, face, area, in_head=False),
            ]
            self._close(width, height, marks, panel.name)

    def overflow_page(self) -> None:
        """Continue on one page, in two columns, what the levels' pages had no room for."""
        if not self.rest:
            return
        width, height = (edge / self.paper.magnify for edge in self.paper.size("portrait"))
        wide = (width - 2 * MARGIN - GUTTER) / 2
        marks: list[Mark] = [self._head(Rect(MARGIN, 0, width - 2 * MARGIN, 0), "Lists", "Wall map, continued")]
        for at, (kind, title) in enumerate((("shared", "More than one circuit"), ("tested", "Never tested"))):
            make = shared_boxes if kind == "shared" else never_tested
            section = replace(make(self.findings, wide, self.theme), title=title)
            blocks, rest = flow(section, height - 60)
            if rest:
                self.shortened.append(f"{title}: {len(rest)} more")
            more = f"and {len(rest)} more" if rest else ""
            marks.append(put(section, blocks, more, MARGIN + at * (wide + GUTTER), HEAD_RULE + 3, self.theme))
        self._close(width, height, marks, "Lists")

    def _close(self, width: float, height: float, marks: Sequence[Mark], name: str) -> None:
        foot_high = caution_height(width - 2 * MARGIN)
        foot = Rect(MARGIN, height - MARGIN - foot_high, width - 2 * MARGIN, foot_high)
        self._add(width, height, (*marks, foot_caution(foot, self.theme)), name)

    def _finish(self, layout: Layout, marks: Sequence[Mark], name: str) -> None:
        self._add(layout.width, layout.height, marks, name)

    def _add(self, width: float, height: float, marks: Sequence[Mark], name: str) -> None:
        size = self.paper.magnify
        ink = Group(tuple(marks))
        page = scaled(ink, size) if size != 1 else ink
        assert isinstance(page, Group)
        self.pages.append(Page(width * size, height * size, page, name))
