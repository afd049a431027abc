"""What every edit promises: a refusal in words for what can't be, and the very home where nothing changes."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.edits.arranging import align, distribute
from floorplan_circuits.edits.boxes import (
    add_passing,
    join_box,
    join_halves,
    put_device,
    set_box,
    set_device,
    split_halves,
)
from floorplan_circuits.edits.breakers import add_breaker, retype_breaker, set_breaker, tie_handles, untie_handles
from floorplan_circuits.edits.dividing import add_on, add_room_into, clip_room, cut_out, join_rooms, split_room
from floorplan_circuits.edits.edited import Edited, Refused, counted, there
from floorplan_circuits.edits.gangs import carry_device, order_gang
from floorplan_circuits.edits.levels import add_level_like, shift_level
from floorplan_circuits.edits.moving import move, place_box
from floorplan_circuits.edits.names import name_home, rename, set_use
from floorplan_circuits.edits.openings import put_opening, put_openings
from floorplan_circuits.edits.panels import add_panel, feed_panel, set_panel
from floorplan_circuits.edits.pasting import Clip, copied, paste
from floorplan_circuits.edits.removal import remove
from floorplan_circuits.edits.rooms import add_level, add_room, reshape_room, set_wall
from floorplan_circuits.edits.stairs import put_stair
from floorplan_circuits.edits.stamping import stamp
from floorplan_circuits.edits.switching import let_go, let_work, say_by_hand, set_groups_by
from floorplan_circuits.edits.ties import tie, untie
from floorplan_circuits.edits.turning import mirror, turn
from floorplan_circuits.edits.typed import Typed, read_typed
from floorplan_circuits.edits.walls import move_corner, move_wall, remove_corner
from floorplan_circuits.home.integrity import problems
from floorplan_circuits.home.kinds import catalogue
from floorplan_circuits.home.record import change
from tests.edits.samples import box_of, breaker_at, device_of, house, level_of, panel_of

HOME = house()
LEVEL, PANEL, ROOM = level_of(HOME), panel_of(HOME), HOME.rooms.rows[0].id
BOX, DEVICE, BREAKER = box_of(HOME, "B1"), device_of(HOME, "B1"), breaker_at(HOME, 1)
GONE = 999_999
LONG, ODD, FAR = "x" * 121, "a\x07b", (10**7 + 1, 0)
FAR_ROOM = [(10**7, 0), (10**7 + 4000, 0), (10**7 + 4000, 3000)]

CANNOT_BE = {
    "a level's name is too long": lambda: add_level(HOME, LONG),
    "a level far up": lambda: add_level(HOME, "Sky", 201),
    "a room's name is too long": lambda: add_room(HOME, LEVEL, HOME.rooms[ROOM].outline, LONG),
    "a room off the sheet": lambda: add_room(HOME, LEVEL, FAR_ROOM),
    "a corner off the sheet": lambda: move_corner(HOME, LEVEL, (0, 0), (-(10**7) - 1, 0)),
    "a room on a level that is gone": lambda: add_room(HOME, GONE, HOME.rooms[ROOM].outline),
    "walls over a metre thick": lambda: set_wall(HOME, 1001),
    "a room that is gone": lambda: reshape_room(HOME, GONE, HOME.rooms[ROOM].outline),
    "a device off the sheet": lambda: put_device(HOME, LEVEL, FAR, 0, "switch"),
    "a device on a level that is gone": lambda: put_device(HOME, GONE, (0, 0), 0, "switch"),
    "a device of no kind": lambda: put_device(HOME, LEVEL, (0, 0), 0, ""),
    "a device of a kind with a long name": lambda: put_device(HOME, LEVEL, (0, 0), 0, LONG),
    "a device in a box that is gone": lambda: join_box(HOME, GONE, "switch"),
    "no kind in a box": lambda: join_box(HOME, BOX, ""),
    "halves of a device that is gone": lambda: split_halves(HOME, GONE),
    "one feed to join": lambda: join_halves(HOME, DEVICE),
    "a cable through a box that is gone": lambda: add_passing(HOME, GONE),
    "a load below nothing": lambda: set_device(HOME, DEVICE, va=-1),
    "a load past all bounds": lambda: set_device(HOME, DEVICE, va=10**6 + 1),
    "a load in words": lambda: set_device(HOME, DEVICE, va="much"),
    "a ground of no sort": lambda: set_device(HOME, DEVICE, ground="perhaps"),
    "a kind of nothing": lambda: set_device(HOME, DEVICE, kind=""),
    "a device that is gone": lambda: set_device(HOME, GONE, name="lamp"),
    "a height past all bounds": lambda: set_box(HOME, BOX, height=100_001),
    "a mount of no sort": lambda: set_box(HOME, BOX, mount="sideways"),
    "a note past all bounds": lambda: set_box(HOME, BOX, note="x" * 4001),
    "a box that is gone": lambda: set_box(HOME, GONE, note=""),
    "a box moved off the sheet": lambda: place_box(HOME, BOX, FAR, 0),
    "a place between millimetres": lambda: place_box(HOME, BOX, (0.5, 0), 0),
    "things moved off the sheet": lambda: move(HOME, [BOX], (2 * 10**7, 0)),
    "nothing to move": lambda: move(HOME, [DEVICE], (10, 0)),
    "a name too long": lambda: rename(HOME, "room", ROOM, LONG),
    "a name that does not print": lambda: rename(HOME, "room", ROOM, ODD),
    "no name for a room": lambda: rename(HOME, "room", ROOM, " "),
    "a name for what is gone": lambda: rename(HOME, "panel", GONE, "Garage"),
    "a name for a device that is gone": lambda: rename(HOME, "device", GONE, "lamp"),
    "a home's name too long": lambda: name_home(HOME, LONG),
    "a use too long": lambda: set_use(HOME, [ROOM], LONG),
    "a panel without spaces": lambda: add_panel(HOME, 0),
    "a panel with too many spaces": lambda: add_panel(HOME, 201),
    "a panel's name too long": lambda: add_panel(HOME, 8, LONG),
    "a main of no rating": lambda: add_panel(HOME, 8, main_amps=0),
    "a panel fed by a breaker that is gone": lambda: add_panel(HOME, 8, fed_by=GONE),
    "a panel on a level that is gone": lambda: add_panel(HOME, 8, level=GONE),
    "a panel that is gone": lambda: set_panel(HOME, GONE, name="Garage"),
    "fewer spaces than none": lambda: set_panel(HOME, PANEL, spaces=0),
    "spaces in words": lambda: set_panel(HOME, PANEL, spaces="many"),
    "a numbering of no sort": lambda: set_panel(HOME, PANEL, numbering="by heart"),
    "small letters before numbers": lambda: set_panel(HOME, PANEL, prefix="g"),
    "a panel moved to a level that is gone": lambda: set_panel(HOME, PANEL, level=GONE),
    "a panel fed by its own breaker": lambda: feed_panel(HOME, PANEL, BREAKER),
    "a panel fed by nothing that is there": lambda: feed_panel(HOME, PANEL, GONE),
    "a breaker in a panel that is gone": lambda: add_breaker(HOME, GONE, 2, read_typed("15")),
    "a breaker past the end": lambda: add_breaker(HOME, PANEL, 9, read_typed("15")),
    "a breaker before the start": lambda: add_breaker(HOME, PANEL, 0, read_typed("15")),
    "a breaker of 0 A": lambda: add_breaker(HOME, PANEL, 2, read_typed("0 spare")),
    "a breaker of 9999 A": lambda: add_breaker(HOME, PANEL, 2, read_typed("9999 spare")),
    "a breaker of 99999 A": lambda: add_breaker(HOME, PANEL, 2, Typed(99_999, 1, False, 1, "")),
    "a label past all bounds": lambda: add_breaker(HOME, PANEL, 2, read_typed(f"15 {LONG}")),
    "a label of two lines": lambda: set_breaker(HOME, BREAKER, as_found="kitchen\nplugs"),
    "a half of no sort": lambda: add_breaker(HOME, PANEL, 2, read_typed("15"), "C"),
    "a rating past all bounds": lambda: set_breaker(HOME, BREAKER, amps=6001),
    "a breaker that is gone": lambda: set_breaker(HOME, GONE, amps=15),
    "a breaker behind one that is gone": lambda: set_breaker(HOME, BREAKER, behind=GONE),
    "a breaker behind itself": lambda: set_breaker(HOME, BREAKER, behind=BREAKER),
    "a breaker typed over that is gone": lambda: retype_breaker(HOME, GONE, read_typed("15")),
    "a breaker typed over with 0 A": lambda: retype_breaker(HOME, BREAKER, read_typed("0 spare")),
    "one handle to tie": lambda: tie_handles(HOME, [BREAKER, BREAKER, GONE]),
    "no handle to untie": lambda: untie_handles(HOME, [BREAKER]),
    "a tie to a breaker that is gone": lambda: tie(HOME, [BOX], GONE),
    "a tie of nothing": lambda: tie(HOME, [], BREAKER),
    "a tie of what is gone": lambda: untie(HOME, [GONE]),
    "nothing to remove": lambda: remove(HOME, [GONE]),
    "a copy on a level that is gone": lambda: paste(HOME, copied(HOME, [BOX]), GONE, (0, 0)),
    "a copy off the sheet": lambda: paste(HOME, copied(HOME, [BOX]), LEVEL, (10**7, 0)),
}


@pytest.mark.parametrize("case", CANNOT_BE)
def test_what_can_not_be_is_refused_in_a_plain_sentence(case):
    with pytest.raises(Refused) as refused:
        CANNOT_BE[case]()

    words = str(refused.value)
    assert words.endswith(".")
    assert words[0].isupper()
    assert len(words) <= 160
    assert not any(odd in words for odd in ("{", "\n", "Input", "validation", "pydantic", "NoneType", "_"))


NOTHING_CHANGES = {
    "the same name": lambda: rename(HOME, "panel", PANEL, " Main  panel "),
    "the same home's name": lambda: name_home(HOME, HOME.name),
    "the same use": lambda: set_use(HOME, [ROOM], ""),
    "a use for no room": lambda: set_use(HOME, [], "kitchen"),
    "the same place": lambda: place_box(HOME, BOX, HOME.boxes[BOX].at, 450),
    "the same outline": lambda: reshape_room(HOME, ROOM, HOME.rooms[ROOM].outline),
    "the same corner": lambda: move_corner(HOME, LEVEL, (0, 0), (0, 0)),
    "a wall by nothing": lambda: move_wall(HOME, LEVEL, (0, 0), (4000, 0), (0, 0)),
    "the same load": lambda: set_device(HOME, DEVICE, va=None),
    "the same spaces": lambda: set_panel(HOME, PANEL, spaces=8),
    "the same rating": lambda: set_breaker(HOME, BREAKER, amps=20),
    "the same typed": lambda: retype_breaker(HOME, BREAKER, read_typed("20 kitchen plugs")),
    "untied what is not tied": lambda: untie(HOME, [BOX]),
    "fed by nothing": lambda: feed_panel(HOME, PANEL, None),
}


@pytest.mark.parametrize("case", NOTHING_CHANGES)
def test_an_edit_that_changes_nothing_gives_the_very_home(case):
    edited = NOTHING_CHANGES[case]()

    assert edited.home is HOME
    assert edited.says


# --- any values at all ----------------------------------------------------------------------------------------------

known = st.sampled_from([LEVEL, PANEL, ROOM, BOX, DEVICE, BREAKER, GONE, 0])
lengths = st.one_of(st.integers(-5000, 5000), st.sampled_from((10**7, -(10**7), 10**7 + 1, 10**9)))
places = st.tuples(lengths, lengths)
words = st.one_of(st.sampled_from(("", "Kitchen", LONG, ODD, "20/2 dryer", "15/t")), st.text(max_size=8))
numbers = st.one_of(st.integers(-3, 12), st.sampled_from((201, 10**6 + 1)))
kinds = st.one_of(st.sampled_from(list(catalogue())), words)
outlines = st.lists(places, max_size=6)
typed = words.map(read_typed)
several = st.lists(known, max_size=3)

VERBS = {
    add_level: (words, numbers),
    add_room: (known, outlines, words),
    reshape_room: (known, outlines),
    move_corner: (known, places, places),
    move_wall: (known, places, places, places),
    remove_corner: (known, places),
    put_device: (known, places, numbers, kinds),
    join_box: (known, kinds),
    split_halves: (known,),
    join_halves: (known,),
    add_passing: (known,),
    move: (several, places),
    place_box: (known, places, numbers),
    rename: (st.sampled_from(("room", "level", "panel", "device", "control", "source")), known, words),
    set_use: (several, words),
    name_home: (words,),
    add_panel: (numbers, words),
    feed_panel: (known, known),
    add_breaker: (known, numbers, typed),
    retype_breaker: (known, typed),
    tie_handles: (several,),
    untie_handles: (several,),
    let_work: (several, several),
    let_go: (known, several),
    say_by_hand: (known,),
    set_groups_by: (several, st.sampled_from(("hand", "timer", "not known", "magic"))),
    order_gang: (known, numbers),
    carry_device: (known, known, numbers),
    align: (several, st.sampled_from(("across", "down"))),
    distribute: (several,),
    tie: (several, known),
    untie: (several,),
    remove: (several,),
    split_room: (known, outlines),
    join_rooms: (several,),
    cut_out: (known, outlines),
    add_on: (known, outlines),
    clip_room: (known,),
    add_room_into: (known, outlines),
    turn: (several, numbers),
    mirror: (several,),
    put_opening: (known, st.sampled_from(("door", "window", "open way", "hatch")), places, numbers, lengths),
    put_openings: (known, st.just("door"), st.lists(st.tuples(places, numbers, lengths), max_size=3)),
    stamp: (st.sampled_from((copied(HOME, HOME.rooms.ids()), Clip())), known, places, lengths),
    put_stair: (known, places, numbers, lengths, lengths),
    add_level_like: (words, known),
    shift_level: (known, st.booleans()),
    set_wall: (lengths,),
}


@settings(max_examples=100)
@given(st.lists(st.sampled_from(list(VERBS)), min_size=1, max_size=12), st.data())
def test_any_edits_with_any_values_refuse_or_leave_a_sound_home(verbs, data):
    home = HOME
    for verb in verbs:
        try:
            edited = verb(home, *(data.draw(value) for value in VERBS[verb]))
        except Refused:
            continue
        assert edited.says.strip()
        assert edited.home.next_id >= home.next_id
        home = edited.home
    assert problems(home) == ()


# --- small words ----------------------------------------------------------------------------------------------------


def test_a_field_that_an_edit_does_not_set_is_a_mistake_of_the_program():
    with pytest.raises(TypeError, match="does not set gangs"):
        set_box(HOME, BOX, gangs=1)


def test_a_count_takes_its_noun_along():
    assert (counted(1, "box", "boxes"), counted(2, "box", "boxes"), counted(0, "feed")) == (
        "1 box",
        "2 boxes",
        "0 feeds",
    )


def test_what_is_there_is_given_and_what_is_gone_is_refused():
    assert there(HOME.boxes, BOX, "box") is HOME.boxes[BOX]
    with pytest.raises(Refused, match=r"That box is not there any more\."):
        there(HOME.boxes, GONE, "box")


def test_an_edit_tells_what_it_made():
    assert Edited(HOME, "Nothing").made == ()
    made = put_device(HOME, LEVEL, (0, 500), 0, "switch")
    assert [number in made.home.boxes for number in made.made] == [True, False]
    assert change(made.home, boxes=made.home.boxes.without(made.made[:1])).boxes == HOME.boxes
