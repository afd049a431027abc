"""What the trade calls things by the system they are on: a panel's spaces, or a consumer unit's ways.

On 230 V the words are those of British practice: consumer unit, way, main switch, MCB, RCD, RCBO (common practice, no
source). Where the system is not known, and for all else, they are North American.
"""

from typing import NamedTuple

from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Breaker, Panel, System

ON_230_V: tuple[System, ...] = ("single-phase 230", "three-phase 400Y/230")


class TradeWords(NamedTuple):
    """The name of a first panel, what it is, what one of its spaces is, and its main handle."""

    panel: str
    board: str
    space: str
    main: str


NORTH_AMERICAN = TradeWords("Main panel", "panel", "space", "main")
BRITISH = TradeWords("Consumer unit", "consumer unit", "way", "main switch")


def is_on_230_v(home: Home, panel: Panel | None) -> bool:
    """Tell whether a panel is on 230 V: by its own system, or by its home's where its own is not known."""
    own = panel.system if panel is not None else "not known"
    return (home.system if own == "not known" else own) in ON_230_V


def words_of(home: Home, panel: Panel | None) -> TradeWords:
    """Return the words for a panel and what is in it."""
    return BRITISH if is_on_230_v(home, panel) else NORTH_AMERICAN


def home_words(home: Home) -> TradeWords:
    """Return the words for what is told of a home as a whole: those of its first panel."""
    return words_of(home, next(iter(home.panels), None))


def words_on(system: System) -> TradeWords:
    """Return the words for a panel on this system."""
    return BRITISH if system in ON_230_V else NORTH_AMERICAN


def device_word(home: Home, breaker: Breaker) -> str:
    """Return what a breaker is called: a fuse, a breaker; on 230 V an MCB, an RCD over others, an RCBO for itself."""
    if breaker.device == "fuse" or not is_on_230_v(home, home.panels.get(breaker.panel)):
        return breaker.device
    if "residual current" not in breaker.protects:
        return "MCB"
    return "RCD" if any(one.behind == breaker.id for one in home.breakers) else "RCBO"
