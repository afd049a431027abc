"""Faults planted on purpose, one at a time in a copy of the project: a test must fail for each."""

import os
import shutil
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

ROOT = Path(__file__).parents[1]
PARTS = ("floorplan_circuits", "resources", "sample_homes", "shared", "tests", "pyproject.toml", "README.md")


class Fault(NamedTuple):
    """A module such as 'survey/proof', the text to be replaced (it stands there once), the fault, what it would do."""

    module: str
    right: str
    wrong: str
    does: str


def text_of(fault: Fault, root: Path = ROOT) -> str:
    """Return the module as it is."""
    return _path(fault, root).read_text(encoding="utf-8")


def _path(fault: Fault, root: Path) -> Path:
    return root / "floorplan_circuits" / f"{fault.module}.py"


def is_caught(fault: Fault, tests: Sequence[str]) -> bool:
    """Put one fault into a copy of the project and tell whether one of these tests fails."""
    with TemporaryDirectory() as folder:
        copy = Path(folder)
        for part in PARTS:
            source = ROOT / part
            if source.is_dir():
                shutil.copytree(source, copy / part, ignore=shutil.ignore_patterns("__pycache__"))
            else:
                shutil.copy(source, copy / part)
        _path(fault, copy).write_text(text_of(fault).replace(fault.right, fault.wrong), encoding="utf-8")
        words = [sys.executable, "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider", *tests]
        env = os.environ | {"PYTHONPATH": folder}
        return subprocess.run(words, cwd=copy, env=env, capture_output=True, check=False).returncode == 1


def main(faults: Sequence[Fault], tests: Sequence[str]) -> int:
    """Try the faults whose numbers were given, or all; return how many were not caught."""
    chosen = [int(word) for word in sys.argv[1:]] or range(len(faults))
    missed = 0
    for at in chosen:
        caught = is_caught(faults[at], tests)
        missed += not caught
        print(f"{at:2} {'caught' if caught else 'MISSED'}  {faults[at].module}: {faults[at].does}", flush=True)  # noqa: T201
    return missed
