"""Crowding: labels take the first free place; where one finds none, others step aside if they can."""

from collections.abc import Iterator
from functools import partial

from floorplan_circuits.drawing.crowding import PATIENCE, Crowd, Form, Replay, Try, Wish
from floorplan_circuits.drawing.overlaps import around
from floorplan_circuits.drawing.placement import Candidate, Ground

SIZE = (4.0, 2.0)
LEFT, MIDDLE, RIGHT = (0.0, 0.0), (6.0, 0.0), (12.0, 0.0)


def wish(key: int, *places: tuple[float, float], form: Form = "whole", far: bool = False) -> Wish:
    return Wish(key, (0.0, 0.0), (), partial(tries, places, form, far))


def tries(places: tuple[tuple[float, float], ...], form: Form, far: bool) -> Iterator[Try]:
    yield form, far, SIZE, (Candidate(at) for at in places)


def stands(crowd: Crowd) -> dict[int, tuple[float, float]]:
    return {key: kept.placed.centre for key, kept in crowd.kept.items()}


def settled(*wishes: Wish, ground: Ground | None = None) -> Crowd:
    crowd = Crowd(ground or Ground())
    for one in wishes:
        crowd.add(one)
    crowd.make_way()
    return crowd


def test_each_takes_its_first_free_place() -> None:
    assert stands(settled(wish(1, LEFT, MIDDLE), wish(2, LEFT, MIDDLE))) == {1: LEFT, 2: MIDDLE}


def test_one_steps_aside_for_another_that_has_nowhere_else() -> None:
    assert stands(settled(wish(1, LEFT, MIDDLE), wish(2, LEFT))) == {1: MIDDLE, 2: LEFT}


def test_two_step_aside_for_one_that_lies_over_both() -> None:
    crowd = settled(wish(1, LEFT, (0.0, 9.0)), wish(2, (4.5, 0.0), (4.5, 9.0)), wish(3, (2.2, 0.0)))
    assert stands(crowd) == {1: (0.0, 9.0), 2: (4.5, 9.0), 3: (2.2, 0.0)}


def test_where_one_of_two_has_nowhere_to_go_all_stay_where_they_were() -> None:
    crowd = settled(wish(1, LEFT, (0.0, 9.0)), wish(2, (4.5, 0.0)), wish(3, (2.2, 0.0)))
    assert stands(crowd) == {1: LEFT, 2: (4.5, 0.0)}
    assert crowd.ground.is_free(around((0.0, 9.0), SIZE))


def test_nothing_steps_aside_that_is_no_label() -> None:
    ground = Ground()
    ground.take(around(LEFT, SIZE))
    assert stands(settled(wish(1, LEFT), ground=ground)) == {}


def test_a_label_that_shows_only_its_mark_tries_for_more() -> None:
    def mark_or_whole() -> Iterator[Try]:
        yield from tries((LEFT,), "whole", False)
        yield from tries((RIGHT,), "mark", False)

    crowd = settled(wish(1, LEFT, MIDDLE), Wish(2, LEFT, (), mark_or_whole))
    assert stands(crowd) == {1: MIDDLE, 2: LEFT}
    assert crowd.kept[2].form == "whole"
    assert crowd.ground.is_free(around(RIGHT, SIZE))


def test_a_label_gives_up_nothing_it_shows_to_let_another_in() -> None:
    def whole_or_mark() -> Iterator[Try]:
        yield from tries((LEFT,), "whole", False)
        yield from tries((RIGHT,), "mark", False)

    crowd = settled(Wish(1, LEFT, (), whole_or_mark), wish(2, LEFT))
    assert stands(crowd) == {1: LEFT}


def test_once_too_many_go_short_none_looks_far_off_or_asks_others_aside() -> None:
    short = [wish(key, LEFT) for key in range(2, 2 + PATIENCE)]
    crowd = settled(wish(1, LEFT, MIDDLE), *short, wish(100, RIGHT, far=True), wish(101, RIGHT))
    assert stands(crowd) == {1: LEFT, 101: RIGHT}


def test_what_was_asked_for_is_known_whether_or_not_it_found_a_place() -> None:
    crowd = settled(wish(1, LEFT), wish(2, LEFT))
    assert [crowd.wanted(key) for key in (1, 2, 3)] == [True, True, False]


def test_what_was_made_once_is_not_made_again() -> None:
    source = iter(range(3))
    replay = Replay(source)
    assert next(iter(replay)) == 0
    assert next(source) == 1  # the rest was not asked for yet
    assert list(replay) == list(replay) == [0, 2]


def test_a_thing_that_came_to_stay_since_is_kept_off() -> None:
    crowd = Crowd(Ground())
    crowd.add(wish(1, LEFT))
    crowd.add(wish(2, LEFT, RIGHT))
    crowd.ground.take(around(MIDDLE, SIZE))
    crowd.add(wish(3, LEFT, MIDDLE))
    crowd.make_way()
    assert stands(crowd) == {1: LEFT, 2: RIGHT}
