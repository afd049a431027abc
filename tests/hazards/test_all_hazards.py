from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.by_room import hazards_by_room
from floorplan_circuits.find import find
from floorplan_circuits.findings import Findings
from floorplan_circuits.hazards.all_hazards import hazards
from floorplan_circuits.home.home import TABLES, Home
from floorplan_circuits.home.record import change
from floorplan_circuits.survey.log_book import LogBook
from tests.hazards.dense import dense
from tests.hazards.findings_of import box, one, seen, shared
from tests.homes import homes


def test_the_worst_comes_first_and_equals_keep_the_order_of_the_boxes() -> None:
    boxes = {
        1: box(box=1, unknown=1),
        2: shared(5, 7, box=2, tied=True),
        3: shared(5, 7, box=3),
        4: box(5, box=4),
        5: shared(5, 9, box=5),
    }
    known = {1: one("contradicted", 5, feed=1, of=4, says="so"), 2: one("expired", 5, feed=2, of=4, says="old")}
    findings = seen([*boxes.values()], [*known.values()])
    found = [(hazard.box, hazard.kind) for hazard in hazards(findings, LogBook(findings.home))]
    assert found == [
        (4, "tests disagree"),
        (3, "shared box"),
        (5, "shared box"),
        (2, "shared box"),
        (4, "tested before a change"),
        (1, "unknown box"),
    ]


OF_WHAT_ENTERS = ("shared box", "unknown box", "other supply", "tests disagree", "tested before a change")


def test_no_box_no_hazard() -> None:
    assert hazards(Findings(Home()), LogBook(Home())) == ()


@settings(max_examples=30)
@given(homes())
def test_every_hazard_says_what_why_and_what_to_do_and_never_that_something_is_safe(home) -> None:
    findings = find(home)
    for hazard in findings.hazards:
        told = (hazard.kind, hazard.says, hazard.why, hazard.do, hazard.source)
        assert all(told)
        assert "safe" not in f"{hazard.kind} {hazard.why} {hazard.do} {hazard.source}".lower()
        assert "illegal" not in f"{hazard.kind} {hazard.why} {hazard.do} {hazard.source}".lower()
        assert hazard.box is None or hazard.box in findings.boxes
        assert hazard.named
        assert hazard.about
    ranks = [(bool(hazard.set_aside), hazard.rank) for hazard in findings.hazards]
    assert ranks == sorted(ranks)


@settings(max_examples=30)
@given(homes())
def test_every_box_in_danger_has_its_hazard_and_no_other_has_one(home) -> None:
    findings = find(home)
    warned = {hazard.box for hazard in findings.hazards if hazard.kind in OF_WHAT_ENTERS}
    doubtful = {one.box for one in findings.conclusions.values() if one.standing in ("contradicted", "expired")}
    dangerous = {box for box, found in findings.boxes.items() if found.shared or found.unknown or found.others}
    assert warned == dangerous | doubtful


@settings(max_examples=60)
@given(homes(), st.integers(0, 10**6).map(dense), st.sets(st.sampled_from(TABLES)))
def test_where_what_is_named_is_gone_hazards_are_found_all_the_same(home, other, shared) -> None:
    """A table of one home in another names what is not there, as a file might that somebody mended by hand."""
    mixed = change(other, **{name: getattr(home, name) for name in shared})
    findings = find(mixed)
    in_rooms = sum(len(room.hazards) for room in hazards_by_room(findings))
    assert in_rooms == sum(one.listed for one in findings.hazards)
