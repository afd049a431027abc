"""Typing down the panel's column: a line over a space, Enter puts the breaker in and goes to the next one down."""

from typing import TYPE_CHECKING

from floorplan_circuits.desktop.in_place import InPlace
from floorplan_circuits.edits.breakers import add_breaker, retype_breaker
from floorplan_circuits.edits.removal import remove
from floorplan_circuits.edits.typed import read_typed
from floorplan_circuits.findings import Subject
from floorplan_circuits.home.power import Breaker

if TYPE_CHECKING:
    from floorplan_circuits.desktop.work_area import WorkArea

LABEL = "Breaker: amps, then the old label"
HINT = "20 kitchen plugs"
SAYS = "Type amps and the old label: 20 kitchen plugs. 30/2 takes two spaces, 15/t halves one. Esc ends."

SAYS_AGAIN = "Type it anew, then Enter; nothing at all takes the breaker out. Esc leaves it as it was."


class PanelEntry:
    """Asks for one breaker after another, down the column."""

    def __init__(self, area: "WorkArea") -> None:
        self._area = area
        self._next: int | None = None

    def begin(self, space: int, half: str | None = None) -> None:
        """Ask for the breaker of an empty space."""
        panel = self._area.panel()
        if panel is None or self._area.session is None:
            return
        view = self._area.side.view
        where = view.area_of(space, half)
        InPlace(view, where, "", lambda words: self._took(space, half, words), LABEL, HINT)
        self._area.say(SAYS)

    def _took(self, space: int, half: str | None, words: str) -> None:
        session, panel = self._area.session, self._area.panel()
        if session is None or panel is None or not words.strip():
            return
        typed = read_typed(words)
        if session.attempt(lambda home: add_breaker(home, panel.id, space, typed, half)) is not None:
            self._next = space

    def go_on(self) -> None:
        """Ask for the next space down, once the last breaker stands on the face."""
        last, self._next = self._next, None
        if last is None:
            return
        following = self._area.side.view.next_space(last)
        if following is not None:
            self.begin(following)

    def begin_again(self, subject: Subject) -> None:
        """Ask for a breaker anew; nothing typed removes it."""
        session = self._area.session
        breaker = session.home.breakers.get(subject.id) if session is not None else None
        if session is None or breaker is None:
            return
        first = breaker.poles[0]
        view = self._area.side.view
        where = view.area_of(first.space, first.half)
        InPlace(view, where, _typed(breaker), lambda words: self._took_again(breaker, words), LABEL, HINT)
        self._area.say(SAYS_AGAIN)

    def _took_again(self, breaker: Breaker, words: str) -> None:
        session = self._area.session
        if session is None or words == _typed(breaker):
            return
        if not words.strip():
            session.attempt(lambda home: remove(home, [breaker.id]))
        else:
            session.attempt(lambda home: retype_breaker(home, breaker.id, read_typed(words)))


def _typed(breaker: Breaker) -> str:
    """Return what somebody would type for this breaker."""
    amps = "" if breaker.amps is None else str(breaker.amps)
    poles = f"/{len(breaker.poles)}" if len(breaker.poles) > 1 and amps else ""
    fuse = "f" if breaker.device == "fuse" and amps else ""
    return " ".join(part for part in (f"{amps}{poles}{fuse}", breaker.as_found) if part)
