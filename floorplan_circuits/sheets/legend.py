"""The key to the plan: what each plate says of how we know, and the symbols, floors and lines that one level shows."""

from collections.abc import Iterator, Sequence
from itertools import accumulate

from floorplan_circuits.drawing.arcs import arc_handles
from floorplan_circuits.drawing.frame import is_built
from floorplan_circuits.drawing.ink import Group, Mark, Pen, Shape, Text, moved, polyline, rectangle
from floorplan_circuits.drawing.lettering import width, wrap
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.phrases import listed
from floorplan_circuits.drawing.plan_building import ZONE_DASH, ZONE_EDGE, fill
from floorplan_circuits.drawing.plan_guessed import DEEP, wave
from floorplan_circuits.drawing.plan_switching import LEG_DASH, LEG_PEN
from floorplan_circuits.drawing.plates import Plate, plate, text_height
from floorplan_circuits.drawing.symbols import bounds as symbol_bounds
from floorplan_circuits.drawing.symbols import stamp
from floorplan_circuits.findings import Findings, Standing
from floorplan_circuits.home.boxes import Device
from floorplan_circuits.home.kinds import catalogue, kind_named
from floorplan_circuits.sheets.furniture import one_line, text_lines
from floorplan_circuits.sheets.lists import Scope, boxes_in
from floorplan_circuits.sheets.sections import Block, Section

KNOWN: tuple[tuple[Standing, str], ...] = (
    ("proved", "tested"),
    ("traced", "a tracer points to it"),
    ("suggested", "rounds suggest it"),
    ("claimed", "a label or person says so"),
    ("expired", "tested before a change"),
    ("unknown", "nobody knows: treat as live"),
    ("contradicted", "tests disagree: treat as live"),
)
FOOT = {
    "both": "Colour is what the devices are on, not what runs inside walls, floor or ceiling.",
    "lights": "Colour is what the lights are on, not what runs inside walls, floor or ceiling.",
    "receptacles": "Colour is what receptacles and appliances are on, not what runs inside walls, floor or ceiling.",
}
GUESSED_WORDS = "its place is a guess"
LEG_WORDS = "what a switch works; no cable"
LEGEND_ROW, LEGEND_SIZE = 4.3, 7.5
NAMED = 3
"""How many of those who tested are named."""
DRAWN, WORDS = 4.5, 9.8
"""Where the middle of what is drawn stands, and where its words begin, in mm."""
BETWEEN = 2.0
"""Least mm between the words of one column and the next one."""

Row = tuple[Group, str]
"""What is drawn about the origin, and its words."""


def how_to_read(
    findings: Findings, wide: float, theme: Theme, scope: Scope, some_pale: bool = False, switching: bool = False
) -> Section:
    """Return the key to the plates, symbols and floors of these levels, and who tested.

    `some_pale`: boxes of other panels stand pale; `switching`: there are curves from switches to what they work.
    """
    rows = [*_plate_rows(findings, scope, theme), *_symbol_rows(findings, scope, theme)]
    rows += _floor_rows(findings, scope, theme)
    rows += [_guessed_row(theme)] if any(box.placed == "guessed" for box in boxes_in(findings, scope) if box.at) else []
    rows += [_leg_row(theme)] if switching and _has_switching(findings, scope) else []
    rows += (
        [(_centred("duplex receptacle", theme, ink=theme.faint), "pale: all of it on other panels")]
        if some_pale
        else []
    )
    foot = wrap(f"{_who(findings)} {FOOT[findings.layer]}".strip(), wide, LEGEND_SIZE)
    marks = tuple(text_lines(foot, 0, 0.6, LEGEND_SIZE, theme))
    blocks = [*_in_columns(rows, wide, theme), Block(Group(marks), len(foot) * text_height(LEGEND_SIZE) + 1.6)]
    return Section("How to read it", tuple(blocks), wide, whole=True)


def _who(findings: Findings) -> str:
    """Return who tested, at most three by name; nothing where nobody did."""
    people = findings.tested_by
    if not people:
        return ""
    more = len(people) - NAMED
    names = [*people[:NAMED], f"{more} more"] if more > 0 else list(people)
    return f"Tested by {listed(names)}."


def _in_columns(rows: Sequence[Row], wide: float, theme: Theme) -> list[Block]:
    """Set the rows in as many columns as their words allow, each as wide as its own, down the first one first."""
    for high in range(1, len(rows) + 1):
        columns = [rows[at : at + high] for at in range(0, len(rows), high)]
        taken = [WORDS + max(width(words, LEGEND_SIZE) for _, words in column) for column in columns]
        spare = wide - sum(taken) - BETWEEN * (len(columns) - 1)
        if spare >= 0 or len(columns) == 1:
            step = BETWEEN + max(0.0, spare) / len(columns)
            lefts = accumulate((column + step for column in taken[:-1]), initial=0.0)
            placed = list(zip(lefts, columns, strict=True))
            return [
                _legend_line([(x, column[at]) for x, column in placed if at < len(column)], wide, theme)
                for at in range(high)
            ]
    return []


