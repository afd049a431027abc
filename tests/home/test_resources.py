from pathlib import Path

import pytest

from floorplan_circuits.home import resources
from floorplan_circuits.home.resources import folder, read_json


@pytest.mark.parametrize("name", ["resources", "sample_homes"])
def test_the_packaged_folders_are_found(name: str) -> None:
    assert folder(name).is_dir()


def test_a_folder_that_is_missing_says_what_to_do() -> None:
    with pytest.raises(FileNotFoundError, match="the folder nowhere is missing from the installation"):
        folder("nowhere")


def test_a_folder_inside_the_package_comes_first(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    package = tmp_path / "package"
    monkeypatch.setattr(resources, "_PACKAGE", package)
    (tmp_path / "resources").mkdir()
    assert folder("resources") == tmp_path / "resources"
    (package / "resources").mkdir(parents=True)
    assert folder("resources") == package / "resources"


def test_json_is_read_as_utf_8(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(resources, "_PACKAGE", tmp_path)
    (tmp_path / "resources").mkdir()
    (tmp_path / "resources" / "a.json").write_text('["½", "居"]', encoding="utf-8")
    assert read_json("a.json") == ["½", "居"]
