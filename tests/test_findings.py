"""Findings: frozen plain values, about one home, that nobody needs a library to read."""

from collections.abc import Iterator, Mapping
from dataclasses import FrozenInstanceError, fields, is_dataclass

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.find import find
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import ids
from floorplan_circuits.home.record import Record
from tests.homes import generate, homes

PLAIN = (bool, int, float, str, type(None))


def odd_parts(value: object, where: str, seen: dict[int, object] | None = None) -> Iterator[str]:
    """Yield where anything but a plain value is held: records of the home may be, a number of a library may not.

    What is held in several places is gone through once.
    """
    seen = {} if seen is None else seen
    if type(value) in PLAIN or isinstance(value, Record) or id(value) in seen:
        return
    seen[id(value)] = value
    if isinstance(value, Mapping):
        for key, inner in value.items():
            yield from odd_parts(key, where, seen)
            yield from odd_parts(inner, f"{where}[{key}]", seen)
    elif isinstance(value, tuple):
        for inner in value:
            yield from odd_parts(inner, where, seen)
    elif is_dataclass(value) and type(value).__module__.startswith("floorplan_circuits.findings"):
        for field in fields(value):
            yield from odd_parts(getattr(value, field.name), f"{where}.{field.name}", seen)
    else:
        yield f"{where} holds {type(value)}"


def assert_names_the_home(found: Findings, home: Home) -> None:
    """Check that all that findings name is in the home they are about."""
    boxes, breakers, rooms = set(home.boxes.ids()), set(home.breakers.ids()), set(home.rooms.ids())
    assert found.home is home
    assert set(found.rooms) == rooms
    assert set(found.boxes) <= boxes
    assert {hazard.box for hazard in found.hazards} <= boxes | {None}
    assert {breaker for hazard in found.hazards for breaker in hazard.breakers} <= breakers
    assert {thing for hazard in found.hazards for thing in hazard.about} <= ids(home).keys()
    assert {box for a, b, _ in found.near for box in (a, b)} <= boxes
    assert {zone.room for zone in found.zones} <= rooms
    assert set(found.lines) == breakers
    assert set(found.colours) <= breakers
    assert set(found.panels) == set(home.panels.ids())
    assert {breaker for one in found.boxes.values() for breaker in one.breakers} <= breakers
    assert set(found.never_tested) <= set(found.conclusions)


@settings(max_examples=40, deadline=None)
@given(homes())
def test_what_is_found_is_plain_and_names_what_the_home_has(home: Home) -> None:
    found = find(home)
    assert list(odd_parts(found, "findings")) == []
    assert_names_the_home(found, home)


@settings(max_examples=8, deadline=None)
@given(st.integers(0, 10_000), st.integers(1, 80))
def test_what_is_found_of_a_plausible_home_is_plain_too(seed: int, devices: int) -> None:
    home = generate(seed, devices).home
    found = find(home)
    assert list(odd_parts(found, "findings")) == []
    assert_names_the_home(found, home)


def test_findings_of_nothing_are_empty() -> None:
    home = Home()
    assert find(home) == Findings(home)


def test_findings_are_never_changed_in_place() -> None:
    found = find(Home())
    with pytest.raises(FrozenInstanceError):
        found.hazards = ()  # type: ignore[misc]  # that is what is tested
