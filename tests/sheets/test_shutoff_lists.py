"""The lists of a shut-off: critical things first, rooms after, and no list says nothing where there is something."""

from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.find import find
from floorplan_circuits.findings import GoesDark, OtherChoice, ShutOff, Step
from floorplan_circuits.sheets.sections import Section
from floorplan_circuits.sheets.shutoff_lists import (
    goes_dark,
    not_known,
    stays_live,
    when_to_stop,
)
from tests.drawing.drawn import box, breaker, device, fed, home, room, words_in

DARK = (
    GoesDark(1, 20, "Cellar", "sump pump", "keeps it dry", "Look at the water first."),
    GoesDark(2, 21, "Hall", "ceiling light"),
    GoesDark(3, 22, "Hall", "ceiling light"),
    GoesDark(4, 23, "", "porch light"),
)


def test_what_goes_dark_outdoors_is_told_so() -> None:
    outside = find(home((box(23, (500, 500), device(24, fed(4)), mount="outdoor"),)))
    assert lines(goes_dark(plan(goes_dark=DARK[3:]), outside, 110, PAPER)) == ["Outdoors: porch light"]


def plan(**fields: object) -> ShutOff:
    empty: dict[str, object] = dict.fromkeys(
        ("boxes", "off", "keep_off", "goes_dark", "states", "unknown", "stays_live", "choices"), ()
    )
    lights = {"prove_tester_at": None, "light_to_work_by": None, "light_at_panel": None}
    return ShutOff(**{**empty, **lights, **fields})  # type: ignore[arg-type]


def lines(section: Section) -> list[str]:
    return [" ".join(words_in(block.ink)) for block in section.blocks]


def test_what_is_critical_goes_dark_first_then_room_by_room_counted() -> None:
    assert lines(goes_dark(plan(goes_dark=DARK), find(home(())), 80, PAPER)) == [
        "Cellar: sump pump (keeps it dry)",
        "Hall: ceiling light (2 ×)",
        "In no room: porch light",
    ]


def test_where_nothing_else_goes_dark_it_says_as_far_as_anybody_recorded_it() -> None:
    assert lines(goes_dark(plan(), find(home(())), 80, PAPER)) == ["Nothing else, as far as anybody recorded it."]


def test_what_stays_live_is_listed() -> None:
    assert lines(stays_live(plan(stays_live=("Solar feeds power all the time.",)), 110, PAPER)) == [
        "Solar feeds power all the time.",
    ]


def test_what_is_not_known_is_listed_and_no_list_stands_for_nothing() -> None:
    assert lines(not_known(plan(unknown=("B20: nobody knows",)), 80, PAPER)) == ["B20: nobody knows"]
    assert not_known(plan(), 80, PAPER).blocks == ()


def test_other_choices_are_told_with_what_they_cost() -> None:
    findings = find(home(breakers=(breaker(6, 1), breaker(7, 2))))
    choices = (OtherChoice((6, 7), 12, 2, 60), OtherChoice((6,), 1, 0, 2))
    assert lines(goes_dark(plan(choices=choices), findings, 110, PAPER))[1:] == [
        "Or turn off 1 and 2 instead: 12 feeds go dark, 2 of them critical.",
        "Or turn off 1 instead: 1 feed goes dark.",
    ]


def test_nothing_else_would_do_for_a_box_that_stays_shut() -> None:
    choices = (OtherChoice((6,), 1, 0, 2),)
    told = lines(goes_dark(plan(choices=choices, stay_shut=(20,)), find(home(breakers=(breaker(6, 1),))), 110, PAPER))
    assert told == ["Nothing else, as far as anybody recorded it."]


def test_where_room_is_short_the_rooms_run_on_and_none_is_lost() -> None:
    assert lines(goes_dark(plan(goes_dark=DARK), find(home(())), 110, PAPER, dense=True)) == [
        "Cellar: sump pump (keeps it dry)",
        "Hall: ceiling light (2 ×). In no room: porch light.",
    ]


def test_a_room_with_many_things_that_all_go_dark_is_told_by_its_name_and_not_if_one_stays() -> None:
    kinds = ("receptacle", "switch", "ceiling light", "fan")
    dark = tuple(GoesDark(22 + 10 * at, 20 + 10 * at, "Kitchen", what) for at, what in enumerate(kinds))
    boxes = tuple(box(20 + 10 * at, (500 + at, 500), device(21 + 10 * at, fed(22 + 10 * at, 6))) for at in range(5))
    kitchen = (room(6000, "Kitchen", 0, 0, 4000, 4000),)
    without, with_one_more = (find(home(some, (breaker(6, 1),), rooms=kitchen)) for some in (boxes[:4], boxes))
    told = lines(goes_dark(plan(goes_dark=dark), without, 110, PAPER, dense=True))
    assert told == ["All that is recorded in: Kitchen."]
    told = lines(goes_dark(plan(goes_dark=dark), with_one_more, 110, PAPER, dense=True))
    assert told == ["Kitchen: receptacle; switch; ceiling light; fan."]


def test_when_to_stop_is_the_last_step_line_by_line() -> None:
    steps = (Step("off", "Turn off 1."), Step("call", "Stop, and call, for:", ("Aluminium.", "Work in the panel.")))
    section = when_to_stop(steps, 80, PAPER)
    assert section.title == "Stop, and call a licensed electrician, for"
    assert lines(section) == ["Aluminium.", "Work in the panel."]
