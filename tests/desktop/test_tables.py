import pytest
from PySide6.QtWidgets import QMessageBox

from floorplan_circuits.desktop.tables import Tables
from floorplan_circuits.exchange.device_list import devices_csv
from floorplan_circuits.exchange.schedule import schedule_csv, take_schedule
from floorplan_circuits.home.resources import folder


@pytest.fixture
def cottage_open(window, hand):
    window.open(folder("sample_homes") / "cottage.json")
    hand.settle()
    return window


def test_a_schedule_goes_out_and_back_as_one_edit_that_can_be_undone(cottage_open, hand, tmp_path):
    window, tables = cottage_open, Tables(cottage_open)
    path = tmp_path / "schedule.csv"
    tables.write(path, schedule_csv)
    assert window.work.status.text() == "schedule.csv is written."
    before = window.session.home
    path.write_text(path.read_text(encoding="utf-8-sig").replace("plugs", "front plugs"), encoding="utf-8-sig")
    tables.take(path, take_schedule)
    hand.settle()
    assert window.session.home.breakers.rows[0].as_found == "front plugs"
    window.session.undo()
    assert window.session.home is before


@pytest.mark.qt_log_ignore("This plugin does not support")  # a dialog without a screen has no size to keep
def test_rows_that_cant_be_taken_are_shown_and_the_home_stays(cottage_open, hand, tmp_path):
    window = cottage_open
    before, path = window.session.home, tmp_path / "odd.csv"
    path.write_text("Breaker,Amps\n3,25\n99,20\n", encoding="utf-8")
    Tables(window).take(path, take_schedule)
    shown = [box for box in window.findChildren(QMessageBox) if box.isVisible()]
    assert "Row 3: Main panel has no space 99" in shown[0].text()
    shown[0].close()
    assert window.session.home is before
    path.write_bytes(b"\xff")
    Tables(window).take(path, take_schedule)
    assert "no UTF-8" in window.work.status.text()
    assert window.session.home is before


def test_a_table_is_never_written_over_the_home(cottage_open, tmp_path):
    window = cottage_open
    content = window.session.path.read_bytes()
    Tables(window).write(window.session.path, devices_csv)
    assert window.session.path.read_bytes() == content
