"""The worker: findings are computed off the window's thread, and only the newest request is answered."""

from threading import Lock

from PySide6.QtCore import QObject, Signal, SignalInstance

from floorplan_circuits.desktop.newest import Newest
from floorplan_circuits.findings import Findings, Layer
from floorplan_circuits.home.home import Home


class Finder(QObject):
    """Computes findings in a thread of its own. `found` brings them back to the window's thread.

    `failed` tells of which home they could not be computed: whoever shows older ones must take them away.
    """

    found, failed = Signal(object), Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._before: Findings | None = None
        self._at_work = Lock()
        self._finding = Newest("findings", daemon=True)

    def ask(self, home: Home, layer: Layer = "both") -> None:
        """Ask for the findings of `home`; an older request that has not begun is dropped."""
        self._finding.ask(lambda: self._find(home, layer))

    def now(self, home: Home, layer: Layer = "both") -> Findings:
        """Return the findings of `home` for whoever can't wait to be told: what is being found is not found twice."""
        from floorplan_circuits.find import find  # late: shapely must not delay the first frame

        with self._at_work:
            before = self._before
            if before is None or before.home is not home or before.layer != layer:
                before = self._before = find(home, before, layer)
            return before

    def _find(self, home: Home, layer: Layer) -> None:
        try:
            found = self.now(home, layer)
        except Exception:
            self._before = None
            self._tell(self.failed, home)
            raise  # it is a fault of the program: what it was stands in the terminal
        if not self._finding.is_overtaken():
            self._tell(self.found, found)

    def _tell(self, signal: SignalInstance, what: Findings | Home) -> None:
        try:
            signal.emit(what)
        except RuntimeError:  # Qt has deleted this object, its owner's home being closed: nobody waits for them
            return
