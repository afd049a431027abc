"""A hand for tests without a window: it makes events, keeps the history and the view as a window would, and counts."""

from math import hypot

from floorplan_circuits.edits.history import History
from floorplan_circuits.findings import XY, Subject
from floorplan_circuits.gestures.events import Context, Event, Key, Move, Outcome, Press, Release
from floorplan_circuits.gestures.selecting import Select
from floorplan_circuits.gestures.step import Tool, step
from floorplan_circuits.home.home import Home
from floorplan_circuits.view import Draft


class Hand:
    """Works one level of a home. `reach` is how near counts as at: 24 mm is 9 pixels where a pixel is 2.6 mm."""

    def __init__(self, home: Home, tool: Tool | None = None, reach: float = 24.0) -> None:
        self.history = History(home)
        self.tool: Tool = tool or Select()
        self.level = home.levels.rows[0].id
        self.selected: tuple[Subject, ...] = ()
        self.draft: Draft | None = None
        self.said = ""
        self.asked: Subject | None = None
        self.reach = reach
        self.gestures = 0

    @property
    def home(self) -> Home:
        """The home as it is now."""
        return self.history.now

    def do(self, event: Event) -> Outcome:
        """Let the tool in hand take one event."""
        context = Context(self.history.ground, self.level, self.selected, self.reach)
        outcome = step(self.tool, event, context)
        self.tool, self.draft, self.said, self.asked = outcome.tool, outcome.draft, outcome.says, outcome.name
        if outcome.selected is not None:
            self.selected = outcome.selected
        if outcome.edit is not None:
            self.history = self.history.done(outcome.edit.home, outcome.edit.says, outcome.merge)
        return outcome

    # --- gestures -----------------------------------------------------------------------------------------------------

    def press(self, at: XY, on: Subject | None = None, add: bool = False) -> Outcome:
        """Put the button down."""
        return self.do(Press(at, on, add))

    def click(self, at: XY = (0.0, 0.0), on: Subject | None = None, add: bool = False) -> Outcome:
        """Move there and click: one gesture."""
        self.gestures += 1
        self.do(Move(at, on))
        self.press(at, on, add)
        return self.do(Release(at, on, add))

    def move(self, at: XY) -> Outcome:
        """Move on with the button down."""
        return self.do(Move(at, None, True))

    def do_move(self, at: XY) -> Outcome:
        """Move on with no button down."""
        return self.do(Move(at))

    def let_go(self, at: XY) -> Outcome:
        """Let the button up."""
        return self.do(Release(at))

    def pull(self, start: XY, end: XY, on: Subject | None = None, add: bool = False) -> Outcome:
        """Put the button down and move, without letting go."""
        self.do(Move(start, on))
        self.press(start, on, add)
        self.do(Move(((start[0] + end[0]) / 2, (start[1] + end[1]) / 2), None, True))
        return self.do(Move(end, None, True))

    def drag(self, start: XY, end: XY, on: Subject | None = None, add: bool = False) -> Outcome:
        """Drag from one place to another: one gesture."""
        assert hypot(end[0] - start[0], end[1] - start[1]) > 0
        self.gestures += 1
        self.pull(start, end, on, add)
        return self.do(Release(end, None, add))

    def key(self, name: str, add: bool = False) -> Outcome:
        """Press a key that has a name."""
        return self.do(Key(name, "", add))

    def type(self, words: str) -> None:
        """Type letter by letter."""
        for letter in words:
            self.do(Key("", letter))

    def undo(self) -> None:
        """Take the last edit back."""
        self.history = self.history.undone()

    def redo(self) -> None:
        """Do it again."""
        self.history = self.history.redone()
