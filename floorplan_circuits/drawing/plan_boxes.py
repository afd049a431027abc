"""Boxes on the plan: symbols in their places, housings round several gangs, and the labels they ask for."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from floorplan_circuits.drawing.frame import Frame
from floorplan_circuits.drawing.ink import Bounds, Mark, Pen, Shape, path_bounds, polygon
from floorplan_circuits.drawing.overlaps import around
from floorplan_circuits.drawing.palette import LIGHT
from floorplan_circuits.drawing.placement import Ground
from floorplan_circuits.drawing.plan_building import facing
from floorplan_circuits.drawing.plan_guessed import DEEP, wave
from floorplan_circuits.drawing.plan_what_if import Entering, is_dead, plates_when_off, room_when_live, room_when_off
from floorplan_circuits.drawing.plates import Plate, plate_of
from floorplan_circuits.drawing.symbols import bounds as symbol_bounds
from floorplan_circuits.drawing.symbols import centre as symbol_centre
from floorplan_circuits.drawing.symbols import stamp
from floorplan_circuits.findings import XY, BoxFinding, Findings, Standing, Subject
from floorplan_circuits.home.boxes import Box, Feed
from floorplan_circuits.home.kinds import kind_named, only_holds_cables

RADIUS = 1.45
GANG = 3.5
HOUSING_DEPTH = 4.8
PLANNED_APART = 0.25
"""How far off what is built stands what is planned in the same box, in gangs."""
DEAD_WEIGHT = 0.2
"""mm of the lines of a symbol that should be dead while handles are off."""
ON_WALL = ("wall", "outdoor", "loose cable end")
"""Mounts of what stands out the way it is turned: a loose cable end comes out of a wall more often than not."""
DOUBTFUL: tuple[Standing, ...] = ("unknown", "contradicted", "expired")
STANDING_WORDS: Mapping[Standing, str] = {
    "unknown": "nobody knows",
    "claimed": "only said",
    "suggested": "rounds suggest",
    "traced": "traced",
    "proved": "tested",
    "expired": "tested before a change",
    "contradicted": "tests disagree",
}


@dataclass(frozen=True, slots=True)
class DrawnBox:
    """A box on the sheet: its marks, the room they take, and what its label has to say and from where."""

    box: Box
    found: BoxFinding | None
    marks: tuple[Mark, ...]
    bounds: tuple[Bounds, ...]
    at: XY
    facing: XY | None
    depth: float
    plates: tuple[Plate, ...]
    picked: bool = False
    row_room: float = 0.0
    """mm across that its plates may come to take while handles are flipped: so wide a place is kept for them."""
    row_tight: float = 0.0
    """mm across that they take as long as none of them gets a box to tick or a leaf."""

    @property
    def caution(self) -> bool:
        """Whether it gets the caution plate with its mark."""
        return self.found is not None and self.found.shared

    @property
    def named(self) -> bool:
        """Whether its mark stands beside the plates: it is picked, or something in it is unknown or in doubt."""
        return not self.caution and (self.picked or any(plate.standing in DOUBTFUL for plate in self.plates))


def drawn_box(box: Box, frame: Frame, ground: Ground, aside: float = 0.0) -> DrawnBox:
    """Draw one box with what is in it, `aside` mm off its place along the wall; its labels are placed later."""
    found = frame.findings.boxes.get(box.id)
    place_of, looks = _stands_at(box, frame, ground)
    at = _gang_at(place_of, looks, aside / GANG)
    symbols = _symbols(box)
    pale = not frame.shows(box)
    shared = found is not None and found.shared and not pale
    housed = len(symbols) > 1 or shared
    marks: list[Mark] = [_housing(at, looks, len(symbols), shared, pale, frame)] if housed else []
    bounds = [_housing_bounds(at, looks, len(symbols))] if housed else []
    for place, (name, feeds) in enumerate(symbols):
        spot = _gang_at(at, looks, place - (len(symbols) - 1) / 2)
        angle = box.angle if looks else 0
        ground_colour = frame.theme.caution if shared else frame.theme.paper
        dead = is_dead(feeds, frame)
        ink = frame.theme.caution_ink if shared else frame.theme.faint if pale or dead else frame.theme.ink
        radius = RADIUS * 0.92 if housed else RADIUS
        weight = DEAD_WEIGHT if dead else 0.25 if housed else 0.28
        marks.append(stamp(name, spot, angle, ink, ground_colour, radius=radius, weight=weight))
        if not housed:
            bounds.append(symbol_bounds(name, spot, angle, radius))
    if box.placed == "guessed":
        ground_of_wave, line = wave(*_waves_at(at, looks, housed), frame.theme)
        marks += [ground_of_wave, line]
        bounds.append(path_bounds(ground_of_wave.path))
    depth = 2 * RADIUS if looks is None else _depth(at, looks, bounds[0])
    plates, picked = plates_of(box, frame), box.id in frame.picked
    room = room_when_off(plates, found) if frame.what_if is not None else 0.0
    tight = room_when_live(plates) if frame.what_if is not None else 0.0
    return DrawnBox(box, found, tuple(marks), tuple(bounds), at, looks, depth, plates, picked, room, tight)


def _depth(at: XY, looks: XY, bounds: Bounds) -> float:
    """Return how far, in mm, what covers `bounds` stands out from the wall's face at `at`."""
    corners = ((x, y) for x in (bounds[0], bounds[2]) for y in (bounds[1], bounds[3]))
    return max((x - at[0]) * looks[0] + (y - at[1]) * looks[1] for x, y in corners)


