"""Small homes without a drawing, for the tests of supply: panels, breakers and feeds by name."""

from collections.abc import Sequence
from typing import Any

from hypothesis import strategies as st

from floorplan_circuits.home.boxes import (
    NOT_KNOWN,
    Behind,
    Box,
    Device,
    Disconnected,
    Feed,
    FromBreaker,
    FromElsewhere,
    FromSource,
    Hangs,
    Supplied,
    Supply,
)
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Breaker, Main, Panel, Pole, Source
from floorplan_circuits.home.table import Table

DISCONNECTED = Disconnected(how="disconnected", seen_by="Sam")
UNKNOWN = NOT_KNOWN


def breaker_supply(number: int, pole: int | None = None) -> FromBreaker:
    return FromBreaker(kind="breaker", breaker=number, pole=pole)


def source_supply(number: int) -> FromSource:
    return FromSource(kind="source", source=number)


def elsewhere(where: str = "") -> FromElsewhere:
    return FromElsewhere(kind="elsewhere", where=where)


def on(*supplies: int | Supply, how: Any = "any") -> Supplied:
    """Hang on breakers (by their ids) and other supplies."""
    return Supplied(how=how, supplies=tuple(breaker_supply(one) if isinstance(one, int) else one for one in supplies))


def behind(feed: int) -> Behind:
    return Behind(how="behind", feed=feed)


def panel(number: int = 1, **fields: Any) -> Panel:
    return Panel(**{"id": number, "name": f"Panel {number}", "spaces": 42, **fields})


def main(number: int) -> Main:
    return Main(id=number)


def breaker(number: int, *spaces: int, of: int = 1, **fields: Any) -> Breaker:
    """A breaker of a panel, its poles in `spaces`; in space `number` if none is given."""
    poles = tuple(Pole(space=space) for space in spaces or (number,))
    return Breaker(**{"id": number, "panel": of, "poles": poles, **fields})


def source(number: int, *into: int, **fields: Any) -> Source:
    return Source(**{"id": number, "name": f"Source {number}", "kind": "utility", "into": into, **fields})


def wired(
    panels: Sequence[Panel],
    breakers: Sequence[Breaker],
    feeds: dict[int, Hangs],
    sources: Sequence[Source] = (),
    planned: Sequence[int] = (),
    **fields: Any,
) -> Home:
    """One box with a device a feed; those named in `planned` are not built yet."""
    devices = [
        Device(id=10_000 + feed, kind="switch", feeds=(Feed(id=feed, on=hangs),), planned=feed in planned)
        for feed, hangs in feeds.items()
    ]
    boxes = [Box(id=20_000, mark="B1", devices=tuple(devices))]
    tables = {"panels": Table(panels), "breakers": Table(breakers), "sources": Table(sources), "boxes": Table(boxes)}
    return Home(next_id=30_000, **{**tables, **fields})


# --- drawn at random ------------------------------------------------------------------------------------------------

PANELS = range(1, 5)
BREAKERS = range(100, 112)
MAINS = range(200, 210)
SOURCES = range(300, 304)
FEEDS = range(400, 412)


@st.composite
def wirings(draw: st.DrawFn, loops: bool = True, mistakes: bool = True) -> Home:
    """Homes wired at random: subpanels, sub-mains, chains; with `loops` second supplies too, with `mistakes` anything.

    Without mistakes each panel, breaker and feed hangs only on what has a lower number.
    """
    panels = [_panel(draw, number, loops, mistakes) for number in PANELS]
    breakers = [_breaker(draw, number, mistakes) for number in BREAKERS]
    feeds = {number: _hangs(draw, number, loops, mistakes) for number in FEEDS}
    targets = st.sampled_from([*PANELS, *BREAKERS, *FEEDS])
    into = st.lists(targets, max_size=2, unique=True) if loops else st.just([])
    sources = [source(number, *draw(into)) for number in SOURCES]
    return wired(panels, breakers, feeds, sources)


def _panel(draw: st.DrawFn, number: int, loops: bool, mistakes: bool) -> Panel:
    mains = tuple(main(200 + 2 * number + place) for place in range(draw(st.integers(0, 2))))
    upstream = BREAKERS if mistakes else [one for one in BREAKERS if _home_panel(one) < number]
    feeders = draw(st.lists(st.sampled_from(upstream), max_size=2 if loops else 1, unique=True)) if upstream else []
    fed_by = tuple(breaker_supply(one) for one in feeders)
    return panel(number, mains=mains, fed_by=fed_by)


def _home_panel(number: int) -> int:
    return 1 + (number - BREAKERS.start) % len(PANELS)


def _breaker(draw: st.DrawFn, number: int, mistakes: bool) -> Breaker:
    same_panel = [one for one in BREAKERS if one < number and _home_panel(one) == _home_panel(number)]
    protectors = [None, None, *(BREAKERS if mistakes else same_panel)]
    return breaker(
        number, 1 + number - BREAKERS.start, of=_home_panel(number), behind=draw(st.sampled_from(protectors))
    )


def _hangs(draw: st.DrawFn, number: int, loops: bool, mistakes: bool) -> Hangs:
    single = st.sampled_from(BREAKERS).map(on)
    above = [*FEEDS, 999] if mistakes else [one for one in FEEDS if one < number]
    choices = [single, st.sampled_from([UNKNOWN, DISCONNECTED])]
    if above:
        choices.append(st.sampled_from(above).map(behind))
    if loops:
        supply = st.sampled_from([*(breaker_supply(one) for one in BREAKERS), source_supply(300), elsewhere()])
        supplies = st.lists(supply, min_size=2, max_size=3, unique=True)
        choices.append(
            st.tuples(supplies, st.sampled_from(["any", "all"])).map(lambda drawn: on(*drawn[0], how=drawn[1]))
        )
    return draw(st.one_of(choices))


handles_off = st.frozensets(st.sampled_from([*BREAKERS, *MAINS]), max_size=8)
