import pytest

from floorplan_circuits.home.aslant import Quad, aslant, is_seen_from_the_front

SLANTED = ((10.0, 20.0), (200.0, 40.0), (180.0, 300.0), (0.0, 260.0))


def test_the_corners_are_seen_at_the_corners() -> None:
    found = aslant(SLANTED)
    square = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))

    for at, corner in zip(square, SLANTED, strict=True):
        assert found.seen(at) == pytest.approx(corner)


def test_of_a_part_the_corners_are_those_of_the_part() -> None:
    whole = aslant(SLANTED)
    part = whole.of_rectangle(-0.5, 0.25, 1.5, 0.75, 800, 300)

    for at, same in (
        ((0, 0), (-0.5, 0.25)),
        ((800, 0), (1.5, 0.25)),
        ((800, 300), (1.5, 0.75)),
        ((400, 150), (0.5, 0.5)),
    ):
        assert part.seen(at) == pytest.approx(whole.seen(same))


@pytest.mark.parametrize(
    "corners",
    [
        ((0, 0), (0, 10), (10, 10), (10, 0)),  # the other way round: seen from behind
        ((0, 0), (10, 10), (10, 0), (0, 10)),  # crossed
        ((0, 0), (10, 0), (4, 4), (0, 10)),  # dented
        ((0, 0), (5, 0), (10, 0), (0, 10)),  # three on one line
        ((0, 0), (0, 0), (0, 0), (0, 0)),
    ],
)
def test_what_no_flat_thing_can_look_like_from_its_front_is_told(corners: Quad) -> None:
    assert not is_seen_from_the_front(corners)


def test_what_a_panel_looks_like_is_one() -> None:
    assert is_seen_from_the_front(SLANTED)
    with pytest.raises(ZeroDivisionError):
        aslant(((0, 0), (1, 1), (2, 2), (3, 3)))
