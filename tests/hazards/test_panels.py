"""Hazards of panels: second sources, breakers found off or in trouble, conductors too small for their breakers."""

import pytest

from floorplan_circuits.home.power import Conductor, Found, Main, Tie
from floorplan_circuits.home.table import Table
from tests.hazards.small import FIVE, NINE, PANEL, SEVEN, box, device, feed, found, hazards, only, plain, standing, tie
from tests.supply.wiring import breaker_supply, on, panel, source, source_supply
from tests.survey.houses import changed, trouble

SEVERAL, SECOND = "more than one supply", "second source"
SOLAR, UTILITY = 600, 601
LIVE = "Treat as live whatever is off."


def solar(*into: int, **fields):
    return source(SOLAR, *into, **{"name": "Roof", "kind": "solar", "starts": "always", **fields})


# --- sources --------------------------------------------------------------------------------------------------------


def test_a_panel_that_two_sources_feed_is_told() -> None:
    fed = panel(PANEL, name="Main panel", fed_by=(source_supply(UTILITY),))
    sources = Table([source(UTILITY, PANEL, name="Grid"), solar(PANEL, disconnect="beside the meter")])
    said = only(SEVERAL, panels=[fed], sources=sources)
    assert said.says == "Main panel: the source Grid (utility) and the source Roof (solar) feed it."
    assert said.do == "Turn off its own disconnect too (beside the meter), then test every wire."
    assert (said.named, said.box) == ("Main panel", None)


@pytest.mark.parametrize("unsure", [{"disconnect": ""}, {"starts": "by itself"}, {"starts": "not known"}])
def test_without_a_known_disconnect_or_if_it_starts_by_itself_it_stays_live(unsure) -> None:
    sources = Table([source(UTILITY, PANEL), solar(PANEL, **{"disconnect": "by the meter", **unsure})])
    assert only(SEVERAL, sources=sources).do == LIVE


def test_one_supply_is_none_though_it_is_said_twice() -> None:
    fed = panel(PANEL, name="Main panel", fed_by=(source_supply(UTILITY),))
    assert hazards(SEVERAL, panels=[fed], sources=Table([source(UTILITY, PANEL)])) == []


@pytest.mark.parametrize(("made", "told"), [("by the factory", 0), ("makeshift", 1)])
def test_two_feeders_that_one_handle_moves_are_one_supply(made, told) -> None:
    held = Tie.model_validate(tie(made))
    breakers = [standing(FIVE, 5, tie=held), standing(SEVEN, 7, tie=held)]
    feeders = (breaker_supply(FIVE), breaker_supply(SEVEN))
    panels = [panel(PANEL, name="Main panel"), panel(300, name="Garage panel", prefix="G", fed_by=feeders)]
    assert len(hazards(SEVERAL, panels=panels, breakers=breakers)) == told


def test_how_it_changes_over_is_told() -> None:
    fed = panel(PANEL, name="Main panel", fed_by=(source_supply(UTILITY),), changes_over="by hand")
    said = only(SEVERAL, panels=[fed], sources=Table([source(UTILITY), solar(PANEL)]))
    assert said.says.endswith("It changes over between them by hand.")


def test_a_source_into_a_breaker_or_a_feed_is_told_there() -> None:
    there = box(1001, device(2001, feed(3001, on(FIVE))))
    sources = Table([solar(SEVEN), source(602, 3001, kind="generator", name="")])
    first, second = hazards(SECOND, there, sources=sources)
    assert (first.box, first.says) == (
        1001,
        "Kitchen: a source without a name (generator) feeds into the receptacle.",
    )
    assert (second.named, second.says) == ("7", "Main panel: the source Roof (solar) feeds into circuit 7.")
    assert "from memory" in first.source


# --- handles --------------------------------------------------------------------------------------------------------


def test_a_breaker_that_did_not_open_ranks_first_and_nobody_is_sent_to_it() -> None:
    said = only("breaker in trouble", log=[trouble(FIVE)])
    assert (said.rank, said.says) == (0, "Main panel: breaker 5 once did not open.")
    assert said.do == f"{LIVE} Keep off it and call a licensed electrician."


