"""Photographs kept with a box: each once, gone from the home with the last thing that shows it."""

import pytest

from floorplan_circuits.edits.edited import Edited, Refused
from floorplan_circuits.edits.pictures import attach_picture, detach_picture
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import problems
from floorplan_circuits.home.record import change
from tests.home.samples import sample

BOX, OTHER = 10, 16
HASH, DAY = "ab" * 32, "2026-03-14"


def attached(home: Home, box: int = BOX, picture: str = HASH) -> Edited:
    return attach_picture(home, box, picture, "image/jpeg", date=DAY, caption=" the  left side ")


def test_a_photo_is_kept_with_its_box_and_its_day() -> None:
    edited = attached(sample())
    assert edited.home.boxes[BOX].pictures == (HASH,)
    (row,) = edited.home.pictures
    assert (row.hash, row.media, row.date, row.caption) == (HASH, "image/jpeg", DAY, "the left side")
    assert edited.says == "Add a photo to B1"
    assert problems(edited.home) == ()


def test_two_boxes_may_show_one_photo_and_it_stays_till_the_last_lets_go() -> None:
    both = attached(attached(sample()).home, OTHER).home
    assert len(both.pictures) == 1
    one = detach_picture(both, BOX, HASH).home
    assert (one.boxes[BOX].pictures, one.boxes[OTHER].pictures, len(one.pictures)) == ((), (HASH,), 1)
    assert detach_picture(one, OTHER, HASH).home == sample()


def test_a_photo_that_a_panel_or_an_underlay_shows_stays_in_the_home() -> None:
    home = attached(sample()).home
    panel = change(home.panels.rows[0], photo=HASH)
    shown = change(home, panels=home.panels.put(panel))
    assert len(detach_picture(shown, BOX, HASH).home.pictures) == 1
    level = change(home.levels.rows[0], underlay={"picture": HASH, "width": 9000})
    assert len(detach_picture(change(home, levels=home.levels.put(level)), BOX, HASH).home.pictures) == 1


@pytest.mark.parametrize(
    ("box", "picture", "date", "says"),
    [
        (BOX, HASH, DAY, "has this photo already"),
        (999, "cd" * 32, DAY, "not there any more"),
        (BOX, "cd" * 32, "yesterday", "A date is a day"),
        (BOX, "no hash", DAY, "The hash"),
    ],
)
def test_what_cannot_be_kept_is_refused_in_words(box: int, picture: str, date: str, says: str) -> None:
    with pytest.raises(Refused, match=says):
        attach_picture(attached(sample()).home, box, picture, "image/png", date=date)


def test_only_what_is_there_can_be_taken_away() -> None:
    with pytest.raises(Refused, match="not there any more"):
        detach_picture(sample(), BOX, HASH)
