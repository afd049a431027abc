"""What the close-up of a box has to show, gathered from the findings: each gang, each cable, and how we know."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from floorplan_circuits.drawing.phrases import capital, listed
from floorplan_circuits.drawing.plates import UNKNOWN_WORD, Plate, plate_of
from floorplan_circuits.findings import BoxFinding, Conclusion, Findings
from floorplan_circuits.home.boxes import Box, Device, Feed
from floorplan_circuits.home.days import written
from floorplan_circuits.home.kinds import kind_named, only_holds_cables

BELOW = ("bottom", "below", "under", "foot", "floor")
PLACES = ("top", "bottom", "left", "right", "back")
NO_BREAK = "\N{NO-BREAK SPACE}"
NOT_RECORDED = "Nobody recorded what feeds it"


@dataclass(frozen=True, slots=True)
class Strand:
    """One supply that enters: its plate, its colours, and what a person reads of it.

    `feed` is None where none is recorded. `colours` are places in the palette, None for a circuit that has none there.
    `what` names it; `how` says how we know, a sentence each. `from_below`: somebody saw it enter at the bottom. `volts`
    as the feed has it: what is not of the mains has a cable of its own.
    """

    feed: int | None
    plate: Plate
    colours: tuple[int | None, ...] = ()
    part: str = ""
    what: str = ""
    how: tuple[str, ...] = ()
    from_below: bool = False
    volts: str = "mains"

    @property
    def is_unknown(self) -> bool:
        """Whether nobody knows what it hangs on."""
        return self.plate.standing == "unknown"


@dataclass(frozen=True, slots=True)
class Gang:
    """One place in the box: its number, the device in it (None for an empty place), and what feeds the device."""

    slot: int
    device: Device | None
    strands: tuple[Strand, ...] = ()


@dataclass(frozen=True, slots=True)
class Lane:
    """A cable without a device: one that passes through, or one that somebody saw and nobody knows.

    `words` tell where it goes, as far as anybody said.
    """

    strand: Strand
    passes: bool
    words: str = ""


@dataclass(frozen=True, slots=True)
class Contents:
    """Everything in one box, in the order of its gangs."""

    box: Box
    found: BoxFinding | None
    gangs: tuple[Gang, ...]
    lanes: tuple[Lane, ...]


def contents_of(findings: Findings, box: Box) -> Contents:
    """Return all that is in a box and enters it; what is only planned is not there yet."""
    found = findings.boxes.get(box.id)
    enters: dict[int, list[str]] = {}
    for cable in found.seen if found is not None else ():
        if cable.feed is not None and cable.enters:
            enters.setdefault(cable.feed, []).append(cable.enters)
    gangs = tuple(_gangs(box, findings, enters))
    lanes = [_passing(feed, findings, enters) for feed in box.passing if feed.id in findings.conclusions]
    lanes += _strange(box, found, findings)
    if not box.devices and not box.passing and found is not None:
        what = _unrecorded("Nothing is recorded in this box", "Treat as live")
        lanes.append(Lane(what, passes=False))
    return Contents(box, found, gangs, tuple(lanes))


# --- devices --------------------------------------------------------------------------------------------------------


def _gangs(box: Box, findings: Findings, enters: Mapping[int, Sequence[str]]) -> Iterator[Gang]:
    built = [device for device in box.devices if not device.planned]
    covered = 0
    for slot in range(1, box.gangs + 1):
        mine = [device for device in built if device.slot == slot]
        for device in mine:
            if only_holds_cables(device, box):
                continue  # what it holds is drawn as passing cables
            yield Gang(slot, device, tuple(_strands(device, findings, enters)))
        covered = max([covered, *(slot + gangs_wide(device) - 1 for device in mine)])
        if not mine and slot > covered and box.devices:
            yield Gang(slot, None)


def gangs_wide(device: Device) -> int:
    """Return how many gangs a device takes side by side."""
    return 2 if kind_named(device.kind).symbol == "double duplex receptacle" else 1


def _strands(device: Device, findings: Findings, enters: Mapping[int, Sequence[str]]) -> Iterator[Strand]:
    named = name_of(device)
    feeds = [feed for feed in device.feeds if feed.id in findings.conclusions]
    for feed in sorted(feeds, key=lambda one: _place_of(one, kind_named(device.kind).parts)):
        what = f"{named}: {feed.part}" if feed.part else named
        yield _strand(feed, findings, what, enters.get(feed.id, ()))
    if not feeds:
        yield _unrecorded(named, NOT_RECORDED)


def _place_of(feed: Feed, parts: tuple[str, ...]) -> int:
    """Return where a part stands on its device: as the catalogue lists them, others after."""
    return parts.index(feed.part) if feed.part in parts else len(parts)


def name_of(device: Device) -> str:
    """Return a device's own name and what it is: 'Hall lights, three-way switch'."""
    label = kind_named(device.kind).label
    if not device.name:
        return capital(label)
    return capital(device.name if label.lower() in device.name.lower() else f"{device.name}, {label}")


