"""Copying what is selected, pasting it aside, and taking it in hand to put it down once a click."""

from floorplan_circuits.desktop import clipboard
from floorplan_circuits.desktop.session import Session
from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.pasting import Clip, aside, copied
from floorplan_circuits.edits.pasting import paste as pasted
from floorplan_circuits.findings import Subject
from floorplan_circuits.gestures.stamping import StampClip
from floorplan_circuits.gestures.step import says_of

PASTE_STEP_MM = 300
COPIED = "Copied. Pasting gives new marks, and nobody knows what the copies hang on."


def copy(session: Session) -> bool:
    """Copy what is selected, with what lies in selected rooms."""
    try:
        session.clip = copied(session.home, session.selected_ids())
    except Refused as error:
        session.said.emit(str(error))
        return False
    session.pasted = 0
    clipboard.put(session.clip)
    session.said.emit(COPIED)
    return True


def cut(session: Session) -> None:
    """Copy what is selected and remove it."""
    if copy(session):
        session.remove()


def paste(session: Session) -> None:
    """Paste what was copied a little aside, and select it."""
    level, clip = session.view.level, _clip(session)
    if level is None or clip is None:
        return
    session.pasted += 1
    by = aside(clip, session.pasted * PASTE_STEP_MM)
    edited = session.attempt(lambda home: pasted(home, clip, level, by))
    if edited is not None:
        rooms = set(session.home.rooms.ids())
        session.select(tuple(Subject("room" if made in rooms else "box", made) for made in edited.made))


def stamp(session: Session) -> None:
    """Take what was copied in hand, to put it down once a click."""
    clip = _clip(session)
    if clip is None:
        return
    if not clip.rooms and not clip.boxes:
        session.said.emit("Copy something first.")
        return
    session.take(StampClip(clip))
    session.said.emit(says_of(session.tool))


def stamp_selected(session: Session) -> None:
    """Copy what is selected, and take it in hand to put it down once a click."""
    if copy(session):
        stamp(session)


def _clip(session: Session) -> Clip | None:
    """Return what is on the clipboard, or say why it is of no use here."""
    try:
        return clipboard.taken(session.clip)
    except Refused as error:
        session.said.emit(str(error))
        return None
