"""Drawing over a picture: it is dragged in, pasted or chosen, laid under the level shown, and worked on from there."""

from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication, QFileDialog

from floorplan_circuits.desktop.photos import MOST_PIXELS, NoPhoto, Photo, photo_of
from floorplan_circuits.desktop.picture_band import PictureBand
from floorplan_circuits.desktop.plan_files import FILTER, LONGEST_PX, is_drawing, is_picture, read_plan
from floorplan_circuits.desktop.plan_reader import Answer, Asked, PlanReader, ReadingBar
from floorplan_circuits.desktop.rail import DRAW, PANEL
from floorplan_circuits.edits.edited import Edited
from floorplan_circuits.edits.underlays import (
    fade_underlay,
    lock_underlay,
    put_underlay,
    remove_underlay,
    turn_underlay,
)
from floorplan_circuits.files.pictures import MOST_BYTES, have_room, picture_hash
from floorplan_circuits.gestures.tracing import MarkLength, PictureTool
from floorplan_circuits.home.building import Underlay
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.placement import corners

if TYPE_CHECKING:
    from floorplan_circuits.desktop.work_area import WorkArea

GUESSED_WIDE_MM = 15_000
"""What a picture stands for until its scale is set: about a house."""
FADE_STEP = 10
"""How much fainter or stronger at once, in hundredths."""
EDGE_PX = 8
"""How far from the edges of the plan a picture stands that was just laid: the larger, the better it is traced."""
LOCKED_SAYS = "The picture is locked: it stays put while you draw. Press N for a room. Unlock it in the Picture menu."
NOT_YET = "Start or open a home first, then drag the picture in."
NO_ROOM = "The home’s pictures have {} MB already, as much as its file may hold. Remove one first."


Sized = tuple[str, int] | None
"""A picture and the width it stands for, None for no picture."""