def dot_box(box: Box, at: XY, side: float, frame: Frame) -> DrawnBox:
    """Return a box as the overview shows it: a dot of `side` mm about `at`, which is drawn with all others."""
    found = frame.findings.boxes.get(box.id)
    return DrawnBox(box, found, (), (around(at, (side, side)),), at, None, side, plates_of(box, frame))


def _stands_at(box: Box, frame: Frame, ground: Ground) -> tuple[XY, XY | None]:
    """Return where it touches the wall's face and which way it looks; or its middle and None.

    One whose place is a guess does not touch its wall: a wave stands between them.
    """
    at = frame.mm(box.at or (0, 0))
    if box.mount not in ON_WALL:
        return at, None
    looks = facing(box.angle)
    out = ground.out_of_wall(at, looks) + (DEEP if box.placed == "guessed" else 0.0)
    return (at[0] + looks[0] * out, at[1] + looks[1] * out), looks


def _waves_at(at: XY, looks: XY | None, housed: bool) -> tuple[XY, XY]:
    """Return the foot of the wave of a guessed place, and which way from there the box is: up, if it is on no wall."""
    if looks is None:
        return (at[0], at[1] + (GANG / 2 if housed else RADIUS) + DEEP), (0.0, -1.0)
    return (at[0] - looks[0] * DEEP, at[1] - looks[1] * DEEP), looks


def _symbols(box: Box) -> list[tuple[str, Sequence[Feed]]]:
    """Return the symbols in order of their gangs with what feeds each; a box without devices shows what it is."""
    devices = [device for device in sorted(box.devices, key=lambda device: device.slot) if not device.planned]
    if devices:
        return [(kind_named(device.kind).symbol, device.feeds) for device in devices]
    return [("loose cable end" if box.mount == "loose cable end" else "junction box", box.passing)]


def gang_spots(box: Box, frame: Frame, ground: Ground) -> dict[int, XY]:
    """Return where the symbol of each device stands: what is built in its gangs, what is planned in a row after it."""
    at, looks = _stands_at(box, frame, ground)
    in_order = sorted(box.devices, key=lambda device: device.slot)
    built = [device.id for device in in_order if not device.planned]
    wanted = [device.id for device in in_order if device.planned]
    centred = ((len(built) or len(wanted)) - 1) / 2
    apart = PLANNED_APART if built else 0.0
    spots = {one: _gang_at(at, looks, place - centred) for place, one in enumerate(built)}
    spots |= {one: _gang_at(at, looks, len(built) + nth + apart - centred) for nth, one in enumerate(wanted)}
    return spots


