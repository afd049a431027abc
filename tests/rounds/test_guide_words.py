"""A step in words: the handles as the panel numbers them and where they sit, and what is left as found."""

from floorplan_circuits.find import find, plan_rounds
from floorplan_circuits.rounds.guide_words import cautions, guide_words, position, to_turn
from floorplan_circuits.rounds.steps import GuideStep
from tests.supply.wiring import breaker, panel
from tests.survey.houses import FEED, PANEL, A, B, C, house

KNOWN = find(house())


def test_only_what_changes_is_turned_each_with_its_place_on_the_panel() -> None:
    turn = to_turn((A, B), GuideStep("round", 1, 3, (B, C)), KNOWN)
    assert [words.split(",")[0] for words in turn.on] == [KNOWN.marks[A]]
    assert [words.split(",")[0] for words in turn.off] == [KNOWN.marks[C]]
    assert turn.on[0].endswith("left, 1st down")
    assert to_turn((A,), GuideStep("round", 1, 3, (A,)), KNOWN).is_nothing


def test_of_many_handles_their_numbers_are_told_panel_by_panel() -> None:
    panels = (panel(PANEL, spaces=200), panel(2, spaces=4, prefix="G"))
    many = [breaker(100 + number, of=PANEL) for number in range(7)]
    known = find(house(panels=panels, breakers=[*many, breaker(B + 50, of=2)]))
    turn = to_turn((), GuideStep("round", off=tuple(known.home.breakers.ids())), known)
    assert len(turn.off) == 2
    assert turn.off[1] == f"{known.home.panels[2].name}: {known.marks[B + 50]}"


def test_where_a_breaker_sits_is_told_by_side_row_and_panel() -> None:
    panels = (panel(PANEL, spaces=20), panel(2, spaces=4, prefix="G"))
    known = find(house(panels=panels, breakers=[breaker(A), breaker(B, of=2)]))
    name = known.home.panels[PANEL].name
    assert position(A, known) == f"{name}, left, 1st down"
    assert position(99_999, known) == ""


def test_what_is_off_is_told_in_full_and_what_was_found_off_only_where_something_was() -> None:
    plan = plan_rounds(KNOWN)
    told = guide_words(GuideStep("round", 1, 3, (B,), feeds=(FEED,), left=1), plan, KNOWN)
    assert told.state == f"Off: {KNOWN.marks[B]}. All others on."
    found = find(house(breakers=[breaker(A, found={"state": "off"}), breaker(B), breaker(C)]))
    assert "but for those found off" in guide_words(GuideStep("round", off=(B,)), plan_rounds(found), found).state


def test_the_cautions_come_first_and_name_what_is_critical_in_this_home() -> None:
    told = " ".join(cautions(KNOWN))
    for thing in ("computers", "oxygen", "stairlift", "pumps", "freezers", "aquariums", "locks", "alarms", "by itself"):
        assert thing in told.casefold()
