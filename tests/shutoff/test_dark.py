"""What a choice weighs: one a movement, one a feed that goes dark, and far more where somebody minds."""

from floorplan_circuits.home.boxes import Device, Feed
from floorplan_circuits.home.record import change
from floorplan_circuits.shutoff.dark import critical_among, places_of, weight
from tests.supply.wiring import on
from tests.survey.houses import FEED, A, B, box_of, house

MINDED, PLAIN = FEED, 401


def test_what_minds_going_off_weighs_twenty_feeds_more() -> None:
    dark = frozenset({MINDED, PLAIN})
    assert weight([A], frozenset({PLAIN}), frozenset()) == 2
    assert weight([A, B], dark, frozenset()) == 4
    assert weight([A, B], dark, frozenset({MINDED})) == 24
    assert weight([A], frozenset({PLAIN}), frozenset({MINDED})) == 2  # what stays on is not minded


def test_what_minds_is_what_somebody_called_critical() -> None:
    home = house({MINDED: on(A), PLAIN: on(B)})
    assert critical_among(places_of(home)) == frozenset()
    box = home.boxes[box_of(MINDED)]
    freezer = change(box.devices[0], critical="freezer")
    home = change(home, boxes=home.boxes.put(change(box, devices=(freezer,))))
    assert critical_among(places_of(home)) == {MINDED}


def test_what_is_only_planned_minds_nothing() -> None:
    planned = Device(id=51_000, kind="duplex receptacle", critical="freezer", planned=True, feeds=(Feed(id=410),))
    home = house({PLAIN: on(B)})
    box = home.boxes[box_of(PLAIN)]
    home = change(home, boxes=home.boxes.put(change(box, devices=(*box.devices, planned))))
    assert critical_among(places_of(home)) == frozenset()
