"""Why a handle is to be turned off, what is not known in the boxes, and what stays live, each in one sentence."""

from collections.abc import Iterable, Iterator, Mapping

from floorplan_circuits.findings import Conclusion
from floorplan_circuits.home.called import feed_called
from floorplan_circuits.home.home import FeedPlace, Home, mains
from floorplan_circuits.home.trade_words import words_of
from floorplan_circuits.shutoff.cut import Cut
from floorplan_circuits.shutoff.targets import Target
from floorplan_circuits.survey.telling import Telling

HOW = {
    "proved": "tested, on it",
    "traced": "traced to it",
    "suggested": "rounds suggest it",
    "claimed": "said to be on it",
    "expired": "was on it before a change",
    "contradicted": "tests disagree about it",
    "unknown": "may hang on it",
}
STARTS = {
    "always": "feeds power all the time",
    "by itself": "can start by itself",
    "by hand": "is started by hand",
    "not known": "may start, nobody knows how",
}


def why(
    one: Target, handles: Iterable[int], known: Mapping[int, Conclusion], places: Mapping[int, FeedPlace], tell: Telling
) -> str:
    """Return why a target asks for a handle: what it is, and how it is known to hang on it."""
    if one.feed is None:
        return f"shares a neutral with {tell.handle(one.sharing_with or 0)}"
    found = known[one.feed]
    if one.worked_with is not None:
        worked, here = (feed_called(places[feed]) for feed in (one.feed, one.worked_with))
        return f"{worked}: a switch works it together with {here}"
    named = found.standing == "unknown" or bool({*found.breakers} & {*handles})
    return f"{feed_called(places[one.feed])}: {HOW[found.standing] if named else 'behind it'}"


def unknown(
    cut_for: Iterable[Target], known: Mapping[int, Conclusion], places: Mapping[int, FeedPlace]
) -> Iterator[str]:
    """Yield what nobody knows in the boxes, and so is live until it is tested."""
    for one in cut_for:
        if one.feed is None or one.worked_with is not None:
            continue
        if known[one.feed].standing in ("unknown", "expired", "contradicted"):
            yield f"{feed_called(places[one.feed])}: {known[one.feed].says}"


def stays_live(
    home: Home, cut: Cut, places: Mapping[int, FeedPlace], barred: Mapping[int, str], tell: Telling
) -> Iterator[str]:
    """Yield what the handles don't make dead: the supply side, other sources, what no handle cuts, what to keep off."""
    panels = {main.id: panel for panel, main in mains(home)}
    for handle in sorted(cut.off & panels.keys()):
        panel = panels[handle]
        yield f"The wires above the {words_of(home, panel).main} of {panel.name} stay live with it off."
    for source in home.sources:
        if source.kind != "utility":
            disconnect = f" Its disconnect: {source.disconnect}." if source.disconnect else ""
            yield f"{source.name} {STARTS[source.starts]}.{disconnect}"
    for one in cut.uncut:
        what = feed_called(places[one.feed]) if one.feed is not None else f"circuit {tell.handle(one.node[1])}"
        yield f"{what}: no handle here makes it dead."
    for handle, because in sorted(barred.items()):
        yield f"{tell.handle(handle)} {because}: leave it as it is."
