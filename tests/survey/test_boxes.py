from collections.abc import Iterable

import pytest
from hypothesis import given, settings

from floorplan_circuits.findings import BoxFinding, SeenCable
from floorplan_circuits.home.boxes import Behind, Box, Feed, FromBreaker, FromElsewhere, FromSource, Supplied
from floorplan_circuits.home.home import Home, feeds
from floorplan_circuits.home.power import Tie
from floorplan_circuits.home.record import change
from floorplan_circuits.home.table import Table
from tests.homes import homes
from tests.supply.wiring import (
    DISCONNECTED,
    UNKNOWN,
    behind,
    breaker,
    breaker_supply,
    elsewhere,
    on,
    panel,
    source,
    source_supply,
)
from tests.survey.houses import FEED, PANEL, A, B, C, a_test, box_of, changed, found, house, opened, went

NEXT, LAST = 401, 402
BOX = box_of(FEED)


def one_box(hanging: dict, *entries, **fields) -> Home:
    """All feeds in one box."""
    home = house(hanging, *entries, **fields)
    devices = tuple(device for box in home.boxes for device in box.devices)
    return change(home, boxes=Table([Box(id=BOX, mark="B1", devices=devices)]))


def entering(home: Home, box: int = BOX) -> BoxFinding:
    return found(home).boxes[box]


# --- shared ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "hanging",
    [
        pytest.param([on(A), on(B)], id="two breakers"),
        pytest.param([on(A), on(elsewhere("hall"))], id="a breaker and elsewhere"),
        pytest.param([on(A), on(source_supply(300))], id="a breaker and a source"),
        pytest.param([on(A, B)], id="a loop"),
        pytest.param([on(A, B, how="all")], id="240 V across two breakers"),
        pytest.param([on(A), UNKNOWN, on(B)], id="an unknown hides nothing"),
        pytest.param([on(A), on(B, 999)], id="a supply that is gone hides nothing"),
        pytest.param([on(elsewhere()), on(elsewhere())], id="two from elsewhere that nobody named"),
        pytest.param([behind(NEXT), on(B), on(A)], id="behind another"),
    ],
)
def test_what_no_one_hand_movement_makes_dead_is_shared(hanging) -> None:
    box = one_box(dict(enumerate(hanging, FEED)), sources=[source(300, name="Generator")])
    assert entering(box).shared


@pytest.mark.parametrize(
    "hanging",
    [
        pytest.param([on(A), on(A)], id="one breaker"),
        pytest.param([on(breaker_supply(A, 0), breaker_supply(A, 1), how="all")], id="two poles, one trip"),
        pytest.param([on(A), behind(FEED)], id="behind itself"),
        pytest.param([on(A), UNKNOWN], id="one breaker and who knows"),
        pytest.param([on(elsewhere("hall")), on(elsewhere("hall"))], id="one supply from elsewhere"),
        pytest.param([on(A), DISCONNECTED], id="connected to nothing"),
        pytest.param([UNKNOWN, UNKNOWN], id="nobody knows"),
    ],
)
def test_what_one_hand_movement_may_make_dead_is_not(hanging) -> None:
    assert not entering(one_box(dict(enumerate(hanging, FEED)))).shared


def test_a_feeder_and_a_branch_share_a_box() -> None:
    panels = [panel(PANEL, spaces=200), panel(2, prefix="G", fed_by=(breaker_supply(A),))]
    breakers = [breaker(A, opens="hot"), breaker(B, of=2, opens="hot")]
    assert entering(one_box({FEED: on(A), NEXT: on(B)}, panels=panels, breakers=breakers)).shared


@pytest.mark.parametrize(("made", "ties"), [("by the factory", True), ("makeshift", False), ("not sure", False)])
def test_a_tie_lowers_the_danger_and_never_hides_the_box(made, ties) -> None:
    tie = Tie(group=900, made=made)
    home = one_box({FEED: on(A), NEXT: on(B)}, breakers=[breaker(number, tie=tie) for number in (A, B)])
    assert (entering(home).shared, entering(home).tied) == (True, ties)
    elsewhere_too = one_box({FEED: on(A), NEXT: on(B, elsewhere())}, breakers=[breaker(n, tie=tie) for n in (A, B)])
    assert not entering(elsewhere_too).tied


