"""Poles that a breaker has no longer: what named one hangs on the breaker without naming a pole."""

from floorplan_circuits.home.boxes import Box, Device, Feed, FromBreaker, FromSource, Supplied
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Panel
from floorplan_circuits.home.record import change


def without_poles(home: Home, breaker: int, poles: int) -> Home:
    """Return the home in which nothing names a pole past the last of a breaker's `poles`."""
    boxes = home.boxes
    for box in home.boxes:
        fitted = _box(box, breaker, poles)
        if fitted is not box:
            boxes = boxes.put(fitted)
    panels = home.panels
    for panel in home.panels:
        if any(_is_past(feeder, breaker, poles) for feeder in panel.fed_by):
            panels = panels.put(_panel(panel, breaker, poles))
    return change(home, boxes=boxes, panels=panels)


def _is_past(supply: object, breaker: int, poles: int) -> bool:
    return isinstance(supply, FromBreaker) and supply.breaker == breaker and (supply.pole or 0) >= poles


def _panel(panel: Panel, breaker: int, poles: int) -> Panel:
    fitted: list[FromBreaker | FromSource] = []
    for feeder in panel.fed_by:
        now = change(feeder, pole=None) if _is_past(feeder, breaker, poles) else feeder
        if now not in fitted:
            fitted.append(now)
    return change(panel, fed_by=tuple(fitted))


def _box(box: Box, breaker: int, poles: int) -> Box:
    devices = tuple(_device(device, breaker, poles) for device in box.devices)
    passing = tuple(_feed(feed, breaker, poles) for feed in box.passing)
    same = all(new is old for new, old in zip((*devices, *passing), (*box.devices, *box.passing), strict=True))
    return box if same else change(box, devices=devices, passing=passing)


def _device(device: Device, breaker: int, poles: int) -> Device:
    feeds = tuple(_feed(feed, breaker, poles) for feed in device.feeds)
    same = all(new is old for new, old in zip(feeds, device.feeds, strict=True))
    return device if same else change(device, feeds=feeds)


def _feed(feed: Feed, breaker: int, poles: int) -> Feed:
    if _is_past(feed.returns, breaker, poles):
        feed = change(feed, returns="not known")
    if not isinstance(feed.on, Supplied) or not any(_is_past(one, breaker, poles) for one in feed.on.supplies):
        return feed
    return change(feed, on=_supplied(feed.on, breaker, poles))


def _supplied(on: Supplied, breaker: int, poles: int) -> Supplied:
    """Return the supplies without poles that are gone; the breaker stays among them, once, its pole not known."""
    kept = tuple(one for one in on.supplies if not _is_past(one, breaker, poles))
    if not any(isinstance(one, FromBreaker) and one.breaker == breaker for one in kept):
        kept = (*kept, FromBreaker(kind="breaker", breaker=breaker))
    return change(on, supplies=kept, how="any" if len(kept) == 1 else on.how)
