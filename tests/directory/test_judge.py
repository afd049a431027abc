import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.directory.judging import home_vocabulary, said_in
from floorplan_circuits.directory.vocabulary import vocabulary
from floorplan_circuits.edits.meanings import explain
from floorplan_circuits.find import find
from floorplan_circuits.findings import JudgedLine, Verdict
from floorplan_circuits.home.building import Level, Room
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Breaker, Panel, Pole, Source
from floorplan_circuits.home.record import change
from floorplan_circuits.home.resources import folder
from floorplan_circuits.home.table import Table
from tests.directory.old_labels import CLEAN, OBJECTED, ROOMS
from tests.homes import homes


def home_with(*labels: str, wordings: tuple[str, ...] = (), **fields) -> Home:
    """A home of fourteen rooms whose panel has a breaker with each label; nothing is tied to any."""
    rooms = [
        Room(
            id=100 + at,
            level=99,
            name=name,
            use=use,
            outline=((x := at * 4000, 0), (x + 4000, 0), (x + 4000, 3000), (x, 3000)),
        )
        for at, (name, use) in enumerate(ROOMS)
    ]
    breakers = [
        Breaker(
            id=200 + at,
            panel=1,
            poles=(Pole(space=at + 1),),
            as_found=label,
            wording=dict(enumerate(wordings)).get(at, ""),
        )
        for at, label in enumerate(labels)
    ]
    plain = {"levels": Table([Level(id=99, name="Main level")]), "rooms": Table(rooms), "next_id": 9999}
    panels = Table([Panel(id=1, name="Main panel", spaces=40)])
    return Home(**{**plain, "panels": panels, "breakers": Table(breakers), **fields})


def of_old(label: str, *others: str, **fields) -> tuple[Verdict, ...]:
    return find(home_with(label, *others, **fields)).directory.lines[200].of_old


def rules(verdicts) -> set[str]:
    return {verdict.rule for verdict in verdicts}


# --- labels as people write them ------------------------------------------------------------------------------------


def test_there_are_eighty_labels_and_thirty_of_them_clean() -> None:
    assert len(CLEAN) >= 30
    assert len(CLEAN) + len(OBJECTED) >= 80
    assert not set(CLEAN) & set(OBJECTED)


@pytest.mark.parametrize("label", CLEAN)
def test_a_clear_line_passes(label) -> None:
    assert of_old(label) == ()


@pytest.mark.parametrize(("label", "expected"), OBJECTED.items())
def test_an_unclear_line_is_objected_to_by_the_rules_it_breaks_and_no_other(label, expected) -> None:
    assert rules(of_old(label)) == expected


@pytest.mark.parametrize("label", OBJECTED)
def test_every_verdict_quotes_the_label_and_proposes_a_line_that_passes_or_says_what_to_find_out(label) -> None:
    for verdict in of_old(label):
        assert verdict.words in label
        assert verdict.words or not label.strip()
        assert verdict.words in verdict.says
        assert verdict.says.endswith((".", "?"))
        assert verdict.do.endswith(".")
        assert verdict.better != label or not label
        if verdict.better:
            assert all(one.soft for one in of_old(verdict.better))
        else:
            assert any(word in verdict.do for word in ("Find out", "Say once", "Add its floor", "Call it a spare once"))
        assert "408.4(A), 2023" in verdict.source or "no source" in verdict.source


def test_no_label_of_these_tests_stands_in_the_program_as_a_case_of_its_own() -> None:
    """Words and phrases of up to two are vocabulary; a whole longer label in the program would be a special case."""
    package = folder("resources").parent / "floorplan_circuits"
    files = (*package.rglob("*.py"), *(folder("resources")).glob("*.json"))
    program = "\n".join(path.read_text(encoding="utf-8").lower() for path in files)
    long = [label for label in (*CLEAN, *OBJECTED) if len(label.split()) > 3]
    assert long
    assert not [label for label in long if label.lower() in program]


# --- rules that look beyond the line --------------------------------------------------------------------------------


