"""What an SVG drawing from elsewhere may hold before anything draws it: bounded, whole in itself, and no program.

Nothing here draws. A drawing that passes still is drawn apart, within a time and a memory of its own.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from xml.parsers.expat import ExpatError, ParserCreate

LARGEST_SVG = 10 * 2**20
MOST_ELEMENTS, DEEPEST, MOST_DRAWN = 200_000, 100, 400_000
"""Of elements in the file, of elements in each other, and of elements once all that is used again is drawn."""

LINKS = frozenset({"href", "src"})
OWN = re.compile(r"\s*(#|data:image/(png|jpe?g)[;,])", re.IGNORECASE)
"""What a link may lead to: a part of the drawing itself, or a picture that stands in it."""
ELSEWHERE = re.compile(r"url\((?!\s*['\"]?\s*(#|data:(font|application)/))|@import", re.IGNORECASE)
"""A style that leads elsewhere; a typeface may stand in the drawing."""


class BadSvg(ValueError):
    """The drawing can't be taken; the message is the end of a sentence that its name begins."""


@dataclass(slots=True)
class _Seen:
    """What was read so far. `inside` counts, for each name in the drawing, its elements; `uses`, whom it uses."""

    elements: int = 0
    path: list[str] = field(default_factory=list)
    names: list[str | None] = field(default_factory=list)
    inside: dict[str, int] = field(default_factory=dict)
    uses: dict[str, list[str]] = field(default_factory=dict)


def check_svg(content: bytes) -> None:
    """Raise `BadSvg` unless this is an SVG drawing within bounds that reads nothing from elsewhere."""
    if len(content) > LARGEST_SVG:
        raise BadSvg(f"has {len(content) / 2**20:.0f} MB; a drawing has at most {LARGEST_SVG // 2**20}")
    seen = _Seen()
    parser = ParserCreate(namespace_separator=" ")
    parser.StartElementHandler = lambda name, attributes: _start(seen, name, attributes)
    parser.EndElementHandler = lambda _name: _end(seen)
    parser.CharacterDataHandler = lambda words: _words(seen, words)
    parser.EntityDeclHandler = _refuse_entities
    try:
        parser.Parse(content, True)
    except ExpatError as error:
        raise BadSvg(f"is damaged at line {error.lineno}") from error
    if _drawn("", seen, {}) > MOST_DRAWN:
        raise BadSvg("uses its own parts so often that it would take too long to draw")


def _refuse_entities(*_told: object) -> None:
    raise BadSvg("declares words of its own (entities), which a drawing has no need of")


def _start(seen: _Seen, name: str, attributes: Mapping[str, str]) -> None:
    seen.elements += 1
    local = name.rpartition(" ")[2]
    if not seen.path and local != "svg":
        raise BadSvg("is no SVG drawing")
    if local == "script":
        raise BadSvg("holds a program (a script)")
    seen.path.append(local)
    if seen.elements > MOST_ELEMENTS:
        raise BadSvg(f"has over {MOST_ELEMENTS:,} parts")
    if len(seen.path) > DEEPEST:
        raise BadSvg(f"has parts inside each other more than {DEEPEST} deep")
    named = attributes.get("id")
    seen.names.append(named)
    whose = [one for one in ("", *seen.names) if one is not None]
    for one in whose:
        seen.inside[one] = seen.inside.get(one, 0) + 1
    for attribute, value in attributes.items():
        _attribute(seen, local, attribute.rpartition(" ")[2], value, whose)


def _attribute(seen: _Seen, element: str, attribute: str, value: str, whose: list[str]) -> None:
    """Refuse what leads elsewhere; note what is used again. A link to click (`a`) draws nothing."""
    if ELSEWHERE.search(value):
        raise BadSvg("needs other files to be drawn")
    if attribute not in LINKS or element == "a":
        return
    if not OWN.match(value):
        raise BadSvg("needs other files to be drawn")
    if value.strip().startswith("#"):
        for one in whose:
            seen.uses.setdefault(one, []).append(value.strip()[1:])


def _end(seen: _Seen) -> None:
    seen.path.pop()
    seen.names.pop()


def _words(seen: _Seen, words: str) -> None:
    if seen.path and seen.path[-1] == "style" and ELSEWHERE.search(words):
        raise BadSvg("needs other files to be drawn")


def _drawn(name: str, seen: _Seen, known: dict[str, int | None], deep: int = 0) -> int:
    """Return how many elements are drawn for a part, with all that it uses, however deep; '' is the whole drawing."""
    if name in known:
        found = known[name]
        if found is None:
            raise BadSvg("has a part that uses itself")
        return found
    if deep > DEEPEST:
        raise BadSvg(f"has parts that use each other more than {DEEPEST} deep")
    known[name] = None
    total = seen.inside.get(name, 0)
    for used in seen.uses.get(name, ()):
        total = min(total + _drawn(used, seen, known, deep + 1), MOST_DRAWN + 1)
    known[name] = total
    return total
