"""The layers: what may import what, and that each contract fails when it is broken on purpose."""

import ast
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
PACKAGE = ROOT / "floorplan_circuits"
LINT = "from importlinter.cli import lint_imports_command; lint_imports_command()"

TOWER = "The tower"
PICTURE = "The picture stands beside the tower"
COMPUTES = "The picture computes nothing about homes"
BAD_IMPORTS = (
    ("home/table.py", "from floorplan_circuits.find import find", TOWER),
    ("geometry/rooms.py", "from floorplan_circuits.supply.legs import leg", TOWER),
    ("supply/legs.py", "from floorplan_circuits.survey.log_book import LogBook", TOWER),
    ("hazards/phrases.py", "from floorplan_circuits.directory.wording import lines", TOWER),
    ("find.py", "from floorplan_circuits.reports.check import as_text", TOWER),
    ("survey/proof.py", "from floorplan_circuits.looking_up import look_up", TOWER),
    ("findings/common.py", "from floorplan_circuits.view import View", PICTURE),
    ("drawing/ink.py", "from floorplan_circuits.surfaces.collect import collect", PICTURE),
    ("surfaces/pdf.py", "from floorplan_circuits.sheets.paper import PAPERS", PICTURE),
    ("drawing/plan.py", "from floorplan_circuits.survey.boxes import box_findings", COMPUTES),
    ("drawing/palette.py", "from floorplan_circuits.desktop.style import sheet_of", COMPUTES),
    ("sheets/paper.py", "from floorplan_circuits.files.open import open_home", COMPUTES),
)
"""A file, an import that may not stand in it, and the contract that says so."""

OWNERS: Mapping[str, tuple[tuple[str, ...], str]] = {
    "PySide6": (("desktop",), "hand plain values to a widget in desktop/ and let it know of Qt"),
    "shapely": (("geometry",), "ask a question of geometry/ and take plain coordinates from it"),
    "networkx": (("supply", "shutoff"), "ask a question of supply/ and take ids from it"),
    "reportlab": (("surfaces",), "make ink and let surfaces/pdf.py put it down"),
    "pydantic": (("home", "files", "edits"), "use a frozen dataclass: only what is saved is a pydantic record"),
    "pydantic_core": (("home", "files"), "let files/ read and write"),
}
"""A library, the packages that may import it, and what all others do instead. edits/ tells what pydantic refused."""


# --- the contracts --------------------------------------------------------------------------------------------------


def lint(folder: Path) -> tuple[bool, str]:
    """Return whether all contracts are kept in a copy of the project, and what import-linter prints of it."""
    shown = subprocess.run(
        [sys.executable, "-c", LINT, "--no-cache"],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(folder), "COLUMNS": "400"},
        capture_output=True,
        text=True,
        check=False,
    )
    return shown.returncode == 0, shown.stdout + shown.stderr


@pytest.fixture(scope="module")
def copied(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("copied")
    shutil.copytree(PACKAGE, folder / PACKAGE.name, ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(ROOT / "pyproject.toml", folder)
    return folder


def test_every_contract_is_kept(copied: Path) -> None:
    kept, shown = lint(copied)
    assert kept, shown
    assert "0 broken" in shown


@pytest.mark.parametrize(("file", "line", "contract"), BAD_IMPORTS)
def test_a_contract_breaks_where_it_must(copied: Path, file: str, line: str, contract: str) -> None:
    planted = copied / PACKAGE.name / file
    before = planted.read_text(encoding="utf-8")
    planted.write_text(f"{before}\n{line}\n", encoding="utf-8")
    try:
        kept, shown = lint(copied)
    finally:
        planted.write_text(before, encoding="utf-8")
    assert not kept
    broken = [row for row in shown.splitlines() if row.rstrip().endswith("BROKEN")]
    assert any(contract in row for row in broken), shown


def test_each_contract_was_seen_to_break() -> None:
    import tomllib

    declared = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    names = [contract["name"] for contract in declared["tool"]["importlinter"]["contracts"]]
    seen = {contract for _, _, contract in BAD_IMPORTS}
    assert all(any(name.startswith(one) for one in seen) for name in names)


# --- libraries ------------------------------------------------------------------------------------------------------


def imported(source: str) -> Iterator[tuple[int, str]]:
    """Yield the line and top-level name of every library that a module imports, at its top or later."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, alias.name.split(".")[0]) for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            yield node.lineno, node.module.split(".")[0]


def trespasses(package: Path) -> list[str]:
    """Return where a library is imported outside the packages that own it, and what to do instead."""
    found = []
    for file in sorted(package.rglob("*.py")):
        part = file.relative_to(package).parts[0]
        for line, library in imported(file.read_text(encoding="utf-8")):
            owners, instead = OWNERS.get(library, ((part,), ""))
            if part not in owners:
                where = f"{file.relative_to(package)}:{line}"
                found.append(f"{where} imports {library}, which is for {' and '.join(owners)} alone: {instead}")
    return found


def test_each_library_stays_with_its_owners() -> None:
    assert trespasses(PACKAGE) == []


@pytest.mark.parametrize("library", OWNERS)
def test_a_library_outside_its_package_is_named_with_what_to_do(tmp_path: Path, library: str) -> None:
    (tmp_path / "drawing").mkdir()
    (tmp_path / "drawing" / "plan.py").write_text(f"def draw():\n    import {library}.part\n", encoding="utf-8")
    _owners, instead = OWNERS[library]
    (told,) = trespasses(tmp_path)
    assert told.startswith(f"drawing/plan.py:2 imports {library}".replace("/", os.sep))
    assert instead in told


def test_every_owner_is_met_by_a_real_import() -> None:
    met = {library for file in PACKAGE.rglob("*.py") for _, library in imported(file.read_text(encoding="utf-8"))}
    assert set(OWNERS) <= met
