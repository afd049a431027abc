"""What is selected, told in a form: names, what is in each gang, what it hangs on. Several at once where it can be."""

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QEvent, Qt, QTimer, Signal
from PySide6.QtWidgets import QApplication, QFormLayout, QHBoxLayout, QPushButton

from floorplan_circuits.desktop import box_fields as fields
from floorplan_circuits.desktop.building_form import BuildingForm, building_row, size_of
from floorplan_circuits.desktop.fields import Choice
from floorplan_circuits.desktop.form_page import FormPage, MakeEdit
from floorplan_circuits.desktop.keeping_focus import focus_place, focused_place
from floorplan_circuits.desktop.seen_section import SeenSection
from floorplan_circuits.desktop.session import Session
from floorplan_circuits.drawing.close_up_words import PLACE_GUESSED
from floorplan_circuits.edits.boxes import add_passing, join_halves, set_device, split_halves
from floorplan_circuits.edits.edited import Edited, counted
from floorplan_circuits.edits.names import USES, rename, set_use
from floorplan_circuits.edits.removal import remove
from floorplan_circuits.edits.switching import groups_of, set_group, switches_in_words, what_works
from floorplan_circuits.edits.ties import tie, untie
from floorplan_circuits.findings import Disagreement
from floorplan_circuits.home.boxes import Box, Device, Feed, FromBreaker, Supplied
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.kinds import catalogue, kind_named
from floorplan_circuits.log_in_words import box_history

WAIT_MS = 150
NOT_TIED = "not known"
TAKE_OUT, NO_CABLE = "– take it out", "– no such cable"
MORE, LESS = "more", "less"
TELL_MORE = "Loads, ground, neutral …"
HEIGHT_HINT = "above the floor"
REACH_HINT = "behind the oven"


