"""The rail's page for the panel: how many spaces, how they are numbered, its main; ties of handles; a subpanel."""

from collections.abc import Callable
from functools import partial
from typing import get_args

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFormLayout, QLabel, QLineEdit

from floorplan_circuits.desktop.fields import Choice, Count
from floorplan_circuits.desktop.form_page import FormPage
from floorplan_circuits.desktop.keeping_focus import focus_place, focused_place
from floorplan_circuits.desktop.session import Session
from floorplan_circuits.desktop.wording_section import AskedSection, WordingSection
from floorplan_circuits.edits.breakers import set_breaker, tie_handles, untie_handles
from floorplan_circuits.edits.edited import Edited
from floorplan_circuits.edits.names import rename
from floorplan_circuits.edits.panels import MOST_SPACES, add_panel, set_panel
from floorplan_circuits.gestures.putting_panels import PutPanel
from floorplan_circuits.gestures.step import Tool
from floorplan_circuits.home.boxes import FromBreaker
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Breaker, Found, Numbering, Panel, System

HINT = (
    "Click a space and type: 20 kitchen plugs. Enter goes to the next one down. 30/2 dryer takes two spaces, "
    "15/t is two in one space, 15f a fuse."
)
OPENS = ("not known", "hot", "hot and neutral", "both hots")


class PanelPage(FormPage):
    """Sets up panels. It is filled anew whenever the home, the panel shown or the selection changes."""

    photo_wanted = Signal()

    def __init__(self, choose_panel: Callable[[int], None], take: Callable[[Tool], None]) -> None:
        super().__init__()
        self._panel: Panel | None = None
        self._choose_panel, self._take = choose_panel, take

    def show_panel(self, session: Session | None, panel: Panel | None) -> None:
        """Fill the page for a panel, or for a home without one; what would say the same stays as it is."""
        told = () if session is None else _told(session, panel)
        if session is self._session and told == self._told:
            return
        place = focused_place(self) if session is self._session else None
        self._session, self._panel, self._told = session, panel, told
        self._clear()
        if session is None:
            return
        if panel is None:
            self._first_panel()
        else:
            self._breaker_form(session)
            self._asked(session)
            self._panel_form(session.home, panel)
            self._fed(session, panel)
            self._subpanel(session)
        self._column.addStretch()
        focus_place(self, place)

    # --- pieces -----------------------------------------------------------------------------------------------------

    def _choice(self, label: str, choices: tuple[str, ...], now: str, form: QFormLayout, above: bool = False) -> Choice:
        """Add a row with a choice; `above`: its label stands over it, since its words are long."""
        field = Choice(label, choices, now, narrow=True)
        if above:
            form.addRow(QLabel(label))
            form.addRow(field)
        else:
            form.addRow(label, field)
        return field

    # --- a home without a panel -------------------------------------------------------------------------------------

    def _first_panel(self) -> None:
        self._words("How many spaces does your panel have?", "section")
        form = self._form()
        spaces = Count("Spaces", 20, MOST_SPACES)
        form.addRow("Spaces", spaces)
        numbering = self._choice("Numbered", get_args(Numbering), "odd left, even right", form, above=True)
        system = self._choice("System", get_args(System), "not known", form, above=True)
        amps = QLineEdit()
        amps.setAccessibleName("Main, A")
        form.addRow("Main, A", amps)

        def add() -> None:
            main = int(amps.text()) if amps.text().isdigit() and 1 <= int(amps.text()) <= 6000 else None
            level = self._session.view.level if self._session else None
            way, kind = numbering.currentText(), system.currentText()
            self._attempt(
                lambda home: add_panel(home, spaces.value(), "", way, kind, main, level=level)  # type: ignore[arg-type]  # the boxes hold nothing else
            )

        self._button("Add the panel", add, "action")

    # --- a panel ----------------------------------------------------------------------------------------------------

    def _panel_form(self, home: Home, panel: Panel) -> None:
        self._words(HINT)
        form = self._form()
        self._line(form, "Name", panel.name, lambda words: lambda home: rename(home, "panel", panel.id, words))
        self._line(form, "Where", panel.place, lambda words: lambda home: set_panel(home, panel.id, place=words[:120]))
        spaces = Count("Spaces", panel.spaces, MOST_SPACES)
        spaces.editingFinished.connect(
            lambda: (
                spaces.value() != panel.spaces
                and self._attempt(lambda home: set_panel(home, panel.id, spaces=spaces.value()))
            )
        )
        form.addRow("Spaces", spaces)
        for label, choices, field, now in (
            ("Numbered", get_args(Numbering), "numbering", panel.numbering),
            ("System", get_args(System), "system", panel.system),
        ):
            chosen = self._choice(label, choices, now, form, above=True)
            chosen.textActivated.connect(
                lambda words, field=field: self._attempt(lambda home: set_panel(home, panel.id, **{field: words}))
            )

        words = "Put it on the plan" if panel.at is None else "Move it on the plan"
        self._button(words, lambda: self._take(PutPanel(panel.id)))
        self._button("Show its photo" if panel.photo else "Add a photo of it…", self.photo_wanted.emit)

    # --- breakers that are selected -----------------------------------------------------------------------------------

    def _breaker_form(self, session: Session) -> None:
        ids = [one.id for one in session.view.selected if one.kind == "breaker" and one.id in session.home.breakers]
        if not ids:
            return
        breakers = [session.home.breakers[one] for one in ids]
        marks = session.findings.marks if session.findings else {}
        self._words(" and ".join(marks.get(one, "?") for one in ids), "section")
        if len(breakers) == 1:
            self._one_breaker(breakers[0])
            self._column.addWidget(WordingSection(session, ids[0]))
        if len(ids) > 1:
            self._button("Tied by the factory", lambda: self._attempt(lambda h: tie_handles(h, ids, "by the factory")))
            self._button("Tied by a nail or wire", lambda: self._attempt(lambda h: tie_handles(h, ids, "makeshift")))
        if any(breaker.tie is not None for breaker in breakers):
            self._button("Not tied", lambda: self._attempt(lambda h: untie_handles(h, ids)))

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

    def _one_breaker(self, breaker: Breaker) -> None:
        form = self._form()
        relabel = lambda words: lambda home: set_breaker(home, breaker.id, as_found=words[:120])  # noqa: E731  # one row
        self._line(form, "Old label", breaker.as_found, relabel)
        opens = self._choice("Opens", OPENS, breaker.opens, form)
        opens.textActivated.connect(
            lambda words: self._attempt(lambda home: set_breaker(home, breaker.id, opens=words))
        )
        found = self._choice("Found", ("on", "off", "tripped", "not recorded"), breaker.found.state, form)
        found.textActivated.connect(lambda words: self._attempt(lambda home: _found(home, breaker, words)))

    # --- a further panel ----------------------------------------------------------------------------------------------

    def _subpanel(self, session: Session) -> None:
        ids = [one.id for one in session.view.selected if one.kind == "breaker"]
        if len(ids) != 1:
            self._words("Select a breaker to say that it feeds another panel. Hold Shift for a second one to tie both.")
            return
        fed = [panel for panel in session.home.panels if any(_is_from(one, ids[0]) for one in panel.fed_by)]
        for panel in fed:
            self._button(f"Show {panel.name}", partial(self._choose_panel, panel.id))
        if not fed:
            self._button("It feeds another panel", lambda: self._attempt(lambda home: _fed_panel(home, ids[0])))


