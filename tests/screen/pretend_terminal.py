"""A terminal where there is none: runs a program in a pty and keeps what would be seen on its screen.

Comes in: words of a command, columns, rows, the environment. Goes out: the screen as lines of text, by
pyte, an emulator that is not ours; and every byte that was sent, to look for what a terminal would have
obeyed. A wait ends with an error after `SOON_S` and never hangs.
"""

from __future__ import annotations

import os
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pexpect
import pyte

SOON_S = 30


class Terminal:
    """A program on a screen."""

    def __init__(self, words: list[str], columns: int, rows: int, env: dict[str, str], folder: Path) -> None:
        self._screen = pyte.Screen(columns, rows)
        self._stream = pyte.ByteStream(self._screen)
        self.sent = b""
        self.child = pexpect.spawn(
            words[0], words[1:], dimensions=(rows, columns), env=env, cwd=str(folder), timeout=SOON_S
        )
        self.child.delaybeforesend = None

    @property
    def text(self) -> str:
        """What is seen now."""
        return "\n".join(line.rstrip() for line in self._screen.display)

    def until(self, words: str) -> str:
        """What is seen once these words are on the screen."""
        ends = time.monotonic() + SOON_S
        while words not in self.text:
            if time.monotonic() > ends:
                raise AssertionError(f"{words!r} never came to be seen:\n{self.text}")
            if not self.read(0.05) and not self.child.isalive():
                raise AssertionError(
                    f"the program ended before {words!r} was seen:\n{self.text}\n{self.sent[-2000:]!r}"
                )
        return self.text

    def press(self, keys: str) -> None:
        """Keys, as the terminal sends them."""
        self.child.send(keys)

    def until_over(self) -> int | None:
        """The exit status once the program has ended."""
        ends = time.monotonic() + SOON_S
        while self.child.isalive():
            self.read(0.05)
            if time.monotonic() > ends:
                raise AssertionError(f"the program never ended:\n{self.text}")
        while self.read(0.05):
            pass
        return self.child.exitstatus

    def read(self, seconds: float) -> bool:
        """Take what is sent within that time; false when nothing was."""
        try:
            sent = self.child.read_nonblocking(65536, seconds)
        except (pexpect.TIMEOUT, pexpect.EOF):
            return False
        self.sent += sent
        self._stream.feed(sent)
        return True


@contextmanager
def terminal(
    words: list[str], folder: Path, columns: int = 80, rows: int = 24, **more: str
) -> Iterator[Terminal]:
    """A program on a screen of its own, its home in the folder; gone when the block ends."""
    env = os.environ | {
        "TERM": "xterm-256color", "COLORTERM": "truecolor", "ROWTELLER_HOME": str(folder / "home"), "LANG": "C.UTF-8",
    } | more  # fmt: skip
    if "NO_COLOR" not in more:
        env.pop("NO_COLOR", None)
    found = Terminal(words, columns, rows, env, folder)
    try:
        yield found
    finally:
        try:
            found.child.close(force=True)
        except pexpect.ExceptionPexpect:
            # it looks for a tenth of a second; on a busy machine a killed process is gone a little later
            found.child.wait()
