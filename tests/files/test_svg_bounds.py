"""Drawings from elsewhere: what is whole and bounded passes, what reads, runs or multiplies is refused in words."""

import pytest

from floorplan_circuits.files import svg_bounds
from floorplan_circuits.files.svg_bounds import BadSvg, check_svg

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" viewBox="0 0 40 30">'


def svg(body: str) -> bytes:
    return f"{HEAD}{body}</svg>".encode()


def laughs(levels: int, each: int = 10) -> str:
    """A drawing whose parts use each other: `each` to the power of `levels` in the end."""
    parts = ['<g id="l0"><rect width="1" height="1"/></g>']
    for level in range(1, levels):
        used = f'<use xlink:href="#l{level - 1}"/>' * each
        parts.append(f'<g id="l{level}">{used}</g>')
    return f'<defs>{"".join(parts)}</defs><use xlink:href="#l{levels - 1}"/>'


@pytest.mark.parametrize(
    "body",
    [
        '<rect width="4" height="3"/>',
        '<a xlink:href="https://example.org/"><rect width="4" height="3"/></a>',  # a link to click draws nothing
        '<defs><linearGradient id="g"/></defs><rect fill="url(#g)" width="4" height="3"/>',
        '<image xlink:href="data:image/png;base64,iVBORw0KGgo=" width="4" height="3"/>',
        "<style>rect { fill: url('#g') }</style>",
        laughs(3),
    ],
)
def test_a_drawing_that_is_whole_in_itself_passes(body: str) -> None:
    check_svg(svg(body))


def test_the_doctype_that_drawing_programs_write_passes() -> None:
    check_svg(b'<?xml version="1.0"?><!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "svg11.dtd">' + svg("<g/>"))


@pytest.mark.parametrize(
    "body",
    [
        '<image xlink:href="https://example.org/a.png"/>',
        '<image href="../secret.png"/>',
        '<image href="file:///etc/hostname"/>',
        '<image href="data:image/svg+xml;base64,PHN2Zy8+"/>',  # a drawing in the drawing would pass unread
        '<use href="other.svg#part"/>',
        '<rect fill="url(https://example.org/#g)"/>',
        "<rect style=\"fill: URL( 'other.svg#g' )\"/>",
        "<style>@import 'https://example.org/a.css';</style>",
    ],
)
def test_a_drawing_that_needs_other_files_is_refused(body: str) -> None:
    with pytest.raises(BadSvg, match="other files"):
        check_svg(svg(body))


def test_a_drawing_with_a_program_in_it_is_refused() -> None:
    with pytest.raises(BadSvg, match="program"):
        check_svg(svg("<script>while (true) {}</script>"))


def test_entities_that_multiply_are_refused_before_they_do() -> None:
    bomb = '<!DOCTYPE svg [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;">]>' + HEAD + "&b;</svg>"
    with pytest.raises(BadSvg, match="entities"):
        check_svg(bomb.encode())


def test_an_entity_that_reads_a_file_is_refused() -> None:
    with pytest.raises(BadSvg, match="entities"):
        check_svg(f'<!DOCTYPE svg [<!ENTITY x SYSTEM "file:///etc/hostname">]>{HEAD}&x;</svg>'.encode())


def test_parts_used_again_and_again_are_counted_and_not_drawn() -> None:
    with pytest.raises(BadSvg, match="too long"):
        check_svg(svg(laughs(12)))


def test_a_part_that_uses_itself_is_refused() -> None:
    with pytest.raises(BadSvg, match="uses itself"):
        check_svg(svg('<g id="a"><use xlink:href="#b"/></g><g id="b"><use xlink:href="#a"/></g>'))


def test_a_chain_of_uses_deeper_than_the_program_can_follow_is_refused_in_words() -> None:
    links = "".join(f'<g id="n{one}"><use xlink:href="#n{one + 1}"/></g>' for one in range(5000))
    with pytest.raises(BadSvg):
        check_svg(svg(links))


def test_parts_too_deep_inside_each_other_are_refused() -> None:
    with pytest.raises(BadSvg, match="deep"):
        check_svg(svg("<g>" * 200 + "</g>" * 200))


def test_too_many_parts_are_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(svg_bounds, "MOST_ELEMENTS", 20)
    with pytest.raises(BadSvg, match="parts"):
        check_svg(svg("<g/>" * 30))


def test_too_large_a_file_is_refused_unread() -> None:
    with pytest.raises(BadSvg, match="MB"):
        check_svg(b" " * (svg_bounds.LARGEST_SVG + 1))


@pytest.mark.parametrize("content", [b"", b"<svg", b"not at all", b"\x89PNG\r\n\x1a\n", HEAD.encode()])
def test_what_is_cut_short_or_no_xml_is_told_to_be_damaged(content: bytes) -> None:
    with pytest.raises(BadSvg, match="damaged"):
        check_svg(content)


def test_other_xml_is_no_drawing() -> None:
    with pytest.raises(BadSvg, match="no SVG"):
        check_svg(b"<html><body/></html>")
