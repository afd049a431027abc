"""Everything that is computed about a home, as frozen plain values. Nothing here is ever saved.

Made by `find.py` and the packages below it, read by the drawing, the sheets, the command line and the window.
Places are house millimetres; breakers, boxes and feeds are named by their ids in the home.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

from floorplan_circuits.findings.common import XY, Layer, Standing, Subject
from floorplan_circuits.findings.directory import (
    AskedWord,
    Directory,
    JudgedLine,
    JudgedPanel,
    Line,
    Load,
    Loads,
    PanelFinding,
    Verdict,
)
from floorplan_circuits.findings.evidence import BoxFinding, Conclusion, Disagreement, SeenCable
from floorplan_circuits.findings.floor import RoomShape, Wall, Zone
from floorplan_circuits.findings.hazard import Hazard
from floorplan_circuits.findings.rounds import (
    Alone,
    Effort,
    Look,
    PlannedRound,
    Rest,
    RoundsInWords,
    Solo,
    Stop,
    TestPlan,
    ToTry,
    Turned,
    Walked,
)
from floorplan_circuits.findings.shut_off import GoesDark, OtherChoice, Pair, ShutOff, Step, StepKind, ToTest, ToTurnOff
from floorplan_circuits.findings.when_off import WORST_FIRST, BoxState, BoxWhenOff, FeedWhenOff, WhatIf, state_in_words
from floorplan_circuits.home.home import Home

__all__ = [
    "WORST_FIRST",
    "XY",
    "Alone",
    "AskedWord",
    "BoxFinding",
    "BoxState",
    "BoxWhenOff",
    "Conclusion",
    "Directory",
    "Disagreement",
    "Effort",
    "FeedWhenOff",
    "Findings",
    "GoesDark",
    "Hazard",
    "JudgedLine",
    "JudgedPanel",
    "Layer",
    "Line",
    "Load",
    "Loads",
    "Look",
    "OtherChoice",
    "Pair",
    "PanelFinding",
    "PlannedRound",
    "Rest",
    "RoomShape",
    "RoundsInWords",
    "SeenCable",
    "ShutOff",
    "Solo",
    "Standing",
    "Step",
    "StepKind",
    "Stop",
    "Subject",
    "TestPlan",
    "ToTest",
    "ToTry",
    "ToTurnOff",
    "Turned",
    "Verdict",
    "Walked",
    "Wall",
    "WhatIf",
    "Zone",
    "state_in_words",
]


@dataclass(frozen=True, slots=True)
class Findings:
    """All that is known about `home`, which these findings name."""

    home: Home
    marks: Mapping[int, str] = field(default_factory=dict)
    """Breaker or main -> its number as on the panel: 5, 15A, 2·4, G3."""
    shares_neutral: Mapping[int, tuple[int, ...]] = field(default_factory=dict)
    """Breaker -> those that it shares a neutral with, as far as anybody said."""
    rooms: Mapping[int, RoomShape] = field(default_factory=dict)
    room_of: Mapping[int, int | None] = field(default_factory=dict)
    """Box -> the room it belongs to."""
    near: tuple[tuple[int, int, float], ...] = ()
    """Pairs of boxes within 300 mm of each other on one level, with their distance in mm."""
    walls: tuple[Wall, ...] = ()
    layer: Layer = "both"
    zones: tuple[Zone, ...] = ()
    """The floor as the layer divides it."""
    neighbours: tuple[tuple[int, int], ...] = ()
    """Pairs of rooms with a wall between them."""
    panels: Mapping[int, PanelFinding] = field(default_factory=dict)
    conclusions: Mapping[int, Conclusion] = field(default_factory=dict)
    disagreements: tuple[Disagreement, ...] = ()
    """What readings say against each other or against the map, in the order of the boxes."""
    troubles: Mapping[int, str] = field(default_factory=dict)
    """Breaker or main -> what somebody found wrong with it and nobody mended: runs hot, will not reset."""
    boxes: Mapping[int, BoxFinding] = field(default_factory=dict)
    hazards: tuple[Hazard, ...] = ()
    loads: Loads = field(default_factory=Loads)
    """What hangs on each breaker, as a directory names it."""
    lines: Mapping[int, Line] = field(default_factory=dict)
    directory: Directory = field(default_factory=Directory)
    """The lines and the old labels judged."""
    colours: Mapping[int, int] = field(default_factory=dict)
    """Breaker -> its place in the palette, counted from 0; none for one that takes no area."""
    never_tested: tuple[int, ...] = ()
    """Feeds that no test ever proved, in the order of the boxes."""
    evidence_to: str = ""
    """Date of the last log entry that has one."""
    tested_by: tuple[str, ...] = ()
    """Who took readings or traced cables, in the order they first did."""
