"""What belongs to what is pointed at: a breaker's boxes, a box's breakers, in words and on every level."""

from floorplan_circuits.desktop.belonging import belonging, levels_lit, sentence
from floorplan_circuits.find import find
from floorplan_circuits.findings import Subject
from floorplan_circuits.home.building import Level
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import change
from floorplan_circuits.home.table import Table


def by_mark(found, mark):
    return next(number for number, one in found.marks.items() if one == mark)


def test_a_breaker_lights_every_box_it_feeds_and_rings_itself(cottage):
    breaker = by_mark(cottage, "3")
    shown = belonging(cottage, (Subject("breaker", breaker),))

    assert {one.id for one in shown.lit} == {one.box for one in cottage.conclusions.values() if breaker in one.breakers}
    assert shown.breakers == {Subject("breaker", breaker)}


def test_a_box_is_ringed_with_the_breakers_that_enter_it(cottage):
    box = next(found for found in cottage.boxes.values() if found.shared)
    shown = belonging(cottage, (Subject("box", box.box),))

    assert shown.lit == frozenset()
    assert shown.ringed == {Subject("box", box.box)}
    assert {one.id for one in shown.breakers} == set(box.breakers)


def test_a_device_stands_for_its_box(cottage):
    box = cottage.home.boxes.rows[0]
    shown = belonging(cottage, (Subject("device", box.devices[0].id),))

    assert shown.ringed == {Subject("box", box.id)}


def test_nothing_belongs_to_nothing(cottage):
    assert belonging(None, (Subject("box", 1),)) == belonging(cottage, ()) == belonging(None, ())


def test_a_breaker_is_followed_through_every_level(cottage):
    upper = Level(id=cottage.home.next_id, name="Upper floor", order=1)
    moved = [change(box, level=upper.id) if place % 2 else box for place, box in enumerate(cottage.home.boxes)]
    home: Home = change(
        cottage.home,
        levels=cottage.home.levels.put(upper),
        boxes=Table(moved),
        next_id=cottage.home.next_id + 1,
    )
    found = find(home)
    lit = belonging(found, (Subject("breaker", by_mark(found, "3")),)).lit
    counts = levels_lit(found, lit)

    assert set(counts) == {cottage.home.levels.ids()[0], upper.id}
    assert sum(counts.values()) == len(lit)


def test_a_sentence_says_what_is_pointed_at(cottage):
    box = next(found for found in cottage.boxes.values() if found.shared)
    words = sentence(cottage, Subject("box", box.box))

    assert cottage.home.boxes[box.box].mark in words
    assert "More than one circuit enters" in words
    assert sentence(cottage, Subject("breaker", by_mark(cottage, "5"))).startswith("5: ")
    assert sentence(cottage, None) == sentence(None, Subject("box", 1)) == ""
