"""The catalogue of device kinds: trade names, plain words, symbol, and what a load of that kind can show."""

from dataclasses import dataclass
from functools import cache
from typing import Literal

from floorplan_circuits.home.boxes import Box, Device
from floorplan_circuits.home.resources import read_json

Group = Literal["receptacle", "light", "switch", "appliance", "alarm", "other"]


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of device. `hots`: conductors live to ground that supply it (2: a 240 V load in North America).

    `in_series`: what it is to those that hang behind it, if others may. `holds_cables`: it takes no power itself.
    `battery`: it may run on one, and so bears no witness of the mains. `switched`: as a light is, a switch mostly works
    it, though it is none.
    """

    name: str
    group: Group
    symbol: str
    label: str
    plural: str
    words: tuple[str, ...] = ()
    parts: tuple[str, ...] = ()
    hots: int = 1
    mount: str = "wall"
    height: int | None = None
    key: str = ""
    in_series: Literal["", "ground fault", "transformer"] = ""
    holds_cables: bool = False
    battery: bool = False
    switched: bool = False


@cache
def catalogue() -> dict[str, Kind]:
    """Return every known kind by name."""
    rows = read_json("device_kinds.json")["kinds"]
    return {
        row["name"]: Kind(**{**row, "words": tuple(row.get("words", ())), "parts": tuple(row.get("parts", ()))})
        for row in rows
    }


def kind_named(name: str) -> Kind:
    """Return the kind; an unknown one is plain: its own name, the symbol of a blank outlet."""
    known = catalogue().get(name)
    return known or Kind(name=name, group="other", symbol="blank outlet", label=name, plural=name)


def only_holds_cables(device: Device, box: Box) -> bool:
    """Tell whether a device takes no power itself and all that it holds is recorded as passing through its box."""
    return kind_named(device.kind).holds_cables and not device.feeds and bool(box.passing)
