"""The panel on a shut-off's sheet: its face with every handle to move in a heavy ring, drawn off."""

from collections.abc import Iterator, Set
from dataclasses import dataclass

from floorplan_circuits.drawing.ink import Group, Mark, Pen, Shape, Text, moved, rectangle
from floorplan_circuits.drawing.lettering import cap_height, width, wrap
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.panel_body import is_found_off
from floorplan_circuits.drawing.panel_cells import FaceStyle, face_height, fitting_row
from floorplan_circuits.drawing.panel_face import RING, panel_face
from floorplan_circuits.drawing.phrases import capital, listed
from floorplan_circuits.drawing.plates import text_height
from floorplan_circuits.findings import Findings, ShutOff
from floorplan_circuits.home.handling import any_fuse
from floorplan_circuits.home.power import Breaker, Main, Panel
from floorplan_circuits.sheets.furniture import CAPTION_SIZE, one_line, text_lines
from floorplan_circuits.sheets.panel_rows import rows_around, stretches, with_rows
from floorplan_circuits.sheets.shutoff_ways import WHOLE, Way

TITLE_SIZE, MAIN_SIZE = 10.0, 9.0
TITLE_HIGH, MAIN_HIGH, GAP = 5.6, 6.4, 0.8
MOST_ROW, USUAL_ROW, LEAST_ROW = 7.6, 5.0, 4.4
"""Height in mm of a row: with room to spare, wanted, and the least in which a line of words can be read."""
RINGED, RINGED_FUSE = "Ringed: turn it off.", "Ringed: turn it off; a fuse: take it out."
NOT_RINGED = "Off without a ring: leave it off."
FEEDING = "What feeds it stays live."
STAYS_LIVE = "wires above it stay live"
LEFT_OUT_HIGH = 3.8
"""mm between two stretches of rows, in which it says how many are left out."""


