"""The clipboard of the system: what is copied here can be pasted in another home; anything else there is refused."""

from PySide6.QtCore import QByteArray, QMimeData
from PySide6.QtGui import QGuiApplication

from floorplan_circuits.edits.clips import FROM_ELSEWHERE, LONGEST, clip_text, read_clip
from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.pasting import Clip

FORMAT = "application/x-floorplan-circuits-clip"


def put(clip: Clip) -> None:
    """Put a clip on the clipboard."""
    data = QMimeData()
    data.setData(FORMAT, QByteArray(clip_text(clip).encode()))
    QGuiApplication.clipboard().setMimeData(data)


def taken(own: Clip) -> Clip:
    """Return the clip on the clipboard, or what was copied here if it is empty. Raises `Refused` for anything else."""
    data = QGuiApplication.clipboard().mimeData()
    if data is None or not data.formats():
        return own
    if not data.hasFormat(FORMAT):
        raise Refused(FROM_ELSEWHERE)
    content = bytes(data.data(FORMAT).data())
    if len(content) > 4 * LONGEST:
        raise Refused(FROM_ELSEWHERE)
    return read_clip(content.decode(errors="replace"))
