"""One evening, as a person makes it: from an empty window to a printed map, by mouse and keys alone."""

from pypdf import PdfReader
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QPushButton, QSpinBox

from floorplan_circuits.desktop.rail import DRAW, PANEL, PRINT, TIE
from floorplan_circuits.files.open import open_home
from floorplan_circuits.find import find
from floorplan_circuits.home.integrity import problems

LEFT = Qt.MouseButton.LeftButton


def test_an_evening_from_the_empty_window_to_the_printed_map(window, hand, tmp_path):
    start_a_home(window, hand)
    draw_two_rooms(window, hand)
    put_twelve_devices_into_eight_boxes(window, hand)
    type_ten_breakers(window, hand)
    tie_both_ways(window, hand)
    switches = meet_a_shared_box(window, hand)
    undo_a_mistake(window, hand, switches)
    save_reopen_and_print(window, hand, switches, tmp_path)


def start_a_home(window, hand):
    window.first.units.setCurrentText("metres")
    QTest.keyClicks(window.first.name, "House by the ford")
    QTest.mouseClick(window.first.start_button, LEFT)
    hand.settle()

    assert window.session.home.name == "House by the ford"


def draw_two_rooms(window, hand):
    hand.write("n")
    hand.drag((0, 0), (4000, 3000))
    hand.answer("Kitchen")
    hand.write("n")
    hand.drag((4020, 10), (8000, 3000))
    hand.answer("Hall")

    rooms = window.session.home.rooms.rows
    assert [room.name for room in rooms] == ["Kitchen", "Hall"]
    assert rooms[0].outline == ((0, 0), (4000, 0), (4000, 3000), (0, 3000))
    assert sum(not wall.outer for wall in window.session.findings.walls) == 1


def put_twelve_devices_into_eight_boxes(window, hand):
    hand.write("r")
    for x, y in ((1000, 60), (3000, 60), (60, 1500), (5000, 60), (7000, 60)):
        hand.click(x, y)
    hand.take_kind("light switch")
    for x, y in ((2000, 2950), (2000, 2950), (2000, 2950), (5000, 2950), (5000, 2950), (5000, 2950)):
        hand.click(x, y)  # the second and third click add the next gang
    hand.take_kind("pendant")
    hand.click(2000, 1200)
    hand.key(Qt.Key.Key_Escape)

    boxes = window.session.home.boxes
    assert len(boxes) == 8
    assert sum(len(box.devices) for box in boxes) == 12
    assert {box.mark: box.angle for box in boxes if box.mark in ("B1", "B3", "B6")} == {"B1": 90, "B3": 0, "B6": 270}


def type_ten_breakers(window, hand):
    hand.stage(PANEL)
    hand.shown(QSpinBox, "Spaces")[0].setValue(12)
    QTest.mouseClick(hand.shown(QPushButton, "Add the panel")[0], LEFT)
    hand.settle()
    for first, lines in ((1, ("15 kit lts", "15 hall", "20 plugs", "20", "15", "15")), (2, ("30/2 dryer", "15 spare"))):
        hand.click_space(first)
        for words in lines:
            hand.answer(words)
        if first == 2:
            for words in ("20", "15"):
                hand.answer(words)

    breakers = window.session.home.breakers
    assert len(breakers) == 10
    assert [breaker.as_found for breaker in breakers][:3] == ["kit lts", "hall", "plugs"]
    assert [pole.space for pole in breakers.rows[6].poles] == [2, 4]


def tie_both_ways(window, hand):
    by_mark = {mark: number for number, mark in window.session.findings.marks.items()}
    hand.stage(TIE)
    hand.click_breaker(by_mark["5"])
    for x, y in ((1000, 70), (3000, 70), (70, 1500)):
        hand.click(x, y)
    hand.key(Qt.Key.Key_Escape)
    hand.stage(DRAW)
    hand.click(2000, 1200)
    hand.stage(TIE)
    hand.click_breaker(by_mark["1"])

    found = window.session.findings
    assert sum(by_mark["5"] in one.breakers for one in found.conclusions.values()) == 3
    assert found.lines[by_mark["1"]].variants[0].startswith("Kitchen")
    assert not any(box.shared for box in found.boxes.values())


def meet_a_shared_box(window, hand):
    switches = next(box for box in window.session.home.boxes if len(box.devices) == 3)
    hand.stage(DRAW)
    hand.click(2000, 2920)
    hand.choose("Breaker", "1", place=0)
    hand.choose("Breaker", "3", place=1)

    found = window.session.findings
    assert found.boxes[switches.id].shared
    assert found.hazards[0].box == switches.id
    assert window.work.below.list.model().rowCount() == sum(one.listed for one in found.hazards)
    return switches


def undo_a_mistake(window, hand, switches):
    before = window.session.home
    hand.key(Qt.Key.Key_Delete)
    assert window.session.home is not before
    assert window.session.history.undo_says == f"Remove box {switches.mark}"
    window.session.undo()
    hand.settle()

    assert window.session.home is before


def save_reopen_and_print(window, hand, switches, tmp_path):
    file = tmp_path / "ford.json"
    assert window.save_to(file)
    assert window.session.is_saved
    stored = open_home(file)
    assert stored.home == window.session.home
    assert problems(stored.home) == ()
    assert window.open(file)
    hand.settle()
    hand.stage(PRINT)
    preview = window.work.staging.print_view
    hand.qtbot.waitUntil(lambda: not preview.is_making, timeout=20_000)
    assert preview.document.pageCount() == 1
    preview.save(tmp_path / "map.pdf")

    words = PdfReader(tmp_path / "map.pdf").pages[0].extract_text()
    for expected in ("House by the ford", "Kitchen", "Hall", switches.mark, "Never tested", "Test before you touch"):
        assert expected in words
    assert find(stored.home).boxes[switches.id].shared
