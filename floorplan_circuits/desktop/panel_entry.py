"""Typing down the panel's column: a line over a space, Enter puts the breaker in and goes to the next one down."""

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt

from floorplan_circuits.desktop.in_place import InPlace
from floorplan_circuits.desktop.panel_keys import gone_to
from floorplan_circuits.edits.breakers import add_breaker, retype_breaker
from floorplan_circuits.edits.edited import Edited
from floorplan_circuits.edits.removal import remove
from floorplan_circuits.edits.spaces import next_free
from floorplan_circuits.edits.typed import Typed, read_typed
from floorplan_circuits.findings import Subject
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Breaker, Panel

if TYPE_CHECKING:
    from floorplan_circuits.desktop.work_area import WorkArea

LABEL = "Breaker: amps, then the old label"
HINT = "20 kitchen plugs"
SAYS = (
    "Amps and the old label: 20 kitchen plugs. 30/2 takes two, 15/t hall / bath halves one, "
    "a dot is the size before. Enter alone leaves it blank, Esc ends."
)
DONE = "That was the last one. Click a breaker to say more of it."
SAYS_AGAIN = "Type it anew, then Enter; nothing at all takes the breaker out. Esc leaves it as it was."


class PanelEntry:
    """Asks for one breaker after another, down the column."""

    def __init__(self, area: "WorkArea") -> None:
        self._area = area
        self._last: Typed | None = None
        """What was typed last, for a dot that stands for its size."""

    def begin(self, space: int, half: str | None = None, words: str = "") -> None:
        """Ask for the breaker of an empty space."""
        if self._area.panel() is None or self._area.session is None:
            return
        self._ask(space, half, words, lambda typed: self._took(space, half, typed))
        self._area.say(SAYS)

    def begin_first(self) -> None:
        """Ask for the first space of a panel that was just added, once its face is drawn."""
        session, panel = self._area.session, self._area.panel()
        if session is None or panel is None:
            return
        first = gone_to(session.find_now().panels[panel.id].cells, None, Qt.Key.Key_Down)
        self._area.show_panel(panel.id)
        self._area.side.view.setFocus()
        if first is not None:
            self.begin(first)

    def _ask(self, space: int, half: str | None, words: str, took: Callable[[str], None]) -> None:
        view = self._area.side.view
        where = view.area_of(space, half)
        self._area.side.bring_into_sight(where)
        InPlace(view, where, words, took, LABEL, HINT)

    def _took(self, space: int, half: str | None, words: str) -> None:
        """Put in what was typed. Where Enter took it the next space is asked for at once, so that no letter is lost.

        What can't be put in stays in its line, to be mended.
        """
        session, panel = self._area.session, self._area.panel()
        if session is None or panel is None:
            return
        by_enter = self._area.side.view.hasFocus()
        if words.strip():
            edited = session.attempt(lambda home: self._put(home, panel.id, space, words, half))
            if edited is None:
                if by_enter:
                    self._ask(space, half, words, lambda typed: self._took(space, half, typed))
                return
        if by_enter:
            self._go_on(panel, space)

    def _put(self, home: Home, panel: int, space: int, words: str, half: str | None) -> Edited:
        typed = read_typed(words, self._last)
        edited = add_breaker(home, panel, space, typed, half)
        self._last = typed
        return edited

    def _go_on(self, panel: Panel, space: int) -> None:
        """Ask for the next space down that holds nothing; the face may still be drawn as it was before."""
        assert self._area.session is not None
        following = next_free(self._area.session.home, panel, space)
        if following is None:
            self._area.say(DONE)
        else:
            self._ask(following, None, "", lambda typed: self._took(following, None, typed))

    def begin_again(self, subject: Subject) -> None:
        """Ask for a breaker anew; nothing typed removes it."""
        session = self._area.session
        breaker = session.home.breakers.get(subject.id) if session is not None else None
        if session is None or breaker is None:
            return
        first = breaker.poles[0]
        self._ask(first.space, first.half, _typed(breaker), lambda words: self._took_again(breaker, words))
        self._area.say(SAYS_AGAIN)

    def _took_again(self, breaker: Breaker, words: str) -> None:
        session = self._area.session
        if session is None or words == _typed(breaker):
            return
        if not words.strip():
            session.attempt(lambda home: remove(home, [breaker.id]))
        else:
            session.attempt(lambda home: retype_breaker(home, breaker.id, read_typed(words, self._last)))


def _typed(breaker: Breaker) -> str:
    """Return what somebody would type for this breaker."""
    amps = "" if breaker.amps is None else str(breaker.amps)
    poles = f"/{len(breaker.poles)}" if len(breaker.poles) > 1 and amps else ""
    fuse = "f" if breaker.device == "fuse" and amps else ""
    return " ".join(part for part in (f"{amps}{poles}{fuse}", breaker.as_found) if part)
