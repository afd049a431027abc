"""The panels' schedule as a table: a row for each breaker, its old label verbatim, and the line that is drawn.

What a row says of its breaker is taken back: rating, device, labels, how it was found. A number that the panel has
free is a new breaker; an empty cell leaves what is there.
"""

import re
from collections.abc import Iterator

from floorplan_circuits.edits.breakers import add_breaker, set_breaker
from floorplan_circuits.edits.edited import Edited, Refused
from floorplan_circuits.edits.names import LONGEST_NAME
from floorplan_circuits.edits.typed import Typed
from floorplan_circuits.exchange.sheet_of_rows import NamedRow, as_csv, read_csv
from floorplan_circuits.exchange.taking import take_rows
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Breaker, Found, Panel
from floorplan_circuits.home.space_names import space_name, spaces_called
from floorplan_circuits.supply.numbering import BETWEEN_SPACES, mark, reading_order

BREAKER = "Breaker"
HEADINGS = (BREAKER, "Panel", "Poles", "Amps", "Device", "Found", "Old label", "Your line", "Line drawn")
"""'Panel', 'Poles' and 'Line drawn' are told, not taken."""
NUMBER = re.compile(r"([A-Z]{0,3})(\d{1,3}(?:L[123])?)([AB]?)((?:[·.\-/ ]+(?:\d{1,3})?(?:L[123])?)*)")
NO_NUMBER = "“{}” is no number on a panel, such as 5, 15A, 2·4, G3 or 1L1."
DEVICES = ("breaker", "fuse")
FOUND = ("on", "off", "tripped", "not recorded")


def schedule_csv(findings: Findings) -> bytes:
    """Return the schedule of all panels as CSV."""
    return as_csv(HEADINGS, _rows(findings))


def template() -> bytes:
    """Return a schedule to fill in, with two rows that show how."""
    rows = (
        ("1", "Main panel", "1", "20", "breaker", "on", "KIT RM", "", ""),
        ("2·4", "Main panel", "2", "30", "breaker", "on", "dryr", "Dryer, Laundry", ""),
    )
    return as_csv(HEADINGS, rows)


def _rows(findings: Findings) -> Iterator[tuple[str, ...]]:
    home = findings.home
    for number in reading_order(home):
        one = home.breakers[number]
        panel = home.panels.get(one.panel)
        line = findings.lines.get(number)
        yield (
            findings.marks[number],
            panel.name if panel is not None else "",
            str(len(one.poles)),
            "" if one.amps is None else str(one.amps),
            one.device,
            one.found.state,
            one.as_found,
            one.wording,
            line.variants[0] if line is not None else "",
        )


def take_schedule(home: Home, content: bytes) -> Edited:
    """Take a schedule into a home as one edit.

    Raises `RowsRefused` with every row that can't be taken, `CannotTake` for what is no such table.
    """
    seen: dict[str, int] = {}

    def take(now: Home, row: NamedRow) -> Home:
        number = row.get(BREAKER).upper()
        if number in seen:
            raise Refused(f"{number} stands in row {seen[number]} already. Leave one of them.")
        seen[number] = row.number
        return _take(now, row, number)

    return take_rows(home, read_csv(content, (BREAKER,)), take, "the schedule")


def _take(home: Home, row: NamedRow, number: str) -> Home:
    fields = dict(_fields(row))
    found = _numbered(home, number)
    if found is None:
        home, breaker = _added(home, row, number)
    else:
        breaker = found.id
    if found is not None and "found" in fields:
        fields["found"] = Found.model_validate({"state": row.get("Found"), "why": found.found.why})
    return set_breaker(home, breaker, **fields).home if fields else home


def _numbered(home: Home, number: str) -> Breaker | None:
    wanted = _folded(number)
    return next((one for one in home.breakers if _folded(mark(home.panels.get(one.panel), one)) == wanted), None)


def _folded(number: str) -> str:
    """Return a number as keyboards have it: 2·4, 2.4, 2-4 and 2/4 are one."""
    return re.sub(r"[·.\-/ ]+", "-", number.strip().upper())


def _fields(row: NamedRow) -> Iterator[tuple[str, object]]:
    if amps := row.get("Amps"):
        yield "amps", _whole(amps)
    if device := row.get("Device").lower():
        yield "device", _one_of(device, DEVICES, "Device")
    if found := row.get("Found").lower():
        yield "found", Found.model_validate({"state": _one_of(found, FOUND, "Found")})
    for heading, field in (("Old label", "as_found"), ("Your line", "wording")):
        words = row.cells.get(heading, "")
        if words.strip():
            yield field, _name(words, heading)


def _whole(amps: str) -> int:
    digits = amps.removesuffix("A").removesuffix("a").strip()
    if not (digits.isascii() and digits.isdigit() and 1 <= int(digits) <= 6000):
        raise Refused(f"Amps “{amps}” is no whole number from 1 to 6000.")
    return int(digits)


def _one_of(word: str, allowed: tuple[str, ...], heading: str) -> str:
    if word not in allowed:
        raise Refused(f"{heading} “{word}” is none of {', '.join(allowed)}.")
    return word


def _name(words: str, heading: str) -> str:
    if len(words) > LONGEST_NAME:
        raise Refused(f"{heading} has {len(words)} letters, and {LONGEST_NAME} fit.")
    return words


def _added(home: Home, row: NamedRow, number: str) -> tuple[Home, int]:
    """Put in the breaker that a number names, if its spaces are free."""
    panel, spaces, half = _own_number(home, number) or _as_counted(home, number)
    _check_named(panel, row.get("Panel"))
    typed = Typed(None, len(spaces), row.get("Device").lower() == "fuse", 1, "")
    edited = add_breaker(home, panel.id, min(spaces), typed, half or None)
    made = edited.home.breakers[edited.made[0]]
    if sorted(pole.space for pole in made.poles) != sorted(spaces):
        own = BETWEEN_SPACES.join(space_name(panel, pole.space) for pole in made.poles)
        raise Refused(
            f"In {panel.name} a breaker from space {space_name(panel, min(spaces))} takes {own}, not {number}."
        )
    return edited.home, made.id


def _own_number(home: Home, number: str) -> tuple[Panel, list[int], str] | None:
    """Return the panel and the spaces that a number names by its householder's own numbers, if it does."""
    for panel in home.panels:
        if panel.called and number.startswith(panel.prefix):
            spaces = spaces_called(panel, _folded(number.removeprefix(panel.prefix)))
            if spaces is not None:
                return panel, spaces, ""
    return None


def _as_counted(home: Home, number: str) -> tuple[Panel, list[int], str]:
    """Return the panel, the spaces and the half that a number names. Raises `Refused` for what names none."""
    found = NUMBER.fullmatch(number)
    if found is None:
        raise Refused(NO_NUMBER.format(number))
    prefix, first, half, more = found.groups()
    panel = _panel(home, prefix)
    spaces = spaces_called(panel, _folded(f"{first}{more}"))
    if spaces is None:
        raise Refused(f"{panel.name} has no space {number}.")
    return panel, spaces, half


def _panel(home: Home, prefix: str) -> Panel:
    found = next((panel for panel in home.panels if panel.prefix == prefix), None)
    if found is None:
        raise Refused(f"There is no panel with the letter {prefix}." if prefix else "Set up the panel first.")
    return found


def _check_named(panel: Panel, name: str) -> None:
    if name and name.casefold() != panel.name.casefold():
        raise Refused(f"Its number is of {panel.name}, and Panel says “{name}”.")
