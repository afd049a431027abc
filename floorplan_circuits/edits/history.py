"""History: the very homes that were, each with the sentence of the edit that left it, back to the last log entry."""

from dataclasses import dataclass, replace

from floorplan_circuits.edits.lapsing import keep_lapsed
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import change

MOST_STEPS = 200


@dataclass(frozen=True, slots=True)
class Step:
    """One edit that can be undone or done again: the home on its other side, and its sentence."""

    home: Home
    says: str


@dataclass(frozen=True, slots=True)
class History:
    """The home now, what came before it and what was undone.

    `merging` names the kind of edit that the next like it joins: nudges and typing merge, drags never do.
    """

    now: Home
    past: tuple[Step, ...] = ()
    future: tuple[Step, ...] = ()
    merging: str = ""

    @property
    def ground(self) -> Home:
        """The home to edit: the one now, its counters past all that undone edits handed out.

        So no id and no mark is given twice, though what had it was undone: it may be on paper already.
        """
        if not self.future:
            return self.now
        far = self.future[0].home
        counters = {"next_id": far.next_id, "marks_given": far.marks_given}
        ahead = {name: value for name, value in counters.items() if value > getattr(self.now, name)}
        return change(self.now, **ahead) if ahead else self.now

    def done(self, home: Home, says: str, merge: str = "") -> "History":
        """Return the history after an edit. One that adds to the log can't be undone, nor what came before it.

        So it is with one that would make lapsed tests count again: it says in the log that they do not.
        """
        if home is self.now or home == self.ground:
            return self
        home = keep_lapsed(self.now, home)
        if home.log != self.now.log:
            return History(home)
        if merge and merge == self.merging and self.past:
            past = (*self.past[:-1], Step(self.past[-1].home, says))
        else:
            past = (*self.past, Step(self.now, says))[-MOST_STEPS:]
        return History(home, past, (), merge)

    def undone(self) -> "History":
        """Return the history one step back; the same one if there is nothing to undo."""
        if not self.past:
            return self
        *past, last = self.past
        return History(last.home, tuple(past), (*self.future, Step(self.now, last.says)))

    def redone(self) -> "History":
        """Return the history with the last undone step done again; the same one if there is none."""
        if not self.future:
            return self
        *future, last = self.future
        return History(last.home, (*self.past, Step(self.now, last.says)), tuple(future))

    def settled(self) -> "History":
        """Return the same history in which the next edit merges with nothing."""
        return replace(self, merging="") if self.merging else self

    @property
    def undo_says(self) -> str:
        """The sentence of the edit that undo takes back, or nothing."""
        return self.past[-1].says if self.past else ""

    @property
    def redo_says(self) -> str:
        """The sentence of the edit that redo does again, or nothing."""
        return self.future[-1].says if self.future else ""
