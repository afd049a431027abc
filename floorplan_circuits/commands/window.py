"""The window: Qt loads only here."""

import argparse
import os
import sys
from collections.abc import Sequence
from pathlib import Path

from floorplan_circuits.commands.shared import UNREADABLE


def read(words: Sequence[str]) -> argparse.Namespace:
    """Read what the window is opened with."""
    parser = argparse.ArgumentParser(
        prog="floorplan-circuits",
        description="Open the window, with HOME if it is given.",
        epilog="Without a window: 'floorplan-circuits check HOME', 'floorplan-circuits known HOME', "
        "'floorplan-circuits print HOME --output map.pdf'.",
    )
    parser.add_argument("home", nargs="?", type=Path, metavar="HOME", help="the home's file")
    return parser.parse_args(words)


def run(options: argparse.Namespace) -> int:
    """Open the window, if there is a display."""
    if not _has_display():
        print(
            "There is no display to open a window on: use 'floorplan-circuits check HOME' "
            "or 'floorplan-circuits print HOME --output map.pdf' instead.",
            file=sys.stderr,
        )
        return UNREADABLE
    from floorplan_circuits.desktop.program import run

    return run(options.home)


def _has_display() -> bool:
    """Tell whether Qt could open a window here. On Linux it ends the process where it can't, so ask before."""
    if not sys.platform.startswith("linux"):
        return True
    return any(os.environ.get(name) for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"))
