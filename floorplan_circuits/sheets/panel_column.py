"""The panel on a sheet: its title above the face, and the notes under it."""

from dataclasses import dataclass

from floorplan_circuits.drawing.ink import Group, Mark, Pen, Shape, Text, moved, polyline
from floorplan_circuits.drawing.lettering import width, wrap
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.panel_cells import FaceStyle, face_height, fitting_row
from floorplan_circuits.drawing.panel_face import panel_face
from floorplan_circuits.drawing.plates import text_height
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Panel
from floorplan_circuits.sheets.furniture import (
    CAPTION_SIZE,
    HEAD_BASELINE,
    HEAD_RULE,
    PANEL_TITLE_SIZES,
    caption,
    fitted_title,
    text_lines,
)
from floorplan_circuits.sheets.paper import Rect

SHORT_SYSTEM = {
    "split-phase 120/240": "120/240 V",
    "three-phase 208Y/120": "208Y/120 V",
    "two-wire 120": "120 V",
    "single-phase 230": "230 V",
    "three-phase 400Y/230": "400Y/230 V",
}
RESETS = ("ground-fault receptacle",)
TITLE_HIGH = 7.5
"""mm from the top of a panel that has its title straight above it to its face."""
USUAL_ROW, MOST_ROW, LEAST_ROW = 10.9, 14.0, 6.0
"""Height in mm of a row on the sheet: usual, where there is room to spare, and the least that can be read."""


@dataclass(frozen=True, slots=True)
class PanelOnSheet:
    """One panel as it stands on paper: how high it is for a width, and its ink."""

    findings: Findings
    panel: Panel
    theme: Theme

    def notes(self, wide: float) -> tuple[str, ...]:
        """Return the notes under the face, in lines."""
        return tuple(line for note in panel_notes(self.findings, self.panel) for line in wrap(note, wide, CAPTION_SIZE))

    def notes_height(self, wide: float) -> float:
        """Return the height of the notes in mm."""
        return 2.0 + len(self.notes(wide)) * text_height(CAPTION_SIZE)

    def height(self, wide: float, row: float) -> float:
        """Return the height of face and notes in mm."""
        style = FaceStyle(wide, row, self.theme)
        return face_height(self.findings, self.panel, style) + self.notes_height(wide)

    def row_in(self, wide: float, room: float, most: float = MOST_ROW) -> float:
        """Return the height of a row that fills `room` mm with face and notes, at most `most` mm."""
        style = FaceStyle(wide, most, self.theme)
        return fitting_row(self.findings, self.panel, style, room - self.notes_height(wide), most)

    def ink(self, area: Rect, row: float, in_head: bool) -> tuple[Group, tuple[str, ...]]:
        """Draw title, face and notes, the face's top left corner at the area's; return also what had to be cut."""
        face = panel_face(self.findings, self.panel, FaceStyle(area.width, row, self.theme))
        title, cut = panel_title(self.findings, self.panel, area, self.theme, in_head)
        foot = text_lines(self.notes(area.width), area.x, area.y + face.height + 1.2, CAPTION_SIZE, self.theme)
        return Group((title, moved(face.ink, area.x, area.y), *foot)), (*cut, *face.shortened)


def panel_title(
    findings: Findings, panel: Panel, area: Rect, theme: Theme, in_head: bool
) -> tuple[Group, tuple[str, ...]]:
    """Draw the panel's name and what it is, in the sheet's head or above its face; return also what was cut."""
    base = HEAD_BASELINE if in_head else area.y - 2.6
    name, size, cut = fitted_title(panel.name, area.width, PANEL_TITLE_SIZES)
    room = area.width - width(name, size, True) - 4
    ways = tuple(way for way in panel_captions(findings.home, panel) if width(way, CAPTION_SIZE) <= room)
    marks: list[Mark] = [Text((area.x, base), name, size, True, theme.ink)]
    marks += [caption(area.right, base, room, ways, theme, end=True)] if ways else []
    if in_head:
        marks.append(Shape(polyline((area.x, HEAD_RULE), (area.right, HEAD_RULE)), None, Pen(0.35, theme.ink)))
    return Group(tuple(marks)), (panel.name,) if cut else ()


def panel_captions(home: Home, panel: Panel) -> tuple[str, ...]:
    """Return what the panel is in one line, longest first: place, rating of its main, system."""
    system = SHORT_SYSTEM.get(panel.system if panel.system != "not known" else home.system, "")
    mains = ", ".join(f"main {main.amps} A" for main in panel.mains if main.amps)
    ways = ((panel.place, mains, system), (panel.place, mains), (mains, system), (panel.place,))
    found = dict.fromkeys(" · ".join(word for word in words if word) for words in ways)
    return tuple(caption for caption in found if caption)


def panel_notes(findings: Findings, panel: Panel) -> tuple[str, ...]:
    """Return what stands under the face: what stays live, other sources, where a trip is reset."""
    home = findings.home
    line = "Wires above the main" if panel.mains else "The wires that feed it"
    notes = [f"{line} stay live with every breaker off."]
    notes += [_source_note(source.name, source.disconnect) for source in home.sources if source.kind != "utility"]
    resets = [
        f"{found.room_name or found.level_name} ({box.mark})"
        for box in home.boxes
        if any(device.kind in RESETS for device in box.devices) and (found := findings.boxes.get(box.id))
    ]
    if resets and panel.id == next(iter(home.panels)).id:
        notes.append(f"Reset points: {', '.join(resets)}.")
    notes.append("One square a feed; the more ink, the better known. A bar joins tied handles.")
    return tuple(notes)


def _source_note(name: str, disconnect: str) -> str:
    where = f"Its disconnect: {disconnect}." if disconnect else "Nobody wrote down its disconnect."
    return f"The main does not stop {name}. {where}"