class Inspector(FormPage):
    """The form under the tools. It is filled anew whenever the home or the selection changes."""

    filled = Signal()
    """It needs other room: it was filled anew, or laid out."""

    inside_wanted = Signal(int)
    """A box is to be shown with its plate off, where the rest is told of it."""

    only_seen = False
    """Whether it tells of a box only what was seen: while finding out, nothing else is edited."""

    def event(self, event: QEvent) -> bool:
        """Tell when what was filled in is laid out: only then is it known how high it is."""
        done = super().event(event)
        if event.type() == QEvent.Type.LayoutRequest:
            self.filled.emit()
        return done

    tells_all = False
    """Whether it tells of a box what is edited seldom too: it was asked for once."""

    @property
    def is_empty(self) -> bool:
        """Whether nothing is selected that it could tell about."""
        return self._column.count() == 0

    def show_selection(self, session: Session | None) -> None:
        """Fill the form for what is selected; one that would say the same stays, with what is being typed in it."""
        told = () if session is None else (*_told(session), self.only_seen)
        if session is self._session and told == self._told:
            return
        if QApplication.activePopupWidget() is not None:  # a list is open over the form: wait until it was chosen from
            QTimer.singleShot(WAIT_MS, self, lambda: self.show_selection(session))
            return
        place = focused_place(self) if session is self._session else None
        self._session, self._told = session, told
        self._clear()
        self._fill()
        focus_place(self, place)
        self.filled.emit()

    def _fill(self) -> None:
        session = self._session
        if session is None or not session.view.selected:
            return
        boxes = [session.home.boxes[one] for one in _boxes_selected(session)]
        rooms = [one.id for one in session.view.selected if one.kind == "room"]
        if len(boxes) == 1 and not rooms:
            self._box_form(boxes[0])
        elif len(rooms) == 1 and not boxes:
            self._room_form(rooms[0])
        elif boxes or rooms:
            self._many_form(boxes, rooms)
        elif (row := building_row(session.home, session.view.selected[0])) is not None:
            self._column.addWidget(BuildingForm(session, row))

    # --- pieces -----------------------------------------------------------------------------------------------------

    def _form(self) -> QFormLayout:
        form = super()._form()
        form.setLabelAlignment(Qt.AlignmentFlag.AlignLeft)
        return form

    def _choice(
        self,
        form: QFormLayout,
        label: str,
        choices: list[str],
        now: str,
        make: MakeEdit,
    ) -> None:
        field = Choice(label, choices, now, narrow=True)
        field.setToolTip(now)
        field.textActivated.connect(lambda words: self._attempt(make(words)) if words != now else None)
        form.addRow(label, field)

    # --- forms ------------------------------------------------------------------------------------------------------

    def _room_form(self, room: int) -> None:
        assert self._session is not None
        found = self._session.home.rooms[room]
        self._words(found.name or "Room", "section")
        self._words(size_of(found, self._session.home.units, self._session.home.wall))
        form = self._form()
        self._line(form, "Name", found.name, lambda words: lambda home: rename(home, "room", room, words))
        self._choice(form, "Use", _uses(found.use), found.use, lambda words: lambda home: set_use(home, [room], words))

    def _box_form(self, box: Box) -> None:
        self._box_head(box)
        if box.placed == "guessed":
            self._words(PLACE_GUESSED)
        if not self.only_seen:
            self._box_rows(box)
        assert self._session is not None
        for words in _told_here(self._session, box.id):
            self._words(words)
        clashes = _clashes(self._session, [box.id])
        history = box_history(self._session.home, box.id)
        self._column.addWidget(SeenSection("What was seen", history, clashes, self._attempt, self.filled.emit))

    def _box_head(self, box: Box) -> None:
        """Name the box; beside its name stands what tells more of it, so that this takes no row."""
        title = self._words(f"Box {box.mark}", "section")
        if self.only_seen:
            return
        more = QPushButton(LESS if self.tells_all else MORE)
        more.setObjectName("quiet")
        more.setAccessibleName("Fewer rows" if self.tells_all else "Height, place, loads and switching of the box")
        more.setToolTip(more.accessibleName())
        more.clicked.connect(lambda _checked=False: self._tell_all())
        beside = QHBoxLayout(title)
        beside.setContentsMargins(0, 0, 0, 0)
        beside.addStretch(1)
        beside.addWidget(more)

    def _box_rows(self, box: Box) -> None:
        form = self._form()
        for device in sorted(box.devices, key=lambda one: one.slot):
            self._device_rows(form, device, len(box.devices) > 1)
        for feed in box.passing:
            self._feed_row(form, "Passing", feed, may_go=True)
        self._line(form, "Reach", box.reach, fields.make_reach([box.id]), REACH_HINT)
        for device in box.devices:
            self._halves_button(device)
        self._button("A cable passes through", lambda: self._attempt(lambda home: add_passing(home, box.id)))
        if self.tells_all:
            self._common_rows(self._form(), [box])
            self._button(TELL_MORE, lambda: self.inside_wanted.emit(box.id))
            self._switching_rows(box)

    def _tell_all(self) -> None:
        """Tell from now on what is edited seldom too, or no longer."""
        self.tells_all, self._told = not self.tells_all, ()
        self.show_selection(self._session)

    def _common_rows(self, form: QFormLayout, boxes: list[Box]) -> None:
        """Add the rows that are the same for one box and for many."""
        assert self._session is not None
        ids = [box.id for box in boxes]
        if any(box.devices for box in boxes):
            self._choice(form, "Built", list(fields.BUILT), fields.built_of(boxes), fields.make_built(ids))
        self._choice(form, "Place", list(fields.PLACED), fields.placed_of(boxes), fields.make_placed(ids))
        height = fields.height_of(boxes, self._session.home.units)
        self._line(form, "Height", height, fields.make_height(ids), HEIGHT_HINT)

    def _switching_rows(self, box: Box) -> None:
        """Tell what works what here, and let the person say how it is worked."""
        assert self._session is not None
        home = self._session.home
        things = {device.id for device in box.devices} | {feed.id for feed in box.feeds()}
        for group in groups_of(home, things):
            worked = bool(things & set(group.feeds))
            self._words(f"{switches_in_words(home, group)} works {what_works(home, group.id)}.")
            form = self._form()
            self._choice(form, "Worked by" if worked else "Works by", list(fields.WAYS), group.by,
                         partial(_set_by, group.id))  # fmt: skip

    def _device_rows(self, form: QFormLayout, device: Device, numbered: bool) -> None:
        gang = f"Gang {device.slot}" if numbered else "Kind"
        kinds = [*catalogue(), *([TAKE_OUT] if numbered else [])]

        def make(words: str) -> Callable[[Home], Edited]:
            if words == TAKE_OUT:
                return lambda home: remove(home, [device.id])
            return lambda home: set_device(home, device.id, kind=words)

        self._choice(form, gang, kinds, device.kind, make)
        self._line(form, "Name", device.name, lambda words: lambda home: rename(home, "device", device.id, words))
        for feed in device.feeds:
            self._feed_row(form, feed.part.capitalize() or "Breaker", feed)

    def _feed_row(self, form: QFormLayout, label: str, feed: Feed, may_go: bool = False) -> None:
        assert self._session is not None
        findings = self._session.findings
        marks = {mark: breaker for breaker, mark in findings.marks.items()} if findings else {}
        breakers = {mark: number for mark, number in marks.items() if number in self._session.home.breakers}
        now = _on_now(feed, {number: mark for mark, number in breakers.items()})

        def make(words: str) -> Callable[[Home], Edited]:
            if words == NOT_TIED:
                return lambda home: untie(home, [feed.id])
            if words == NO_CABLE:
                return lambda home: remove(home, [feed.id])
            return lambda home: tie(home, [feed.id], breakers[words], words)

        self._choice(form, label, [NOT_TIED, *breakers, *([NO_CABLE] if may_go else [])], now, make)

    def _halves_button(self, device: Device) -> None:
        parts = kind_named(device.kind).parts
        if len(parts) > 1 and len(device.feeds) < len(parts):
            words = "Split its halves" if len(parts) == 2 else "Split its parts"
            self._button(words, lambda: self._attempt(lambda home: split_halves(home, device.id)))
        elif len(device.feeds) > 1:
            self._button("Join its halves", lambda: self._attempt(lambda home: join_halves(home, device.id)))

    def _many_form(self, boxes: list[Box], rooms: list[int]) -> None:
        words = [counted(len(boxes), "box", "boxes")] if boxes else []
        words += [counted(len(rooms), "room")] if rooms else []
        self._words(" and ".join(words), "section")
        form = self._form()
        if rooms:
            self._choice(form, "Use", _uses(""), "", lambda use: lambda home: set_use(home, rooms, use))
        if boxes and self._session is not None and self._session.findings is not None:
            marks = self._session.findings.marks
            breakers = {marks[one.id]: one.id for one in self._session.home.breakers if one.id in marks}
            ids = [box.id for box in boxes]
            make = lambda words: lambda home: tie(home, ids, breakers[words], words)  # noqa: E731  # one row, one edit
            self._choice(form, "Breaker", list(breakers), "", make)
        if boxes:
            ids = [box.id for box in boxes]
            if any(box.devices for box in boxes):
                self._choice(form, "Kind", list(catalogue()), fields.kind_of(boxes), fields.make_kind(ids))
            self._common_rows(form, boxes)
            works_by = fields.by_of(boxes, self._session.home) if self._session is not None else None
            if works_by is not None:
                self._choice(form, "Works by", list(fields.WAYS), works_by, fields.make_by(ids))


