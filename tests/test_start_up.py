"""Start-up: what is loaded before the first frame, and what the command line never loads."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from floorplan_circuits.home.resources import folder

SAMPLE = str(folder("sample_homes") / "cottage.json")
SLOW = {"shapely", "networkx", "numpy", "reportlab", "PIL"}

WINDOW = """
import json, os, sys
import floorplan_circuits.cli as cli
from floorplan_circuits.desktop.window import Window
paint = Window.paintEvent
def painted(window, event):
    paint(window, event)
    print(json.dumps(sorted(sys.modules)), flush=True)
    os._exit(0)
Window.paintEvent = painted
cli.main([sys.argv[1]])
"""
"""The command as it is, and a window that tells what is loaded when its first frame is painted, then ends."""

COMMAND = """
import json, sys
import floorplan_circuits.cli as cli
status = cli.main(sys.argv[1:])
print(json.dumps(sorted(sys.modules)))
sys.exit(status)
"""


def loaded_by(program: str, *arguments: str) -> set[str]:
    """Return the top-level names of all modules that a child process had loaded when it printed them."""
    ended = subprocess.run(
        [sys.executable, "-c", program, *arguments],
        env={**os.environ, "QT_QPA_PLATFORM": "offscreen"},
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert ended.returncode in (0, 1), ended.stderr[-2000:]
    return {name.partition(".")[0] for name in json.loads(ended.stdout.splitlines()[-1])}


def test_the_first_frame_waits_for_no_geometry_graph_or_pdf_library() -> None:
    loaded = loaded_by(WINDOW, SAMPLE)
    assert "PySide6" in loaded
    assert loaded & SLOW == set()


@pytest.mark.parametrize("command", ["check", "print"])
def test_the_command_line_never_loads_qt(command: str, tmp_path: Path) -> None:
    more = ("--output", str(tmp_path / "map.pdf")) if command == "print" else ()
    loaded = loaded_by(COMMAND, command, SAMPLE, *more)
    assert "shapely" in loaded
    assert loaded & {"PySide6", "shiboken6"} == set()


def test_checking_a_home_loads_neither_graphs_nor_pdf() -> None:
    assert loaded_by(COMMAND, "check", SAMPLE) & {"networkx", "reportlab"} == set()
