import csv
import io
from contextlib import suppress

import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits import cli
from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.panels import add_panel
from floorplan_circuits.exchange import device_list, schedule
from floorplan_circuits.exchange.cells import RISKY, bare, guarded
from floorplan_circuits.exchange.device_list import devices_csv, take_devices
from floorplan_circuits.exchange.schedule import schedule_csv, take_schedule
from floorplan_circuits.exchange.sheet_of_rows import CannotTake, as_csv, read_csv
from floorplan_circuits.exchange.taking import RowsRefused
from floorplan_circuits.files.open import open_home
from floorplan_circuits.files.save import text_of
from floorplan_circuits.find import find
from floorplan_circuits.home.boxes import NotKnown
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import change
from floorplan_circuits.home.resources import folder
from sample_homes.write_samples import SAMPLES
from tests.homes import homes

HOSTILE = ("=1+1", "+1", "-2+3", "@SUM(A1)", "\t=1", " =1+1", "'=1", '=HYPERLINK("x","y")', "＝1+1", "'quoted", '",=1')


def rows_of(content: bytes) -> list[list[str]]:
    """As Python's own csv reads it, without our reader."""
    return list(csv.reader(io.StringIO(content.decode("utf-8-sig"), newline="")))


def as_bytes(*rows: tuple[str, ...], delimiter: str = ",") -> bytes:
    out = io.StringIO(newline="")
    csv.writer(out, delimiter=delimiter).writerows(rows)
    return out.getvalue().encode("utf-8")


def labelled(label: str) -> Home:
    home = SAMPLES["cottage.json"]()
    first = home.breakers.rows[0]
    return change(home, breakers=home.breakers.put(change(first, as_found=label)))


# --- out ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", sorted(SAMPLES))
def test_every_breaker_and_every_built_feed_has_a_row_that_pythons_csv_reads(name) -> None:
    found = find(SAMPLES[name]())
    told = rows_of(schedule_csv(found))
    assert tuple(told[0]) == schedule.HEADINGS
    assert sorted(row[0] for row in told[1:]) == sorted(found.marks[one] for one in found.home.breakers.ids())
    assert len(rows_of(devices_csv(found))) == 1 + len(found.conclusions)
    assert schedule_csv(found).startswith(b"\xef\xbb\xbf")


@pytest.mark.parametrize("label", HOSTILE)
def test_no_cell_is_a_formula_for_a_spreadsheet_library_and_the_label_comes_back_verbatim(label) -> None:
    name = label.replace("\t", " ")  # a name holds no tab: only cells of files do
    home = labelled(name)
    content = schedule_csv(find(home))
    sheet = openpyxl.Workbook().active
    for row in rows_of(content):
        sheet.append(row)
    assert not [cell.value for row in sheet.iter_rows() for cell in row if cell.data_type == "f"]
    assert not [cell for row in rows_of(content)[1:] for cell in row if cell.startswith(RISKY)]
    saved = as_bytes(*(tuple(str(cell.value or "") for cell in row) for row in sheet.iter_rows()))
    assert take_schedule(change(home, breakers=labelled("other").breakers), saved).home == home


@given(st.text(max_size=40))
def test_any_text_is_guarded_and_comes_back(words) -> None:
    assert bare(guarded(words)) == words
    assert not guarded(words).lstrip(" ").startswith(RISKY)


@settings(max_examples=25, deadline=None)
@given(homes())
def test_what_goes_out_and_comes_back_changes_nothing(home) -> None:
    found = find(home)
    assert take_devices(home, devices_csv(found)).home == home
    assert take_schedule(home, schedule_csv(found)).home == home


