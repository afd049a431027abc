import json
import os
import re
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path

import jsonschema
import pytest

from floorplan_circuits import cli
from floorplan_circuits.edits.recording import dismiss
from floorplan_circuits.files.save import text_of
from floorplan_circuits.find import find
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.resources import folder
from tests.supply.wiring import UNKNOWN, on
from tests.survey.houses import FEED, A, a_test, house

COTTAGE = folder("sample_homes") / "cottage.json"
SCHEMA = folder("resources").parent / "shared" / "check.schema.json"
DISPLAYS = ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")


def saved(path: Path, home: Home) -> Path:
    path.write_text(text_of(home), encoding="utf-8")
    return path


@pytest.fixture
def quiet_home(tmp_path: Path) -> Path:
    """A home in which nothing dangerous is recorded."""
    return saved(tmp_path / "quiet.json", house({FEED: on(A)}, *a_test(A)))


# --- check ----------------------------------------------------------------------------------------------------------


def test_check_tells_the_dangers_and_ends_with_what_was_never_tested(capsys) -> None:
    assert cli.main(["check", str(COTTAGE)]) == 1
    lines = capsys.readouterr().out.splitlines()
    assert lines[0] == "Cottage at Alder Bend: dangers are known in 18 of 47 boxes, and 2 more at panels. Worst first:"
    assert lines[-1].endswith("feeds were never tested.")


def test_check_by_room_tells_the_same_room_by_room_and_not_as_json_as_well(capsys) -> None:
    assert cli.main(["check", str(COTTAGE), "--by-room"]) == 1
    lines = capsys.readouterr().out.splitlines()
    assert lines[0].endswith("Room by room:")
    assert lines.index("At the panel") < lines.index("Kitchen, Ground floor")
    with pytest.raises(SystemExit) as ended:
        cli.main(["check", str(COTTAGE), "--by-room", "--json"])
    assert ended.value.code == 2


def test_what_was_set_aside_still_ends_with_1(tmp_path) -> None:
    home = house({FEED: UNKNOWN})
    one = find(home).hazards[0]
    aside = dismiss(home, one.kind, one.about, "known to the owner", date="2026-05-01").home
    assert cli.main(["check", str(saved(tmp_path / "aside.json", aside))]) == 1


def test_check_without_a_danger_ends_with_0(quiet_home, capsys) -> None:
    assert cli.main(["check", str(quiet_home)]) == 0
    assert "no danger found among what is recorded" in capsys.readouterr().out


def test_check_as_json_fits_the_published_schema(capsys) -> None:
    assert cli.main(["check", str(COTTAGE), "--json"]) == 1
    report = json.loads(capsys.readouterr().out)
    jsonschema.Draft202012Validator(json.loads(SCHEMA.read_text(encoding="utf-8"))).validate(report)


