"""What the householder said that a shortened word on an old label means: 'rec' is receptacles in this home."""

from floorplan_circuits.home.record import Name, Record


class Meaning(Record):
    """A shortened word as it stands on labels, in lower case, and what it means there. The old label stays verbatim."""

    short: Name
    means: Name
