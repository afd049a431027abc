"""`csv`: the panels' schedule and the list of devices, out to a spreadsheet and back in."""

import argparse
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from floorplan_circuits.commands.shared import DONE, UNREADABLE, changed, findings_of, tell, words_of, written

if TYPE_CHECKING:
    from floorplan_circuits.edits.edited import Edited
    from floorplan_circuits.home.home import Home


def read(words: Sequence[str]) -> argparse.Namespace:
    """Read which tables are to be written, or which one is to be taken."""
    parser = words_of(
        "csv",
        "Write the schedule of the panels or the list of devices of HOME as CSV, or take one back.",
        "Exit status: 0 done, 2 unreadable, or a row that can't be taken: then none is.",
    )
    parser.add_argument("--schedule", type=Path, metavar="FILE.csv", help="write a row for each breaker")
    parser.add_argument("--devices", type=Path, metavar="FILE.csv", help="write a row for each feed of each device")
    parser.add_argument("--take-schedule", type=Path, metavar="FILE.csv", help="take such a table into HOME")
    parser.add_argument("--take-devices", type=Path, metavar="FILE.csv", help="take such a table into HOME")
    options = parser.parse_args(words)
    takes = [one for one in (options.take_schedule, options.take_devices) if one is not None]
    if len(takes) > 1 or (takes and (options.schedule or options.devices)):
        parser.error("take one table at a time, and write tables without taking one")
    if not takes and not options.schedule and not options.devices:
        parser.error("say what to write or to take: --schedule FILE.csv")
    return options


def run(options: argparse.Namespace) -> int:
    """Write tables, or take one whole."""
    from floorplan_circuits.exchange.device_list import take_devices
    from floorplan_circuits.exchange.schedule import take_schedule

    if options.take_schedule is not None:
        return _take(options.home, options.take_schedule, take_schedule)
    if options.take_devices is not None:
        return _take(options.home, options.take_devices, take_devices)
    return _write(options)


def _write(options: argparse.Namespace) -> int:
    found = findings_of(options.home)
    if found is None:
        return UNREADABLE
    from floorplan_circuits.exchange.device_list import devices_csv
    from floorplan_circuits.exchange.schedule import schedule_csv

    findings, _ = found
    for path, make in ((options.schedule, schedule_csv), (options.devices, devices_csv)):
        if path is not None:
            if not written(path, make(findings), options.home):
                return UNREADABLE
            tell(f"{path}: written.")
    return DONE


def _take(home: Path, table: Path, take: "Callable[[Home, bytes], Edited]") -> int:
    from floorplan_circuits.exchange.sheet_of_rows import CannotTake

    try:
        content = table.read_bytes()
        edited = changed(home, lambda now: take(now, content), table)
    except (OSError, CannotTake) as error:
        why = error.strerror if isinstance(error, OSError) else error
        print(f"{table}: {why}", file=sys.stderr)
        return UNREADABLE
    if edited is None:
        return UNREADABLE
    tell(f"{home}: {edited.says}.")
    return DONE
