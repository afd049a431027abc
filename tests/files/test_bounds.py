from pathlib import Path

import pytest

from floorplan_circuits.files import bounds
from floorplan_circuits.files.bounds import Version, read_bounded, version_of
from floorplan_circuits.files.cannot import CannotOpen

FILE = Path("home.json")


def test_a_file_past_the_limit_is_refused_before_it_is_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = tmp_path / "home.json"
    with file.open("wb") as stream:
        stream.truncate(bounds.LARGEST_FILE + 1)  # a hole: takes no room on the disk

    def never(_: Path) -> bytes:
        raise AssertionError("it was read")

    monkeypatch.setattr(Path, "read_bytes", never)
    with pytest.raises(CannotOpen, match="it has 64 MB, and a home has at most 64"):
        read_bounded(file)


def test_a_file_at_the_limit_is_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(bounds, "LARGEST_FILE", 5)
    (tmp_path / "home.json").write_bytes(b"12345")
    assert read_bounded(tmp_path / "home.json") == b"12345"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ('{"format":"floorplan-circuits 1.0"}', Version(1, 0)),
        ('\n {\n\t"format" : "floorplan-circuits 12.345", "x": 1}', Version(12, 345)),
    ],
)
def test_the_version_is_read_from_the_first_bytes(text: str, expected: Version) -> None:
    assert version_of(text.encode(), FILE) == expected


@pytest.mark.parametrize("number", ["1", "1.", "-1.0", "1.0.0", "1.x", "1234567.0", ""])
def test_a_version_that_is_none_is_refused(number: str) -> None:
    with pytest.raises(CannotOpen, match="is not a format of this program"):
        version_of(f'{{"format":"floorplan-circuits {number}"}}'.encode(), FILE)


def test_versions_are_ordered_by_major_then_minor() -> None:
    assert sorted([Version(2, 0), Version(1, 10), Version(1, 9)]) == [Version(1, 9), Version(1, 10), Version(2, 0)]
    assert str(Version(1, 10)) == "1.10"
