"""Write a file whole or not at all."""

import os
import secrets
import shutil
from pathlib import Path

WRITE_FAULTS = (OSError, ValueError)
"""What a failed write raises: the system's errors, and a text that no encoding can hold."""


def write_whole(path: Path, content: bytes) -> None:
    """Put `content` in the file at once: a reader finds the old or the new, never a part. Raises OSError.

    A link is followed, so that the file it names is renewed and the link stays.
    """
    target = path.resolve()
    part = target.with_name(f".{target.name}.{secrets.token_hex(4)}.part")
    try:
        _write_through(part, content)
        if target.exists():
            shutil.copymode(target, part)
        os.replace(part, target)
    finally:
        part.unlink(missing_ok=True)
    _settle(target.parent)


def _write_through(path: Path, content: bytes) -> None:
    with path.open("xb") as stream:
        stream.write(content)
        stream.flush()
        os.fsync(stream.fileno())


def _settle(folder: Path) -> None:
    """Have the folder's new entry on the disk too, where the system lets a folder be opened for that."""
    if os.name == "posix":
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