# --- cables without a device ----------------------------------------------------------------------------------------


def _passing(feed: Feed, findings: Findings, enters: Mapping[int, Sequence[str]]) -> Lane:
    words = listed([one for one in (feed.part, " ".join(feed.note.split())) if one])
    strand = _strand(feed, findings, "Cable without a device", enters.get(feed.id, ()), passing=True)
    if words:
        strand = replace(strand, how=(capital(words), *strand.how))
    return Lane(strand, True, words)


def _strange(box: Box, found: BoxFinding | None, findings: Findings) -> Iterator[Lane]:
    """Yield the cables that somebody saw in the box and that are none of its feeds."""
    own = {feed.id for feed in box.feeds() if feed.id in findings.conclusions}
    marks = {feed.id: other.mark for other in findings.home.boxes for feed in other.feeds()}
    for cable in found.seen if found is not None else ():
        if cable.feed in own:
            continue
        seen = f"Seen when the box was opened{_on(found.seen_on if found else '')}"
        known = findings.conclusions.get(cable.feed) if cable.feed is not None else None
        places = (cable.enters,) if cable.enters else ()
        if known is None:
            strand = _unrecorded("Cable that nobody knows", seen, *_enters(places))
        else:
            place = marks.get(known.feed, "")
            what = f"Cable of a feed in {place}" if place else "Cable of another box’s feed"
            strand = _of(known, findings, what, places)
            strand = replace(strand, how=(*strand.how, seen))
        yield Lane(replace(strand, from_below=_is_below(places)), passes=False)


def _on(day: str) -> str:
    return f", {day_of(day)}" if day else ""


# --- strands --------------------------------------------------------------------------------------------------------


def _strand(feed: Feed, findings: Findings, what: str, enters: Sequence[str], passing: bool = False) -> Strand:
    made = _of(findings.conclusions[feed.id], findings, what, enters, passing)
    how = (*made.how, *(["Low voltage"] if feed.volts == "low" else []))
    return replace(made, part=feed.part, how=how, from_below=_is_below(enters), volts=feed.volts)


def _of(known: Conclusion, findings: Findings, what: str, enters: Sequence[str], passing: bool = False) -> Strand:
    shown = plate_of(known, findings.marks, passing)
    colours = tuple(dict.fromkeys(findings.colours.get(one) for one in known.breakers)) or (None,)
    how = (*how_we_know(known), *_on_what(known, findings.marks), *_enters(enters))
    return Strand(known.feed, shown, () if shown.standing == "unknown" else colours, "", what, how)


def _unrecorded(what: str, *how: str) -> Strand:
    return Strand(None, Plate(UNKNOWN_WORD, "unknown"), (), "", what, how)


def _is_below(enters: Sequence[str]) -> bool:
    """Tell whether all cables of a feed that somebody saw enter at the bottom."""
    return bool(enters) and all(any(word in BELOW for word in place.lower().split()) for place in enters)


def how_we_know(known: Conclusion) -> tuple[str, ...]:
    """Return how a standing is known, a sentence each: what the evidence says, with its day."""
    says = known.says or "nobody knows"
    return (f"{capital(says)} ({day_of(known.date)})" if known.date else capital(says),)


def day_of(day: str) -> str:
    """Return a day as people write it, its words held together in one line."""
    return written(day).replace(" ", NO_BREAK)


def _on_what(known: Conclusion, marks: Mapping[int, str]) -> Iterator[str]:
    """Yield what a plate has no room to say: many breakers, and supplies that are none."""
    if len(known.breakers) > 2:
        yield f"On {listed([marks.get(one, UNKNOWN_WORD) for one in known.breakers])}"
    for words in known.others:
        yield f"From {words}"


def _enters(places: Sequence[str]) -> Iterator[str]:
    """Yield where cables of one feed enter: one in and one on to the next box is usual."""
    if places:
        plain = all(place.lower() in PLACES for place in places)
        words = listed(list(dict.fromkeys(places)))
        yield f"Enters at the {words}" if plain else f"Enters: {words}"
