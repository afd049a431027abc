"""What every sheet has: head, caution foot, scale bar, section heads."""

from collections.abc import Sequence

from floorplan_circuits.drawing.ink import Group, Mark, Pen, Shape, Text, circle, polygon, polyline, rectangle
from floorplan_circuits.drawing.lettering import cap_height, fits, width, wrap
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.plates import text_height
from floorplan_circuits.home.lengths import Units
from floorplan_circuits.sheets.paper import Rect

TITLE_SIZE, PANEL_TITLE_SIZE, SECTION_SIZE = 20.0, 14.0, 10.0
CAUTION_SIZE, BODY_SIZE, CAPTION_SIZE = 10.5, 8.2, 7.5
TITLE_SIZES, PANEL_TITLE_SIZES = (TITLE_SIZE, 16.0, 13.0), (PANEL_TITLE_SIZE, 11.5)
CAPTION_HEAD_SIZE = 11.0
HEAD_BASELINE, HEAD_RULE = 15.4, 17.6

CAUTION_TITLE = "This map can be wrong. Test before you touch."
CAUTIONS = (
    "Prove the tester on a live point before and after, and the ground or neutral it leans on first. "
    "Turn off every circuit that enters the box. Supply-side wires stay live with every handle off. "
    "Keep the panel’s cover on. Keep off a breaker that buzzes, is hot, won’t reset or won’t open. "
    "Local codes apply. Call a licensed electrician for work in the panel, on aluminium, or when in doubt."
)


def head(area: Rect, title: str, caption: str, home: str, made: str, theme: Theme) -> tuple[Group, tuple[str, ...]]:
    """Draw the head over `area`: title and caption left, the home and the dates right, a rule under both.

    A caption that would cut the title stands before the home's name. Returns it with the names that had to be cut.
    """
    drawn, cut = _head(area, title, caption, home, made, theme, 0.4)
    if title in cut and caption:
        above, cut_above = _head(area, title, "", f"{caption} · {home}" if home else caption, made, theme, 0.6)
        if not cut_above:
            return above, ()
    return drawn, cut


def _head(
    area: Rect, title: str, caption: str, home: str, made: str, theme: Theme, home_part: float
) -> tuple[Group, tuple[str, ...]]:
    """Draw the head; the home's name takes at most this part of the width."""
    right_wide = max(min(width(home, 9.0), area.width * home_part), width(made, CAPTION_SIZE))
    home_words, home_cut = one_line((home,), right_wide, 9.0)
    caption_wide = width(caption, CAPTION_HEAD_SIZE) + 5
    words, size, title_cut = fitted_title(title, area.width - right_wide - caption_wide - 5)
    caption_x = area.x + width(words, size, True) + 5
    marks: list[Mark] = [
        Text((area.x, HEAD_BASELINE), words, size, True, theme.ink),
        Text((caption_x, HEAD_BASELINE), caption, CAPTION_HEAD_SIZE, False, theme.soft),
        Text((area.right, HEAD_BASELINE - 4.2), home_words, 9.0, False, theme.ink, "end"),
        Text((area.right, HEAD_BASELINE - 0.4), made, CAPTION_SIZE, False, theme.soft, "end"),
        Shape(polyline((area.x, HEAD_RULE), (area.right, HEAD_RULE)), None, Pen(0.35, theme.ink)),
    ]
    cut = (title,) if title_cut else ()
    return Group(tuple(marks)), (*cut, home) if home_cut else cut


def fitted_title(title: str, room: float, sizes: tuple[float, ...] = TITLE_SIZES) -> tuple[str, float, bool]:
    """Return a title as it fits, its size, and whether it had to be cut: smaller letters come before '…'."""
    for size in sizes:
        if width(title, size, True) <= room:
            return title, size, False
    shown, cut = one_line((title,), room, sizes[-1], True)
    return shown, sizes[-1], cut


def one_line(variants: tuple[str, ...], room: float, size: float, bold: bool = False) -> tuple[str, bool]:
    """Return the first variant that fits the room on one line, and whether it had to be cut; '' for no words."""
    shown, cut = fits(variants, room, size, bold)
    return (shown[0] if shown else ""), cut


def section_head(x: float, y: float, wide: float, title: str, theme: Theme) -> Group:
    """Draw a section's title with a rule under it; the next line's top is 6.4 mm below `y`."""
    rule = Shape(polyline((x, y + 4.9), (x + wide, y + 4.9)), None, Pen(0.25, theme.ink))
    return Group((Text((x, y + 3.2), title, SECTION_SIZE, True, theme.ink), rule))


# --- the caution ----------------------------------------------------------------------------------------------------

FOOT_FIELD = 12.0


def caution_lines(wide: float) -> tuple[str, ...]:
    """Return the cautions in lines for a foot of this width."""
    return wrap(CAUTIONS, wide - FOOT_FIELD - 5, BODY_SIZE)