# --- in -------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
def test_a_schedule_is_taken_as_one_edit_with_new_breakers_whatever_parts_its_cells(delimiter) -> None:
    home = SAMPLES["cottage.json"]()
    table = as_bytes(
        ("Breaker", "Amps", "Old label", "Your line"),
        ("1a", "20 A", "", "Front rooms: receptacles, left wall"),
        ("11", "15", "new, one", ""),
        ("", "", "", ""),
        delimiter=delimiter,
    )
    edited = take_schedule(home, table)
    assert edited.says == "Take 2 rows of the schedule"
    by_mark = {
        number: edited.home.breakers[one]
        for one, number in find(edited.home).marks.items()
        if one in edited.home.breakers
    }
    assert (by_mark["1A"].amps, by_mark["1A"].as_found) == (20, "plugs")
    assert by_mark["1A"].wording == "Front rooms: receptacles, left wall"
    assert (by_mark["11"].amps, by_mark["11"].as_found) == (15, "new, one")


@pytest.mark.parametrize(
    ("row", "says"),
    [
        (("99", "20", ""), "no space 99"),
        (("Z3", "20", ""), "no panel with the letter Z"),
        (("1A", "twenty", ""), "no whole number"),
        (("1A", "0", ""), "no whole number"),
        (("1A", "²", ""), "no whole number"),
        (("1A", "20", "x" * 121), "121 letters"),
        (("1A", "20", "a\x07b"), ""),
        (("one", "20", ""), "no number on a panel"),
        (("11·12", "20", ""), ""),
        (("2", "20", ""), "taken"),
        (("3", "20", ""), "row 2 already"),
    ],
)
def test_a_row_that_cant_be_taken_is_named_with_its_reason_and_nothing_is_taken(row, says) -> None:
    home = SAMPLES["cottage.json"]()
    table = as_bytes(("Breaker", "Amps", "Old label"), ("3", "25", "changed"), row)
    with pytest.raises(RowsRefused) as refused:
        take_schedule(home, table)
    assert [one.row for one in refused.value.rows] == [3]
    assert says in refused.value.rows[0].why
    assert str(refused.value).startswith("Nothing was taken: 1 row can't be.\nRow 3: ")


def test_all_rows_that_cant_be_taken_are_told_at_once() -> None:
    table = as_bytes(("Breaker", "Amps"), *((str(300 + at), "20") for at in range(30)))
    with pytest.raises(RowsRefused) as refused:
        take_schedule(SAMPLES["cottage.json"](), table)
    assert len(refused.value.rows) == 30
    assert str(refused.value).endswith("and 10 more")


def test_devices_are_named_and_tied_and_nothing_is_proved_by_a_table() -> None:
    home = SAMPLES["cottage.json"]()
    found = find(home)
    rows = rows_of(devices_csv(found))
    at = next(place for place, row in enumerate(rows) if row[8] == "tested" and row[5] == "5")
    rows[at][4], rows[at][5] = "by the window", "7"
    edited = take_devices(home, as_bytes(*(tuple(row) for row in rows))).home
    after = rows_of(devices_csv(find(edited)))
    assert (after[at][4], after[at][5]) == ("by the window", "7")
    assert after[at][8] != "tested"
    assert [
        row for place, row in enumerate(after) if place != at and row[:6] != rows[place][:6] and row[0] != rows[at][0]
    ] == []
    unknown = take_devices(home, as_bytes(("Box", "Gang", "Part", "Breaker"), (*rows[at][:3], "not known"))).home
    feeds = [feed for box in unknown.boxes if box.mark == rows[at][0] for feed in box.feeds()]
    assert any(isinstance(feed.on, NotKnown) for feed in feeds)


@pytest.mark.parametrize(
    ("row", "says"),
    [
        (("B9999", "1", "", "", ""), "no box “B9999”"),
        (("B1", "29", "", "", ""), "no Gang “29”"),
        (("B1", "1", "", "flux capacitor", ""), "not in the catalogue"),
        (("B1", "1", "", "", "99"), "no breaker “99”"),
    ],
)
def test_a_device_that_cant_be_taken_is_named_too(row, says) -> None:
    home = SAMPLES["cottage.json"]()
    with pytest.raises(RowsRefused) as refused:
        take_devices(home, as_bytes(("Box", "Gang", "Part", "Kind", "Breaker"), row))
    assert says in str(refused.value)


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"", "no heading Breaker"),
        (b"a,b\n1,2\n", "no heading Breaker"),
        (b"Breaker,Amps,Amps\n1,2,3\n", "Two columns"),
        (b"Breaker,Amps\n1,20,KIT,x\n", "Row 2 has more cells"),
        (b"\xff\xfe\x00", "Byte"),
        (b"Breaker\n\xe9\n", "no UTF-8"),
        (b"Breaker\n\x00\n", "bytes that no text has"),
        (b'Breaker\n"1\n', "no CSV"),
        (b'Breaker\n"1"x\n', "no CSV"),
        (b"PK\x03\x04\x00", "bytes that no text has"),
        (b"Breaker\n" + b"x" * 4_000_001, "larger than 4 MB"),
        (b"Breaker\n" + b"1\n" * 20_001, "more than 20000 rows"),
    ],
)
def test_what_is_no_such_table_is_refused_in_words(content, says) -> None:
    with pytest.raises(CannotTake, match=says):
        take_schedule(SAMPLES["cottage.json"](), content)


