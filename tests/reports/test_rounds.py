"""What `rounds` says, as JSON and as text, and how it takes answers."""

import json

import jsonschema
import pytest
from hypothesis import given, settings

from floorplan_circuits import cli
from floorplan_circuits.files.open import open_home
from floorplan_circuits.files.save import save_home
from floorplan_circuits.find import find, plan_rounds
from floorplan_circuits.home.resources import folder
from floorplan_circuits.reports.rounds import as_json, as_text
from floorplan_circuits.rounds.answers import plan_code
from sample_homes.write_samples import SAMPLES
from tests.homes import homes
from tests.supply.wiring import UNKNOWN
from tests.survey.houses import FEED, house

SCHEMA = json.loads((folder("resources").parent / "shared" / "rounds.schema.json").read_text(encoding="utf-8"))
VALID = jsonschema.Draft202012Validator(SCHEMA)
HOME = house({FEED: UNKNOWN, 401: UNKNOWN})


@pytest.fixture
def path(tmp_path):
    save_home(tmp_path / "home.json", HOME, {})
    return tmp_path / "home.json"


@pytest.mark.parametrize("sample", SAMPLES)
def test_the_samples_fit_the_published_schema(sample) -> None:
    findings = find(SAMPLES[sample]())
    VALID.validate(as_json(plan_rounds(findings), findings))


@settings(max_examples=12)
@given(homes())
def test_any_home_fits_it_and_is_told_without_a_word_of_safety(home) -> None:
    findings = find(home)
    plan = plan_rounds(findings)
    VALID.validate(as_json(plan, findings))
    assert "it never shows that a wire is dead" in as_text(plan, findings)


def test_the_command_tells_the_plan_as_text_and_as_json(path, capsys) -> None:
    assert cli.main(["rounds", str(path)]) == 0
    assert "Round 1: off: " in capsys.readouterr().out
    assert cli.main(["rounds", str(path), "--json", "--strength", "least", "--leave-on", "5"]) == 0
    report = json.loads(capsys.readouterr().out)
    assert report["handles"] == 2
    assert report["left_alone"] == {"5": "is to stay on"}


@pytest.mark.parametrize(
    ("options", "says"),
    [
        (["--box", "B7"], "there is no box B7"),
        (["--leave-on", "5,77"], "there is no breaker 77"),
        (["--cap", "0"], "at least one handle"),
        (["--minutes", "0"], "for a minute at least"),
        (["--answers", "missing.txt"], "missing.txt"),
    ],
)
def test_bad_input_is_told_and_ends_with_2(options, says, path, capsys) -> None:
    assert cli.main(["rounds", str(path), *options]) == 2
    assert says in capsys.readouterr().err


def test_a_limit_of_minutes_is_told_and_stands_in_the_command_that_takes_the_answers(path, tmp_path, capsys) -> None:
    assert cli.main(["rounds", str(path), "--minutes", "20", "--json"]) == 0
    report = json.loads(capsys.readouterr().out)
    VALID.validate(report)
    assert set(report["off_at_most"].values()) == {20}
    assert all(one["minutes"] > 0 for one in report["rounds"] if one["off"])
    assert cli.main(["rounds", str(path), "--minutes", "20", "--phone", str(tmp_path / "page.html")]) == 0
    assert "--minutes 20 --answers" in capsys.readouterr().out


def test_answers_are_recorded_in_the_home(path, tmp_path, capsys) -> None:
    text = f"plan {plan_code(plan_rounds(find(HOME)))}\ndate 2026-03-14\nwith lamp plugged in\n0 ll\n1 dl\n"
    (tmp_path / "answers.txt").write_text(text, encoding="utf-8")
    assert cli.main(["rounds", str(path), "--answers", str(tmp_path / "answers.txt")]) == 0
    assert "Take the answers of 2 rounds" in capsys.readouterr().out
    assert len(open_home(path).home.log) == 2


def test_answers_that_do_not_fit_leave_the_home_as_it_was(path, tmp_path, capsys) -> None:
    before = path.read_bytes()
    (tmp_path / "answers.txt").write_text("plan WRONG1\n0 ll\n", encoding="utf-8")
    assert cli.main(["rounds", str(path), "--answers", str(tmp_path / "answers.txt")]) == 2
    assert "of plan WRONG1" in capsys.readouterr().err
    assert path.read_bytes() == before
