"""The tables of a journal: how they came to be, and how a value becomes a row and a row the value again.

Named steps, in order, each carried out once in a transaction of its own. A step is never changed once it
has been published; a change is a new step at the end. A journal records the names of the steps it has been
through, so every later rowteller can open every earlier journal. A row gives back exactly the value that
went in; `sealed` says whether it still can, and never raises.
"""

import json
import zlib
from dataclasses import dataclass
from typing import Any

from tracker.journal.entries import Anchor, Entry, Text, digest_of

Row = tuple[Any, ...]
"""One row of a table, as SQLite takes and gives it."""

APPLICATION_ID = 0x524F5754
"""Marks the file as one of ours ("ROWT"), so that another program's database is never taken for a journal."""


@dataclass(frozen=True, slots=True)
class Migration:
    """One step from the tables as they were to the tables as they are."""

    name: str
    statements: tuple[str, ...]


CHANGES_NOTHING = "PRAGMA user_version = 0"
"""A transaction that leaves everything as it was and takes as much room in the log as a step does."""

RECORD = "CREATE TABLE IF NOT EXISTS migrations (name TEXT PRIMARY KEY, at_ms INTEGER NOT NULL) STRICT"
"""The table of the steps a journal has been through; it stands before the first of them."""

MIGRATIONS: tuple[Migration, ...] = (
    Migration(
        "entries, texts and facts",
        (
            f"PRAGMA application_id = {APPLICATION_ID}",
            # `arguments`, `place` and `anchor` are JSON, so that a journal can be read with any SQLite shell.
            # `seal` is the CRC-32 of the row's other columns: a bit turned over inside a value is noticed.
            """
            CREATE TABLE entries (
                number INTEGER PRIMARY KEY,
                at_ms INTEGER NOT NULL,
                deed TEXT NOT NULL,
                arguments TEXT NOT NULL,
                place TEXT NOT NULL,
                anchor TEXT,
                note TEXT NOT NULL,
                seal INTEGER NOT NULL
            ) STRICT
            """,
            """
            CREATE TABLE texts (
                number INTEGER PRIMARY KEY,
                at_ms INTEGER NOT NULL,
                source TEXT NOT NULL,
                digest TEXT NOT NULL,
                text TEXT NOT NULL,
                from_entry INTEGER NOT NULL
            ) STRICT
            """,
            # What is true of the whole piece (its name, later its hook and yarn). The latest of a key holds;
            # the earlier ones stay.
            """
            CREATE TABLE facts (
                number INTEGER PRIMARY KEY,
                at_ms INTEGER NOT NULL,
                key TEXT NOT NULL,
                value TEXT NOT NULL
            ) STRICT
            """,
        ),
    ),
)
"""Every step, oldest first."""

_ENTRY = "number, at_ms, deed, arguments, place, anchor, note"
_TEXT = "number, at_ms, source, digest, text, from_entry"
PUT_ENTRY = f"INSERT OR ABORT INTO entries ({_ENTRY}, seal) VALUES (?, ?, ?, ?, ?, ?, ?, ?)"
PUT_ENTRY_ONCE = PUT_ENTRY.replace("ABORT", "IGNORE")
GET_ENTRIES = f"SELECT {_ENTRY}, seal FROM entries ORDER BY number"
PUT_TEXT = f"INSERT INTO texts ({_TEXT}) VALUES (?, ?, ?, ?, ?, ?)"
GET_TEXTS = f"SELECT {_TEXT} FROM texts ORDER BY number"
PUT_FACT = "INSERT INTO facts (at_ms, key, value) VALUES (?, ?, ?)"
GET_FACTS = "SELECT at_ms, key, value FROM facts ORDER BY number"


def row_of(entry: Entry) -> Row:
    """The entry as a row of `entries`, sealed."""
    anchor = entry.anchor
    kept = anchor and _json(
        {
            "part": anchor.part,
            "copy": anchor.copy,
            "row_index": anchor.row_index,
            "label": anchor.label,
            "digest": anchor.digest,
            "passes": list(anchor.passes),
            "elements_done": anchor.elements_done,
        }
    )
    arguments, place = _json(dict(entry.arguments)), _json(list(entry.place))
    row = (entry.number, entry.at_ms, entry.deed, arguments, place, kept, entry.note)
    return (*row, _seal(row))


def entry_of(row: Row) -> Entry:
    """The row as the entry it was made from; ValueError when it is no longer that."""
    if not sealed(row):
        raise ValueError(f"entry {row[0]} was changed from outside")
    number, at_ms, deed, arguments, place, kept, note, _ = row
    anchor = None
    if kept is not None:
        said = json.loads(kept)
        anchor = Anchor(**{**said, "passes": tuple(said["passes"])})
    return Entry(number, at_ms, deed, json.loads(arguments), tuple(json.loads(place)), anchor, note)


def sealed(row: Row) -> bool:
    """Whether the row still is what was written."""
    return bool(_seal(row[:-1]) == row[-1])


def row_of_text(text: Text) -> Row:
    """The text as a row of `texts`."""
    return (text.number, text.at_ms, text.source, text.digest, text.text, text.from_entry)


def is_sound(row: Row) -> bool:
    """Whether the row of `texts` still holds the text its digest was made of."""
    return isinstance(row[4], str) and digest_of(row[4]) == row[3]


def _seal(columns: Row) -> int:
    # A separator that cannot stand in JSON keeps two columns from trading their ends.
    return zlib.crc32("\x1f".join(map(str, columns)).encode("utf-8", "surrogatepass"))


def _json(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"), allow_nan=False)
