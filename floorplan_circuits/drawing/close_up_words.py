"""The words of a close-up: whose box it is, how much enters, and for every cable what it is and how we know."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from floorplan_circuits.drawing.close_up_facts import Contents, Strand, day_of
from floorplan_circuits.drawing.close_up_rows import Measure, shortened
from floorplan_circuits.drawing.ink import Group, Mark, Pen, Shape, Text, moved, polyline, rectangle, scaled
from floorplan_circuits.drawing.lettering import cap_height, fits, width, wrap
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.phrases import capital, in_words, listed
from floorplan_circuits.drawing.plate_bodies import PLATE_CORNER
from floorplan_circuits.drawing.plates import (
    BOX_PLATE_HEIGHT,
    BOX_PLATE_SIZE,
    box_plate,
    box_plate_width,
    plate,
    text_height,
)
from floorplan_circuits.findings import BoxFinding, Subject
from floorplan_circuits.home.kinds import kind_named

TITLE_SIZE, HEADLINE_SIZE, BODY_SIZE, HOW_SIZE, CAPTION_SIZE = 14.0, 12.5, 9.4, 8.6, 8.0
MARK_SCALE = 1.5
GANG_COLUMN, PLATE_COLUMN = 11.0, 20.0
TABLE_PLATE = Measure(21.5)
"""As large as plates stand in the table: a little larger than on the plan."""
ROW_AIR = 1.7
LEADING = 1.1
NEVER_OPENED = "Nobody recorded looking inside: more may enter."
CHANGED_SINCE = "It was changed since somebody looked inside: more may enter."
ONE_IS_NOT_ENOUGH = "Turning off one breaker does not make this box dead."
TIE_MAY_SLIP = "Their handles are tied, yet one can trip alone."
NO_ONE_FEEDS_ALL = "Tests leave no one breaker that feeds all in it."
WHATEVER_IS_OFF = "Treat as live whatever is off."
PLACE_GUESSED = "Its place is a guess."
DOUBTFUL = ("contradicted", "expired")


@dataclass(frozen=True, slots=True)
class Words:
    """Words set to a width: their ink from the top left corner, how high they are, and what had to be cut."""

    ink: Group
    height: float
    shortened: tuple[str, ...] = ()


# --- sentences ------------------------------------------------------------------------------------------------------


def headline(found: BoxFinding | None) -> str:
    """Return how much enters, such as 'Two circuits and one unknown enter.'."""
    if found is None:
        return "Nothing is built here yet."
    parts = []
    for count, one, many in (
        (len(found.breakers), "circuit", "circuits"),
        (len(found.others), "other supply", "other supplies"),
        (found.unknown, "unknown", "unknowns"),
    ):
        parts += [f"{in_words(count)} {one if count == 1 else many}"] if count else []
    alone = len(found.breakers) + len(found.others) + found.unknown == 1
    if not parts:
        return "No circuit of the mains is recorded here."
    return f"{capital(listed(parts))} {'enters' if alone else 'enter'}."


def warnings(contents: Contents, standings: Sequence[str]) -> tuple[str, ...]:
    """Return what that means for a hand in the box, a sentence each."""
    found = contents.found
    if found is None:
        return ()
    said = [ONE_IS_NOT_ENOUGH] if found.shared else []
    said += [TIE_MAY_SLIP] if found.tied else []
    said += [NO_ONE_FEEDS_ALL] if found.apart else []
    doubtful = any(one in DOUBTFUL for one in standings)
    said += [WHATEVER_IS_OFF] if found.unknown or found.others or found.apart or doubtful else []
    unsure = () if found.opened else (CHANGED_SINCE if was_opened(found) else NEVER_OPENED,)
    return (*said, *unsure)


def was_opened(found: BoxFinding) -> bool:
    """Tell whether somebody ever recorded looking inside, changed since or not."""
    return found.opened or bool(found.seen or found.seen_on)


def title(contents: Contents) -> str:
    """Return where the box is, as well as anybody recorded it."""
    found = contents.found
    if found is None or not (found.room_name or found.level_name):
        return "Not placed yet"
    return found.room_name or f"{found.level_name}, in no room"


def subtitle(contents: Contents) -> str:
    """Return what kind of box it is, how it is reached, and when somebody looked inside."""
    box, found = contents.box, contents.found
    said = [_sort(contents)]
    said += [f"{capital(box.reach)}."] if box.reach else []
    said += [PLACE_GUESSED] if box.placed == "guessed" else []
    if found is not None and was_opened(found):
        day = f" {day_of(found.seen_on)}" if found.seen_on else ""
        said.append(f"Opened and recorded{day}." if found.opened else f"Opened{day}, changed since.")
    return " ".join(said)


def _sort(contents: Contents) -> str:
    box = contents.box
    devices = [gang.device for gang in contents.gangs if gang.device is not None]
    if box.mount == "loose cable end":
        return "A cable end without a box."
    hidden = "hidden" if box.mount == "hidden" else ""
    if contents.lanes and box.passing and all(kind_named(device.kind).holds_cables for device in devices):
        return f"{capital(' '.join(filter(None, (hidden, 'junction box'))))}, cover off."
    gangs = f"{in_words(box.gangs)} {'gang' if box.gangs == 1 else 'gangs'}"
    where = {"ceiling": ", in the ceiling", "floor": ", in the floor", "outdoor": ", outdoors", "hidden": ", hidden"}
    return f"{capital(gangs)}{where.get(box.mount, '')}, plate off."


# --- the head -------------------------------------------------------------------------------------------------------


def head(contents: Contents, wide: float, theme: Theme) -> Words:
    """Set the box's own plate, where it is, and what kind of box, across a width."""
    mark = _mark(contents, theme)
    mark_wide = _mark_width(contents) * MARK_SCALE
    high = BOX_PLATE_HEIGHT * MARK_SCALE
    x, room = mark_wide + 4.0, wide - mark_wide - 4.0
    ((words, *_), cut) = fits((title(contents),), room, TITLE_SIZE, True)
    baseline = cap_height(TITLE_SIZE) + 0.4
    lines, more = fits((subtitle(contents),), room, HOW_SIZE, False, 3)
    marks: list[Mark] = [moved(mark, mark_wide / 2, high / 2), Text((x, baseline), words, TITLE_SIZE, True, theme.ink)]
    y = baseline + 1.3
    for line in lines:
        y += text_height(HOW_SIZE) * LEADING
        marks.append(Text((x, y), line, HOW_SIZE, False, theme.soft))
    told = ((title(contents), cut), (subtitle(contents), more))
    return Words(Group(tuple(marks), None, "head"), max(high, y + 1.0), tuple(one for one, is_cut in told if is_cut))


