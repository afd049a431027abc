"""How long things take, against the bare libraries in the same run: `python -m tests.measure` prints a table. No test.

Every figure is a median of nine, but where the line says otherwise. Two that are compared run in turn, so that a
machine that slows down slows both.
"""

import gc
import os
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache, partial
from itertools import count, cycle
from pathlib import Path
from statistics import median
from time import perf_counter
from typing import Any

from floorplan_circuits.drawing.palette import LIGHT
from floorplan_circuits.drawing.plan import Plan, plan
from floorplan_circuits.edits.moving import move
from floorplan_circuits.files.open import Stored, open_home, read_home
from floorplan_circuits.files.save import text_of
from floorplan_circuits.find import find, shut_off
from floorplan_circuits.findings import Findings, Subject
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.resources import folder
from floorplan_circuits.printing import Wanted, make_sheet
from floorplan_circuits.supply.graph import supply_graph
from floorplan_circuits.surfaces.pdf import pdf_of
from tests import measure_bare, measure_paper
from tests.homes import generate

RUNS = 9
DEVICES = 5_000
SAMPLE = folder("sample_homes") / "cottage.json"
LARGEST_SAMPLE = folder("sample_homes") / "house.json"
FRAME_MS = 1000 / 60
CANVAS_PX = (1600, 1000)
CLOSE_UP = 37.8
"""House mm a paper mm at which a pixel of 1/96 inch is 10 mm: about a hundred devices are seen."""

Act = Callable[[], object]


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the table, in ms: ours, the bare one if there is one, and the most that ours may be."""

    what: str
    ours: float
    bare: float | None = None
    aim: float | None = None
    """As a multiple of the bare one; in ms where there is none."""

    def __str__(self) -> str:
        bare = "" if self.bare is None else f"{self.bare:.1f}"
        reached = "" if self.bare is None else f"{self.ours / self.bare:.2f}×"
        unit = "ms" if self.bare is None else "×"
        aim = "" if self.aim is None else f"≤ {self.aim:.1f} {unit}"
        return f"{self.what:<58}{self.ours:>9.1f}{bare:>9}{reached:>8}   {aim}"


def milliseconds(act: Act) -> float:
    """Return how long one call takes."""
    start = perf_counter()
    act()
    return (perf_counter() - start) * 1000


def alone(what: str, act: Act, aim: float | None = None) -> Row:
    """Measure one thing by itself."""
    return Row(what, median(milliseconds(act) for _ in range(RUNS)), None, aim)


def against(what: str, ours: Act, bare: Act, aim: float | None = None, runs: int = RUNS) -> Row:
    """Measure two things in turn."""
    pairs = [(milliseconds(ours), milliseconds(bare)) for _ in range(runs)]
    mine, theirs = zip(*pairs, strict=True)
    return Row(what, median(mine), median(theirs), aim)


# --- whole processes ------------------------------------------------------------------------------------------------

BARE_WINDOW = """
import os
from PySide6.QtCore import QEvent, QObject, QTimer
from PySide6.QtWidgets import QApplication, QGraphicsScene, QGraphicsView, QMainWindow
class Watch(QObject):
    def eventFilter(self, watched, event):
        if event.type() == QEvent.Type.Paint:
            QTimer.singleShot(0, lambda: os._exit(0))
        return False
application = QApplication([])
window, view = QMainWindow(), QGraphicsView(QGraphicsScene())
window.setCentralWidget(view)
window.resize(1280, 800)
watch = Watch()
view.viewport().installEventFilter(watch)
window.show()
application.exec()
"""

OUR_WINDOW = """
import gc, os, sys
gc.disable()  # as the command does
import floorplan_circuits.desktop.program as program
from PySide6.QtCore import QTimer
from floorplan_circuits.desktop.canvas import PlanCanvas
watched = program.Window if sys.argv[1] == "frame" else PlanCanvas
paint, show_level = watched.paintEvent, PlanCanvas.show_level
levels = []
def painted(widget, event):
    paint(widget, event)
    if sys.argv[1] == "frame" or levels:
        QTimer.singleShot(0, lambda: os._exit(0))
def shown(canvas, make, **more):
    levels.extend([1] if make else [])
    show_level(canvas, make, **more)
watched.paintEvent, PlanCanvas.show_level = painted, shown
from pathlib import Path
program.run(Path(sys.argv[2]))
"""

CHECK_LIBRARIES = "from pydantic import BaseModel; import argparse, json, shapely"
PRINT_LIBRARIES = f"{CHECK_LIBRARIES}; import reportlab.pdfgen.canvas, reportlab.pdfbase.ttfonts"
WITH_NETWORKX = "import networkx"


def process(*arguments: str) -> Act:
    """Return a call that runs Python on these arguments to its end; it has run once. Raises RuntimeError on failure."""

    def run() -> None:
        ended = subprocess.run([sys.executable, *arguments], capture_output=True, check=False, env=_environment())
        if ended.returncode not in (0, 1):  # `check` ends with 1 where it found hazards
            raise RuntimeError(ended.stderr.decode())

    run()
    return run


@cache
def _compiled() -> str:
    """Return a folder for compiled modules, so that ours are compiled as an installed program's are."""
    return tempfile.mkdtemp(prefix="compiled-")


