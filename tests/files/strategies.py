"""Small homes for the tests of the file: unicode, fields that nobody knows, several kinds of entries, pictures."""

from typing import Any, NamedTuple

from hypothesis import strategies as st

from floorplan_circuits.files.pictures import picture_hash
from floorplan_circuits.home.home import Home

FIRST_ID = 10


class Kept(NamedTuple):
    """A home with the bytes of its pictures."""

    home: Home
    pictures: dict[str, bytes]


NAMES = st.text(st.characters(exclude_categories=["Cs", "Cc"]), max_size=12) | st.sampled_from(["Küche", "居間", "½″"])
NOTES = st.text(st.characters(exclude_categories=["Cs"]), max_size=20)
ANYTHING = st.recursive(
    st.none() | st.booleans() | st.integers(-(2**70), 2**70) | st.floats(allow_nan=False, allow_infinity=False) | NOTES,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(NOTES, inner, max_size=3),
    max_leaves=6,
)
UNKNOWN_FIELDS = st.dictionaries(st.sampled_from(["later", "später", "an other", "x"]), ANYTHING, max_size=2)
PLACES = st.tuples(st.integers(-(10**7), 10**7), st.integers(-(10**7), 10**7)).map(list)


@st.composite
def _feed(draw: st.DrawFn, number: int) -> dict[str, Any]:
    supplies = st.sampled_from(
        [
            {"kind": "breaker", "breaker": 3},
            {"kind": "breaker", "breaker": 3, "pole": 0, "later": [1.5]},
            {"kind": "elsewhere", "where": "a lamp post"},
        ]
    )
    on = st.fixed_dictionaries(
        {"how": st.sampled_from(["any", "all"]), "supplies": st.tuples(supplies).map(list)}
    ) | st.sampled_from(
        [{"how": "not known"}, {"how": "not known", "later": 1}, {"how": "disconnected", "seen_by": "A"}]
    )
    returns = st.sampled_from(["same", "not known", {"kind": "breaker", "breaker": 3}])
    return {"id": number, "part": draw(NAMES), "on": draw(on), "returns": draw(returns), **draw(UNKNOWN_FIELDS)}


@st.composite
def _box(draw: st.DrawFn, number: int) -> dict[str, Any]:
    devices = [
        {"id": number + 1 + 2 * slot, "slot": slot + 1, "kind": "switch", "feeds": [draw(_feed(number + 2 + 2 * slot))]}
        for slot in range(draw(st.integers(0, 2)))
    ]
    told = {"id": number, "mark": f"B{number}", "note": draw(NOTES), "gangs": 2, "devices": devices}
    where = {"level": 1, "at": draw(PLACES)} if draw(st.booleans()) else {}
    return {**told, **where, **draw(UNKNOWN_FIELDS)}


@st.composite
def _entry(draw: st.DrawFn, number: int) -> dict[str, Any]:
    entries: list[dict[str, Any]] = [
        {
            "kind": "round",
            "off": [3],
            "readings": [{"feed": 12, "says": "dead"}, {"feed": 99, "says": "live", "x": {}}],
        },
        {"kind": "traced", "feed": 12, "handle": 3, "passes": 2},
        {"kind": "opened", "box": 10, "cables": [{"enters": "top"}, {"feed": 12}]},
        {"kind": "change", "what": "rewired", "boxes": [10]},
        {"kind": "struck", "entry": 900},
        {"kind": "seen by a drone", "at": [1, 2.5], "who else": None},
    ]
    told = {"id": number, "date": draw(st.sampled_from(["", "2024-02-29", "2024-02-29T18:30"])), "who": draw(NAMES)}
    return {**told, **draw(st.sampled_from(entries)), **draw(UNKNOWN_FIELDS)}


@st.composite
def kept_homes(draw: st.DrawFn) -> Kept:
    """Return a sound home, whatever else it holds."""
    boxes = [draw(_box(FIRST_ID * (1 + place))) for place in range(draw(st.integers(0, 3)))]
    entries = [draw(_entry(900 + place)) for place in range(draw(st.integers(0, 3)))]
    bytes_of = draw(st.lists(st.binary(min_size=1, max_size=20), max_size=2, unique=True))
    pictures = {picture_hash(content)[: draw(st.integers(16, 64))]: content for content in bytes_of}
    home = {
        "format": draw(st.sampled_from(["floorplan-circuits 1.0", "floorplan-circuits 1.12"])),
        "name": draw(NAMES),
        "next_id": 1000,
        "levels": [{"id": 1, "name": draw(NAMES), **draw(UNKNOWN_FIELDS)}],
        "boxes": boxes,
        "panels": [{"id": 2, "name": draw(NAMES), "spaces": 4}],
        "breakers": [{"id": 3, "panel": 2, "poles": [{"space": 1, **draw(UNKNOWN_FIELDS)}], "found": {"state": "off"}}],
        "log": entries,
        "pictures": [{"hash": name, "media": "image/png", **draw(UNKNOWN_FIELDS)} for name in pictures],
        **draw(UNKNOWN_FIELDS),
    }
    return Kept(Home.model_validate(home, strict=False), pictures)
