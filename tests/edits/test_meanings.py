import pytest

from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.meanings import explain
from floorplan_circuits.files.save import text_of
from floorplan_circuits.home.home import Home


def test_a_word_is_explained_once_and_the_later_answer_counts() -> None:
    home = explain(Home(), "Rec", " recessed   lights ").home
    assert [(one.short, one.means) for one in home.meanings] == [("rec", "recessed lights")]
    edited = explain(home, "REC", "receptacles")
    assert [(one.short, one.means) for one in edited.home.meanings] == [("rec", "receptacles")]
    assert edited.says == "“rec” means receptacles"


def test_an_empty_answer_takes_it_back_and_an_empty_word_is_refused() -> None:
    home = explain(Home(), "rec", "receptacles").home
    assert explain(home, "rec", " ").home == Home()
    with pytest.raises(Refused, match="Say which word"):
        explain(home, " ", "receptacles")
    with pytest.raises(Refused):
        explain(home, "rec", "x" * 121)


def test_a_home_in_which_nobody_was_asked_has_the_text_it_always_had() -> None:
    assert "meanings" not in text_of(Home())
    said = explain(Home(), "rec", "receptacles").home
    assert Home.model_validate_json(text_of(said)) == said
