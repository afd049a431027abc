"""What can be printed, and how it is asked for: the same for the command line and the window."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from floorplan_circuits.drawing.palette import GREY, PAPER, Theme
from floorplan_circuits.drawing.sheet import Sheet
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.power import Panel
from floorplan_circuits.sheets.directory_card import NoSuchSize, directory_card, typed_size
from floorplan_circuits.sheets.hazard_sheet import hazard_sheet
from floorplan_circuits.sheets.paper import EVERY_PAPER
from floorplan_circuits.sheets.photo_sheet import photo_sheet
from floorplan_circuits.sheets.plan_sheet import plan_sheet
from floorplan_circuits.sheets.wall_map import Tell, silently, wall_map

SHEETS: Mapping[str, str] = {
    "wall-map": "Wall map",
    "directory": "Directory card",
    "hazards": "List of dangers",
    "plan": "Plan alone",
    "photo": "Photo of the panel",
    "shut-off": "Shut-off sheet",
}
"""What can be printed, by the name it is asked for, and as the window calls it."""


NO_BOX = "No box is picked. Choose Shut off, click the boxes you want to open, then print."


class CannotPrint(ValueError):
    """What was asked for cannot be printed. Its text is for the person, and says what to do."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is to be printed: the sheet, its paper, one panel by its name or all for '', the size of a card as typed.

    `switching`: on the wall map and the plan alone, what each switch works.
    For a shut-off the boxes to be opened, and handles that were chosen in place of those nearest the load.
    """

    sheet: str = "wall-map"
    paper: str = "letter"
    grey: bool = False
    together: bool = False
    panel: str = ""
    size: str = "120x200"
    switching: bool = False
    boxes: tuple[int, ...] = ()
    handles: frozenset[int] = frozenset()

    @property
    def theme(self) -> Theme:
        """The colours."""
        return GREY if self.grey else PAPER


def make_sheet(findings: Findings, wanted: Wanted, made_on: str, tell: Tell = silently) -> Sheet:
    """Return the sheet that is wanted; `tell` is told of each page and may raise to end it. Raises `CannotPrint`."""
    return _MAKERS[wanted.sheet](findings, wanted, made_on, tell)


def _wall_map(findings: Findings, wanted: Wanted, made_on: str, tell: Tell) -> Sheet:
    paper, panel = EVERY_PAPER[wanted.paper], _panel(findings, wanted)
    return wall_map(
        findings,
        paper,
        made_on,
        wanted.theme,
        together=wanted.together,
        panel=panel,
        switching=wanted.switching,
        tell=tell,
    )


def _directory(findings: Findings, wanted: Wanted, made_on: str, tell: Tell) -> Sheet:
    panel = _panel(findings, wanted)
    tell(SHEETS["directory"])
    try:
        size = typed_size(wanted.size)
        return directory_card(findings, EVERY_PAPER[wanted.paper], made_on, wanted.theme, size=size, panel=panel)
    except NoSuchSize as error:
        raise CannotPrint(str(error)) from error


def _hazards(findings: Findings, wanted: Wanted, made_on: str, tell: Tell) -> Sheet:
    tell(SHEETS["hazards"])
    return hazard_sheet(findings, EVERY_PAPER[wanted.paper], made_on, wanted.theme)


def _plan(findings: Findings, wanted: Wanted, made_on: str, tell: Tell) -> Sheet:
    tell(SHEETS["plan"])
    return plan_sheet(findings, EVERY_PAPER[wanted.paper], made_on, wanted.theme, wanted.switching)


def _photo(findings: Findings, wanted: Wanted, made_on: str, tell: Tell) -> Sheet:
    panel = _panel(findings, wanted)
    tell(SHEETS["photo"])
    sheet = photo_sheet(findings, EVERY_PAPER[wanted.paper], made_on, wanted.theme, panel=panel)
    if not sheet.pages:
        raise CannotPrint("No panel has a photo yet. Add one while setting up the panel.")
    return sheet


def _shut_off(findings: Findings, wanted: Wanted, made_on: str, tell: Tell) -> Sheet:
    from floorplan_circuits.find import shut_off  # late: shapely must not delay the first frame
    from floorplan_circuits.sheets.shutoff_sheet import shutoff_sheet
    from floorplan_circuits.shutoff.steps import steps

    boxes = tuple(box for box in wanted.boxes if box in findings.boxes)
    if not boxes:
        raise CannotPrint(NO_BOX)
    tell(SHEETS["shut-off"])
    plan = shut_off(findings, boxes, wanted.handles)
    return shutoff_sheet(findings, plan, steps(plan, findings), EVERY_PAPER[wanted.paper], made_on, wanted.theme)


_MAKERS: Mapping[str, Callable[[Findings, Wanted, str, Tell], Sheet]] = {
    "wall-map": _wall_map,
    "directory": _directory,
    "hazards": _hazards,
    "plan": _plan,
    "photo": _photo,
    "shut-off": _shut_off,
}


def _panel(findings: Findings, wanted: Wanted) -> Panel | None:
    """Return the panel of this name or prefix, however it is cased; None for all."""
    if not wanted.panel:
        return None
    asked = wanted.panel.casefold()
    panels = list(findings.home.panels)
    found = [panel for panel in panels if asked in (panel.name.casefold(), panel.prefix.casefold())]
    if not found:
        names = ", ".join(panel.name for panel in panels)
        raise CannotPrint(f"There is no panel {wanted.panel}. {f'There is {names}.' if names else 'None is recorded.'}")
    return found[0]
