"""What is stated of one box and what is in it, beyond where it hangs on the plan: its wires, its loads, its feeds.

Seldom said, but a shut-off leans on it: what minds going off, what hangs behind a ground-fault device, which neutral a
feed returns by. One feed is told at a time.
"""

from collections import Counter
from collections.abc import Callable, Mapping
from datetime import date
from typing import get_args

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication, QFormLayout

from floorplan_circuits.desktop.fields import Choice, load_typed, rating_typed
from floorplan_circuits.desktop.form_page import FormPage
from floorplan_circuits.desktop.keeping_focus import focus_place, focused_place
from floorplan_circuits.desktop.session import Session
from floorplan_circuits.edits.boxes import set_box, set_device
from floorplan_circuits.edits.edited import Edited
from floorplan_circuits.edits.hanging import (
    also_on,
    guards,
    hang,
    hang_elsewhere,
    hanging,
    in_series,
    live_if,
    set_feed,
    ways_to_hang,
)
from floorplan_circuits.edits.recording import press_test_button
from floorplan_circuits.exchange.device_list import hung_in_words
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.boxes import Behind, Box, Device, Feed, FromBreaker, FromElsewhere, Mount, Supplied, Wiring
from floorplan_circuits.home.called import called_there, feed_called
from floorplan_circuits.home.home import FeedPlace, Home, feeds
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.home.ways import way_named, ways

WAIT_MS = 150
INTRO = "What somebody saw, or an electrician said. “Not known” is an answer: then it counts as live."
MINDS = {
    "no": "",
    "medical equipment": "medical equipment",
    "an alarm": "alarm",
    "a pump": "pump",
    "a freezer or fridge": "freezer",
    "heating": "heating",
    "network, computers": "network",
    "an aquarium": "aquarium",
    "a lock or gate": "lock",
    "something else": "other",
}
"""What minds going off, as the form says it, and the householder's word that the shut-off knows it by."""
HOURS = {"no, or not known": False, "3 hours or more": True}
GROUNDS = ("not known", "present", "absent")
VOLTS = {"mains": "mains", "low, by a transformer": "low", "not known": "not known"}
WORKS = {"any of them is on: a loop": "any", "all are on: across them": "all"}


