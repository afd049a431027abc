"""The rows that tell of one breaker or fuse, as it is and as it was found, and those of several at once."""

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from typing import get_args

from PySide6.QtWidgets import QFormLayout

from floorplan_circuits.desktop.fields import minutes_typed, rating_typed
from floorplan_circuits.desktop.form_page import FormPage
from floorplan_circuits.edits.breakers import set_breaker, tie_handles, untie_handles
from floorplan_circuits.edits.edited import Edited
from floorplan_circuits.edits.neutrals import set_neutral, share_neutral
from floorplan_circuits.edits.removal import remove
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Breaker, Conductor, Found, Permission
from floorplan_circuits.home.record import change

PROTECTS = {
    "overcurrent": (),
    "ground fault": ("ground fault",),
    "arc fault": ("arc fault",),
    "ground and arc fault": ("arc fault", "ground fault"),
    "residual current": ("residual current",),
    "surge": ("surge",),
}
"""What a breaker protects against besides what every breaker does, as the choices say it."""
OPENS = ("not known", "hot", "hot and neutral", "both hots")
STATES = {"not recorded": "not recorded", "on": "on", "off": "off", "tripped": "tripped"}
MAY = {"yes": "yes", "ask first": "ask", "never": "never"}
TIED = {"by the factory": "by the factory", "a nail or wire": "makeshift", "not sure": "not sure", "not tied": None}
TIE_THEM = {
    "Tied by the factory": "by the factory",
    "Tied by a nail or wire": "makeshift",
    "Tied, not sure how": "not sure",
}
NOT_BEHIND = "nothing"
FUSE_WORDS = (
    "A fuse comes out with its loads off, and its shell stays live. Which side it opens is asked for: not known is an "
    "answer, and then no shut-off leans on it."
)
FOUND_OFF_WORDS = "It was found off: no plan here ever asks to turn it on."
FUSE_OUT_WORDS = "It was found out or blown: no plan here ever asks to put one in."


