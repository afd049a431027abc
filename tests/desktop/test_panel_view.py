"""The panel's face in the window: what a click on a space names, and where words are typed over it."""

import pytest
from PySide6.QtCore import QEvent, QPointF, Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from floorplan_circuits.desktop.panel_view import PanelView
from floorplan_circuits.find import find
from floorplan_circuits.findings import Findings, Subject
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Panel
from floorplan_circuits.home.table import Table
from tests.desktop.hand import click, mouse, picture_of


@pytest.fixture
def view(qtbot: QtBot, cottage: Findings) -> PanelView:
    shown = PanelView()
    qtbot.addWidget(shown)
    shown.resize(364, 600)
    shown.show_panel(cottage, cottage.home.panels.rows[0])
    return shown


@pytest.fixture
def empty_view(qtbot: QtBot) -> PanelView:
    bare = find(Home(next_id=2, panels=Table([Panel(id=1, name="Main", spaces=8)])))
    shown = PanelView()
    qtbot.addWidget(shown)
    shown.resize(364, 600)
    shown.show_panel(bare, bare.home.panels.rows[0])
    return shown


def words_at(view: PanelView, space: int, half: str | None = None) -> QPointF:
    """Return the middle of a space's words."""
    return QPointF(view.area_of(space, half).center())


def test_a_click_on_a_breaker_names_it(view: PanelView, cottage: Findings) -> None:
    named: list[Subject] = []
    view.breaker_clicked.connect(named.append)
    for breaker in cottage.home.breakers:
        click(view, words_at(view, breaker.poles[0].space, breaker.poles[0].half))
    assert named == [Subject("breaker", breaker.id) for breaker in cottage.home.breakers]


def test_every_pole_of_a_breaker_names_it(view: PanelView, cottage: Findings) -> None:
    named: list[Subject] = []
    view.breaker_clicked.connect(named.append)
    double = next(breaker for breaker in cottage.home.breakers if len(breaker.poles) == 2)
    for pole in double.poles:
        click(view, words_at(view, pole.space))
    assert named == [Subject("breaker", double.id)] * 2


def test_a_click_on_an_empty_space_names_the_space(empty_view: PanelView) -> None:
    named: list[tuple[int, str | None]] = []
    empty_view.space_clicked.connect(lambda space, half: named.append((space, half)))
    for space in range(1, 9):
        click(empty_view, words_at(empty_view, space))
    assert named == [(space, None) for space in range(1, 9)]


def test_a_click_beside_the_face_names_nothing(view: PanelView) -> None:
    named: list[object] = []
    view.breaker_clicked.connect(named.append)
    view.space_clicked.connect(lambda space, half: named.append(space))
    click(view, QPointF(2, 2))
    click(view, QPointF(180, view.height() - 1))
    assert named == []


def test_pointing_is_told_once_and_so_is_leaving(view: PanelView, cottage: Findings) -> None:
    told: list[Subject | None] = []
    view.breaker_hovered.connect(told.append)
    first = cottage.home.breakers.rows[3]
    at = words_at(view, first.poles[0].space)
    mouse(view, "move", at, Qt.MouseButton.NoButton)
    mouse(view, "move", at + QPointF(2, 1), Qt.MouseButton.NoButton)
    QApplication.sendEvent(view, QEvent(QEvent.Type.Leave))
    assert told == [Subject("breaker", first.id), None]


def test_a_double_click_opens_a_breaker(view: PanelView, cottage: Findings, qtbot: QtBot) -> None:
    breaker = cottage.home.breakers.rows[3]
    with qtbot.waitSignal(view.breaker_opened) as opened:
        qtbot.mouseDClick(view, Qt.MouseButton.LeftButton, pos=words_at(view, breaker.poles[0].space).toPoint())
    assert opened.args == [Subject("breaker", breaker.id)]


def test_words_lie_in_their_own_space_and_no_two_share_room(empty_view: PanelView) -> None:
    areas = [empty_view.area_of(space) for space in range(1, 9)]
    assert all(empty_view.rect().contains(area) for area in areas)
    assert not any(a.intersects(b) for at, a in enumerate(areas) for b in areas[:at])


def test_halves_share_the_height_of_a_space(empty_view: PanelView) -> None:
    upper, lower, whole = empty_view.area_of(3, "A"), empty_view.area_of(3, "B"), empty_view.area_of(3)
    assert not upper.intersects(lower)
    assert whole.adjusted(0, -2, 0, 2).contains(upper.united(lower))


def test_a_ring_is_drawn_round_a_breaker_and_goes_again(view: PanelView, cottage: Findings) -> None:
    plain = picture_of(view)
    view.ring(frozenset({Subject("breaker", cottage.home.breakers.ids()[0])}))
    assert picture_of(view) != plain
    view.ring(frozenset())
    assert picture_of(view) == plain


def test_without_a_panel_nothing_is_drawn_and_nothing_named(qtbot: QtBot) -> None:
    view = PanelView()
    qtbot.addWidget(view)
    view.show_panel(None, None)
    named: list[object] = []
    view.breaker_clicked.connect(named.append)
    view.space_clicked.connect(lambda space, half: named.append(space))
    click(view, QPointF(100, 100))
    picture = picture_of(view)
    assert named == []
    assert picture.pixelColor(100, 100) == picture.pixelColor(0, 0)