def _set_by(group: int, words: str) -> Callable[[Home], Edited]:
    return lambda home: set_group(home, group, by=words)


def _boxes_selected(session: Session) -> list[int]:
    """Return the boxes selected, those of single devices among them, each once."""
    home = session.home
    ids = {one.id for one in session.view.selected if one.kind in ("box", "device")}
    return [box.id for box in home.boxes if box.id in ids or any(device.id in ids for device in box.devices)]


def _told(session: Session) -> tuple[object, ...]:
    """Return all that the form tells, to see whether it would come out the same."""
    home, findings = session.home, session.findings
    rooms: list[object] = [home.rooms.get(one.id) for one in session.view.selected if one.kind == "room"]
    boxes = [home.boxes[one] for one in _boxes_selected(session)]
    groups = home.controls if boxes else None
    marks = findings.marks if findings is not None and (boxes or rooms) else {}
    seen = (home.log, _clashes(session, [box.id for box in boxes])) if boxes else ()
    close = [_told_here(session, box.id) for box in boxes[:1]]
    rooms += [building_row(home, one) for one in session.view.selected]
    about = home.wall, rooms, boxes, groups
    return session.view.selected, *about, home.breakers.ids(), dict(marks), seen, close


def _clashes(session: Session, boxes: list[int]) -> tuple[Disagreement, ...]:
    """Return what readings of these boxes say against each other or against the map, as far as it was found."""
    findings = session.findings
    if findings is None:
        return ()
    return tuple(one for one in findings.disagreements if findings.conclusions[one.feed].box in boxes)


def _told_here(session: Session, box: int) -> list[str]:
    """Return the dangers of a box that are told with it alone, each in one line, as far as they were found."""
    hazards = session.findings.hazards if session.findings is not None else ()
    return [
        " ".join(part for part in (one.says, one.why, one.do, one.set_aside) if part)
        for one in hazards
        if one.box == box and not one.listed
    ]


def _uses(now: str) -> list[str]:
    """Return the uses to choose from, what the room has now among them."""
    return list(dict.fromkeys(("", *USES, now)))


def _on_now(feed: Feed, marks: dict[int, str]) -> str:
    on = feed.on
    if not isinstance(on, Supplied):
        return NOT_TIED
    first = next((supply.breaker for supply in on.supplies if isinstance(supply, FromBreaker)), None)
    return marks.get(first, "") if first is not None else ""
