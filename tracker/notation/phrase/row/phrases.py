"""One phrase: what it says is added to the items; prose when it can't be read."""

from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.row.reading import Reading
from tracker.notation.phrase.row.remarked.prose import prose
from tracker.notation.phrase.row.ways.table import ways_of
from tracker.notation.tree import Item


def phrase(c: Cursor, reading: Reading, items: list[Item]) -> None:
    """One phrase, read in the first way that fits; prose when none does."""
    start = c.i
    for read in ways_of(c.text(), c.kind()):
        if read(c, reading, items):
            return
    c.i = start
    prose(c, reading, items)
