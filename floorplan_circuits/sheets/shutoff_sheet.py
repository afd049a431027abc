"""The sheet of a shut-off, to take along: what each box is, the steps to tick, the plan, the panel, what to mind."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from floorplan_circuits.drawing.close_up import CloseUp, close_up
from floorplan_circuits.drawing.ink import Group, Mark, moved, scaled
from floorplan_circuits.drawing.lettering import wrap
from floorplan_circuits.drawing.palette import PAPER, Theme
from floorplan_circuits.drawing.phrases import listed
from floorplan_circuits.drawing.plates import text_height
from floorplan_circuits.drawing.sheet import Page, Sheet
from floorplan_circuits.findings import Findings, ShutOff, Step
from floorplan_circuits.home.days import written
from floorplan_circuits.sheets.furniture import (
    CAPTION_SIZE,
    HEAD_RULE,
    SECTION_SIZE,
    caption,
    caution_height,
    foot_caution,
    head,
    one_line,
    scale_bar,
    section_head,
    text_lines,
)
from floorplan_circuits.sheets.paper import MARGIN, Paper, Rect
from floorplan_circuits.sheets.plan_around import LEAST_SCALE, PlanAround, plans_around
from floorplan_circuits.sheets.sections import Section
from floorplan_circuits.sheets.shutoff_flow import GAP, Flow, Side
from floorplan_circuits.sheets.shutoff_lists import goes_dark, not_known, stays_live, when_to_stop
from floorplan_circuits.sheets.shutoff_panel import LEAST_ROW, USUAL_ROW, PanelToMove, panels_to_move
from floorplan_circuits.sheets.shutoff_picture import BESIDE, SmallPicture, beside, small_picture
from floorplan_circuits.sheets.shutoff_states import state_blocks, with_off
from floorplan_circuits.sheets.shutoff_steps import step_blocks
from floorplan_circuits.sheets.shutoff_ways import FIRST_PAGE, LEAST_PLAN, MOST_PLAN, ONE_PAGE, Way

SCALE_HIGH, PLAN_HEAD, RATIO_WIDE, AFTER_BAR = 6.4, 6.4, 12.0, 12.0
CLOSE_UP = 0.85
"""How large a box is drawn with its plate off: its least letters stay as large as captions may be."""
MOST_NAMED = 4
STATES_PART = 0.45
"""How much of the first page the states of the boxes may take; further ones go on the next."""
TOP = HEAD_RULE + 2.4
PRACTICE = (
    "The steps follow published practice, in words of our own: NFPA 70E 120.5, 29 CFR 1910.333 and 1910.147, HSE GS38."
)


def shutoff_sheet(
    findings: Findings, plan: ShutOff, steps: Sequence[Step], paper: Paper, made_on: str, theme: Theme = PAPER
) -> Sheet:
    """Return the sheet of a shut-off and its steps. `made_on` is the day it is made, in ISO 8601.

    One box stands on one page wherever that can be read: with its picture, what goes dark in one paragraph, and where
    room is short the panel in part.
    Where it can't, and for several boxes, the first page holds the states, the steps, the plan, the panel and when to
    stop, and the next ones what found no room there: first the lists, then each box with its plate off and how we know.
    """
    maker = _Maker(findings, plan, steps, paper, theme)
    maker.fill()
    return maker.sheet(made_on)


@dataclass(slots=True)
class _Maker:
    """Makes the pages: first what stands between head and foot, then these."""

    findings: Findings
    plan: ShutOff
    steps: Sequence[Step]
    paper: Paper
    theme: Theme
    cut: list[str] = field(default_factory=list)
    not_placed: list[str] = field(default_factory=list)
    _bodies: list[Group] = field(default_factory=list)
    _is_all_on_first: bool = False
    """Whether the first page holds all but the boxes with their plates off."""
    _scale: float = 0.0
    """The scale of the piece of the plan that shows least."""
    _plans: dict[tuple[float, float], list[PlanAround]] = field(default_factory=dict)
    _close_ups: dict[tuple[int, float], CloseUp] = field(default_factory=dict)

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of the page in mm."""
        return self.paper.size("portrait")

    @property
    def foot(self) -> Rect:
        """Where the caution stands."""
        width, height = self.size
        high = caution_height(width - 2 * MARGIN)
        return Rect(MARGIN, height - MARGIN - high, width - 2 * MARGIN, high)

    # --- between head and foot --------------------------------------------------------------------------------------

    def fill(self) -> None:
        """Set everything between head and foot: one box on one page if that can be, else on as few as it takes."""
        if len(self.plan.boxes) == 1 and self.plan.boxes[0] in self.findings.boxes and self._fills_one_page():
            return
        if len(self.plan.boxes) == 1:  # all but the close-up on the first page, if that can be
            for way in FIRST_PAGE:
                self._fill(way)
                if len(self._bodies) == 2 and self._is_all_on_first:
                    return
        self._fill(Way(dense=False))
        taken = len(self._bodies)
        self._fill(Way(dense=True))
        if len(self._bodies) == taken:  # what is dense is harder to read, and worth it for a page alone
            self._fill(Way(dense=False))

    def _fills_one_page(self) -> bool:
        """Set one box on one page, the plan as large as it goes; tell whether that could be."""
        found: list[tuple[float, Way]] = []
        for way in ONE_PAGE:
            self._fill(way)
            if len(self._bodies) == 1 and self._scale <= LEAST_SCALE:
                return True
            if len(self._bodies) == 1:
                found.append((self._scale, way))
        if found:
            self._fill(min(found, key=lambda one: one[0])[1])
        return bool(found)

    def _fill(self, way: Way) -> None:
        self.cut.clear()
        self.not_placed.clear()
        width, _ = self.size
        bottom = self.foot.y - self._practice_high - 1.5
        off = with_off(self.plan, self.findings)
        blocks = state_blocks(self.plan.states, off, self.findings, width - 2 * MARGIN, self.theme)
        shown, y, states = 0, TOP, list[Mark]()
        while shown < len(blocks) and (not shown or y + blocks[shown].height <= bottom * STATES_PART):
            states.append(moved(blocks[shown].ink, MARGIN, y))
            y += blocks[shown].height
            shown += 1
        flow = Flow(width, TOP, bottom, y + 1.4, self.theme, is_tight=way.is_tight)
        self._columns(flow, way)
        for block in blocks[shown:]:
            flow.across(block.ink, block.height)
        self._is_all_on_first = len(flow.pages()) == 1
        if way.picture == "none":
            self._boxes(flow)
        first, *further = flow.pages()
        self._bodies = [Group((*states, first)), *further]

    def _title_of_steps(self) -> str:
        """Return what stands over the steps; where there is nothing to do, what to leave alone."""
        if any(step.is_ticked for step in self.steps):
            return "In this order"
        bare = all(self.findings.home.boxes[box].is_bare for box in self.plan.boxes)
        return "Don’t touch it" if bare else "Leave it shut"

    def _columns(self, flow: Flow, way: Way) -> None:
        """Set the steps down the left; the plan, when to stop and the panel where there is room; then the lists."""
        theme = self.theme
        blocks = step_blocks(self.steps, self.findings, flow.left_wide, theme)
        if blocks:
            flow.running("left", Section(self._title_of_steps(), blocks, flow.left_wide))
        panels = panels_to_move(self.findings, self.plan, theme, way)
        shown = self._picture(flow.right_wide, way)
        wide = flow.right_wide - (shown.width + BESIDE if shown is not None and shown.is_beside else 0.0)
        alone = shown.height if shown is not None and not shown.is_beside else 0.0
        side, others = self._side_of(alone, flow, panels)
        pieces = self._plans_in(self._plan_room(flow, wide, others, way))
        self._scale = max((piece.scale for piece in pieces), default=0.0)
        drawn = {box for piece in pieces for box in piece.boxes}
        self.not_placed += [self.findings.home.boxes[box].mark for box in self.plan.boxes if box not in drawn]
        first = self._plan_piece(pieces[0], wide) if pieces else None
        if shown is not None:
            self.cut += shown.shortened
            first = beside(first, shown, flow.right_wide) if shown.is_beside else first
        if first is not None:
            flow.piece("right", *first)
        if shown is not None and not shown.is_beside:
            flow.piece(side, shown.ink, shown.height)
        flow.whole(lambda wide: when_to_stop(self.steps, wide, theme))
        for panel in panels:
            self._panel(panel, flow)
        for piece in pieces[1:]:
            flow.piece("right", *self._plan_piece(piece, flow.right_wide))
        flow.whole(lambda wide: stays_live(self.plan, wide, theme))
        flow.whole(lambda wide: not_known(self.plan, wide, theme))
        if way.dense and not any(step.is_ticked for step in self.steps):  # the left column is nearly empty
            flow.running("left", goes_dark(self.plan, self.findings, flow.left_wide, theme, way.dense))
        else:
            flow.whole(lambda wide: goes_dark(self.plan, self.findings, wide, theme, way.dense))

    def _picture(self, wide: float, way: Way) -> SmallPicture | None:
        """Return the picture of the box for the first page, if it is to stand there."""
        if way.picture == "none":
            return None
        return small_picture(self.findings, self.plan.boxes[0], wide, self.theme, way.picture == "apart")

    def _plans_in(self, room: tuple[float, float]) -> list[PlanAround]:
        """Return the pieces of the plan in this room: they take longest to draw, and are kept for a second try."""
        if room not in self._plans:
            self._plans[room] = plans_around(self.findings, self.plan.boxes, room, self.theme)
        return self._plans[room]

    def _side_of(self, alone: float, flow: Flow, panels: Sequence[PanelToMove]) -> tuple[Side, float]:
        """Return where a picture of this height stands that is not beside the plan, and what the right column holds.

        It stands on the right under a plan of the least height where there is room, else on the left.
        """
        others = when_to_stop(self.steps, flow.right_wide, self.theme).height + 2 * GAP
        others += sum(panel.height(flow.right_wide, USUAL_ROW) for panel in panels[:1])
        if not alone:
            return "left", others
        if flow.room("left") >= alone and flow.room("right") - others - PLAN_HEAD - SCALE_HIGH - LEAST_PLAN < alone:
            return "left", others
        return "right", others + alone + GAP

    def _plan_room(self, flow: Flow, wide: float, others: float, way: Way) -> tuple[float, float]:
        """Return how wide and high the piece of the plan may be: less high where `others` under it take much room."""
        left = flow.room("right") - others - PLAN_HEAD - SCALE_HIGH
        return min(MOST_PLAN, wide), max(min(LEAST_PLAN, way.most_plan), min(way.most_plan, left))

    def _plan_piece(self, piece: PlanAround, wide: float) -> tuple[Group, float]:
        """Draw a piece of the plan under its level's name, with its scale."""
        home = self.findings.home
        level = home.levels[piece.level].name if piece.level in home.levels else ""
        words, was_cut = one_line(
            (f"Where: {level}", level) if level else ("Where",), wide - RATIO_WIDE, SECTION_SIZE, True
        )
        self.cut += (level,) if was_cut else ()
        title = section_head(0, 0, wide, words, self.theme)
        ratio = caption(wide, 3.2, RATIO_WIDE, (f"1:{piece.scale:.0f}",), self.theme, end=True)
        plan = moved(piece.ink, max(0.0, (wide - piece.width) / 2), PLAN_HEAD)
        y = PLAN_HEAD + piece.height + 1.6
        bar, ends = scale_bar(1.5, y, piece.scale, home.units, self.theme, piece.scale)
        fits = bar.marks[:-1] if ends - AFTER_BAR <= wide else ()  # its last mark is the scale, told above
        return Group((title, ratio, plan, *fits)), y + (SCALE_HIGH - 1.4 if fits else 0.0)

    def _panel(self, panel: PanelToMove, flow: Flow) -> None:
        wide = flow.right_wide
        here, page = flow.room("right"), flow.bottom - flow.top
        row = panel.row_in(wide, here if here >= panel.height(wide, LEAST_ROW) else page)
        ink, cut = panel.ink(wide, row)
        if cut:  # words that are cut for want of room here may stand whole on a page of more room
            row = panel.row_in(wide, page)
            ink, cut = panel.ink(wide, row)
        flow.piece("right", *self._on_a_page(ink, panel.height(wide, row), flow, panel.panel.name))
        self.cut += cut

    def _boxes(self, flow: Flow) -> None:
        """Set every box with its plate off: left of a panel that fills its page, else over the whole width."""
        for box in self.plan.boxes:
            if box not in self.findings.boxes:
                continue
            narrow = self._opened(box, flow.left_wide)
            if flow.has_room_left(narrow.height * CLOSE_UP):
                flow.piece("left", scaled(narrow.ink, CLOSE_UP), narrow.height * CLOSE_UP, from_last=True)
                self.cut += narrow.shortened
                continue
            drawn = self._opened(box, flow.inner)
            mark = self.findings.home.boxes[box].mark
            ink = scaled(drawn.ink, CLOSE_UP)
            flow.across(*self._on_a_page(ink, drawn.height * CLOSE_UP, flow, mark))
            self.cut += drawn.shortened

    def _opened(self, box: int, wide: float) -> CloseUp:
        """Return a box with its plate off, to be drawn this wide: it is kept for a second try."""
        if (box, wide) not in self._close_ups:
            self._close_ups[box, wide] = close_up(self.findings, box, wide / CLOSE_UP, self.theme)
        return self._close_ups[box, wide]

    def _on_a_page(self, ink: Mark, height: float, flow: Flow, name: str) -> tuple[Mark, float]:
        """Return a picture and its height, made smaller where it is higher than a page, which is told."""
        most = flow.bottom - flow.top
        if height <= most:
            return ink, height
        self.cut.append(f"{name}: drawn smaller, it is higher than a page")
        return scaled(ink, most / height), most

    # --- head and foot ----------------------------------------------------------------------------------------------

    def sheet(self, made_on: str) -> Sheet:
        """Return the sheet, each page with head and foot."""
        marks = [self.findings.home.boxes[box].mark for box in self.plan.boxes]
        named = listed(marks) if len(marks) <= MOST_NAMED else f"{marks[0]} and {len(marks) - 1} more"
        title = f"Shut-off: {named}"
        made = self._made(made_on)
        pages = tuple(self._pages(title, made))
        name = f"{self.findings.home.name or 'Home'}: shut-off of {listed(marks)}"
        return Sheet(name, pages, tuple(dict.fromkeys(self.cut)), tuple(self.not_placed))

    def _pages(self, title: str, made: str) -> Iterator[Page]:
        width, height = self.size
        area = Rect(MARGIN, 0, width - 2 * MARGIN, 0)
        foot = foot_caution(self.foot, self.theme)
        practice = text_lines(self._practice(), MARGIN, self.foot.y - self._practice_high, CAPTION_SIZE, self.theme)
        for number, body in enumerate(self._bodies, 1):
            nth = f"page {number} of {len(self._bodies)}" if len(self._bodies) > 1 else ""
            top, cut = head(area, title, nth, self.findings.home.name, made, self.theme)
            self.cut += cut
            name = title if number == 1 else f"{title}, {nth}"
            yield Page(width, height, Group((top, body, *practice, foot)), name)

    def _made(self, made_on: str) -> str:
        evidence = written(self.findings.evidence_to)
        return f"Made {written(made_on)}" + (f" from evidence up to {evidence}" if evidence else ", nothing tested")

    def _practice(self) -> tuple[str, ...]:
        return wrap(PRACTICE, self.foot.width, CAPTION_SIZE)

    @property
    def _practice_high(self) -> float:
        return len(self._practice()) * text_height(CAPTION_SIZE) + 1.0
