"""A program in a pty with a clock on it: when its first page was there, and how long after a key it drew again."""

import os
import select
import signal
import struct
import sys
import time
from types import TracebackType

_QUIET_S = 0.25
_PATIENCE_S = 30.0


class Timed:
    """A program on a terminal of its own, 80 by 24."""

    def __init__(self, words: list[str], env: dict[str, str]) -> None:
        import fcntl
        import pty
        import termios

        self.began = time.perf_counter()
        self._process, self._terminal = pty.fork()
        if self._process == 0:
            os.execvpe(words[0], words, env)
        fcntl.ioctl(self._terminal, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
        self.sent = b""

    def __enter__(self) -> "Timed":
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        os.kill(self._process, signal.SIGKILL)
        os.waitpid(self._process, 0)
        os.close(self._terminal)

    def until(self, words: bytes) -> float:
        """Milliseconds from the program's start until these words had been sent."""
        while words not in self.sent:
            if not self.read(_PATIENCE_S):
                raise SystemExit(f"{words!r} was never drawn; the last that was: {self.sent[-500:]!r}")
        return (time.perf_counter() - self.began) * 1000

    def quiet(self) -> None:
        """Read on until nothing has come for a while."""
        while self.read(_QUIET_S):
            pass

    def press(self, key: bytes) -> float:
        """Milliseconds from a key until the first of what it changed was sent."""
        pressed = time.perf_counter()
        os.write(self._terminal, key)
        if not self.read(_PATIENCE_S):
            raise SystemExit("a key changed nothing")
        return (time.perf_counter() - pressed) * 1000

    def read(self, seconds: float) -> bool:
        """Take what is sent within that time; false when nothing was."""
        ready, _, _ = select.select([self._terminal], [], [], seconds)
        if not ready:
            return False
        try:
            sent = os.read(self._terminal, 65536)
        except OSError:  # how a pty says that the program has ended
            return False
        self.sent += sent
        return bool(sent)


def program(*words: str) -> list[str]:
    """A module of this Python as a command."""
    return [sys.executable, "-m", *words]
