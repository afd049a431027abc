"""Draws one SVG drawing in a process of its own: from standard input to a PNG picture on standard output.

It is started by `svg_plans` and ended by it if it takes too long; what it takes of memory and time is bounded.
"""

import os
import sys

SECONDS, MEMORY = 10, 3 * 2**30
"""Of processor time and of bytes of address space; Qt's libraries alone take a good part of the latter."""


def main() -> int:
    """Draw what comes in at the size the one argument says; return 0, or 1 where nothing could be drawn."""
    _bound()
    os.environ["QT_QPA_PLATFORM"] = "offscreen"
    from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QSize, Qt
    from PySide6.QtGui import QGuiApplication, QImage, QPainter
    from PySide6.QtSvg import QSvgRenderer

    longest = int(sys.argv[1])
    _app = QGuiApplication([])
    renderer = QSvgRenderer(QByteArray(sys.stdin.buffer.read()))
    shape = renderer.viewBoxF().size()
    if not renderer.isValid() or shape.isEmpty():
        return 1
    size = shape.scaled(longest, longest, Qt.AspectRatioMode.KeepAspectRatio).toSize()
    image = QImage(size.expandedTo(QSize(1, 1)), QImage.Format.Format_RGB32)
    image.fill(Qt.GlobalColor.white)
    painter = QPainter(image)
    renderer.render(painter)
    painter.end()
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    image.save(buffer, "PNG")  # type: ignore[call-overload]  # the stubs want bytes, the library text
    sys.stdout.buffer.write(bytes(buffer.data().data()))
    return 0


def _bound() -> None:
    """Bound this process, where the system can."""
    try:
        import resource
    except ImportError:  # Windows has no such bounds: there the time of the one who waits is the bound
        return
    resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS))
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))


if __name__ == "__main__":
    sys.exit(main())
