"""Work off the window's thread, one piece at a time: of the requests that wait, only the newest is done."""

from collections.abc import Callable
from threading import Lock, Thread

Work = Callable[[], None]


class Newest:
    """Does the newest piece of work it was asked for, in a thread that ends when none is left: never two at once.

    It holds no work but what waits, so that nobody's window is kept from being closed.
    """

    def __init__(self, name: str, *, daemon: bool) -> None:
        self._name, self._daemon = name, daemon
        self._lock = Lock()
        self._waiting: Work | None = None
        self._thread: Thread | None = None

    def ask(self, work: Work) -> None:
        """Ask for a piece of work; an older request that has not begun is dropped."""
        with self._lock:
            self._waiting = work
            if self._thread is None or not self._thread.is_alive():  # one that failed must not silence the next
                self._thread = Thread(target=self._run, name=self._name, daemon=self._daemon)
                self._thread.start()

    def is_overtaken(self) -> bool:
        """Tell whether a newer request waits than the one being worked on."""
        with self._lock:
            return self._waiting is not None

    def stop(self) -> None:
        """Drop the request that waits, and return when the piece at hand is done."""
        with self._lock:
            self._waiting = None
            thread = self._thread
        if thread is not None:
            thread.join()

    def _run(self) -> None:
        while True:
            with self._lock:
                work, self._waiting = self._waiting, None
                if work is None:
                    self._thread = None
                    return
            work()
