"""The rows that tell of one panel: its name and place, how it counts, its mains, and what feeds it."""

from functools import partial
from typing import get_args

from floorplan_circuits.desktop.fields import Count, rating_typed
from floorplan_circuits.desktop.form_page import FormPage
from floorplan_circuits.edits.board_rows import call_spaces, numbers_written, set_board_rows
from floorplan_circuits.edits.names import rename
from floorplan_circuits.edits.panels import MOST_SPACES, add_main, feed_panel, set_main, set_panel
from floorplan_circuits.edits.removal import remove
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.board_rows import is_row_by_row
from floorplan_circuits.home.boxes import FromBreaker
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Numbering, Panel, System
from floorplan_circuits.home.trade_words import TradeWords

NOT_SAID = "nobody has said"
CHANGES_OVER = {
    "none: all at once": "none",
    "by hand": "by hand",
    "by itself": "by itself",
    "not known": "not known",
}


class PanelRows(FormPage):
    """What can be said of the panel that is shown."""

    def _panel_is(self, panel: Panel, words: TradeWords) -> None:
        form = self._form()
        self._line(form, "Name", panel.name, lambda words: lambda home: rename(home, "panel", panel.id, words))
        letters = lambda words: lambda home: set_panel(home, panel.id, prefix=words.strip().upper())  # noqa: E731
        self._line(form, "Letter", panel.prefix, letters, "none")
        place = lambda words: lambda home: set_panel(home, panel.id, place=words.strip())  # noqa: E731  # one row
        self._line(form, "Where", panel.place, place)
        called = f"{words.space}s".capitalize()
        spaces = Count(called, panel.spaces, MOST_SPACES)
        spaces.editingFinished.connect(
            lambda: (
                spaces.value() != panel.spaces
                and self._attempt(lambda home: set_panel(home, panel.id, spaces=spaces.value()))
            )
        )
        form.addRow(called, spaces)
        for label, choices, field, now in (
            ("Numbered", get_args(Numbering), "numbering", panel.numbering),
            ("System", get_args(System), "system", panel.system),
        ):
            ways = {words: words for words in choices}
            make = lambda how, field=field: lambda home: set_panel(home, panel.id, **{field: how})  # noqa: E731
            self._pick(form, label, ways, now, make, above=True)
        if is_row_by_row(panel):
            rows = lambda words: lambda home: set_board_rows(home, panel.id, words)  # noqa: E731  # one row
            self._line(form, "Rows", " ".join(map(str, panel.rows)), rows, "ways of each: 12 12 8")
        own = lambda words: lambda home: call_spaces(home, panel.id, words)  # noqa: E731  # one row
        self._line(form, "Own numbers", numbers_written(panel.called), own, "as counted")

    def _mains(self, panel: Panel, called: str) -> None:
        """`called`: what the trade calls a main here."""
        form = self._form()
        name_of_it = called.capitalize()
        several = len(panel.mains) > 1
        for at, main in enumerate(panel.mains, 1):
            amps = "" if main.amps is None else str(main.amps)
            rate = lambda words, main=main: lambda home: set_main(home, main.id, amps=rating_typed(words))  # noqa: E731
            self._line(form, f"{name_of_it} {at}, A" if several else f"{name_of_it}, A", amps, rate)
            if several:
                name = lambda words, main=main: lambda home: set_main(home, main.id, name=words.strip())  # noqa: E731
                self._line(form, f"{name_of_it} {at} is", main.name, name, "house, heat …")
        adding = partial(self._attempt, lambda home: add_main(home, panel.id))
        self._button(f"One more {called}" if panel.mains else f"It has a {called}", adding)
        if panel.mains:
            last = panel.mains[-1].id
            words = f"No {called} {len(panel.mains)}" if several else f"It has no {called}"
            self._button(words, partial(self._attempt, lambda home: remove(home, [last])))

    def _feeders(self, panel: Panel, home: Home, findings: Findings | None) -> None:
        """What feeds it: the breakers of other panels are offered, one row for each that does and one more."""
        marks = findings.marks if findings is not None else {}
        others = {f"breaker {marks.get(one.id, '?')}": one.id for one in home.breakers if one.panel != panel.id}
        fed = [one.breaker for one in panel.fed_by if isinstance(one, FromBreaker)]
        if others or fed:
            form = self._form()
            ways = {NOT_SAID: None, **others}
            for at, now in enumerate([*fed, None][: len(fed) + 1 if fed else 1]):
                make = lambda one, at=at: lambda home: feed_panel(home, panel.id, *_with(fed, at, one))  # noqa: E731
                self._pick(form, "Fed by" if at == 0 else "and by", ways, now, make)
        supplies = len(panel.fed_by) + sum(panel.id in source.into for source in home.sources)
        if supplies > 1:
            change = lambda how: lambda home: set_panel(home, panel.id, changes_over=how)  # noqa: E731  # one row
            self._pick(self._form(), "Changes over", CHANGES_OVER, panel.changes_over, change, above=True)


def _with(fed: list[int], at: int, one: int | None) -> list[int | None]:
    """Return the feeders with another one at a place."""
    return [*fed[:at], one, *fed[at + 1 :]]
