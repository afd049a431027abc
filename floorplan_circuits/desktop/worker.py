"""The worker: findings are computed off the window's thread, and only the newest request is answered."""

from PySide6.QtCore import QObject, Signal

from floorplan_circuits.desktop.newest import Newest
from floorplan_circuits.findings import Findings, Layer
from floorplan_circuits.home.home import Home


class Finder(QObject):
    """Computes findings in a thread of its own. `found` brings them back to the window's thread."""

    found = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._before: Findings | None = None
        self._finding = Newest("findings", daemon=True)

    def ask(self, home: Home, layer: Layer = "both") -> None:
        """Ask for the findings of `home`; an older request that has not begun is dropped."""
        self._finding.ask(lambda: self._find(home, layer))

    def _find(self, home: Home, layer: Layer) -> None:
        from floorplan_circuits.find import find  # late: shapely must not delay the first frame

        self._before = find(home, self._before, layer)
        if not self._finding.is_overtaken():
            self._tell(self._before)

    def _tell(self, findings: Findings) -> None:
        try:
            self.found.emit(findings)
        except RuntimeError:  # Qt has deleted this object, its owner's home being closed: nobody waits for them
            return