def test_circuits_joined_somewhere_else_share_every_box_of_theirs() -> None:
    home = house({FEED: on(A), NEXT: on(A, B)})
    assert entering(home).breakers == (A, B)
    assert entering(home).shared


def test_a_source_that_feeds_into_a_circuit_shares_every_box_of_it() -> None:
    home = house({FEED: on(A), NEXT: on(B)}, sources=[source(300, A, name="Solar")])
    assert entering(home).others == ("source: Solar",)
    assert entering(home).shared
    assert not entering(home, box_of(NEXT)).shared


@pytest.mark.parametrize(
    "entries",
    [
        pytest.param((), id="stated"),
        pytest.param((*a_test(A), *a_test(B, feed=NEXT)), id="tested"),
        pytest.param((*a_test(A), changed()), id="expired"),
        pytest.param((went("live", A),), id="denied"),
        pytest.param(({"kind": "weighed", "of": [A, B, FEED, BOX]},), id="named by a newer program"),
    ],
)
def test_no_standing_hides_that_a_box_is_shared(entries) -> None:
    home = one_box({FEED: on(A), NEXT: on(B)}, *entries)
    assert entering(home).breakers == (A, B)
    assert entering(home).shared


def test_a_test_that_found_another_breaker_than_stated_shares_the_box_with_it() -> None:
    assert entering(house({FEED: on(B)}, *a_test(A))).breakers == (A, B)
    assert entering(house(None, *a_test(A), went("live", A))).breakers == (A,)


def test_breakers_stand_in_the_order_of_the_panel() -> None:
    assert entering(one_box({FEED: on(C), NEXT: on(A), LAST: on(B)})).breakers == (A, B, C)


# --- unknown --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("hanging", "unknown"),
    [
        ([on(A)], 0),
        ([UNKNOWN, on(A), UNKNOWN], 2),
        ([behind(NEXT), UNKNOWN], 2),
        ([on(999)], 1),
        ([on(A, 999)], 1),
        ([DISCONNECTED], 0),
        ([change(DISCONNECTED, seen_by="")], 1),
    ],
)
def test_every_feed_of_which_nobody_knows_counts(hanging, unknown) -> None:
    assert entering(one_box(dict(enumerate(hanging, FEED)))).unknown == unknown


def test_a_cable_that_somebody_saw_and_nobody_knows_counts() -> None:
    home = house({FEED: on(A)})
    assert entering(house({FEED: on(A)}, opened(BOX, FEED))).unknown == 0
    assert entering(house({FEED: on(A)}, opened(BOX, FEED, None, None))).unknown == 2
    assert entering(house({FEED: on(A)}, opened(BOX, FEED, 999))).unknown == 1
    assert entering(house({FEED: on(A)}, opened(BOX, None), opened(BOX, FEED))).unknown == 0, "told since"
    assert entering(home).opened is False


def test_a_cable_of_another_boxs_feed_enters_this_one_too() -> None:
    home = house({FEED: on(A), NEXT: on(B)}, opened(BOX, FEED, NEXT))
    assert entering(home).breakers == (A, B)
    assert entering(home).shared


def test_a_box_of_which_nothing_is_recorded_and_a_device_without_a_feed_count() -> None:
    home = house({FEED: on(A)})
    assert entering(change(home, boxes=home.boxes.put(Box(id=30_000, mark="B2"))), 30_000).unknown == 1
    (box,) = home.boxes
    bare = change(box, devices=(*box.devices, change(box.devices[0], id=30_000, feeds=())))
    assert entering(change(home, boxes=home.boxes.put(bare))).unknown == 1


def test_a_junction_box_holds_its_cables_and_takes_no_power() -> None:
    home = house({FEED: on(A)}, kind="junction box")
    (box,) = home.boxes
    splice = change(box.devices[0], feeds=())
    assert entering(change(home, boxes=Table([change(box, devices=(splice,))]))).unknown == 1
    cables = change(box, devices=(splice,), passing=box.devices[0].feeds)
    assert entering(change(home, boxes=Table([cables]))).unknown == 0