@settings(max_examples=60, deadline=None)
@given(st.binary(max_size=300))
def test_any_bytes_are_a_table_or_refused(content) -> None:
    with suppress(Refused, CannotTake):  # anything else is a fault of ours
        assert take_schedule(Home(), b"Breaker,Amps\n" + content).home == Home()


def test_utf16_as_some_spreadsheets_save_it_is_read() -> None:
    text = as_csv(("Breaker", "Amps"), [("1", "20")]).decode("utf-8-sig")
    assert [row.cells for row in read_csv(text.encode("utf-16"), ("Breaker",))] == [{"Breaker": "1", "Amps": "20"}]


# --- the command, and the templates ---------------------------------------------------------------------------------


def test_the_templates_in_shared_are_those_the_program_gives() -> None:
    shared = folder("resources").parent / "shared"
    assert (shared / "schedule.csv").read_bytes() == schedule.template()
    assert (shared / "devices.csv").read_bytes() == device_list.template()


def test_the_command_writes_takes_and_refuses_without_touching_the_home(tmp_path, capsys) -> None:
    home, table = tmp_path / "h.json", tmp_path / "s.csv"
    home.write_text(text_of(SAMPLES["cottage.json"]()), encoding="utf-8")
    assert cli.main(["csv", str(home), "--schedule", str(table), "--devices", str(tmp_path / "d.csv")]) == 0
    assert cli.main(["csv", str(home), "--take-devices", str(tmp_path / "d.csv")]) == 0
    table.write_bytes(as_bytes(("Breaker", "Old label"), ("3", "bath lights")))
    assert cli.main(["csv", str(home), "--take-schedule", str(table)]) == 0
    assert "bath lights" in {one.as_found for one in open_home(home).home.breakers}
    before = home.read_bytes()
    table.write_bytes(as_bytes(("Breaker", "Old label"), ("3", "other"), ("77", "x")))
    assert cli.main(["csv", str(home), "--take-schedule", str(table)]) == 2
    error = capsys.readouterr().err
    assert f"{table}: Nothing was taken" in error
    assert "Row 3: " in error
    assert home.read_bytes() == before
    assert cli.main(["csv", str(home), "--take-schedule", str(tmp_path / "none.csv")]) == 2
    with pytest.raises(SystemExit):
        cli.main(["csv", str(home)])


def test_a_board_of_three_phases_goes_out_by_its_ways_and_comes_back_into_an_empty_one() -> None:
    ways = "ways of three, odd left, even right"
    empty = add_panel(Home(), 12, numbering=ways, system="three-phase 400Y/230").home
    rows = [("1L1", "32", "ring"), ("2L1-L2-L3", "40", "shed"), ("3L2", "6", "lights")]
    table = as_csv(("Breaker", "Amps", "Old label"), rows)
    home = take_schedule(empty, table).home
    found = find(home)
    assert [found.marks[one.id] for one in home.breakers] == ["1L1", "2L1·L2·L3", "3L2"]
    assert take_schedule(home, schedule_csv(found)).home == home
    assert take_schedule(empty, schedule_csv(found)).home.breakers == home.breakers
    with pytest.raises(RowsRefused, match="no space 9L1"):
        take_schedule(empty, as_csv(("Breaker",), [("9L1",)]))
