"""Three old panel doors as people write them, invented: each taken through to a card without one bad line."""

import pytest

from floorplan_circuits.edits.breakers import set_breaker
from floorplan_circuits.edits.meanings import explain
from floorplan_circuits.find import find
from floorplan_circuits.reports.directory import is_objected_to
from tests.directory.test_judge import home_with

DOORS = {
    "a farmhouse, in pencil": (
        ("KIT", "Kit & D.R.", "Frig??", "wtr htr", "Grandmas rm", "upst lts", "barn ?", "misc", "same",
         "pump (OFF in winter)"),
        {"kit": "kitchen", "frig": "refrigerator", "wtr": "water", "htr": "heater",
         "rm": "room", "upst": "upstairs", "lts": "lights"},
    ),
    "a rental, by six hands": (
        ("plugs", "PLUGS 2", "new plugs", "Tenant AC", "bth gfi", "LR", "DR?", "office", "dont know", "A/C"),
        {"bth": "bathroom", "lr": "living room", "dr": "dining room"},
    ),
    "a finished basement, by a label maker": (
        ("BSMT REC LTS", "BSMT REC PLG", "HOME THEATER", "W/D", "FURN", "SUMP", "SPARE",
         "MSTR BTH FLR HT", "GDO", "EXT RECPT"),
        {"bsmt": "basement", "rec": "recreation room", "lts": "lights", "plg": "plugs", "w/d": "washer and dryer",
         "furn": "furnace", "sump": "sump pump", "mstr": "main bedroom", "bth": "bathroom", "flr": "floor",
         "ht": "heat", "gdo": "garage door opener", "ext": "exterior", "recpt": "receptacles"},
    ),
}  # fmt: skip
FOUND_OUT = (
    "Kitchen: receptacles, window wall",
    "Dining room: receptacles",
    "Refrigerator, kitchen",
    "Water heater, basement",
    "Front bedroom: receptacles and lights",
    "Upstairs lights",
    "Garage: lights",
    "Porch lights",
    "Hall and stairs: lights",
    "Well pump, basement",
)
"""What somebody found out in the end, in ten lines of their own."""


@pytest.mark.parametrize("door", DOORS)
def test_an_old_door_is_asked_about_once_judged_and_left_legible(door) -> None:
    labels, answers = DOORS[door]
    home = home_with(*labels)
    before = find(home).directory
    asked = [one.short for one in before.asked]
    assert len(asked) == len(set(asked))
    assert sum(bool(line.of_old) for line in before.lines.values()) >= 5

    for short, means in answers.items():
        assert short in asked
        home = explain(home, short, means).home
    assert not {one.short for one in find(home).directory.asked} & set(answers)
    assert [one.as_found for one in home.breakers] == list(labels)

    for breaker, words in zip(home.breakers.ids(), FOUND_OUT, strict=True):
        home = set_breaker(home, breaker, wording=words).home
    after = find(home)
    assert [verdict.says for line in after.directory.lines.values() for verdict in line.of_now] == []
    assert not is_objected_to(after)
    assert [line.old for line in after.directory.lines.values()] == list(labels)
