"""A short code of what a home's sheets say, printed on them: by it a stale print shows.

It is made of the facts that print and of nothing else: a note that nobody prints, a picture, an id or the order of
the file's rows changes nothing. Paper, colours and the words of this version of the program are not in it either.
"""

import json
from collections.abc import Callable, Iterable, Iterator
from hashlib import sha256
from typing import Any

from floorplan_circuits.drawing.frame import is_built
from floorplan_circuits.findings import Findings, Hazard
from floorplan_circuits.home.boxes import Box, Device, Feed
from floorplan_circuits.home.power import Breaker, Panel, Source

LETTERS = "34679ACDEFGHJKMNPQRTWXY"
"""Digits and letters that a hand-written copy keeps apart: no 0 O, 1 I L, 2 Z, 5 S, 8 B, U V. Their count is prime."""
LENGTH = 7
"""How many of them tell the content; one more, the last, tells a mistyped code from a stale one."""
HALF = 4
VERSION = 1
"""Counts the ways in which the content was ever summed up: a new way makes all older prints look stale."""


def content_code(findings: Findings) -> str:
    """Return the code of what prints, in two groups of four: `7KQ4-MXWT`."""
    text = json.dumps([VERSION, *_facts(findings)], ensure_ascii=True, separators=(",", ":"))
    number = int.from_bytes(sha256(text.encode("ascii")).digest())
    digits = [number // len(LETTERS) ** place % len(LETTERS) for place in range(LENGTH)]
    letters = "".join(LETTERS[digit] for digit in (*digits, _check(digits)))
    return f"{letters[:HALF]}-{letters[HALF:]}"


def as_code(typed: str) -> str | None:
    """Return a typed code as it is printed, however it is spaced and cased; None for what is no code.

    Examples:
        >>> as_code("no code") is None
        True
    """
    letters = "".join(letter for letter in typed.upper() if letter not in " -·")
    if len(letters) != LENGTH + 1 or not set(letters) <= set(LETTERS):
        return None
    *digits, last = (LETTERS.index(letter) for letter in letters)
    return f"{letters[:HALF]}-{letters[HALF:]}" if last == _check(digits) else None


def _check(digits: Iterable[int]) -> int:
    """Return what the last letter must be: any one wrong letter, and any two changed places, give another."""
    return sum(place * digit for place, digit in enumerate(digits, 2)) % len(LETTERS)


# --- the facts ------------------------------------------------------------------------------------------------------

Fact = list[Any]


def _facts(findings: Findings) -> Iterator[Any]:
    """Yield everything that some sheet tells, each table in an order that its rows have by what they say."""
    home = findings.home
    level = {one.id: one.name for one in home.levels}
    yield [home.name, home.units, home.system, findings.evidence_to, list(findings.tested_by)]
    yield _in_order([one.name, one.order] for one in home.levels)
    yield _in_order([level.get(room.level, ""), room.name, room.outline] for room in home.rooms)
    yield _in_order(
        [level.get(one.level, ""), one.kind, one.at, one.width, one.angle, one.hinge, one.swing]
        for one in home.openings
    )
    yield _in_order(
        [level.get(one.level, ""), level.get(one.head or 0, ""), one.at, one.angle, one.width, one.run]
        for one in home.stairs
    )
    yield _in_order(_box(box, findings, level.get(box.level or 0, "")) for box in home.boxes if is_built(box))
    yield _in_order(_panel(panel, findings, level.get(panel.level or 0, "")) for panel in home.panels)
    yield _in_order(_breaker(breaker, findings) for breaker in home.breakers)
    yield _in_order(_source(source, findings) for source in home.sources)
    yield _in_order(_hazard(hazard, findings) for hazard in findings.hazards if hazard.listed or hazard.set_aside)


def _in_order(rows: Iterable[Fact]) -> list[Fact]:
    return sorted(rows, key=_text)


def _text(row: Fact) -> str:
    return json.dumps(row, ensure_ascii=True)


def _box(box: Box, findings: Findings, level: str) -> Fact:
    tell = _feed_teller(findings)
    devices = [_device(device, tell) for device in box.devices if not device.planned]
    passing = _in_order(tell(feed) for feed in box.passing)
    found = findings.boxes.get(box.id)
    enters = [] if found is None else [found.shared, found.tied, found.apart, found.unknown, found.opened]
    where = [level, box.at, box.placed, box.angle, box.mount, box.reach, box.gangs]
    return [box.mark, where, devices, passing, enters]


def _device(device: Device, tell: Callable[[Feed], Fact]) -> Fact:
    return [device.slot, device.kind, device.name, device.critical, [tell(feed) for feed in device.feeds]]


def _feed_teller(findings: Findings) -> Callable[[Feed], Fact]:
    def tell(feed: Feed) -> Fact:
        one = findings.conclusions.get(feed.id)
        if one is None:
            return [feed.part]
        on = sorted(findings.marks.get(breaker, "") for breaker in one.breakers)
        return [feed.part, feed.volts, one.standing, on, sorted(one.others), one.date]

    return tell


def _panel(panel: Panel, findings: Findings, level: str) -> Fact:
    mains = [[main.name, main.amps] for main in panel.mains]
    names = {one.id: one.name for one in findings.home.sources}
    fed = sorted(
        findings.marks.get(one.breaker, "") if one.kind == "breaker" else names.get(one.source, "")
        for one in panel.fed_by
    )
    hung: Fact = [panel.spaces, panel.numbering, panel.system, mains, fed, panel.changes_over]
    hung += [panel.rows, panel.called] if panel.rows or panel.called else []
    return [panel.name, panel.prefix, panel.place, level, panel.at, panel.angle, hung]


def _breaker(breaker: Breaker, findings: Findings) -> Fact:
    home = findings.home
    panel = home.panels.get(breaker.panel)
    tie = breaker.tie
    tied = sorted(
        findings.marks.get(one.id, "")
        for one in home.breakers
        if tie is not None and one.tie is not None and one.tie.group == tie.group
    )
    poles = [[pole.space, pole.half] for pole in breaker.poles]
    behind = findings.marks.get(breaker.behind or 0, "")
    body = [breaker.amps, breaker.device, list(breaker.protects), behind, tied, tie.made if tie is not None else ""]
    told = [breaker.found.state, breaker.found.why, breaker.as_found, breaker.wording]
    may = [breaker.may_open.may, breaker.may_open.whose, breaker.may_open.why]
    return [panel.name if panel is not None else "", poles, body, told, may]


def _source(source: Source, findings: Findings) -> Fact:
    home = findings.home
    names = {one.id: one.name for one in home.panels} | dict(findings.marks)
    names |= {feed.id: box.mark for box in home.boxes for feed in box.feeds()}
    return [
        source.name,
        source.kind,
        sorted(names.get(one, "") for one in source.into),
        source.starts,
        source.disconnect,
    ]


def _hazard(hazard: Hazard, findings: Findings) -> Fact:
    """Return which danger it is, without the words of this version for it."""
    on = sorted(findings.marks.get(breaker, "") for breaker in hazard.breakers)
    box = findings.home.boxes.get(hazard.box)
    return [hazard.kind, box.mark if box is not None else "", on, hazard.set_aside]