def test_two_lines_alike_after_folding_are_not_distinct_and_each_names_the_other() -> None:
    (verdict,) = of_old("Kitchen receptacles", "KITCHEN - receptacles.")
    assert verdict.rule == "not distinct"
    assert "2" in verdict.says
    assert rules(of_old("Spare", "spare")) == {"spare"}


def test_a_number_that_stands_nowhere_in_the_house_tells_nothing_apart_but_a_rooms_name_does() -> None:
    assert rules(of_old("Kitchen receptacles 1", "Kitchen receptacles 2")) == {"a number only"}
    assert of_old("Lights, Bedroom 2", "Lights, Bedroom 3") == ()
    assert of_old("Kitchen receptacles 1", "Hall lights") == ()


def test_a_word_that_was_explained_is_not_asked_again_and_the_label_stays_verbatim() -> None:
    home = home_with("lts bth", "KIT REC.")
    asked = find(home).directory.asked
    assert [(one.short, one.breakers) for one in asked] == [
        ("lts", (200,)),
        ("bth", (200,)),
        ("kit", (201,)),
        ("rec", (201,)),
    ]
    assert set(asked[3].may_mean) >= {"receptacles", "recreation room"}
    for short, means in (("lts", "lights"), ("BTH", "bathroom"), ("kit", "kitchen"), ("rec", "receptacles")):
        home = explain(home, short, means).home
    found = find(home)
    assert found.directory.asked == ()
    assert found.directory.lines[201].of_old == ()
    assert found.directory.lines[201].old == "KIT REC."
    assert found.lines[201].variants[0] == "Unknown. Old label “KIT REC.” (kitchen receptacles)"
    assert find(explain(home, "rec", "").home).directory.asked[0].short == "rec"


def test_the_name_of_somebody_who_tested_here_is_a_persons() -> None:
    from floorplan_circuits.home.log import Round

    log = (Round(id=900, kind="round", who="Sasha", method="lamp plugged in"),)
    assert rules(of_old("Sasha lights, hall", log=log)) == {"a person"}
    assert "a person" not in rules(of_old("Sasha lights, hall"))


def test_a_further_panel_that_nobody_said_the_feeder_of_is_told_and_a_fed_one_says_it() -> None:
    from tests.supply.wiring import breaker_supply

    garage = Panel(id=2, name="Garage panel", prefix="G", spaces=8)
    first = Panel(id=1, name="Main panel", place="basement", spaces=40)
    alone = find(home_with("a", panels=Table([first, garage]))).directory.panels
    assert [verdict.rule for verdict in alone[2].verdicts] == ["fed by"]
    assert "408.4(B)" in alone[2].verdicts[0].source
    assert not alone[1].verdicts
    fed = find(home_with("a", panels=Table([first, change(garage, fed_by=(breaker_supply(200),))]))).directory.panels
    assert (fed[2].fed, fed[2].verdicts) == ("Fed by 1 in Main panel, basement", ())


def test_a_second_source_without_a_disconnect_is_told() -> None:
    solar = Source(id=5, name="Roof", kind="solar")
    (verdict,) = find(home_with("a", sources=Table([solar]))).directory.panels[1].verdicts
    assert (verdict.rule, verdict.words) == ("second source", "Roof")
    told = find(home_with("a", sources=Table([change(solar, disconnect="by the meter")])))
    assert not told.directory.panels[1].verdicts


# --- a better line for each verdict ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("label", "rule", "better"),
    [
        ("hwh", "shortened", "Water heater"),
        ("Mstr lts", "shortened", "Main bedroom lights"),
        ("DW", "shortened", ""),
        ("lts", "shortened", ""),
        ("temporary heater, garage", "passing", "Heater, garage"),
        ("Dryer (new)", "passing", "Dryer"),
        ("NEW CIRCUIT", "passing", ""),
        ("Kitchen lights, misc", "says nothing", "Kitchen lights"),
        ("misc", "says nothing", ""),
        ("Grandpa's kiln", "a person", "Kiln"),
        ("Bobbie's room", "a person", ""),
        ("dryer ??", "a guess", ""),
        ("Bobbys old rm", "passing", ""),
        ("dryer now hot tub", "passing", "Hot tub"),
        ("DRYER hot tub now!!", "passing", "Hot tub"),
        ("hot tub was dryer", "passing", "Hot tub"),
        ("dryer, range, hot tub now", "passing", ""),
        ("kitchen now den", "passing", ""),
    ],
)
def test_the_smallest_change_of_the_words_is_proposed_where_it_leaves_a_clear_line(label, rule, better) -> None:
    verdict = next(one for one in of_old(label) if one.rule == rule)
    assert verdict.better == better


