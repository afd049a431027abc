"""The panel on a sheet: its title above the face, and the notes under it."""

from collections.abc import Iterator
from dataclasses import dataclass, field

from floorplan_circuits.drawing.ink import Group, Mark, Pen, Shape, Text, moved, polyline
from floorplan_circuits.drawing.lettering import width, wrap
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.panel_body import letters_told
from floorplan_circuits.drawing.panel_cells import FaceStyle, face_height, fitting_row
from floorplan_circuits.drawing.panel_face import panel_face
from floorplan_circuits.drawing.plates import text_height
from floorplan_circuits.findings import Findings
from floorplan_circuits.findings.places import place_of
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Panel
from floorplan_circuits.home.trade_words import device_word, home_words, words_of
from floorplan_circuits.sheets.furniture import (
    CAPTION_SIZE,
    HEAD_BASELINE,
    HEAD_RULE,
    PANEL_TITLE_SIZES,
    caption,
    fitted_title,
    text_lines,
)
from floorplan_circuits.sheets.mains_band import mains_band, mains_height
from floorplan_circuits.sheets.paper import Rect

SHORT_SYSTEM = {
    "split-phase 120/240": "120/240 V",
    "three-phase 208Y/120": "208Y/120 V",
    "two-wire 120": "120 V",
    "single-phase 230": "230 V",
    "three-phase 400Y/230": "400Y/230 V",
}
RESETS = ("ground-fault receptacle",)
TRIPS = ("ground fault", "residual current")
"""What a breaker protects with that it trips by itself for a leak, and is reset at the panel."""
FEEDING = "The wires that feed it stay live with every breaker off."
"""What is told of a panel without a main of its own."""
BAND_GAP = 1.0
"""mm between the mains and the face."""
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
    _notes: dict[float, tuple[str, ...]] = field(default_factory=dict, compare=False)

    def notes(self, wide: float) -> tuple[str, ...]:
        """Return the notes under the face, in lines; set once a width, since every layout asks for them."""
        if wide not in self._notes:
            notes = panel_notes(self.findings, self.panel)
            self._notes[wide] = tuple(line for note in notes for line in wrap(note, wide, CAPTION_SIZE))
        return self._notes[wide]

    def notes_height(self, wide: float) -> float:
        """Return the height of the notes in mm."""
        return 2.0 + len(self.notes(wide)) * text_height(CAPTION_SIZE)

    def height(self, wide: float, row: float) -> float:
        """Return the height of mains, face and notes in mm."""
        style = FaceStyle(wide, row, self.theme)
        return self._mains + face_height(self.findings, self.panel, style) + self.notes_height(wide)

    @property
    def _mains(self) -> float:
        """Height of the mains over the face, with the gap between, in mm."""
        return mains_height(self.panel) + BAND_GAP if self.panel.mains else 0.0

    def row_in(self, wide: float, room: float, most: float = MOST_ROW) -> float:
        """Return the height of a row that fills `room` mm with mains, face and notes, at most `most` mm."""
        style = FaceStyle(wide, most, self.theme)
        return fitting_row(self.findings, self.panel, style, room - self._mains - self.notes_height(wide), most)

    def ink(self, area: Rect, row: float, in_head: bool) -> tuple[Group, tuple[str, ...]]:
        """Draw title, mains, face and notes from the area's top left corner; return also what had to be cut."""
        face = panel_face(self.findings, self.panel, FaceStyle(area.width, row, self.theme))
        title, cut = panel_title(self.findings, self.panel, area, self.theme, in_head)
        mains, cut_there = mains_band(self.findings, self.panel, area.width, self.theme)
        top = area.y + self._mains
        foot = text_lines(self.notes(area.width), area.x, top + face.height + 1.2, CAPTION_SIZE, self.theme)
        drawn = (title, moved(mains, area.x, area.y), moved(face.ink, area.x, top), *foot)
        return Group(drawn), (*cut, *cut_there, *face.shortened)


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
    called = words_of(home, panel).main
    mains = ", ".join(f"{called} {main.amps} A" for main in panel.mains if main.amps)
    ways = ((panel.place, mains, system), (panel.place, mains), (mains, system), (panel.place,))
    found = dict.fromkeys(" · ".join(word for word in words if word) for words in ways)
    return tuple(caption for caption in found if caption)


def panel_notes(findings: Findings, panel: Panel) -> tuple[str, ...]:
    """Return what stands under the face: what stays live, other sources, where a trip is reset."""
    home = findings.home
    above = f"Wires above the {words_of(home, panel).main} stay live with every breaker off."
    notes = [above if panel.mains else FEEDING]
    notes += source_notes(home)
    resets = list(reset_points(findings)) if panel.id == next(iter(home.panels)).id else []
    if resets:
        notes.append(f"Reset points: {', '.join(resets)}.")
    letters = letters_told(breaker for breaker in home.breakers if breaker.panel == panel.id)
    notes.append(f"One square a feed; the more ink, the better known. A bar joins tied handles. {letters}".strip())
    return tuple(notes)


def source_notes(home: Home) -> list[str]:
    """Return of each source besides the utility that the main does not stop it, and what does."""
    main = home_words(home).main
    return [_source_note(main, one.name, one.disconnect) for one in home.sources if one.kind != "utility"]


def reset_points(findings: Findings) -> Iterator[str]:
    """Yield where a ground-fault or residual-current device is reset after a trip: boxes, then breakers."""
    for box in findings.home.boxes:
        if any(device.kind in RESETS and not device.planned for device in box.devices):
            where = place_of(box.id, findings)
            yield f"{where} ({box.mark})" if where else box.mark
    for breaker in findings.home.breakers:
        if any(one in TRIPS for one in breaker.protects):
            yield f"{device_word(findings.home, breaker)} {findings.marks.get(breaker.id, '?')}"


def _source_note(main: str, name: str, disconnect: str) -> str:
    where = f"Its disconnect: {disconnect}." if disconnect else "Nobody wrote down its disconnect."
    return f"The {main} does not stop {name}. {where}"
