import gc
import json
import os
import pickle
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.files.cannot import CannotOpen
from floorplan_circuits.files.open import MOST_PROBLEMS, open_home, read_home
from floorplan_circuits.files.save import text_of
from tests.files.samples import FORMAT_LINE, raw_home, raw_text, small_home
from tests.files.strategies import Kept, kept_homes

FILE = Path("home.json")


def refusal(text: str | bytes) -> str:
    with pytest.raises(CannotOpen) as caught:
        read_home(text.encode() if isinstance(text, str) else text, FILE)
    return str(caught.value)


def begun(rest: str) -> str:
    return "{" + FORMAT_LINE + rest


def test_a_sound_home_opens_with_nothing_to_say(tmp_path: Path) -> None:
    file = tmp_path / "home.json"
    file.write_text(raw_text(), encoding="utf-8")
    stored = open_home(file)
    assert stored.home == small_home()
    assert (stored.pictures, stored.read_only, stored.notice) == ({}, False, "")


def test_a_file_that_is_not_there_is_named(tmp_path: Path) -> None:
    with pytest.raises(CannotOpen, match=r"^gone\.json: there is no such file\. Check its name and its folder\.$"):
        open_home(tmp_path / "gone.json")


def test_a_folder_is_no_home(tmp_path: Path) -> None:
    with pytest.raises(CannotOpen, match="it is a folder"):
        open_home(tmp_path)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="only some systems have pipes with a name")
def test_a_pipe_is_refused_and_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(CannotOpen, match="not a plain file"):
        open_home(tmp_path / "pipe")


def test_a_file_that_may_not_be_read_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = tmp_path / "home.json"
    file.write_text(raw_text())

    def denied(_: Path) -> bytes:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "read_bytes", denied)
    with pytest.raises(CannotOpen, match="you may not read it"):
        open_home(file)


def test_a_name_that_no_system_takes_is_refused() -> None:
    with pytest.raises(CannotOpen, match="cannot be read"):
        open_home(Path("a\0b"))


@pytest.mark.parametrize("text", ["", " \n\t"])
def test_an_empty_file_says_that_it_is_empty(text: str) -> None:
    assert refusal(text) == "home.json: it is empty. Open its previous version or a backup."


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("[1]", "home.json: it is JSON but holds no record"),
        ('{"name": "a"}', "home.json, format: it does not say that it is a home"),
        ('{"name": "a", ' + FORMAT_LINE + "}", "home.json, format: it must stand first in the file"),
        ('{"format": "something else 1.0"}', "home.json, format: 'something else 1.0' is not a format of this program"),
        ('{"format": 7}', "home.json, format: '7' is not a format of this program"),
        ("PK\x03\x04", "home.json, line 1, column 1: it is not JSON there"),
        (begun(""), "home.json, line 1, column 35: the file ends too early"),
        (begun(",\n"), "home.json, line 2, column 0: the file ends too early"),
        (begun("} x"), "home.json, line 1, column 38: more text follows after the end of the home"),
        (begun(',"x":' + "[" * 300), "nested too deeply"),
        (begun(',"x":' + "9" * 5000 + "}"), "a number is far too long"),
        (begun(',"name":"\x01"}'), "a text holds a control character"),
        (begun(',"name":"\\ud800"}'), "it is not JSON there"),
        (begun(',\n"name" "x"}'), "home.json, line 2, column 8: it is not JSON there (expected `:`)"),
    ],
)
def test_a_file_that_is_no_home_is_told_with_its_place(text: str, expected: str) -> None:
    assert expected in refusal(text)


def test_a_byte_order_mark_and_other_encodings_are_named() -> None:
    assert "byte order mark" in refusal("\ufeff" + raw_text())
    assert "UTF-16" in refusal(raw_text().encode("utf-16"))
    assert refusal(begun(',\n"name":"').encode() + b'\xff"}').startswith("home.json, line 2, column")
    assert "the text is not UTF-8" in refusal(begun(',"name":"').encode() + b'\xff"}')


@pytest.mark.parametrize("number", ["NaN", "Infinity", "-Infinity", "1e999", "-1e999", "1" * 400 + ".0"])
def test_what_json_cannot_write_back_is_refused_even_in_unknown_fields(number: str) -> None:
    assert "home.json, later: a number is larger than a file can hold" in refusal(begun(f',"later":[{number}]' + "}"))
    inside = begun(',"levels":[{"id":1,"name":"Attic","x":{"y":' + number + "}}]}")
    assert "home.json, levels, row 1 (Attic), x: a number is larger" in refusal(inside)
    assert "a whole number is wanted" in refusal(begun(f',"next_id":{number}' + "}"))


def test_the_place_names_rows_as_a_person_counts_them_and_by_mark() -> None:
    raw = raw_home()
    raw["boxes"][2]["devices"][0]["kind"] = 7
    expected = "home.json, boxes, row 3 (B14), devices, row 1, kind: a text is wanted. "
    assert refusal(json.dumps(raw)).startswith(expected)


