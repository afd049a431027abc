"""Children that edit without pause, each with its own rescue folder, until somebody kills them.

    python -m tests.desktop.edit_loop FOLDER COUNT

The libraries are loaded once, then a child is forked for each count: it writes the time into the home's name.
"""

import os
import sys
import time
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QTimer

from floorplan_circuits.desktop.rescuer import Rescuer
from floorplan_circuits.edits.names import name_home
from floorplan_circuits.edits.starting import new_home

EDIT_EVERY_MS = 15


def child(folder: Path) -> None:
    """Edit and note each edit, until killed."""
    application = QCoreApplication([])
    rescuer = Rescuer(folder)
    home = new_home()

    def edit() -> None:
        nonlocal home
        home = name_home(home, f"{time.time():.3f}").home
        rescuer.note(home, None)

    timer = QTimer()
    timer.timeout.connect(edit)
    timer.start(EDIT_EVERY_MS)
    application.exec()


def main() -> None:
    """Fork the children, print their numbers, and wait to be ended."""
    folder, count = Path(sys.argv[1]), int(sys.argv[2])
    for number in range(count):
        pid = os.fork()
        if pid == 0:
            child(folder / str(number))
            os._exit(0)
        sys.stdout.write(f"{pid}\n")
        sys.stdout.flush()
    sys.stdin.read()


if __name__ == "__main__":
    main()
