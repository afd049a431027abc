"""What somebody wants of the rounds tonight: of which boxes, how many off at once, for how long, what was agreed to."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from floorplan_circuits.findings import Findings, TestPlan

if TYPE_CHECKING:
    from floorplan_circuits.rounds.course import Course
    from floorplan_circuits.rounds.patterns import Strength


@dataclass(frozen=True, slots=True)
class RoundsWanted:
    """What a plan is made for; 0 for no limit. `boxes`: these alone, none for all that is there."""

    boxes: tuple[int, ...] = ()
    agreed: tuple[int, ...] = ()
    cap: int = 0
    minutes: int = 0

    def plan(self, findings: Findings) -> TestPlan:
        """Return the plan; for some boxes alone that of the fewest rounds."""
        from floorplan_circuits.find import plan_rounds  # late: shapely must not delay the first frame

        strength: Strength = "least rounds" if self.boxes else "equal weight"
        cap, minutes = self.cap or None, self.minutes or None
        return plan_rounds(findings, strength=strength, cap=cap, boxes=self.boxes, agreed=self.agreed, minutes=minutes)

    def course(self, findings: Findings) -> "Course":
        """Return the plan that is under way, or a new one."""
        from floorplan_circuits.find import course_of

        return course_of(findings, self.plan)

    def plans(self, findings: Findings) -> tuple[TestPlan, ...]:
        """Return the plans that answers may be of: the one under way, and those made now."""
        from floorplan_circuits.find import plan_rounds

        strengths: tuple[Strength, ...] = ("least rounds", "one more round", "equal weight")
        plain = (plan_rounds(findings, strength=strength) for strength in strengths)
        return (self.course(findings).plan, *plain, self.plan(findings))
