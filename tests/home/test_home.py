from typing import get_origin

import pytest
from pydantic import ValidationError

from floorplan_circuits.home.home import FORMAT, TABLES, Home, Picture, existing_feeds, feeds, mains
from floorplan_circuits.home.record import change
from floorplan_circuits.home.table import Table
from tests.home.samples import sample


def test_an_empty_home_is_a_home() -> None:
    assert Home() == Home(format=FORMAT, name="", units="metric", system="not known", next_id=1)
    assert list(feeds(Home())) == []


def test_the_tables_are_named_in_the_order_of_the_file() -> None:
    declared = [name for name, field in Home.model_fields.items() if get_origin(field.annotation) is Table]
    assert list(TABLES) == declared
    assert next(iter(Home.model_fields)) == "format"
    assert list(Home.model_fields)[-2:] == ["log", "pictures"]


def test_every_feed_is_told_with_its_box_and_device() -> None:
    found = [(place.box.mark, place.device and place.device.id, place.feed.id) for place in feeds(sample())]
    assert found == [("B1", 11, 12), ("B1", 13, 14), ("B1", None, 15), ("B2", 17, 18)]


def test_what_is_only_planned_does_not_exist_and_a_cable_without_a_device_does() -> None:
    assert [place.feed.id for place in existing_feeds(sample())] == [12, 14, 15]


def test_mains_are_told_with_their_panel() -> None:
    assert [(panel.name, main.id) for panel, main in mains(sample())] == [("Main", 21), ("Garage", 23)]


def test_a_home_passes_through_json_unchanged() -> None:
    assert Home.model_validate_json(sample().model_dump_json()) == sample()


def test_changing_one_table_leaves_the_records_of_the_others_the_very_same_objects() -> None:
    before = sample()
    after = change(before, levels=before.levels.put(change(before.levels[1], name="Cellar")))
    assert after.levels[1].name == "Cellar"
    assert after.boxes is before.boxes
    assert after.log[0] is before.log[0]


@pytest.mark.parametrize("name", ["", "abc", "ABCDEF01", "a" * 65, "../../etc"])
def test_a_picture_is_named_by_hexadecimal_digits(name: str) -> None:
    assert Picture(hash="abcdef01", media="image/png").data == ""
    with pytest.raises(ValidationError):
        Picture(hash=name, media="image/png")
