"""A hypothesis strategy of small but wild homes: every kind of record, and always sound by the integrity rules."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import count
from typing import Any

from hypothesis import strategies as st

from floorplan_circuits.home.home import Home
from floorplan_circuits.home.kinds import catalogue
from tests.homes_wild_log import Named, draw_log
from tests.homes_wild_power import draw_panels
from tests.homes_wild_words import Draw, Fields, Ids, dates, maybe, names, newer, notes, some

points = st.one_of(
    st.tuples(*[st.one_of(st.integers(-9000, 9000), st.sampled_from((-(10**7), 10**7)))] * 2),
    st.tuples(*[st.sampled_from((0, 40, 100, 280, 400))] * 2),
)
"""Places anywhere, and places so close that boxes stand beside and behind each other."""
angles = st.one_of(st.integers(0, 359), st.sampled_from((0, 90, 180, 270)))
MOUNTS = ("wall", "ceiling", "floor", "outdoor", "hidden", "loose cable end")
SHAPES = (
    ((0, 0), (4000, 0), (4000, 3000), (0, 3000)),
    ((0, 0), (0, 3000), (4000, 3000), (4000, 0)),
    ((0, 0), (5000, 0), (5000, 2000), (2000, 2000), (2000, 4000), (0, 4000)),
    ((0, 0), (3333, 1), (1234, 2999)),
    ((0, 0), (200, 0), (200, 200), (0, 200)),
)
"""Outlines of rooms: plain, turned the other way, L-shaped, three-cornered, and the smallest closet."""


@dataclass
class _Around:
    """What a feed can hang on, and what has been built so far."""

    breakers: Sequence[Fields]
    sources: Sequence[int]
    feeds: list[int] = field(default_factory=list)
    devices: list[int] = field(default_factory=list)


@st.composite
def homes(draw: Draw) -> Home:
    """Draw a home of up to five boxes and three panels that passes every integrity rule."""
    ids = count(draw(st.integers(1, 1000)))
    pictures = tuple(_picture(mark) for mark in range(draw(st.integers(0, 2))))
    shown = [picture["hash"] for picture in pictures]
    levels = [_level(draw, ids, shown) for _ in range(draw(st.integers(0, 3)))]
    on_levels = [level["id"] for level in levels]
    sources = [next(ids) for _ in range(draw(st.integers(0, 2)))]
    panels, breakers = draw_panels(draw, ids, sources, on_levels, shown)
    around = _Around(breakers, sources)
    boxes = [_box(draw, ids, place, on_levels, shown, around) for place in range(draw(st.integers(0, 5)))]
    named = Named.of(boxes, panels, breakers, around.feeds, around.devices)
    everything: Fields = {
        "name": draw(names),
        "units": draw(st.sampled_from(("metric", "feet and inches"))),
        "system": draw(st.sampled_from(("split-phase 120/240", "single-phase 230", "not known"))),
        "levels": tuple(levels),
        **_drawing(draw, ids, on_levels),
        "boxes": tuple(boxes),
        "controls": tuple(_control(draw, ids, named) for _ in range(draw(st.integers(0, 2)))),
        "panels": tuple(panels),
        "breakers": tuple(breakers),
        "sources": tuple(_source(draw, number, named) for number in sources),
        "log": draw_log(draw, ids, named),
        "pictures": pictures,
        **newer(draw),
    }
    return Home.model_validate({**everything, "next_id": next(ids) + draw(st.integers(0, 9))})


# --- the building ---------------------------------------------------------------------------------------------------


def _picture(mark: int) -> Fields:
    return {"hash": f"{mark:08x}", "media": "image/png", "date": "2026-03-14", "caption": "the panel"}


def _level(draw: Draw, ids: Ids, shown: Sequence[str]) -> Fields:
    level: Fields = {"id": next(ids), "name": draw(names), "order": draw(st.integers(-20, 200))}
    under = maybe(draw, shown)
    if under is not None:
        level["underlay"] = {"picture": under, "at": draw(points), "width": 12_000, "angle": draw(angles)}
        level["underlay"] |= {"pixels": (400, 300), "hundredths": draw(st.integers(0, 99))}
    return level


def _drawing(draw: Draw, ids: Ids, levels: Sequence[int]) -> Fields:
    if not levels:
        return {}
    return {
        "rooms": tuple(_room(draw, ids, levels) for _ in range(draw(st.integers(0, 3)))),
        "openings": tuple(_opening(draw, ids, levels) for _ in range(draw(st.integers(0, 2)))),
        "stairs": tuple(_stair(draw, ids, levels) for _ in range(draw(st.integers(0, 1)))),
    }


def _room(draw: Draw, ids: Ids, levels: Sequence[int]) -> Fields:
    x, y = draw(st.tuples(st.integers(-9000, 9000), st.integers(-9000, 9000)))
    outline = tuple((x + dx, y + dy) for dx, dy in draw(st.sampled_from(SHAPES)))
    level = draw(st.sampled_from(levels))
    return {"id": next(ids), "level": level, "name": draw(names), "use": draw(names), "outline": outline} | newer(draw)


def _opening(draw: Draw, ids: Ids, levels: Sequence[int]) -> Fields:
    return {
        "id": next(ids),
        "level": draw(st.sampled_from(levels)),
        "kind": draw(st.sampled_from(("door", "window", "open way"))),
        "at": draw(points),
        "width": draw(st.integers(1, 5000)),
        "angle": draw(angles),
        "hinge": draw(st.sampled_from(("left", "right", "none"))),
        "swing": draw(st.sampled_from(("ahead", "behind", "none"))),
    }


def _stair(draw: Draw, ids: Ids, levels: Sequence[int]) -> Fields:
    level, head = draw(st.sampled_from(levels)), maybe(draw, levels)
    return {"id": next(ids), "level": level, "head": head, "at": draw(points), "angle": draw(angles)}


# --- boxes ----------------------------------------------------------------------------------------------------------


def _box(draw: Draw, ids: Ids, place: int, levels: Sequence[int], shown: Sequence[str], around: _Around) -> Fields:
    level = maybe(draw, levels)
    gangs = draw(st.integers(1, 4))
    return {
        "id": next(ids),
        "mark": draw(st.sampled_from((f"B{place + 1}", f"{place} “attic”", f"Ü{place}"))),
        "level": level,
        "at": None if level is None else draw(st.one_of(st.none(), points)),
        "placed": draw(st.sampled_from(("seen", "guessed"))),
        "angle": draw(angles),
        "height": draw(st.one_of(st.none(), st.integers(-10_000, 100_000))),
        "mount": draw(st.sampled_from(MOUNTS)),
        "reach": draw(names),
        "gangs": gangs,
        "devices": tuple(_device(draw, ids, gangs, around) for _ in range(draw(st.integers(0, 3)))),
        "passing": tuple(_feed(draw, ids, around) for _ in range(draw(st.integers(0, 2)))),
        "wiring": draw(st.sampled_from(("copper", "aluminium", "cloth", "knob and tube", "not known"))),
        "note": draw(notes),
        "pictures": tuple(some(draw, shown)),
        **newer(draw),
    }


def _device(draw: Draw, ids: Ids, gangs: int, around: _Around) -> Fields:
    device: Fields = {
        "id": next(ids),
        "slot": draw(st.integers(1, gangs)),
        "kind": draw(st.sampled_from((*catalogue(), "a thing nobody knows"))),
        "name": draw(names),
        "feeds": tuple(_feed(draw, ids, around) for _ in range(draw(st.integers(0, 2)))),
        "va": draw(st.one_of(st.none(), st.integers(0, 1_000_000))),
        "continuous": draw(st.booleans()),
        "critical": draw(names),
        "ground": draw(st.sampled_from(("present", "absent", "not known"))),
        "rated": draw(st.sampled_from((None, 15, 20, 30, 50))),
        "planned": draw(st.integers(0, 5)) == 0,
    }
    around.devices.append(device["id"])
    return device | newer(draw)


def _feed(draw: Draw, ids: Ids, around: _Around) -> Fields:
    breaker = [_from_breaker(draw, around)] if around.breakers else []
    feed: Fields = {
        "id": next(ids),
        "part": draw(st.sampled_from(("", "upper", "lower", "light", "fan"))),
        "on": _hangs(draw, around),
        "returns": draw(st.sampled_from(("same", "not known", *breaker))),
        "volts": draw(st.sampled_from(("mains", "mains", "low", "not known"))),
        "said_by": draw(st.sampled_from(("label", "person", "not said"))),
        "note": draw(notes),
    }
    around.feeds.append(feed["id"])
    return feed


def _hangs(draw: Draw, around: _Around) -> Fields:
    how = draw(st.sampled_from(("not known", "any", "any", "all", "behind", "disconnected")))
    if how in ("any", "all"):
        return {"how": how, "supplies": _supplies(draw, around)}
    if how == "behind" and around.feeds:
        return {"how": how, "feed": draw(st.sampled_from(around.feeds))}
    if how == "disconnected":
        return {"how": how, "seen_by": draw(names), "date": draw(dates)}
    return {"how": "not known"}


def _supplies(draw: Draw, around: _Around) -> tuple[Fields, ...]:
    wanted = [_supply(draw, around) for _ in range(draw(st.integers(1, 3)))]
    return tuple(supply for place, supply in enumerate(wanted) if supply not in wanted[:place])


def _supply(draw: Draw, around: _Around) -> Fields:
    kind = draw(st.sampled_from(("breaker", "breaker", "source", "elsewhere")))
    if kind == "breaker" and around.breakers:
        return _from_breaker(draw, around)
    if kind == "source" and around.sources:
        return {"kind": "source", "source": draw(st.sampled_from(around.sources))}
    return {"kind": "elsewhere", "where": draw(st.sampled_from(("", "the neighbour")))}


def _from_breaker(draw: Draw, around: _Around) -> Fields:
    breaker = draw(st.sampled_from(around.breakers))
    poles = range(min(3, len(breaker["poles"])))
    return {"kind": "breaker", "breaker": breaker["id"], "pole": maybe(draw, poles)}


def _control(draw: Draw, ids: Ids, named: Named) -> Fields:
    return {
        "id": next(ids),
        "name": draw(names),
        "switches": tuple(some(draw, named.devices)),
        "feeds": tuple(some(draw, named.feeds)),
        "by": draw(st.sampled_from(("hand", "timer", "photocell", "radio", "pull cord", "not known"))),
        "enters": maybe(draw, named.boxes),
    }


def _source(draw: Draw, number: int, named: Named) -> Fields:
    reached = (*named.panels, *named.breakers, *named.feeds)
    source: dict[str, Any] = {"id": number, "name": draw(names), "into": tuple(some(draw, reached))[:20]}
    return source | {
        "kind": draw(st.sampled_from(("utility", "generator", "solar", "battery", "elsewhere"))),
        "starts": draw(st.sampled_from(("always", "by hand", "by itself", "not known"))),
        "disconnect": draw(names),
        "note": draw(notes),
    }
