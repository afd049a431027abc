"""Rewriting references as they were declared: cleared to the default, left out of lists, or taking along the holder."""

from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.edits.rewriting import needs, rewritten
from floorplan_circuits.home.boxes import NOT_KNOWN, Behind, Box, Control, Device, Feed, FromBreaker, Supplied
from floorplan_circuits.home.building import Level, Room, Stair
from floorplan_circuits.home.home import TABLES
from floorplan_circuits.home.power import Breaker, Panel, Pole
from floorplan_circuits.home.references import references
from tests.homes import homes


def cleared(record, *gone):
    return rewritten(record, lambda _declared, named: None if named in gone else named)


def on(*breakers: int, how: str = "any") -> Supplied:
    return Supplied(how=how, supplies=tuple(FromBreaker(kind="breaker", breaker=one) for one in breakers))


def test_a_record_in_which_nothing_changes_is_the_very_record():
    feed = Feed(id=1, on=on(7))

    assert cleared(feed, 8) is feed
    assert cleared(Level(id=1, name="Ground floor"), 1).id == 1


def test_a_feed_that_loses_its_only_breaker_is_not_known():
    assert cleared(Feed(id=1, on=on(7)), 7).on == NOT_KNOWN


def test_a_feed_keeps_the_supplies_that_stay():
    assert cleared(Feed(id=1, on=on(7, 8, how="all")), 7).on == on(8, how="all")


def test_a_feed_behind_one_that_goes_is_not_known():
    assert cleared(Feed(id=1, on=Behind(how="behind", feed=2)), 2).on == NOT_KNOWN


def test_a_neutral_that_goes_is_not_known():
    feed = Feed(id=1, returns=FromBreaker(kind="breaker", breaker=7, pole=1))

    assert cleared(feed, 7).returns == "not known"


def test_references_are_found_however_deep_they_nest():
    box = Box(id=1, mark="B1", devices=(Device(id=2, kind="switch", feeds=(Feed(id=3, on=on(7)),)),))

    assert cleared(box, 7).devices[0].feeds[0].on == NOT_KNOWN


def test_lists_lose_what_goes_and_optional_fields_fall_back():
    group = Control(id=1, switches=(2, 3), feeds=(4,), enters=5)
    breaker = Breaker(id=1, panel=9, poles=(Pole(space=1),), behind=2)
    panel = Panel(id=1, name="Main", spaces=8, fed_by=(FromBreaker(kind="breaker", breaker=7),))

    assert (cleared(group, 3, 4, 5).switches, cleared(group, 3, 4, 5).feeds) == ((2,), ())
    assert cleared(group, 5).enters is None
    assert cleared(breaker, 2).behind is None
    assert cleared(panel, 7).fed_by == ()
    assert cleared(Stair(id=1, level=2, head=3, at=(0, 0), angle=0), 3).head is None


def test_a_record_that_can_t_stand_without_its_target_is_none():
    assert cleared(Room(id=1, level=2, name="Hall", outline=((0, 0), (1, 0), (0, 1))), 2) is None


def test_references_can_be_given_new_targets():
    room = rewritten(Room(id=1, level=2, name="Hall", outline=()), lambda _declared, named: named + 40)

    assert room == Room(id=1, level=42, name="Hall", outline=())


@settings(max_examples=30)
@given(homes(), st.sets(st.integers(1, 1100)))
def test_nothing_names_what_was_cleared_and_all_else_is_named_as_before(home, gone):
    for table in TABLES:
        for row in getattr(home, table):
            after = cleared(row, *gone)
            before = [one.target for one in references(row)]
            if after is None:
                assert not gone.isdisjoint(before)
            else:
                assert [one.target for one in references(after)] == [one for one in before if one not in gone]


@settings(max_examples=30)
@given(homes())
def test_a_record_goes_with_whatever_it_refers_to_so(home):
    for table in TABLES:
        for row in getattr(home, table):
            declared = [one.target for one in references(row) if one.declared.fate == "remove"]
            assert needs(row) == declared