def _environment() -> dict[str, str]:
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return {**kept, "PYTHONPYCACHEPREFIX": _compiled(), "QT_QPA_PLATFORM": "offscreen"}


def whole_processes() -> Iterator[Row]:
    """Measure cold starts and the command line."""
    bare_window = process("-c", BARE_WINDOW)
    home = str(SAMPLE)
    yield against("start to first painted window", process("-c", OUR_WINDOW, "frame", home), bare_window, 2.0)
    yield against("start to the painted plan of sample 1", process("-c", OUR_WINDOW, "plan", home), bare_window)
    check = process("-m", "floorplan_circuits", "check", home)
    yield against("check sample 1, against its libraries", check, process("-c", CHECK_LIBRARIES), 2.0)
    yield against("  the same, networkx among them", check, process("-c", f"{CHECK_LIBRARIES}; {WITH_NETWORKX}"), 2.0)
    with tempfile.TemporaryDirectory() as place:
        made = process("-m", "floorplan_circuits", "print", home, "--output", str(Path(place) / "map.pdf"))
        yield against("print sample 1, against its libraries", made, process("-c", PRINT_LIBRARIES), 2.0)
        yield against(
            "  the same, networkx among them", made, process("-c", f"{PRINT_LIBRARIES}; {WITH_NETWORKX}"), 2.0
        )


# --- a large home ---------------------------------------------------------------------------------------------------


def files() -> Iterator[Row]:
    """Measure opening and saving, the collector off on both sides."""
    home = generate(1, DEVICES).home
    text = text_of(home).encode()
    gc.disable()
    yield against(
        f"open {DEVICES:,} devices, against model_validate_json",
        lambda: read_home(text, Path("home.json")),
        lambda: Home.model_validate_json(text),
        1.5,
    )
    yield against(
        f"save {DEVICES:,} devices, against model_dump_json", lambda: text_of(home), home.model_dump_json, 1.5
    )
    gc.enable()


