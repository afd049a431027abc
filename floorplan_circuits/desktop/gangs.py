"""Which gang of a box a place on the plan lies on, so that each device in a box of several can be tied by itself."""

from floorplan_circuits.drawing.plan_boxes import GANG, HOUSING_DEPTH, ON_WALL
from floorplan_circuits.drawing.plan_building import facing
from floorplan_circuits.drawing.plan_guessed import DEEP
from floorplan_circuits.drawing.plan_walls import OUTER
from floorplan_circuits.findings import XY
from floorplan_circuits.home.boxes import Box, Device


def device_at(box: Box, at: XY, scale: float, wall: int = 0) -> Device | None:
    """Return the device whose gang is drawn at a house place, with the plan drawn 1 to `scale`.

    `wall` is how thick walls are said to be, in mm. None off the housing (on its number, say), and in a box of one,
    which is meant as a whole.
    """
    devices = [device for device in sorted(box.devices, key=lambda device: device.slot) if not device.planned]
    if len(devices) < 2 or box.at is None:
        return None
    dx, dy = (at[0] - box.at[0]) / scale, (at[1] - box.at[1]) / scale
    fx, fy = facing(box.angle) if box.mount in ON_WALL else (0.0, 1.0)
    along, out = dx * abs(fy) + dy * abs(fx), dx * fx + dy * fy
    off = max(OUTER, wall / scale) / 2 + (DEEP if box.placed == "guessed" else 0.0)
    depth = (-OUTER / 2, off + HOUSING_DEPTH) if box.mount in ON_WALL else (-GANG / 2, GANG / 2)
    place = int((along / GANG + len(devices) / 2) // 1)
    return devices[place] if depth[0] <= out <= depth[1] and 0 <= place < len(devices) else None
