"""One row of gangs laid out: where its columns, cables, plates and devices stand."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import accumulate

from floorplan_circuits.drawing.close_up_bodies import EAR_HIGH, Face, Look
from floorplan_circuits.drawing.close_up_cables import Laid, laid_cables, tiers
from floorplan_circuits.drawing.close_up_faces import face
from floorplan_circuits.drawing.close_up_facts import Lane
from floorplan_circuits.drawing.close_up_rows import SIDE, Column, Measure
from floorplan_circuits.drawing.ink import Bounds
from floorplan_circuits.drawing.plates import text_height

PAD = 6.0
"""mm between the edge of the picture and what stands in it."""
FOOT_SIZE = 8.4
FOOT_PITCH = text_height(FOOT_SIZE) + 0.6
CABLE_SHOWN, UNCABLED = 12.0, 2.0
"""How much of a cable shows outside the box beside its plate, in parts of a gang's measure; mm where there is none."""
WIRED, UNWIRED, LEAST_UNWIRED = 12.0, 4.5, 2.6
"""Room for wires between a device and the edge of the box, in parts of a gang's measure; less where there are none."""
LEAST_INNER, LEAST_HIGH = 30.0, 26.0
"""The least inside of a box, in parts of a gang's measure."""
BELOW_PASSING = 4.5
TIER_GAP = 0.8


@dataclass(frozen=True, slots=True)
class Row:
    """One row laid out, in mm of the picture: a column's left edge, cables and face stand at the same place in each.

    `box` is its housing and `middle` the line that devices are centred on; `top` and `foot` are where cables are cut
    off; `bottom` is below the words of what passes.
    """

    columns: tuple[Column, ...]
    lefts: tuple[float, ...]
    above: tuple[list[Laid], ...]
    below: tuple[list[Laid], ...]
    faces: tuple[Face | None, ...]
    box: Bounds
    middle: float
    top: float
    foot: float
    bottom: float

    def cables(self) -> Iterator[tuple[int, Laid]]:
        """Yield every cable with the place of its column."""
        for side in (self.above, self.below):
            for nth, mine in enumerate(side):
                yield from ((nth, laid) for laid in mine)


def passes(column: Column) -> bool:
    """Tell whether a column is a cable that passes through."""
    return isinstance(column.thing, Lane) and column.thing.passes


def spread(columns: tuple[Column, ...], wide: float, measure: Measure) -> tuple[Column, ...]:
    """Return the columns of a row in a picture of this width, wider where together they would make no box."""
    least = min(LEAST_INNER * measure.u, wide - 2 * PAD - 2 * SIDE)
    grow = max(1.0, least / sum(one.width for one in columns))
    return tuple(replace(one, width=one.width * grow) for one in columns)


def laid_out(columns: tuple[Column, ...], left: float, top: float, look: Look) -> Row:
    """Lay one row out from its left edge and its top."""
    u = look.measure.u
    lefts = tuple(accumulate((one.width for one in columns[:-1]), initial=left))
    both = tuple(zip(columns, lefts, strict=True))
    above, below = (tuple(laid_cables(one, x, look, side) for one, x in both) for side in (False, True))
    high = max([drawn.high for one, x in both if (drawn := _face(one, x, 0.0, look))], default=LEAST_HIGH * u)
    box_top = top + _outside(max(map(tiers, above)), look)
    middle = box_top + (WIRED + EAR_HIGH) * u + high / 2
    under = WIRED * u if any(below) else max(UNWIRED * u, LEAST_UNWIRED)
    box_bottom = middle + high / 2 + EAR_HIGH * u + under
    passing = sum(map(passes, columns))
    foot = box_bottom + (_outside(max(map(tiers, below)), look) if any(below) else BELOW_PASSING if passing else 0.0)
    return Row(
        columns,
        lefts,
        above,
        below,
        faces=tuple(_face(one, x, middle, look) for one, x in both),
        box=(left - SIDE, box_top, lefts[-1] + columns[-1].width + SIDE, box_bottom),
        middle=middle,
        top=top,
        foot=foot,
        bottom=foot + passing * FOOT_PITCH,
    )


def _outside(tier_count: int, look: Look) -> float:
    """Return how much of the cables shows outside the box, in mm."""
    plates = tier_count * (look.measure.plate_high + TIER_GAP)
    return CABLE_SHOWN * look.measure.u + plates if tier_count else UNCABLED


def _face(column: Column, left: float, middle: float, look: Look) -> Face | None:
    """Return the device of a column as it is drawn, None for a cable without one."""
    if isinstance(column.thing, Lane):
        return None
    order = [one.feed for one in column.thing.strands]
    strands = sorted((one for cable in column.cables for one in cable.strands), key=lambda one: order.index(one.feed))
    return face(column.thing, strands, (left + column.width / 2, middle), column.width, look)


def plate_middle(laid: Laid, row: Row, look: Look) -> float:
    """Return how high the plate of a cable stands."""
    step = laid.tier * (look.measure.plate_high + TIER_GAP)
    step += (CABLE_SHOWN * look.measure.u + look.measure.plate_high + TIER_GAP) / 2
    return row.box[3] + step if laid.cable.from_below else row.box[1] - step


def foot_line(column: Column, row: Row) -> float:
    """Return where a passing cable is cut off and its words stand: the leftmost lowest, so that none crosses."""
    passing = [one for one in row.columns if passes(one)]
    line = next(len(passing) - nth for nth, one in enumerate(passing) if one is column)
    return row.foot + line * FOOT_PITCH
