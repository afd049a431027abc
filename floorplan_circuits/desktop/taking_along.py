"""Test rounds away from the computer: a worksheet or a page for a phone to take along, and their answers taken back."""

from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QFileDialog, QPlainTextEdit, QWidget

from floorplan_circuits.desktop.guide_page import button, text
from floorplan_circuits.desktop.guiding import Guiding
from floorplan_circuits.edits.answering import take_answers
from floorplan_circuits.files.atomic import WRITE_FAULTS, write_whole
from floorplan_circuits.findings import RoundsInWords, TestPlan
from floorplan_circuits.rounds.answers import LONGEST, CannotRead, plan_named, read_answers
from floorplan_circuits.rounds.wording import in_words

if TYPE_CHECKING:
    from floorplan_circuits.desktop.work_area import WorkArea

PDF, HTML, TEXT = "PDF (*.pdf)", "Web page (*.html)", "Text (*.txt);;All files (*)"
NOTHING = "There is nothing to look at in rounds: draw devices, or see what is tested already."
HOW = (
    "Paste the text that the phone gave back, or type what stands on the worksheet: the plan's code, then a line a "
    "round with a letter a thing, l live, d dead, u unclear, - not looked at."
)
SAMPLE = "plan K7QX3M\ndate 2024-05-01\nwho Kim\nwith lamp plugged in\n0 llllll\n1 lddlul"


class TakingAlong:
    """Writes the plan to a file to be carried out elsewhere, and takes the answers of it into the log."""

    def __init__(self, area: "WorkArea", guiding: Guiding) -> None:
        self._area, self._guiding = area, guiding
        self._given: dict[str, TestPlan] = {}
        """The plans that were written in this sitting, by their codes: their answers are known whatever came since."""
        self.pasted = QPlainTextEdit()

    # --- out --------------------------------------------------------------------------------------------------------

    def ask_for_worksheet(self) -> None:
        """Ask where to, and write the worksheet."""
        self._ask("Write the worksheet", "test rounds.pdf", PDF, self._worksheet)

    def ask_for_phone_page(self) -> None:
        """Ask where to, and write the page for a phone."""
        self._ask("Write a page for a phone", "test rounds.html", HTML, _phone_page)

    def _ask(self, title: str, name: str, kinds: str, make: Callable[[RoundsInWords], bytes]) -> None:
        chosen, _ = QFileDialog.getSaveFileName(self._area, title, name, kinds)
        if chosen:
            self.write(Path(chosen), make)

    def write_worksheet(self, path: Path) -> None:
        """Write the plan as a sheet to fill in."""
        self.write(path, self._worksheet)

    def write_phone_page(self, path: Path) -> None:
        """Write the plan as one page for a phone."""
        self.write(path, _phone_page)

    def write(self, path: Path, make: Callable[[RoundsInWords], bytes]) -> None:
        """Write the plan of what is still open; the home's own file is never written over."""
        session = self._area.session
        if session is None:
            return
        if session.path is not None and path.resolve() == session.path.resolve():
            self._area.say("That is the home itself. Choose another name.")
            return
        findings = session.find_now()
        plan = self._guiding.wanted.plan(findings)
        if not plan.feeds:
            self._area.say(NOTHING)
            return
        words = in_words(plan, findings)
        try:
            write_whole(path, make(words))
        except WRITE_FAULTS as error:
            self._area.say(f"{path.name} can't be written ({error}). Choose another folder or name.")
            return
        self._given[words.code] = plan
        self._area.say(f"{path.name} is written: plan {words.code}. Bring its answers back before anything else.")

    def _worksheet(self, words: RoundsInWords) -> bytes:
        from floorplan_circuits.sheets.paper import PAPERS  # late: reportlab must not delay the first frame
        from floorplan_circuits.sheets.worksheet import worksheet
        from floorplan_circuits.surfaces.pdf import pdf_of

        session = self._area.session
        metric = session is not None and session.home.units == "metric"
        return pdf_of(worksheet(words, PAPERS["a4" if metric else "letter"], date.today().isoformat()))

    # --- back -------------------------------------------------------------------------------------------------------

    def show(self) -> None:
        """Show where answers are pasted, in the plan's place."""
        self._show("", "")

    def _show(self, pasted: str, refused: str) -> None:
        self.pasted = QPlainTextEdit(pasted)
        self.pasted.setObjectName("answers")
        self.pasted.setAccessibleName("The answers")
        self.pasted.setPlaceholderText(SAMPLE)
        self.pasted.setMinimumHeight(180)
        self._guiding.show_instead(*self._pieces(refused))
        self.pasted.setFocus()

    def _pieces(self, refused: str) -> list[QWidget]:
        return [
            text("Answers from paper or phone", "guide_head"),
            text(HOW, "guide_words"),
            self.pasted,
            *([text(refused, "guide_words")] if refused else []),
            button("Take these answers", lambda: self.take(self.pasted.toPlainText()), "action"),
            button("From a file …", self._ask_for_file),
            button("Back to the plan", self._guiding.leave),
        ]

    def _ask_for_file(self) -> None:
        chosen, _ = QFileDialog.getOpenFileName(self._area, "Answers of test rounds", "", TEXT)
        if chosen:
            self.take_file(Path(chosen))

    def take_file(self, path: Path) -> None:
        """Take the answers in a file, and say what can't be read in it."""
        try:
            with path.open("rb") as file:
                told = file.read(LONGEST + 1).decode("utf-8")
        except (OSError, UnicodeDecodeError) as error:
            self._refuse(f"{path.name} can’t be read as text ({error}). Choose the file that the phone saved.")
            return
        self.take(told)

    def take(self, told: str) -> None:
        """Record the answers as one edit, and go on with the guide; what does not fit is said, and nothing is taken."""
        session = self._area.session
        if session is None:
            return
        findings = session.find_now()
        plans = [*self._given.values(), *self._guiding.wanted.plans(findings)]
        try:
            answers = read_answers(told, plan_named(told, plans))
        except CannotRead as error:
            self._refuse(str(error))
            return
        edited = session.attempt(lambda home: take_answers(home, answers))
        if edited is None:
            self._refuse(self._area.status.text())
            return
        self._guiding.begin(self._guiding.wanted.boxes)
        self._area.say(f"{edited.says}. The guide goes on with what they leave.")

    def _refuse(self, words: str) -> None:
        self._show(self.pasted.toPlainText(), words)
        self._area.say(words)


def _phone_page(words: RoundsInWords) -> bytes:
    from floorplan_circuits.rounds.phone import phone_page

    return phone_page(words).encode("utf-8")
