"""The rail's page for the panel: the first one set up, then what can be said of breakers, panel and sources."""

from collections.abc import Callable
from functools import partial
from typing import get_args

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QApplication, QLabel, QLineEdit

from floorplan_circuits.desktop.breaker_rows import BreakerRows
from floorplan_circuits.desktop.fields import Choice, Count, rating_typed
from floorplan_circuits.desktop.keeping_focus import focus_place, focused_place, scroll_to, scrolled_to
from floorplan_circuits.desktop.panel_rows import PanelRows
from floorplan_circuits.desktop.session import Session
from floorplan_circuits.desktop.source_rows import SourceRows
from floorplan_circuits.desktop.trouble_section import TroubleSection
from floorplan_circuits.desktop.wording_section import AskedSection, WordingSection
from floorplan_circuits.edits.edited import Edited
from floorplan_circuits.edits.panels import MOST_SPACES, add_panel
from floorplan_circuits.findings import Subject
from floorplan_circuits.gestures.putting_panels import PutPanel
from floorplan_circuits.gestures.step import Tool
from floorplan_circuits.home.boxes import FromBreaker
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Breaker, Numbering, Panel, System
from floorplan_circuits.home.trade_words import device_word, words_of, words_on

WAIT_MS = 150
PUT_ON_PLAN = "Put the panel on the plan"
HINT = (
    "Click a {space} and type: 20 kitchen plugs. Enter goes to the next one down, alone it leaves a blank. "
    "30/2 dryer takes two {space}s, 15/t hall / bath is two in one, 30/q dryer / range a quad in two, 15f a fuse. "
    "A dot is the size before: . dining."
)


