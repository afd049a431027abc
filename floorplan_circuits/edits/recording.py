"""Recording what was seen: each verb adds to the end of the log, and only what somebody says they saw."""

from collections.abc import Iterable, Sequence
from typing import Literal

from floorplan_circuits.edits.edited import Edited, Refused, counted, edit, there
from floorplan_circuits.edits.logged import Fields, logged, reason, told
from floorplan_circuits.edits.seen import (
    device_there,
    found_off,
    handle_called,
    place_of_feed,
    refuse_found_off,
    turned_off,
)
from floorplan_circuits.home.called import feed_called
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import ids as kinds_by_id
from floorplan_circuits.home.kinds import catalogue
from floorplan_circuits.home.log import (
    Cable,
    Change,
    Dismissed,
    Opened,
    Reading,
    ReceptacleTest,
    Round,
    Struck,
    Tester,
    Traced,
    Trouble,
)
from floorplan_circuits.survey.log_book import LogBook

CAN_BE_ABOUT = ("box", "device", "feed", "breaker", "panel", "source")
Aged = Literal["bought house", "an electrician was here"]
AGED_BY: dict[Aged, str] = {
    "bought house": "The house changed hands",
    "an electrician was here": "An electrician was here",
}


# --- rounds ---------------------------------------------------------------------------------------------------------


@edit
def record_round(
    home: Home,
    off: Iterable[int],
    readings: Sequence[tuple[int, str]],
    *,
    method: str,
    tester_before: bool,
    tester_after: bool,
    each_hot: bool = False,
    pressed: Sequence[int] = (),
    helper: str = "",
    date: str,
    who: str = "",
    note: str = "",
) -> Edited:
    """Record what feeds showed (dead, live or unclear) while these handles were turned off.

    What was found off and what a factory-made tie moves along is off too and goes into the entry. `each_hot`: every
    hot was shown against ground or another proved reference. `pressed`: feeds of ground-fault devices that their own
    test buttons had tripped meanwhile. Raises `Refused` where nothing was read, for what is gone
    or only planned, and for a handle that may never be turned off.
    """
    moved = turned_off(home, off)
    fields = {
        "kind": "round",
        "method": method,
        "tester": Tester(before=tester_before, after=tester_after),
        "helper": " ".join(helper.split()),
        "pressed": tuple(place_of_feed(home, one).feed.id for one in pressed),
        "readings": _readings(home, readings, each_hot),
        **told(date, who, note),
    }
    full = {"off": tuple(sorted(moved | found_off(home)))}
    return logged(home, f"Record {counted(len(readings), 'reading')}{_with(home, moved)}", Round, fields | full)


def _readings(home: Home, readings: Sequence[tuple[int, str]], each_hot: bool) -> tuple[Reading, ...]:
    if not readings:
        raise Refused("Nothing was read: say of at least one feed whether it was dead, live or unclear.")
    said: dict[int, str] = {}
    for feed, says in readings:
        place = place_of_feed(home, feed)
        if said.setdefault(feed, says) != says:
            raise Refused(f"{feed_called(place)} can't be both {said[feed]} and {says} at once. Read it again.")
    return tuple(
        Reading.model_validate({"feed": feed, "says": says, "each_hot": each_hot}) for feed, says in said.items()
    )


def _with(home: Home, moved: frozenset[int]) -> str:
    called = [handle_called(home, handle) for handle in sorted(moved)]
    return f" with {', '.join(called)} off" if called else " with all as usual"


@edit
def single_test(
    home: Home,
    handle: int,
    feed: int,
    says: str,
    *,
    method: str,
    live_before: bool = False,
    live_again: bool = False,
    tester_before: bool = False,
    tester_after: bool = False,
    each_hot: bool = False,
    helper: str = "",
    date: str,
    who: str = "",
    note: str = "",
) -> Edited:
    """Record what one feed showed with one handle turned off, and what was seen of it before and after.

    `live_before` and `live_again` add a reading of live with all as usual, only where somebody saw that: up to three
    rounds. Raises `Refused` as `record_round` does, and for a handle that was found off: turning it off is no test.
    """
    place = place_of_feed(home, feed)
    called = handle_called(home, handle)
    refuse_found_off(home, handle)
    common: Fields = {"method": method, "tester_before": tester_before, "tester_after": tester_after}
    common |= {"each_hot": each_hot, "helper": helper, "date": date, "who": who, "note": note}
    usual: tuple[tuple[int, ...], str] = ((), "live")
    after, made = home, list[int]()
    for off, shown in (*[usual] * live_before, ((handle,), says), *[usual] * live_again):
        edited = record_round(after, off, [(feed, shown)], **common)
        after = edited.home
        made.extend(edited.made)
    return Edited(after, f"Record {feed_called(place)}: {says} with {called} off", tuple(made))


@edit
def press_test_button(
    home: Home, guard: int, feed: int, *, method: str, date: str, who: str = "", note: str = ""
) -> Edited:
    """Record that a feed went dead when the test button of a ground-fault device was pressed, and came back reset.

    `guard`: the feed of that device. Three rounds with nothing turned off: live, dead with the button pressed, live.
    """
    place, device = place_of_feed(home, feed), place_of_feed(home, guard)
    if guard == feed:
        raise Refused("A ground-fault device is not behind itself: choose what went dead with it.")
    after, made = home, list[int]()
    for pressed, says in (((), "live"), ((guard,), "dead"), ((), "live")):
        common: Fields = {"method": method, "tester_before": False, "tester_after": False}
        common |= {"pressed": pressed, "date": date, "who": who, "note": note}
        edited = record_round(after, (), [(feed, says)], **common)
        after = edited.home
        made.extend(edited.made)
    return Edited(
        after, f"Record {feed_called(place)}: dead with the test button of {feed_called(device)}", tuple(made)
    )


