"""Which gang is pointed at: the one drawn there, however thick its wall, and though its place is a guess."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.desktop.gangs import device_at
from floorplan_circuits.drawing.ink import Stamp, flat
from floorplan_circuits.drawing.palette import LIGHT
from floorplan_circuits.drawing.plan import plan
from floorplan_circuits.find import find
from tests.drawing.drawn import box, device, fed, home, room, symbols_of

ROOM = room(30, "Study", 0, 0, 4000, 3000)
STANDS = {90: (2000, 0), 180: (4000, 1500), 270: (2000, 3000), 0: (0, 1500)}


@pytest.mark.parametrize("angle", STANDS)
@given(st.integers(0, 600), st.sampled_from(["seen", "guessed"]), st.sampled_from([10.0, 25.0, 50.0, 100.0]))
@settings(max_examples=12, deadline=None)
def test_the_symbol_that_is_clicked_names_its_device(angle: int, wall: int, placed: str, scale: float) -> None:
    devices = [device(number, fed(number + 1), kind="switch", slot=at + 1) for at, number in enumerate((41, 43, 45))]
    one = box(20, STANDS[angle], *devices, angle=angle, gangs=3, placed=placed)
    shown = find(home(boxes=(one,), rooms=(ROOM,), wall=wall))
    (drawn,) = symbols_of(plan(shown, 1, scale, LIGHT))
    places = [mark.at for mark in flat(drawn) if isinstance(mark, Stamp)]

    hit = [device_at(one, (x * scale, y * scale), scale, wall) for x, y in places]
    assert [found.id for found in hit if found is not None] == [41, 43, 45]
    far, (x, y) = round(12 * scale + wall), STANDS[angle]
    beyond = {90: (x, y + far), 180: (x - far, y), 270: (x, y - far), 0: (x + far, y)}[angle]
    assert device_at(one, beyond, scale, wall) is None