class PanelPage(PanelRows, BreakerRows, SourceRows):
    """Sets up panels. It is filled anew whenever the home, the panel shown or the selection changes.

    Of a breaker that is selected it tells first, then of the panel, what feeds it, and the sources.
    """

    photo_wanted = Signal()
    added = Signal()
    """A home's first panel was added: its spaces come next."""

    def __init__(self, choose_panel: Callable[[int], None], take: Callable[[Tool], None]) -> None:
        super().__init__()
        self._panel: Panel | None = None
        self._choose_panel, self._take = choose_panel, take
        self._chosen: tuple[Subject, ...] = ()
        self._down: int | None = None
        """How far it is to be scrolled down once it is laid out; None where it is."""

    def show_panel(self, session: Session | None, panel: Panel | None) -> None:
        """Fill the page for a panel, or for a home without one; what would say the same stays as it is."""
        told = () if session is None else _told(session, panel)
        if session is self._session and told == self._told:
            return
        if QApplication.activePopupWidget() is not None:  # a list is open over the form: wait until it was chosen from
            QTimer.singleShot(WAIT_MS, self, lambda: self.show_panel(session, panel))
            return
        place = focused_place(self) if session is self._session else None
        chosen = () if session is None else session.view.selected
        kept = scrolled_to(self) if self._down is None else self._down
        self._chosen, self._down = chosen, kept if chosen == self._chosen else 0
        self._session, self._panel, self._told = session, panel, told
        self._clear()
        if session is None:
            return
        if panel is None:
            self._first_panel()
        else:
            self._fill(session, panel)
        self._column.addStretch()
        focus_place(self, place)
        scroll_to(self, self._down, self._is_scrolled)

    def _is_scrolled(self) -> None:
        self._down = None

    def _fill(self, session: Session, panel: Panel) -> None:
        home, findings = session.home, session.findings
        chosen = [one.id for one in session.view.selected if one.kind == "breaker" and one.id in home.breakers]
        if chosen:
            self._breakers(session, [home.breakers[one] for one in chosen])
        else:
            self._words(HINT.format(space=words_of(home, panel).space))
            if panel.at is None:
                self._button(PUT_ON_PLAN, self._put_on_plan)  # in sight, until it is done
        self._asked(session)
        self._words(panel.name, "section")
        words = words_of(home, panel)
        self._panel_is(panel, words)
        self._mains(panel, words.main)
        for main in panel.mains if not chosen else ():
            called = f"the {words.main}" if len(panel.mains) == 1 else main.name or f"a {words.main}"
            self._column.addWidget(TroubleSection(home, main.id, self._attempt, called))
        self._feeders(panel, home, findings)
        self._fed(session, panel)
        if panel.at is not None:
            self._button("Move it on the plan", self._put_on_plan)
        self._button("Show its photo" if panel.photo else "Add a photo of it…", self.photo_wanted.emit)
        if not chosen:
            self._words("Click a breaker to say more of it. Hold Shift for a second one to tie both.")
            self._sources(home, panel, findings)
            self._button("Add another panel", self._another)

    def _put_on_plan(self) -> None:
        if self._panel is not None:
            self._take(PutPanel(self._panel.id))

    def _another(self) -> None:
        """Add a panel like the one shown; its form then says the rest."""
        panel = self._panel
        if panel is None:
            return
        added = self._attempt(lambda home: add_panel(home, 8, "", panel.numbering, panel.system))
        if added is not None:
            self._choose_panel(added.made[0])

    # --- a home without a panel -------------------------------------------------------------------------------------

    def _first_panel(self) -> None:
        asked = self._words("", "section")
        form = self._form()
        system = Choice("System", get_args(System), "not known", narrow=True)
        numbering = Choice("Numbered", get_args(Numbering), "odd left, even right", narrow=True)
        spaces, amps = Count("Spaces", 20, MOST_SPACES), QLineEdit()
        space, main = QLabel(), QLabel()
        form.addRow(space, spaces)
        for label, field in (("System", system), ("Numbered", numbering)):
            form.addRow(QLabel(label))
            form.addRow(field)
        form.addRow(main, amps)

        def call_by(kind: str) -> None:
            """Use the words of the trade for this system, here and for who has it read aloud."""
            words = words_on(kind)  # type: ignore[arg-type]  # the box holds nothing else
            asked.setText(f"How many {words.space}s does your {words.board} have?")
            for label, field, said in (
                (space, spaces, f"{words.space.capitalize()}s"),
                (main, amps, f"{words.main.capitalize()}, A"),
            ):
                label.setText(said)
                field.setAccessibleName(said)

        system.currentTextChanged.connect(call_by)
        call_by(system.currentText())

        def add() -> None:
            level = self._session.view.level if self._session else None
            way, kind = numbering.currentText(), system.currentText()
            done = self._attempt(
                lambda home: add_panel(
                    home,
                    spaces.value(),
                    "",
                    way,  # type: ignore[arg-type]  # the boxes hold nothing else
                    kind,  # type: ignore[arg-type]  # as above
                    rating_typed(amps.text()),
                    level=level,
                )
            )
            if done is not None:
                self.added.emit()

        self._button("Add the panel", add, "action")

    # --- breakers that are selected -----------------------------------------------------------------------------------

    def _breakers(self, session: Session, breakers: list[Breaker]) -> None:
        marks = session.findings.marks if session.findings else {}
        names = [marks.get(one.id, "?") for one in breakers]
        noun = device_word(session.home, breakers[0])
        noun = noun[:1].upper() + noun[1:]
        self._words(f"{noun} {names[0]}" if len(names) == 1 else " and ".join(names), "section")
        if len(breakers) == 1:
            self._one_breaker(breakers[0], session.home, session.findings)
            self._column.addWidget(WordingSection(session, breakers[0].id))
            self._column.addWidget(TroubleSection(session.home, breakers[0].id, self._attempt, "it"))
            self._subpanel(session, breakers[0].id)
        else:
            self._several_breakers(breakers)

    def _asked(self, session: Session) -> None:
        """Ask about one shortened word on the labels, until none is left."""
        asked = session.findings.directory.asked if session.findings is not None else ()
        if asked:
            self._column.addWidget(AskedSection(session, asked[0], len(asked) - 1))

    def _fed(self, session: Session, panel: Panel) -> None:
        """Say what feeds the panel, and what its directory leaves out."""
        judged = session.findings.directory.panels.get(panel.id) if session.findings is not None else None
        if judged is not None:
            self._words(f"{judged.fed or 'Nobody said what feeds it'}.")
            for one in judged.verdicts:
                self._words(f"{one.says} {one.do} {one.source}.")

    # --- a further panel ----------------------------------------------------------------------------------------------

    def _subpanel(self, session: Session, breaker: int) -> None:
        fed = [panel for panel in session.home.panels if any(_is_from(one, breaker) for one in panel.fed_by)]
        for panel in fed:
            self._button(f"Show {panel.name}", partial(self._choose_panel, panel.id))
        if not fed:
            self._button("It feeds another panel", lambda: self._attempt(lambda home: _fed_panel(home, breaker)))


def _is_from(supply: object, breaker: int) -> bool:
    return isinstance(supply, FromBreaker) and supply.breaker == breaker


def _told(session: Session, panel: Panel | None) -> tuple[object, ...]:
    """Return all that the page tells, to see whether it would come out the same."""
    home, chosen = session.home, session.view.selected
    found = session.findings
    breakers = [home.breakers.get(one.id) for one in chosen if one.kind == "breaker"]
    lines = [found.lines.get(one.id) for one in chosen] if found is not None else []
    fed = [(one.name, one.fed_by) for one in home.panels]
    marks = dict(found.marks) if found is not None else {}
    ties = [one.tie for one in home.breakers]
    return panel, chosen, breakers, lines, fed, marks, home.sources, ties, home.log, _judged(session, panel)


def _judged(session: Session, panel: Panel | None) -> tuple[object, ...]:
    """Return what the judge says of the panel and of the breakers selected, and the words to ask about."""
    if session.findings is None or panel is None:
        return ()
    directory = session.findings.directory
    lines = [directory.lines.get(one.id) for one in session.view.selected if one.kind == "breaker"]
    return directory.panels.get(panel.id), lines, directory.asked


def _fed_panel(home: Home, breaker: int) -> Edited:
    """Add a panel of eight spaces that the breaker feeds; its form then says the rest."""
    feeder = FromBreaker(kind="breaker", breaker=breaker)
    numbering = home.panels[home.breakers[breaker].panel].numbering
    return add_panel(home, 8, "", numbering, fed_by=feeder.breaker)