class BreakerRows(FormPage):
    """What can be said of the breakers that are selected."""

    def _one_breaker(self, breaker: Breaker, home: Home, findings: Findings | None) -> None:
        form = self._form()
        self._labels(form, breaker, findings)
        self._what_it_is(form, breaker, home, findings)
        self._as_found(form, breaker)
        self._wires(form, breaker)
        self._button("Take it out", lambda: self._attempt(lambda one: remove(one, [breaker.id])))

    def _labels(self, form: QFormLayout, breaker: Breaker, findings: Findings | None) -> None:
        """The old label, verbatim, beside the new wording."""
        self._row(form, "Old label", breaker.as_found, breaker, "as_found")
        line = findings.lines.get(breaker.id) if findings is not None else None
        says = line.variants[0] if line is not None and not line.own else ""
        self._row(form, "Says now", breaker.wording, breaker, "wording", says)

    def _what_it_is(self, form: QFormLayout, breaker: Breaker, home: Home, findings: Findings | None) -> None:
        amps = "" if breaker.amps is None else str(breaker.amps)
        self._line(form, "Amps", amps, lambda words: lambda one: set_breaker(one, breaker.id, amps=rating_typed(words)))
        kinds = {"breaker": "breaker", "fuse": "fuse"}
        self._field(form, "It is a", kinds, breaker.device, breaker, "device")
        self._field(form, "Opens", {one: one for one in OPENS}, breaker.opens, breaker, "opens")
        protects = tuple(sorted(breaker.protects))
        also = {} if protects in PROTECTS.values() else {", ".join(protects): protects}
        self._field(form, "Against", {**PROTECTS, **also}, protects, breaker, "protects")
        self._field(form, "Behind", _behind(breaker, home, findings), breaker.behind, breaker, "behind")
        if breaker.device == "fuse":
            self._caption(form, FUSE_WORDS)
        if breaker.tie is not None:
            pairs = [one.id for one in home.breakers if one.tie is not None and one.tie.group == breaker.tie.group]
            made = breaker.tie.made
            self._pick(form, "Tied", TIED, made, lambda how: lambda one: _tied(one, pairs, how))

    def _as_found(self, form: QFormLayout, breaker: Breaker) -> None:
        found, may = breaker.found, breaker.may_open
        self._pick(form, "Found", STATES, found.state, self._with(breaker, "found", found, "state"))
        if found.is_off or found.why:
            self._line(form, "Why", found.why, self._with(breaker, "found", found, "why"), "do not turn on")
        if found.is_off:
            self._caption(form, FUSE_OUT_WORDS if breaker.device == "fuse" else FOUND_OFF_WORDS)
        self._pick(form, "Turn off?", MAY, may.may, self._with(breaker, "may_open", may, "may"))
        minutes = "" if may.minutes is None else str(may.minutes)
        self._line(form, "Off at most", minutes, lambda words: lambda one: _off_at_most(one, breaker, words), "minutes")
        if may != Permission():
            self._line(form, "Whose word", may.whose, self._with(breaker, "may_open", may, "whose"))
            self._line(form, "Because", may.why, self._with(breaker, "may_open", may, "why"))

    def _wires(self, form: QFormLayout, breaker: Breaker) -> None:
        wire = breaker.conductor
        self._line(form, "Wire", wire.size, self._with(breaker, "conductor", wire, "size"), "12 AWG")
        metals = {one: one for one in get_args(Conductor.model_fields["metal"].annotation)}
        self._pick(form, "Metal", metals, wire.metal, self._with(breaker, "conductor", wire, "metal"))
        neutral = breaker.poles[0].neutral
        ways: dict[str, object] = {"not known": "not known", "its own": "own"}
        if not isinstance(neutral, str):
            ways["shared"] = neutral
        self._pick(form, "Neutral", ways, neutral, lambda how: lambda one: _neutral(one, breaker.id, how))
        self._row(form, "Note", breaker.note, breaker, "note")

    # --- pieces -----------------------------------------------------------------------------------------------------

    def _row(self, form: QFormLayout, label: str, words: str, breaker: Breaker, field: str, hint: str = "") -> None:
        make = lambda typed: lambda home: set_breaker(home, breaker.id, **{field: typed.strip()})  # noqa: E731  # one row
        self._line(form, label, words, make, hint)

    def _field(
        self, form: QFormLayout, label: str, ways: Mapping[str, object], now: object, breaker: Breaker, field: str
    ) -> None:
        self._pick(form, label, ways, now, lambda how: lambda home: set_breaker(home, breaker.id, **{field: how}))

    def _with(
        self, breaker: Breaker, field: str, record: Found | Permission | Conductor, part: str
    ) -> Callable[[object], Callable[[Home], Edited]]:
        """Return what makes the edit of one part of a record in the breaker."""
        return lambda value: lambda home: set_breaker(home, breaker.id, **{field: change(record, **{part: value})})

    # --- several ----------------------------------------------------------------------------------------------------

    def _several_breakers(self, breakers: Sequence[Breaker]) -> None:
        ids = [breaker.id for breaker in breakers]
        for words, made in TIE_THEM.items():
            self._button(words, partial(self._tie, ids, made))
        if any(breaker.tie is not None for breaker in breakers):
            self._button("Not tied", lambda: self._attempt(lambda home: untie_handles(home, ids)))
        self._button("They share a neutral", lambda: self._attempt(lambda home: share_neutral(home, ids)))
        self._words("Tied handles move together, and each can trip alone. A nail or a wire counts for nothing.")

    def _tie(self, breakers: list[int], made: str) -> None:
        self._attempt(lambda home: tie_handles(home, breakers, made))


def _behind(breaker: Breaker, home: Home, findings: Findings | None) -> dict[str, object]:
    """Return what a breaker may stand behind: the others of its panel, those that protect against leaks first."""
    marks = findings.marks if findings is not None else {}
    others = [one for one in home.breakers if one.panel == breaker.panel and one.id != breaker.id]
    others.sort(key=lambda one: "residual current" not in one.protects)
    return {NOT_BEHIND: None, **{marks.get(one.id, "?"): one.id for one in others}}


def _tied(home: Home, breakers: list[int], how: object) -> Edited:
    return untie_handles(home, breakers) if how is None else tie_handles(home, breakers, str(how))


def _off_at_most(home: Home, breaker: Breaker, words: str) -> Edited:
    return set_breaker(home, breaker.id, may_open=change(breaker.may_open, minutes=minutes_typed(words)))


def _neutral(home: Home, breaker: int, how: object) -> Edited:
    return set_neutral(home, breaker, str(how))
