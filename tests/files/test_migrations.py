from pathlib import Path

import pytest

from floorplan_circuits.files.cannot import CannotOpen
from floorplan_circuits.files.migrations import MIGRATIONS, NoMigration, Raw, migrate
from floorplan_circuits.files.open import CURRENT, read_home
from tests.files.samples import raw_text, small_home

FILE = Path("home.json")


def title_to_name(raw: Raw) -> Raw:
    rest = {key: value for key, value in raw.items() if key != "title"}
    return {**rest, "name": raw["title"]}


def test_every_major_before_the_current_one_has_its_step() -> None:
    assert sorted(MIGRATIONS) == list(range(1, CURRENT.major))


def test_steps_follow_one_another_and_write_the_version_they_reach() -> None:
    steps = {3: lambda raw: {**raw, "a": 1}, 4: lambda raw: {**raw, "b": raw["a"] + 1}}
    before = {"format": "floorplan-circuits 3.7", "kept": True}
    assert migrate(before, 3, 5, steps) == {"format": "floorplan-circuits 5.0", "kept": True, "a": 1, "b": 2}
    assert before == {"format": "floorplan-circuits 3.7", "kept": True}


def test_the_current_major_is_left_alone() -> None:
    raw = {"format": "floorplan-circuits 1.4"}
    assert migrate(raw, 1, 1, {}) is raw


def test_a_missing_step_is_named() -> None:
    with pytest.raises(NoMigration) as caught:
        migrate({}, 3, 5, {3: lambda raw: raw})
    assert caught.value.major == 4


def test_a_file_of_an_older_major_opens_through_its_steps() -> None:
    old = raw_text(format="floorplan-circuits 0.9", title="Elm Street").replace('"name": "Elm Street", ', "")
    stored = read_home(old.encode(), FILE, {0: title_to_name})
    assert stored.home == small_home()
    assert not stored.read_only


def test_a_file_too_old_for_any_step_is_refused() -> None:
    with pytest.raises(CannotOpen, match=r"it was written in format 0\.9, and no way leads on from 0"):
        read_home(raw_text(format="floorplan-circuits 0.9").encode(), FILE)


def test_an_older_file_that_its_step_cannot_take_is_refused() -> None:
    with pytest.raises(CannotOpen, match="could not be brought up to date"):
        read_home(raw_text(format="floorplan-circuits 0.9").encode(), FILE, {0: title_to_name})


def test_an_older_file_that_breaks_off_is_refused_with_its_place() -> None:
    with pytest.raises(CannotOpen, match="the file ends too early"):
        read_home(b'{"format":"floorplan-circuits 0.9"', FILE, {0: title_to_name})