def caution_height(wide: float) -> float:
    """Return the height of the caution foot in mm."""
    return 7.2 + len(caution_lines(wide)) * text_height(BODY_SIZE) * 1.06


def foot_caution(area: Rect, theme: Theme, title: str = CAUTION_TITLE, code: str = "") -> Group:
    """Draw the caution over the sheet's full width: a yellow field with a triangle, then the words under a title.

    `code` is that of the home's content: behind the first line stands how to find out whether the print is stale.
    """
    marks: list[Mark] = [
        Shape(rectangle(area.x, area.y, area.width, area.height), theme.paper, Pen(0.35, theme.ink)),
        Shape(rectangle(area.x, area.y, FOOT_FIELD, area.height), theme.caution, Pen(0.35, theme.caution_ink)),
        warning_triangle(area.x + FOOT_FIELD / 2, area.y + area.height / 2, 8.0, theme),
        Text((area.x + FOOT_FIELD + 2.5, area.y + 5.0), title, CAUTION_SIZE, True, theme.ink),
    ]
    if code:
        room = area.width - FOOT_FIELD - width(title, CAUTION_SIZE, True) - 10.0
        stale = next(words for words in _stale_words(code) if words == code or width(words, CAPTION_SIZE) <= room)
        marks.append(Text((area.right - 2.5, area.y + 5.0), stale, CAPTION_SIZE, False, theme.ink, "end"))
    pitch = text_height(BODY_SIZE) * 1.06
    for at, line in enumerate(caution_lines(area.width)):
        y = area.y + 8.9 + at * pitch
        marks.append(Text((area.x + FOOT_FIELD + 2.5, y), line, BODY_SIZE, False, theme.ink))
    return Group(tuple(marks))


def _stale_words(code: str) -> tuple[str, ...]:
    """Return how to find out whether the print is stale, longest first; the code alone at last."""
    asks = f"floorplan-circuits same HOME {code}"
    return (f"To see whether this print is stale: {asks}", f"Stale? {asks}", f"Code {code}", code)


def warning_triangle(x: float, y: float, wide: float, theme: Theme) -> Group:
    """Draw the caution triangle with its exclamation stroke, about its middle."""
    high = wide * 0.88
    outline = polygon((x, y - high / 2), (x + wide / 2, y + high / 2), (x - wide / 2, y + high / 2))
    stroke = polygon((x - 0.5, y - high * 0.16), (x + 0.5, y - high * 0.16), (x + 0.28, y + high * 0.2),
                     (x - 0.28, y + high * 0.2))  # fmt: skip
    pen = Pen(0.6, theme.caution_ink, join="round")
    dot = Shape(circle(x, y + high * 0.33, 0.48), theme.caution_ink)
    return Group((Shape(outline, theme.caution, pen), Shape(stroke, theme.caution_ink), dot))


# --- the scale ------------------------------------------------------------------------------------------------------

METRIC_TICKS = (0, 1000, 5000)
FOOT = 304.8


def scale_bar(x: float, y: float, scale: float, units: Units, theme: Theme, shown: float) -> tuple[Group, float]:
    """Draw a bar of 5 m or 15 ft from (x, y) with the scale beside it; return it and where it ends.

    `scale` is in house mm a mm of the layout, `shown` the scale as printed.
    """
    metric = units == "metric"
    ticks = METRIC_TICKS if metric else (0, 5 * FOOT, 15 * FOOT)
    words = ("0", "1", "5 m") if metric else ("0", "5", "15 ft")
    pieces = 5 if metric else 3
    unit = ticks[2] / pieces / scale
    marks: list[Mark] = []
    for at in range(pieces):
        fill = theme.ink if at % 2 == 0 else theme.paper
        marks.append(Shape(rectangle(x + at * unit, y, unit, 1.1), fill, Pen(0.18, theme.ink)))
    for tick, word in zip(ticks, words, strict=True):
        marks.append(Text((x + tick / scale, y + 4.3), word, CAPTION_SIZE, False, theme.soft, "middle"))
    right, ratio = x + ticks[2] / scale + 7, f"1:{shown:.0f}"
    marks.append(Text((right, y + 1.3), ratio, CAPTION_SIZE, False, theme.soft))
    return Group(tuple(marks)), right + width(ratio, CAPTION_SIZE)


def caption(x: float, y: float, room: float, variants: tuple[str, ...], theme: Theme, end: bool = False) -> Text:
    """Draw one quiet line: the first variant that fits the room."""
    shown, _ = one_line(variants, room, CAPTION_SIZE)
    return Text((x, y), shown, CAPTION_SIZE, False, theme.soft, "end" if end else "start")


def text_lines(lines: Sequence[str], x: float, y: float, size: float, theme: Theme, bold: bool = False) -> list[Mark]:
    """Draw lines below each other, the first one's top at `y`."""
    pitch = text_height(size)
    first = y + (pitch + cap_height(size)) / 2
    return [Text((x, first + at * pitch), line, size, bold, theme.ink) for at, line in enumerate(lines)]
