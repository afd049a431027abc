"""A map of one panel alone: which boxes are its own or may be, what its floors are, and what its lists are about."""

from dataclasses import dataclass, replace

from floorplan_circuits.findings import Findings
from floorplan_circuits.home.power import Panel
from floorplan_circuits.home.record import change
from floorplan_circuits.home.table import Table

DOUBTED = ("unknown", "expired", "contradicted")
"""What is known of a feed in these ways may be wrong: it may hang on this panel as well as on any other."""


@dataclass(frozen=True, slots=True)
class Narrowed:
    """What a map of one panel is made from.

    `plan` has the floors of its circuits and of the unknown, `lists` only its boxes; `pale` are the boxes without a
    label, since all that enters them is said or tested to be on other panels.
    """

    plan: Findings
    lists: Findings
    pale: frozenset[int]


def narrowed(findings: Findings, panel: Panel) -> Narrowed:
    """Return what a map of this panel alone is made from."""
    home = findings.home
    own = frozenset(breaker.id for breaker in home.breakers if breaker.panel == panel.id)
    shown = _boxes(findings, own)
    pale = frozenset(home.boxes.ids()) - shown
    zones = tuple(zone for zone in findings.zones if zone.breaker is None or zone.breaker in own)
    boxes = Table(box for box in home.boxes if box.id in shown)
    untested = tuple(feed for feed in findings.never_tested if findings.conclusions[feed].box in shown)
    lists = replace(findings, home=change(home, boxes=boxes), zones=zones, never_tested=untested)
    return Narrowed(replace(findings, zones=zones), lists, pale)


def _boxes(findings: Findings, own: frozenset[int]) -> frozenset[int]:
    """Return the boxes that one of these breakers enters or may enter."""
    found = {box.box for box in findings.boxes.values() if own & set(box.breakers) or box.unknown or box.others}
    found |= {one.box for one in findings.conclusions.values() if own & set(one.breakers) or one.standing in DOUBTED}
    return frozenset(found) | {box.id for box in findings.home.boxes if not box.feeds()}
