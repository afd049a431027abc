"""The picture of a level on the screen: its plan for a scale, compiled, kept as a still that panning only moves."""

from collections.abc import Callable, Mapping

from PySide6.QtCore import QPointF, QRect, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPixmap

from floorplan_circuits.desktop.camera import PX_PER_MM, Camera
from floorplan_circuits.desktop.ink_painter import NO_PICTURES, Compiled, compiled, paint
from floorplan_circuits.drawing.ink import Bounds, Group
from floorplan_circuits.drawing.overlaps import box_round, joined
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.plan import Plan, what_hits
from floorplan_circuits.findings import XY, Subject

MakePlan = Callable[[float], Plan]
BAND = 1.12
"""The plan is made anew for a scale once the view has zoomed this far from the one it was made for."""
VEIL = 0.55
RING_OUT, RING_CORNER = 5, 6
TOGETHER = 3.0
"""How far in mm of the plan a label may stand off its symbols to share their ring: one round both of what is led away
would take in what stands between."""
KEYS_PX = 10
"""How far from the corner the words of key letters stand, in pixels."""


class PlanPicture:
    """A level as it is seen. It makes as few plans and stills as it can."""

    def __init__(self, make: MakePlan, pictures: Mapping[str, bytes] = NO_PICTURES) -> None:
        self._make, self._pictures = make, pictures
        self._plan: Plan | None = None
        self._ink: Compiled | None = None
        self._still: QPixmap | None = None
        self._still_of: Camera | None = None
        self._ground = ""

    def plan(self, scale: float) -> Plan:
        """Return the plan made for about this scale: made now if the last one is too far off."""
        if self._plan is None or not 1 / BAND <= self._plan.scale / scale <= BAND:
            self._plan = self._make(scale)
            self._ink, self._still = compiled(self._plan.ink, self._pictures), None
        return self._plan

    def subject_at(self, house: XY, scale: float) -> Subject | None:
        """Return what a house place names."""
        drawn = self.plan(scale)
        return what_hits(drawn, (house[0] / drawn.scale, house[1] / drawn.scale))

    def spot(self, subject: Subject, scale: float) -> Bounds | None:
        """Return the room that a subject takes, in house mm: its symbols and its label."""
        found = self.spots(subject, scale)
        return box_round(found) if found else None

    def spots(self, subject: Subject, scale: float) -> list[Bounds]:
        """Return the room that a subject takes, in house mm, apart where its label is led away from its symbols."""
        drawn = self.plan(scale)
        found = [bounds for bounds, about in drawn.spots if about == subject]
        mm = drawn.scale
        return [(left * mm, top * mm, right * mm, bottom * mm) for left, top, right, bottom in joined(found, TOGETHER)]

    # --- painting ---------------------------------------------------------------------------------------------------

    def paint_still(self, painter: QPainter, camera: Camera, theme: Theme) -> None:
        """Paint the level; while only the camera's centre moves, the same still is moved."""
        self.plan(camera.scale)
        if self._still is None or self._ground != theme.canvas or not self._covers(camera):
            self._render(painter.device().devicePixelRatioF(), camera, theme)
        assert self._still is not None
        assert self._still_of is not None
        x, y = camera.to_pixels(self._still_of.to_house((0.0, 0.0)))
        spare = self._spare(camera)
        painter.drawPixmap(QPointF(x - spare, y - spare), self._still)

    def _covers(self, camera: Camera) -> bool:
        was = self._still_of
        if was is None or (was.scale, was.width, was.height) != (camera.scale, camera.width, camera.height):
            return False
        x, y = camera.to_pixels(was.to_house((0.0, 0.0)))
        return max(abs(x), abs(y)) <= self._spare(camera)

    def _spare(self, camera: Camera) -> int:
        """Return how much is painted past each edge, in pixels, so that a short pan paints nothing anew."""
        return int(min(camera.width, camera.height)) // 4

    def _render(self, ratio: float, camera: Camera, theme: Theme) -> None:
        assert self._ink is not None
        spare = self._spare(camera)
        wide, high = camera.width + 2 * spare, camera.height + 2 * spare
        self._still = QPixmap(round(wide * ratio), round(high * ratio))
        self._still.setDevicePixelRatio(ratio)
        self._still.fill(QColor(theme.canvas))
        self._still_of, self._ground = camera, theme.canvas
        painter = QPainter(self._still)
        mm, (x, y) = self._mm(camera), camera.to_pixels((0.0, 0.0))
        dx, dy = x + spare, y + spare
        paint(painter, self._ink.ops, mm, dx, dy, QRectF(-dx / mm, -dy / mm, wide / mm, high / mm))
        painter.end()

    def _mm(self, camera: Camera) -> float:
        """Return pixels a millimetre of the plan's ink, seen by this camera."""
        return PX_PER_MM * self.plan(camera.scale).scale / camera.scale

    def paint_lit(self, painter: QPainter, camera: Camera, theme: Theme, lit: frozenset[Subject]) -> None:
        """Pale everything but what is lit."""
        if not lit or self._ink is None:
            return
        veil = QColor(theme.canvas)
        veil.setAlphaF(VEIL)
        painter.fillRect(QRectF(0, 0, camera.width, camera.height), veil)
        x, y = camera.to_pixels((0.0, 0.0))
        for subject in lit:
            paint(painter, self._ink.about.get(subject, ()), self._mm(camera), x, y)

    def paint_rings(self, painter: QPainter, camera: Camera, pen: QPen, ringed: frozenset[Subject]) -> None:
        """Draw a ring round each of these subjects."""
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(pen)
        for subject in ringed:
            for spot in self.spots(subject, camera.scale):
                corners = (QPointF(*camera.to_pixels(spot[:2])), QPointF(*camera.to_pixels(spot[2:])))
                ring = QRectF(*corners).adjusted(-RING_OUT, -RING_OUT, RING_OUT, RING_OUT)
                painter.drawRoundedRect(ring, RING_CORNER, RING_CORNER)

    def keys_in_words(self, scale: float) -> str:
        """Return what the letters stand for that are on the plan instead of rooms' names, '' where there are none."""
        return " · ".join(f"{key} {name}" for key, name in self.plan(scale).keys)

    def paint_keys(self, painter: QPainter, camera: Camera, theme: Theme) -> None:
        """Write in the lower left corner what the letters stand for."""
        words = self.keys_in_words(camera.scale)
        if words:
            wide = int(camera.width) - 2 * KEYS_PX
            wanted = QRect(KEYS_PX, 0, wide, int(camera.height) - KEYS_PX)
            corner = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignBottom | Qt.TextFlag.TextWordWrap
            taken = painter.boundingRect(wanted, corner, words)
            painter.fillRect(taken.adjusted(-4, -2, 4, 2), QColor(theme.canvas))
            painter.setPen(QColor(theme.ink))
            painter.drawText(wanted, corner, words)

    def paint_over(self, painter: QPainter, camera: Camera, ink: Group) -> None:
        """Paint ink that was made for the plan's own scale, such as a draft."""
        x, y = camera.to_pixels((0.0, 0.0))
        paint(painter, compiled(ink).ops, self._mm(camera), x, y)
