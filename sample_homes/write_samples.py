"""Write the invented homes beside this script. Run from the root: python -m sample_homes.write_samples."""

from collections.abc import Callable
from pathlib import Path

from floorplan_circuits.files.save import save_home
from floorplan_circuits.home.home import Home

from . import cottage, flat, house  # relative: the folder is packaged inside the program as well

SAMPLES: dict[str, Callable[[], Home]] = {
    "cottage.json": cottage.build,
    "flat.json": flat.build,
    "house.json": house.build,
}


def write_samples(folder: Path) -> None:
    """Write every sample home into the folder, over what was there."""
    for name, build in SAMPLES.items():
        (folder / name).unlink(missing_ok=True)  # else the version before would be kept beside it
        save_home(folder / name, build())


if __name__ == "__main__":
    write_samples(Path(__file__).parent)
