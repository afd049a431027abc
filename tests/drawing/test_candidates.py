"""Candidates: names of rooms try their best places before those round the middle."""

from floorplan_circuits.drawing.candidates import round_the_middle

ROOM = (-40.0, -30.0, 40.0, 30.0)


def test_a_name_tries_the_given_places_first() -> None:
    tried = [one.centre for one in round_the_middle(((1.0, 2.0), (3.0, 4.0)), (9.0, 3.0), ROOM)]
    assert tried[:2] == [(1.0, 2.0), (3.0, 4.0)]
    assert len(set(tried)) == len(tried)


def test_no_place_of_a_name_needs_a_line() -> None:
    assert all(one.led_from is None for one in round_the_middle(((0.0, 0.0),), (9.0, 3.0), ROOM))


def test_a_name_looks_all_over_its_room_nearest_first() -> None:
    tried = [one.centre for one in round_the_middle(((0.0, 0.0),), (9.0, 3.0), ROOM)][-81:]
    assert min(x for x, _ in tried) < -30
    assert max(y for _, y in tried) > 20
    away = [x * x + y * y for x, y in tried]
    assert away == sorted(away)
