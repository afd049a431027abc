"""The command line: print, check, and what else needs no window; or open the window."""

import argparse
import gc
import sys
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from typing import Protocol

from floorplan_circuits.commands import (
    check,
    csv_tables,
    directory,
    known,
    print_sheet,
    revive,
    rounds,
    same,
    shutoff,
    window,
)


class Command(Protocol):
    """One file of `commands/`."""

    def read(self, words: Sequence[str]) -> argparse.Namespace:
        """Read what the command was given; end the program with a sentence where it can't be."""

    def run(self, options: argparse.Namespace) -> int:
        """Do it, and return the exit status."""


COMMANDS: Mapping[str, Command] = {
    "print": print_sheet,
    "check": check,
    "known": known,
    "directory": directory,
    "csv": csv_tables,
    "shutoff": shutoff,
    "revive": revive,
    "rounds": rounds,
    "same": same,
}


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command and return its exit status: 0 nothing found, 1 hazards or clashes, 2 unreadable or no display."""
    words = list(sys.argv[1:] if arguments is None else arguments)
    command = COMMANDS.get(words[0]) if words else None
    with _collector_out_of_the_way():
        if command is None:
            return window.run(window.read(words))
        return command.run(command.read(words[1:]))


@contextmanager
def _collector_out_of_the_way() -> Iterator[None]:
    """Keep the cycle collector off while all that is made is needed, and from walking it once more at the end."""
    gc.disable()
    try:
        yield
    finally:
        gc.freeze()
        gc.enable()
