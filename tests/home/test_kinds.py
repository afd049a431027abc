from collections import Counter
from typing import get_args

import pytest

from floorplan_circuits.home.boxes import Mount
from floorplan_circuits.home.kinds import Group, Kind, catalogue, kind_named
from floorplan_circuits.home.resources import read_json

KINDS = list(catalogue().values())


def test_no_two_kinds_have_one_name() -> None:
    names = [row["name"] for row in read_json("device_kinds.json")["kinds"]]
    assert names == list(catalogue())


def test_no_two_kinds_have_one_key() -> None:
    keys = Counter(kind.key for kind in KINDS if kind.key)
    assert [key for key, count in keys.items() if count > 1] == []


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)
def test_a_kind_tells_all_that_is_asked_of_it(kind: Kind) -> None:
    assert kind.group in get_args(Group)
    assert kind.mount in get_args(Mount)
    assert kind.symbol
    assert kind.label
    assert kind.plural != kind.label
    assert 1 <= kind.hots <= 3
    assert len(set(kind.parts)) == len(kind.parts)
    assert kind.height is None or 0 <= kind.height <= 3000


def test_the_catalogue_has_every_group_and_every_group_has_a_kind() -> None:
    assert {kind.group for kind in KINDS} == set(get_args(Group))


def test_a_duplex_receptacle_has_two_halves_that_can_hang_on_two_circuits() -> None:
    assert kind_named("duplex receptacle").parts == ("upper", "lower")
    assert kind_named("240 V receptacle").hots == 2


def test_an_unknown_kind_is_plain_and_keeps_its_name() -> None:
    plain = kind_named("flux lamp")
    assert (plain.name, plain.label, plain.group, plain.symbol) == ("flux lamp", "flux lamp", "other", "blank outlet")
    assert "flux lamp" not in catalogue()


def test_the_symbol_of_an_unknown_kind_is_one_of_the_catalogue() -> None:
    assert kind_named("").symbol in {kind.symbol for kind in KINDS}
