"""A step in words: the handles as the panel numbers them and where they sit, and what is left as found."""

from floorplan_circuits.find import find, plan_rounds
from floorplan_circuits.rounds.guide_words import cautions, guide_words, position, to_turn
from floorplan_circuits.rounds.steps import GuideStep
from tests.supply.wiring import breaker, main, panel
from tests.survey.houses import FEED, MAIN, PANEL, A, B, C, house

ASKED = {"system": "split-phase 120/240"}
"""Of a panel that somebody set up."""
KNOWN = find(house(panels=[panel(PANEL, spaces=200, mains=(main(MAIN),), **ASKED)]))


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
    panels = (panel(PANEL, spaces=20, **ASKED), panel(2, spaces=4, prefix="G", **ASKED))
    known = find(house(panels=panels, breakers=[breaker(A), breaker(B, of=2)]))
    name = known.home.panels[PANEL].name
    assert position(A, known) == f"{name}, left, 1st down"
    assert position(99_999, known) == ""


def test_of_a_panel_that_nobody_said_the_layout_of_no_place_is_made_up() -> None:
    known = find(house(panels=[panel(PANEL, spaces=20)], breakers=[breaker(A)]))
    assert position(A, known) == ""
    said = find(house(panels=[panel(PANEL, spaces=20, numbering="single row")], breakers=[breaker(A)]))
    assert position(A, said) == "1st down"


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
