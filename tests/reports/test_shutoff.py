"""What `shutoff` and `revive` say, as JSON and as text, and how they end."""

import json

import jsonschema
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pypdf import PdfReader

from floorplan_circuits import cli
from floorplan_circuits.files.save import save_home
from floorplan_circuits.find import find, shut_off
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.resources import folder
from floorplan_circuits.reports.shutoff import NO_LIVE_POINT, NOTHING_TO_TURN_OFF, as_json, as_text
from sample_homes.write_samples import SAMPLES
from tests.drawing.drawn import sample
from tests.homes import homes
from tests.supply.wiring import UNKNOWN, breaker, on
from tests.survey.houses import FEED, A, a_test, box_of, house, opened

SHARED = folder("resources").parent / "shared"
SCHEMA = json.loads((SHARED / "shutoff.schema.json").read_text(encoding="utf-8"))
VALID = jsonschema.Draft202012Validator(SCHEMA)
WHOLE = house(
    {FEED: on(A)},
    *a_test(A),
    opened(box_of(FEED), FEED),
    breakers=[breaker(A, opens="hot", protects=("arc fault",))],
)


@pytest.fixture
def saved(tmp_path):
    def save(home: Home):
        path = tmp_path / "home.json"
        save_home(path, home, {})
        return str(path)

    return save


@pytest.mark.parametrize(
    ("home", "status"),
    [(WHOLE, 0), (house({FEED: on(A)}), 1), (house({FEED: UNKNOWN}), 1), (house({FEED: on(A)}, *a_test(A)), 1)],
)
def test_it_ends_with_0_only_where_every_box_should_be_dead(home, status, saved, capsys) -> None:
    assert cli.main(["shutoff", saved(home), "b400"]) == status
    assert ("B400: should be dead: test it" in capsys.readouterr().out) == (status == 0)


def test_a_mark_that_is_not_there_is_bad_input(saved, capsys) -> None:
    assert cli.main(["shutoff", saved(WHOLE), "B400", "B77"]) == 2
    assert "there is no box B77" in capsys.readouterr().err
    assert cli.main(["revive", saved(WHOLE), "B77"]) == 2


def test_the_sheet_is_written_beside_what_is_said_and_the_end_is_the_same(saved, tmp_path, capsys) -> None:
    sheet = tmp_path / "sheet.pdf"
    assert cli.main(["shutoff", saved(WHOLE), "B400", "--output", str(sheet), "--paper", "a4", "--grey"]) == 0
    told = capsys.readouterr()
    assert "B400: should be dead: test it" in told.out
    assert f"{sheet}: " in told.err
    (first, *_) = PdfReader(sheet).pages
    assert "B400: should be dead: test it" in first.extract_text()
    assert float(first.mediabox.height) == pytest.approx(297 * 72 / 25.4, abs=0.5)
    assert cli.main(["shutoff", saved(house({FEED: on(A)})), "B400", "--output", str(sheet)]) == 1


def test_a_sheet_that_cannot_be_written_or_is_the_home_itself_is_refused(saved, tmp_path, capsys) -> None:
    home = saved(WHOLE)
    assert cli.main(["shutoff", home, "B400", "--output", home]) == 2
    assert "that is the home itself" in capsys.readouterr().err
    assert cli.main(["shutoff", home, "B400", "--output", str(tmp_path / "none" / "sheet.pdf")]) == 2
    told = capsys.readouterr()
    assert "it can't be written" in told.err
    assert told.out == ""
    assert cli.main(["shutoff", home, "B400"]) == 0  # the home is what it was


def test_a_file_that_cannot_be_read_is_bad_input(tmp_path) -> None:
    assert cli.main(["shutoff", str(tmp_path / "none.json"), "B1"]) == 2
    assert cli.main(["revive", str(tmp_path / "none.json"), "B1"]) == 2


def test_as_json_it_fits_the_published_schema(saved, capsys) -> None:
    assert cli.main(["shutoff", saved(WHOLE), "B400", "--json"]) == 0
    report = json.loads(capsys.readouterr().out)
    VALID.validate(report)
    assert report["off"] == [
        {"panel": "Panel 1", "handles": ["1"], "spaces": [1], "because": ["B400: tested, on it"], "ask": ""}
    ]


@settings(max_examples=60)
@given(homes(), st.data())
def test_any_boxes_of_any_home_fit_the_schema_and_are_told_without_a_word_of_safety(home, data) -> None:
    findings = find(home)
    if not findings.boxes:
        return
    boxes = data.draw(st.lists(st.sampled_from(sorted(findings.boxes)), min_size=1, max_size=4, unique=True))
    plan = shut_off(findings, tuple(boxes))
    VALID.validate(as_json(plan, findings))
    assert "test every conductor before you touch it" in as_text(plan, findings)
    assert len(plan.states) == len(boxes)


@pytest.mark.parametrize("sample", SAMPLES)
def test_every_box_of_the_samples_can_be_asked_about(sample) -> None:
    findings = find(SAMPLES[sample]())
    for box in list(findings.boxes)[::7]:
        VALID.validate(as_json(shut_off(findings, (box,)), findings))


def test_what_to_do_without_a_live_point_or_a_handle_is_told() -> None:
    text = as_text(shut_off(find(house({FEED: UNKNOWN})), (box_of(FEED),)), find(house({FEED: UNKNOWN})))
    assert NO_LIVE_POINT in text
    assert NOTHING_TO_TURN_OFF in text


def test_revive_tells_what_to_reset_and_when_to_stop(saved, capsys) -> None:
    assert cli.main(["revive", saved(WHOLE), "b400"]) == 0
    said = capsys.readouterr().out
    assert "2. Look at breaker 1 in Panel 1" in said
    assert "If it trips again, leave it off" in said


def test_the_example_on_the_page_fits() -> None:
    page = (SHARED / "README.md").read_text(encoding="utf-8")
    _, _, told = page.partition("## What `shutoff` writes\n")
    VALID.validate(json.loads(told.split("\n\n")[0]))


def test_a_bare_cable_end_is_not_to_be_touched() -> None:
    findings = sample("cottage")
    (end,) = [box for box in findings.home.boxes if box.is_bare]
    text = as_text(shut_off(findings, [end.id]), findings)
    assert f"Don’t touch {end.mark}: unknown: treat as live. Keep everybody away from it" in text
    assert f"Don’t open {end.mark}" not in text
