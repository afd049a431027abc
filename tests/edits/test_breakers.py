"""Breakers: put into spaces, typed over, their handles tied."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.edits.boxes import put_device
from floorplan_circuits.edits.breakers import add_breaker, retype_breaker, set_breaker, tie_handles, untie_handles
from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.panels import add_panel
from floorplan_circuits.edits.ties import tie
from floorplan_circuits.edits.typed import read_typed
from floorplan_circuits.home.boxes import FromBreaker
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import problems
from floorplan_circuits.home.record import change
from tests.edits.samples import box_of, breaker_at, house, level_of, panel_of, typed_in


def spaces(home: Home) -> list[str]:
    return ["·".join(f"{pole.space}{pole.half or ''}" for pole in one.poles) for one in home.breakers]


def put(home: Home, space: int, words: str, half: str | None = None):
    return add_breaker(home, panel_of(home), space, read_typed(words), half)


def test_a_breaker_goes_into_its_space_with_its_old_label():
    edited = put(house(), 3, "15 lts frnt")
    breaker = edited.home.breakers[edited.made[0]]

    assert edited.says == "Put a 15 A breaker in space 3"
    assert (breaker.amps, breaker.as_found, breaker.device) == (15, "lts frnt", "breaker")
    assert put(house(), 3, "15f").says == "Put a 15 A fuse in space 3"
    assert put(house(), 3, "spare").says == "Put a breaker in space 3"


def test_a_breaker_of_several_poles_takes_the_spaces_below():
    assert spaces(put(house(), 2, "30/2 dryer").home) == ["1", "2·4"]
    assert spaces(put(house(), 2, "30/4").home) == ["1", "2·4·6·8"]


@pytest.mark.parametrize(
    ("numbering", "space", "takes"),
    [("single row", 2, "2·3"), ("down one side, then the other", 2, "2·3"), ("odd left, even right", 2, "2·4")],
)
def test_below_is_what_the_numbering_says(numbering, space, takes):
    home = add_panel(Home(), 8, numbering=numbering).home

    assert spaces(put(home, space, "30/2").home) == [takes]


def test_a_column_has_an_end():
    home = add_panel(Home(), 8, numbering="down one side, then the other").home

    with pytest.raises(Refused, match="2 poles do not fit: the column ends at space 4"):
        put(home, 4, "30/2")
    with pytest.raises(Refused, match="has no space 9"):
        put(home, 9, "15")


def test_two_go_into_the_halves_of_a_space():
    edited = put(house(), 3, "15/t hall")

    assert spaces(edited.home) == ["1", "3A", "3B"]
    assert len(edited.made) == 2


def test_half_a_space_is_free_beside_a_half():
    home = put(house(), 3, "15", "B").home

    assert spaces(put(home, 3, "15", "A").home) == ["1", "3B", "3A"]
    for half in ("B", None):
        with pytest.raises(Refused, match="Space 3 is taken"):
            put(home, 3, "15", half)


@settings(max_examples=60)
@given(
    st.lists(
        st.tuples(st.integers(0, 9), st.sampled_from(("15", "30/2", "60/3", "15/t", "x")), st.sampled_from((None, "A")))
    )
)
def test_whatever_is_typed_where_no_space_holds_two(typed):
    home = house()
    for space, words, half in typed:
        try:
            home = put(home, space, words, half).home
        except Refused:
            continue
    assert problems(home) == ()


# --- changes --------------------------------------------------------------------------------------------------------


def test_fields_are_set_and_the_menu_says_which_breaker():
    home = put(house(), 2, "30/2 dryer").home

    edited = set_breaker(home, breaker_at(home, 2), opens="both hots")

    assert edited.says == "Edit breaker 2·4"
    assert edited.home.breakers[breaker_at(home, 2)].opens == "both hots"


def test_breakers_do_not_stand_behind_each_other():
    home = put(house(), 3, "15").home
    home = set_breaker(home, breaker_at(home, 3), behind=breaker_at(home, 1)).home

    with pytest.raises(Refused, match="stands behind itself"):
        set_breaker(home, breaker_at(home, 1), behind=breaker_at(home, 3))


def test_a_breaker_is_typed_over():
    home = house()

    edited = retype_breaker(home, breaker_at(home, 1), read_typed("15/2f range"))
    breaker = edited.home.breakers[breaker_at(home, 1)]

    assert edited.says == "Edit breaker 1"
    assert (breaker.amps, breaker.device, breaker.as_found) == (15, "fuse", "range")
    assert spaces(edited.home) == ["1·3"]


def test_a_label_alone_leaves_the_size():
    home = put(house(), 2, "30/2f dryer").home
    before = home.breakers[breaker_at(home, 2)]

    after = retype_breaker(home, before.id, read_typed("range")).home.breakers[before.id]

    assert after == change(before, as_found="range")


def test_a_breaker_does_not_grow_over_another():
    home = put(house(), 3, "15").home

    with pytest.raises(Refused, match="Space 3 is taken"):
        retype_breaker(home, breaker_at(home, 1), read_typed("30/2"))


def test_a_breaker_that_turns_out_to_be_half_of_its_space_gets_the_other_half_beside_it():
    home = house()

    after = retype_breaker(home, breaker_at(home, 1), read_typed("15/t hall")).home

    assert spaces(after) == ["1A", "1B"]
    assert after.breakers[breaker_at(home, 1)].amps == 15


def test_the_poles_that_stay_keep_their_neutral():
    home = put(house(), 2, "30/2").home
    breaker = home.breakers[breaker_at(home, 2)]
    shared = change(breaker, poles=tuple(change(pole, neutral="own") for pole in breaker.poles))
    home = change(home, breakers=home.breakers.put(shared))

    after = retype_breaker(home, breaker.id, read_typed("30/3")).home.breakers[breaker.id]

    assert [pole.neutral for pole in after.poles] == ["own", "own", "not known"]


def test_what_hung_on_a_pole_that_is_gone_hangs_on_the_breaker():
    home = put(house(), 2, "30/2").home
    put_dryer = put_device(home, level_of(home), (500, 0), 90, "240 V receptacle")
    home = tie(put_dryer.home, put_dryer.made, breaker_at(home, 2)).home

    after = retype_breaker(home, breaker_at(home, 2), read_typed("15")).home
    (feed,) = after.boxes[put_dryer.made[0]].feeds()

    assert problems(after) == ()
    assert feed.on.how == "any"
    assert feed.on.supplies == (FromBreaker(kind="breaker", breaker=breaker_at(home, 2), pole=0),)


@settings(max_examples=60)
@given(
    st.lists(
        st.tuples(st.sampled_from((1, 2)), st.sampled_from(("15", "30/2", "60/3", "60/4", "15/t", "x"))), max_size=6
    )
)
def test_however_a_breaker_is_typed_over_the_home_stays_sound(changes):
    home = put(house(), 2, "60/3").home
    kinds = ("240 V receptacle", "switch")
    for place, kind in enumerate(kinds):
        made = put_device(home, level_of(home), (500, 900 * place), 90, kind)
        home = tie(made.home, made.made, breaker_at(home, 2)).home
    first, second = home.breakers.ids()
    for which, words in changes:
        try:
            home = retype_breaker(home, (first, second)[which - 1], read_typed(words)).home
            made = put_device(home, level_of(home), (500, 500), 90, kinds[0])
            home = tie(made.home, made.made, second).home
        except Refused:
            continue
    assert problems(home) == ()


# --- handles --------------------------------------------------------------------------------------------------------


def three() -> Home:
    return put(put(house(), 3, "15").home, 5, "15").home


def groups(home: Home) -> list[int | None]:
    return [breaker.tie.group if breaker.tie else None for breaker in home.breakers]


def test_handles_are_tied_and_untied():
    home = three()
    pair = [breaker_at(home, 1), breaker_at(home, 3)]

    edited = tie_handles(home, pair, "by the factory")
    one, other, third = groups(edited.home)

    assert edited.says == "Tie 2 handles"
    assert one == other is not None
    assert third is None
    assert groups(untie_handles(edited.home, pair[:1]).home) == [None, None, None]


def test_a_handle_that_is_left_alone_is_not_tied_any_more():
    home = three()
    home = tie_handles(home, [breaker_at(home, 1), breaker_at(home, 3)]).home

    one, other, third = groups(tie_handles(home, [breaker_at(home, 3), breaker_at(home, 5)]).home)

    assert one is None
    assert other == third is not None


def test_handles_of_two_panels_are_never_tied():
    home = add_panel(three(), 4, "Garage").home
    home = typed_in(home, 1, "15", home.panels.rows[-1].id)

    with pytest.raises(Refused, match="of one panel"):
        tie_handles(home, [breaker_at(home, 3), home.breakers.rows[-1].id])


def test_a_box_is_not_a_handle():
    home = house()

    with pytest.raises(Refused, match="two or more breakers"):
        tie_handles(home, [box_of(home, "B1"), breaker_at(home, 1)])
