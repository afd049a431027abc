"""Poles that a breaker has no longer."""

from floorplan_circuits.edits.breakers import add_breaker
from floorplan_circuits.edits.poles import without_poles
from floorplan_circuits.edits.typed import read_typed
from floorplan_circuits.home.boxes import Feed, FromBreaker, FromElsewhere, Supplied
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import change
from tests.edits.samples import box_of, house, panel_of

ELSEWHERE = FromElsewhere(kind="elsewhere", where="the barn")


def pole(number: int | None, breaker: int = 99) -> FromBreaker:
    return FromBreaker(kind="breaker", breaker=breaker, pole=number)


def passing(*feeds: Feed) -> Home:
    """The house with these feeds through B1."""
    home = house()
    box = home.boxes[box_of(home, "B1")]
    return change(home, boxes=home.boxes.put(change(box, passing=feeds)))


def after(feed: Feed, poles: int) -> Feed:
    home = without_poles(passing(feed), 99, poles)
    return home.boxes[box_of(home, "B1")].passing[0]


def across(*supplies, how: str = "all") -> Feed:
    return Feed(id=50, on=Supplied(how=how, supplies=supplies))


def test_a_feed_on_a_pole_that_is_left_stays():
    feed = across(pole(0), pole(1))

    assert after(feed, 2) is feed
    assert after(across(pole(1, breaker=98)), 1).on.supplies == (pole(1, breaker=98),)


def test_a_feed_across_two_poles_of_which_one_is_left_hangs_on_that_one():
    on = after(across(pole(0), pole(1)), 1).on

    assert (on.how, on.supplies) == ("any", (pole(0),))


def test_a_feed_on_a_pole_that_is_gone_hangs_on_the_breaker():
    on = after(across(pole(2), ELSEWHERE, how="any"), 2).on

    assert (on.how, on.supplies) == ("any", (ELSEWHERE, pole(None)))


def test_a_neutral_on_a_pole_that_is_gone_is_not_known():
    assert after(Feed(id=50, returns=pole(1)), 1).returns == "not known"


def test_a_panel_fed_by_a_pole_that_is_gone_is_fed_by_the_breaker_once():
    home = house()
    panel = change(home.panels[panel_of(home)], fed_by=(pole(1), pole(2), pole(0, breaker=98)))
    home = change(home, panels=home.panels.put(panel))

    assert without_poles(home, 99, 1).panels[panel.id].fed_by == (pole(None), pole(0, breaker=98))


def test_where_no_pole_goes_the_boxes_stay_the_very_boxes():
    home = add_breaker(house(), panel_of(house()), 2, read_typed("30/2")).home

    assert without_poles(home, home.breakers.ids()[-1], 2).boxes is home.boxes
