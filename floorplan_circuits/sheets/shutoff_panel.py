"""The panel on a shut-off's sheet: its face with every handle to move in a heavy ring, drawn off."""

from dataclasses import dataclass

from floorplan_circuits.drawing.ink import Group, Mark, Pen, Shape, Text, moved, rectangle
from floorplan_circuits.drawing.lettering import cap_height, width, wrap
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.panel_cells import FaceStyle, face_height, fitting_row
from floorplan_circuits.drawing.panel_face import RING, panel_face
from floorplan_circuits.drawing.phrases import capital
from floorplan_circuits.drawing.plates import text_height
from floorplan_circuits.findings import Findings, ShutOff
from floorplan_circuits.home.power import Main, Panel
from floorplan_circuits.sheets.furniture import CAPTION_SIZE, one_line, text_lines

TITLE_SIZE, MAIN_SIZE = 10.0, 9.0
TITLE_HIGH, MAIN_HIGH, GAP = 5.6, 6.4, 0.8
MOST_ROW, USUAL_ROW, LEAST_ROW = 7.6, 5.0, 4.4
"""Height in mm of a row: with room to spare, wanted, and the least in which a line of words can be read."""
KEY = "Heavy ring: turn off, a fuse comes out. Off without a ring: found so, stays so. The supply side stays live."
STAYS_LIVE = "wires above it stay live"


@dataclass(frozen=True, slots=True)
class PanelToMove:
    """One panel of a shut-off on paper."""

    findings: Findings
    plan: ShutOff
    panel: Panel
    theme: Theme

    def height(self, wide: float, row: float = LEAST_ROW) -> float:
        """Return how high it stands in mm, all of it."""
        return self._around(wide) + face_height(self.findings, self.panel, FaceStyle(wide, row, self.theme))

    def row_in(self, wide: float, room: float) -> float:
        """Return the height of a row with which it fills `room` mm, between the least and the most."""
        style = FaceStyle(wide, MOST_ROW, self.theme)
        row = fitting_row(self.findings, self.panel, style, room - self._around(wide), MOST_ROW)
        return max(LEAST_ROW, row)

    def ink(self, wide: float, row: float) -> tuple[Group, tuple[str, ...]]:
        """Draw title, mains, face and key from the origin; return also what had to be cut."""
        moving = frozenset(handle for one in self.plan.off for handle in one.handles)
        face = panel_face(
            self.findings, self.panel, FaceStyle(wide, row, self.theme, to_turn_off=moving, words_alone=True)
        )
        name, name_cut = one_line((self.panel.name,), wide, TITLE_SIZE, True)
        marks: list[Mark] = [Text((0, 3.6), name, TITLE_SIZE, True, self.theme.ink)]
        marks += self._place(wide - width(name, TITLE_SIZE, True) - 3.0, wide)
        y = TITLE_HIGH
        for main in self.panel.mains:
            marks += [moved(mark, 0, y) for mark in self._main(main, wide, main.id in moving)]
            y += MAIN_HIGH
        y += GAP if self.panel.mains else 0.0
        marks.append(moved(face.ink, 0, y))
        marks += text_lines(self._key(wide), 0, y + face.height + 0.8, CAPTION_SIZE, self.theme)
        return Group(tuple(marks)), (*((self.panel.name,) if name_cut else ()), *face.shortened)

    def _around(self, wide: float) -> float:
        """Return the height in mm of all but the face."""
        mains = len(self.panel.mains) * MAIN_HIGH + (GAP if self.panel.mains else 0.0)
        return TITLE_HIGH + mains + 0.8 + len(self._key(wide)) * text_height(CAPTION_SIZE)

    def _key(self, wide: float) -> tuple[str, ...]:
        return wrap(KEY, wide, CAPTION_SIZE)

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


def panels_to_move(findings: Findings, plan: ShutOff, theme: Theme) -> list[PanelToMove]:
    """Return every panel in which a handle is moved; where none is, those in which one stays off."""
    named = dict.fromkeys(one.panel for one in plan.off or plan.keep_off)
    panels = (findings.home.panels[panel] for panel in named if panel in findings.home.panels)
    return [PanelToMove(findings, plan, panel, theme) for panel in panels]
