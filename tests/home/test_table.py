import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from floorplan_circuits.home.building import Level
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.table import Table


def level(number: int, name: str = "") -> Level:
    return Level(id=number, name=name)


TABLE = Table([level(5), level(2), level(9)])
IDS = st.lists(st.integers(1, 30), unique=True, max_size=8)


def test_rows_stand_in_order_and_are_found_by_id() -> None:
    assert [row.id for row in TABLE] == [5, 2, 9]
    assert TABLE.ids() == (5, 2, 9)
    assert len(TABLE) == 3
    assert TABLE[2] == level(2)
    assert (2 in TABLE, 3 in TABLE, "2" in TABLE) == (True, False, False)


def test_what_is_not_there_is_none_or_an_error() -> None:
    assert TABLE.get(3) is None
    assert TABLE.get(None) is None
    with pytest.raises(KeyError):
        TABLE[3]


def test_an_empty_table_is_empty() -> None:
    empty: Table[Level] = Table()
    assert (len(empty), list(empty), empty.ids(), empty.get(1)) == (0, [], (), None)


def test_putting_a_row_replaces_it_in_place_or_adds_it_at_the_end() -> None:
    assert TABLE.put(level(2, "new")).rows == (level(5), level(2, "new"), level(9))
    assert TABLE.put(level(1)).ids() == (5, 2, 9, 1)
    assert TABLE.ids() == (5, 2, 9)


@given(IDS, st.integers(1, 30))
def test_a_row_that_was_put_is_found_and_no_other_has_moved(ids: list[int], number: int) -> None:
    before = Table(level(each) for each in ids)
    after = before.put(level(number, "new"))
    assert after[number].name == "new"
    assert [each for each in after.ids() if each in ids] == ids
    assert all(after[each] is before[each] for each in ids if each != number)
    assert all(after.get(each) is row for each, row in zip(after.ids(), after, strict=True))


@given(IDS, st.sets(st.integers(1, 30)))
def test_without_leaves_the_others_in_order(ids: list[int], gone: set[int]) -> None:
    assert Table(level(each) for each in ids).without(gone).ids() == tuple(each for each in ids if each not in gone)


def test_without_nothing_is_the_very_same_table() -> None:
    assert TABLE.without([3, 4]) is TABLE


def test_two_ids_alike_are_both_kept_and_the_last_is_found() -> None:
    twice = Table([level(1, "a"), level(1, "b")])
    assert len(twice) == 2
    assert twice[1].name == "b"


def test_tables_are_equal_by_rows_and_order() -> None:
    assert Table([level(1), level(2)]) == Table([level(1), level(2)])
    assert hash(Table([level(1)])) == hash(Table([level(1)]))
    assert Table([level(1), level(2)]) != Table([level(2), level(1)])
    assert Table([level(1)]) != (level(1),)
    assert repr(Table([1])) == "Table([1])"  # type: ignore[list-item]


def test_a_table_is_a_list_in_json_and_is_taken_as_it_is_in_python() -> None:
    home = Home.model_validate_json('{"levels": [{"id": 1, "name": "Attic"}]}')
    assert home.levels == Table([level(1, "Attic")])
    assert '"levels":[{"id":1,' in home.model_dump_json()
    assert Home(levels=TABLE).levels is TABLE
    assert Home.model_validate({"levels": (level(1),)}).levels.ids() == (1,)


@pytest.mark.parametrize("text", ['{"levels": {}}', '{"levels": [1]}', '{"levels": null}', '{"levels": [{"id": 1}]}'])
def test_what_is_no_list_of_rows_is_refused(text: str) -> None:
    with pytest.raises(ValidationError):
        Home.model_validate_json(text)
