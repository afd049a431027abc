"""The camera: which part of a level is seen, how large. Pure numbers: house millimetres and pixels."""

from dataclasses import dataclass, replace

from floorplan_circuits.findings import XY

PX_PER_MM = 96 / 25.4
"""At 96 pixels an inch a paper millimetre is this many pixels, before the screen's own scale."""
NEAREST, FARTHEST = 8.0, 4000.0


@dataclass(frozen=True, slots=True)
class Camera:
    """What is seen: `scale` is house mm a paper mm, `centre` the house place in the middle of `width` × `height` px."""

    scale: float = 50.0
    centre: XY = (0.0, 0.0)
    width: float = 800.0
    height: float = 600.0

    @property
    def mm_per_px(self) -> float:
        """House millimetres a pixel."""
        return self.scale / PX_PER_MM

    def to_house(self, at: XY) -> XY:
        """Return the house place under a place in pixels."""
        return (
            self.centre[0] + (at[0] - self.width / 2) * self.mm_per_px,
            self.centre[1] + (at[1] - self.height / 2) * self.mm_per_px,
        )

    def to_pixels(self, house: XY) -> XY:
        """Return where a house place is seen, in pixels."""
        return (
            self.width / 2 + (house[0] - self.centre[0]) / self.mm_per_px,
            self.height / 2 + (house[1] - self.centre[1]) / self.mm_per_px,
        )

    def sees(self, spot: tuple[float, float, float, float], margin: float) -> bool:
        """Tell whether a rectangle of the house (in mm) is in sight, `margin` px from the edge."""
        left, top = self.to_pixels(spot[:2])
        right, bottom = self.to_pixels(spot[2:])
        return margin <= left and margin <= top and right <= self.width - margin and bottom <= self.height - margin

    def zoomed(self, factor: float, at: XY | None = None) -> "Camera":
        """Return the camera `factor` times nearer, the house place under `at` (pixels) kept where it is."""
        pin = at if at is not None else (self.width / 2, self.height / 2)
        held = self.to_house(pin)
        nearer = replace(self, scale=min(max(self.scale / factor, NEAREST), FARTHEST))
        now = nearer.to_house(pin)
        return replace(nearer, centre=(self.centre[0] + held[0] - now[0], self.centre[1] + held[1] - now[1]))

    def panned(self, dx: float, dy: float) -> "Camera":
        """Return the camera after the picture was pulled by so many pixels."""
        return replace(self, centre=(self.centre[0] - dx * self.mm_per_px, self.centre[1] - dy * self.mm_per_px))

    def seeing(self, bounds: tuple[float, float, float, float], made: float, margin: float) -> "Camera":
        """Return the camera that sees `bounds` (paper mm of a plan made for the scale `made`) with a margin in px."""
        left, top, right, bottom = bounds
        room_x, room_y = max(self.width - 2 * margin, 20.0), max(self.height - 2 * margin, 20.0)
        need = max((right - left) * PX_PER_MM / room_x, (bottom - top) * PX_PER_MM / room_y)
        scale = min(max(made * need, NEAREST), FARTHEST)
        return replace(self, scale=scale, centre=((left + right) / 2 * made, (top + bottom) / 2 * made))