def _mark_width(contents: Contents) -> float:
    found = contents.found
    if found is not None and found.shared:
        return box_plate_width(contents.box.mark, found.tied)
    return width(contents.box.mark, BOX_PLATE_SIZE, True) + 2.4


def _mark(contents: Contents, theme: Theme) -> Mark:
    """Draw the box's own plate about the origin: the caution's if it is shared, else its mark in a plain frame."""
    box, found = contents.box, contents.found
    if found is not None and found.shared:
        return scaled(box_plate(box.mark, found, (0.0, 0.0), theme), MARK_SCALE)
    wide, high = _mark_width(contents), BOX_PLATE_HEIGHT
    frame = Shape(rectangle(-wide / 2, -high / 2, wide, high, PLATE_CORNER), theme.paper, Pen(0.3, theme.ink))
    words = Text((0.0, cap_height(BOX_PLATE_SIZE) / 2), box.mark, BOX_PLATE_SIZE, True, theme.ink, "middle")
    return scaled(Group((frame, words), None, f"box {box.mark}"), MARK_SCALE)


# --- the table ------------------------------------------------------------------------------------------------------


def summary(contents: Contents, wide: float, theme: Theme) -> Words:
    """Set how much enters, and what that means for a hand in the box, in a column of this width."""
    marks: list[Mark] = []
    y = set_lines((headline(contents.found),), 0, 0, wide, HEADLINE_SIZE, theme.ink, marks, bold=True)
    y += 0.6
    standings = [strand.plate.standing for _, strand in entries(contents)]
    for sentence in warnings(contents, standings):
        y = set_lines((sentence,), 0, y, wide, BODY_SIZE, theme.ink, marks, bold=sentence == WHATEVER_IS_OFF)
    return Words(Group(tuple(marks), None, "summary"), y)