@pytest.mark.parametrize("verb", [["check"], ["print", "--output", "never.pdf"]])
@pytest.mark.parametrize("bad", ["missing.json", "folder", "broken.json", "other.json", "empty.json", "words.json"])
def test_what_cannot_be_read_is_told_in_one_line_with_what_to_do_and_ends_with_2(verb, bad, tmp_path, capsys) -> None:
    (tmp_path / "folder").mkdir()
    (tmp_path / "broken.json").write_text('{"format": "floorplan-circuits 1.0", "name":', encoding="utf-8")
    (tmp_path / "other.json").write_text('{"format": "something else 1.0"}', encoding="utf-8")
    (tmp_path / "empty.json").write_bytes(b"")
    (tmp_path / "words.json").write_bytes(b"\xff\xfe\x00words")
    assert cli.main([verb[0], str(tmp_path / bad), *verb[1:]]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.startswith(bad)
    assert said.err.count("\n") == 1
    assert said.err.count(". ") >= 1
    assert not (tmp_path / "never.pdf").exists()


# --- print ----------------------------------------------------------------------------------------------------------


def test_print_writes_a_pdf_and_says_that_a_map_can_be_wrong(tmp_path, capsys) -> None:
    sheet = tmp_path / "map.pdf"
    assert cli.main(["print", str(COTTAGE), "--output", str(sheet)]) == 0
    assert sheet.read_bytes().startswith(b"%PDF-")
    said = capsys.readouterr().out
    assert re.match(rf"{re.escape(str(sheet))}: \d+ pages?, letter\.", said)
    assert "A map can be wrong: test before you touch." in said


@pytest.mark.parametrize("place", [".", "no/such/folder/map.pdf", "file/map.pdf"])
def test_print_to_where_nothing_can_be_written_says_so_and_what_to_do(place, tmp_path, capsys) -> None:
    (tmp_path / "file").write_bytes(b"")
    assert cli.main(["print", str(COTTAGE), "--output", str(tmp_path / place)]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert "it can't be written" in said.err
    assert "Choose another folder or name." in said.err
    assert [path.name for path in tmp_path.iterdir()] == ["file"]


def test_print_never_writes_over_the_home(quiet_home, capsys) -> None:
    before = quiet_home.read_bytes()
    assert cli.main(["print", str(quiet_home), "--output", str(quiet_home.parent / "." / quiet_home.name)]) == 2
    assert quiet_home.read_bytes() == before
    assert "that is the home itself" in capsys.readouterr().err


def test_print_of_an_empty_home_says_what_is_missing(tmp_path, capsys) -> None:
    empty = saved(tmp_path / "empty.json", Home())
    assert cli.main(["print", str(empty), "--output", str(tmp_path / "map.pdf")]) == 2
    assert "Nothing to print yet" in capsys.readouterr().err
    assert not (tmp_path / "map.pdf").exists()


@pytest.mark.parametrize("words", [["print", "home.json"], ["print", "h", "--output", "o", "--paper", "b9"], ["check"]])
def test_a_command_that_lacks_something_ends_with_2_and_its_usage(words, capsys) -> None:
    with pytest.raises(SystemExit) as ended:
        cli.main(words)
    assert ended.value.code == 2
    assert "usage: floorplan-circuits" in capsys.readouterr().err


# --- as a process of its own ----------------------------------------------------------------------------------------

WITHOUT_QT = """
import sys
from floorplan_circuits.cli import main
status = main(sys.argv[1:])
loaded = sorted(name for name in sys.modules if name.split(".")[0] in ("PySide6", "shiboken6"))
print("Qt:", loaded, file=sys.stderr)
sys.exit(status)
"""


def ran(*words: str, env: Mapping[str, str] | None = None) -> subprocess.CompletedProcess[bytes]:
    given = {name: value for name, value in os.environ.items() if name not in DISPLAYS} | dict(env or {})
    return subprocess.run([sys.executable, *words], env=given, capture_output=True, timeout=60, check=False)


@pytest.mark.parametrize(
    ("words", "status"),
    [(["check"], 1), (["check", "--json"], 1), (["print", "--output", "map.pdf"], 0)],
)
def test_neither_check_nor_print_ever_loads_qt(words, status, tmp_path) -> None:
    rest = [str(tmp_path / word) if word.endswith(".pdf") else word for word in words[1:]]
    child = ran("-c", WITHOUT_QT, words[0], str(COTTAGE), *rest)
    assert (child.returncode, child.stderr.decode().strip()) == (status, "Qt: []")


def test_a_broken_home_loads_neither_qt_nor_a_traceback(tmp_path) -> None:
    (tmp_path / "broken.json").write_text("{", encoding="utf-8")
    child = ran("-m", "floorplan_circuits", "check", str(tmp_path / "broken.json"))
    assert child.returncode == 2
    assert b"Traceback" not in child.stderr


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="elsewhere Qt always has a display")
@pytest.mark.parametrize("words", [[], [str(COTTAGE)]])
def test_without_a_display_the_bare_command_points_to_check_and_print_in_one_sentence(words) -> None:
    child = ran("-m", "floorplan_circuits", *words)
    said = child.stderr.decode()
    assert child.returncode == 2
    assert child.stdout == b""
    assert said.count("\n") == 1
    assert "floorplan-circuits check HOME" in said
    assert "floorplan-circuits print HOME --output" in said
    assert ". " not in said.replace("map.pdf", "")


def test_letters_that_the_terminal_lacks_are_replaced_and_json_stays_json() -> None:
    ascii_only = {"PYTHONIOENCODING": "ascii"}
    text = ran("-m", "floorplan_circuits", "check", str(COTTAGE), env=ascii_only)
    assert text.returncode == 1
    assert text.stdout.isascii()
    report = ran("-m", "floorplan_circuits", "check", "--json", str(COTTAGE), env=ascii_only)
    marks = {mark for box in json.loads(report.stdout.decode("ascii"))["boxes"] for mark in box["breakers"]}
    assert "2·4" in marks


@pytest.mark.skipif(os.name != "posix", reason="a pipe that hangs up is told so only there")
def test_a_reader_that_hangs_up_gets_no_traceback() -> None:
    reading, writing = os.pipe()
    os.close(reading)
    with open(writing, "wb") as hung_up:
        words = [sys.executable, "-m", "floorplan_circuits", "check", str(COTTAGE)]
        child = subprocess.run(words, stdout=hung_up, stderr=subprocess.PIPE, timeout=60, check=False)
    assert (child.returncode, child.stderr) == (1, b"")


# --- same -----------------------------------------------------------------------------------------------------------


def code_at_the_foot_of(pdf: Path) -> str:
    from pypdf import PdfReader

    text = PdfReader(pdf).pages[0].extract_text()
    found = re.search(r"same HOME ([0-9A-Z]{4}-[0-9A-Z]{4})", text)
    assert found
    return found[1]


def test_the_code_on_a_print_is_the_same_until_the_home_tells_something_else(tmp_path, capsys) -> None:
    sheet, home = tmp_path / "map.pdf", tmp_path / "home.json"
    home.write_bytes(COTTAGE.read_bytes())
    assert cli.main(["print", str(home), "--output", str(sheet)]) == 0
    code = code_at_the_foot_of(sheet)
    assert cli.main(["same", str(home), code]) == 0
    assert cli.main(["same", str(home), code.lower().replace("-", "")]) == 0
    home.write_text(home.read_text(encoding="utf-8").replace("Back bedroom", "Nursery"), encoding="utf-8")
    assert cli.main(["same", str(home), code]) == 1
    assert "The print is stale" in capsys.readouterr().out


def test_a_mistyped_code_or_an_unreadable_home_ends_with_2(tmp_path, capsys) -> None:
    assert cli.main(["same", str(COTTAGE), "7KQ4-MXWA"]) == 2
    assert "no print has this code" in capsys.readouterr().err
    assert cli.main(["same", str(tmp_path / "none.json"), "3GCM-9TNG"]) == 2
    assert capsys.readouterr().out == ""


# --- other sheets ---------------------------------------------------------------------------------------------------

HOUSE = folder("sample_homes") / "house.json"


@pytest.mark.parametrize("sheet", ["wall-map", "directory", "hazards", "plan"])
def test_every_sheet_prints(sheet, tmp_path) -> None:
    assert cli.main(["print", str(COTTAGE), "--sheet", sheet, "--output", str(tmp_path / "s.pdf")]) == 0
    assert (tmp_path / "s.pdf").read_bytes().startswith(b"%PDF-")


def test_a_plan_of_several_levels_is_an_svg_a_level(tmp_path) -> None:
    assert cli.main(["print", str(HOUSE), "--sheet", "plan", "--output", str(tmp_path / "plan.svg")]) == 0
    assert sorted(path.name for path in tmp_path.iterdir()) == ["plan-1.svg", "plan-2.svg", "plan-3.svg"]
    assert cli.main(["print", str(COTTAGE), "--sheet", "plan", "--output", str(tmp_path / "one.svg")]) == 0
    assert (tmp_path / "one.svg").read_bytes().startswith(b"<?xml")


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["--output", "map.png"], "saved from the window"),
        (["--output", "map.doc"], "end it with .pdf or .svg"),
        (["--panel", "attic", "--output", "map.pdf"], "There is no panel attic. There is Main panel, Garage panel."),
        (["--sheet", "directory", "--size", "huge", "--output", "map.pdf"], "huge: no size."),
        (["--sheet", "directory", "--size", "400x400", "--output", "map.pdf"], "Choose a larger paper."),
    ],
)
def test_what_cannot_be_printed_is_told_in_one_line_and_ends_with_2(words, says, tmp_path, capsys) -> None:
    where = [str(tmp_path / word) if word.startswith("map.") else word for word in words]
    assert cli.main(["print", str(HOUSE), *where]) == 2
    said = capsys.readouterr()
    assert says in said.err
    assert said.err.count("\n") == 1
    assert list(tmp_path.iterdir()) == []


def test_an_svg_of_an_empty_home_says_what_is_missing(tmp_path, capsys) -> None:
    empty = saved(tmp_path / "empty.json", Home())
    assert cli.main(["print", str(empty), "--output", str(tmp_path / "map.svg")]) == 2
    assert "Nothing to print yet" in capsys.readouterr().err


@pytest.mark.parametrize("named", ["garage panel", "G"])
def test_one_panel_is_asked_for_by_name_or_letter(named, tmp_path) -> None:
    from pypdf import PdfReader

    assert cli.main(["print", str(HOUSE), "--panel", named, "--output", str(tmp_path / "g.pdf")]) == 0
    text = PdfReader(tmp_path / "g.pdf").pages[0].extract_text()
    assert "Garage panel only" in text


def test_all_levels_on_one_page_that_could_not_be_read_are_told_to_be_on_several(tmp_path, capsys) -> None:
    assert cli.main(["print", str(HOUSE), "--one-page", "--output", str(tmp_path / "m.pdf")]) == 0
    assert "each has a page of its own" in capsys.readouterr().out
