"""The canvas: one widget that paints a level's plan, what is lit and ringed over it, and the draft of a gesture."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace

from PySide6.QtCore import QPointF, Qt, QTimer
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QResizeEvent

from floorplan_circuits.desktop.hand_canvas import HandCanvas
from floorplan_circuits.desktop.ink_painter import NO_PICTURES
from floorplan_circuits.desktop.plan_picture import MakePlan, PlanPicture
from floorplan_circuits.drawing.ink import Group
from floorplan_circuits.drawing.overlays import draft_ink
from floorplan_circuits.drawing.palette import LIGHT, Theme
from floorplan_circuits.findings import XY, Subject
from floorplan_circuits.view import Draft

MakeInk = Callable[[float], Group]
"""Makes ink for a scale."""
BLINK_MS = 200
MARGIN_PX = 26
NEAREST_FIT = 25.0
"""The largest scale that fitting a selection goes to: nearer, a single box fills the window."""
READABLE_SCALE = 75.0
EMPTY_SCALE = 60.0


class PlanCanvas(HandCanvas):
    """Shows one level. It is given a function that makes the plan for a scale, and asks for as few as it can."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("plan")
        self.setAccessibleName("Plan of the level")
        self.theme: Theme = LIGHT
        self.empty_words = ""
        self.picture: PlanPicture | None = None
        self.lit: frozenset[Subject] = frozenset()
        self.ringed: frozenset[Subject] = frozenset()
        self._draft: Draft | None = None
        self._over: MakeInk | None = None
        self._blinking = False

    # --- what is shown ----------------------------------------------------------------------------------------------

    def show_level(
        self, make: MakePlan | None, keep_view: bool = False, pictures: Mapping[str, bytes] = NO_PICTURES
    ) -> None:
        """Show another level (or none). The view is kept, or fitted to the level. `pictures` are bytes by hash."""
        self.picture = None if make is None else PlanPicture(make, pictures)
        if make is not None and not keep_view:
            self.fit()
        self.update()

    def show_draft(self, draft: Draft | None) -> None:
        """Draw what a gesture is about to do."""
        if draft != self._draft:
            self._draft = draft
            self.update()

    def show_over(self, make: MakeInk | None) -> None:
        """Draw something over the plan at its own scale, such as the measures of what is selected; None for nothing."""
        self._over = make
        self.update()

    def light(self, subjects: frozenset[Subject]) -> None:
        """Let these subjects keep their ink while all else pales; none of them restores all."""
        if subjects != self.lit:
            self.lit = subjects
            self.update()

    def ring(self, subjects: frozenset[Subject]) -> None:
        """Draw a ring round these subjects."""
        if subjects != self.ringed:
            self.ringed = subjects
            self.update()

    def go_to(self, subject: Subject) -> None:
        """Bring a subject to the middle, near enough to read, unless it is in sight; blink its ring once."""
        spot = self.picture.spot(subject, self.camera.scale) if self.picture is not None else None
        if spot is None:
            return
        if self.camera.scale > READABLE_SCALE or not self.camera.sees(spot, MARGIN_PX):
            middle = ((spot[0] + spot[2]) / 2, (spot[1] + spot[3]) / 2)
            self._look(replace(self.camera, centre=middle, scale=min(self.camera.scale, READABLE_SCALE)))
        self.ring(frozenset({subject}))
        self._blinking = True
        QTimer.singleShot(BLINK_MS, self._stop_blinking)

    def _stop_blinking(self) -> None:
        self._blinking = False
        self.update()

    def show_bounds(
        self, subjects: Iterable[Subject], corners: Iterable[XY] = (), margin: float = 3 * MARGIN_PX
    ) -> None:
        """Bring subjects and house places into sight, as large as they go but no nearer than reads well."""
        spots = [spot for one in subjects if self.picture is not None
                 for spot in [self.picture.spot(one, self.camera.scale)] if spot is not None]  # fmt: skip
        found = [*((left, top) for left, top, _, _ in spots), *((x, y) for _, _, x, y in spots), *corners]
        if found:
            xs, ys = zip(*found, strict=True)
            mm = self.camera.scale
            bounds = min(xs) / mm, min(ys) / mm, max(xs) / mm, max(ys) / mm
            seen = self.camera.seeing(bounds, mm, margin)
            self._look(replace(seen, scale=max(seen.scale, NEAREST_FIT)))

    # --- the camera -------------------------------------------------------------------------------------------------

    def fit(self) -> None:
        """Show the whole level as large as it goes."""
        if self.picture is None or self.width() < 50:
            return
        for _ in range(3):  # labels outside the walls keep their size, so the fit is found in steps
            drawn = self.picture.plan(self.camera.scale)
            before, self.camera = self.camera, self.camera.seeing(drawn.bounds, drawn.scale, MARGIN_PX)
            if 0.97 < self.camera.scale / before.scale <= 1.0:
                break
        self._fitted = True
        self.update()

    def begin_empty(self) -> None:
        """Look at a level without anything on it: the origin near the upper left, a whole house in view."""
        camera = replace(self.camera, scale=EMPTY_SCALE)
        far = camera.to_house((camera.width, camera.height)), camera.to_house((0.0, 0.0))
        wide, deep = far[0][0] - far[1][0], far[0][1] - far[1][1]
        self._look(replace(camera, centre=(wide * 0.38, deep * 0.38)))

    def subject_at(self, at: QPointF) -> Subject | None:
        """Return what a place of the widget names."""
        if self.picture is None:
            return None
        return self.picture.subject_at(self.camera.to_house((at.x(), at.y())), self.camera.scale)

    @property
    def is_measuring(self) -> bool:
        """Whether a length may be typed now."""
        return self._draft is not None and bool(self._draft.words)

    def drawn_scale(self) -> float:
        """Return the scale the plan in sight was drawn for: its symbols keep their size on paper at that scale."""
        return self.picture.plan(self.camera.scale).scale if self.picture is not None else self.camera.scale

    # --- painting ---------------------------------------------------------------------------------------------------

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802  # Qt's name
        """Paint the still picture, then what is lit or ringed over it, then the draft."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(self.theme.canvas))
        picture = self.picture
        if picture is not None:
            picture.paint_still(painter, self.camera, self.theme)
            picture.paint_lit(painter, self.camera, self.theme, self.lit)
            pen = QPen(QColor(self.theme.ink), 4.0 if self._blinking else 2.0)
            picture.paint_rings(painter, self.camera, pen, self.ringed)
            if self._over is not None:
                picture.paint_over(painter, self.camera, self._over(picture.plan(self.camera.scale).scale))
            picture.paint_keys(painter, self.camera, self.theme)
        if self.empty_words:
            self._paint_words(painter)
        if self._keyed:
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(self.theme.ink), 2))
            painter.drawRect(self.rect().adjusted(2, 2, -3, -3))
        if picture is not None and self._draft is not None:
            drawn_for = picture.plan(self.camera.scale).scale
            picture.paint_over(painter, self.camera, draft_ink(self._draft, drawn_for, self.theme))

    def _paint_words(self, painter: QPainter) -> None:
        painter.setPen(QColor(self.theme.soft))
        painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap, self.empty_words)

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802  # Qt's name
        """Keep the whole level in view if it was."""
        self.camera = replace(self.camera, width=float(self.width()), height=float(self.height()))
        if self._fitted:
            self.fit()
