"""The worker: findings are computed off the window's thread, and only the newest request is answered."""

from threading import Lock, Thread

from PySide6.QtCore import QObject, Signal

from floorplan_circuits.findings import Findings, Layer
from floorplan_circuits.home.home import Home


class Finder(QObject):
    """Computes findings in a thread of its own. `found` brings them back to the window's thread."""

    found = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._lock = Lock()
        self._wanted: tuple[Home, Layer] | None = None
        self._before: Findings | None = None
        self._thread: Thread | None = None

    def ask(self, home: Home, layer: Layer = "both") -> None:
        """Ask for the findings of `home`; an older request that has not begun is dropped."""
        with self._lock:
            self._wanted = home, layer
            if self._thread is None or not self._thread.is_alive():  # one that failed must not silence the next
                self._thread = Thread(target=self._work, name="findings", daemon=True)
                self._thread.start()

    def _work(self) -> None:
        from floorplan_circuits.find import find  # late: shapely must not delay the first frame

        while True:
            with self._lock:
                wanted, self._wanted = self._wanted, None
                if wanted is None:
                    self._thread = None
                    return
            home, layer = wanted
            self._before = find(home, self._before, layer)
            with self._lock:
                newest = self._wanted is None
            if newest and not self._tell(self._before):
                return

    def _tell(self, findings: Findings) -> bool:
        """Hand the findings over; return False if nobody waits for them: the home was closed meanwhile."""
        try:
            self.found.emit(findings)
        except RuntimeError:  # Qt has deleted this object, its owner's home being closed
            return False
        return True
