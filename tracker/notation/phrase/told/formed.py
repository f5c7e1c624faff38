"""Rows said to be the pattern, and worked again: "Rows 2 to 5 form the pattern. Rep them 3 times more."

The cursor stands where a row's text begins; the rows come out with the cursor before "3 times more", or None with the
cursor where it was.
"""

from collections.abc import Callable, Sequence

from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.until import ROWS, last_rows
from tracker.notation.scan import T

_FORM = ("form", "set", "establish", "make", "are", "complete", "constitute")
"""How words begin that say what rows are."""
_GOES_ON = frozenset("rep repeat cont continue work".split())


def formed_here(
    c: Cursor, numbers: Callable[[Cursor], Sequence[int] | None]
) -> tuple[Sequence[int], int] | None:
    """The rows by their numbers, or how many of the last; `numbers` reads such as "Rows 2 to 5"."""
    start = c.i
    while c.take_any("the", "these", "those"):
        pass
    found = numbers(c) if c.text() in ROWS or c.kind() is T.ORDINAL else None
    last = 0 if found else last_rows(c)
    if (found or last) and c.text().startswith(_FORM) and _pattern_named(c):
        while c.kind() in (T.PERIOD, T.COMMA, T.SEMICOLON) or c.text() in ("and", "then"):
            c.i += 1
        if c.take_any(*_GOES_ON):
            c.take_any("to")
            c.take_any("work", "rep", "repeat")
            while c.take_any("in", "them", "these", "those", "this", "the", "pattern", "patt", "pat", *ROWS):
                pass
            if c.value() is not None and c.text(1) in ROWS and c.text(-1) in ("these", "those", "the"):
                c.i += 2
            return found or (), last
    c.i = start
    return None


def _pattern_named(c: Cursor) -> bool:
    """Takes "form the stitch pattern"; False where the sentence names no pattern."""
    named = False
    while c.kind() is T.WORD and c.text() not in ("and", "then"):
        named = named or c.text() in ("pattern", "patt", "pat", "repeat")
        c.i += 1
    return named
