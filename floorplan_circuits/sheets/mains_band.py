"""The mains over a panel's face: each handle with its number and rating, and that the wires above it stay live."""

from floorplan_circuits.drawing.ink import Group, Mark, Pen, Shape, Text, moved, rectangle
from floorplan_circuits.drawing.lettering import cap_height, width
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.phrases import capital
from floorplan_circuits.findings import Findings, Subject
from floorplan_circuits.home.power import Main, Panel
from floorplan_circuits.sheets.furniture import CAPTION_SIZE, one_line

ROW = 6.0
"""Height of one main in mm."""
NAME_SIZE, RATING_SIZE = 9.0, 7.5
BODY_WIDE, BODY_HIGH = 15.0, 4.4
STAYS_LIVE = ("wires above it stay live with it off", "wires above it stay live", "above it: live")


def mains_height(panel: Panel) -> float:
    """Return the height in mm that a panel's mains take over its face; 0 where none is recorded."""
    return ROW * len(panel.mains)


def mains_band(findings: Findings, panel: Panel, wide: float, theme: Theme) -> tuple[Group, tuple[str, ...]]:
    """Draw the mains below each other from the origin; return them with the names that had to be cut."""
    marks: list[Mark] = []
    cut: list[str] = []
    for at, main in enumerate(panel.mains):
        row, was_cut = _row(main, findings, wide, theme)
        marks += [moved(mark, 0, at * ROW) for mark in row]
        cut += was_cut
    if marks:
        marks.append(Shape(rectangle(0, 0, wide, mains_height(panel)), None, Pen(0.35, theme.ink)))
    return Group(tuple(marks)), tuple(cut)


def _row(main: Main, findings: Findings, wide: float, theme: Theme) -> tuple[list[Mark], list[str]]:
    """Draw one main: its name left, the handle in the middle as it hangs, what stays live right."""
    left, middle = (wide - BODY_WIDE) / 2, ROW / 2
    called = capital(findings.marks.get(main.id, "main") or "main")
    called += f" · {main.name}" if main.name and main.name.casefold() != called.casefold() else ""
    room = left - 3.0
    words, was_cut = one_line((called,), room, NAME_SIZE, True)
    handle = Group(tuple(_handle(left, middle, main, theme)), Subject("main", main.id), called)
    live, _ = one_line(tuple(one for one in STAYS_LIVE if width(one, CAPTION_SIZE) <= room), room, CAPTION_SIZE)
    right = wide - 1.5
    return [
        Shape(rectangle(0, 0, wide, ROW), theme.metal),
        Text((1.6, middle + cap_height(NAME_SIZE) / 2), words, NAME_SIZE, True, theme.ink),
        handle,
        Text((right, middle + cap_height(CAPTION_SIZE) / 2), live, CAPTION_SIZE, False, theme.ink, "end"),
    ], [called] if was_cut else []


def _handle(left: float, middle: float, main: Main, theme: Theme) -> list[Mark]:
    """Draw the handle, and its rating where it is known."""
    body = rectangle(left, middle - BODY_HIGH / 2, BODY_WIDE, BODY_HIGH, 0.5)
    thumb = rectangle(left + 1.0, middle - 0.9, 4.2, 1.8, 0.3)
    marks: list[Mark] = [Shape(body, theme.paper, Pen(0.25, theme.ink)), Shape(thumb, theme.ink)]
    if main.amps is not None:
        at = left + 6.0 + (BODY_WIDE - 6.0) / 2
        marks.append(
            Text((at, middle + cap_height(RATING_SIZE) / 2), f"{main.amps} A", RATING_SIZE, True, theme.ink, "middle")
        )
    return marks
