"""The panel's face: every number once in its place, what is known of each breaker, nothing over anything."""

from itertools import combinations, pairwise

import pytest

from floorplan_circuits.drawing.ink import Group, Shape, Text, flat
from floorplan_circuits.drawing.palette import PAPER, tint
from floorplan_circuits.drawing.panel_body import THUMB, body, tie_bar
from floorplan_circuits.drawing.panel_cells import BLANK_ROW, TANDEM_ROW, cells, edges, face_height, fitting_row
from floorplan_circuits.drawing.panel_face import RING, Face, FaceStyle, face_rows, panel_face
from floorplan_circuits.find import find, what_if
from floorplan_circuits.findings import Findings, Subject
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Breaker, Panel, Pole, Tie
from floorplan_circuits.home.record import change
from floorplan_circuits.home.table import Table
from tests.drawing.drawn import SAMPLE_HOMES, bounds_of, box, breaker, device, fed, home, overlap, sample, words_in

STYLE = FaceStyle(90.0, 10.9, PAPER)
SCREEN = FaceStyle(90.0, 7.6, PAPER, on_screen=True)
TANDEMS = (breaker(6, 1, half="A"), breaker(7, 1, half="B"), breaker(8, 2, 4, amps=30), breaker(9, 3))


def panel_of(findings: Findings) -> Panel:
    return next(iter(findings.home.panels))


def face_of(one: Home, style: FaceStyle = STYLE) -> Face:
    findings = find(one)
    return panel_face(findings, panel_of(findings), style)


def words(face: Face) -> list[str]:
    return words_in(face.ink)


def number_texts(face: Face, style: FaceStyle = STYLE, columns: int = 2) -> list[Text]:
    """The texts that stand in the number columns."""
    texts = [mark for mark in flat(face.ink) if isinstance(mark, Text) and mark.anchor == "middle"]
    return [text for text in texts if text.at[0] < 9 or (columns == 2 and text.at[0] > style.width - 9)]


# --- numbers --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("style", [STYLE, SCREEN], ids=["paper", "screen"])
@pytest.mark.parametrize("name", SAMPLE_HOMES)
def test_every_space_is_numbered_once(name: str, style: FaceStyle) -> None:
    findings = sample(name)
    panel = panel_of(findings)
    face = panel_face(findings, panel, style)
    shown = [text.words for text in number_texts(face, style, findings.panels[panel.id].columns)]
    bare = sorted({int(one.rstrip("AB")) for one in shown})
    assert len(set(shown)) == len(shown)
    assert bare == list(range(1, panel.spaces + 1))


def test_halves_are_a_above_b_and_never_one_number() -> None:
    face = face_of(home(breakers=TANDEMS))
    heights = {text.words: text.at[1] for text in number_texts(face)}
    assert "1" not in heights
    assert heights["1A"] < heights["1B"] < heights["3"]
    sizes = {text.words: text.size for text in number_texts(face)}
    assert sizes["1A"] < sizes["3"]


def test_a_breaker_of_two_spaces_has_one_body_one_swatch_and_both_numbers() -> None:
    one = home((box(20, (0, 0), device(21, fed(22, 8)), device(23, fed(24, 8))),), TANDEMS)
    face = face_of(one)
    assert {"2", "4"} <= set(words(face))
    assert words(face).count("30") == 1
    ((top, bottom),) = [(bounds[1], bounds[3]) for bounds, subject in face.spots if subject == Subject("breaker", 8)]
    rows = edges(find(one).panels[5], STYLE)
    assert (top, bottom) == (rows[0], rows[4])


def test_a_prefix_stands_before_every_number() -> None:
    one = home(breakers=(breaker(6, 1),))
    garage = panel_of(find(one)).model_copy(update={"prefix": "G"})
    face = face_of(one.model_copy(update={"panels": Table([garage])}))
    assert all(text.words.startswith("G") for text in number_texts(face))


