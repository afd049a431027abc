import os
from pathlib import Path

import pytest

from floorplan_circuits.files.atomic import write_whole


def test_a_file_is_made_and_renewed(tmp_path: Path) -> None:
    file = tmp_path / "a.json"
    for content in (b"one", b"", b"three"):
        write_whole(file, content)
        assert file.read_bytes() == content
    assert [path.name for path in tmp_path.iterdir()] == ["a.json"]


def test_a_reader_in_between_still_finds_the_old_content(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = tmp_path / "a.json"
    file.write_bytes(b"old")
    seen = []
    plain = os.replace

    def watched(source: Path, target: Path) -> None:
        seen.append((file.read_bytes(), Path(source).read_bytes()))
        plain(source, target)

    monkeypatch.setattr(os, "replace", watched)
    write_whole(file, b"new")
    assert seen == [(b"old", b"new")]


def test_a_fault_while_writing_leaves_no_part_behind(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(_: int) -> None:
        raise OSError(5, "Input/output error")

    monkeypatch.setattr(os, "fsync", broken)
    with pytest.raises(OSError, match="Input/output"):
        write_whole(tmp_path / "a.json", b"new")
    assert list(tmp_path.iterdir()) == []
