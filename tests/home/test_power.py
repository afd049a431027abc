from typing import Any

import pytest
from pydantic import ValidationError

from floorplan_circuits.home.power import Breaker, Panel, Pole, Source, Tie


def breaker(**fields: Any) -> Breaker:
    return Breaker.model_validate({"id": 1, "panel": 2, "poles": [{"space": 1}], **fields}, strict=False)


def test_nothing_is_known_of_a_breaker_until_somebody_says_it() -> None:
    bare = breaker()
    assert bare.poles[0].neutral == "not known"
    assert (bare.opens, bare.amps, bare.tie, bare.behind) == ("not known", None, None, None)
    assert bare.found.state == "not recorded"
    assert bare.conductor.metal == "not known"


def test_a_tie_counts_as_sure_only_where_somebody_said_so() -> None:
    assert Tie(group=1).made == "not sure"


def test_a_source_may_start_by_itself_until_somebody_says_otherwise() -> None:
    assert Source(id=1, name="Battery", kind="battery").starts == "not known"


def test_a_neutral_is_its_own_or_of_a_group_or_not_known() -> None:
    assert [Pole(space=1, neutral=which).neutral for which in ("own", "not known", 7)] == ["own", "not known", 7]
    for wrong in ("shared", 0, None, True):
        with pytest.raises(ValidationError):
            Pole.model_validate({"space": 1, "neutral": wrong})


@pytest.mark.parametrize(
    "fields",
    [
        {"poles": []},
        {"poles": [{"space": place} for place in range(1, 6)]},
        {"poles": [{"space": 0}]},
        {"poles": [{"space": 201}]},
        {"poles": [{"space": 1, "half": "C"}]},
        {"amps": 0},
        {"amps": 6001},
        {"protects": ["lightning"]},
        {"may_open": {"may": "perhaps"}},
        {"found": {"state": "broken"}},
    ],
)
def test_a_breaker_that_no_panel_has_is_refused(fields: dict[str, Any]) -> None:
    with pytest.raises(ValidationError):
        breaker(**fields)


@pytest.mark.parametrize(
    "fields",
    [
        {"spaces": 0},
        {"spaces": 201},
        {"prefix": "g"},
        {"prefix": "GARA"},
        {"mains": tuple({"id": place} for place in range(1, 8))},
        {"fed_by": ({"kind": "elsewhere"},)},
        {"numbering": "at random"},
    ],
)
def test_a_panel_that_cannot_be_is_refused(fields: dict[str, Any]) -> None:
    with pytest.raises(ValidationError):
        Panel.model_validate({"id": 1, "name": "Main", "spaces": 20, **fields}, strict=False)


def test_a_local_disconnect_is_a_panel_of_one_space() -> None:
    assert Panel(id=1, name="Disconnect", spaces=1).mains == ()
