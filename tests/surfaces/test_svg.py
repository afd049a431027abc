"""The SVG surface: well-formed, text as text, one document a page, equal bytes for equal ink."""

import re
from base64 import b64decode
from io import BytesIO
from xml.etree import ElementTree

import pytest
from fontTools.ttLib import TTFont

from floorplan_circuits.drawing.ink import Group, Hatch, Pen, PictureMark, Shape, Stamp, Text, flat, polyline, rectangle
from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.drawing.sheet import Page
from floorplan_circuits.findings import Subject
from floorplan_circuits.sheets.paper import PAPERS
from floorplan_circuits.sheets.plan_sheet import plan_sheet
from floorplan_circuits.surfaces.svg import svg_of
from tests.drawing.drawn import MADE, sample

SVG = "{http://www.w3.org/2000/svg}"
LINK = "{http://www.w3.org/1999/xlink}href"
SQUARE = rectangle(10, 10, 5, 5)


def drawn(*marks: object) -> ElementTree.Element:
    ink = Group(marks)  # type: ignore[arg-type]
    return ElementTree.fromstring(svg_of(Page(100.0, 50.0, ink, "Hall"), "Home: Hall"))


@pytest.mark.parametrize("name", ["cottage", "flat", "house"])
def test_every_word_of_a_plan_is_text_in_the_document(name: str) -> None:
    for page in plan_sheet(sample(name), PAPERS["letter"], MADE, PAPER).pages:
        root = ElementTree.fromstring(svg_of(page, "plan"))
        read = [element.text for element in root.iter(f"{SVG}text")]
        asked = [mark.words for mark in flat(page.ink) if isinstance(mark, Text) and mark.words]
        assert "".join(filter(None, read)) == "".join(asked)
        assert root.get("viewBox") == f"0 0 {page.width:g} {page.height:g}"
        symbols = {element.get("id") for element in root.iter(f"{SVG}g")}
        used = [element.get(LINK, "")[1:] for element in root.iter(f"{SVG}use")]
        assert used
        assert set(used) <= symbols


def test_typefaces_that_are_used_come_with_the_document_and_no_others() -> None:
    root = drawn(Text((1, 10), "words", 9.0))
    style = root.findtext(f"{SVG}style") or ""
    (data,) = re.findall(r"base64,([^)]+)\)", style)
    assert "wght" not in TTFont(BytesIO(b64decode(data)))
    assert style.count("@font-face") == 1


def test_words_that_mean_something_to_xml_stay_words() -> None:
    root = drawn(Text((1, 10), '<a> & "b"', 9.0))
    assert "".join(element.text or "" for element in root.iter(f"{SVG}text")) == '<a> & "b"'


def test_a_word_stands_where_its_anchor_says() -> None:
    starts = [
        float(next(drawn(Text((50, 10), "middle", 9.0, anchor=anchor)).iter(f"{SVG}text")).get("x", ""))  # type: ignore[arg-type]
        for anchor in ("start", "middle", "end")
    ]
    assert starts[0] == 50
    assert starts[0] - starts[1] == pytest.approx(starts[1] - starts[2], abs=0.002)


def test_hatches_are_clipped_to_their_path() -> None:
    root = drawn(Hatch(SQUARE, Pen(0.2, "#000000"), 45.0, 2.0), Hatch(SQUARE, Pen(0.3, "#000000"), 0.0, 2.0, dots=True))
    clips = {element.get("id") for element in root.iter(f"{SVG}clipPath")}
    used = {element.get("clip-path") for element in root.iter(f"{SVG}g") if element.get("clip-path")}
    assert len(clips) == 2
    assert used == {f"url(#{clip})" for clip in clips}


def test_a_symbol_is_defined_once_however_often_it_is_used() -> None:
    root = drawn(Stamp("switch", (5, 5)), Stamp("switch", (15, 5), 90.0), Stamp("switch", (25, 5), radius=2.0))
    assert len(list(root.iter(f"{SVG}use"))) == 3
    assert sum((element.get("id") or "").startswith("symbol") for element in root.iter(f"{SVG}g")) == 2


def test_a_named_group_says_its_name_aloud() -> None:
    root = drawn(Group((Shape(SQUARE, "#ffffff"),), Subject("box", 1), "B14: 5 & 7"))
    (group,) = (element for element in root.iter(f"{SVG}g") if element.get("aria-label"))
    assert group.findtext(f"{SVG}title") == "B14: 5 & 7"


def a_png(wide: int = 4, high: int = 3) -> bytes:
    from PIL import Image

    packed = BytesIO()
    Image.new("RGB", (wide, high), "#446688").save(packed, "PNG")
    return packed.getvalue()


def test_a_picture_is_in_the_document_and_a_missing_one_is_crossed_out() -> None:
    png = a_png()
    page = Page(100.0, 50.0, Group((PictureMark("ab", (0, 0, 10, 10)), PictureMark("cd", (20, 0, 30, 10)))), "Hall")
    root = ElementTree.fromstring(svg_of(page, "t", {"ab": png}))
    (image,) = root.iter(f"{SVG}image")
    assert b64decode(image.get(LINK, "").split(",")[1]) == png
    assert len(list(root.iter(f"{SVG}path"))) == 1


def test_a_picture_is_turned_faded_and_blended() -> None:
    mark = PictureMark("ab", (5, 6, 25, 16), angle=12.5, strength=0.4, blend="darken")
    (image,) = ElementTree.fromstring(svg_of(Page(40.0, 30.0, Group((mark,)), "Hall"), "t", {"ab": a_png()})).iter(
        f"{SVG}image"
    )
    assert image.get("transform") == "rotate(12.5 5 6)"
    assert (image.get("opacity"), image.get("style")) == ("0.4", "mix-blend-mode:multiply")


def test_dashes_caps_and_joins_are_kept() -> None:
    line = polyline((0, 0), (5, 5))
    (path,) = drawn(Shape(line, None, Pen(0.3, "#123456", (1.0, 0.5), "round", "round"))).iter(f"{SVG}path")
    assert (path.get("stroke"), path.get("stroke-width"), path.get("stroke-dasharray")) == ("#123456", "0.3", "1 0.5")
    assert (path.get("stroke-linecap"), path.get("stroke-linejoin")) == ("round", "round")


def test_equal_ink_gives_equal_bytes() -> None:
    page = plan_sheet(sample("cottage"), PAPERS["letter"], MADE).pages[0]
    assert svg_of(page, "plan") == svg_of(page, "plan")
