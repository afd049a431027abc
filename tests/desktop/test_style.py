"""The window's dress: what is written can be read, in both themes."""

import re
from itertools import product

import pytest
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QApplication

from floorplan_circuits.desktop.style import BODY_PX, FAMILY, load_typeface, palette_of, sheet_of, system_theme
from floorplan_circuits.drawing.colour import contrast
from floorplan_circuits.drawing.palette import DARK, LIGHT, Theme

READABLE = 4.5
"""WCAG 2.2, success criterion 1.4.3: contrast of text, level AA."""
RULE = re.compile(r"([^{}]+)\{([^{}]*)\}")
THEMES = pytest.mark.parametrize("theme", [LIGHT, DARK], ids=lambda theme: theme.name)


@THEMES
def test_words_stand_out_from_every_ground_they_are_written_on(theme: Theme) -> None:
    grounds = theme.paper, theme.canvas, theme.furniture
    assert {
        (colour, ground): round(contrast(colour, ground), 2)
        for colour, ground in product((theme.ink, theme.soft), grounds)
        if contrast(colour, ground) < READABLE
    } == {}
    assert contrast(theme.caution_ink, theme.caution) >= READABLE


@THEMES
def test_every_rule_with_a_ground_of_its_own_can_be_read_on_it(theme: Theme) -> None:
    pairs = [
        (selector.strip(), contrast(_colour(rule, "color") or theme.ink, ground))
        for selector, rule in RULE.findall(sheet_of(theme))
        if (ground := _colour(rule, "background"))
        and not selector.strip().startswith(("QSplitter", "QScrollBar", "QSlider"))  # nothing is written on these
    ]
    assert len(pairs) >= 10
    assert [pair for pair in pairs if pair[1] < READABLE] == []


def _colour(rule: str, name: str) -> str | None:
    found = re.search(rf"(?<![\w-]){name}: (#[0-9a-f]{{6}})", rule)
    return found[1] if found else None


@THEMES
def test_the_focus_is_seen_on_every_ground(theme: Theme) -> None:
    for button in ("plain", "level", "action"):
        assert re.search(rf"QPushButton#{button}:focus[^{{]*\{{\s*border: 2px", sheet_of(theme))
    assert all(contrast(theme.ink, ground) >= 3 for ground in (theme.paper, theme.furniture))  # WCAG 2.2, 1.4.11


@THEMES
@pytest.mark.usefixtures("qapp")
def test_qts_own_palette_can_be_read_too(theme: Theme) -> None:
    roles, palette = QPalette.ColorRole, palette_of(theme)
    pairs = (
        (roles.WindowText, roles.Window), (roles.Text, roles.Base), (roles.ButtonText, roles.Button),
        (roles.HighlightedText, roles.Highlight), (roles.ToolTipText, roles.ToolTipBase),
        (roles.PlaceholderText, roles.Base),
    )  # fmt: skip
    for words, ground in pairs:
        assert contrast(palette.color(words).name(), palette.color(ground).name()) >= READABLE


def test_the_two_themes_differ() -> None:
    assert sheet_of(LIGHT) != sheet_of(DARK)


def test_the_window_is_written_in_the_shipped_typeface(qapp: QApplication) -> None:
    font = load_typeface()
    assert (font.family(), font.pixelSize()) == (FAMILY, BODY_PX)
    assert font.exactMatch()
    assert system_theme() in (LIGHT, DARK)
