"""Stitches a row tells in hook movements: "(insert hook in next st, draw up a lp) twice, yo, draw through all lps".

The cursor stands on the bracket; a decrease comes out, or None with the cursor where it was.
"""

from tracker.notation.definitions.movements import MOVES, legs
from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.stitches import base_of, stitch_here
from tracker.notation.scan import T
from tracker.notation.tree import Item, Where, Which, Work

_OVER = frozenset("yo yrh yoh yarn".split())
_NAMED = frozenset("decreased dec made worked tog decrease together".split())
"""What a bracket behind the movements says of the stitch they make."""


def moved_together(c: Cursor) -> list[Item] | None:
    """Stitches begun in so many places and closed into one; those in one and the same place are left to their names."""
    start, close = c.i, c.partners.get(c.i)
    if close is None:
        return None
    words = " ".join(token.text for token in c.tokens[start + 1 : close])
    if not MOVES.search(words) or "same" in words or "next" not in words:
        return None
    c.i = close + 1
    times = c.times_here()
    base = legs(words) or ("hdc" if words.split()[0] in _OVER else "")
    if times is None or not base or not 2 <= times[0] <= 9:
        c.i = start
        return None
    c.i += times[1]
    if not _closes(c):
        c.i = start
        return None
    base = _named_behind(c) or base
    span = c.span_from(start)
    return [Work(f"{base}{times[0]}tog", 1, Where(Which.STRAIGHT, span), span)]


def _closes(c: Cursor) -> bool:
    """Takes ", yo, draw through all 3 lps on hook"."""
    closed = False
    while c.kind() not in (T.END, T.PERIOD, T.OPEN, T.CLOSE, T.SEMICOLON):
        if c.kind() is T.COMMA and (closed or c.text(1) not in _OVER | {"and", "draw", "pull", "then"}):
            break
        closed = closed or c.text() == "through"
        c.i += 1
    return closed


def _named_behind(c: Cursor) -> str:
    """Takes "(1 htr decreased)", "(dc2tog made)": the plain stitch it names; "" for none."""
    close = c.partners.get(c.i) if c.kind() is T.OPEN else None
    if (
        close is None
        or close > c.i + 7
        or not any(token.text in _NAMED or token.text.endswith("tog") for token in c.tokens[c.i + 1 : close])
    ):
        return ""
    named = next((s for k in range(1, close - c.i) if (s := stitch_here(c, k)) is not None), None)
    c.i = close + 1
    return base_of(named.name) if named is not None else ""
