"""Wild logs: entries of every kind, some about things that are gone, some that only a newer program understands."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import get_args

from hypothesis import strategies as st

from floorplan_circuits.home.log import Method
from tests.homes_wild_words import Draw, Fields, Ids, dates, names, notes, some

GONE = 2**40
"""An id that names nothing any more: the log outlives the thing."""


@dataclass(frozen=True, slots=True)
class Named:
    """The ids that a log entry or a reference can name, by what they are."""

    boxes: tuple[int, ...]
    panels: tuple[int, ...]
    breakers: tuple[int, ...]
    handles: tuple[int, ...]
    feeds: tuple[int, ...]
    devices: tuple[int, ...]

    @classmethod
    def of(
        cls,
        boxes: Iterable[Fields],
        panels: Sequence[Fields],
        breakers: Iterable[Fields],
        feeds: Iterable[int],
        devices: Iterable[int],
    ) -> "Named":
        """Gather the ids."""
        mains = [main["id"] for panel in panels for main in panel["mains"]]
        on_panels = tuple(breaker["id"] for breaker in breakers)
        of_boxes, of_panels = tuple(box["id"] for box in boxes), tuple(panel["id"] for panel in panels)
        return cls(of_boxes, of_panels, on_panels, (*on_panels, *mains), tuple(feeds), tuple(devices))


def draw_log(draw: Draw, ids: Ids, named: Named) -> tuple[Fields, ...]:
    """Draw up to eight entries, the earlier ones open to be struck by the later."""
    log: list[Fields] = []
    for _ in range(draw(st.integers(0, 8))):
        kind = draw(st.sampled_from(tuple(KINDS)))
        head = {"id": next(ids), "kind": kind, "date": draw(dates), "who": draw(names), "note": draw(notes)}
        log.append(head | KINDS[kind](draw, named, [entry["id"] for entry in log]))
    return tuple(log)


def _one(draw: Draw, things: Sequence[int]) -> int:
    return draw(st.sampled_from((GONE, *things)))


def _round(draw: Draw, named: Named, _: Sequence[int]) -> Fields:
    feeds = draw(st.lists(st.sampled_from((GONE, *named.feeds)), max_size=6, unique=True))
    says = st.sampled_from(("dead", "live", "unclear"))
    return {
        "off": tuple(some(draw, named.handles)),
        "method": draw(st.sampled_from(get_args(Method))),
        "tester": {"before": draw(st.booleans()), "after": draw(st.booleans())},
        "readings": tuple({"feed": feed, "says": draw(says), "each_hot": draw(st.booleans())} for feed in feeds),
    }


def _traced(draw: Draw, named: Named, _: Sequence[int]) -> Fields:
    return {"feed": _one(draw, named.feeds), "handle": _one(draw, named.handles), "passes": draw(st.integers(1, 9))}


def _opened(draw: Draw, named: Named, _: Sequence[int]) -> Fields:
    cables = draw(st.lists(st.sampled_from((None, GONE, *named.feeds)), max_size=4))
    return {
        "box": _one(draw, named.boxes),
        "cables": tuple({"enters": draw(names), "feed": feed} for feed in cables),
    }


def _tester(draw: Draw, named: Named, _: Sequence[int]) -> Fields:
    shows = ("correct", "open ground", "open neutral", "open hot or dead", "hot and neutral reversed", "other")
    return {"device": _one(draw, named.devices), "shows": draw(st.sampled_from(shows))}


def _trouble(draw: Draw, named: Named, _: Sequence[int]) -> Fields:
    what = ("did not open", "will not reset", "runs hot", "buzzes", "loose", "other")
    return {"handle": _one(draw, named.handles), "what": draw(st.sampled_from(what))}


def _change(draw: Draw, named: Named, _: Sequence[int]) -> Fields:
    return {
        "what": draw(st.sampled_from(("rewired", "panel work", "plates mixed up", "unknown work"))),
        "boxes": tuple(some(draw, named.boxes)),
        "panels": tuple(some(draw, named.panels)),
    }


def _struck(draw: Draw, _: Named, earlier: Sequence[int]) -> Fields:
    return {"entry": _one(draw, earlier), "why": draw(names)}


def _dismissed(draw: Draw, named: Named, _: Sequence[int]) -> Fields:
    about = some(draw, (GONE, *named.boxes, *named.breakers))
    return {"hazard": draw(st.sampled_from(("shared box", "unknown"))), "about": tuple(about), "why": draw(names)}


def _newer(draw: Draw, named: Named, _: Sequence[int]) -> Fields:
    return {"speaks_of": [_one(draw, (*named.boxes, *named.feeds, *named.breakers))]}


KINDS: dict[str, Callable[[Draw, Named, Sequence[int]], Fields]] = {
    "round": _round,
    "traced": _traced,
    "opened": _opened,
    "tester": _tester,
    "trouble": _trouble,
    "change": _change,
    "struck": _struck,
    "dismissed": _dismissed,
    "weighed": _newer,
}
