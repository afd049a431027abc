"""What the guide has had turned off, and for how long: which of it must run for a while before the walk goes on."""

from collections.abc import Callable
from dataclasses import replace
from math import inf

from PySide6.QtCore import QObject, QTimer

from floorplan_circuits.desktop.off_clock import OffClock
from floorplan_circuits.findings import TestPlan
from floorplan_circuits.rounds.steps import GuideStep
from floorplan_circuits.rounds.stretches import PACE_M_PER_S, READ_S


class HandlesOff:
    """The handles that are off now, as the person said; `on_time` is called when one has been off long enough."""

    def __init__(self, parent: QObject, on_time: Callable[[], object]) -> None:
        self.now: tuple[int, ...] = ()
        self.clock = OffClock()
        self._resting: tuple[int, ...] = ()
        self._timer = QTimer(parent)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(on_time)

    def forget(self) -> None:
        """Begin anew: all is on."""
        self.now, self._resting = (), ()
        self._timer.stop()
        self.clock.forget()

    def turned(self, step: GuideStep) -> None:
        """Note that the panel is as was asked for: what had to rest is back on, or else what the step needs is off."""
        resting, self._resting = self._resting if step.stage != "done" else (), ()
        self.now = tuple(one for one in self.now if one not in resting) if resting else step.off
        self.clock.turned(self.now)

    def pause(self, step: GuideStep, plan: TestPlan, *, is_at_panel: bool) -> GuideStep | None:
        """Return the step with less off where something must run for a while first; None where the walk may go on.

        At the panel, what would have to rest on the walk ahead does so at once.
        """
        kept = {*step.off} & {*self.now}
        ahead = step.left * READ_S + plan.all_on.metres / PACE_M_PER_S if is_at_panel and kept else 0.0
        self._resting = self.clock.to_rest(plan.at_most, ahead) if step.stage != "done" else ()
        if self._resting:
            return replace(step, off=tuple(one for one in self.now if one not in self._resting))
        left = self.clock.seconds_left(plan.at_most)
        if left < inf:
            self._timer.start(int(max(left, 0.0) * 1000) + 1)
        else:
            self._timer.stop()
        return None