def test_other_troubles_are_told_together_until_the_panel_was_worked_on() -> None:
    log = [trouble(FIVE, "runs hot"), trouble(FIVE, "buzzes"), trouble(FIVE, "runs hot")]
    assert only("breaker in trouble", log=log).says == "Main panel: breaker 5 runs hot and buzzes."
    assert hazards("breaker in trouble", log=[*log, changed(panels=(PANEL,))]) == []


def test_a_main_in_trouble_is_told_of_its_panel() -> None:
    mains = (Main(id=700),)
    log = [trouble(700, "will not reset")]
    said = only("breaker in trouble", panels=[panel(PANEL, name="Main panel", mains=mains)], log=log)
    assert (said.says, said.about) == ("Main panel: the main will not reset.", (PANEL,))


@pytest.mark.parametrize(("state", "told"), [("off", 1), ("tripped", 1), ("on", 0), ("not recorded", 0)])
def test_a_breaker_found_off_or_tripped_is_told_with_why(state, told) -> None:
    resting = standing(FIVE, 5, found=Found(state=state, why="pool?"))
    said = hazards("breaker found off", breakers=[resting])
    assert [one.says for one in said] == [f"Main panel: breaker 5 was found {state}: pool?."] * told


@pytest.mark.parametrize(
    ("made", "by"), [("makeshift", "by a nail or a wire"), ("not sure", "and nobody is sure by what")]
)
def test_handles_that_are_joined_by_no_tie_made_for_it_are_told_once(made, by) -> None:
    joined = [standing(one, space, tie=Tie(group=1, made=made)) for one, space in ((FIVE, 5), (SEVEN, 7))]
    said = only("handles joined", breakers=joined)
    assert said.says == f"Main panel: the handles of 5 and 7 are joined, {by}."
    assert said.breakers == (FIVE, SEVEN)


def test_a_tie_by_the_factory_is_none_of_these() -> None:
    tied = [standing(one, space, tie=Tie(group=1, made="by the factory")) for one, space in ((FIVE, 5), (SEVEN, 7))]
    assert hazards("handles joined", breakers=tied) == []


# --- conductors -----------------------------------------------------------------------------------------------------


def wire(amps: int | None, size: str, metal: str = "copper", **fields) -> list:
    conductor = Conductor.model_validate({"size": size, "metal": metal})
    return hazards("conductor and breaker", breakers=[standing(FIVE, 5, amps=amps, conductor=conductor)], **fields)


def test_a_small_conductor_on_a_large_breaker_is_asked_about() -> None:
    (said,) = wire(30, "12 AWG")
    assert said.says == (
        "Main panel: breaker 5 of 30 A stands on 12 AWG copper, for which the rule lists at most 20 A: "
        "does it feed a motor, an air conditioner or a welder, for which others hold?"
    )
    assert "240.4(D)" in said.source
    assert "(E) and (G)" in said.source


@pytest.mark.parametrize("size", ["12", "#12", "12 awg", " 12 ga "])
def test_the_size_is_read_as_people_write_it(size) -> None:
    assert len(wire(30, size)) == 1


@pytest.mark.parametrize("size", ["", "2.5 mm²", "12/2", "twelve", "8 AWG", "121"])
def test_what_the_table_does_not_tell_of_is_let_be(size) -> None:
    assert wire(60, size) == []


def test_nothing_is_said_without_the_breakers_rating_or_where_the_table_is_not_made_for() -> None:
    assert wire(None, "14") == []
    assert wire(20, "14", system="single-phase 230") == wire(20, "14", system="not known") == []


def test_all_of_it_stands_in_the_list() -> None:
    every = found(breakers=[*plain(), standing(NINE + 1, 11, found=Found(state="off"))], log=[trouble(FIVE)]).hazards
    assert [one.listed for one in every] == [True, True]
