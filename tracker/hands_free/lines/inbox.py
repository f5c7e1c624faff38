"""Typed lines, and what devices post, one after another in one queue; whoever reads it may put a line back.

Lines are read on a thread of their own, from the descriptor itself: a thread that waits within sys.stdin holds a lock
that the interpreter's end asks for. None stands for the end of the lines.
"""

import os
import queue
import threading
from collections import deque
from typing import TextIO

from tracker.hands_free.arrivals import Arrival, Told


class Inbox:
    """One queue for a whole sitting."""

    def __init__(self, lines: TextIO) -> None:
        self._lines = lines
        self._queue: queue.SimpleQueue[Arrival | str | None] = queue.SimpleQueue()
        self._back: deque[Arrival | str | None] = deque()
        self._reading = False
        self.told: set[str] = set()
        """What devices said of themselves while a piece was chosen: not to be said again as it opens."""

    @property
    def is_terminal(self) -> bool:
        """True when a maker types the lines."""
        return self._lines.isatty()

    def post(self, what: Arrival | str | None) -> None:
        """From any thread."""
        if isinstance(what, Told) and what.sentence in self.told:
            self.told.discard(what.sentence)
            return
        self._queue.put(what)

    def put_back(self, what: Arrival | str | None) -> None:
        """To be taken once more."""
        self._back.appendleft(what)

    def get(self, timeout: float | None) -> Arrival | str | None:
        """The next of all; raises queue.Empty when nothing comes in time."""
        return self._back.popleft() if self._back else self._queue.get(timeout=timeout)

    def read(self) -> None:
        """Begin to read the lines; once is enough."""
        if not self._reading:
            self._reading = True
            threading.Thread(target=self._read, name="lines", daemon=True).start()

    def _read(self) -> None:
        try:
            descriptor = self._lines.fileno() if os.name != "nt" else -1
        except (OSError, ValueError, AttributeError):
            descriptor = -1
        if descriptor < 0:
            for line in self._lines:
                self.post(line)
            self.post(None)
            return
        rest = b""
        while block := _block(descriptor):
            *whole, rest = (rest + block).split(b"\n")
            for each in whole:
                self.post(each.decode("utf-8", "replace"))
        if rest:
            self.post(rest.decode("utf-8", "replace"))
        self.post(None)


def _block(descriptor: int) -> bytes:
    try:
        return os.read(descriptor, 4096)
    except OSError:  # how a terminal that went away says so
        return b""
