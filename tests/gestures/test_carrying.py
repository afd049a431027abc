"""Carrying one gang: into another order, into another box; over nothing the whole box moves as ever."""

from floorplan_circuits.edits.boxes import join_box
from floorplan_circuits.findings import Subject
from floorplan_circuits.home.home import Home
from tests.edits.samples import box_of, device_of, house
from tests.gestures.hand import Hand


def two_gangs() -> Home:
    return join_box(house(), box_of(house(), "B3"), "dimmer").home


def selecting(mark: str, home: Home | None = None) -> Hand:
    hand = Hand(home or two_gangs())
    hand.selected = (Subject("box", box_of(hand.home, mark)),)
    return hand


def carry(hand: Hand, what: Subject, to: Subject | None, far: float = 300.0):
    hand.pull((3000, 60), (3000 + far, 60), what)
    from floorplan_circuits.gestures.events import Move, Release

    hand.do(Move((3000 + far, 60), to, True))
    draft = hand.draft
    hand.do(Release((3000 + far, 60), to))
    return draft


def gang(hand: Hand, mark: str, place: int) -> Subject:
    return Subject("device", device_of(hand.home, mark, place))


def kinds(home: Home, mark: str) -> list[str]:
    return [one.kind for one in sorted(home.boxes[box_of(home, mark)].devices, key=lambda one: one.slot)]


def test_a_gang_of_the_selected_box_is_dragged_into_order():
    hand = selecting("B3")

    draft = carry(hand, gang(hand, "B3", 0), gang(hand, "B3", 1))

    assert (draft.symbol, draft.words, draft.joins) == ("switch", "B3, gang 2", True)
    assert kinds(hand.home, "B3") == ["dimmer", "switch"]
    assert hand.said == "Put the switch in gang 2 of B3."


def test_a_gang_is_dragged_to_another_box():
    hand = selecting("B3")

    draft = carry(hand, gang(hand, "B3", 1), Subject("box", box_of(hand.home, "B2")))

    assert draft.words == "into B2"
    assert (kinds(hand.home, "B3"), kinds(hand.home, "B2")) == (["switch"], ["duplex receptacle", "dimmer"])
    assert hand.selected == (Subject("box", box_of(hand.home, "B3")),)


def test_the_last_device_takes_its_box_along_and_the_other_one_is_selected():
    hand = selecting("B1")

    carry(hand, Subject("box", box_of(hand.home, "B1")), Subject("box", box_of(hand.home, "B2")))

    assert [box.mark for box in hand.home.boxes] == ["B2", "B3"]
    assert hand.selected == (Subject("box", box_of(hand.home, "B2")),)


def test_over_nothing_or_in_its_own_place_the_whole_box_moves():
    for over in (None, 0):
        hand = selecting("B3")
        to = None if over is None else gang(hand, "B3", 0)

        carry(hand, gang(hand, "B3", 0), to)

        assert kinds(hand.home, "B3") == ["switch", "dimmer"]
        assert hand.home.boxes[box_of(hand.home, "B3")].at == (3300, 0)


def test_a_box_that_is_not_selected_moves_as_a_whole():
    hand = Hand(two_gangs())

    carry(hand, Subject("box", box_of(hand.home, "B3")), Subject("box", box_of(hand.home, "B2")))

    assert len(hand.home.boxes) == 3
    assert hand.home.boxes[box_of(hand.home, "B3")].at == (3300, 0)


def test_escape_leaves_a_gang_where_it_was():
    hand = selecting("B3")
    before = hand.home

    hand.pull((3000, 60), (3300, 60), gang(hand, "B3", 0))
    hand.key("escape")

    assert hand.home is before
    assert hand.draft is None


def test_a_click_on_one_gang_selects_its_box():
    hand = selecting("B3")

    hand.click((3000, 60), gang(hand, "B3", 1))

    assert hand.selected == (Subject("box", box_of(hand.home, "B3")),)
