"""One piece, one rowteller: takes a file beside the journal, gives it back when closed.

The system lets go of it by itself when the program dies, however it dies. The file stays: taking it away
would let two programs lock two files of one name.
"""

import json
import os
import re
import sys
from contextlib import suppress
from datetime import datetime
from pathlib import Path

from tracker.journal.troubles import FolderRefused, PieceHeld

if sys.platform == "win32":
    import msvcrt

    # Windows keeps others from reading what is locked, so a byte far behind the words is taken.
    _FAR = 1 << 30

    def _take(handle: int) -> None:
        os.lseek(handle, _FAR, os.SEEK_SET)
        msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)

else:
    import fcntl

    def _take(handle: int) -> None:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)


_TOLD_APART = re.compile(r"(?<=.)-[0-9a-f]{8}$")
"""What a journal's name ends in, and no maker has ever read."""


class Lock:
    """The right to write one journal, held until `close`."""

    def __init__(self, file: Path, at_ms: int) -> None:
        """Take the lock, or raise PieceHeld with who has it, or FolderRefused."""
        try:
            self._handle = os.open(file, os.O_RDWR | os.O_CREAT, 0o600)
        except OSError as refused:
            raise FolderRefused(
                f"rowteller may not write beside {file.stem!r} in {file.parent} ({refused.strerror}).",
                "Make that folder writable, or set ROWTELLER_HOME to a folder that is.",
            ) from refused
        try:
            _take(self._handle)
        except (BlockingIOError, PermissionError) as taken:
            held = _held(file)
            os.close(self._handle)
            raise held from taken
        except OSError as refused:
            os.close(self._handle)
            raise FolderRefused(
                f"{file.parent} is on a disk where files cannot be locked ({refused.strerror}).",
                "Set ROWTELLER_HOME to a folder on this machine's own disk.",
            ) from refused
        self._at_ms = at_ms
        self.remembered = _said(file)[2]
        """The number of the last step that was kept when the piece was put away; 0 when that is not known."""
        self.remember(self.remembered)

    def remember(self, number: int) -> None:
        """Note beside the journal how far it goes, so that a journal that ends too early is noticed."""
        words = json.dumps({"pid": os.getpid(), "since_ms": self._at_ms, "last": number})
        # Always of one length and in one write: a kill leaves the old words or the new. A full disk leaves
        # the lock as good as ever; only what it says grows old.
        with suppress(OSError):
            os.lseek(self._handle, 0, os.SEEK_SET)
            os.write(self._handle, words.ljust(100).encode())

    def close(self) -> None:
        """Let others have the piece."""
        if self._handle >= 0:
            os.close(self._handle)
            self._handle = -1


def _said(file: Path) -> tuple[int | None, int | None, int]:
    """Who last had the piece, since when, and the last step then; None and 0 for what is not told."""
    try:
        said = json.loads(file.read_bytes())
        return int(said["pid"]), int(said["since_ms"]), int(said["last"])
    except (OSError, ValueError, TypeError, KeyError):
        return None, None, 0


def _held(file: Path) -> PieceHeld:
    pid, since_ms, _ = _said(file)
    who = ""
    if since_ms is not None:
        with suppress(ValueError, OverflowError, OSError):
            since = datetime.fromtimestamp(since_ms / 1000)
            who = f" (process {pid} since {since:%Y-%m-%d %H:%M})"
    return PieceHeld(
        f"The piece {_TOLD_APART.sub('', file.stem)!r} is open in another rowteller{who}.",
        "Go on there, or close it there first.",
        pid,
        since_ms,
    )
