"""A value that no record can hold, told in a sentence."""

import pytest
from pydantic import ValidationError

from floorplan_circuits.edits.misfits import PREFIX, TOO_FAR, misfit
from floorplan_circuits.home.boxes import Box, Device
from floorplan_circuits.home.building import Level
from floorplan_circuits.home.power import Breaker, Panel, Pole
from floorplan_circuits.home.record import Record, change

BOX = Box(id=1, mark="B1", level=2, at=(0, 0))
BREAKER = Breaker(id=1, panel=2, poles=(Pole(space=1),))


@pytest.mark.parametrize(
    ("record", "fields", "says"),
    [
        (BREAKER, {"amps": 0}, "The rating in amps is at least 1."),
        (BREAKER, {"amps": 6001}, "The rating in amps is at most 6,000."),
        (BREAKER, {"amps": 1.5}, "The rating in amps is a whole number."),
        (BREAKER, {"as_found": "x" * 121}, "The old label has at most 120 letters."),
        (BREAKER, {"as_found": "a\nb"}, "The old label is one line of letters that print."),
        (BREAKER, {"as_found": 5}, "The old label can't be that."),
        (BREAKER, {"poles": ()}, "The list of poles has at least 1 entries."),
        (BREAKER, {"poles": (Pole(space=1),) * 5}, "The list of poles has at most 4 entries."),
        (BREAKER, {"device": "switch"}, "The device is one of 'breaker' or 'fuse'."),
        (BOX, {"at": (10**7 + 1, 0)}, TOO_FAR),
        (BOX, {"at": (0, -(10**7) - 1)}, TOO_FAR),
        (Level(id=1, name="Sky"), {"order": 201}, "The order is at most 200."),
        (Device(id=1, kind="switch"), {"va": -1}, "The load in VA is at least 0."),
        (Panel(id=1, name="Main", spaces=8), {"prefix": "garage"}, PREFIX),
    ],
)
def test_the_sentence_names_the_field_and_its_bounds(record: Record, fields, says):
    with pytest.raises(ValidationError) as caught:
        change(record, **fields)

    assert misfit(caught.value) == says