def test_a_word_that_may_mean_several_things_is_asked_with_all_of_them() -> None:
    (verdict,) = of_old("DW")
    assert verdict.do == "Say once what it means: dishwasher or driveway."


def test_initials_with_points_are_one_word() -> None:
    home = home_with("KIT + D.R.", "L.R. plugs")
    assert [one.short for one in find(home).directory.asked] == ["kit", "dr", "lr"]
    said = explain(explain(home, "kit", "kitchen").home, "dr", "dining room").home
    assert find(said).lines[200].variants[0] == "Unknown. Old label “KIT + D.R.” (kitchen + dining room)"


@pytest.mark.parametrize(
    ("fields", "never"),
    [({"found": {"state": "off", "why": "do not turn on"}}, "Find out"), ({"may_open": {"may": "never"}}, "turn")],
)
def test_nobody_is_sent_to_try_a_breaker_that_must_stay_as_it_is(fields, never) -> None:
    home = home_with("misc")
    home = change(home, breakers=home.breakers.put(change(home.breakers[200], **fields)))
    (verdict,) = find(home).directory.lines[200].of_now
    assert never not in verdict.do


def test_use_of_today_gets_the_floor_of_the_room_where_there_are_several() -> None:
    two = Table([Level(id=99, name="Main level"), Level(id=98, name="Upstairs")])
    home = home_with("Office receptacles", levels=two)
    corner = ((0, 9000), (4000, 9000), (4000, 12_000), (0, 12_000))
    home = change(home, rooms=home.rooms.put(Room(id=150, level=99, name="Office", outline=corner)))
    verdict = next(one for one in find(home).directory.lines[200].of_old if one.rule == "use of today")
    assert verdict.better == "Office receptacles (Main level)"
    assert of_old("Office receptacles")[0].better == ""


# --- lines that are drawn -------------------------------------------------------------------------------------------


def test_a_householders_line_is_judged_by_the_same_rules_and_kept() -> None:
    found = find(home_with("", wordings=("Bobbie's plugs",)))
    judged: JudgedLine = found.directory.lines[200]
    assert found.lines[200].variants == ("Bobbie's plugs",)
    assert rules(judged.of_now) == rules(of_old("Bobbie's plugs"))


def test_what_is_not_known_is_no_purpose_and_a_spare_is_one_only_when_all_is_tested() -> None:
    judged = find(home_with("kitchen lights")).directory.lines[200]
    assert rules(judged.of_now) == {"not known"}
    assert rules(find(home_with("Spare")).directory.lines[200].of_now) == {"not known"}


@settings(max_examples=25, deadline=None)
@given(homes())
def test_every_verdict_quotes_words_that_stand_in_what_it_judges(home) -> None:
    found = find(home)
    for judged in found.directory.lines.values():
        assert judged.old == home.breakers[judged.breaker].as_found
        for line, verdicts in ((judged.old, judged.of_old), (judged.now, judged.of_now)):
            for verdict in verdicts:
                assert verdict.words in line
                assert verdict.says
                assert verdict.do
                assert verdict.source
                assert verdict.better != line or not line


NO_WORDS_OF_ITS_OWN = home_vocabulary(Home())


@settings(max_examples=60)
@given(st.text(st.characters(exclude_categories=["C", "Z"], include_characters=" "), max_size=120))
def test_any_text_can_be_judged(label) -> None:
    for word in vocabulary().read(label):
        assert label[word.start : word.end] == word.on(label) != ""
    said_in(label, Home(), NO_WORDS_OF_ITS_OWN)
