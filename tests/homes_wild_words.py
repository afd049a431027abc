"""Small draws that all wild records share: names, dates, some of several things, fields from a newer program."""

from collections.abc import Iterator, Sequence
from typing import Any, TypeAlias, TypeVar

from hypothesis import strategies as st

Draw: TypeAlias = st.DrawFn
Fields: TypeAlias = dict[str, Any]
Ids: TypeAlias = Iterator[int]
Thing = TypeVar("Thing")

names = st.one_of(
    st.sampled_from(("", "Hall", "bth lts", "8B l1I 0O", "Küche · étage", "“quoted”", "a,b;c", "=1+1", "مطبخ")),
    st.text(st.characters(exclude_categories=("Cs", "Cc")), max_size=12),
)
notes = st.one_of(st.sampled_from(("", "two\nlines\tand a tab")), names)
dates = st.sampled_from(("", "2026-02-28", "2026-03-14T19:30", "2026-03-14 19:30:05"))


def maybe(draw: Draw, things: Sequence[Thing]) -> Thing | None:
    """Draw one of the things, or None."""
    return draw(st.sampled_from((None, *things)))


def some(draw: Draw, things: Sequence[Thing]) -> list[Thing]:
    """Draw up to three of the things, each once, in any order."""
    if not things:
        return []
    places = st.lists(st.integers(0, len(things) - 1), max_size=3, unique=True)
    return [things[place] for place in draw(places)]


def newer(draw: Draw) -> Fields:
    """Draw, now and then, a field that only a newer program knows."""
    return {"from_tomorrow": {"a": [1, None, "x"]}} if draw(st.integers(0, 9)) == 0 else {}
