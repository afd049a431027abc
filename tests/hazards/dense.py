"""Homes from a seed in which dangers of every family are frequent: few breakers, boxes close together, a short log."""

from random import Random
from typing import Any

from floorplan_circuits.home.boxes import Box, Control, Device, Feed
from floorplan_circuits.home.building import Level, Room
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Breaker, Pole
from floorplan_circuits.home.table import Table
from tests.supply.wiring import UNKNOWN, behind, breaker_supply, elsewhere, main, on, panel, source, source_supply
from tests.survey.houses import a_test, changed, logged, trouble, went

LEVEL, ROOM, PANEL, MAIN, SOURCE, UTILITY, NEUTRAL, TIE = 1, 2, 3, 4, 5, 6, 7, 8
BREAKERS = (101, 102, 103, 104)
FIRST_BOX, FIRST_DEVICE, FIRST_FEED, FIRST_CONTROL = 1000, 2000, 3000, 4000
KINDS = (
    "duplex receptacle",
    "split receptacle",
    "single receptacle",
    "double duplex receptacle",
    "240 V receptacle",
    "switch",
    "three-way switch",
    "ceiling light",
    "doorbell transformer",
)
PARTS = ("", "upper", "upper left", "lower left", "upper right")
SHOWS = ("correct", "open ground", "open neutral", "hot and ground reversed")
PLACES = ((0, 0), (100, 0), (250, 20), (250, 200), (2000, 0))


def dense(seed: int) -> Home:
    """A home of one room with up to six boxes."""
    rng = Random(seed)
    feeds: list[int] = []
    boxes = [_box(rng, number, feeds) for number in range(rng.randint(1, 6))]
    devices = [device.id for box in boxes for device in box.devices]
    controls = [_control(rng, number, devices, feeds) for number in range(rng.randint(0, 3))] if devices else []
    into = rng.sample([PANEL, *BREAKERS, *feeds[:2]], rng.choice((0, 0, 1, 2)))
    room = Room(id=ROOM, level=LEVEL, name="Hall", outline=((0, 0), (4000, 0), (4000, 3000), (0, 3000)))
    home = Home(
        next_id=9000,
        system=rng.choice(("split-phase 120/240", "split-phase 120/240", "single-phase 230", "not known")),
        levels=Table([Level(id=LEVEL, name="Ground floor")]),
        rooms=Table([room]),
        boxes=Table(boxes),
        controls=Table(controls),
        panels=Table([_panel(rng)]),
        breakers=Table(_breakers(rng)),
        sources=Table([source(SOURCE, *into, kind=rng.choice(("solar", "generator"))), source(UTILITY)]),
    )
    return logged(home, *_log(rng, home, feeds, devices))


def _panel(rng: Random) -> Any:
    fed_by = tuple(source_supply(one) for one in (SOURCE, UTILITY) if rng.random() < 0.5)
    return panel(PANEL, name="Main panel", spaces=12, mains=(main(MAIN),), fed_by=fed_by)


def _breakers(rng: Random) -> list[Breaker]:
    """Four breakers: two in the halves of one space or in two spaces of one side or row, and two more below."""
    spaces = rng.choice((((1, "A"), (1, "B")), ((1, None), (2, None)), ((1, None), (3, None))))
    poles = [*spaces, (5, None), (7, None)]
    return [_breaker(rng, number, pole) for number, pole in zip(BREAKERS, poles, strict=True)]


def _breaker(rng: Random, number: int, pole: tuple[int, str | None]) -> Breaker:
    fields = {"space": pole[0], "half": pole[1], "neutral": rng.choice(("own", "not known", NEUTRAL))}
    leg = rng.choice((None, None, None, "A", "B"))
    made = rng.choice((None, None, "by the factory", "by the factory", "makeshift"))
    return Breaker.model_validate(
        {
            "id": number,
            "panel": PANEL,
            "poles": (Pole.model_validate({**fields, "leg": leg}),),
            "amps": rng.choice((None, 15, 20, 30)),
            "opens": "hot",
            "tie": made and {"group": TIE, "made": made},
            "found": {"state": rng.choice(("on", "on", "on", "off"))},
            "conductor": {"size": rng.choice(("", "14", "12 AWG")), "metal": rng.choice(("copper", "aluminium"))},
        }
    )


def _box(rng: Random, number: int, feeds: list[int]) -> Box:
    devices = tuple(_device(rng, 10 * number + at, feeds) for at in range(rng.randint(0, 2)))
    passing = (_feed(rng, feeds),) if rng.random() < 0.3 else ()
    return Box(
        id=FIRST_BOX + number,
        mark=f"B{number + 1}",
        level=LEVEL,
        at=rng.choice(PLACES),
        angle=rng.choice((90, 90, 270)),
        height=rng.choice((None, 400, 1200)),
        mount=rng.choice(("wall", "wall", "outdoor", "ceiling")),
        devices=devices,
        passing=passing,
    )


def _device(rng: Random, number: int, feeds: list[int]) -> Device:
    made = tuple(_feed(rng, feeds) for _ in range(rng.choice((1, 1, 1, 2, 3))))
    return Device(
        id=FIRST_DEVICE + number,
        kind=rng.choice(KINDS),
        feeds=made,
        rated=rng.choice((None, 15, 20, 30)),
        ground=rng.choice(("not known", "not known", "absent")),
        planned=rng.random() < 0.05,
    )


def _feed(rng: Random, feeds: list[int]) -> Feed:
    number = FIRST_FEED + len(feeds)
    one, other = rng.sample(BREAKERS, 2)
    choices = [on(one)] * 6 + [on(one, other), on(one, elsewhere()), on(one, other, how="all"), UNKNOWN]
    choices += [behind(feeds[-1])] if feeds else []
    feeds.append(number)
    return Feed(
        id=number,
        part=rng.choice(PARTS),
        on=rng.choice(choices),
        returns=rng.choice(("not known", "not known", "same", breaker_supply(other))),
        volts=rng.choice(("mains", "mains", "mains", "low", "not known")),
    )


def _control(rng: Random, number: int, devices: list[int], feeds: list[int]) -> Control:
    switches = rng.sample(devices, min(len(devices), rng.randint(1, 2)))
    return Control(
        id=FIRST_CONTROL + number,
        switches=tuple(switches),
        feeds=tuple(rng.sample(feeds, min(len(feeds), rng.randint(1, 2)))),
        by=rng.choice(("hand", "hand", "timer", "radio")),
    )


def _log(rng: Random, home: Home, feeds: list[int], devices: list[int]) -> list[dict[str, Any]]:
    log: list[dict[str, Any]] = []
    for feed in rng.sample(feeds, min(len(feeds), 2)):
        log += a_test(rng.choice(BREAKERS), feed=feed)
    log += [{"kind": "tester", "device": one, "shows": rng.choice(SHOWS)} for one in devices if rng.random() < 0.3]
    if rng.random() < 0.3:
        log.append(changed(rng.choice(home.boxes.ids())))
    if rng.random() < 0.3:
        log.append(trouble(rng.choice((*BREAKERS, MAIN)), rng.choice(("did not open", "runs hot"))))
    if feeds and rng.random() < 0.3:
        log.append(went("live", *BREAKERS, feed=rng.choice(feeds)))
    return log
