"""What is kept with a box beside its evidence: its note, and photographs with their days."""

from datetime import date
from functools import partial
from pathlib import Path

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QFocusEvent, QPixmap
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QLabel, QPlainTextEdit, QPushButton, QVBoxLayout, QWidget

from floorplan_circuits.desktop.photos import NoPhoto, read_photo
from floorplan_circuits.desktop.pieces import label
from floorplan_circuits.desktop.session import Session
from floorplan_circuits.edits.boxes import set_box
from floorplan_circuits.edits.pictures import attach_picture, detach_picture
from floorplan_circuits.files.pictures import MOST_BYTES, have_room, picture_hash
from floorplan_circuits.home.boxes import Box
from floorplan_circuits.home.days import written

SHOWN = QSize(150, 112)
NOTE_HIGH = 76
KEPT_WHEN_SAVED = "Photos are kept in the home’s file when it is saved; a rescue copy holds no new ones."
NOT_HERE = "This photo is not in this copy of the home."


class NoteField(QPlainTextEdit):
    """A longer text, taken when the person goes elsewhere."""

    taken = Signal()

    def focusOutEvent(self, event: QFocusEvent) -> None:  # noqa: N802  # Qt's name
        """Take what was typed."""
        super().focusOutEvent(event)
        if event.reason() != Qt.FocusReason.PopupFocusReason:
            self.taken.emit()


class BoxKeeping(QWidget):
    """The note of a box and its photos."""

    def __init__(self) -> None:
        super().__init__()
        self._session: Session | None = None
        self._box: Box | None = None
        self.note = NoteField()
        self.note.setAccessibleName("Note on the box")
        self.note.setPlaceholderText("what the next person should know")
        self.note.setTabChangesFocus(True)
        self.note.setFixedHeight(NOTE_HIGH)
        self.note.taken.connect(self.take_note)
        self.add = QPushButton("Add a photo…")
        self.add.setObjectName("plain")
        self.add.clicked.connect(lambda _checked=False: self.ask_for_photo())
        self.photos = QVBoxLayout()
        self.photos.setSpacing(6)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(8)
        column.addWidget(label("Note on the box", "section"))
        column.addWidget(self.note)
        column.addWidget(label("Photos", "section"))
        column.addLayout(self.photos)
        column.addWidget(self.add)
        column.addWidget(label(KEPT_WHEN_SAVED, "caption"))
        column.addStretch(1)

    def show_box(self, session: Session, box: Box) -> None:
        """Show what is kept with a box; a note being typed stays."""
        was, self._session, self._box = self._box, session, box
        other = was is None or was.id != box.id
        if other or (was is not None and was.note != box.note):
            self.note.setPlainText(box.note)
        if other or (was is not None and was.pictures != box.pictures):
            self._fill_photos()

    # --- the note ---------------------------------------------------------------------------------------------------

    def take_note(self) -> None:
        """Keep the note as it is typed now, if it was changed."""
        session, box, words = self._session, self._box, self.note.toPlainText().strip()
        if session is not None and box is not None and box.id in session.home.boxes and words != box.note.strip():
            session.attempt(lambda home: set_box(home, box.id, note=words))

    # --- photos -----------------------------------------------------------------------------------------------------

    def ask_for_photo(self) -> None:
        """Let the person choose a picture."""
        name, _ = QFileDialog.getOpenFileName(self, "Add a photo", "", "Pictures (*.jpg *.jpeg *.png)")
        if name:
            self.add_photo(Path(name))

    def add_photo(self, path: Path) -> None:
        """Keep a picture with the box, with today's day; one that can't be kept is refused in words."""
        session, box = self._session, self._box
        if session is None or box is None:
            return
        try:
            photo = read_photo(path)
        except NoPhoto as error:
            session.said.emit(str(error))
            return
        if not have_room(session.home.pictures, session.pictures, photo.content):
            most = MOST_BYTES // 2**20
            session.said.emit(
                f"The home’s photos have {most} MB already, as much as its file may hold. Remove one first."
            )
            return
        name, day = picture_hash(photo.content), date.today().isoformat()
        session.pictures[name] = photo.content
        session.attempt(lambda home: attach_picture(home, box.id, name, photo.media, date=day))

    def _fill_photos(self) -> None:
        while (item := self.photos.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        session, box = self._session, self._box
        if session is None or box is None:
            return
        days = {row.hash: row.date for row in session.home.pictures}
        for nth, name in enumerate(box.pictures, 1):
            self.photos.addWidget(self._photo(session, box.id, name, days.get(name, ""), nth))

    def _photo(self, session: Session, box: int, name: str, day: str, nth: int) -> QWidget:
        holder = QWidget()
        row = QHBoxLayout(holder)
        row.setContentsMargins(0, 0, 0, 0)
        picture = _thumbnail(
            session.pictures.get(name), f"Photo {nth}, added {written(day)}" if day else f"Photo {nth}"
        )
        gone = QPushButton("Remove")
        gone.setObjectName("plain")
        gone.setAccessibleName(f"Remove photo {nth}")
        gone.clicked.connect(partial(self._remove, box, name))
        beside = QVBoxLayout()
        beside.addWidget(label(f"Added {written(day)}" if day else "Added, day not written down", "caption"))
        beside.addWidget(gone)
        beside.addStretch()
        row.addWidget(picture)
        row.addLayout(beside, 1)
        return holder

    def _remove(self, box: int, name: str, _checked: bool = False) -> None:
        if self._session is not None:
            self._session.attempt(lambda home: detach_picture(home, box, name))


def _thumbnail(content: bytes | None, name: str) -> QLabel:
    """Return a small picture; words where its bytes are not there."""
    label = QLabel()
    label.setAccessibleName(name)
    label.setFixedWidth(SHOWN.width())
    drawn = QPixmap()
    if content is not None and drawn.loadFromData(content):
        keep, smooth = Qt.AspectRatioMode.KeepAspectRatio, Qt.TransformationMode.SmoothTransformation
        label.setPixmap(drawn.scaled(SHOWN, keep, smooth))
    else:
        label.setText(NOT_HERE)
        label.setObjectName("caption")
        label.setWordWrap(True)
    return label