def finding() -> Iterator[Row]:
    """Measure finding everything about a home that was never met before, and about one with one box moved."""
    for size in (DEVICES // 10, DEVICES, 10 * DEVICES):
        yield _all_new(size)
    first = find(generate(1, DEVICES).home)
    yield alone(f"find again after one box moved, of {DEVICES:,} devices", _after_moves(first))


def _all_new(size: int) -> Row:
    """Measure homes that no cache has met, against the bare libraries on arrays of the like."""
    homes = iter([generate(seed, size).home for seed in range(2, 2 + RUNS)])
    given = measure_bare.ready(find(generate(1, size).home))
    gc.collect()
    gc.freeze()
    gc.disable()  # as the worker does
    try:
        what = f"find everything about {size:,} devices, all new"
        return against(what, lambda: find(next(homes)), lambda: measure_bare.analyse(given), 1.4)
    finally:
        gc.enable()


def _after_moves(first: Findings) -> Act:
    steps = count(1)

    def move_and_find() -> None:
        home = first.home
        box = home.boxes.rows[len(home.boxes) // 2]
        x, y = box.at or (0, 0)
        moved = box.changed(at=(x + next(steps), y))
        find(home.changed(boxes=home.boxes.put(moved)), first)

    return move_and_find


def shutting_off() -> Iterator[Row]:
    """Measure one shut-off after another of one home, against a bare minimum cut above the same boxes; and flips."""
    for size in (DEVICES // 10, DEVICES, 10 * DEVICES):
        yield from _shut_offs(size)
    for what, home in (
        ("sample 3", open_home(LARGEST_SAMPLE).home),
        (f"{DEVICES:,} devices", generate(1, DEVICES).home),
    ):
        yield alone(f"flip to repainted screen, {what}", _flips(home))


def _shut_offs(size: int) -> Iterator[Row]:
    found = find(generate(1, size).home)
    gc.collect()
    gc.freeze()
    boxes = [box for box in found.home.boxes if list(box.feeds()) and box.id in found.boxes]
    some = [boxes[(2 * at + 1) * len(boxes) // (2 * RUNS)] for at in range(RUNS)]
    yield Row(f"the first shut-off of {size:,} devices", milliseconds(lambda: shut_off(found, [boxes[0].id])))
    graph = supply_graph(found.home)
    bare = iter([measure_bare.ancestors(graph, [feed.id for feed in box.feeds()]) for box in some])
    each = iter(some)
    yield against(
        "  a further one, of another box each time",
        lambda: shut_off(found, [next(each).id]),
        lambda: measure_bare.least_cut(next(bare)),
        2.0,
    )
    gc.unfreeze()


def _flips(home: Home) -> Act:
    """Return a call that flips the next breaker on the panel and waits until the plan is painted as it would be."""
    from PySide6.QtWidgets import QApplication

    from floorplan_circuits.desktop.rail import SHUT_OFF

    window, settled = _window_on(home)
    shutting, application = window.work.shutting, QApplication.instance()
    window.work.staging.show(SHUT_OFF)
    settled()
    breakers = cycle(Subject("breaker", one) for one in home.breakers.ids())

    def flip() -> None:
        shutting.on_handle(next(breakers))
        while shutting._answer is None or shutting._answer.question is not shutting._asked:
            application.processEvents()
        window.work.canvas.repaint()

    flip()
    return flip


def canvas() -> Iterator[Row]:
    """Measure repaints of the canvas, the whole level in view and close up."""
    os.environ["QT_QPA_PLATFORM"] = "offscreen"
    from PySide6.QtGui import QPixmap
    from PySide6.QtWidgets import QApplication

    from floorplan_circuits.desktop.canvas import PlanCanvas

    application = QApplication.instance() or QApplication([])
    found = find(generate(1, DEVICES).home)
    level = found.home.levels.ids()[0]
    made: dict[float, Plan] = {}

    def make(scale: float) -> Plan:
        made.setdefault(scale, plan(found, level, scale, LIGHT))
        return made[scale]

    gc.freeze()
    gc.set_threshold(100_000, 20, 50)  # as the program does
    shown, ground = PlanCanvas(), QPixmap(*CANVAS_PX)
    shown.resize(*CANVAS_PX)
    shown.show_level(make)

    def anew() -> None:
        shown.show_level(make, keep_view=True)
        shown.render(ground)

    for name in ("all of it", "close up"):
        scale = shown.camera.scale
        yield alone(
            f"make the plan of {DEVICES:,} devices, {name}", lambda scale=scale: plan(found, level, scale, LIGHT)
        )
        anew()
        yield alone(f"compile its ink and paint it, {name}", anew)
        yield alone(f"repaint or pan, {name}", lambda: shown.render(ground), FRAME_MS)
        shown.zoom(shown.camera.scale / CLOSE_UP)
    del application


# --- paper ----------------------------------------------------------------------------------------------------------


def paper() -> Iterator[Row]:
    """Measure the wall map as a PDF, its time and its bytes, against the same marks drawn by reportlab alone."""
    homes = (("sample 3", open_home(LARGEST_SAMPLE).home, RUNS), (f"{DEVICES:,} devices", generate(1, DEVICES).home, 3))
    for what, home, runs in homes:
        start, found = perf_counter(), find(home)
        sheet = make_sheet(found, Wanted(), "2026-03-14")
        yield Row(f"find and lay out the wall map of {what}, once", (perf_counter() - start) * 1000)
        ours, bare = partial(pdf_of, sheet), partial(measure_paper.drawn, sheet)
        yield against(f"put it on {len(sheet.pages)} pages, median of {runs}", ours, bare, 1.4, runs)
        yield Row("  the file, in kB", len(ours()) / 1000, len(bare()) / 1000, 1.2)


# --- edits in the window --------------------------------------------------------------------------------------------


def editing() -> Iterator[Row]:
    """Measure from an edit to the screen that shows it: a box nudged in the sample, and among many devices."""
    for what, home in (("sample 1", open_home(SAMPLE).home), (f"{DEVICES:,} devices", generate(1, DEVICES).home)):
        yield alone(f"edit to repainted screen, {what}", _edits(home), FRAME_MS)


def _edits(home: Home) -> Act:
    window, settled = _window_on(home)
    session = window.session
    boxes = cycle(box.id for box in home.boxes if box.at is not None)

    def nudge() -> None:
        session.attempt(lambda now: move(now, [next(boxes)], (10, 0)))
        settled()

    settled()
    gc.collect()
    gc.freeze()
    return nudge


def _window_on(home: Home) -> tuple[Any, Act]:
    """Return a window that works on a home, and a call that waits until it shows what is known and paints it."""
    os.environ["QT_QPA_PLATFORM"] = "offscreen"
    from PySide6.QtCore import QSettings
    from PySide6.QtWidgets import QApplication

    from floorplan_circuits.desktop.session import Session
    from floorplan_circuits.desktop.window import Window

    application = QApplication.instance() or QApplication([])
    place = Path(tempfile.mkdtemp())
    window = Window(place / "rescue", QSettings(str(place / "settings.ini"), QSettings.Format.IniFormat))
    window.may_leave = lambda: True  # type: ignore[method-assign]  # nobody is there to answer
    window.resize(1280, 800)
    window.show()
    session = Session(Stored(home, {}, False, ""), None)
    window._work_on(session)

    def settled() -> None:
        while session.findings is None or session.findings.home is not session.home:
            application.processEvents()
        window.work.canvas.repaint()

    return window, settled


def main() -> None:
    """Print the table, or those of its parts that are named."""
    sys.stdout.write(f"{'median of nine':<58}{'ours ms':>9}{'bare ms':>9}{'ratio':>8}   aim\n")
    parts = {part.__name__: part for part in (whole_processes, files, finding, shutting_off, canvas, paper, editing)}
    for part in map(parts.__getitem__, sys.argv[1:] or parts):
        for row in part():
            sys.stdout.write(f"{row}\n")
            sys.stdout.flush()


if __name__ == "__main__":
    main()