def test_a_single_row_has_its_body_at_the_right() -> None:
    one = home(breakers=(breaker(6, 1),))
    single = panel_of(find(one)).model_copy(update={"numbering": "single row"})
    findings = find(one.model_copy(update={"panels": Table([single])}))
    face = panel_face(findings, single, STYLE)
    assert face_rows(findings, single) == 12
    ((bounds, _),) = face.spots
    assert (bounds[0], bounds[2]) == pytest.approx((0, 90))


# --- breakers -------------------------------------------------------------------------------------------------------


def shapes(one: Breaker, right: bool = False) -> list[Shape]:
    return [mark for mark in body(one, (0, 0, 6, 10), right, PAPER) if isinstance(mark, Shape)]


@pytest.mark.parametrize("right", [False, True])
def test_a_handle_lies_inward_and_full_when_on_outward_and_hollow_when_off(right: bool) -> None:
    on, off = breaker(6, 1), breaker(6, 1, found={"state": "off"})
    full, hollow = shapes(on, right)[-1], shapes(off, right)[-1]
    assert (full.fill, hollow.fill) == (PAPER.ink, PAPER.paper)
    inward, outward = bounds_of(full)[0], bounds_of(hollow)[0]
    assert (inward < outward) == right
    assert bounds_of(full)[2] - inward == pytest.approx(THUMB)


def test_off_takes_the_place_of_the_rating() -> None:
    off = breaker(6, 1, found={"state": "off", "why": "pump taken out"})
    assert words_in(Group(tuple(body(off, (0, 0, 6, 10), False, PAPER)))) == ["off"]
    face = face_of(home(breakers=(off,)))
    assert any("found off" in line or "pump" in line for line in words(face))
    assert "15" not in words(face)


def test_a_fuse_is_round() -> None:
    assert len(shapes(breaker(6, 1, device="fuse"))) == len(shapes(breaker(6, 1))) + 1


def test_tied_breakers_get_a_bar_over_both_thumbs() -> None:
    tie = {"group": 90, "made": "by the factory"}
    loose = face_of(home(breakers=(breaker(6, 1), breaker(7, 3))))
    tied = face_of(home(breakers=(breaker(6, 1, tie=tie), breaker(7, 3, tie=tie))))
    bar = [mark for mark in tie_bar(0, 0, 10, PAPER) if isinstance(mark, Shape)]
    assert len(list(flat(tied.ink))) == len(list(flat(loose.ink))) + len(bar)
    added = [mark for mark in flat(tied.ink) if mark not in list(flat(loose.ink))]
    _, top, _, bottom = bounds_of(added[0])
    assert top < 10.9 < bottom


def test_one_breaker_of_a_tie_has_no_bar() -> None:
    tied = face_of(home(breakers=(breaker(6, 1, tie={"group": 90}),)))
    assert len(list(flat(tied.ink))) == len(list(flat(face_of(home(breakers=(breaker(6, 1),))).ink)))


def test_what_is_blank_says_so() -> None:
    assert words(face_of(home())).count("blank") == 12


def test_a_click_on_a_row_names_its_breaker_and_rows_never_overlap() -> None:
    for name in SAMPLE_HOMES:
        findings = sample(name)
        spots = panel_face(findings, panel_of(findings), STYLE).spots
        assert {subject.id for _, subject in spots} == set(findings.home.breakers.ids())
        assert not any(overlap(a, b) for (a, _), (b, _) in combinations(spots, 2))


# --- as the door shows it ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("protects", "letters"),
    [(("ground fault",), "GF"), (("arc fault",), "AF"), (("arc fault", "ground fault"), "G+A"), (("surge",), "SP")],
)
@pytest.mark.parametrize("high", [3.4, 7.0, 10.0])
def test_what_trips_a_breaker_besides_is_told_below_its_rating_where_it_can_be_read(protects, letters, high) -> None:
    drawn = body(breaker(6, 1, amps=20, protects=protects), (0, 0, 5.95, high), False, PAPER)
    assert words_in(Group(tuple(drawn))) == (["20", letters] if high > 5 else ["20"])
    for text in (mark for mark in drawn if isinstance(mark, Text)):
        left, top, right, bottom = bounds_of(text)
        assert left >= 0
        assert right <= 5.95 - 0.35 - THUMB
        assert top >= 0
        assert bottom <= high


