"""What every room of the two-storey house is made of: receptacles along its walls, lamps with their switches."""

from typing import Literal

from floorplan_circuits.home.boxes import Box, Device, Feed

from .builder import Area, Builder, Side, ft  # relative: packaged with the program

Spot = tuple[Side, float]
"""A side of a room, and feet from its left or top end."""

Within = tuple[float, float]
"""Feet from a room's back left corner."""

Lamp = Literal["ceiling light", "strip light", "recessed light"]


def at(room: Area, spot: Spot) -> tuple[Area, Side, int]:
    """Return room, side and millimetres, as a wall box takes them."""
    side, feet = spot
    return room, side, ft(feet)


def receptacles(home: Builder, room: Area, breaker: int | None, *spots: Spot) -> None:
    """Put a duplex receptacle at each spot."""
    for spot in spots:
        receptacle(home, room, breaker, spot, "")


def receptacle(
    home: Builder, room: Area, breaker: int | None, spot: Spot, name: str, *, critical: str = "", single: bool = False
) -> Box:
    """Put one receptacle that has a name at a spot."""
    kind = "single receptacle" if single else "duplex receptacle"
    return home.wall_box(*at(room, spot), home.device(kind, breaker, name=name, critical=critical))


def appliance(home: Builder, room: Area, breaker: int, spot: Spot, name: str, va: int, *, critical: str = "") -> Box:
    """Put a fixed appliance at a spot."""
    device = home.device("fixed appliance", breaker, name=name, va=va, critical=critical)
    return home.wall_box(*at(room, spot), device)


def lamps(home: Builder, room: Area, breaker: int, *places: Within, kind: Lamp = "ceiling light") -> list[Feed]:
    """Put a lamp at each place of the ceiling and return their feeds."""
    made = [home.ceiling_box(room, (ft(x), ft(y)), home.device(kind, breaker, va=40)) for x, y in places]
    return [feed for box in made for feed in box.feeds()]


def lit(home: Builder, room: Area, breaker: int, switch: Spot, *places: Within, kind: Lamp = "ceiling light") -> None:
    """Put a switch at a spot and the lamps that it works at their places."""
    box = home.wall_box(*at(room, switch), home.device("switch", breaker))
    home.control("", box.devices, lamps(home, room, breaker, *places, kind=kind), box)


def alarm(home: Builder, room: Area, breaker: int, place: Within) -> None:
    """Put a smoke alarm on the ceiling."""
    x, y = place
    device = home.device("smoke alarm", breaker, va=5, continuous=True, critical="smoke alarm")
    home.ceiling_box(room, (ft(x), ft(y)), device)


def fan_light(home: Builder, room: Area, kind: str, place: Within, feeds: tuple[Feed, ...]) -> Device:
    """Put a ceiling fan or an exhaust fan at a place of the ceiling."""
    x, y = place
    return home.ceiling_box(room, (ft(x), ft(y)), home.device(kind, *feeds, va=90)).devices[0]


def switch(home: Builder, breaker: int, name: str = "", *, three_way: bool = False) -> Device:
    """Make a switch to go in a box with others."""
    return home.device("three-way switch" if three_way else "switch", breaker, name=name)
