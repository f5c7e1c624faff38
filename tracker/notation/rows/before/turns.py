"""What the numbers of rows stand for, and rows worked by turns: "Rep Rows 4 and 5, working 1 less sc each side of dec".

Rows come in as they are read; the row that a number means goes out, or those that are worked by turns. And what a row
worked again goes into: "As Row 2, but working into tr".
"""

from collections.abc import Sequence

from tracker.notation.pattern import Row
from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.places.nouns import CHAINS
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.rows.before.growing import changes_count, fits_any_width
from tracker.notation.scan import T
from tracker.notation.tree import Item, Rerun

Turns = tuple[Row | None, ...]
"""Rows that are worked in turn, None for the one that grows; nothing where no rows are."""


class Numbered:
    """The last row of each number."""

    def __init__(self) -> None:
        self.own: dict[int, Row] = {}
        """Rows that tell their own stitches."""
        self._alike: dict[int, Row] = {}
        """The rows that "Row 4: Rep Row 2" means."""

    def note(self, row: Row) -> None:
        """Notes what a row's number stands for from here on."""
        if len(row.numbers) != 1:
            return
        number, rerun = row.numbers[0], row.rerun
        if rerun is None:
            self.own[number] = row
            self._alike.pop(number, None)
        elif len(rerun.rows) == 1 and (meant := self._meant(rerun.rows[0])) is not None:
            self._alike[number] = meant

    def _meant(self, number: int) -> Row | None:
        return self._alike.get(number) or self.own.get(number)

    def by_turns(self, rerun: Rerun | None, numbers: Sequence[int], shaped: Row | None) -> Turns:
        """The rows that a range works in turn, of which only the one shaped last changes with the width."""
        named = rerun.rows if rerun is not None else ()
        grows = shaped.numbers[0] if shaped is not None and len(shaped.numbers) == 1 else 0
        if not 2 <= len(named) <= 8 or grows not in named or numbers[0] != named[-1] + 1:
            return ()
        turns = tuple(None if number == grows else self._meant(number) for number in named)
        plain = [row for row in turns if row and fits_any_width(row) and not changes_count(row.items)]
        return turns if len(plain) == len(named) - 1 else ()


_BELOW = frozenset("previous prev last row rnd round below before the of".split())
_INSTEAD = (("instead", "of"), ("rather", "than"), ("in", "place", "of"), ("and", "not"), ("not",))


def into_others(c: Cursor, items: Sequence[Item]) -> list[Item] | None:
    """The items as they are, with the words taken: a row worked again goes into what stands there, whatever its name.

    None where the words name no stitch that is worked into; the cursor may have moved then.
    """
    c.take_any("working", "work", "worked", "crocheting")
    if not (c.take("into") or c.text() == "in" and c.text(1) == "the" and c.take("in")):
        return None
    c.take_any("each", "every")
    c.take_any("the")
    if not _named(c):
        return None
    while c.take_any(*_BELOW):
        pass
    if any(c.take(*words) for words in _INSTEAD):
        while c.take_any("into", "in", "the", "each", "foundation", "base", "starting"):
            pass
        if not _named(c):
            return None
        while c.take_any(*_BELOW):
            pass
    over = c.kind() in (T.COMMA, T.SEMICOLON, T.PERIOD, T.OPEN, T.COLON, T.DASH, T.END)
    return list(items) if over or c.i >= c.end else None


def _named(c: Cursor) -> bool:
    """Takes the name of a plain stitch, or "ch"."""
    stitch = stitch_here(c)
    if stitch is not None and stitch.special is None and not stitch.loop:
        c.i += stitch.tokens
        c.take_any("st", "sts", "stitch", "stitches")
        return True
    return bool(c.take_any(*CHAINS))
