"""Was the map wrong, or did the wiring change? What an edit touched of which the log has evidence that still counts."""

from collections.abc import Iterator
from typing import NamedTuple

from floorplan_circuits.home.boxes import Box, Control, NotKnown
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.log import ReceptacleTest, Round, Traced
from floorplan_circuits.home.power import Breaker, Panel
from floorplan_circuits.survey.log_book import LogBook
from floorplan_circuits.survey.witness import WORKED_BY_HAND


class Touched(NamedTuple):
    """The boxes and panels that are still there, whose evidence would expire if their wiring changed."""

    boxes: tuple[int, ...] = ()
    panels: tuple[int, ...] = ()


def touched_evidence(before: Home, after: Home) -> Touched:
    """Return what is wired otherwise in `after`, where something that was seen of it in `before` still counts.

    Names, places, notes, old labels and what was observed of a breaker are no wiring. A feed of which nobody had said
    what it hangs on was no map that could be wrong.
    """
    rewired = {box.id for box in after.boxes if _is_rewired(before.boxes.get(box.id), box)}
    breakers = [breaker for breaker in before.breakers if _is_replaced(breaker, after.breakers.get(breaker.id))]
    panels = [panel for panel in after.panels if _is_refed(before.panels.get(panel.id), panel)]
    groups = _regrouped(before, after)
    if not rewired and not breakers and not panels and not groups:
        return Touched()
    seen = _Evidence(before)
    leaned_on = {number for group in groups for number in seen.leaning(group)}
    changed = dict.fromkeys(breaker.panel for breaker in breakers if seen.of_breaker(breaker))
    changed.update(dict.fromkeys(panel.id for panel in panels if seen.of_panel(panel.id)))
    return Touched(
        tuple(
            box.id
            for box in after.boxes
            if box.id in leaned_on or (box.id in rewired and seen.of_box(before.boxes[box.id], box))
        ),
        tuple(panel for panel in changed if panel in after.panels),
    )


# --- what is wired otherwise ----------------------------------------------------------------------------------------


def _is_rewired(was: Box | None, now: Box) -> bool:
    return was is not None and was is not now and bool(_otherwise(was, now) or _devices(was) != _devices(now))


def _otherwise(was: Box, now: Box) -> set[int]:
    """Return the feeds that came, went, or hang on something else than somebody had said."""
    old, new = ({feed.id: feed for feed in box.feeds()} for box in (was, now))
    changed = {
        number
        for number in old.keys() & new.keys()
        if (old[number].on, old[number].volts) != (new[number].on, new[number].volts)
        and not isinstance(old[number].on, NotKnown)
    }
    return changed | (old.keys() ^ new.keys())


def _devices(box: Box) -> dict[int, tuple[str, bool]]:
    return {device.id: (device.kind, device.planned) for device in box.devices}


def _is_replaced(was: Breaker, now: Breaker | None) -> bool:
    return was is not now and (now is None or _as_built(was) != _as_built(now))


def _as_built(breaker: Breaker) -> tuple[object, ...]:
    spaces = tuple((pole.space, pole.half) for pole in breaker.poles)
    return breaker.panel, spaces, breaker.amps, breaker.device, breaker.behind, breaker.tie


def _is_refed(was: Panel | None, now: Panel) -> bool:
    return was is not None and was is not now and (was.fed_by, was.mains) != (now.fed_by, now.mains)


def _regrouped(before: Home, after: Home) -> list[Control]:
    """Return the groups of switches that were recorded and are otherwise now, and new ones that lend evidence at once.

    A light more in a group is a map that was not finished, as is a group that nobody had drawn; but where it is said
    that a hand alone works it, what was read before it was drawn would count for its switches from now on.
    """
    if before.controls is after.controls:
        return []
    pairs = ((was, after.controls.get(was.id)) for was in before.controls)
    changed = [was for was, now in pairs if now is None or (now is not was and _is_regrouped(was, now))]
    return changed + [now for now in after.controls if now.id not in before.controls and now.by in WORKED_BY_HAND]


def _is_regrouped(was: Control, now: Control) -> bool:
    return set(was.switches) != set(now.switches) or not set(was.feeds) <= set(now.feeds) or was.by != now.by


# --- what was seen --------------------------------------------------------------------------------------------------


class _Evidence:
    """What the log of a home has that still counts: not struck, and later than the last change of what it is about."""

    def __init__(self, home: Home) -> None:
        self._home, self._book = home, LogBook(home)
        self._of_handle = dict(self._handles())
        self._of_device = {entry.device: at for at, entry in self._book.entries if isinstance(entry, ReceptacleTest)}

    def _handles(self) -> Iterator[tuple[int, int]]:
        """Yield every handle that an entry names, with the entry's place."""
        for place, entry in self._book.entries:
            if isinstance(entry, Round):
                yield from ((handle, place) for handle in entry.off)
            elif isinstance(entry, Traced):
                yield entry.handle, place

    def of_box(self, was: Box, now: Box) -> bool:
        """Tell whether anything seen of what changed in a box still counts."""
        lapsed = max(self._book.changed_boxes.get(was.id, -1), self._book.changed_anything)
        feeds, devices = _otherwise(was, now), _devices(now)
        replaced = [one for one in was.devices if _devices(was)[one.id] != devices.get(one.id)]
        feeds |= {feed.id for device in replaced for feed in device.feeds}
        if any(place > lapsed for feed in feeds for place in self._places(feed)):
            return True
        if any(self._of_device.get(device.id, -1) > lapsed for device in replaced):
            return True
        gone_or_new = {feed.id for feed in was.feeds()} ^ {feed.id for feed in now.feeds()}
        return bool(gone_or_new) and self._book.opened_since_change(was.id)

    def leaning(self, group: Control) -> Iterator[int]:
        """Yield the boxes whose evidence leans on a group: what it works, or its switches, was read and still counts.

        A lamp that a group works bears witness for its switches; what a timer may put out, for nothing.
        """
        switches, feeds = set(group.switches), set(group.feeds)
        for box in self._home.boxes:
            here = {feed.id for feed in box.feeds() if feed.id in feeds}
            here |= {feed.id for device in box.devices if device.id in switches for feed in device.feeds}
            lapsed = max(self._book.changed_boxes.get(box.id, -1), self._book.changed_anything)
            if any(place > lapsed for feed in here for place in self._places(feed)):
                yield box.id

    def _places(self, feed: int) -> Iterator[int]:
        yield from (seen.place for seen in self._book.readings.get(feed, ()))
        yield from (place for place, _ in self._book.traces.get(feed, ()))

    def of_breaker(self, breaker: Breaker) -> bool:
        """Tell whether a round or trace that names the breaker still counts."""
        return self._of_handle.get(breaker.id, -1) > self._book.panel_change(breaker.panel)

    def of_panel(self, panel: int) -> bool:
        """Tell whether a round or trace that names any breaker of the panel still counts."""
        return any(self.of_breaker(breaker) for breaker in self._home.breakers if breaker.panel == panel)
