from floorplan_circuits.hazards.unknown_box import boxes_fed_from_elsewhere, doubtful_boxes, unknown_boxes
from floorplan_circuits.survey.conflicts import DID_NOT_OPEN
from tests.hazards.findings_of import box, one, scene, shared


def test_a_box_with_something_unknown_is_live_whatever_is_off() -> None:
    assert list(unknown_boxes(scene(box(5)))) == []
    (said,) = unknown_boxes(scene(box(5, unknown=1)))
    assert (said.says, said.do) == (
        "Kitchen: nobody knows what one feed in it hangs on.",
        "Treat as live whatever is off.",
    )
    (several,) = unknown_boxes(scene(box(unknown=2)))
    assert several.says == "Kitchen: nobody knows what two feeds in it hang on."


def test_tests_that_disagree_are_told_once_a_box_with_every_breaker_and_reason() -> None:
    known = [
        one("contradicted", 5, says="this"),
        one("contradicted", 5, 7, says="that"),
        one("contradicted", 7, says="this"),
    ]
    (said,) = doubtful_boxes(scene(box(5, 7), known=known))
    assert said.says == "Kitchen: tests disagree about circuits 5 and 7: this; that."
    assert (said.kind, said.rank) == ("tests disagree", 0)
    assert said.do == "Treat as live whatever is off. Test again."


def test_a_disagreement_without_a_breaker_names_none() -> None:
    (said,) = doubtful_boxes(scene(box(), known=[one("contradicted", says="found live")]))
    assert said.says == "Kitchen: tests disagree: found live."


def test_nobody_is_sent_back_to_a_breaker_that_did_not_open() -> None:
    (said,) = doubtful_boxes(scene(box(5), known=[one("contradicted", 5, says=DID_NOT_OPEN)]))
    assert "Keep off that breaker" in said.do
    assert "Test again" not in said.do


def test_tests_that_no_longer_hold_are_counted() -> None:
    expired = one("expired", 5, says="tested before a change")
    (said,) = doubtful_boxes(scene(box(5), known=[expired]))
    assert said.says == "Kitchen: one test no longer holds: tested before a change."
    (two,) = doubtful_boxes(scene(box(5), known=[expired, expired]))
    assert two.says == "Kitchen: two tests no longer hold: tested before a change."
    assert "Treat as live" in two.do


def test_every_other_standing_raises_no_doubt() -> None:
    known = [one(standing, 5) for standing in ("unknown", "claimed", "suggested", "traced", "proved")]
    assert list(doubtful_boxes(scene(box(5), known=known))) == []


def test_a_supply_from_elsewhere_alone_is_a_hazard_and_beside_another_the_shared_box_tells_it() -> None:
    (said,) = boxes_fed_from_elsewhere(scene(box(others=("elsewhere: the neighbour",))))
    assert said.says == "Kitchen: a supply from elsewhere (the neighbour) enters."
    assert said.do == "Treat as live whatever is off."
    assert list(boxes_fed_from_elsewhere(scene(box(5)))) == []
    assert list(boxes_fed_from_elsewhere(scene(shared(5, others=("elsewhere",))))) == []
