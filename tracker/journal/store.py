"""The one place that knows SQLite: a piece's journal as a file.

Comes in: the values of `entries`. Goes out: the same values, as they were. `append` returns only when the
entry is on the disk. A damaged file is set aside with a Notice, never deleted, and what of it can be read
goes on in the new one. Whatever the system refuses is a JournalTrouble; nothing that was appended before is
touched by it.
"""

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from datetime import UTC, datetime
from pathlib import Path
from types import TracebackType

from tracker.journal import schema
from tracker.journal.entries import Entry, Notice, Text, digest_of
from tracker.journal.lock import Lock
from tracker.journal.troubles import FolderRefused, JournalTrouble, NewerJournal, NoRoom, NotWritten
from tracker.journal.whole import Fact, Whole

_BESIDE = ("", "-wal", "-shm")
"""SQLite's own files of one journal, by what follows the journal's name."""
_STEPS_LAID_OUT = 250  # about 1 MB of log, before it is begun again from the front


class Journal:
    """One piece's journal, open for this program alone; close it, or use it in a `with`."""

    def __init__(self, file: Path, lock: Lock | None, base: sqlite3.Connection) -> None:
        """Only `open_journal` makes one."""
        self.file = file
        self._lock = lock
        self._base = base
        self._last: int | None = None

    def append(self, entry: Entry) -> None:
        """Write one entry; when this returns, it outlives a kill and a power cut."""
        due = self.last_number + 1
        if entry.number != due:
            raise ValueError(f"entry {entry.number} where {due} is due")
        self._write(schema.PUT_ENTRY, schema.row_of(entry))
        self._ends_at(entry.number)

    def append_all(self, entries: tuple[Entry, ...]) -> None:
        """Write several entries, all or none."""
        due = self.last_number + 1
        if [entry.number for entry in entries] != list(range(due, due + len(entries))):
            raise ValueError(f"entries from {due} on are due")
        with _transaction(self._base, self.file):
            for entry in entries:
                self._base.execute(schema.PUT_ENTRY, schema.row_of(entry))
        if entries:
            self._ends_at(entries[-1].number)

    def whole(self) -> Whole:
        """All that is kept of the piece, as one value."""
        facts = tuple(Fact(*row) for row in self._asked(schema.GET_FACTS))
        return Whole(self.all(), self.texts(), facts)

    @property
    def last_number(self) -> int:
        """The number of the last entry, 0 before the first."""
        if self._last is None:
            last = int(self._asked("SELECT coalesce(max(number), 0) FROM entries")[0][0])
            if self._lock is None:
                return last  # another program may be writing it
            self._last = last
        return self._last

    def _ends_at(self, number: int) -> None:
        """Under the lock nobody else writes, so the end need not be asked for at every step."""
        if self._lock is not None:
            self._last = number
            self._lock.remember(number)

    def last(self) -> Entry | None:
        """The latest entry, None before the first."""
        found = self._asked(f"{schema.GET_ENTRIES} DESC LIMIT 1")
        return schema.entry_of(found[0]) if found else None

    def all(self) -> tuple[Entry, ...]:
        """Every entry in order."""
        return tuple(map(schema.entry_of, self._asked(schema.GET_ENTRIES)))

    def text(self) -> Text | None:
        """The pattern's text the piece is worked from now, None before the first."""
        found = self._asked(f"{schema.GET_TEXTS} DESC LIMIT 1")
        return Text(*found[0]) if found else None

    def texts(self) -> tuple[Text, ...]:
        """Every text the piece was ever worked from, oldest first."""
        return tuple(Text(*row) for row in self._asked(schema.GET_TEXTS))

    def edited_since(self, text: str) -> Text | None:
        """The text kept last, if `text` is no longer that; None when it still is, or none is kept yet."""
        kept = self.text()
        return None if kept is None or kept.digest == digest_of(text) else kept

    def keep_text(self, text: str, source: str, at_ms: int) -> None:
        """Work from this text from now on; the earlier ones stay. The same text again changes nothing."""
        kept = self.text()
        if kept is not None and (kept.digest, kept.source) == (digest_of(text), source):
            return
        number = 1 if kept is None else kept.number + 1
        new = Text(number, at_ms, source, digest_of(text), text, self.last_number + 1)
        self._write(schema.PUT_TEXT, schema.row_of_text(new))

    def fact(self, key: str) -> str | None:
        """What was last said of the whole piece under this name, None when nothing was."""
        found = self._asked("SELECT value FROM facts WHERE key = ? ORDER BY number DESC LIMIT 1", (key,))
        return str(found[0][0]) if found else None

    def set_fact(self, key: str, value: str, at_ms: int) -> None:
        """Say something of the whole piece (its name); what was said before stays in the journal."""
        self._write(schema.PUT_FACT, (at_ms, key, value))

    def lay_out(self) -> None:
        """Have the disk give the log its room now: a step that only writes over it is synced in half the time."""
        with suppress(sqlite3.Error):  # a disk with no room for it is told of at the first step that has none
            try:
                self._base.execute("PRAGMA synchronous = OFF")
                for _ in range(_STEPS_LAID_OUT):
                    self._base.execute(schema.CHANGES_NOTHING)
            finally:
                self._base.execute("PRAGMA synchronous = FULL")
            self._base.execute("PRAGMA wal_checkpoint(RESTART)")
            self._base.execute(f"PRAGMA wal_autocheckpoint = {_STEPS_LAID_OUT}")

    def let_go(self) -> None:
        """Let go of the file and keep the lock, so that the file can be moved."""
        with suppress(sqlite3.Error):
            self._base.close()

    def close(self) -> None:
        """Let go of the file and of the lock."""
        with suppress(sqlite3.Error):  # all is committed already; a full disk only keeps the WAL beside it
            self._base.close()
        if self._lock is not None:
            self._lock.close()

    def __enter__(self) -> "Journal":
        return self

    def __exit__(
        self, kind: type[BaseException] | None, fault: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def _asked(self, question: str, words: schema.Row = ()) -> list[schema.Row]:
        try:
            return self._base.execute(question, words).fetchall()
        except sqlite3.Error as broken:
            raise _trouble(broken, self.file) from broken

    def _write(self, statement: str, row: schema.Row) -> None:
        with _transaction(self._base, self.file):
            self._base.execute(statement, row)


def open_journal(file: Path, at_ms: int) -> tuple[Journal, tuple[Notice, ...]]:
    """Open a piece's journal, or begin one; the notices are for the maker's ears.

    `at_ms` is the time now, in milliseconds since 1970 in UTC.
    """
    try:
        file.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    except OSError as refused:
        raise FolderRefused(
            f"The folder {file.parent} for your pieces cannot be made ({refused.strerror}).",
            "Make room for it, or set ROWTELLER_HOME to a folder you may write in.",
        ) from refused
    lock = Lock(file.with_suffix(".lock"), at_ms)
    try:
        return _opened(file, lock, at_ms)
    except BaseException:
        lock.close()
        raise


def glance(file: Path) -> tuple[Entry | None, Text | None, str | None]:
    """The last entry, the text in use and the name of a piece, which another program may have open.

    Nothing is written. ValueError when the file is damaged, is no journal, or cannot be read.
    """
    with _read_only(file) as journal:
        return journal.last(), journal.text(), journal.fact("name")


def whole_of(file: Path) -> Whole:
    """All that is kept of a piece, under the same terms as `glance`."""
    with _read_only(file) as journal:
        return journal.whole()


@contextmanager
def _read_only(file: Path) -> Iterator[Journal]:
    """A journal to read beside whoever writes it; ValueError when it cannot be."""
    try:
        with closing(sqlite3.connect(f"{file.absolute().as_uri()}?mode=ro", uri=True, timeout=1)) as base:
            yield Journal(file, None, base)
    except (sqlite3.Error, JournalTrouble) as broken:
        raise ValueError(str(broken)) from broken


def _opened(file: Path, lock: Lock, at_ms: int) -> tuple[Journal, tuple[Notice, ...]]:
    mending = file.with_name(f"{file.stem}.mending{file.suffix}")
    try:
        if mending.exists() and not file.exists():  # a mending was cut off between its two moves
            _set_aside(file, at_ms)
            mending.rename(file)
        fault = _damage(file, lock.remembered)
        notices = () if fault is None else (_mend(file, mending, fault, at_ms),)
    except OSError as refused:
        raise FolderRefused(
            f"The journal {file} cannot be read or moved ({refused.strerror}).",
            "Make the file and its folder yours to read and write.",
        ) from refused
    journal = Journal(file, lock, _connected(file, at_ms))
    lock.remember(journal.last_number)
    return journal, notices


def _damage(file: Path, due: int) -> str | None:
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
        if _code(broken) not in (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB, sqlite3.SQLITE_ERROR):
            raise _trouble(broken, file) from broken
        return "it cannot be read"
    return None


def _mend(file: Path, mending: Path, fault: str, at_ms: int) -> Notice:
    """Make a new journal of what still reads, and only then set the damaged one aside."""
    for beside in ("", "-journal"):
        mending.with_name(mending.name + beside).unlink(missing_ok=True)  # a mending that was cut off
    # One plain file, no WAL beside it: it has to change its name in one move.
    with closing(_connected(mending, at_ms, "DELETE")) as new, _transaction(new, mending):
        if file.exists() and file.stat().st_size:
            _carry_over(file, new)
        carried = int(new.execute("SELECT count(*) FROM entries").fetchone()[0])
    aside = _set_aside(file, at_ms)
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


def _connected(file: Path, at_ms: int, mode: str = "WAL") -> sqlite3.Connection:
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
        raise _trouble(broken, file) from broken
    return base


def _migrate(base: sqlite3.Connection, file: Path, at_ms: int) -> None:
    with _transaction(base, file):
        base.execute(schema.RECORD)
    done = {name for (name,) in base.execute("SELECT name FROM migrations")}
    if unknown := done - {step.name for step in schema.MIGRATIONS}:
        raise NewerJournal(
            f"The journal of {file.stem!r} was written by a later rowteller ({', '.join(sorted(unknown))}).",
            "Update rowteller on this machine; nothing was changed.",
        )
    for step in schema.MIGRATIONS:
        if step.name not in done:
            with _transaction(base, file):
                for statement in step.statements:
                    base.execute(statement)
                base.execute("INSERT INTO migrations VALUES (?, ?)", (step.name, at_ms))


def _set_aside(file: Path, at_ms: int) -> Path:
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


@contextmanager
def _transaction(base: sqlite3.Connection, file: Path) -> Iterator[None]:
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
        raise _trouble(broken, file) from broken


_NO_ROOM = ("SQLITE_IOERR_WRITE", "SQLITE_IOERR_SHMSIZE", "SQLITE_IOERR_TRUNCATE")
"""How SQLite names a file that may not grow, beside SQLITE_FULL."""


def _trouble(broken: sqlite3.Error, file: Path) -> JournalTrouble:
    """SQLite's fault in a maker's words."""
    code = _code(broken)
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


def _code(broken: sqlite3.Error) -> int:
    """SQLite's own primary code; a fault that Python's module found by itself counts as SQLITE_ERROR."""
    return int(getattr(broken, "sqlite_errorcode", sqlite3.SQLITE_ERROR)) & 0xFF