class Tracing:
    """Looks after the picture under the level that is shown."""

    def __init__(self, area: "WorkArea") -> None:
        self._area = area
        self.band = PictureBand()
        self.reader, self.waiting = PlanReader(area), ReadingBar()
        self.reader.answered.connect(self._on_read)
        self.waiting.stopped.connect(self.cancel)
        self.band.tool_wanted.connect(self.take)
        self.band.turn_wanted.connect(self.turn)
        self.band.fade_wanted.connect(self.fade)
        self.band.lock_wanted.connect(self.lock)
        self.band.remove_wanted.connect(self.remove)
        self._theirs = True
        """Whether what lies on the clipboard was put there after anything was copied here."""
        self._seen: dict[int, Sized] = {}
        """Which picture lay under each level when it was last looked at, and how large."""
        QGuiApplication.clipboard().dataChanged.connect(self._on_clipboard)

    # --- where from -------------------------------------------------------------------------------------------------

    def choose(self) -> None:
        """Let the person choose a picture."""
        name, _ = QFileDialog.getOpenFileName(self._area, "Choose a picture to draw over", "", FILTER)
        if name:
            self.put_file(Path(name))

    def put_file(self, path: Path) -> None:
        """Lay the picture in a file under the level shown; one that can't be taken is refused in words.

        A drawing is laid once it is drawn: meanwhile the window is as quick as ever.
        """
        session = self._area.session
        if is_drawing(path) and session is not None and session.view.level is not None:
            self.reader.ask(Asked(path, session, session.view.level))
            self.waiting.begin(path.name)
            return
        QApplication.setOverrideCursor(Qt.CursorShape.WaitCursor)
        try:
            plan = read_plan(path)
        except NoPhoto as error:
            self._area.say(str(error))
            return
        finally:
            QApplication.restoreOverrideCursor()
        self._put(plan, path.stem)

    def _on_read(self, answer: Answer) -> None:
        """Lay a drawing under the level it was asked for, if the home it was asked for is still open."""
        asked, area = answer.asked, self._area
        if self.reader.is_stopped() or asked.session is not area.session:
            return
        self.waiting.end()
        if answer.plan is None:
            area.say(answer.refusal)
        elif asked.level in asked.session.home.levels.ids():
            if asked.session.view.level != asked.level:
                area.show_level(asked.level)
            self._put(answer.plan, asked.path.stem)

    def cancel(self) -> None:
        """Give up the drawing that is on its way."""
        self.leave()
        self._area.say("Stopped: no picture was laid under the level.")

    def leave(self) -> None:
        """Wait for no drawing any more."""
        self.reader.stop()
        self.waiting.end()

    def begin(self) -> None:
        """Forget the home that was at work, and what is still being read for it."""
        self.leave()
        levels = self._area.session.home.levels if self._area.session is not None else ()
        self._seen = {level.id: _sized(level.underlay) for level in levels}

    def _on_clipboard(self) -> None:
        self._theirs = True

    def copied_here(self) -> None:
        """Note that something was copied here: it is pasted before an older picture on the clipboard."""
        self._theirs = False

    def paste(self) -> bool:
        """Lay the picture on the clipboard under the level shown, or keep it as the panel's photo while that is shown.

        Tells whether there is one to be pasted now.
        """
        data = QGuiApplication.clipboard().mimeData()
        if not self._theirs or data is None:
            return False
        files = [Path(url.toLocalFile()) for url in data.urls() if url.isLocalFile()]
        photo = self._area.photo
        if files and is_picture(files[0]):
            (photo.put_file if photo.is_open else self.put_file)(files[0])
            return True
        if not data.hasImage():
            return False
        image = QGuiApplication.clipboard().image()
        if image.isNull() or image.width() * image.height() > MOST_PIXELS:
            self._area.say("The picture on the clipboard can’t be read. Save it as a file and choose that.")
        elif photo.is_open:
            photo.put_image(image)
        else:
            self._put(photo_of(image, LONGEST_PX, drawing=True), "")
        return True

    def _put(self, plan: Photo, name: str) -> None:
        """Lay a picture under the level and take the tool that sets its scale."""
        area, session = self._area, self._area.session
        if session is None or session.view.level is None:
            area.say(NOT_YET)
            return
        if not have_room(session.home.pictures, session.pictures, plan.content):
            area.say(NO_ROOM.format(MOST_BYTES // 2**20))
            return
        level, key = session.view.level, picture_hash(plan.content)
        session.pictures[key] = plan.content
        at, day, caption = self._free_place(), date.today().isoformat(), " ".join(name.split())[:120]
        edited = session.attempt(
            lambda home: put_underlay(
                home, level, key, plan.media, plan.pixels, at=at, width=GUESSED_WIDE_MM, date=day, caption=caption
            )
        )
        if edited is not None:
            self.take(MarkLength())

    def _free_place(self) -> tuple[int, int]:
        """Return where a picture's corner goes: the corner of what is drawn, the origin on an empty level."""
        session = self._area.session
        rooms = [room for room in session.home.rooms if room.level == session.view.level] if session else []
        places = [corner for room in rooms for corner in room.outline]
        return (min(x for x, _ in places), min(y for _, y in places)) if places else (0, 0)

    # --- what is done with it ---------------------------------------------------------------------------------------

    def laid(self) -> Underlay | None:
        """Return the picture under the level shown, None for none."""
        session = self._area.session
        level = session.home.levels.get(session.view.level or 0) if session is not None else None
        return level.underlay if level is not None else None

    def shows(self) -> bool:
        """Whether the stage at hand is one where a home is drawn: in all others the picture is left out."""
        return self._area.rail.stage in (DRAW, PANEL)

    def take(self, tool: PictureTool) -> None:
        """Take a tool for the picture in hand, in the stage where homes are drawn."""
        if self._area.rail.stage != DRAW:
            self._area.show_stage(DRAW)
        self._area.take(tool)

    def turn(self) -> None:
        """Turn the picture by a quarter."""
        self._do(lambda home, level: turn_underlay(home, level, 90))

    def fade(self, percent: int) -> None:
        """Show the picture so strongly; one pull at the slider is one edit."""
        level = self._area.session.view.level if self._area.session else None
        self._do(lambda home, level: fade_underlay(home, level, percent), f"fade {level}")

    def fade_by(self, step: int) -> None:
        """Show the picture more strongly, or less."""
        laid = self.laid()
        self.fade(min(max((laid.opacity_percent if laid is not None else 0) + step, 0), 100))

    def lock(self) -> None:
        """Lock the picture, or unlock it."""
        laid = self.laid()
        locked = laid is not None and laid.locked
        done = self._do(lambda home, level: lock_underlay(home, level, not locked))
        if done is not None and not locked:
            self._area.say(LOCKED_SAYS)

    def remove(self) -> None:
        """Take the picture away."""
        self._do(remove_underlay)

    def _do(self, edit: Callable[[Home, int], Edited], merge: str = "") -> Edited | None:
        session = self._area.session
        level = session.view.level if session is not None else None
        if session is None or level is None:
            return None
        return session.attempt(lambda home: edit(home, level), merge)

    def refresh(self) -> None:
        """Show in the band what can be done now."""
        session = self._area.session
        self.band.show_picture(self.laid() if self.shows() else None, session.tool if session is not None else None)
        self._bring_into_sight()

    def _bring_into_sight(self) -> None:
        """Show all of a picture that was just laid or has another size now, with all that is drawn on its level."""
        session, laid = self._area.session, self.laid()
        level = session.view.level if session is not None else None
        if session is None or level is None or not self.shows():
            return
        before, self._seen[level] = self._seen.get(level), _sized(laid)
        if laid is not None and before != _sized(laid):
            rooms = [corner for room in session.home.rooms if room.level == level for corner in room.outline]
            self._area.canvas.show_bounds((), [*corners(laid), *rooms], EDGE_PX)


def _sized(laid: Underlay | None) -> Sized:
    return None if laid is None else (laid.picture, laid.width)
