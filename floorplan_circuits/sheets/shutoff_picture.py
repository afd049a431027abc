"""The picture of one open box on the first page of a shut-off: beside the plan, or on its own, where it can be read."""

from dataclasses import dataclass, replace

from floorplan_circuits.drawing.close_up import ROUND_HOLES
from floorplan_circuits.drawing.close_up_facts import contents_of
from floorplan_circuits.drawing.close_up_picture import Picture, natural_width, picture
from floorplan_circuits.drawing.ink import Group, Mark, Text, flat, moved, scaled
from floorplan_circuits.drawing.lettering import cap_height, width
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.findings import Findings
from floorplan_circuits.sheets.furniture import SECTION_SIZE, section_head
from floorplan_circuits.sheets.sections import HEAD

LARGEST, USUAL_HIGH, MOST_HIGH = 0.85, 54.0, 72.0
"""The scale it is drawn at where there is room; how high in mm it is beside the plan, and how high it may be."""
BESIDE, USUAL_PLAN, LEAST_PLAN = 4.0, 46.0, 36.0
"""mm between it and the plan; how wide the plan is left beside it, and how wide at least."""
LEAST_WORD, LEAST_NUMBER, SHORT = 6.8, 3.95, 3
"""Points that words must have at least, and letters of a symbol, which are as short as this.

A gang's number, as short, does not hold the picture large: it is written as large as words in the end.
"""
LEAST_PLATE, LARGE_NUMBER = 7.0, 14.0
"""Points of a circuit's number at least: it is what the picture is for. From what size on a text is taken for one."""


@dataclass(frozen=True, slots=True)
class SmallPicture:
    """A box with its plate off under its head, in mm from its top left corner; whether it stands beside the plan."""

    ink: Group
    width: float
    height: float
    is_beside: bool
    shortened: tuple[str, ...]


def small_picture(findings: Findings, box: int, wide: float, theme: Theme, apart: bool = False) -> SmallPicture:
    """Return the picture as large as it may be beside a plan in a column of this width, or on its own if it must.

    `apart`: it is to stand on its own anyway, no higher than it would beside the plan.
    """
    contents = contents_of(findings, findings.home.boxes[box])
    drawn = picture(contents, natural_width(contents), theme, findings.home.system not in ROUND_HOLES)
    usual = min(LARGEST, (wide - BESIDE - USUAL_PLAN) / drawn.width, USUAL_HIGH / drawn.height)
    scale = max(usual, _least_scale(drawn))
    if apart:
        scale = max(_least_scale(drawn), min(LARGEST, wide / drawn.width, USUAL_HIGH / drawn.height))
    is_beside = not apart and drawn.height * scale <= MOST_HIGH and drawn.width * scale <= wide - BESIDE - LEAST_PLAN
    scale = scale if is_beside or apart else min(LARGEST, wide / drawn.width)
    across = drawn.width * scale
    named = f"Inside {contents.box.mark}"
    title = named if width(named, SECTION_SIZE, True) <= across else "Inside"
    ink: tuple[Mark, ...] = (
        section_head(0, 0, across, title, theme),
        moved(_with_readable_gangs(scaled(drawn.ink, scale)), 0, HEAD),
    )
    return SmallPicture(Group(ink), across, HEAD + drawn.height * scale, is_beside, drawn.shortened)


def beside(plan: tuple[Group, float] | None, shown: SmallPicture, wide: float) -> tuple[Group, float]:
    """Return the plan and right of it the picture, in a column of this width, with the height of both."""
    at_right = moved(shown.ink, wide - shown.width, 0)
    if plan is None:
        return Group((at_right,)), shown.height
    return Group((plan[0], at_right)), max(plan[1], shown.height)


def _with_readable_gangs(ink: Mark) -> Mark:
    """Return a picture with the numbers of its gangs as large as words, each about its own middle."""
    if isinstance(ink, Group):
        return replace(ink, marks=tuple(_with_readable_gangs(mark) for mark in ink.marks))
    if not isinstance(ink, Text) or not ink.words.isdigit() or ink.size >= LEAST_WORD:
        return ink
    down = (cap_height(LEAST_WORD) - cap_height(ink.size)) / 2
    return replace(ink, size=LEAST_WORD, at=(ink.at[0], ink.at[1] + down))


def _least_scale(drawn: Picture) -> float:
    """Return the scale at which all that is written in a picture can just be read."""
    texts = [mark for mark in flat(drawn.ink) if isinstance(mark, Text)]
    needed = [(LEAST_WORD if len(text.words) > SHORT else LEAST_NUMBER) / text.size for text in texts]
    plates = [LEAST_PLATE / text.size for text in texts if text.size >= LARGE_NUMBER]
    return max([*needed, *plates], default=0.0)