def middles(box: Box, frame: Frame, ground: Ground) -> dict[int, XY]:
    """Return the middle of the symbol of each device that is built."""
    spots, angle = gang_spots(box, frame, ground), box.angle if box.mount in ON_WALL else 0
    return {
        device.id: symbol_centre(kind_named(device.kind).symbol, spots[device.id], angle, RADIUS)
        for device in box.devices
        if not device.planned
    }


def plates_of(box: Box, frame: Frame) -> tuple[Plate, ...]:
    """Return the plates of all that enters, each kind once: gang by gang, then what passes."""
    if frame.what_if is not None:
        return plates_when_off(box, _entering(box, frame.findings), frame, frame.what_if)
    return tuple(dict.fromkeys(shown for _, shown in _entering(box, frame.findings)))


def _entering(box: Box, findings: Findings) -> Iterator[Entering]:
    known, marks = findings.conclusions, findings.marks
    nothing = Plate("?", "unknown")
    for device in box.devices:
        if not device.planned:
            yield from ((feed.id, plate_of(known[feed.id], marks)) for feed in device.feeds if feed.id in known)
            yield from () if device.feeds or only_holds_cables(device, box) else ((None, nothing),)
    yield from ((feed.id, plate_of(known[feed.id], marks, passing=True)) for feed in box.passing if feed.id in known)
    if not box.devices and not box.passing:
        yield None, nothing


# --- housings -------------------------------------------------------------------------------------------------------


def _gang_at(at: XY, looks: XY | None, offset: float) -> XY:
    along = (1.0, 0.0) if looks is None else (abs(looks[1]), abs(looks[0]))
    return at[0] + along[0] * offset * GANG, at[1] + along[1] * offset * GANG


def _housing_corners(at: XY, looks: XY | None, gangs: int) -> list[XY]:
    if looks is None:
        half, high = gangs * GANG / 2, GANG / 2
        return [(at[0] - half, at[1] - high), (at[0] + half, at[1] - high), (at[0] + half, at[1] + high),
                (at[0] - half, at[1] + high)]  # fmt: skip
    half, (fx, fy) = gangs * GANG / 2 + 0.2, looks
    sides = ((-half, 0.0), (half, 0.0), (half, HOUSING_DEPTH), (-half, HOUSING_DEPTH))
    return [(at[0] - fy * t + fx * f, at[1] + fx * t + fy * f) for t, f in sides]


def _housing(at: XY, looks: XY | None, gangs: int, shared: bool, pale: bool, frame: Frame) -> Shape:
    theme = frame.theme
    colour = theme.caution_ink if shared else theme.faint if pale else theme.ink
    pen = Pen(0.5 if shared else 0.25, colour, join="round")
    if shared and frame.theme.name == "dark":
        pen = Pen(0.5, frame.theme.caution, join="round")
    fill = frame.theme.caution if shared else frame.theme.paper
    return Shape(polygon(*_housing_corners(at, looks, gangs)), fill, pen)


def _housing_bounds(at: XY, looks: XY | None, gangs: int) -> Bounds:
    corners = _housing_corners(at, looks, gangs)
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return min(xs) - 0.25, min(ys) - 0.25, max(xs) + 0.25, max(ys) + 0.25


def subject_of(box: Box) -> Subject:
    """Return what a click on the box names."""
    return Subject("box", box.id)


def contents(box: Box) -> str:
    """Return the names or kinds of what is built in a box, '' for nothing."""
    return ", ".join(device.name or kind_named(device.kind).label for device in box.devices if not device.planned)


def circuits_in_words(box: Box, findings: Findings) -> str:
    """Return what is in a box and what enters it, in one sentence for a screen reader or a status line."""
    frame = Frame(findings, box.level or 0, 1.0, LIGHT)
    plates = plates_of(box, frame)
    kinds = contents(box) or "no device"
    known = ", ".join(f"{plate.words} ({STANDING_WORDS[plate.standing]})" for plate in plates)
    found = findings.boxes.get(box.id)
    shared = " More than one circuit enters." if found is not None and found.shared else ""
    guessed = " Its place is a guess." if box.placed == "guessed" else ""
    return f"{box.mark}, {kinds}: {known or 'nothing recorded'}.{shared}{guessed}"
