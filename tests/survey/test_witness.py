import pytest

from floorplan_circuits.home.boxes import Control
from floorplan_circuits.home.home import feeds
from floorplan_circuits.home.log import STRONG_METHODS
from floorplan_circuits.home.table import Table
from floorplan_circuits.survey.witness import Witnesses
from tests.supply.wiring import UNKNOWN
from tests.survey.houses import FEED, device_of, house

LAMP, FIXTURE, TESTER = "lamp plugged in", "the fixture itself", "two-lead tester"
WEAK = ("high-impedance meter", "non-contact tester", "signal tracer", "not said")


WORKED = 401
"""What the switch works: in a box of its own."""


def can(what: str, kind: str, method: str, *controls: Control) -> bool:
    home = house({FEED: UNKNOWN, WORKED: UNKNOWN}, kind=kind, controls=Table(controls))
    return getattr(Witnesses(home), what)(next(feeds(home)), method)


def worked(by: str, number: int = 900) -> Control:
    return Control(id=number, switches=(device_of(FEED),), feeds=(WORKED,), by=by)


@pytest.mark.parametrize("method", WEAK)
def test_what_the_mains_does_not_power_neither_proves_nor_denies(method) -> None:
    assert not can("can_prove", "duplex receptacle", method)
    assert not can("can_deny", "duplex receptacle", method)
    assert method not in STRONG_METHODS


@pytest.mark.parametrize("kind", ["duplex receptacle", "switch", "junction box", "smoke alarm", "who knows"])
def test_a_tester_with_two_leads_shows_any_feed(kind) -> None:
    assert can("can_prove", kind, TESTER)
    assert can("can_deny", kind, TESTER)


@pytest.mark.parametrize(
    ("kind", "method", "shows"),
    [
        ("duplex receptacle", LAMP, True),
        ("ceiling light", FIXTURE, True),
        ("ceiling light", LAMP, False),
        ("exhaust fan", FIXTURE, True),
        ("doorbell transformer", FIXTURE, True),
        ("smoke alarm", FIXTURE, False),
        ("thermostat", FIXTURE, False),
        ("junction box", FIXTURE, False),
        ("loose cable end", FIXTURE, False),
        ("who knows", FIXTURE, False),
    ],
)
def test_a_load_shows_what_it_hangs_on_if_it_has_no_battery_and_is_there(kind, method, shows) -> None:
    assert can("can_prove", kind, method) is shows


@pytest.mark.parametrize("kind", ["smoke alarm", "thermostat"])
def test_what_may_run_on_a_battery_denies_nothing_by_being_alive(kind) -> None:
    assert not can("can_deny", kind, FIXTURE)


def test_a_lamp_that_shines_denies_also_what_it_could_not_prove() -> None:
    assert can("can_deny", "switch", FIXTURE)


@pytest.mark.parametrize(("by", "shows"), [("hand", True), ("pull cord", True), ("radio", False), ("not known", False)])
def test_a_switch_shows_itself_by_the_lamp_that_one_control_by_hand_gives_it(by, shows) -> None:
    assert can("can_prove", "switch", FIXTURE, worked(by)) is shows


def test_two_controls_of_one_switch_or_none_show_nothing() -> None:
    assert not can("can_prove", "switch", FIXTURE)
    assert not can("can_prove", "switch", FIXTURE, worked("hand"), worked("hand", 901))


def test_a_control_without_a_lamp_shows_nothing() -> None:
    assert not can("can_prove", "switch", FIXTURE, Control(id=900, switches=(device_of(FEED),), by="hand"))


@pytest.mark.parametrize("by", ["timer", "photocell", "sensor", "thermostat", "radio", "other", "not known"])
def test_nothing_proves_by_being_dead_what_something_else_may_have_put_out(by) -> None:
    lamp = Control(id=900, feeds=(FEED,), by=by)
    assert not can("can_prove", "ceiling light", FIXTURE, lamp)
    assert not can("can_prove", "ceiling light", TESTER, lamp)
    assert can("can_deny", "ceiling light", TESTER, lamp)
