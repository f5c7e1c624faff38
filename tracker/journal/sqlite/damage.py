"""A journal that was hurt from outside: found out, and what still reads of it carried over into a new one.

Comes in: the file, and how far it went when it was put away. Goes out: what is wrong with it, and a Notice of what was
saved. Nothing is deleted: the damaged file keeps standing beside the new one.
"""

import sqlite3
from collections.abc import Iterator
from contextlib import closing, suppress
from datetime import UTC, datetime
from pathlib import Path

from tracker.journal.entries import Notice
from tracker.journal.sqlite import schema
from tracker.journal.sqlite.connection import code_of, connected, transaction, trouble_of

_BESIDE = ("", "-wal", "-shm")
"""SQLite's own files of one journal, by what follows the journal's name."""


def damage(file: Path, due: int) -> str | None:
    """What is wrong with the file, None when it is sound, new, or not there; `due` is its last step."""
    wal = file.with_name(f"{file.name}-wal")
    if not file.exists() or file.stat().st_size == 0:
        # SQLite would throw away a WAL that stands alone.
        lost = (wal.exists() and wal.stat().st_size) or (file.exists() and due)
        return "its main file is empty" if lost else None
    try:
        with closing(_reader(file)) as base:
            mark = base.execute("PRAGMA application_id").fetchone()[0]
            tables = {name for (name,) in base.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
            if mark != schema.APPLICATION_ID:
                # Begun and killed before its first tables stood, or never one of ours.
                if tables - {"migrations"}:
                    return "it is another program's database"
                return "all its steps are gone" if due else None
            if base.execute("PRAGMA quick_check(1)").fetchone()[0] != "ok":
                return "its pages do not fit together"
            if not all(map(schema.sealed, base.execute(schema.GET_ENTRIES))):
                return "a step in it was changed from outside"
            if not all(map(schema.is_sound, base.execute(schema.GET_TEXTS))):
                return "the pattern's text in it was changed from outside"
            # A WAL hurt in the middle ends there, and SQLite takes that for its end.
            last = base.execute("SELECT coalesce(max(number), 0) FROM entries").fetchone()[0]
            if last < due:
                return f"it ends at step {last}, and step {due} had been kept"
    except UnicodeDecodeError:  # SQLite quotes what it stumbles over
        return "it cannot be read"
    except sqlite3.DatabaseError as broken:
        if code_of(broken) not in (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB, sqlite3.SQLITE_ERROR):
            raise trouble_of(broken, file) from broken
        return "it cannot be read"
    return None


def mend(file: Path, mending: Path, fault: str, at_ms: int) -> Notice:
    """Make a new journal of what still reads, and only then set the damaged one aside."""
    for beside in ("", "-journal"):
        mending.with_name(mending.name + beside).unlink(missing_ok=True)  # a mending that was cut off
    # One plain file, no WAL beside it: it has to change its name in one move.
    with closing(connected(mending, at_ms, "DELETE")) as new, transaction(new, mending):
        if file.exists() and file.stat().st_size:
            _carry_over(file, new)
        carried = int(new.execute("SELECT count(*) FROM entries").fetchone()[0])
    aside = set_aside(file, at_ms)
    mending.rename(file)
    saved = (
        f"The {carried} steps that could still be read go on in a new journal."
        if carried
        else "No step of it could be read, so a new journal is begun."
    )
    return Notice(
        f"The journal of {file.stem!r} was damaged: {fault}.",
        f"{saved} The damaged one is kept as {aside}.",
    )


def _carry_over(file: Path, new: sqlite3.Connection) -> None:
    """Copy what still reads; entries keep their numbers, so that a gap says what was lost."""
    with closing(_reader(file)) as old:
        # SQLite reads nothing of a file that is shorter than it should be, unless told that this is a rescue.
        old.execute("PRAGMA writable_schema = ON")
        for row in filter(schema.is_sound, _readable(old, schema.GET_TEXTS)):
            new.execute(schema.PUT_TEXT, row)
        for row in _readable(old, schema.GET_FACTS):
            new.execute(schema.PUT_FACT, row)
        for way in ("ASC", "DESC"):  # from the end as well: a page in the middle may be gone
            for row in filter(schema.sealed, _readable(old, f"{schema.GET_ENTRIES} {way}")):
                new.execute(schema.PUT_ENTRY_ONCE, row)


def _readable(base: sqlite3.Connection, question: str) -> Iterator[schema.Row]:
    """The rows up to the first that cannot be read."""
    with suppress(sqlite3.DatabaseError, UnicodeDecodeError):
        yield from base.execute(question)


def _reader(file: Path) -> sqlite3.Connection:
    """The file as it is, nothing written or cleared away; broken letters are no reason to stop."""
    base = sqlite3.connect(f"{file.absolute().as_uri()}?mode=ro", uri=True, timeout=5)
    base.text_factory = lambda raw: raw.decode("utf-8", "replace")
    return base


def set_aside(file: Path, at_ms: int) -> Path:
    """Move the journal and SQLite's files beside it to a name that is free, and give that name."""
    day = datetime.fromtimestamp(at_ms / 1000, UTC)
    stem = f"{file.stem}.damaged-{day:%Y%m%d-%H%M%S}"
    aside, tries = file.with_name(f"{stem}{file.suffix}"), 2
    while aside.exists():
        aside, tries = file.with_name(f"{stem}-{tries}{file.suffix}"), tries + 1
    for beside in _BESIDE:
        part = file.with_name(file.name + beside)
        if part.exists():
            part.rename(aside.with_name(aside.name + beside))
    return aside
