"""A piece's journal as a file, in SQLite.

Comes in: the values of `entries`. Goes out: the same values, as they were. `append` returns only when the
entry is on the disk. A damaged file is set aside with a Notice, never deleted, and what of it can be read
goes on in the new one. Whatever the system refuses is a JournalTrouble; nothing that was appended before is
touched by it.
"""

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from pathlib import Path
from types import TracebackType

from tracker.journal.entries import Entry, Notice, Text, digest_of
from tracker.journal.lock import Lock
from tracker.journal.sqlite import schema
from tracker.journal.sqlite.connection import connected, transaction, trouble_of
from tracker.journal.sqlite.damage import damage, mend, set_aside
from tracker.journal.troubles import FolderRefused, JournalTrouble
from tracker.journal.whole import Fact, Whole

_STEPS_LAID_OUT = 250  # about 1 MB of log, before it is begun again from the front


class Journal:
    """One piece's journal, open for this program alone; close it, or use it in a `with`."""

    def __init__(self, file: Path, lock: Lock | None, base: sqlite3.Connection) -> None:
        """Only `open_journal` makes one."""
        self.file = file
        self._lock = lock
        self._base = base
        self._last: int | None = None
        self._unremembered = 0
        """The last step, as long as the lock does not say that it is; 0 when it does."""

    def append(self, entry: Entry) -> None:
        """Write one entry; when this returns, it outlives a kill and a power cut."""
        due = self.last_number + 1
        if entry.number != due:
            raise ValueError(f"entry {entry.number} where {due} is due")
        self.remember()
        self._write(schema.PUT_ENTRY, schema.row_of(entry))
        self._ends_at(entry.number)

    def append_all(self, entries: tuple[Entry, ...]) -> None:
        """Write several entries, all or none."""
        due = self.last_number + 1
        if [entry.number for entry in entries] != list(range(due, due + len(entries))):
            raise ValueError(f"entries from {due} on are due")
        with transaction(self._base, self.file):
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
            self._last = self._unremembered = number

    def remember(self) -> None:
        """Have the lock say how far the journal goes: after a step was shown, and at the latest before the next one."""
        if self._unremembered and self._lock is not None:
            self._lock.remember(self._unremembered)
            self._unremembered = 0

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
            self.remember()
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
            raise trouble_of(broken, self.file) from broken

    def _write(self, statement: str, row: schema.Row) -> None:
        """One statement is a transaction by itself."""
        try:
            self._base.execute(statement, row)
        except sqlite3.Error as broken:
            raise trouble_of(broken, self.file) from broken


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
            set_aside(file, at_ms)
            mending.rename(file)
        fault = damage(file, lock.remembered)
        notices = () if fault is None else (mend(file, mending, fault, at_ms),)
    except OSError as refused:
        raise FolderRefused(
            f"The journal {file} cannot be read or moved ({refused.strerror}).",
            "Make the file and its folder yours to read and write.",
        ) from refused
    journal = Journal(file, lock, connected(file, at_ms))
    lock.remember(journal.last_number)
    return journal, notices
