"""How long breakers have been off this evening, by the clock on the wall: which must be back on, and when."""

from collections.abc import Callable, Collection, Mapping
from datetime import datetime, timedelta
from time import monotonic

from floorplan_circuits.rounds.stretches import back_by, seconds_left, to_rest


class OffClock:
    """Remembers when each breaker was turned off, and until when one that rests should run."""

    def __init__(self, now: Callable[[], float] = monotonic) -> None:
        self.now = now
        self._since: dict[int, float] = {}
        self._runs_until: dict[int, float] = {}

    def turned(self, off: Collection[int]) -> None:
        """Note that these are off now and no others. One that comes back on runs for as long as it was off."""
        now = self.now()
        self._runs_until |= {one: 2 * now - had for one, had in self._since.items() if one not in off}
        self._since = {one: self._since.get(one, now) for one in off}

    def forget(self) -> None:
        """Begin anew: all is on."""
        self._since, self._runs_until = {}, {}

    def seconds_left(self, at_most: Mapping[int, int]) -> float:
        """Return how long until one must be asked for; infinite where none has a limit."""
        return seconds_left(self._since, at_most, self.now())

    def to_rest(self, at_most: Mapping[int, int], ahead: float = 0.0) -> tuple[int, ...]:
        """Return what must be back on now, or would have to be within `ahead` seconds."""
        return to_rest(self._since, at_most, self.now(), ahead)

    def back_by(self, at_most: Mapping[int, int], marks: Mapping[int, str]) -> str:
        """Return by when what is off must be back on, in a sentence; '' where nothing has a limit."""
        times: dict[str, list[str]] = {}
        for one, at in sorted(back_by(self._since, at_most), key=lambda due: due[1]):
            times.setdefault(self._told(at), []).append(marks.get(one, ""))
        return " ".join(f"Back on by {at}: {', '.join(some)}." for at, some in times.items())

    def runs_until(self, handles: Collection[int], at_most: Mapping[int, int], marks: Mapping[int, str]) -> str:
        """Return until when what is to be turned off again should run first, in a sentence; '' where nothing rests."""
        resting = [one for one in handles if one in at_most and self._runs_until.get(one, 0.0) > self.now()]
        if not resting:
            return ""
        until = max(self._runs_until[one] for one in resting)
        told = ", ".join(marks.get(one, "") for one in resting)
        return f"{told} should run until {self._told(until)}, as long as off before, or longer if its maker says so."

    def _told(self, at: float) -> str:
        """Return a time of this clock as the one on the wall shows it."""
        return f"{datetime.now() + timedelta(seconds=at - self.now()):%H:%M}"
