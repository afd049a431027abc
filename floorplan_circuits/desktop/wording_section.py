"""The words of one breaker's line: the old label, what the program writes, the householder's own, and the verdicts."""

from collections.abc import Callable

from PySide6.QtWidgets import QLineEdit

from floorplan_circuits.desktop.form_page import FormPage
from floorplan_circuits.desktop.session import Session
from floorplan_circuits.directory.abbreviations import expanded
from floorplan_circuits.edits.breakers import set_breaker
from floorplan_circuits.edits.meanings import explain
from floorplan_circuits.edits.names import LONGEST_NAME
from floorplan_circuits.findings import AskedWord, JudgedLine, Verdict

MOST_OFFERED = 3


class WordingSection(FormPage):
    """Shows old label and new line one over the other; a line is taken with one click."""

    def __init__(self, session: Session, breaker: int) -> None:
        super().__init__()
        self._session, self._breaker = session, breaker
        judged = session.findings.directory.lines.get(breaker) if session.findings is not None else None
        record = session.home.breakers.get(breaker)
        if judged is None or record is None:
            return
        self._old(judged, expanded(session.home, judged.old))
        self._new(judged, own=bool(record.wording.strip()))

    def _old(self, judged: JudgedLine, means: str) -> None:
        if judged.old.strip():
            self._words(f"Old label: “{judged.old}”", "told")
            self._verdicts(judged.of_old, judged)
        if judged.old.strip() and not _is_objected_to(judged.of_old) and judged.now != judged.old:
            written_out = f"{means[:1].upper()}{means[1:]}"
            if means == judged.old:
                self._button("Keep the old label", self._write(judged.old))
            else:
                self._button(f"Write “{written_out}”", self._write(written_out))

    def _new(self, judged: JudgedLine, own: bool) -> None:
        self._words(f"{'Your line' if own else 'New line'}: {judged.now}", "told")
        self._verdicts(judged.of_now, judged)
        if own:
            self._words(f"Ours: {judged.ours}")
            self._button("Take our line", self._write(""))
        form = self._form()
        words = judged.now if own else ""
        edit = lambda typed: lambda home: set_breaker(home, self._breaker, wording=typed.strip()[:LONGEST_NAME])  # noqa: E731  # one row, one edit
        self._line(form, "Yours", words, edit, "Write your own")

    def _verdicts(self, verdicts: tuple[Verdict, ...], judged: JudgedLine) -> None:
        """Tell each verdict, and under it the line that answers it, but for those that stand here anyway."""
        told = {judged.now, judged.ours}
        for one in verdicts:
            self._words(f"{one.says} {one.do}")
            if one.better and one.better not in told:
                told.add(one.better)
                self._button(f"Write “{one.better}”", self._write(one.better))
        for source in dict.fromkeys(one.source for one in verdicts):
            self._words(source)

    def _write(self, words: str) -> Callable[[], object]:
        return lambda: self._attempt(lambda home: set_breaker(home, self._breaker, wording=words))


class AskedSection(FormPage):
    """Asks what one shortened word of the labels means: once, for the whole home."""

    def __init__(self, session: Session, word: AskedWord, left: int) -> None:
        super().__init__()
        self._session = session
        marks = session.findings.marks if session.findings is not None else {}
        self._words(f"What does “{word.short}” mean?", "section")
        on = ", ".join(marks.get(one, "?") for one in word.breakers)
        more = f" {left} more to ask." if left else ""
        self._words(f"It stands on the label of {on}.{more}")
        for means in word.may_mean[:MOST_OFFERED]:
            self._button(means.capitalize(), self._say(word.short, means))
        field = QLineEdit()
        field.setAccessibleName(f"Meaning of {word.short}")
        field.setPlaceholderText("Something else")
        field.returnPressed.connect(lambda: field.text().strip() and self._say(word.short, field.text())())
        self._column.addWidget(field)

    def _say(self, short: str, means: str) -> Callable[[], object]:
        return lambda: self._attempt(lambda home: explain(home, short, means))


def _is_objected_to(verdicts: tuple[Verdict, ...]) -> bool:
    return any(not one.soft for one in verdicts)
