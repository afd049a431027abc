"""What can have been seen: which handles a hand turned off, and which feeds and devices are there to be read."""

from collections.abc import Iterable

from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.home.boxes import Device
from floorplan_circuits.home.home import FeedPlace, Home, feeds, mains
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.supply.handles import may_move_along, moves_together
from floorplan_circuits.supply.numbering import marks
from floorplan_circuits.survey.log_book import LogBook
from floorplan_circuits.survey.troubles import keep_off


def found_off(home: Home) -> frozenset[int]:
    """Return the breakers that were off or tripped before anybody touched them."""
    return frozenset(breaker.id for breaker in home.breakers if breaker.found.is_off)


def handle_called(home: Home, handle: int) -> str:
    """Return a breaker's or main's number as on the panel. Raises `Refused` if it is gone."""
    if handle not in home.breakers and all(main.id != handle for _, main in mains(home)):
        raise Refused("That breaker is not there any more.")
    return marks(home)[handle]


def turned_off(home: Home, handles: Iterable[int]) -> frozenset[int]:
    """Return all that the hand opened: these handles and those that a factory-made tie moves along.

    Raises `Refused` for a handle that is gone, and for one that may never be turned off and was not found so.
    """
    together, along = moves_together(home), may_move_along(home)
    moved = frozenset(one for handle in handles for one in together.get(handle, frozenset({handle})))
    resting = found_off(home)
    for handle in sorted(moved.union(*(along.get(one, frozenset()) for one in moved))):
        called = handle_called(home, handle)
        breaker = home.breakers.get(handle)
        if breaker is not None and breaker.may_open.may == "never" and handle not in resting:
            because = " · ".join(part for part in (breaker.may_open.why, breaker.may_open.whose) if part)
            raise Refused(f"Breaker {called} must never be turned off{f': {because}' if because else ''}. Leave it on.")
    return moved


def feed_there(home: Home, feed: int) -> FeedPlace:
    """Return a feed with its box and device, built or only planned. Raises `Refused` if it is gone."""
    place = next((place for place in feeds(home) if place.feed.id == feed), None)
    if place is None:
        raise Refused("That feed is not there any more.")
    return place


def place_of_feed(home: Home, feed: int) -> FeedPlace:
    """Return a feed with its box and device. Raises `Refused` if it is gone or not built yet."""
    place = feed_there(home, feed)
    if place.device is not None:
        _built(place.device, place.box.mark)
    return place


def device_there(home: Home, device: int) -> tuple[str, Device]:
    """Return a device and the mark of its box. Raises `Refused` if it is gone or not built yet."""
    for box in home.boxes:
        for one in box.devices:
            if one.id == device:
                return box.mark, _built(one, box.mark)
    raise Refused("That device is not there any more.")


def _built(device: Device, mark: str) -> Device:
    if device.planned:
        raise Refused(f"In {mark}, the {kind_named(device.kind).label.lower()} is only planned: nothing to test there.")
    return device


def may_turn_off(home: Home, breaker: int) -> None:
    """Raise `Refused` for a breaker not to be turned off for a test: found off, never to be opened, or in trouble."""
    called = handle_called(home, breaker)
    if breaker in found_off(home):
        raise Refused(f"Breaker {called} was found {_found(home, breaker)}. Leave it as it is: it shows nothing.")
    for moved in sorted(turned_off(home, [breaker])):
        why = keep_off(home, LogBook(home)).get(moved)
        if why:
            raise Refused(f"Breaker {handle_called(home, moved)} {why}. Keep off it, and call an electrician.")


def refuse_found_off(home: Home, handle: int) -> None:
    """Raise `Refused` for a handle that was found off: turning it off tests nothing."""
    if handle in found_off(home):
        called = handle_called(home, handle)
        raise Refused(
            f"Breaker {called} was found {_found(home, handle)}: what is dead while it is off was dead before."
        )


def _found(home: Home, breaker: int) -> str:
    found = home.breakers[breaker].found
    return f"{found.state}{f' ({found.why})' if found.why else ''}"
