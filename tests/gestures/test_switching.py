"""Drawing what a switch works: by clicks, by a marquee, half by half; taken out again by another click."""

from floorplan_circuits.edits.boxes import join_box, put_device, split_halves
from floorplan_circuits.edits.switching import let_work
from floorplan_circuits.findings import Subject
from floorplan_circuits.gestures.selecting import Select
from floorplan_circuits.gestures.switching import HAND_ALONE, SAYS, DrawSwitching
from floorplan_circuits.home.home import Home
from tests.edits.samples import box_of, device_of, feeds_in, house, level_of
from tests.gestures.hand import Hand


def lit() -> Home:
    """The house with three lights in its ceiling (B4 to B6) and a three-way switch (B7)."""
    home = house()
    for x in (1000, 2000, 3000):
        home = put_device(home, level_of(home), (x, 1500), 90, "ceiling light").home
    return put_device(home, level_of(home), (0, 1500), 0, "three-way switch").home


def drawing(home: Home | None = None) -> Hand:
    return Hand(home or lit(), DrawSwitching())


def box(hand: Hand, mark: str) -> Subject:
    return Subject("box", box_of(hand.home, mark))


def feeds(hand: Hand) -> tuple[int, ...]:
    return hand.home.controls.rows[0].feeds if len(hand.home.controls) else ()


def test_a_switch_is_clicked_then_what_it_works():
    hand = drawing()

    hand.click(on=box(hand, "B3"))
    outcome = hand.click(on=box(hand, "B4"))

    assert outcome.edit.says == "Let the switch in B3 work the ceiling light in B4"
    assert "It says nothing of what is live" in hand.said
    assert feeds(hand) == tuple(feeds_in(hand.home, "B4"))
    assert hand.tool == DrawSwitching((device_of(hand.home, "B3"),))
    hand.click(on=box(hand, "B5"))
    assert len(hand.home.controls) == 1
    assert feeds(hand) == (*feeds_in(hand.home, "B4"), *feeds_in(hand.home, "B5"))


def test_a_second_click_takes_it_out_again():
    hand = drawing()
    for mark in ("B3", "B4", "B5", "B4"):
        hand.click(on=box(hand, mark))

    assert feeds(hand) == tuple(feeds_in(hand.home, "B5"))


def test_a_shift_click_adds_a_switch_before_or_after():
    before, after = drawing(), drawing()
    before.click(on=box(before, "B3"))
    before.click(on=box(before, "B7"), add=True)
    before.click(on=box(before, "B4"))
    after.click(on=box(after, "B3"))
    after.click(on=box(after, "B4"))
    after.click(on=box(after, "B7"), add=True)

    assert before.home.controls == after.home.controls
    assert after.home.controls.rows[0].switches == (device_of(after.home, "B3"), device_of(after.home, "B7"))
    after.click(on=box(after, "B7"), add=True)
    assert after.home.controls.rows[0].switches == (device_of(after.home, "B3"),)


def test_a_switch_is_taken_with_all_that_work_the_same():
    home = let_work(lit(), [device_of(lit(), "B3"), device_of(lit(), "B7")], [box_of(lit(), "B4")]).home
    hand = drawing(home)

    hand.click(on=box(hand, "B7"))

    assert hand.tool == DrawSwitching((device_of(home, "B3"), device_of(home, "B7")))
    assert hand.selected == (box(hand, "B3"), box(hand, "B7"))
    assert "works the ceiling light in B4" in hand.said


def test_each_click_on_a_split_receptacle_goes_on_to_its_next_part():
    hand = drawing(split_halves(lit(), device_of(lit(), "B1")).home)
    upper, lower = feeds_in(hand.home, "B1")
    hand.click(on=box(hand, "B3"))

    seen = []
    for _ in range(5):
        hand.click(on=box(hand, "B1"))
        seen.append(feeds(hand))

    assert seen == [(upper,), (lower,), (lower, upper), (), (upper,)]


def test_a_marquee_gathers_lights_and_leaves_receptacles():
    hand = drawing()
    hand.click(on=box(hand, "B3"))

    hand.drag((500, -100), (3500, 1600))

    assert feeds(hand) == tuple(feed for mark in ("B4", "B5", "B6") for feed in feeds_in(hand.home, mark))


def test_one_gang_is_told_from_the_others():
    hand = drawing(join_box(lit(), box_of(lit(), "B3"), "dimmer").home)

    hand.click(on=box(hand, "B3"))
    assert hand.said == "B3 has several switches. Click the one that is meant, in its gang."
    hand.click(on=Subject("device", device_of(hand.home, "B3", 1)))
    hand.click(on=box(hand, "B4"))

    assert hand.home.controls.rows[0].switches == (device_of(hand.home, "B3", 1),)


def test_a_light_before_any_switch_and_two_groups_are_refused_in_words():
    hand = drawing()
    hand.click(on=box(hand, "B4"))
    assert hand.said == "Click a switch first: there is none in B4."

    for mark in ("B3", "B4", "B7", "B5"):
        hand.click(on=box(hand, mark))
    before = hand.home
    hand.click(on=box(hand, "B3"), add=True)

    assert "work different things already" in hand.said
    assert hand.home is before
    assert hand.tool == DrawSwitching((device_of(hand.home, "B7"),))


def test_the_arc_follows_the_pointer_and_escape_lets_go_then_leaves():
    hand = drawing()
    hand.click(on=box(hand, "B3"))
    hand.click(at=(2000, 2000))

    assert hand.draft is None
    hand.pull((100, 100), (101, 101))
    hand.tool = DrawSwitching(hand.tool.switches)
    hand.key("escape")
    assert (hand.tool, hand.draft, hand.said) == (DrawSwitching(), None, SAYS)
    hand.key("escape")
    assert hand.tool == Select()


def test_a_switch_that_is_gone_falls_out_of_the_hand():
    hand = drawing()
    hand.click(on=box(hand, "B3"))
    hand.history = type(hand.history)(house())
    hand.click(on=Subject("box", 999_999))

    assert hand.tool == DrawSwitching((device_of(house(), "B3"),))
    hand.tool = DrawSwitching((999_999,))
    hand.click(on=Subject("box", box_of(hand.home, "B1")))
    assert hand.tool == DrawSwitching()


def test_enter_says_that_a_hand_alone_works_what_was_drawn_and_nothing_else_does():
    hand = drawing()
    hand.click(on=box(hand, "B3"))
    hand.key("enter")
    assert not hand.home.controls  # nothing is drawn yet that it could be said of
    hand.click(on=box(hand, "B4"))
    assert hand.home.controls.rows[0].by == "not known"
    assert HAND_ALONE in hand.said

    hand.key("enter")

    assert hand.home.controls.rows[0].by == "hand"
    assert HAND_ALONE not in hand.said
    before = hand.home
    hand.key("enter")
    assert hand.home is before
    hand.undo()
    assert hand.home.controls.rows[0].by == "not known"
