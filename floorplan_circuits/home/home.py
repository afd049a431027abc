"""`Home`: the one value that everything else is computed from."""

from collections.abc import Iterator
from typing import Literal, NamedTuple

from pydantic import Field

from floorplan_circuits.home.boxes import Box, Control, Device, Feed
from floorplan_circuits.home.building import Level, Opening, Room, Stair
from floorplan_circuits.home.log import LogEntry
from floorplan_circuits.home.meanings import Meaning
from floorplan_circuits.home.power import Breaker, Main, Panel, Source, System
from floorplan_circuits.home.record import Date, Id, Name, Record
from floorplan_circuits.home.table import Table

FORMAT = "floorplan-circuits 1.0"
"""Name and version of the file format: the major counts what an older program cannot read."""


class Picture(Record):
    """A picture kept by its hash. `data` (base64) stands in the file only: bytes live beside an open home."""

    hash: str = Field(pattern=r"^[0-9a-f]{8,64}$")
    media: Literal["image/png", "image/jpeg"]
    date: Date = ""
    caption: Name = ""
    data: str = Field(default="", max_length=30_000_000)


class Home(Record):
    """One home: its drawing, its panels, its boxes, and the log of what was seen."""

    format: str = Field(default=FORMAT, max_length=60)
    name: Name = ""
    units: Literal["metric", "feet and inches"] = "metric"
    system: System = "not known"
    wall: int = Field(default=0, ge=0, le=1000)
    """How thick walls are, in mm: rooms are typed and shown between their faces. 0: between their middles."""
    next_id: Id = 1
    marks_given: int = Field(default=0, ge=0, le=10**6)
    """The highest number ever given to a box's mark, so that none is given twice."""
    levels: Table[Level] = Table()
    rooms: Table[Room] = Table()
    openings: Table[Opening] = Table()
    stairs: Table[Stair] = Table()
    boxes: Table[Box] = Table()
    controls: Table[Control] = Table()
    panels: Table[Panel] = Table()
    breakers: Table[Breaker] = Table()
    sources: Table[Source] = Table()
    meanings: tuple[Meaning, ...] = Field(default=(), max_length=500)
    """What shortened words on old labels mean here, as the householder said."""
    log: tuple[LogEntry, ...] = ()
    pictures: tuple[Picture, ...] = Field(default=(), max_length=500)


TABLES = ("levels", "rooms", "openings", "stairs", "boxes", "controls", "panels", "breakers", "sources")
"""The tables of a home, in the order of the file."""


class FeedPlace(NamedTuple):
    """A feed with where it is: its box, and its device or None for a cable without one."""

    box: Box
    device: Device | None
    feed: Feed

    def ids(self) -> tuple[int, ...]:
        """Return the ids of the feed, its box, and its device if it has one."""
        return (self.feed.id, self.box.id, *(() if self.device is None else (self.device.id,)))


def feeds(home: Home) -> Iterator[FeedPlace]:
    """Yield every feed of the home with its box and device, box by box, planned devices included."""
    for box in home.boxes:
        for device in box.devices:
            for feed in device.feeds:
                yield FeedPlace(box, device, feed)
        for feed in box.passing:
            yield FeedPlace(box, None, feed)


def existing_feeds(home: Home) -> Iterator[FeedPlace]:
    """Yield the feeds that are built: all but those of planned devices."""
    return (place for place in feeds(home) if place.device is None or not place.device.planned)


def mains(home: Home) -> Iterator[tuple[Panel, Main]]:
    """Yield every main handle with its panel."""
    for panel in home.panels:
        for main in panel.mains:
            yield panel, main