@dataclass(frozen=True, slots=True)
class PanelToMove:
    """One panel of a shut-off on paper.

    `in_part`: only the rows with handles to move and those beside, and the rows of what stays off; where room is
    shortest (`fewest`) it is named where those are left out.
    """

    findings: Findings
    plan: ShutOff
    panel: Panel
    theme: Theme
    in_part: bool = False
    fewest: bool = False

    def height(self, wide: float, row: float = LEAST_ROW) -> float:
        """Return how high it stands in mm, all of it."""
        return self._around(wide) + face_height(self._shown(), self.panel, FaceStyle(wide, row, self.theme))

    def _rows(self) -> frozenset[int]:
        """Return the rows that are shown."""
        if not self.in_part:
            return frozenset(range(self.findings.panels[self.panel.id].rows))
        moving = {handle for one in self.plan.off for handle in one.handles}
        resting = {handle for one in self.plan.keep_off for handle in one.handles}
        return rows_around(self.findings, self.panel, moving, frozenset() if self.fewest and moving else resting)

    def _shown(self) -> Findings:
        """Return findings to measure the face by: all rows that are shown, as if they stood together."""
        return with_rows(self.findings, self.panel, sorted(self._rows())) if self.in_part else self.findings

    def row_in(self, wide: float, room: float) -> float:
        """Return the height of a row with which it fills `room` mm, between the least and the most."""
        style = FaceStyle(wide, MOST_ROW, self.theme)
        most = USUAL_ROW if self.in_part else MOST_ROW  # what is shown in part is to leave room for all else
        row = fitting_row(self._shown(), self.panel, style, room - self._around(wide), most)
        return max(LEAST_ROW, row)

    def ink(self, wide: float, row: float) -> tuple[Group, tuple[str, ...]]:
        """Draw title, mains, face and key from the origin; return also what had to be cut."""
        moving = frozenset(handle for one in self.plan.off for handle in one.handles)
        style = FaceStyle(wide, row, self.theme, to_turn_off=moving, words_alone=True)
        name, name_cut = one_line((self.panel.name,), wide, TITLE_SIZE, True)
        marks: list[Mark] = [Text((0, 3.6), name, TITLE_SIZE, True, self.theme.ink)]
        marks += self._place(wide - width(name, TITLE_SIZE, True) - 3.0, wide)
        y = TITLE_HIGH
        for main in self.panel.mains:
            marks += [moved(mark, 0, y) for mark in self._main(main, wide, main.id in moving)]
            y += MAIN_HIGH
        y += GAP if self.panel.mains else 0.0
        drawn, y, cut = self._face(style, y)
        marks += [*drawn, *text_lines(self._key(wide), 0, y + 0.8, CAPTION_SIZE, self.theme)]
        return Group(tuple(marks)), (*((self.panel.name,) if name_cut else ()), *cut)

    def _face(self, style: FaceStyle, y: float) -> tuple[list[Mark], float, list[str]]:
        """Draw the rows that are shown from y on; return also where they end, and what had to be cut."""
        found, left_out_after = stretches(self.findings, self.panel, self._rows())
        marks, cut, row = list[Mark](), list[str](), 0
        for one in found:
            if one.left_out:
                marks.append(self._left_out(range(row, row + one.left_out), style.width, y))
                row += one.left_out
                y += LEFT_OUT_HIGH
            row += one.findings.panels[self.panel.id].rows
            face = panel_face(one.findings, self.panel, style)
            marks.append(moved(face.ink, 0, y))
            y += face.height
            cut += face.shortened
        if left_out_after:
            marks.append(self._left_out(range(row, row + left_out_after), style.width, y))
            y += LEFT_OUT_HIGH
        return marks, y, cut

    def _left_out(self, rows: range, wide: float, y: float) -> Text:
        staying = [self.findings.marks.get(handle, "?") for handle in self._staying_off_in(rows)]
        counted = f"{len(rows)} rows" if len(rows) > 1 else "1 row"
        words = f"{counted} left out here: {f'{listed(staying)} stays off' if staying else 'nothing to move'}"
        baseline = y + (LEFT_OUT_HIGH + cap_height(CAPTION_SIZE)) / 2
        return Text((wide / 2, baseline), words, CAPTION_SIZE, False, self.theme.soft, "middle")

    def _staying_off_in(self, rows: range) -> Iterator[int]:
        grid = self.findings.panels[self.panel.id]
        within = {breaker for (space, _), breaker in grid.taken.items() if grid.cells.get(space, (-1,))[0] in rows}
        return (handle for one in self.plan.keep_off for handle in one.handles if handle in within)

    def _around(self, wide: float) -> float:
        """Return the height in mm of all but the face."""
        mains = len(self.panel.mains) * MAIN_HIGH + (GAP if self.panel.mains else 0.0)
        found, left_out_after = stretches(self.findings, self.panel, self._rows())
        gaps = LEFT_OUT_HIGH * (sum(one.left_out > 0 for one in found) + (left_out_after > 0))
        return TITLE_HIGH + mains + gaps + 0.8 + len(self._key(wide)) * text_height(CAPTION_SIZE)

    def _key(self, wide: float) -> tuple[str, ...]:
        """Return what the drawing says, in lines: no more of it than there is to see, for room is short."""
        home = self.findings.home
        moving = {handle for one in self.plan.off for handle in one.handles}
        said = [RINGED_FUSE if any_fuse(home, moving) else RINGED] if moving else []
        said += [NOT_RINGED] if any(self._is_left_off(breaker, moving) for breaker in home.breakers) else []
        said += [] if self.panel.mains else [FEEDING]
        return wrap(" ".join(said), wide, CAPTION_SIZE)

    def _is_left_off(self, breaker: Breaker, moving: Set[int]) -> bool:
        return breaker.panel == self.panel.id and breaker.id not in moving and is_found_off(breaker)

    def _place(self, room: float, wide: float) -> list[Mark]:
        if not self.panel.place or room < width("…", CAPTION_SIZE) * 4:
            return []
        words, _ = one_line((self.panel.place,), room, CAPTION_SIZE)
        return [Text((wide, 3.6), words, CAPTION_SIZE, False, self.theme.soft, "end")]

    def _main(self, main: Main, wide: float, is_moved: bool) -> list[Mark]:
        """Draw a main over the face: its number, its rating or 'off', and that what is above it stays live."""
        theme, middle = self.theme, MAIN_HIGH / 2
        called = capital(self.findings.marks.get(main.id, "main") or "main")
        state = "off" if is_moved else "" if main.amps is None else f"{main.amps} A"
        baseline = middle + cap_height(MAIN_SIZE) / 2
        marks: list[Mark] = [
            Shape(rectangle(0, 0, wide, MAIN_HIGH), theme.metal, Pen(0.25, theme.ink)),
            Text((2.0, baseline), f"{called}  {state}".strip(), MAIN_SIZE, True, theme.ink),
            Text((wide - 2.0, baseline), STAYS_LIVE, CAPTION_SIZE, False, theme.ink, "end"),
        ]
        half = RING / 2
        ring = rectangle(half, half, wide - RING, MAIN_HIGH - RING, 0.8)
        return [*marks, Shape(ring, None, Pen(RING, theme.ink))] if is_moved else marks


def panels_to_move(findings: Findings, plan: ShutOff, theme: Theme, way: Way = WHOLE) -> list[PanelToMove]:
    """Return every panel in which a handle is moved, then a part of those in which one only stays off."""
    moved_in = {one.panel for one in plan.off}
    named = dict.fromkeys(one.panel for one in (*plan.off, *plan.keep_off))
    panels = (findings.home.panels[panel] for panel in named if panel in findings.home.panels)
    beside = named.keys() - moved_in if moved_in else set[int]()
    return [PanelToMove(findings, plan, one, theme, way.in_part or one.id in beside, way.fewest) for one in panels]