def test_a_file_of_the_same_major_keeps_what_it_does_not_know_and_says_so() -> None:
    stored = read_home(raw_text(format="floorplan-circuits 1.7", later=[1]).encode(), FILE)
    assert not stored.read_only
    assert "format 1.7" in stored.notice
    assert stored.home.extras() == {"later": [1]}


def test_a_newer_minor_that_does_not_fit_is_no_fault_of_the_file() -> None:
    said = refusal(raw_text(format="floorplan-circuits 1.7", system="something new"))
    assert "a newer version of the program wrote this (format 1.7)" in said
    assert said.endswith("Get the newest version of the program.")


def test_a_newer_major_opens_to_look_at_only() -> None:
    stored = read_home(raw_text(format="floorplan-circuits 2.0").encode(), FILE)
    assert stored.read_only
    assert "format 2.0" in stored.notice
    assert "cannot be saved" in stored.notice


@pytest.mark.parametrize("broken", [{"boxes": {}}, {"next_id": 1}])
def test_a_newer_major_that_cannot_be_read_names_the_newer_program(broken: dict[str, object]) -> None:
    assert "a newer version of the program wrote this" in refusal(raw_text(format="floorplan-circuits 2.3", **broken))


def test_a_home_that_does_not_hold_together_is_refused_with_each_thing_and_its_cure() -> None:
    said = refusal(raw_text(next_id=1))
    assert said == (
        "home.json: there is one thing in it that cannot be. Correct in the file:\n"
        "- next_id: the counter is not past every id in use. Set next_id to 21."
    )


def test_of_many_faults_the_first_ones_are_named_and_the_rest_counted() -> None:
    boxes = [{"id": place, "mark": f"B{place}", "at": [0, 0]} for place in range(30, 45)]
    said = refusal(raw_text(boxes=boxes, log=[]))
    assert "there are 15 things in it that cannot be" in said
    assert said.count("it has a place but no level") == MOST_PROBLEMS
    assert said.endswith("- and 5 more.")


@pytest.mark.parametrize("text", [raw_text(), "nonsense"])
def test_the_cycle_collector_is_on_again_whatever_happened(text: str) -> None:
    assert gc.isenabled()
    if text == "nonsense":
        refusal(text)
    else:
        read_home(text.encode(), FILE)
    assert gc.isenabled()


def test_the_cycle_collector_stays_off_where_the_caller_had_it_off() -> None:
    gc.disable()
    try:
        read_home(raw_text().encode(), FILE)
        assert not gc.isenabled()
    finally:
        gc.enable()


def test_a_refusal_can_be_handed_from_one_process_to_another() -> None:
    refused = CannotOpen(FILE, "line 1", "it is broken", "Mend it")
    assert str(pickle.loads(pickle.dumps(refused))) == str(refused) == "home.json, line 1: it is broken. Mend it."


def only_refused(data: bytes) -> None:
    """Read the bytes: a home or a refusal with a message, nothing else."""
    said = ""
    try:
        read_home(data, FILE)
    except CannotOpen as refused:
        said = str(refused)
    assert said == "" or (said.startswith("home.json") and said.endswith("."))


@given(st.binary(max_size=200) | st.binary(max_size=100).map(lambda rest: begun(",").encode() + rest))
@settings(max_examples=100, deadline=None)
def test_random_bytes_are_refused_and_never_crash(data: bytes) -> None:
    only_refused(data)


@given(kept_homes(), st.data())
@settings(max_examples=60, deadline=None)
def test_a_home_with_a_few_bytes_changed_opens_or_is_refused(kept: Kept, data: st.DataObject) -> None:
    content = bytearray(text_of(*kept).encode())
    for _ in range(data.draw(st.integers(1, 4))):
        at = data.draw(st.integers(0, len(content) - 1))
        content[at : at + data.draw(st.integers(0, 3))] = data.draw(st.binary(max_size=3))
    only_refused(bytes(content))


@given(st.data())
@settings(max_examples=60, deadline=None)
def test_a_home_with_a_value_swapped_opens_or_is_refused(data: st.DataObject) -> None:
    raw = raw_home()
    spot: object = raw
    odd = st.sampled_from([None, True, -1, 0, 2**80, 1.5, "", "x" * 5000, [], {}, [[]], {"kind": "round"}])
    while isinstance(spot, dict | list) and spot:
        key = data.draw(st.sampled_from(sorted(spot) if isinstance(spot, dict) else range(len(spot))))
        inner = spot[key]  # type: ignore[index]
        if not isinstance(inner, dict | list) or not inner or data.draw(st.integers(0, 4)) == 0:
            spot[key] = data.draw(odd)  # type: ignore[index]
            break
        spot = inner
    only_refused(json.dumps(raw).encode())


@given(kept_homes(), st.integers(0, 10_000))
@settings(max_examples=40, deadline=None)
def test_a_file_that_breaks_off_is_refused(kept: Kept, at: int) -> None:
    content = text_of(*kept).encode().rstrip()
    assert refusal(content[: at % len(content)])
