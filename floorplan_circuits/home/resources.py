"""Where the packaged data lies: beside the package in a wheel, beside it in the tree when installed editable."""

import json
from pathlib import Path
from typing import Any

_PACKAGE = Path(__file__).resolve().parent.parent


def folder(name: str) -> Path:
    """Return the folder `name` ('resources' or 'sample_homes'). Raises FileNotFoundError where it is missing."""
    for place in (_PACKAGE / name, _PACKAGE.parent / name):
        if place.is_dir():
            return place
    raise FileNotFoundError(f"the folder {name} is missing from the installation: install the program again")


def read_json(name: str) -> Any:
    """Read one file of the resources, such as 'device_kinds.json'."""
    return json.loads((folder("resources") / name).read_text(encoding="utf-8"))
