"""What else an edit did: told in sentences, and nothing told where nothing else happened."""

from floorplan_circuits.edits.boxes import put_device, split_halves
from floorplan_circuits.edits.consequences import consequences
from floorplan_circuits.edits.panels import add_panel
from floorplan_circuits.edits.removal import remove
from floorplan_circuits.edits.rooms import add_room
from floorplan_circuits.edits.ties import tie
from floorplan_circuits.edits.walls import move_wall
from floorplan_circuits.home.boxes import FromBreaker, Supplied
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import change
from tests.edits.samples import (
    SQUARE,
    box_of,
    breaker_at,
    device_of,
    feeds_in,
    house,
    level_of,
    panel_of,
    read,
    supplied,
    typed_in,
)

OVER = [(3000, 1000), (6000, 1000), (6000, 2000), (3000, 2000)]


def tied() -> Home:
    home = house()
    return tie(home, home.boxes.ids(), breaker_at(home, 1)).home


def removed(home: Home, *gone: int) -> tuple[str, ...]:
    return consequences(home, remove(home, gone).home)


def test_an_edit_that_does_only_what_it_says_has_none():
    home = house()

    assert consequences(home, home) == ()
    assert consequences(home, put_device(home, level_of(home), (0, 500), 0, "switch").home) == ()
    assert consequences(home, tied()) == ()
    assert consequences(tied(), split_halves(tied(), device_of(tied(), "B1")).home) == ()


def test_feeds_that_lost_their_breaker_are_counted():
    assert removed(tied(), breaker_at(tied(), 1)) == ("3 feeds have no breaker now: treat as live.",)


def test_a_loop_that_lost_one_breaker_is_told():
    home = typed_in(tied(), 3, "15")
    box = home.boxes[box_of(home, "B1")]
    loop = tuple(FromBreaker(kind="breaker", breaker=breaker_at(home, space)) for space in (1, 3))
    feed = change(box.devices[0].feeds[0], on=Supplied(how="any", supplies=loop))
    home = change(home, boxes=home.boxes.put(change(box, devices=(change(box.devices[0], feeds=(feed,)),))))

    assert removed(home, breaker_at(home, 3)) == ("1 feed is said to hang on fewer breakers now.",)


def test_what_was_tested_and_went_is_told():
    home = read(house(), feeds_in(house(), "B1"), breaker_at(house(), 1))

    assert removed(home, box_of(home, "B1")) == ("1 feed with test readings went with it.",)
    assert removed(home, breaker_at(home, 1)) == ("1 breaker with test readings went with it.",)
    assert removed(home, box_of(home, "B2")) == ()


def test_a_panel_tells_what_stood_in_it_and_what_it_fed():
    home = add_panel(typed_in(house(), 3, "15"), 4, "Garage", fed_by=breaker_at(house(), 1)).home
    home = supplied(home, panel_of(home))

    assert removed(home, panel_of(home)) == (
        "2 breakers went with it.",
        "Nothing is said to feed Garage now.",
        "Nobody says what utility reaches now: treat all as live.",
    )


def test_a_level_tells_what_was_on_it():
    assert removed(house(), level_of(house())) == ("1 room and 3 boxes went with it.",)


def test_rooms_that_come_to_lie_over_each_other_are_told_once():
    home = house()
    drawn = add_room(home, level_of(home), OVER, "Hall").home
    said = ("Hall and Kitchen lie over each other: boxes there count for the smaller one.",)

    assert consequences(home, drawn) == said
    assert consequences(drawn, move_wall(drawn, level_of(home), (0, 0), (0, 3000), (-100, 0)).home) == ()


def test_rooms_that_share_a_wall_or_stand_on_two_levels_do_not():
    home = house()
    beside = add_room(home, level_of(home), [(4000, 0), (7000, 0), (7000, 3000), (4000, 3000)], "Hall").home

    assert consequences(home, beside) == ()


def test_one_room_drawn_twice_lies_over_itself():
    home = house()

    assert len(consequences(home, add_room(home, level_of(home), SQUARE, "Again").home)) == 1
