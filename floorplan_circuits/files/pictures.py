"""Pictures by hash: base64 in the file, bytes beside an open home, so that undo never copies them."""

import base64
import binascii
from collections.abc import Iterable, Iterator, Mapping
from hashlib import sha256

from floorplan_circuits.home.home import Picture
from floorplan_circuits.home.record import change

MOST_BYTES = 44 * 2**20
"""Of all pictures of a home together: as base64 they still leave room in the largest file that can be opened."""


class BadPicture(ValueError):
    """The bytes of a picture in the file are not what its hash says. `row` counts from 1."""

    def __init__(self, row: int, says: str) -> None:
        super().__init__(row, says)
        self.row, self.says = row, says


def picture_hash(content: bytes) -> str:
    """Return the name of a picture: SHA-256 of its bytes, in lower-case hexadecimal digits."""
    return sha256(content).hexdigest()


def split(rows: Iterable[Picture]) -> tuple[tuple[Picture, ...], dict[str, bytes]]:
    """Part the rows of a file from their bytes: rows without data, and hash -> bytes.

    A row without data stays a row: a rescue copy has none. Raises `BadPicture` where bytes and hash do not agree.
    """
    bare, content = [], {}
    for place, row in enumerate(rows, 1):
        if row.data:
            content[row.hash] = _content(row, place)
        bare.append(change(row, data="") if row.data else row)
    return tuple(bare), content


def _content(row: Picture, place: int) -> bytes:
    try:
        content = base64.b64decode(row.data, validate=True)
    except (binascii.Error, ValueError):
        raise BadPicture(place, "its data is not base64") from None
    if not picture_hash(content).startswith(row.hash):
        raise BadPicture(place, "its data is not the picture that its hash names")
    return content


def joined(rows: Iterable[Picture], content: Mapping[str, bytes]) -> Iterator[Picture]:
    """Yield the rows with their bytes as base64, as they stand in a file."""
    for row in rows:
        found = content.get(row.hash)
        yield row if found is None else change(row, data=base64.b64encode(found).decode("ascii"))


def have_room(rows: Iterable[Picture], content: Mapping[str, bytes], added: bytes) -> bool:
    """Tell whether another picture still fits into the file beside those of the home."""
    return sum(len(content.get(row.hash, b"")) for row in rows) + len(added) <= MOST_BYTES
