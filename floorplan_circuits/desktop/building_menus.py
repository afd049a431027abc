"""The menus of the building: what can be done with rooms, and with levels."""

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMenu

from floorplan_circuits.desktop.building_tools import building_tools
from floorplan_circuits.gestures.selecting import Select

if TYPE_CHECKING:
    from floorplan_circuits.desktop.window import Window
    from floorplan_circuits.desktop.work_area import WorkArea

Row = tuple[str, str, Callable[[], object]]
"""Words, keys, what it does."""


def add_building_menus(window: "Window") -> list[QAction]:
    """Add both menus to the window; return their commands, all of which need a home."""
    rooms, levels = window.menuBar().addMenu("&Rooms"), window.menuBar().addMenu("&Levels")
    actions = _tools(rooms, window.work)
    rooms.addSeparator()
    actions += [_add(rooms, row) for row in _room_rows(window.work)]
    rooms.addSeparator()
    building = window.work.building
    actions.append(_add_tick(rooms, "Show &areas and walls' lengths", "Ctrl+M", building.show_measures, False))
    actions += [_add(levels, row) for row in level_rows(window.work)]
    levels.addSeparator()
    actions.append(_add_tick(levels, "Show the level &below, pale", "", building.show_below, building.below))
    return actions


def _tools(menu: QMenu, area: "WorkArea") -> list[QAction]:
    """Offer each tool under its name; its letter is told, and is taken by the plan itself."""
    found = []
    for tool, name, key in building_tools():
        if not isinstance(tool, Select):
            action = menu.addAction(f"{name.capitalize()}\t{key.upper()}")
            action.triggered.connect(lambda _checked=False, tool=tool: area.take(tool))
            found.append(action)
    return found


def _room_rows(area: "WorkArea") -> list[Row]:
    commands = area.commands
    return [
        ("&Join the selected rooms", "Ctrl+J", commands.join),
        ("&Cut the selected room back to those it lies over", "", commands.cut_back),
        ("&Turn a quarter", "Ctrl+T", commands.turn),
        ("&Mirror left to right", "Ctrl+Shift+T", commands.mirror),
        ("How thick &walls are…", "", commands.ask_for_wall),
    ]


def level_rows(area: "WorkArea") -> list[Row]:
    """Return the commands on the level that is looked at."""
    commands = area.commands
    return [
        ("&Add a level", "", area.naming.ask_for_level),
        ("Add one with this &outline", "", commands.add_level_like),
        ("&Name this level", "", commands.name_level),
        ("Move it &up", "", partial(commands.shift_level, True)),
        ("Move it &down", "", partial(commands.shift_level, False)),
        ("&Remove this level", "", commands.remove_level),
    ]


def _add(menu: QMenu, row: Row) -> QAction:
    words, keys, act = row
    action = menu.addAction(words)
    action.setShortcut(QKeySequence(keys))
    action.triggered.connect(lambda _checked=False: act())
    return action


def _add_tick(menu: QMenu, words: str, keys: str, act: Callable[[bool], object], now: bool) -> QAction:
    action = menu.addAction(words)
    action.setShortcut(QKeySequence(keys))
    action.setCheckable(True)
    action.setChecked(now)
    action.toggled.connect(act)
    return action