def table(contents: Contents, wide: float, theme: Theme) -> Words:
    """Set a row for every cable, and the box's note under them, in a column of this width."""
    told = list(entries(contents))
    marks: list[Mark] = []
    y = _heads(0.0, wide, theme, marks) if told else 0.0
    for gang, strand in told:
        y = _entry(gang, strand, y, wide, theme, marks)
    note = " ".join(contents.box.note.split())
    if note:
        y = set_lines((f"Note: {note}",), 0, y + 2.0, wide, HOW_SIZE, theme.soft, marks)
    return Words(Group(tuple(marks), None, "table"), y)


def entries(contents: Contents) -> Iterator[tuple[str, Strand]]:
    """Yield every strand with the number of its gang, which stands on the first of a gang's only."""
    for gang in contents.gangs:
        for nth, strand in enumerate(gang.strands):
            yield "" if nth else str(gang.slot), strand
    for lane in contents.lanes:
        yield "–", lane.strand


def _heads(y: float, wide: float, theme: Theme, marks: list[Mark]) -> float:
    baseline = y + cap_height(CAPTION_SIZE)
    left = _text_left(wide)
    ((told, *_), _) = fits(("What it is, and how we know", "What it is"), wide - left, CAPTION_SIZE)
    for x, words in ((0.0, "Gang"), (GANG_COLUMN, "Circuit"), (left, told)):
        marks.append(Text((x, baseline), words, CAPTION_SIZE, False, theme.soft))
    return _rule(baseline + 1.9, wide, theme, marks)


def _text_left(wide: float) -> float:
    return GANG_COLUMN + min(PLATE_COLUMN, wide * 0.3)


def _entry(gang: str, strand: Strand, y: float, wide: float, theme: Theme, marks: list[Mark]) -> float:
    """Set one row and return where the next begins."""
    left, inner = _text_left(wide), list[Mark]()
    room = wide - left
    foot = set_lines((strand.what,), left, y + ROW_AIR, room, BODY_SIZE, theme.ink, inner, bold=True)
    foot = set_lines((f"{'. '.join(strand.how)}.",), left, foot + 0.2, room, HOW_SIZE, theme.soft, inner)
    bottom = max(foot + ROW_AIR - 0.2, y + TABLE_PLATE.plate_high + 2 * ROW_AIR)
    middle = y + ROW_AIR + max(text_height(BODY_SIZE) * LEADING, TABLE_PLATE.plate_high) / 2
    if gang:
        inner.append(Text((2.2, middle + cap_height(11) / 2), gang, 11.0, True, theme.ink))
    shown = shortened(strand, TABLE_PLATE, left - GANG_COLUMN - 2.0).plate
    drawn = scaled(plate(shown, (0.0, 0.0), theme), TABLE_PLATE.plate)
    inner.append(Group((moved(drawn, GANG_COLUMN + TABLE_PLATE.wide(shown) / 2, middle),), None, "plate"))
    said = f"{f'Gang {gang}: ' if gang.isdigit() else ''}{strand.plate.words}, {strand.what}. {'. '.join(strand.how)}."
    subject = Subject("feed", strand.feed) if strand.feed is not None else None
    marks.append(Group(tuple(inner), subject, said))
    return _rule(bottom, wide, theme, marks)


def _rule(y: float, wide: float, theme: Theme, marks: list[Mark]) -> float:
    marks.append(Shape(polyline((0.0, y), (wide, y)), None, Pen(0.25, theme.line)))
    return y


def set_lines(
    sentences: Sequence[str],
    x: float,
    y: float,
    room: float,
    size: float,
    colour: str,
    marks: list[Mark],
    bold: bool = False,
) -> float:
    """Set sentences under each other, each in as many lines as it takes, and return where they end."""
    pitch = text_height(size) * LEADING
    for line in (line for sentence in sentences for line in wrap(sentence, room, size, bold)):
        baseline = y + (pitch + cap_height(size)) / 2
        marks.append(Text((x, baseline), line, size, bold, colour))
        y += pitch
    return y
