"""The page for a phone, as text: whole in one file, closed to the network, names in it as data and nothing else."""

import json
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits import cli
from floorplan_circuits.find import find, plan_rounds
from floorplan_circuits.findings import RoundsInWords
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.log import STRONG_METHODS
from floorplan_circuits.home.resources import folder
from floorplan_circuits.rounds.phone import PLACE, TEMPLATE, embedded, phone_page
from floorplan_circuits.rounds.wording import in_words
from tests.drawing.drawn import box, breaker, device, fed, home, room

CLOSED = (
    "default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'; base-uri 'none'; form-action 'none'"
)
BLOCK = re.compile(r'<script type="application/json" id="plan">(.*?)</script>', re.DOTALL)
HOSTILE = (
    "</script><img src=x onerror=\"window.harmed='image'\">",
    "<script>window.harmed='script'</script>",
    "<!--<script>",
    "\"quotes' and \\ &lt;b&gt;",
    "a\u2028b\u2029c",
    "\u202eright to left עברית",
    "{{plan}}",
    "x javascript:alert(1)",
)
"""Names that would do harm where a page took them for anything but text."""


def told(some: Home) -> RoundsInWords:
    findings = find(some)
    return in_words(plan_rounds(findings), findings)


def hostile_home() -> Home:
    """A home in which every name that a person may give is hostile."""
    boxes = tuple(
        box(
            100 + 10 * at,
            (500 + at, 500),
            device(101 + 10 * at, fed(102 + 10 * at), name=name),
            mark=f"{name} {at}",
            reach=name,
        )
        for at, name in enumerate(HOSTILE)
    )
    breakers = (breaker(6, 1), breaker(7, 2), breaker(8, 3, found={"state": "off", "why": HOSTILE[0]}))
    return home(boxes, breakers, (room(90, HOSTILE[0], 0, 0, 4000, 3000),), name=HOSTILE[1])


def test_the_page_closes_itself_to_the_network_and_has_nothing_outside_itself() -> None:
    page = phone_page(told(hostile_home()))
    head = page[: page.index("<style>")]
    assert f'<meta http-equiv="Content-Security-Policy" content="{CLOSED}">' in head
    markup = BLOCK.sub("", page)
    assert re.findall(r"(?:src|href|action|data|poster)\s*=\s*[\"']", markup) == []
    assert re.findall(r"@import|url\(|fetch\(|XMLHttpRequest|WebSocket|EventSource|sendBeacon|import\(", markup) == []
    assert re.findall(r"innerHTML|outerHTML|insertAdjacentHTML|document\.write|eval\(|new Function", markup) == []
    addresses = set(re.findall(r"https?://[^\"']+", markup))
    assert addresses == {"http://www.w3.org/2000/svg"}  # a name, never fetched


def test_the_template_has_one_place_for_the_plan() -> None:
    assert (folder("resources") / TEMPLATE).read_text(encoding="utf-8").count(PLACE) == 1


def test_no_name_ends_the_block_of_data_or_is_lost_in_it() -> None:
    page = phone_page(told(hostile_home()))
    block = BLOCK.findall(page)
    assert len(block) == 1
    assert not {*"<>&\u2028\u2029"} & {*block[0]}
    data = json.loads(block[0])
    assert data["home"] == HOSTILE[1]
    assert [look["mind"][0] for look in data["walk"][0]["looks"]] == list(HOSTILE)
    assert HOSTILE[0] in data["left_alone"][0]


@settings(max_examples=40)
@given(
    st.recursive(
        st.text() | st.integers() | st.none(), lambda inner: st.lists(inner) | st.dictionaries(st.text(), inner)
    )
)
def test_whatever_is_embedded_comes_back_and_holds_no_sign_of_markup(values) -> None:
    text = embedded(values)
    assert not {*"<>&"} & {*text}
    assert text.isascii()
    assert json.loads(text) == values


def test_the_page_offers_every_way_of_testing_that_answers_may_name() -> None:
    data = json.loads(BLOCK.findall(phone_page(told(hostile_home())))[0])
    names = [way["name"] for way in data["ways"]]
    assert names[0] == "not said"
    assert {*STRONG_METHODS} <= {*names}
    assert all(way["label"] and way["cannot"] and way["caution"] for way in data["ways"])


# --- the command ----------------------------------------------------------------------------------------------------

COTTAGE = folder("sample_homes") / "cottage.json"


def test_the_command_writes_sheet_and_page_and_says_how_to_take_the_answers(tmp_path, capsys) -> None:
    sheet, page = tmp_path / "sheet.pdf", tmp_path / "page.html"
    options = ["--cap", "3", "--leave-on", "5", "--box", "B7", "--box", "B36", "--strength", "check"]
    assert cli.main(["rounds", str(COTTAGE), *options, "--worksheet", str(sheet), "--phone", str(page)]) == 0
    said = capsys.readouterr().out
    assert sheet.read_bytes().startswith(b"%PDF-")
    code = json.loads(BLOCK.findall(page.read_text(encoding="utf-8"))[0])["code"]
    assert said.count(f"plan {code}") == 2
    again = "--strength check --cap 3 --leave-on 5 --box B7 --box B36 --answers FILE"
    assert said.endswith(f"rounds {COTTAGE} {again}\n")


def test_paper_and_grey_reach_the_worksheet(tmp_path) -> None:
    from pypdf import PdfReader

    sizes = {}
    for paper in ("letter", "a4"):
        path = tmp_path / f"{paper}.pdf"
        assert cli.main(["rounds", str(COTTAGE), "--worksheet", str(path), "--paper", paper, "--grey"]) == 0
        sizes[paper] = round(float(PdfReader(path).pages[0].mediabox.width) * 25.4 / 72, 1)
        assert b"1 .768627 0 rg" not in PdfReader(path).pages[0].get_contents().get_data()  # caution yellow
    assert sizes == {"letter": 215.9, "a4": 210.0}


def test_what_cannot_be_written_is_told(tmp_path, capsys) -> None:
    assert cli.main(["rounds", str(COTTAGE), "--phone", str(tmp_path / "missing" / "page.html")]) == 2
    assert "can't be written" in capsys.readouterr().err
    before = COTTAGE.read_bytes()
    assert cli.main(["rounds", str(COTTAGE), "--worksheet", str(COTTAGE)]) == 2
    assert "that is the home itself" in capsys.readouterr().err
    assert COTTAGE.read_bytes() == before
    with pytest.raises(SystemExit, match="2"):
        cli.main(["rounds", str(COTTAGE), "--phone", "page.html", "--answers", "answers.txt"])
    assert "without it" in capsys.readouterr().err


def test_where_nothing_is_left_to_look_at_no_file_is_written(tmp_path, capsys) -> None:
    from floorplan_circuits.files.save import save_home

    save_home(tmp_path / "home.json", home(), {})
    assert cli.main(["rounds", str(tmp_path / "home.json"), "--phone", str(tmp_path / "page.html")]) == 2
    assert "nothing to look at in rounds" in capsys.readouterr().err
    assert not (tmp_path / "page.html").exists()