class BoxFacts(FormPage):
    """The rows of one box. Filled anew whenever what they tell changes."""

    def __init__(self) -> None:
        super().__init__()
        self._box: int | None = None
        self._feed: int | None = None

    def show_box(self, session: Session, findings: Findings, box: Box) -> None:
        """Tell of a box; what would say the same stays, with what is being typed in it."""
        places = [place for place in feeds(session.home) if place.box.id == box.id]
        if self._feed not in [place.feed.id for place in places]:
            self._feed = places[0].feed.id if places else None
        told = (box, self._feed, session.home.sources, dict(findings.marks), guards(session.home))
        if session is self._session and told == self._told:
            return
        if QApplication.activePopupWidget() is not None:  # a list is open over the form: wait until it was chosen from
            QTimer.singleShot(WAIT_MS, self, lambda: self.show_box(session, findings, box))
            return
        place = focused_place(self) if box.id == self._box else None
        self._session, self._told, self._box = session, told, box.id
        self._clear()
        self._fill(box, places, findings)
        focus_place(self, place)

    def _fill(self, box: Box, places: list[FeedPlace], findings: Findings) -> None:
        self._words("What is known of it", "section")
        self._words(INTRO)
        form = self._form()
        self._pick(form, "Wires", _same(get_args(Wiring)), box.wiring, _of_box(box, "wiring"))
        self._pick(form, "Mounted", _same(get_args(Mount)), box.mount, _of_box(box, "mount"))
        if len(places) > 1:
            self._which(form, places, findings, box)
        for place in places:
            if place.feed.id == self._feed:
                if place.device is not None:
                    self._device_rows(form, place.device)
                self._feed_rows(form, place, findings)

    def _which(self, form: QFormLayout, places: list[FeedPlace], findings: Findings, box: Box) -> None:
        """Offer the feeds of the box: the rows that follow are about the one chosen."""
        names = _told_apart(places)
        now = next(words for words, feed in names.items() if feed == self._feed)
        field = Choice("Tell of", names, now, narrow=True)

        def chosen(words: str) -> None:
            self._feed = names[words]
            if self._session is not None:
                self.show_box(self._session, findings, box)

        field.textActivated.connect(chosen)
        form.addRow("Tell of", field)

    # --- a device ---------------------------------------------------------------------------------------------------

    def _device_rows(self, form: QFormLayout, device: Device) -> None:
        if kind_named(device.kind).group != "switch":
            own = {} if device.critical in MINDS.values() else {device.critical: device.critical}
            self._pick(form, "Minds going off", {**MINDS, **own}, device.critical, _of_device(device, "critical"))
            load = "" if device.va is None else str(device.va)
            self._line(form, "Load", load, _typed(device, "va", load_typed), "VA, as stamped")
            self._pick(form, "Runs long", HOURS, device.continuous, _of_device(device, "continuous"))
        if kind_named(device.kind).group == "receptacle":
            rated = "" if device.rated is None else str(device.rated)
            self._line(form, "Stamped", rated, _typed(device, "rated", rating_typed), "amps")
        self._pick(form, "Ground", _same(GROUNDS), device.ground, _of_device(device, "ground"))

    # --- a feed -----------------------------------------------------------------------------------------------------

    def _feed_rows(self, form: QFormLayout, place: FeedPlace, findings: Findings) -> None:
        assert self._session is not None
        home, feed = self._session.home, place.feed
        breakers = {mark: one for one, mark in findings.marks.items() if one in home.breakers}
        now = hanging(feed.on)
        ways = dict(ways_to_hang(home, feed.id, findings.marks))
        if now not in ways.values():
            ways = {hung_in_words(place, findings.marks): now, **ways}
        day = date.today().isoformat()
        self._pick(form, "Hangs on", ways, now, lambda way: lambda one: hang(one, feed.id, way, date=day))
        if isinstance(feed.on, Supplied):
            self._several(form, feed, feed.on, breakers)
        neutral: dict[str, object] = {"not known": "not known", "its own breaker’s": "same"}
        neutral |= {f"that of {mark}": FromBreaker(kind="breaker", breaker=one) for mark, one in breakers.items()}
        self._pick(form, "Neutral", neutral, feed.returns, _of_feed(feed, "returns"))
        self._pick(form, "Volts", VOLTS, feed.volts, _of_feed(feed, "volts"))
        if isinstance(feed.on, Behind):
            self._button_rows(feed.id, feed.on.feed, home)

    def _several(self, form: QFormLayout, feed: Feed, on: Supplied, breakers: Mapping[str, int]) -> None:
        """Offer a further breaker, and say what several of them mean together."""
        more = {"no other": None, **breakers}
        self._pick(form, "And on", more, None, lambda breaker: lambda home: also_on(home, feed.id, breaker))
        if len(on.supplies) > 1:
            self._pick(
                form, "Works if", WORKS, on.how, lambda how: lambda home: live_if(home, feed.id, how), above=True
            )
        elsewhere = [one for one in on.supplies if isinstance(one, FromElsewhere)]
        if elsewhere:
            where = lambda words: lambda home: hang_elsewhere(home, feed.id, words)  # noqa: E731  # one row, one edit
            self._line(form, "From where", elsewhere[0].where, where, "the house service")

    def _button_rows(self, feed: int, guard: int, home: Home) -> None:
        """Ask whether the test button of the device before it was seen to put it out: only that shows it."""
        device = next((place for place in feeds(home) if place.feed.id == guard), None)
        if device is None or in_series(device) != "ground fault":
            return
        strong = {one.label: one.name for one in ways().values() if one.is_strong}
        form = self._form()
        with_what = Choice("Seen with", strong, way_named("lamp plugged in").label, narrow=True)
        form.addRow("Seen with", with_what)

        def record() -> None:
            method = strong[with_what.currentText()]
            self._attempt(lambda now: press_test_button(now, guard, feed, method=method, date=date.today().isoformat()))

        self._words(f"Press the test button of {feed_called(device)}: did this go dead, and come back with its reset?")
        self._button("It went dead and came back", record)


# --- what choosing does ---------------------------------------------------------------------------------------------


def _of_box(box: Box, field: str) -> Callable[[object], Callable[[Home], Edited]]:
    return lambda value: lambda home: set_box(home, box.id, **{field: value})


def _of_device(device: Device, field: str) -> Callable[[object], Callable[[Home], Edited]]:
    return lambda value: lambda home: set_device(home, device.id, **{field: value})


def _of_feed(feed: Feed, field: str) -> Callable[[object], Callable[[Home], Edited]]:
    return lambda value: lambda home: set_feed(home, feed.id, **{field: value})


def _typed(device: Device, field: str, read: Callable[[str], int | None]) -> Callable[[str], Callable[[Home], Edited]]:
    return lambda words: lambda home: set_device(home, device.id, **{field: read(words)})


def _same(words: tuple[str, ...]) -> dict[str, str]:
    return {one: one for one in words}


def _told_apart(places: list[FeedPlace]) -> dict[str, int]:
    """Return the feeds by what they are called there; those called alike, such as cables that pass, are counted."""
    called = [f"{_slot(place)}{called_there(place)}" for place in places]
    counts = Counter(called)
    seen = Counter[str]()
    found: dict[str, int] = {}
    for words, place in zip(called, places, strict=True):
        seen[words] += 1
        found[f"{words}, {seen[words]} of {counts[words]}" if counts[words] > 1 else words] = place.feed.id
    return found


def _slot(place: FeedPlace) -> str:
    return f"{place.device.slot}: " if place.device is not None and len(place.box.devices) > 1 else ""