def test_a_fuse_that_is_out_says_out() -> None:
    out = breaker(6, 1, device="fuse", found={"state": "off"})
    assert words_in(Group(tuple(body(out, (0, 0, 6, 10), False, PAPER)))) == ["out"]
    assert "found taken out" in " ".join(words(face_of(home(breakers=(out,))))).lower()


@pytest.mark.parametrize(("made", "dashed"), [("by the factory", False), ("makeshift", True), ("not sure", True)])
def test_a_tie_that_counts_for_nothing_is_dashed(made: str, dashed: bool) -> None:
    tie = {"group": 90, "made": made}
    tied = face_of(home(breakers=(breaker(6, 1, tie=tie), breaker(7, 3, tie=tie))))
    bars = [mark for mark in flat(tied.ink) if isinstance(mark, Shape) and mark.pen and mark.pen.width == 0.25]
    assert any(mark.pen and mark.pen.dash for mark in bars) == dashed


@pytest.mark.parametrize("spaces", [(1, 3), (2, 4)])
def test_the_outer_poles_of_a_quad_are_joined_round_the_inner_ones(spaces: tuple[int, int]) -> None:
    upper, lower = spaces
    outer = breaker(6, upper).model_copy(update={"poles": (Pole(space=upper, half="A"), Pole(space=lower, half="B"))})
    inner = breaker(7, upper).model_copy(update={"poles": (Pole(space=upper, half="B"), Pole(space=lower, half="A"))})
    face = face_of(home(breakers=(outer, inner)))
    joined = [mark for mark in flat(face.ink) if isinstance(mark, Shape) and mark.pen and mark.pen.width == 0.35]
    bounds = [bounds_of(mark) for mark in joined if bounds_of(mark)[2] - bounds_of(mark)[0] < 2]
    assert len(bounds) == 1
    of_outer = [area for area, subject in face.spots if subject.id == 6]
    assert len(of_outer) == 2
    assert bounds[0][1] < of_outer[0][3] < of_outer[1][1] < bounds[0][3]


def test_on_screen_the_old_label_stands_beside_the_new_words_verbatim() -> None:
    one = home(breakers=(breaker(6, 1, as_found="bdrm lts", wording="Bedroom"),))
    assert "“bdrm lts”" in " ".join(words(face_of(one, FaceStyle(90.0, 12.0, PAPER, on_screen=True))))
    assert "bdrm" not in " ".join(words(face_of(one)))


# --- rows -----------------------------------------------------------------------------------------------------------


def test_on_paper_blank_rows_are_low_and_rows_of_halves_high() -> None:
    findings = find(home(breakers=(*TANDEMS,)))
    rows = edges(findings.panels[5], FaceStyle(90.0, 8.0, PAPER))
    heights = [rows[at + 2] - rows[at] for at in range(0, len(rows) - 1, 2)]
    assert heights == pytest.approx([TANDEM_ROW, 8.0, *[BLANK_ROW] * 4])


def test_on_screen_all_rows_are_equally_high() -> None:
    findings = find(home(breakers=TANDEMS))
    assert face_height(findings, panel_of(findings), SCREEN) == pytest.approx(6 * 7.6)
    assert panel_face(findings, panel_of(findings), SCREEN).height == pytest.approx(6 * 7.6)


@pytest.mark.parametrize("room", [40.0, 55.0, 70.0, 200.0])
def test_a_fitting_row_fills_the_room_but_never_more(room: float) -> None:
    findings = find(home(breakers=TANDEMS))
    row = fitting_row(findings, panel_of(findings), STYLE, room, 14.0)
    high = face_height(findings, panel_of(findings), FaceStyle(90.0, row, PAPER))
    assert high <= room + 1e-6
    assert row == 14.0 or high == pytest.approx(room, abs=0.01)


