"""The list of devices as a table: a row for each feed, with its box, what it is of, and what it is said to hang on.

Names, kinds and breakers are taken back into boxes that are there; a breaker taken so is a claim, as if it was chosen
in the window. Standings are told, never taken: no table proves anything. An empty cell leaves what is there.
"""

from collections.abc import Mapping

from floorplan_circuits.edits.boxes import set_device
from floorplan_circuits.edits.edited import Edited, Refused
from floorplan_circuits.edits.names import rename
from floorplan_circuits.edits.ties import tie, untie
from floorplan_circuits.exchange.sheet_of_rows import NamedRow, as_csv, read_csv
from floorplan_circuits.exchange.taking import take_rows
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.boxes import Behind, Disconnected, FromBreaker, Supplied
from floorplan_circuits.home.home import FeedPlace, Home, existing_feeds
from floorplan_circuits.home.kinds import catalogue
from floorplan_circuits.supply.numbering import marks

HEADINGS = ("Box", "Gang", "Part", "Kind", "Name", "Breaker", "Room", "Level", "How known", "Day")
"""'Room', 'Level', 'How known' and 'Day' are told, not taken."""
NOT_KNOWN = "not known"
PASSES = "passes through"
IN_WORDS = {
    "proved": "tested",
    "claimed": "said to be",
    "suggested": "rounds suggest",
    "expired": "tested before a change",
}


def devices_csv(findings: Findings) -> bytes:
    """Return the list of all devices as CSV."""
    return as_csv(HEADINGS, (_row(place, findings) for place in existing_feeds(findings.home)))


def template() -> bytes:
    """Return a list to fill in, with two rows that show how."""
    rows = (
        ("B1", "1", "", "duplex receptacle", "by the sink", "5", "", "", "", ""),
        ("B2", "1", "upper", "split receptacle", "", NOT_KNOWN, "", "", "", ""),
    )
    return as_csv(HEADINGS, rows)


def _row(place: FeedPlace, findings: Findings) -> tuple[str, ...]:
    where, one = findings.boxes.get(place.box.id), findings.conclusions.get(place.feed.id)
    device = place.device
    return (
        place.box.mark,
        str(device.slot) if device is not None else "",
        place.feed.part,
        device.kind if device is not None else PASSES,
        device.name if device is not None else "",
        hung_in_words(place, findings.marks),
        where.room_name if where is not None else "",
        where.level_name if where is not None else "",
        IN_WORDS.get(one.standing, one.standing) if one is not None else "",
        one.date[:10] if one is not None else "",
    )


def hung_in_words(place: FeedPlace, numbers: Mapping[int, str]) -> str:
    """Return what a feed is stated to hang on: a breaker's number, several, or words for what is no breaker."""
    on = place.feed.on
    if isinstance(on, Behind):
        return "behind another"
    if isinstance(on, Disconnected):
        return "disconnected"
    if not isinstance(on, Supplied):
        return NOT_KNOWN
    told = [numbers.get(one.breaker, "?") if isinstance(one, FromBreaker) else one.kind for one in on.supplies]
    return " or ".join(dict.fromkeys(told)) if on.how == "any" else " and ".join(dict.fromkeys(told))


def take_devices(home: Home, content: bytes) -> Edited:
    """Take a list of devices into a home as one edit.

    Raises `RowsRefused` with every row that can't be taken, `CannotTake` for what is no such table.
    """
    seen: dict[int, int] = {}

    def take(now: Home, row: NamedRow) -> Home:
        place = _place(now, row, seen)
        seen[place.feed.id] = row.number
        return _take(now, row, place)

    return take_rows(home, read_csv(content, ("Box", "Gang", "Part")), take, "the list of devices")


def _place(home: Home, row: NamedRow, seen: Mapping[int, int]) -> FeedPlace:
    """Return the feed that a row is about: by its box, its gang, and its part there; of several alike the next one."""
    mark, gang, part = row.get("Box"), row.get("Gang"), row.get("Part")
    here = [place for place in existing_feeds(home) if place.box.mark.casefold() == mark.casefold()]
    if not here:
        raise Refused(f"There is no box “{mark}”. Put it on the plan first.")
    meant = [one for one in here if (str(one.device.slot) if one.device is not None else "") == gang]
    meant = [one for one in meant if one.feed.part.casefold() == part.casefold()]
    left = [one for one in meant if one.feed.id not in seen]
    if meant and not left:
        raise Refused(f"It is the same feed as in row {seen[meant[-1].feed.id]}. Leave one of them.")
    if not left:
        raise Refused(f"{mark} has no Gang “{gang}” with Part “{part}”. Keep both as they were written out.")
    return left[0]


def _take(home: Home, row: NamedRow, place: FeedPlace) -> Home:
    device = place.device
    if device is not None:
        kind, name = row.get("Kind"), row.get("Name")
        if kind and kind != device.kind:
            if kind not in catalogue():
                raise Refused(f"Kind “{kind}” is not in the catalogue. Choose one of the palette.")
            home = set_device(home, device.id, kind=kind).home
        if " ".join(name.split()) not in ("", " ".join(device.name.split())):
            home = rename(home, "device", device.id, name).home
    return _hung(home, row.get("Breaker"), place)


def _hung(home: Home, words: str, place: FeedPlace) -> Home:
    numbers = marks(home)
    if not words or words == hung_in_words(place, numbers):
        return home
    if words.casefold() == NOT_KNOWN:
        return untie(home, [place.feed.id]).home
    breakers = {numbers[one.id].casefold(): one.id for one in home.breakers}
    if words.casefold() not in breakers:
        raise Refused(f"There is no breaker “{words}”. Give its number on the panel, or “{NOT_KNOWN}”.")
    return tie(home, [place.feed.id], breakers[words.casefold()], words).home
