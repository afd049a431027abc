"""What to know before a handle is turned: nothing that is recorded of it is left out."""

from typing import Any

from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.find import find
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.boxes import Feed
from floorplan_circuits.home.log import Trouble
from floorplan_circuits.home.power import Breaker, Found, Main, Panel, Permission, Pole, Source
from floorplan_circuits.home.record import change
from floorplan_circuits.home.table import Table
from floorplan_circuits.sheets.before import before_you_turn
from tests.drawing.drawn import bounds_of, box, breaker, device, fed, home, sample, words_in


def told(findings: Findings, wide: float = 400.0) -> list[str]:
    return [" ".join(words_in(block.ink)) for block in before_you_turn(findings, wide, PAPER).blocks]


def told_of(**fields: Any) -> list[str]:
    return told(find(home(**fields)))


def test_a_panel_says_where_it_is_what_feeds_it_and_what_stays_live() -> None:
    panels = Table(
        [
            Panel(id=5, name="Main panel", place="back hall", spaces=12, mains=(Main(id=7, amps=100),)),
            Panel.model_validate(
                {"id": 8, "name": "Barn", "spaces": 4, "fed_by": ({"kind": "breaker", "breaker": 6},)}
            ),
        ]
    )
    sources = Table([Source(id=9, name="Meter", kind="utility", into=(5,), disconnect="by the gate")])
    main, barn = told_of(breakers=(breaker(6, 1),), panels=panels, sources=sources)
    assert main == (
        "Main panel: Back hall. Fed by Meter (its disconnect: by the gate). "
        "Main 100 A: the wires on its supply side stay live with it off."
    )
    assert barn == (
        "Barn: Nobody wrote down where it is. Fed by 1 in Main panel. No main of its own is recorded: "
        "the wires that feed it stay live until what feeds it is off."
    )


def test_a_panel_that_nobody_described_but_that_is_drawn_is_on_the_plan() -> None:
    drawn = Panel(id=5, name="Main panel", spaces=12, level=1, at=(0, 500))
    (said,) = told_of(panels=Table([drawn]))
    assert said.startswith("Main panel: On the plan of “Ground floor”. Nobody wrote down what feeds it.")


def test_sources_that_the_main_does_not_stop_say_how_they_start_and_where_they_are_disconnected() -> None:
    sources = Table(
        [
            Source(id=90, name="Battery", kind="battery", into=(5,), starts="by itself", disconnect="in the garage"),
            Source(id=91, name="Generator", kind="generator"),
        ]
    )
    said = told_of(sources=sources)
    assert said[1:] == [
        "Battery: Battery, starts by itself: the main does not stop it. Into Main panel. "
        "Its disconnect: in the garage.",
        "Generator: Generator, nobody knows how it starts: the main does not stop it. "
        "Nobody wrote down what it reaches. Nobody wrote down its disconnect.",
    ]


def test_a_box_that_is_fed_from_elsewhere_is_told() -> None:
    feed = Feed.model_validate(
        {"id": 22, "on": {"how": "any", "supplies": ({"kind": "elsewhere", "where": "the landlord's meter"},)}}
    )
    said = told_of(boxes=(box(20, (500, 500), device(21, feed)),))
    assert any(words.startswith("B20:") and "the main does not stop it" in words for words in said)


def test_what_was_left_off_what_to_ask_and_what_is_critical_stand_with_their_breaker() -> None:
    breakers = (
        breaker(6, 1, found=Found(state="off", why="the well is dry")),
        breaker(7, 2, may_open=Permission(may="ask", whose="Kim", why="the pump")),
        breaker(8, 3, may_open=Permission(may="never", why="it will not reset")),
        breaker(9, 4),
        breaker(10, 5, found=Found(state="tripped")),
    )
    boxes = (
        box(20, (0, 0), device(21, fed(22, 7), name="freezer", critical="the food")),
        box(23, (900, 0), device(24, fed(25), kind="smoke alarm", critical="smoke alarm")),
        box(26, (1800, 0), device(27, fed(28, 9), critical="not built", planned=True)),
    )
    assert told_of(boxes=boxes, breakers=breakers)[1:] == [
        "1 Found off: the well is dry.",
        "2 Ask Kim: the pump. Freezer (the food).",
        "3 Never turn it off: it will not reset.",
        "5 Found tripped, nobody wrote down why.",
        "? Smoke alarm: nobody knows which breaker it hangs on.",
    ]


def test_nothing_of_it_runs_out_of_a_narrow_column() -> None:
    for block in before_you_turn(sample("cottage"), 60.0, PAPER).blocks:
        left, top, right, bottom = bounds_of(block.ink)
        assert left >= 0
        assert top >= 0
        assert right <= 60.01
        assert bottom <= block.height


def test_a_home_without_a_panel_has_nothing_to_know() -> None:
    assert told_of(panels=Table()) == []


def test_a_handle_in_trouble_is_to_be_kept_off_a_main_among_them() -> None:
    log = (
        Trouble(id=90, kind="trouble", handle=6, what="runs hot"),
        Trouble(id=91, kind="trouble", handle=7, what="buzzes"),
    )
    panels = Table([Panel(id=5, name="Main panel", spaces=12, mains=(Main(id=7),))])
    said = told_of(breakers=(breaker(6, 1),), panels=panels, log=log)[1:]
    assert " ".join(said) == "main Buzzes: keep off. 1 Runs hot: keep off."


def test_breakers_that_share_a_neutral_say_so_of_each_other() -> None:
    def sharing(number: int, space: int) -> Breaker:
        return change(breaker(number, space), poles=(Pole(space=space, neutral=80),))

    said = told_of(breakers=(sharing(6, 1), sharing(7, 3), breaker(8, 5)))[1:]
    one, other = "1 Shares a neutral with 3", "3 Shares a neutral with 1"
    assert " ".join(said) == f"{one}: turn both off together. {other}: turn both off together."


def test_a_feed_whose_neutral_is_another_circuits_makes_both_say_so() -> None:
    own = Feed.model_validate(
        {
            "id": 22,
            "on": {"how": "any", "supplies": ({"kind": "breaker", "breaker": 6},)},
            "returns": {"kind": "breaker", "breaker": 7},
        }
    )
    said = told_of(boxes=(box(20, (0, 0), device(21, own)),), breakers=(breaker(6, 1), breaker(7, 3)))[1:]
    assert "1 Shares a neutral with 3: turn both off together." in " ".join(said)
    assert "3 Shares a neutral with 1: turn both off together." in " ".join(said)
