import base64
from hashlib import sha256
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorplan_circuits.files.cannot import CannotOpen
from floorplan_circuits.files.open import read_home
from floorplan_circuits.files.pictures import BadPicture, joined, picture_hash, split
from floorplan_circuits.home.home import Picture
from tests.files.samples import raw_text

CONTENT = b"\x89PNG and so on"


def row(content: bytes = CONTENT, name: str | None = None, data: str | None = None) -> Picture:
    text = base64.b64encode(content).decode() if data is None else data
    return Picture(hash=name or sha256(content).hexdigest(), media="image/png", data=text, caption="the panel")


def test_a_picture_is_named_by_the_hash_of_its_bytes() -> None:
    # The digest of no bytes at all is printed in FIPS 180's example files and known to every tool.
    assert picture_hash(b"") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"


@given(st.lists(st.binary(min_size=1, max_size=50), max_size=4, unique=True))
def test_parting_and_joining_give_the_rows_back(contents: list[bytes]) -> None:
    rows = tuple(row(content) for content in contents)
    bare, pictures = split(rows)
    assert all(picture.data == "" and picture.caption == "the panel" for picture in bare)
    assert list(pictures.values()) == contents
    assert tuple(joined(bare, pictures)) == rows


def test_the_start_of_a_hash_is_enough_from_eight_digits() -> None:
    name = picture_hash(CONTENT)[:8]
    assert split([row(name=name)])[1] == {name: CONTENT}


@pytest.mark.parametrize("data", ["!!!!", "QQ", "QQ=", "Q Q=", "QQ==\n"])
def test_data_that_is_not_base64_is_refused(data: str) -> None:
    with pytest.raises(BadPicture, match="not base64"):
        split([row(data=data)])


def test_data_of_another_picture_is_refused_with_its_row() -> None:
    with pytest.raises(BadPicture) as caught:
        split([row(), row(content=b"another", data=base64.b64encode(b"one").decode())])
    assert caught.value.row == 2


def test_a_row_without_data_stays_and_has_no_bytes() -> None:
    bare, pictures = split([row(data="")])
    assert (len(bare), pictures) == (1, {})
    assert next(joined(bare, {})) == bare[0]


def test_a_home_with_a_broken_picture_says_how_to_open_it_all_the_same() -> None:
    pictures = [row().model_dump(), {**row().model_dump(), "hash": "0" * 64}]
    with pytest.raises(CannotOpen, match="pictures, row 2: its data is not the picture that its hash names") as caught:
        read_home(raw_text(pictures=pictures).encode(), Path("home.json"))
    assert "open the home without it" in str(caught.value)
    pictures[1]["data"] = ""
    assert len(read_home(raw_text(pictures=pictures).encode(), Path("home.json")).home.pictures) == 2
