from pathlib import Path

import pytest

from floorplan_circuits.files.cannot import CannotSave
from floorplan_circuits.files.pictures import picture_hash
from floorplan_circuits.files.rescue import Rescue, drop_rescue, list_rescues, open_rescue, write_rescue
from floorplan_circuits.files.save import save_home
from floorplan_circuits.home.home import Picture
from floorplan_circuits.home.record import change
from tests.files.samples import small_home

PHOTO = b"a photo"


def test_a_rescue_copy_is_found_again_with_the_home_it_is_of(tmp_path: Path) -> None:
    folder, of = tmp_path / "rescue", tmp_path / "home.json"
    written = write_rescue(folder, small_home(), of)
    assert list_rescues(folder) == (written,) == (Rescue(written.path, of),)
    assert open_rescue(written).home == small_home()


def test_a_home_has_one_copy_and_the_last_one_counts(tmp_path: Path) -> None:
    for name in ("Elm Street", "Oak Street"):
        rescue = write_rescue(tmp_path, change(small_home(), name=name), tmp_path / "home.json")
    other = write_rescue(tmp_path, small_home(), tmp_path / "other.json")
    assert set(list_rescues(tmp_path)) == {rescue, other}
    assert open_rescue(rescue).home.name == "Oak Street"


def test_a_home_that_was_never_saved_has_a_copy_too(tmp_path: Path) -> None:
    rescue = write_rescue(tmp_path, small_home(), None)
    assert list_rescues(tmp_path) == (rescue,)
    assert rescue.of is None


def test_pictures_come_from_the_home_itself_and_are_not_copied(tmp_path: Path) -> None:
    file = tmp_path / "home.json"
    home = change(small_home(), pictures=(Picture(hash=picture_hash(PHOTO), media="image/png"),))
    save_home(file, home, {picture_hash(PHOTO): PHOTO, "0" * 64: b"of no row"})
    rescue = write_rescue(tmp_path / "rescue", home, file)
    assert '"data"' not in rescue.path.read_text(encoding="utf-8")
    assert open_rescue(rescue).pictures == {picture_hash(PHOTO): PHOTO}
    file.write_text("broken")
    assert open_rescue(rescue).pictures == {}


def test_a_picture_that_no_file_has_yet_is_kept_beside_the_copy_once_and_goes_with_it(tmp_path: Path) -> None:
    name = picture_hash(PHOTO)
    home = change(small_home(), pictures=(Picture(hash=name, media="image/png"),))
    rescue = write_rescue(tmp_path, home, None, {name: PHOTO, picture_hash(b"undone"): b"undone"})
    (beside,) = tmp_path.glob("*.picture")
    written = beside.stat().st_mtime_ns
    write_rescue(tmp_path, home, None, {name: PHOTO})
    assert beside.stat().st_mtime_ns == written
    assert open_rescue(rescue).pictures == {name: PHOTO}
    beside.write_bytes(b"by half")
    assert open_rescue(rescue).pictures == {}
    drop_rescue(rescue)
    assert list(tmp_path.iterdir()) == []


def test_a_copy_that_is_dropped_is_gone_and_dropping_it_twice_is_no_error(tmp_path: Path) -> None:
    rescue = write_rescue(tmp_path, small_home(), tmp_path / "home.json")
    drop_rescue(rescue)
    drop_rescue(rescue)
    assert list(tmp_path.iterdir()) == []


def test_no_folder_means_no_copies(tmp_path: Path) -> None:
    assert list_rescues(tmp_path / "never made") == ()


def test_a_folder_that_cannot_be_made_is_told(tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("a file")
    with pytest.raises(CannotSave):
        write_rescue(tmp_path / "taken", small_home(), None)
