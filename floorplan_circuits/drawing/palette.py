"""The colours: four grounds to draw on, and the tint, strong colour and hatch of a circuit's place among the thirty.

No circuit has a danger's colour: caution and stop belong to the theme and always come with a shape or a word.
"""

from dataclasses import dataclass
from functools import cache
from typing import Any

from floorplan_circuits.drawing.colour import grey, mix
from floorplan_circuits.drawing.ink import Pen
from floorplan_circuits.home.resources import read_json

HATCH_STRENGTH = 0.75
"""Part of the strong colour in a hatch; the rest is tint. It is texture, the number carries the meaning."""


@dataclass(frozen=True, slots=True)
class Theme:
    """What is drawn on one ground: neutrals, and the colours of danger.

    `paper` is a sheet or a card, `canvas` what the plan lies on, `furniture` the panes round it, `metal` the panel's
    body. `caution` fills a warning with `caution_ink` on it; `stop` only ever goes with the word 'live'.
    """

    name: str
    ink: str
    soft: str
    faint: str
    line: str
    wall: str
    paper: str
    canvas: str
    furniture: str
    metal: str
    caution: str
    caution_ink: str
    stop: str


@dataclass(frozen=True, slots=True)
class HatchStyle:
    """A hatch: its name, lines in mm, and the angle in degrees as the eye reads it: 45 rises to the right."""

    name: str
    pen: Pen
    angle: float
    spacing: float


@cache
def _table() -> Any:
    return read_json("palette.json")


def theme_named(name: str) -> Theme:
    """Return the theme 'light', 'dark', 'paper' or 'grey'. Raises KeyError on another name."""
    row = dict(_table()["themes"][name])
    return Theme(**{"name": name, **_table()["themes"].get(row.pop("as", ""), {}), **row})


LIGHT = theme_named("light")
DARK = theme_named("dark")
PAPER = theme_named("paper")
"""The light theme on a white sheet."""
GREY = theme_named("grey")
"""A sheet for a printer without colour: cautions keep their edges and shapes on white."""


def hues() -> tuple[str, ...]:
    """Return the names of the hues in the order they are given: pale ones before deep."""
    return tuple(row["name"] for row in _table()["hues"])


def places() -> int:
    """Return how many places tell apart by hue and hatch; past that they repeat and the number alone tells."""
    return len(_table()["hues"]) * len(_table()["hatches"])


def hue_index(place: int) -> int:
    """Return which hue a place has. Two places of one hue differ in hatch alone."""
    return place % len(_table()["hues"])


def _hatch_row(place: int) -> dict[str, Any]:
    rows: list[dict[str, Any]] = _table()["hatches"]
    return rows[place // len(_table()["hues"]) % len(rows)]


def tint(theme: Theme, place: int) -> str:
    """Return the fill of a circuit's area. A place counts from 0: every hue plain, then every hue with each hatch."""
    column = {"dark": "dark tint", "grey": "grey"}.get(theme.name, "tint")
    return str(_table()["hues"][hue_index(place)][column])


def strong(theme: Theme, place: int) -> str:
    """Return the circuit's colour for lines: at least 3 : 1 to the ground it is drawn on."""
    row = _table()["hues"][hue_index(place)]
    if theme.name == "dark":
        return str(row["dark line"])
    return grey(row["strong"]) if theme.name == "grey" else str(row["strong"])


@cache
def hatch(theme: Theme, place: int) -> HatchStyle | None:
    """Return the hatch over the tint, none for the plain places."""
    row = _hatch_row(place)
    if "angle" not in row:
        return None
    pen = Pen(row["weight"], mix(strong(theme, place), tint(theme, place), HATCH_STRENGTH))
    return HatchStyle(row["name"], pen, row["angle"], row["spacing"])