# --- not there, or harmless -----------------------------------------------------------------------------------------


def test_a_box_that_is_only_planned_has_no_finding_and_a_planned_device_enters_none() -> None:
    home = one_box({FEED: on(A), NEXT: on(B)})
    (box,) = home.boxes
    second = change(box.devices[1], planned=True)
    assert entering(change(home, boxes=Table([change(box, devices=(box.devices[0], second))]))).breakers == (A,)
    assert found(change(home, boxes=Table([change(box, devices=(second,))]))).boxes == {}


def bell(*entries, volts: str = "low", kind: str = "doorbell transformer", **fields) -> Home:
    """A transformer on B whose low side enters the box that is on A."""
    home = house({FEED: on(A), NEXT: on(B), LAST: behind(NEXT)}, *entries, **fields)
    first, above, _ = home.boxes
    low = Feed(id=LAST, on=behind(NEXT), volts=volts)
    transformer = change(above, devices=(change(above.devices[0], kind=kind),))
    return change(home, boxes=Table([change(first, passing=(low,)), transformer]))


def test_low_voltage_behind_a_stated_transformer_shocks_nobody() -> None:
    assert entering(bell()).breakers == (A,)
    assert entering(bell(volts="mains")).breakers == (A, B)
    assert entering(bell(kind="duplex receptacle")).breakers == (A, B)


def test_low_voltage_that_something_speaks_against_counts() -> None:
    assert entering(bell({"kind": "weighed", "of": LAST})).unknown == 1
    assert entering(bell(went("live", B, feed=LAST))).breakers == (A, B)
    assert entering(bell(sources=[source(300, LAST, name="Battery")])).others == ("source: Battery",)


def test_a_box_tells_its_room_and_level_if_it_has_them_and_whether_it_was_opened() -> None:
    finding = entering(house({FEED: on(A)}, opened(BOX, FEED)))
    assert (finding.room, finding.room_name, finding.level_name, finding.opened) == (None, "", "", True)


# --- counted by hand ------------------------------------------------------------------------------------------------


@settings(max_examples=60)
@given(homes())
def test_every_box_that_two_stated_supplies_enter_is_shared(home) -> None:
    """Counted straight from the records, without the graph: whatever is stated directly is there at least."""
    stated = {place.feed.id: place.feed for place in feeds(home)}
    for box, finding in found(home).boxes.items():
        entering_it = [feed for feed in home.boxes[box].feeds() if not _may_be_left_out(feed, home, stated)]
        supplies = {supply for feed in entering_it for supply in _supplies(feed, stated)}
        assert len(supplies) < 2 or finding.shared
        assert finding.shared == (len(finding.breakers) + len(finding.others) > 1)
        assert {number for kind, number in supplies if kind == "breaker"} <= set(finding.breakers)


def _may_be_left_out(feed: Feed, home: Home, stated: dict[int, Feed]) -> bool:
    planned = {part.id for box in home.boxes for device in box.devices if device.planned for part in device.feeds}
    return feed.id in planned or (feed.volts == "low" and isinstance(feed.on, Behind))


def _supplies(feed: Feed, stated: dict[int, Feed]) -> Iterable[tuple[str, object]]:
    while isinstance(feed.on, Behind):
        feed = stated[feed.on.feed]
    for supply in feed.on.supplies if isinstance(feed.on, Supplied) else ():
        match supply:
            case FromBreaker(breaker=number):
                yield "breaker", number
            case FromSource(source=number):
                yield "source", number
            case FromElsewhere(where=where):
                yield "elsewhere", where or feed.id


@settings(max_examples=40)
@given(homes())
def test_where_nothing_joins_circuits_no_other_box_is_shared(home) -> None:
    """With one supply a feed, no source into anything and no test, the count by hand is exact."""
    plain = _plain(home)
    stated = {place.feed.id: place.feed for place in feeds(plain)}
    for box, finding in found(plain).boxes.items():
        planned = {feed.id for device in plain.boxes[box].devices if device.planned for feed in device.feeds}
        own = [feed for feed in plain.boxes[box].feeds() if feed.id not in planned]
        supplies = {supply for feed in own for supply in _supplies(feed, stated)}
        assert finding.shared == (len(supplies) > 1)


