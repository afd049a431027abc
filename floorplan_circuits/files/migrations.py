"""Migrations: from one major version of the file to the next, as plain `dict -> dict`, never through the records.

A file outlives the records that once read it, so a step knows nothing of `home/`: it moves and renames what stands in
the JSON, and the newest records then check what came out.
"""

from collections.abc import Callable, Mapping
from typing import Any

Raw = dict[str, Any]
Migration = Callable[[Raw], Raw]

MIGRATIONS: Mapping[int, Migration] = {}
"""Major version -> the step from it to the next one. There has been only one major version so far."""


class NoMigration(LookupError):
    """No step leads on from this major version."""

    def __init__(self, major: int) -> None:
        super().__init__(major)
        self.major = major


def migrate(raw: Raw, major: int, to: int, steps: Mapping[int, Migration] = MIGRATIONS) -> Raw:
    """Take a file's content from version `major` up to version `to`, one step after another.

    The content given is not altered if the steps do not alter it. Raises `NoMigration` where a step is missing.

    Examples:
        >>> migrate({"format": "floorplan-circuits 1.4", "title": "Ours"}, 1, 2, {1: lambda raw: {**raw, "new": 0}})
        {'format': 'floorplan-circuits 2.0', 'title': 'Ours', 'new': 0}
    """
    for step in range(major, to):
        if step not in steps:
            raise NoMigration(step)
        raw = {**steps[step](raw), "format": f"floorplan-circuits {step + 1}.0"}
    return raw