def test_the_cells_cover_each_column_without_gap_or_overlap() -> None:
    for name in SAMPLE_HOMES:
        findings = sample(name)
        panel = panel_of(findings)
        grid = findings.panels[panel.id]
        for column in range(grid.columns):
            spans = sorted((cell.top, cell.bottom) for cell in cells(findings, panel, grid) if cell.column == column)
            assert spans[0][0] == 0
            assert all(one[1] == two[0] for one, two in pairwise(spans))


@pytest.mark.parametrize("row", [7.6, 8.8, 10.9, 14.0])
@pytest.mark.parametrize("name", SAMPLE_HOMES)
def test_words_and_squares_stay_inside_their_rows_and_off_each_other(name: str, row: float) -> None:
    findings = sample(name)
    face = panel_face(findings, panel_of(findings), FaceStyle(90.0, row, PAPER))
    texts = [mark for mark in flat(face.ink) if isinstance(mark, Text) and mark.words]
    assert not [(a.words, b.words) for a, b in combinations(texts, 2) if overlap(bounds_of(a), bounds_of(b))]
    left, top, right, bottom = bounds_of(face.ink)
    assert (left, top) == pytest.approx((0, 0), abs=0.01)
    assert (right, bottom) == pytest.approx((90, face.height), abs=0.01)


@pytest.mark.parametrize("name", SAMPLE_HOMES)
def test_at_the_usual_row_nothing_of_the_samples_is_cut(name: str) -> None:
    findings = sample(name)
    assert panel_face(findings, panel_of(findings), STYLE).shortened == []


def test_a_higher_row_never_says_less() -> None:
    findings = sample("cottage")
    said = [
        len("".join(words(panel_face(findings, panel_of(findings), FaceStyle(90.0, row, PAPER))))) for row in (8.8, 14)
    ]
    assert said[0] <= said[1]


# --- with handles off -------------------------------------------------------------------------------------------------


def face_with_off(one: Home, *off: int) -> Face:
    findings = find(one)
    return panel_face(findings, panel_of(findings), STYLE, what_if(findings, off))


def test_a_flipped_handle_says_off_in_place_of_its_rating() -> None:
    one = home(breakers=(breaker(6, 1), breaker(7, 3)))
    assert words(face_of(one)).count("15") == 2
    flipped = words(face_with_off(one, 6))
    assert (flipped.count("off"), flipped.count("15")) == (1, 1)


def test_its_thumb_lies_outward_and_hollow() -> None:
    bounds = (50.0, 10.0, 6.0, 8.0)
    on, off = (
        [mark for mark in body(breaker(6, 1), bounds, False, PAPER, flipped) if isinstance(mark, Shape)][1]
        for flipped in (False, True)
    )
    assert on.fill == PAPER.ink
    assert off.fill == PAPER.paper
    assert bounds_of(off)[0] < bounds_of(on)[0]  # it stands in the left column: outward is left
    assert bounds_of(off)[2] - bounds_of(off)[0] == pytest.approx(THUMB)


def test_numbers_lie_on_bare_paper_where_nothing_gives_power() -> None:
    findings = sample("cottage")
    panel, colours = panel_of(findings), findings.colours
    handle = next(one for one in findings.home.breakers.ids() if one in colours)

    def tinted(*off: int) -> int:
        face = panel_face(findings, panel, STYLE, what_if(findings, off) if off else None)
        return sum(isinstance(mark, Shape) and mark.fill == tint(PAPER, colours[handle]) for mark in flat(face.ink))

    assert tinted() > tinted(handle)
    (main,) = panel.mains
    assert tinted(main.id) == 0


