"""The rows that tell of sources: what gives power besides breakers, where it comes in, and where it is stopped."""

from functools import partial
from typing import get_args

from floorplan_circuits.desktop.form_page import FormPage
from floorplan_circuits.edits.names import rename
from floorplan_circuits.edits.removal import remove
from floorplan_circuits.edits.sources import KINDS, add_source, set_source
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Panel, Source, Starts
from floorplan_circuits.home.trade_words import home_words

NOT_THERE = "nobody knows"
CAUTION = "The {main} does not stop a source of its own: turn off its own disconnect too, then test every wire."


class SourceRows(FormPage):
    """What can be said of the home's sources, and of one more."""

    def _sources(self, home: Home, panel: Panel, findings: Findings | None) -> None:
        self._words("Sources of power", "section")
        for source in home.sources:
            self._source(source, home, findings)
        if any(source.kind != "utility" for source in home.sources):
            self._words(CAUTION.format(main=home_words(home).main))
        self._words("Power comes in here from one more:")
        self._buttons({kind.capitalize(): partial(self._add, kind, panel.id) for kind in KINDS})

    def _add(self, kind: str, panel: int) -> None:
        self._attempt(lambda home: add_source(home, kind, [panel]))

    def _source(self, source: Source, home: Home, findings: Findings | None) -> None:
        form = self._form()
        self._line(form, "Name", source.name, lambda words: lambda one: rename(one, "source", source.id, words))
        kinds: dict[str, object] = dict(zip(KINDS, KINDS, strict=True))
        self._pick(form, "Kind", kinds, source.kind, lambda kind: lambda one: set_source(one, source.id, kind=kind))
        targets = _targets(home, findings)
        now = source.into[0] if source.into else None
        rest = source.into[1:]
        self._pick(
            form,
            "Comes in at",
            {**targets, **({} if now in targets.values() else {"a device": now})},
            now,
            lambda into: lambda one: set_source(one, source.id, into=(*(() if into is None else (into,)), *rest)),
            above=True,
        )
        starts = {one: one for one in get_args(Starts)}
        start = lambda how: lambda one: set_source(one, source.id, starts=how)  # noqa: E731  # one row, one edit
        self._pick(form, "Starts", starts, source.starts, start)
        stop = lambda words: lambda one: set_source(one, source.id, disconnect=words.strip())  # noqa: E731  # one row
        self._line(form, "Stopped at", source.disconnect, stop, "north wall, by the meter")
        self._button(f"Take out {source.name}", partial(self._attempt, lambda one: remove(one, [source.id])))


def _targets(home: Home, findings: Findings | None) -> dict[str, int | None]:
    """Return where a source may come in: panels, then breakers by their numbers."""
    marks = findings.marks if findings is not None else {}
    panels: dict[str, int | None] = {panel.name: panel.id for panel in home.panels}
    breakers = {f"breaker {marks.get(one.id, '?')}": one.id for one in home.breakers}
    return {NOT_THERE: None, **panels, **breakers}
