"""The guide's first and last screen: how somebody looks and what to mind, and what was found."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial

from PySide6.QtWidgets import QCheckBox, QFormLayout, QHBoxLayout, QLabel, QLineEdit, QSpinBox, QWidget

from floorplan_circuits.desktop.fields import MOST_MINUTES, Choice, Count
from floorplan_circuits.desktop.guide_page import button, text
from floorplan_circuits.desktop.rounds_wanted import RoundsWanted
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.called import feed_called
from floorplan_circuits.home.days import written
from floorplan_circuits.home.home import existing_feeds
from floorplan_circuits.home.power import Permission
from floorplan_circuits.reading_in_words import what_is_missing
from floorplan_circuits.rounds.guide_words import cautions
from floorplan_circuits.rounds.steps import Manner

WAYS = {
    "A lamp plugged in, and what is there by itself": "",
    "A two-lead tester": "two-lead tester",
    "A low-impedance meter": "low-impedance meter",
}
TRIED_BY_EYE = "What I call dead I see on before, in that very place, and on again afterwards."
TRIED_BY_TESTER = "Where it reads dead, I try the tester on a live point, just before and just after."
EACH_HOT = "I read every hot to ground or to another proved reference."
NOT_TRIED = "Without the tick the answers may narrow it down, but prove nothing."


class SetUpForm(QWidget):
    """How somebody looks, who they are, and which breakers may be turned."""

    def __init__(self, manner: Manner, findings: Findings, wanted: RoundsWanted) -> None:
        super().__init__()
        self.setObjectName("guide_form")
        form = QFormLayout(self)
        form.setContentsMargins(0, 0, 0, 0)
        now = next(words for words, way in WAYS.items() if way == manner.way)
        self.way = Choice("Look with", WAYS, now, narrow=True)
        self.tried, self.each_hot = QCheckBox(), QCheckBox()
        self._tried_words, self._each_words = text("", "guide_form_words"), text(EACH_HOT, "guide_form_words")
        self.tried.setChecked(manner.tried)
        self.each_hot.setChecked(manner.each_hot)
        self.who, self.helper = QLineEdit(manner.who), QLineEdit(manner.helper)
        self.helper.setPlaceholderText("who stands at the panel, on the phone")
        self.cap = _number(wanted.cap, 200, "as many as it takes")
        self.minutes = _number(wanted.minutes, MOST_MINUTES, "as long as it takes", " minutes at most")
        fields = {
            "Look with": self.way,
            "Who": self.who,
            "Helper": self.helper,
            "Off at once": self.cap,
            "Each off for": self.minutes,
        }
        for label, field in fields.items():
            field.setAccessibleName(label)
            form.addRow(label, field)
        for tick, words in ((self.tried, self._tried_words), (self.each_hot, self._each_words)):
            form.addRow(ticked_line(tick, words))
        form.addRow(text(NOT_TRIED, "guide_small"))
        self.asked = {breaker: tick_named(words) for breaker, words in _to_ask(findings)}
        for breaker, tick in self.asked.items():
            tick.setChecked(breaker in wanted.agreed)
            form.addRow(ticked_line(tick, text(tick.accessibleName(), "guide_form_words")))
        self.way.currentTextChanged.connect(self._show_ticks)
        self._show_ticks()

    def _show_ticks(self) -> None:
        by_tester = bool(WAYS[self.way.currentText()])
        self._tried_words.setText(TRIED_BY_TESTER if by_tester else TRIED_BY_EYE)
        self.tried.setAccessibleName(self._tried_words.text())
        self.each_hot.setAccessibleName(EACH_HOT)
        for widget in (self.each_hot, self._each_words):
            widget.setVisible(by_tester)

    def manner(self) -> Manner:
        """Return how the person says they look."""
        way = WAYS[self.way.currentText()]
        who, helper = self.who.text().strip()[:120], self.helper.text().strip()[:120]
        return Manner(way, self.tried.isChecked(), bool(way) and self.each_hot.isChecked(), who, helper)

    def wanted(self, before: RoundsWanted) -> RoundsWanted:
        """Return what the person wants of the rounds, of the same boxes as before."""
        agreed = tuple(breaker for breaker, tick in self.asked.items() if tick.isChecked())
        return replace(before, agreed=agreed, cap=self.cap.value(), minutes=self.minutes.value())


def _number(now: int, most: int, none: str, after: str = "") -> QSpinBox:
    """Return a number to set; 0 says that there is no limit."""
    field = Count("", max(now, 1), most)
    field.setRange(0, most)
    field.setValue(now)
    field.setSpecialValueText(none)
    field.setSuffix(after)
    return field


def tick_named(words: str) -> QCheckBox:
    """Return a tick that screen readers call by these words."""
    tick = QCheckBox()
    tick.setAccessibleName(words)
    return tick


def ticked_line(tick: QCheckBox, words: QLabel) -> QWidget:
    """Return a tick with words that wrap: a check box alone never does."""
    line = QWidget()
    row = QHBoxLayout(line)
    row.setContentsMargins(0, 0, 0, 0)
    row.addWidget(tick)
    row.addWidget(words, 1)
    words.setBuddy(tick)
    return line


def _to_ask(findings: Findings) -> list[tuple[int, str]]:
    return [
        (breaker.id, _agrees(breaker.may_open, findings.marks[breaker.id]))
        for breaker in findings.home.breakers
        if breaker.may_open.may == "ask" and not breaker.found.is_off
    ]


def _agrees(permission: Permission, mark: str) -> str:
    whose = permission.whose or "whoever it is"
    why = f" ({permission.why})" if permission.why else ""
    return f"{whose[:1].upper()}{whose[1:]} agrees that {mark} is turned off{why}."


def set_up_pieces(form: SetUpForm, findings: Findings, about: str, start: Callable[[], object]) -> list[QWidget]:
    """Return the first screen: what it is about, the cautions, the form."""
    return [
        text("Find out, step by step", "guide_head"),
        text(about, "guide_words"),
        *(text(words, "guide_words") for words in cautions(findings)),
        form,
        button("Begin (Enter)", start, "action"),
    ]


def done_pieces(
    findings: Findings,
    feeds: Sequence[int],
    to_tie: Sequence[int],
    tie: Callable[[Sequence[int]], object],
    others: Sequence[QWidget],
) -> list[QWidget]:
    """Return the last screen: what was found and how we know, what to tie, and what is still open."""
    places = {place.feed.id: place for place in existing_feeds(findings.home)}
    known = findings.conclusions
    tested = sum(known[feed].standing == "proved" for feed in feeds)
    open_ones = [feed for feed in feeds if known[feed].standing not in ("proved", "suggested")]
    pieces: list[QWidget] = [text("That is all for now", "guide_head")]
    pieces.append(text(f"{tested} of {len(feeds)} tested. What is not tested, treat as live.", "guide_words"))
    if to_tie:
        pieces.append(text("Found, and not tied on the map yet:", "guide_words"))
        if len(to_tie) > 1:
            pieces.append(button(f"Tie all {len(to_tie)}", partial(tie, to_tie), "action"))
        for feed in to_tie:
            pieces.append(_to_tie(_tie_words(feed, findings, feed_called(places[feed])), partial(tie, [feed])))
    untested = [(feed, why) for feed in feeds if (why := what_is_missing(findings, feed))]
    if untested:
        pieces.append(text("Tried, and not tested yet:", "guide_words"))
    for feed, why in untested:
        pieces.append(text(f"{feed_called(places[feed])}: {why}.", "guide_form_words"))
    if open_ones:
        names = ", ".join(f"{feed_called(places[feed])} ({known[feed].says})" for feed in open_ones[:12])
        more = f" and {len(open_ones) - 12} more" if len(open_ones) > 12 else ""
        pieces.append(text(f"Still open, treat as live: {names}{more}.", "guide_words"))
    return [*pieces, *others]


def _to_tie(words: str, act: Callable[[], object]) -> QWidget:
    line = QWidget()
    row = QHBoxLayout(line)
    row.setContentsMargins(0, 0, 0, 0)
    row.addWidget(text(words, "guide_form_words"), 1)
    tie = button("Tie", act)
    tie.setAccessibleName(f"Tie {words}")
    row.addWidget(tie)
    return line


def _tie_words(feed: int, findings: Findings, called: str) -> str:
    one = findings.conclusions[feed]
    return f"{called} on {findings.marks[one.breakers[0]]}: {one.says}" + (f", {written(one.date)}" if one.date else "")
