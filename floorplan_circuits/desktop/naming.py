"""Names asked for in place: a line over the plan where the thing stands, for rooms, levels and devices."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRect

from floorplan_circuits.desktop.in_place import InPlace
from floorplan_circuits.desktop.session import Session
from floorplan_circuits.edits.edited import as_done
from floorplan_circuits.edits.names import name_home, name_of, rename
from floorplan_circuits.edits.rooms import add_level
from floorplan_circuits.findings import Subject
from floorplan_circuits.gestures.selecting import Select
from floorplan_circuits.gestures.step import says_of
from floorplan_circuits.home.kinds import kind_named

if TYPE_CHECKING:
    from floorplan_circuits.desktop.work_area import WorkArea

WIDE, HIGH, EDGE, UNDER_TABS = 180, 28, 4, 24
NAMED = ("room", "level", "device", "box")


class Naming:
    """Asks for one name at a time; Enter gives it, Escape leaves it as it was."""

    def __init__(self, area: "WorkArea") -> None:
        self._area = area

    def ask(self, subject: Subject | None) -> None:
        """Ask for the name of a thing; of a box, that of its first device."""
        session = self._area.session
        if subject is not None and subject.kind == "breaker":
            self._area.entry.begin_again(subject)
        if session is None or subject is None or subject.kind not in NAMED:
            return
        if subject.kind == "box":
            devices = session.home.boxes[subject.id].devices
            if not devices:
                return
            subject = Subject("device", devices[0].id)
        kind, number = subject.kind, subject.id
        of_what = _called(session, subject)
        now = name_of(session.home, kind, number)

        def took(words: str) -> None:
            same = words.strip() == now
            done = None if same else session.attempt(lambda home: rename(home, kind, number, words))
            if not isinstance(session.tool, Select) and (same or done is not None):
                self._area.say(
                    says_of(session.tool) if done is None else f"{as_done(done.says)} {says_of(session.tool)}"
                )

        where = self._where(session, subject)
        InPlace(self._area.canvas, where, now, took, f"Name of {of_what}", "Name, then Enter")
        if of_what != f"the {kind}":
            self._area.say(f"Name of {of_what}. Enter gives it, Esc leaves it as it was.")

    def ask_for_opened(self, subject: Subject | None) -> None:
        """Name what was double-clicked; on bare floor that is the room which the first click selected."""
        session = self._area.session
        if session is not None and isinstance(session.tool, Select):
            self.ask(subject if subject is not None else next(iter(session.view.selected), None))

    def ask_for_level(self) -> None:
        """Add a level, look at it, and ask for its name."""
        session = self._area.session
        if session is None:
            return
        edited = session.attempt(lambda home: add_level(home, f"Level {len(home.levels) + 1}"))
        if edited is not None:
            session.show_level(edited.made[0])
            self.ask(Subject("level", edited.made[0]))

    def ask_for_home(self) -> None:
        """Ask for the home's name where it stands, in the strip."""
        session, shown = self._area.session, self._area.strip.home_name
        if session is None:
            return
        now = session.home.name

        def took(words: str) -> None:
            if words.strip() != now:
                session.attempt(lambda home: name_home(home, words))

        at = shown.geometry()
        where = QRect(at.left(), at.center().y() - HIGH // 2, max(WIDE, at.width()), HIGH)
        InPlace(self._area.strip, where, now, took, "Name of the home", "Name, then Enter")

    def _where(self, session: Session, subject: Subject) -> QRect:
        """Return where the line goes: over a room's middle, a level's under its tab, else mid-plan; in sight."""
        canvas = self._area.canvas
        if subject.kind == "level":
            return QRect(UNDER_TABS, EDGE, WIDE, HIGH)
        at = QPointF(canvas.width() / 2, canvas.height() / 2)
        if subject.kind == "room":
            outline = session.home.rooms[subject.id].outline
            xs, ys = [x for x, _ in outline], [y for _, y in outline]
            at = canvas.to_pixels(QPointF((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2))
        x = min(max(round(at.x()) - WIDE // 2, EDGE), max(EDGE, canvas.width() - WIDE - EDGE))
        y = min(max(round(at.y()) - HIGH // 2, EDGE), max(EDGE, canvas.height() - HIGH - EDGE))
        return QRect(x, y, WIDE, HIGH)


def _called(session: Session, subject: Subject) -> str:
    """Return what is named: of a box with several gangs, which of them, as one name is asked for at a time."""
    boxes = (box for box in session.home.boxes if any(device.id == subject.id for device in box.devices))
    box = next(boxes, None) if subject.kind == "device" else None
    if box is None or len(box.devices) < 2:
        return f"the {subject.kind}"
    device = next(one for one in box.devices if one.id == subject.id)
    return f"gang {device.slot} of {box.mark}: {kind_named(device.kind).label}"
