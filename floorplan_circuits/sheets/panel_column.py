"""The panel's column on a sheet: its title above the face, and the notes under it."""

from floorplan_circuits.drawing.ink import Group, Mark, Pen, Shape, Text, polyline
from floorplan_circuits.drawing.lettering import width
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Panel
from floorplan_circuits.sheets.furniture import HEAD_BASELINE, HEAD_RULE, PANEL_TITLE_SIZE, caption
from floorplan_circuits.sheets.paper import Rect

SHORT_SYSTEM = {
    "split-phase 120/240": "120/240 V",
    "three-phase 208Y/120": "208Y/120 V",
    "two-wire 120": "120 V",
    "single-phase 230": "230 V",
    "three-phase 400Y/230": "400Y/230 V",
}
RESETS = ("ground-fault receptacle",)


def panel_title(findings: Findings, panel: Panel, area: Rect, theme: Theme, in_head: bool) -> Group:
    """Draw the panel's name and what it is, in the sheet's head or straight above its face."""
    base = HEAD_BASELINE if in_head else area.y - 2.6
    room = area.width - width(panel.name, PANEL_TITLE_SIZE, True) - 4
    words = caption(area.right, base, room, panel_captions(findings.home, panel), theme, end=True)
    marks: list[Mark] = [Text((area.x, base), panel.name, PANEL_TITLE_SIZE, True, theme.ink), words]
    if in_head:
        marks.append(Shape(polyline((area.x, HEAD_RULE), (area.right, HEAD_RULE)), None, Pen(0.35, theme.ink)))
    return Group(tuple(marks))


def panel_captions(home: Home, panel: Panel) -> tuple[str, ...]:
    """Return what the panel is in one line, longest first: place, rating of its main, system."""
    system = SHORT_SYSTEM.get(panel.system if panel.system != "not known" else home.system, "")
    mains = ", ".join(f"main {main.amps} A" for main in panel.mains if main.amps)
    ways = ((panel.place, mains, system), (panel.place, mains), (mains, system), (panel.place,))
    return tuple(dict.fromkeys(" · ".join(word for word in words if word) for words in ways))


def panel_notes(findings: Findings, panel: Panel) -> tuple[str, ...]:
    """Return what stands under the face: what stays live, other sources, where a trip is reset."""
    home = findings.home
    notes = ["Wires above the main stay live with every breaker off."]
    others = [source for source in home.sources if source.kind not in ("utility",)]
    notes += [_source_note(source.name, source.disconnect) for source in others]
    resets = [
        f"{found.room_name or found.level_name} ({box.mark})"
        for box in home.boxes
        if any(device.kind in RESETS for device in box.devices) and (found := findings.boxes.get(box.id))
    ]
    if resets:
        notes.append(f"Reset points: {', '.join(resets)}.")
    notes.append("One square a feed; the more ink, the better known. A bar joins tied handles.")
    return tuple(notes)


def _source_note(name: str, disconnect: str) -> str:
    where = f"Its disconnect: {disconnect}." if disconnect else "Nobody wrote down its disconnect."
    return f"The main does not stop {name}. {where}"
