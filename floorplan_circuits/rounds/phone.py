"""One page for a phone to carry out a plan with: no network, no server, opened from a file.

Names of the home are data in it. They stand in a block of JSON in which nothing can end the block, and the page's
script sets them as text.
"""

import json
from dataclasses import asdict
from typing import Any

from floorplan_circuits.findings import RoundsInWords
from floorplan_circuits.home.resources import folder
from floorplan_circuits.home.ways import ways

TEMPLATE = "phone_rounds.html"
PLACE = "{{plan}}"
"""Where the plan goes into the template; it stands there once."""
ESCAPED = {"<": "\\u003c", ">": "\\u003e", "&": "\\u0026"}
"""What could end a script or begin a comment or an entity, as JSON may write it inside strings.

Outside of strings JSON has none of them. All that is not ASCII is escaped too, line separators among it.
"""


def phone_page(words: RoundsInWords) -> str:
    """Return the page as HTML, in plain ASCII but for what stands in the template."""
    template = (folder("resources") / TEMPLATE).read_text(encoding="utf-8")
    before, _, after = template.partition(PLACE)
    return before + embedded(_data(words)) + after


def embedded(values: Any) -> str:
    """Return JSON that can stand inside a script element whatever strings are in it."""
    text = json.dumps(values, ensure_ascii=True, separators=(",", ":"))
    for character, written in ESCAPED.items():
        text = text.replace(character, written)
    return text


def _data(words: RoundsInWords) -> dict[str, Any]:
    """Return what the page's script reads."""
    taken = [way for way in ways().values() if "round" in way.recorded_as]
    told = {name: value for name, value in asdict(words).items() if name not in ("solo", "to_try")}
    return {
        **told,
        "alone": [
            {"handle": one.handle, "id": one.id, "places": [look.place for look in one.looks]} for one in words.solo
        ],
        "feeds": sum(len(stop.looks) for stop in words.walk),
        "ways": [
            {"name": way.name, "label": way.label, "cannot": way.cannot, "caution": way.caution}
            for way in sorted(taken, key=lambda way: way.name != "not said")
        ],
    }
