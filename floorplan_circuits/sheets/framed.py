"""What is round the ink of every page: head, caution foot with the code of the content, and the paper's own size."""

from collections.abc import Sequence
from dataclasses import dataclass

from floorplan_circuits.drawing.ink import Group, Mark, scaled
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.sheet import Page
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.days import written
from floorplan_circuits.sheets.content_code import content_code
from floorplan_circuits.sheets.furniture import caution_height, foot_caution, head
from floorplan_circuits.sheets.paper import MARGIN, Paper, Rect

Named = tuple[str, str]
"""A page's title, and the quiet words behind it."""


@dataclass(frozen=True, slots=True)
class Framed:
    """Puts head and foot to pages that are laid out in `paper.magnify` times fewer mm than they measure."""

    home: str
    made: str
    code: str
    magnify: float
    theme: Theme

    @classmethod
    def of(cls, findings: Findings, paper: Paper, made_on: str, theme: Theme) -> "Framed":
        """Return the frame of a home's pages; `made_on` is the day they are made, in ISO 8601."""
        return cls(findings.home.name, made_words(findings, made_on), content_code(findings), paper.magnify, theme)

    def page(
        self, size: tuple[float, float], area: Rect, marks: Sequence[Mark], named: Named
    ) -> tuple[Page, tuple[str, ...]]:
        """Return a page of this size in mm of the layout with its head over `area`, and what had to be cut."""
        width, height = size
        top, cut = head(area, *named, self.home, self.made, self.theme)
        high = caution_height(width - 2 * MARGIN)
        at = Rect(MARGIN, height - MARGIN - high, width - 2 * MARGIN, high)
        ink = Group((top, *marks, foot_caution(at, self.theme, code=self.code)))
        page = scaled(ink, self.magnify) if self.magnify != 1 else ink
        assert isinstance(page, Group)
        return Page(width * self.magnify, height * self.magnify, page, named[0]), cut


def made_words(findings: Findings, made_on: str) -> str:
    """Return when a sheet was made, and up to when there is evidence."""
    evidence = written(findings.evidence_to)
    return f"Made {written(made_on)}" + (f" from evidence up to {evidence}" if evidence else ", nothing tested")
