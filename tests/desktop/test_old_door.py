"""An old door of fuses and breakers taken to a printed card: labels verbatim, words asked once, lines judged."""

from pypdf import PdfReader
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QComboBox, QLineEdit, QPushButton, QSpinBox

from floorplan_circuits.desktop.rail import DRAW, PANEL, PRINT, TIE
from tests.desktop.robot_hand import press

LEFT_COLUMN = ("15f LTS UP", "15f KIT + D.R.", "30f/2 wtr htr nite rate", "15f ?")
RIGHT_COLUMN = ("50/2 RANGE", "20 Dads shop", "15 FURN do not touch", "20 gar. frzr", "20 spare")
MEANINGS = {
    "lts": "lights", "kit": "kitchen", "dr": "dining room", "wtr": "water", "htr": "heater", "furn": "furnace",
    "gar": "garage", "frzr": "freezer",
}  # fmt: skip
VERBATIM = ["LTS UP", "KIT + D.R.", "wtr htr nite rate", "?", "RANGE", "Dads shop", "FURN do not touch", "gar. frzr",
            "spare"]  # fmt: skip


def test_an_old_door_becomes_a_card(window, hand, tmp_path):
    set_up(window, hand)
    assert [one.as_found for one in window.session.home.breakers] == VERBATIM
    answer_each_word_once(window, hand)
    tie_what_somebody_knows(window, hand)
    take_lines_and_write_one(window, hand)
    leave_alone_what_must_not_be_touched(window, hand)
    read_the_card(window, hand, tmp_path)


def set_up(window, hand):
    window.start("Elm house", "metric")
    hand.write("n")
    hand.drag((0, 0), (4000, 3000))
    hand.answer("Workshop")
    hand.write("r")
    for x in (1000, 3000):
        hand.click(x, 60)
    hand.key(Qt.Key.Key_Escape)
    hand.stage(PANEL)
    hand.shown(QSpinBox, "Spaces")[0].setValue(12)
    press(hand, "Add the panel")
    for first, column in ((1, LEFT_COLUMN), (2, RIGHT_COLUMN)):
        hand.click_space(first)
        for words in column:
            hand.answer(words)
        if hand.fields():
            hand.leave_field()


def answer_each_word_once(window, hand):
    asked = []
    while window.session.findings.directory.asked:
        short = window.session.findings.directory.asked[0].short
        asked.append(short)
        offered = hand.shown(QPushButton, MEANINGS[short].capitalize())
        if offered:
            QTest.mouseClick(offered[0], Qt.MouseButton.LeftButton)
            hand.settle()
        else:
            enter(hand, f"Meaning of {short}", MEANINGS[short])
    assert sorted(asked) == sorted(MEANINGS)


def tie_what_somebody_knows(window, hand):
    hand.stage(TIE)
    hand.click_breaker(numbered(window, "6"))
    for x in (1000, 3000):
        hand.click(x, 70)
    hand.key(Qt.Key.Key_Escape)
    hand.stage(DRAW)
    hand.stage(PANEL)
    assert window.session.findings.lines[numbered(window, "6")].variants[0] == "Workshop: receptacles"


def take_lines_and_write_one(window, hand):
    hand.click_breaker(numbered(window, "10"))
    press(hand, "Write “Garage freezer”")
    hand.click_breaker(numbered(window, "8"))
    press(hand, "Write “Furnace do not touch”")
    assert "found" not in window.session.findings.lines[numbered(window, "8")].variants[0]
    hand.click_breaker(numbered(window, "2·4"))
    enter(hand, "Yours", "Mom's range")
    (objection,) = window.session.findings.directory.lines[numbered(window, "2·4")].of_now
    assert (objection.words, objection.better) == ("Mom's", "Range")
    press(hand, "Write “Range”")
    assert window.session.home.breakers[numbered(window, "2·4")].wording == "Range"


def leave_alone_what_must_not_be_touched(window, hand):
    fuse = numbered(window, "9")
    hand.click_breaker(fuse)
    assert hand.shown(QComboBox, "Opens")[0].currentText() == "not known"
    hand.choose("Found", "off")
    enter(hand, "Why", "wire seen loose")
    (unknown,) = window.session.findings.directory.lines[fuse].of_now
    assert "leave it" in unknown.do
    hand.click_breaker(numbered(window, "8"))
    hand.choose("Turn off?", "never")


def read_the_card(window, hand, tmp_path):
    hand.stage(PRINT)
    preview = window.work.staging.print_view
    hand.choose("Sheet", "Directory card")
    hand.qtbot.waitUntil(lambda: not preview.is_making, timeout=20_000)
    preview.save(tmp_path / "card.pdf")
    words = " ".join(PdfReader(tmp_path / "card.pdf").pages[0].extract_text().split())
    for expected in ("Workshop: receptacles", "Garage freezer", "never turn off", "found taken out: wire seen loose",
                     "“LTS UP” (lights UP)", "Nothing found on it yet", "Test before you touch"):  # fmt: skip
        assert expected in words
    assert "Spare" not in words


def numbered(window, mark):
    return next(number for number, called in window.session.findings.marks.items() if called == mark)


def enter(hand, label, words):
    field = hand.shown(QLineEdit, label)[0]
    field.selectAll()
    QTest.keyClicks(field, words)
    QTest.keyClick(field, Qt.Key.Key_Return)
    hand.settle()