def _legend_line(rows: Sequence[tuple[float, Row]], wide: float, theme: Theme) -> Block:
    """Set rows side by side, each from its own x in mm."""
    marks: list[Mark] = []
    middle = LEGEND_ROW / 2
    for x, (drawn, words) in rows:
        marks.append(moved(drawn, x + DRAWN, middle))
        shown, _ = one_line((words,), wide - x - WORDS, LEGEND_SIZE)
        marks.append(Text((x + WORDS, middle + 0.95), shown, LEGEND_SIZE, False, theme.ink))
    return Block(Group(tuple(marks)), LEGEND_ROW)


# --- rows -----------------------------------------------------------------------------------------------------------


def _devices(findings: Findings, scope: Scope) -> Iterator[Device]:
    for box in boxes_in(findings, scope):
        yield from (device for device in box.devices if not device.planned)


def _symbol_rows(findings: Findings, scope: Scope, theme: Theme) -> Iterator[Row]:
    """Yield each symbol in use, in the order of the catalogue; kinds that share one stand in one row."""
    order = {name: place for place, name in enumerate(catalogue())}
    used = sorted({device.kind for device in _devices(findings, scope)}, key=lambda name: order.get(name, len(order)))
    empty = {box.mount == "loose cable end" for box in boxes_in(findings, scope) if not box.devices}
    used += ["loose cable end"] if True in empty and "loose cable end" not in used else []
    used += ["junction box"] if False in empty and "junction box" not in used else []
    labels: dict[str, list[str]] = {}
    for kind in map(kind_named, used):
        labels.setdefault(kind.symbol, []).append(kind.label)
    for symbol, names in labels.items():
        yield _centred(symbol, theme), ", ".join(names)
    if any(panel.level in scope and panel.at for panel in findings.home.panels):
        yield _centred("panel", theme, angle=90, size=0.75), "panel: you stand here"


def _centred(symbol: str, theme: Theme, angle: float = 0.0, size: float = 1.0, ink: str = "") -> Group:
    radius = 1.45 * size
    left, top, right, bottom = symbol_bounds(symbol, (0, 0), angle, radius)
    at = (-(left + right) / 2, -(top + bottom) / 2)
    return stamp(symbol, at, angle, ink or theme.ink, theme.paper, radius=radius)


def _floor_rows(findings: Findings, scope: Scope, theme: Theme) -> Iterator[Row]:
    rooms = {room.id for room in findings.home.rooms if room.level in scope}
    zones = [zone for zone in findings.zones if zone.room in rooms]
    if any(zone.breaker is None for zone in zones):
        path = rectangle(-4, -1.5, 8, 3)
        yield Group((*fill(path, None, theme), Shape(path, None, Pen(0.13, theme.soft)))), "nobody knows the circuit"
    if len(zones) > len({zone.room for zone in zones}):
        yield _line(theme), "a circuit’s area ends"
    if any(zone.breaker is not None and not zone.settled for zone in zones):
        yield _line(theme, ZONE_DASH), "not all of it tested"


def _line(theme: Theme, dash: tuple[float, ...] = ()) -> Group:
    return Group((Shape(polyline((-4, 0), (4, 0)), None, Pen(ZONE_EDGE, theme.ink, dash)),))


def _has_switching(findings: Findings, scope: Scope) -> bool:
    """Tell whether a switch on these levels works anything."""
    devices = {device.id for device in _devices(findings, scope)}
    return any(group.feeds and devices.intersection(group.switches) for group in findings.home.controls)


def _guessed_row(theme: Theme) -> Row:
    foot = (-3.4, 0.0)
    wall = Shape(polyline((foot[0], -1.6), (foot[0], 1.6)), None, Pen(0.5, theme.wall))
    receptacle = stamp("duplex receptacle", (foot[0] + 0.25 + DEEP, 0), 0, theme.ink, theme.paper)
    return Group((wall, *wave((foot[0] + 0.25, 0.0), (1.0, 0.0), theme), receptacle)), GUESSED_WORDS


def _leg_row(theme: Theme) -> Row:
    a, b = (-4.0, 0.5), (4.0, 0.5)
    (px, py), (qx, qy) = arc_handles(a, b)
    curve = Shape((("M", a), ("C", (px, py, qx, qy, *b))), None, Pen(LEG_PEN, theme.soft, LEG_DASH))
    return Group((curve,)), LEG_WORDS


def _plate_rows(findings: Findings, scope: Scope, theme: Theme) -> Iterator[Row]:
    boxes = boxes_in(findings, scope)
    ids = {box.id for box in boxes}
    here = [one for one in findings.conclusions.values() if one.box in ids]
    used: set[Standing] = {one.standing for one in here}
    used |= {"unknown"} if any(not box.feeds() for box in boxes if is_built(box)) else set()
    for standing, words in KNOWN:
        if standing in used:
            yield plate(Plate("?" if standing == "unknown" else "9", standing), (0, 0), theme), words
    if any(one.others for one in here):
        yield plate(Plate("else", "claimed"), (0, 0), theme), "from elsewhere, not this panel"
    if any(feed.id in findings.conclusions for box in boxes for feed in box.passing):
        yield plate(Plate("9", "claimed", passing=True), (0, 0), theme), "passes through"
