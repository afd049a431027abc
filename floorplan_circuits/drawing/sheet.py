"""A sheet of paper as a value: its pages of ink, and what could not be said in full."""

from dataclasses import dataclass

from floorplan_circuits.drawing.ink import Ink


@dataclass(frozen=True, slots=True)
class Page:
    """One page: size in mm, ink from its top left corner, and what it is called."""

    width: float
    height: float
    ink: Ink
    name: str


@dataclass(frozen=True, slots=True)
class Sheet:
    """Pages that belong together.

    `shortened` tells each text that was cut, `not_placed` each label left out, `notes` in sentences what is otherwise
    than it was asked for.
    """

    title: str
    pages: tuple[Page, ...]
    shortened: tuple[str, ...] = ()
    not_placed: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
