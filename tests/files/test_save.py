import json
import os
import stat
from pathlib import Path

import pytest
from hypothesis import given, settings

from floorplan_circuits.files import atomic, save
from floorplan_circuits.files.cannot import CannotSave
from floorplan_circuits.files.open import open_home, read_home
from floorplan_circuits.files.save import previous_of, save_home, text_of
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import change
from tests.files.samples import raw_text, small_home
from tests.files.strategies import Kept, kept_homes

FILE = Path("home.json")


@given(kept_homes())
@settings(max_examples=80, deadline=None)
def test_what_is_saved_opens_as_the_same_home_and_saves_as_the_same_text(kept: Kept) -> None:
    text = text_of(*kept)
    stored = read_home(text.encode(), FILE)
    assert (stored.home, stored.pictures) == kept
    assert text_of(stored.home, stored.pictures) == text


@given(kept_homes())
@settings(max_examples=40, deadline=None)
def test_an_ordinary_json_reader_finds_all_that_the_home_holds(kept: Kept) -> None:
    raw = json.loads(text_of(*kept))
    assert Home.model_validate({**raw, "pictures": []}, strict=False) == change(kept.home, pictures=())


@given(kept_homes())
@settings(max_examples=40, deadline=None)
def test_format_stands_first_and_pictures_last_and_every_record_on_a_line_of_its_own(kept: Kept) -> None:
    text = text_of(*kept)
    keys = list(json.loads(text))
    assert keys[0] == "format"
    assert keys[-1] == "pictures"
    starts = [line for line in text.split("\n") if line.startswith("    {")]
    assert len(starts) == sum(len(rows) for rows in (kept.home.levels, kept.home.boxes, kept.home.log)) + 2 + len(
        kept.home.pictures
    )


def test_the_text_of_an_empty_home_can_be_read_at_a_glance() -> None:
    assert text_of(Home(name="Elm Street")) == (
        "{\n"
        '  "format": "floorplan-circuits 1.0",\n'
        '  "name": "Elm Street",\n'
        '  "units": "metric",\n'
        '  "system": "not known",\n'
        '  "wall": 0,\n'
        '  "next_id": 1,\n'
        '  "marks_given": 0,\n'
        '  "levels": [],\n'
        '  "rooms": [],\n'
        '  "openings": [],\n'
        '  "stairs": [],\n'
        '  "boxes": [],\n'
        '  "controls": [],\n'
        '  "panels": [],\n'
        '  "breakers": [],\n'
        '  "sources": [],\n'
        '  "log": [],\n'
        '  "pictures": []\n'
        "}\n"
    )


def test_a_record_tells_only_what_is_not_its_default_in_declared_order() -> None:
    text = text_of(small_home())
    assert '\n    {"id":10,"mark":"B1","level":1,"at":[0,500]},\n' in text
    assert '\n    {"id":11,"mark":"B2"},\n' in text


def test_unknown_fields_stand_after_the_tables_and_survive_at_every_depth() -> None:
    levels = [{"id": 1, "name": "Attic", "später": {"b": [1, 2.0, None]}}]
    home = read_home(raw_text(levels=levels, boxes=[], rooms=[], log=[], a_new_table=[{"id": 1}]).encode(), FILE).home
    text = text_of(home)
    assert '    {"id":1,"name":"Attic","später":{"b":[1,2.0,null]}}\n' in text
    assert text.index('"log"') < text.index('  "a_new_table": [{"id":1}],\n') < text.index('"pictures"')


def test_an_entry_of_an_unknown_kind_is_written_back() -> None:
    home = read_home(
        raw_text(log=[{"id": 20, "kind": "sniffed", "feeds": [14], "date": "2024-05-01"}]).encode(), FILE
    ).home
    assert '    {"id":20,"date":"2024-05-01","kind":"sniffed","feeds":[14]}\n' in text_of(home)


def test_an_unknown_field_as_deep_and_long_as_the_reader_takes_is_written_back() -> None:
    deep, wide = "[" * 190 + "]" * 190, "7" * 4000
    home = read_home(raw_text()[:-1].encode() + f',"deep":{deep},"wide":{wide}}}'.encode(), FILE).home
    text = text_of(home)
    assert f'  "deep": {deep},\n  "wide": {wide},\n' in text
    assert read_home(text.encode(), FILE).home == home


def test_a_save_keeps_the_version_before_beside_it(tmp_path: Path) -> None:
    file = tmp_path / "home.json"
    first, second = small_home(), change(small_home(), name="Oak Street")
    save_home(file, first)
    assert not previous_of(file).exists()
    save_home(file, second)
    assert previous_of(file) == tmp_path / "home.previous.json"
    assert (open_home(file).home, open_home(previous_of(file)).home) == (second, first)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["home.json", "home.previous.json"]


def test_saving_the_same_home_again_keeps_the_older_version(tmp_path: Path) -> None:
    file = tmp_path / "home.json"
    first, second = small_home(), change(small_home(), name="Oak Street")
    for home in (first, second, second):
        save_home(file, home)
    assert open_home(previous_of(file)).home == first


@pytest.mark.parametrize("step", ["write", "sync", "replace"])
def test_a_save_that_fails_leaves_the_old_file_and_nothing_else(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, step: str
) -> None:
    file = tmp_path / "home.json"
    save_home(file, small_home())

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    where, name = {"write": (atomic, "_write_through"), "sync": (os, "fsync"), "replace": (os, "replace")}[step]
    monkeypatch.setattr(where, name, full)
    with pytest.raises(CannotSave, match=r"^home\.json was not saved: No space left on device\. The file is as it was"):
        save_home(file, change(small_home(), name="Oak Street"))
    monkeypatch.undo()
    assert open_home(file).home == small_home()
    assert [path.name for path in tmp_path.iterdir()] == ["home.json"]


def test_a_save_that_fails_at_the_very_last_step_leaves_the_old_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "home.json"
    save_home(file, small_home())
    plain = save.write_whole

    def only_the_previous(path: Path, content: bytes) -> None:
        if path == file:
            raise OSError(5, "Input/output error")
        plain(path, content)

    monkeypatch.setattr(save, "write_whole", only_the_previous)
    with pytest.raises(CannotSave, match="Input/output error"):
        save_home(file, change(small_home(), name="Oak Street"))
    assert open_home(file).home == open_home(previous_of(file)).home == small_home()


def test_a_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(CannotSave, match="No such file or directory"):
        save_home(tmp_path / "gone" / "home.json", small_home())


def test_a_text_that_no_file_can_hold_is_told(tmp_path: Path) -> None:
    odd = change(small_home()).model_copy(update={"name": "\ud800"})
    with pytest.raises(CannotSave):
        save_home(tmp_path / "home.json", odd)
    assert list(tmp_path.iterdir()) == []


def test_what_could_not_be_opened_again_is_not_saved(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(save, "LARGEST_FILE", 100)
    with pytest.raises(CannotSave, match="Remove pictures, or make them smaller"):
        save_home(tmp_path / "home.json", small_home())
    assert list(tmp_path.iterdir()) == []


@pytest.mark.skipif(os.name != "posix", reason="only these systems have links and permissions of this kind")
def test_a_link_stays_a_link_and_permissions_stay_as_they_were(tmp_path: Path) -> None:
    real, link = tmp_path / "real.json", tmp_path / "home.json"
    save_home(real, small_home())
    real.chmod(0o640)
    link.symlink_to(real)
    save_home(link, change(small_home(), name="Oak Street"))
    assert link.is_symlink()
    assert open_home(real).home.name == "Oak Street"
    assert stat.S_IMODE(real.stat().st_mode) == 0o640