def _plain(home: Home) -> Home:
    """Return the home with the first supply of each feed alone, nothing planned, nothing fed into, no log."""

    def one(feed: Feed) -> Feed:
        single = isinstance(feed.on, Supplied)
        return change(feed, volts="mains", on=change(feed.on, supplies=feed.on.supplies[:1]) if single else feed.on)

    def bare(box: Box) -> Box:
        devices = [change(device, planned=False, feeds=tuple(map(one, device.feeds))) for device in box.devices]
        return change(box, devices=tuple(devices), passing=tuple(map(one, box.passing)))

    sources = Table(change(source, into=()) for source in home.sources)
    return change(home, boxes=Table(map(bare, home.boxes)), sources=sources, log=(), panels=_apart(home))


def _apart(home: Home) -> Table:
    return Table(change(panel, fed_by=()) for panel in home.panels)


@settings(max_examples=40)
@given(homes())
def test_any_unknown_feed_makes_its_box_unknown_and_the_hazard_says_so(home) -> None:
    findings = found(home)
    unknown = {one.box for one in findings.conclusions.values() if one.standing == "unknown"}
    low = {place.box.id for place in feeds(home) if place.feed.volts == "low"}
    warned = {hazard.box for hazard in findings.hazards if hazard.kind == "unknown box"}
    assert unknown - low <= warned
    assert warned == {box for box, finding in findings.boxes.items() if finding.unknown}


# --- feeds that tests keep apart ------------------------------------------------------------------------------------


def test_two_feeds_that_no_one_breaker_can_feed_share_the_box_though_neither_is_known() -> None:
    home = one_box({FEED: UNKNOWN, NEXT: UNKNOWN}, went("live", A), *_live_with_off(NEXT, B, C))
    assert not entering(one_box({FEED: UNKNOWN, NEXT: UNKNOWN}, went("live", A))).apart
    finding = entering(home)
    assert (finding.apart, finding.shared, finding.breakers) == (True, True, ())
    kinds = {hazard.kind: hazard.says for hazard in found(home).hazards}
    assert "tests leave no one breaker that feeds all in it, and two feeds that nobody knows" in kinds["shared box"]


def test_a_feed_that_tests_keep_from_the_others_breaker_shares_the_box() -> None:
    home = one_box({FEED: on(A), NEXT: UNKNOWN}, went("live", A, feed=NEXT))
    finding = entering(home)
    assert (finding.apart, finding.shared, finding.tied) == (True, True, False)


def test_handles_that_move_together_can_feed_both() -> None:
    tied = [breaker(one, tie=Tie(group=1, made="by the factory")) for one in (A, B)]
    home = one_box({FEED: on(A), NEXT: UNKNOWN}, went("live", A, C, feed=NEXT), breakers=[*tied, breaker(C)])
    assert not entering(home).apart


def _live_with_off(feed: int, *handles: int) -> list[dict]:
    return [went("live", handle, feed=feed) for handle in handles]


# --- what was seen --------------------------------------------------------------------------------------------------


def test_the_cables_last_seen_are_told_with_their_day_though_it_was_changed_since() -> None:
    early = {"kind": "opened", "box": BOX, "cables": [{"enters": "top", "feed": FEED}]}
    late = {
        "kind": "opened",
        "box": BOX,
        "date": "2026-03-02T10:30",
        "cables": [{"enters": "bottom", "feed": FEED}, {"enters": "back"}],
    }
    box = entering(one_box({FEED: on(A)}, early, late, changed(BOX)))
    assert box.seen == (SeenCable("bottom", FEED), SeenCable("back", None))
    assert box.seen_on == "2026-03-02"
    assert not box.opened


def test_of_a_box_that_nobody_opened_nothing_was_seen() -> None:
    box = entering(one_box({FEED: on(A)}))
    assert (box.seen, box.seen_on) == ((), "")
