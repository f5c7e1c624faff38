"""A file as SQLite's: opened, brought up to date, written all or nothing, and its faults in a maker's words.

Whatever SQLite refuses is a JournalTrouble.
"""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from tracker.journal.sqlite import schema
from tracker.journal.troubles import FolderRefused, JournalTrouble, NewerJournal, NoRoom, NotWritten


def connected(file: Path, at_ms: int, mode: str = "WAL") -> sqlite3.Connection:
    """The file as a database with every migration done."""
    try:
        base = sqlite3.connect(file, isolation_level=None, timeout=5)
        try:
            base.execute(f"PRAGMA journal_mode = {mode}")
            base.execute("PRAGMA synchronous = FULL")
            base.execute("PRAGMA fullfsync = ON")  # macOS alone needs to be told; elsewhere it says nothing
            _migrate(base, file, at_ms)
        except BaseException:
            base.close()
            raise
    except sqlite3.Error as broken:
        raise trouble_of(broken, file) from broken
    return base


def _migrate(base: sqlite3.Connection, file: Path, at_ms: int) -> None:
    with transaction(base, file):
        base.execute(schema.RECORD)
    done = {name for (name,) in base.execute("SELECT name FROM migrations")}
    if unknown := done - {step.name for step in schema.MIGRATIONS}:
        raise NewerJournal(
            f"The journal of {file.stem!r} was written by a later rowteller ({', '.join(sorted(unknown))}).",
            "Update rowteller on this machine; nothing was changed.",
        )
    for step in schema.MIGRATIONS:
        if step.name not in done:
            with transaction(base, file):
                for statement in step.statements:
                    base.execute(statement)
                base.execute("INSERT INTO migrations VALUES (?, ?)", (step.name, at_ms))


@contextmanager
def transaction(base: sqlite3.Connection, file: Path) -> Iterator[None]:
    """All of it or nothing, on the disk when the block ends."""
    try:
        base.execute("BEGIN IMMEDIATE")
        try:
            yield
            base.execute("COMMIT")
        except BaseException:
            with suppress(sqlite3.Error):  # SQLite itself rolls back where the disk is full
                base.execute("ROLLBACK")
            raise
    except sqlite3.Error as broken:
        raise trouble_of(broken, file) from broken


_NO_ROOM = ("SQLITE_IOERR_WRITE", "SQLITE_IOERR_SHMSIZE", "SQLITE_IOERR_TRUNCATE")
"""How SQLite names a file that may not grow, beside SQLITE_FULL."""


def trouble_of(broken: sqlite3.Error, file: Path) -> JournalTrouble:
    """SQLite's fault in a maker's words."""
    code = code_of(broken)
    if code == sqlite3.SQLITE_FULL or getattr(broken, "sqlite_errorname", "") in _NO_ROOM:
        return NoRoom(
            f"There is no room left on the disk to keep your step in {file.parent}.",
            "Make room and say it again; every step before it is kept.",
        )
    if code in (sqlite3.SQLITE_READONLY, sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_PERM):
        return FolderRefused(
            f"rowteller may not write {file.name} in {file.parent}.",
            "Make the file and its folder writable, or set ROWTELLER_HOME to a folder you may write in.",
        )
    if code in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED):
        return NotWritten(
            f"Another program is using {file.name}, so your step could not be kept.",
            "Close it and say the step again; every step before it is kept.",
        )
    return NotWritten(
        f"The journal {file} could not be read or written ({broken}).",
        "Say it again; if this comes back, close rowteller and open the piece anew.",
    )


def code_of(broken: sqlite3.Error) -> int:
    """SQLite's own primary code; a fault that Python's module found by itself counts as SQLITE_ERROR."""
    return int(getattr(broken, "sqlite_errorcode", sqlite3.SQLITE_ERROR)) & 0xFF
