"""Small homes of one room for the tests of the families, and what is found of them."""

from collections.abc import Sequence
from typing import Any

from floorplan_circuits.find import find
from floorplan_circuits.findings import Findings, Hazard
from floorplan_circuits.home.boxes import Box, Device, Feed, Hangs
from floorplan_circuits.home.building import Level, Room
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Breaker, Panel, Pole
from floorplan_circuits.home.table import Table
from tests.supply.wiring import panel
from tests.survey.houses import logged

LEVEL, ROOM, PANEL = 1, 2, 3
FIVE, SEVEN, NINE = 105, 107, 109
"""The breakers in spaces 5, 7 and 9: 7 is on the other leg of 5 and 9 by the usual layout."""


def feed(number: int, hangs: Hangs, **fields: Any) -> Feed:
    return Feed(**{"id": number, "on": hangs, **fields})


def device(number: int, *feeds: Feed, kind: str = "duplex receptacle", **fields: Any) -> Device:
    return Device(**{"id": number, "kind": kind, "feeds": feeds, **fields})


def box(number: int, *devices: Device, **fields: Any) -> Box:
    return Box(
        **{"id": number, "mark": f"B{number % 100}", "level": LEVEL, "at": (1000 * (number % 100), 0)}
        | {"devices": devices, "gangs": 4, **fields}
    )


def standing(number: int, space: int, half: str | None = None, **fields: Any) -> Breaker:
    """A breaker of one pole; `neutral` and `leg` are the pole's."""
    pole = {"space": space, "half": half} | {name: fields.pop(name) for name in ("neutral", "leg") if name in fields}
    poles = (Pole.model_validate(pole),)
    return Breaker(**{"id": number, "panel": PANEL, "poles": poles, "opens": "hot", **fields})


def plain() -> list[Breaker]:
    return [standing(FIVE, 5), standing(SEVEN, 7), standing(NINE, 9)]


def home(
    *boxes: Box,
    breakers: Sequence[Breaker] | None = None,
    panels: Sequence[Panel] | None = None,
    log: Sequence[dict[str, Any]] = (),
    **fields: Any,
) -> Home:
    """Boxes in a kitchen of ten by four metres, on a split-phase panel."""
    outline = ((0, 0), (10_000, 0), (10_000, 4000), (0, 4000))
    made = Home(
        **{
            "next_id": 9000,
            "system": "split-phase 120/240",
            "levels": Table([Level(id=LEVEL, name="Ground floor")]),
            "rooms": Table([Room(id=ROOM, level=LEVEL, name="Kitchen", outline=outline)]),
            "boxes": Table(boxes),
            "panels": Table([panel(PANEL, name="Main panel")] if panels is None else panels),
            "breakers": Table(plain() if breakers is None else breakers),
            **fields,
        }
    )
    return logged(made, *log)


def found(*boxes: Box, **fields: Any) -> Findings:
    return find(home(*boxes, **fields))


def hazards(kind: str, *boxes: Box, **fields: Any) -> list[Hazard]:
    """The hazards of one kind in such a home."""
    return [one for one in found(*boxes, **fields).hazards if one.kind == kind]


def only(kind: str, *boxes: Box, **fields: Any) -> Hazard:
    """The one hazard of a kind."""
    (one,) = hazards(kind, *boxes, **fields)
    return one


def tie(made: str = "by the factory", group: int = 500) -> dict[str, Any]:
    return {"group": group, "made": made}