def _is_from(supply: object, breaker: int) -> bool:
    return isinstance(supply, FromBreaker) and supply.breaker == breaker


def _told(session: Session, panel: Panel | None) -> tuple[object, ...]:
    """Return all that the page tells, to see whether it would come out the same."""
    home, chosen = session.home, session.view.selected
    breakers = [home.breakers.get(one.id) for one in chosen if one.kind == "breaker"]
    marks = session.findings.marks if session.findings is not None else {}
    return (
        panel,
        chosen,
        breakers,
        [marks.get(one.id) for one in chosen],
        [(one.name, one.fed_by) for one in home.panels],
        _judged(session, panel),
    )


def _judged(session: Session, panel: Panel | None) -> tuple[object, ...]:
    """Return what the judge says of the panel and of the breakers selected, and the words to ask about."""
    if session.findings is None or panel is None:
        return ()
    directory = session.findings.directory
    lines = [directory.lines.get(one.id) for one in session.view.selected if one.kind == "breaker"]
    return directory.panels.get(panel.id), lines, directory.asked


def _found(home: Home, breaker: Breaker, state: str) -> Edited:
    return set_breaker(home, breaker.id, found=Found.model_validate({"state": state, "why": breaker.found.why}))


def _fed_panel(home: Home, breaker: int) -> Edited:
    """Add a panel of eight spaces that the breaker feeds; its form then says the rest."""
    feeder = FromBreaker(kind="breaker", breaker=breaker)
    numbering = home.panels[home.breakers[breaker].panel].numbering
    return add_panel(home, 8, "", numbering, fed_by=feeder.breaker)
