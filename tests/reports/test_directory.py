import json

import jsonschema
import pytest
from hypothesis import given, settings

from floorplan_circuits import cli
from floorplan_circuits.files.open import open_home
from floorplan_circuits.files.save import text_of
from floorplan_circuits.find import find
from floorplan_circuits.home.resources import folder
from floorplan_circuits.reports.directory import as_json, as_text
from sample_homes.write_samples import SAMPLES
from tests.homes import homes

SCHEMA = json.loads((folder("resources").parent / "shared" / "directory.schema.json").read_text(encoding="utf-8"))
VALID = jsonschema.Draft202012Validator(SCHEMA)


@pytest.fixture
def cottage(tmp_path):
    path = tmp_path / "cottage.json"
    path.write_text(text_of(SAMPLES["cottage.json"]()), encoding="utf-8")
    return path


@pytest.mark.parametrize("name", sorted(SAMPLES))
def test_the_samples_json_fits_the_published_schema_and_keeps_each_old_label(name) -> None:
    home = SAMPLES[name]()
    told = as_json(find(home))
    VALID.validate(told)
    lines = [line for panel in told["panels"] for line in panel["lines"]]
    assert sorted(line["old"] for line in lines) == sorted(breaker.as_found for breaker in home.breakers)


@settings(max_examples=20, deadline=None)
@given(homes())
def test_any_home_fits_the_published_schema_and_can_be_read_aloud(home) -> None:
    found = find(home)
    VALID.validate(as_json(found))
    assert as_text(found)


def test_the_command_tells_old_and_new_side_by_side_and_ends_with_1_while_a_line_is_objected_to(
    cottage, capsys
) -> None:
    assert cli.main(["directory", str(cottage)]) == 1
    text = capsys.readouterr().out
    assert "2·4  Range, Kitchen   (old label “rnge”)" in text
    assert "“plugs” could be anywhere." in text
    assert "Main panel. Fed by Utility meter." in text
    assert "Local code governs." in text
    assert cli.main(["directory", str(cottage), "--json"]) == 1
    VALID.validate(json.loads(capsys.readouterr().out))


def test_what_words_mean_is_recorded_all_or_none(cottage, capsys) -> None:
    before = cottage.read_bytes()
    assert cli.main(["directory", str(cottage), "--means", "lts=lights", "--means", "bth"]) == 2
    assert "--means bth" in capsys.readouterr().err
    assert cottage.read_bytes() == before
    cli.main(["directory", str(cottage), "--means", "lts=lights", "--means", "BTH=bathroom"])
    assert "lts: " not in capsys.readouterr().out
    assert [(one.short, one.means) for one in open_home(cottage).home.meanings] == [
        ("lts", "lights"),
        ("bth", "bathroom"),
    ]


def test_a_home_that_is_not_there_is_named(tmp_path, capsys) -> None:
    assert cli.main(["directory", str(tmp_path / "none.json")]) == 2
    assert cli.main(["directory", str(tmp_path / "none.json"), "--means", "a=b"]) == 2
    assert capsys.readouterr().err.count("none.json") >= 2
