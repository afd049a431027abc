"""The code on a print: changed by what prints, by nothing else, and told from a mistyped one."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from floorplan_circuits.find import find
from floorplan_circuits.home.home import Home, Picture
from floorplan_circuits.home.log import Round
from floorplan_circuits.home.power import Found
from floorplan_circuits.home.record import change
from floorplan_circuits.home.table import Table
from floorplan_circuits.sheets.content_code import HALF, LENGTH, LETTERS, as_code, content_code
from tests.drawing.drawn import SAMPLE_HOMES, sample
from tests.homes import homes

COTTAGE = sample("cottage").home


def code(home: Home) -> str:
    return content_code(find(home))


WAS = code(COTTAGE)


@pytest.mark.parametrize("name", SAMPLE_HOMES)
def test_a_code_is_eight_letters_that_are_hard_to_confuse(name: str) -> None:
    letters = content_code(sample(name)).replace("-", "")
    assert len(letters) == LENGTH + 1 == 2 * HALF
    assert set(letters) <= set(LETTERS)
    assert not set(LETTERS) & set("0O1IL2Z5S8BUV")


def test_a_note_a_picture_and_the_order_of_rows_change_nothing() -> None:
    box, *_ = COTTAGE.boxes
    assert code(change(COTTAGE, boxes=COTTAGE.boxes.put(change(box, note="behind the piano")))) == WAS
    assert code(change(COTTAGE, pictures=(Picture(hash="ab" * 32, media="image/png"),))) == WAS
    assert code(change(COTTAGE, boxes=Table(reversed(COTTAGE.boxes.rows)))) == WAS
    assert code(change(COTTAGE, next_id=COTTAGE.next_id + 5)) == WAS


def test_what_prints_changes_it() -> None:
    box, *_ = (one for one in COTTAGE.boxes if one.at)
    room, *_ = COTTAGE.rooms
    breaker, *_ = COTTAGE.breakers
    panel, *_ = COTTAGE.panels
    x, y = box.at or (0, 0)
    last = max(entry.id for entry in COTTAGE.log)
    tried = Round(id=last + 10_000, kind="round", date="2026-09-01", who="somebody else")
    altered = [
        change(COTTAGE, name="Another cottage"),
        change(COTTAGE, boxes=COTTAGE.boxes.put(change(box, at=(x + 1, y)))),
        change(COTTAGE, boxes=COTTAGE.boxes.without([box.id])),
        change(COTTAGE, rooms=COTTAGE.rooms.put(change(room, name="Den"))),
        change(COTTAGE, breakers=COTTAGE.breakers.put(change(breaker, wording="my own words"))),
        change(COTTAGE, breakers=COTTAGE.breakers.put(change(breaker, found=Found(state="off", why="loose")))),
        change(COTTAGE, panels=COTTAGE.panels.put(change(panel, place="in the barn"))),
        change(COTTAGE, sources=Table()),
        change(COTTAGE, log=(*COTTAGE.log, tried), next_id=last + 10_001),
    ]
    codes = [WAS, *map(code, altered)]
    assert len(set(codes)) == len(codes)


@settings(max_examples=15, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(homes())
def test_any_home_has_a_code_that_is_read_back_however_it_is_typed(wild: Home) -> None:
    printed = code(wild)
    assert as_code(printed) == printed
    assert as_code(printed.lower().replace("-", " ")) == printed
    assert code(wild) == printed


letters = st.sampled_from(LETTERS)


@given(st.integers(0, LENGTH), letters)
def test_one_wrong_letter_is_no_code(place: int, letter: str) -> None:
    typed = list(WAS.replace("-", ""))
    same = typed[place] == letter
    typed[place] = letter
    assert (as_code("".join(typed)) == WAS) if same else (as_code("".join(typed)) is None)


@given(st.integers(0, LENGTH), st.integers(0, LENGTH))
def test_two_letters_that_changed_places_are_no_code(one: int, other: int) -> None:
    typed = list(WAS.replace("-", ""))
    typed[one], typed[other] = typed[other], typed[one]
    if "".join(typed) != WAS.replace("-", ""):
        assert as_code("".join(typed)) is None


@pytest.mark.parametrize("typed", ["", "7KQ4", "7KQ4-MXW0", "no code at all", "7KQ4-MXWTT"])
def test_what_is_no_code_is_none(typed: str) -> None:
    assert as_code(typed) is None
