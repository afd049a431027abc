"""What minds going off in a plan is named with its rounds and handles, the most pressing first."""

from floorplan_circuits.find import find, plan_rounds
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import change
from floorplan_circuits.rounds.minded import NOT_KNOWN, minded
from floorplan_circuits.rounds.phone import phone_page
from floorplan_circuits.rounds.wording import in_words
from tests.drawing.drawn import sample
from tests.supply.wiring import UNKNOWN, breaker, main, on, panel
from tests.survey.houses import FEED, MAIN, PANEL, A, B, C, box_of, house


def minding(home: Home, critical: dict[int, str]) -> Home:
    for feed, why in critical.items():
        box = home.boxes[box_of(feed)]
        (device,) = box.devices
        home = change(home, boxes=home.boxes.put(change(box, devices=(change(device, critical=why),))))
    return home


def told(home: Home) -> tuple[str, ...]:
    findings = find(home)
    return minded(plan_rounds(findings), findings)


def test_each_is_named_with_every_round_and_the_handle_that_goes_off_in_it() -> None:
    findings = sample("house")
    plan = plan_rounds(findings)
    rounds = [nth for nth, one in enumerate(plan.rounds, 1) if "20" in {findings.marks[handle] for handle in one.off}]
    first = minded(plan, findings)[0]
    when = f"Round {', '.join(map(str, rounds))}: 20"
    assert first.startswith(f"{when} – medical: breathing machine at night, by the bed (B89, Main bedroom). Ask ")


def test_the_most_pressing_comes_first() -> None:
    home = minding(house({FEED: on(A), 401: on(B)}), {FEED: "the food in it", 401: "oxygen"})
    assert ["oxygen" in words for words in told(home)] == [True, False]


def test_what_minds_though_nobody_knows_its_breaker_may_go_off_in_any_round() -> None:
    home = minding(house({FEED: UNKNOWN, 401: on(B)}), {FEED: "oxygen"})
    assert told(home)[0].startswith(NOT_KNOWN)


def test_a_feeder_that_is_tried_alone_is_told_too() -> None:
    below = panel(2, prefix="G", fed_by=({"kind": "breaker", "breaker": C},))
    panels = (panel(PANEL, spaces=200, mains=(main(MAIN),)), below)
    breakers = [breaker(A, opens="hot"), breaker(B, opens="hot", of=2), breaker(C, opens="hot")]
    home = minding(house({FEED: on(A), 401: on(B)}, panels=panels, breakers=breakers), {401: "oxygen"})
    findings = find(home)
    assert f"{findings.marks[C]} alone – oxygen" in told(home)[0]


def test_what_goes_off_in_no_round_is_not_told() -> None:
    never = [breaker(A, may_open={"may": "never"}), breaker(B), breaker(C)]
    assert not told(minding(house({FEED: on(A), 401: on(B)}, breakers=never), {FEED: "oxygen"}))


def test_paper_and_phone_both_tell_it_before_the_first_round() -> None:
    findings = sample("house")
    words = in_words(plan_rounds(findings), findings)
    (medical,) = [one for one in words.cautions if "breathing machine" in one]
    assert words.cautions.index(medical) == 1
    assert "breathing machine at night, by the bed (B89, Main bedroom)" in phone_page(words)