# --- other things seen ----------------------------------------------------------------------------------------------


@edit
def record_traced(
    home: Home,
    feed: int,
    handle: int,
    *,
    way: str = "signal tracer",
    passes: int = 1,
    adapter: str = "",
    date: str,
    who: str = "",
    note: str = "",
) -> Edited:
    """Record that a tracer pointed from a feed to a handle, or that somebody followed the whole cable by eye."""
    place, called = place_of_feed(home, feed), handle_called(home, handle)
    seen = {"kind": "traced", "feed": feed, "handle": handle, "way": way, "passes": passes, "adapter": adapter.strip()}
    return logged(home, f"Record a trace from {feed_called(place)} to {called}", Traced, seen | told(date, who, note))


@edit
def record_opened(
    home: Home, box: int, cables: Sequence[tuple[str, int | None]], *, date: str, who: str = "", note: str = ""
) -> Edited:
    """Record that somebody looked in a box: every cable, where it enters, and the feed it is or None for not known.

    A cable may be the other end of a feed that the map has in another box.
    """
    found = there(home.boxes, box, "box")
    for _, feed in cables:
        if feed is not None:
            place_of_feed(home, feed)
    seen = tuple(Cable(enters=" ".join(enters.split()), feed=feed) for enters, feed in cables)
    fields = {"kind": "opened", "box": box, "cables": seen, **told(date, who, note)}
    return logged(home, f"Record what was seen in {found.mark}: {counted(len(seen), 'cable')}", Opened, fields)


@edit
def record_receptacle_test(home: Home, device: int, shows: str, *, date: str, who: str = "", note: str = "") -> Edited:
    """Record what a plug-in receptacle tester showed. Raises `Refused` for what such a tester can't be plugged into."""
    mark, found = device_there(home, device)
    kind = catalogue().get(found.kind)
    if kind is not None and (kind.group != "receptacle" or kind.hots > 1):
        raise Refused(f"A receptacle tester plugs into a receptacle; in {mark} that is a {kind.label.lower()}.")
    fields = {"kind": "tester", "device": device, "shows": shows, **told(date, who, note)}
    return logged(home, f"Record a receptacle tester in {mark}: {shows}", ReceptacleTest, fields)


@edit
def record_trouble(home: Home, handle: int, what: str, *, date: str, who: str = "", note: str = "") -> Edited:
    """Record that a breaker or main can't be relied on: it did not open, runs hot, will not reset."""
    called = handle_called(home, handle)
    fields = {"kind": "trouble", "handle": handle, "what": what, **told(date, who, note)}
    return logged(home, f"Record trouble with {called}: {what}", Trouble, fields)


# --- changes, and what counts no more --------------------------------------------------------------------------------


@edit
def record_change(
    home: Home,
    boxes: Iterable[int],
    panels: Iterable[int],
    what: str,
    *,
    date: str,
    who: str = "",
    note: str = "",
) -> Edited:
    """Record that the wiring of boxes or the work in panels changed: what was tested there before expires."""
    touched = {"boxes": tuple(dict.fromkeys(boxes)), "panels": tuple(dict.fromkeys(panels))}
    called = [there(home.boxes, box, "box").mark for box in touched["boxes"]]
    called += [there(home.panels, panel, "panel").name for panel in touched["panels"]]
    if not called:
        raise Refused("Say which boxes or panels changed.")
    fields = {"kind": "change", "what": what, **touched, **told(date, who, note)}
    return logged(home, f"Record a change of {', '.join(called)}", Change, fields)


@edit
def age_everything(home: Home, why: Aged, *, date: str, who: str = "", note: str = "") -> Edited:
    """Record that anything may have been touched: all that was tested before expires until it is tested again.

    The entry names no box and no panel, which means any of them.
    """
    fields = {"kind": "change", "what": "unknown work", **told(date, who, f"{AGED_BY[why]}. {note.strip()}")}
    return logged(home, f"{AGED_BY[why]}: all tests before that expire", Change, fields)


@edit
def strike(home: Home, entry: int, why: str, *, date: str, who: str = "", note: str = "") -> Edited:
    """Say that an earlier entry was a mistake and counts no more; struck itself, it lets what it struck count again.

    Raises `Refused` for an entry that is not there or struck already, and without a reason.
    """
    if all(one.id != entry for one in home.log):
        raise Refused("That entry is not in the log.")
    if all(one.id != entry for _, one in LogBook(home).entries):
        raise Refused("That entry is struck already.")
    fields = {"kind": "struck", "entry": entry, "why": reason(why), **told(date, who, note)}
    return logged(home, f"Strike an entry: {reason(why)}", Struck, fields)


@edit
def dismiss(
    home: Home, hazard: str, about: Iterable[int], why: str, *, date: str, who: str = "", note: str = ""
) -> Edited:
    """Set a hazard aside, with a reason that prints. `about` are the things it is about; raises `Refused` for none."""
    things, kinds = tuple(dict.fromkeys(about)), kinds_by_id(home)
    if not things or any(kinds.get(thing) not in CAN_BE_ABOUT for thing in things):
        raise Refused("What that danger is about is not there any more.")
    if not hazard.strip():
        raise Refused("Say which danger is set aside.")
    fields = {"kind": "dismissed", "hazard": hazard, "about": things, "why": reason(why), **told(date, who, note)}
    return logged(home, f"Set aside: {hazard}", Dismissed, fields)