def test_a_tie_follows_its_handles() -> None:
    tied = tuple(change(breaker(6 + n, 1 + 2 * n), tie=Tie(group=1, made="by the factory")) for n in (0, 1))
    both = [face_of(home(breakers=tied)), face_with_off(home(breakers=tied), 6)]
    bars = [next(m for m in flat(f.ink) if isinstance(m, Shape) and m.pen and m.pen.width == 0.25) for f in both]
    assert bounds_of(bars[1])[0] < bounds_of(bars[0])[0]
    assert words(both[1]).count("off") == 2


# --- what is to be turned off ---------------------------------------------------------------------------------------


def to_turn_off(one: Home, *breakers: int) -> Face:
    return face_of(one, FaceStyle(90.0, 10.9, PAPER, to_turn_off=frozenset(breakers)))


def rings(face: Face) -> list[Shape]:
    return [mark for mark in flat(face.ink) if isinstance(mark, Shape) and mark.pen and mark.pen.width == RING]


def test_what_is_to_be_turned_off_is_ringed_and_reads_off_for_its_rating() -> None:
    one = home(breakers=(breaker(6, 1, amps=20), breaker(7, 2, amps=40)))
    face = to_turn_off(one, 6)
    assert words(face).count("off") == 1
    assert "20" not in words(face)
    assert "40" in words(face)
    (ring,) = rings(face)
    left, _, right, _ = bounds_of(ring)
    assert left < 9 < right < 46  # round its number and its body, and nothing of the column beside


def test_a_ring_goes_round_all_spaces_of_a_breaker() -> None:
    face = to_turn_off(home(breakers=(breaker(6, 2, 4),)), 6)
    (ring,) = rings(face)
    _, top, _, bottom = bounds_of(ring)
    assert bottom - top == pytest.approx(2 * 10.9)


def test_the_bar_of_a_tie_moves_outward_with_the_thumbs_and_leaves_off_to_be_read() -> None:
    tied = tuple(
        breaker(number, space, tie={"group": 1, "made": "by the factory"}) for number, space in ((6, 1), (7, 3))
    )
    offs = [
        bounds_of(mark)
        for mark in flat(to_turn_off(home(breakers=tied), 6, 7).ink)
        if isinstance(mark, Text) and mark.words == "off"
    ]
    bars = [
        bounds_of(mark)
        for mark in flat(to_turn_off(home(breakers=tied), 6, 7).ink)
        if isinstance(mark, Shape) and 1.6 < bounds_of(mark)[2] - bounds_of(mark)[0] < 1.8
    ]
    assert len(offs) == 2
    assert len(bars) == 1
    assert not any(overlap(off, bar) for off in offs for bar in bars)


def test_nothing_is_ringed_unless_it_is_asked_for() -> None:
    assert rings(face_of(home(breakers=(breaker(6, 1),)))) == []


# --- a board of rows ------------------------------------------------------------------------------------------------


def board_of_rows(*rows: int) -> Home:
    taken = tuple(breaker(100 + space, space, label="ring") for space in range(1, sum(rows) + 1, 2))
    one = home(breakers=taken)
    board = change(next(iter(one.panels)), numbering="row by row", rows=rows, spaces=sum(rows))
    return change(one, panels=one.panels.put(board))


@pytest.mark.parametrize("style", [STYLE, SCREEN], ids=["paper", "screen"])
def test_each_row_of_a_board_has_a_head_that_lies_over_no_space(style: FaceStyle) -> None:
    face = face_of(board_of_rows(5, 4, 1), style)
    texts = [mark for mark in flat(face.ink) if isinstance(mark, Text) and mark.words]
    heads = [text for text in texts if text.words.startswith("Row ")]
    assert [text.words for text in heads] == [
        f"Row {row}, {half} half" for row in (1, 2, 3) for half in ("left", "right")
    ]
    assert {text.words for text in number_texts(face, style)} == {str(space) for space in range(1, 11)}
    assert not any(overlap(bounds_of(one), bounds_of(other)) for one, other in combinations(texts, 2))
    at = {text.words: text.at[1] for text in texts}
    assert at["5"] < at["Row 2, left half"] < at["6"] < at["9"] < at["Row 3, left half"] < at["10"]
