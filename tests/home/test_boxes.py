from typing import Any

import pytest
from pydantic import ValidationError

from floorplan_circuits.home.boxes import (
    NOT_KNOWN,
    Behind,
    Box,
    Control,
    Device,
    Disconnected,
    Feed,
    FromBreaker,
    FromElsewhere,
    FromSource,
    Supplied,
)
from tests.home.samples import sample


def feed(**fields: Any) -> Feed:
    return Feed.model_validate({"id": 1, **fields}, strict=False)


def test_nothing_is_known_of_a_feed_until_somebody_says_it() -> None:
    bare = Feed(id=1)
    assert bare.on == NOT_KNOWN
    assert (bare.returns, bare.said_by, bare.volts) == ("not known", "not said", "mains")


def test_nothing_is_known_of_a_box_and_a_device_until_somebody_says_it() -> None:
    box, device = Box(id=1, mark="B1"), Device(id=2, kind="switch")
    assert (box.level, box.at, box.wiring, box.feeds()) == (None, None, "not known", ())
    assert (device.ground, device.va, device.planned, device.feeds) == ("not known", None, False, ())
    assert Control(id=3).by == "not known"


@pytest.mark.parametrize(
    ("on", "kind"),
    [
        ({"how": "any", "supplies": [{"kind": "breaker", "breaker": 2, "pole": 1}]}, Supplied),
        ({"how": "all", "supplies": [{"kind": "source", "source": 3}, {"kind": "elsewhere"}]}, Supplied),
        ({"how": "behind", "feed": 4}, Behind),
        ({"how": "disconnected", "seen_by": "A", "date": "2024-05-01"}, Disconnected),
    ],
)
def test_what_a_feed_hangs_on_is_told_apart_by_its_word(on: dict[str, Any], kind: type) -> None:
    assert isinstance(feed(on=on).on, kind)


def test_supplies_are_told_apart_by_their_kind() -> None:
    supplies = [{"kind": "breaker", "breaker": 2}, {"kind": "source", "source": 3}, {"kind": "elsewhere", "where": "x"}]
    on = feed(on={"how": "any", "supplies": supplies}).on
    assert isinstance(on, Supplied)
    assert [type(supply) for supply in on.supplies] == [FromBreaker, FromSource, FromElsewhere]


@pytest.mark.parametrize(
    "on",
    [
        {},
        {"how": "guess"},
        {"how": "any"},
        {"how": "any", "supplies": []},
        {"how": "any", "supplies": [{"kind": "breaker", "breaker": 1}] * 13},
        {"how": "any", "supplies": [{"kind": "breaker"}]},
        {"how": "any", "supplies": [{"kind": "breaker", "breaker": 1, "pole": 3}]},
        {"how": "behind"},
        {"how": "disconnected", "date": "yesterday"},
        "not known",
    ],
)
def test_anything_else_is_refused(on: Any) -> None:
    with pytest.raises(ValidationError):
        feed(on=on)


def test_a_neutral_is_with_the_same_breaker_or_a_named_pole_or_not_known() -> None:
    assert feed(returns={"kind": "breaker", "breaker": 2, "pole": 0}).returns == FromBreaker(
        kind="breaker", breaker=2, pole=0
    )
    with pytest.raises(ValidationError):
        feed(returns={"kind": "source", "source": 2})


def test_the_feeds_of_a_box_are_those_of_its_devices_gang_by_gang_and_then_those_that_pass() -> None:
    assert [each.id for each in sample().boxes[10].feeds()] == [12, 14, 15]


@pytest.mark.parametrize("fields", [{"slot": 0}, {"slot": 31}, {"va": -1}, {"va": 10**6 + 1}, {"ground": "maybe"}])
def test_a_device_that_no_box_can_hold_is_refused(fields: dict[str, Any]) -> None:
    with pytest.raises(ValidationError):
        Device(**{"id": 1, "kind": "switch", **fields})
