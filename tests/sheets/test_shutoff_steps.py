"""The steps on paper: numbered without a gap, a box to tick at each, one for every pair, a line to write on."""

from floorplan_circuits.drawing.ink import Shape, Text, flat
from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.find import find
from floorplan_circuits.findings import Step, ToTest
from floorplan_circuits.sheets.sections import Block
from floorplan_circuits.sheets.shutoff_steps import TICK, step_blocks
from tests.drawing.drawn import bounds_of, box, breaker, device, fed, home, words_in

WIDE = 110.0
FINDINGS = find(home((box(20, None, device(21, fed(22, 6))),), (breaker(6, 1), breaker(7, 2))))
FIRST = ("hot to ground", "hot to neutral", "neutral to ground")


def drawn(*steps: Step) -> tuple[Block, ...]:
    return step_blocks(steps, FINDINGS, WIDE, PAPER)


def ticks(blocks: tuple[Block, ...]) -> int:
    shapes = [mark for block in blocks for mark in flat(block.ink) if isinstance(mark, Shape)]
    sizes = [(right - left, bottom - top) for left, top, right, bottom in map(bounds_of, shapes)]
    return sum(abs(wide - TICK) < 0.001 and abs(high - TICK) < 0.001 for wide, high in sizes)


def test_steps_are_numbered_and_those_that_end_the_work_are_not() -> None:
    blocks = drawn(Step("tell", "Tell all."), Step("stop", "Don’t open B20."), Step("off", "Turn off 1."))
    numbers = [word for block in blocks for word in words_in(block.ink) if word.isdigit()]
    assert numbers == ["1", "2"]
    assert ticks(blocks) == 2


def test_when_to_call_is_not_among_the_steps() -> None:
    assert drawn(Step("call", "Stop, and call, for:", ("Aluminium.",))) == ()


def test_every_pair_has_a_box_and_a_pair_that_is_none_has_a_dash() -> None:
    rows = (ToTest(20, 22, "switch, terminal 1", FIRST), ToTest(20, None, "terminal 2", FIRST[:2]))
    blocks = drawn(Step("test", "Test.", (), (), rows))
    words = [word for block in blocks for word in words_in(block.ink)]
    assert ticks(blocks) == 1 + 5
    assert words.count("–") == 1
    assert {"B20", "switch, terminal 1", "terminal 2", "1"} <= set(words)


def test_the_head_of_a_box_is_not_parted_from_its_first_row() -> None:
    rows = tuple(ToTest(20, feed, f"row {nth}", FIRST) for nth, feed in enumerate((22, None, 22)))
    _, first, *rest = drawn(Step("test", "Test.", (), (), rows))
    assert {"B20", "row 0"} <= set(words_in(first.ink))
    assert len(rest) == 2


def test_where_the_table_of_a_box_goes_on_its_name_and_column_heads_stand_again() -> None:
    rows = tuple(ToTest(20, feed, f"row {nth}", FIRST) for nth, feed in enumerate((22, None)))
    *_, last = drawn(Step("test", "Test.", (), (), rows))
    assert last.again is not None
    assert {"B20, continued", "neutral", "to ground"} <= set(words_in(last.again.ink))


def test_the_terminals_of_one_feed_are_not_parted() -> None:
    rows = tuple(ToTest(20, 22, f"switch, terminal {nth}", FIRST) for nth in range(3))
    _, only = drawn(Step("test", "Test.", (), (), rows))
    assert {f"switch, terminal {nth}" for nth in range(3)} <= set(words_in(only.ink))


def test_hot_to_hot_has_a_column_only_where_there_is_one() -> None:
    two = (ToTest(20, 22, "dryer", (*FIRST, "hot to hot")),)
    _, head = drawn(Step("test", "Test.", (), (), two))
    assert "hot" in words_in(head.ink)
    assert ticks((head,)) == 4
    _, without = drawn(Step("test", "Test.", (), (), (ToTest(20, 22, "lamp", FIRST),)))
    assert "hot" not in words_in(without.ink)


def test_each_handle_that_is_turned_on_again_has_a_box_of_its_own() -> None:
    blocks = drawn(Step("on", "Turn on one at a time.", (), (6, 7)))
    assert ticks(blocks) == 3
    assert words_in(blocks[0].ink)[-2:] == ["1", "2"]


def test_found_live_is_red_has_a_line_to_write_on_and_means_stop() -> None:
    (block,) = drawn(Step("found live", "Found live at:", ("Put the cover back.",)))
    reds = [mark.words for mark in flat(block.ink) if isinstance(mark, Text) and mark.colour == PAPER.stop]
    lines = [mark for mark in flat(block.ink) if isinstance(mark, Shape) and mark.fill is None]
    assert reds == ["Found live at:"]
    assert "This means stop." in words_in(block.ink)
    assert max(bounds_of(line)[2] - bounds_of(line)[0] for line in lines) > 20


def test_blocks_stay_within_their_column_and_their_height() -> None:
    long = "every one of the many conductors in this box whose name is a long one " * 3
    steps = (Step("off", long, (long,)), Step("test", "Test.", (), (), (ToTest(20, 22, long, FIRST),)))
    for block in drawn(*steps):
        left, top, right, bottom = bounds_of(block.ink)
        assert min(left, top) >= 0
        assert right <= WIDE + 0.01
        assert bottom <= block.height
