"""How many rows a sentence without a label speaks of: "Work 9 rows even: …", "Work even in sc for 4 more rows".

The cursor stands at its beginning; a number comes out, or None with the cursor where it was.
"""

from tracker.notation.phrase.cursor import Cursor, partners
from tracker.notation.phrase.told.even import as_set_here
from tracker.notation.scan import T

_ROW_WORDS = frozenset("rows row rnds rnd rounds round".split())
_PLAINLY = frozenset("even in pattern of plain straight as follows each".split())
"""Words behind "work 9 rnds" that change nothing."""
_CLOSING = (T.END, T.PERIOD, T.OPEN, T.DASH, T.COLON)
"""What may stand behind "for 4 more rows"."""


def _rows_at_end(c: Cursor, kind: str) -> tuple[int | None, str]:
    """ "Work even in sc for 4 more rows": how many, and their kind; the cursor then ends before "for"."""
    if c.text() not in ("work", "continue", "cont"):
        return None, kind
    for k in range(c.i + 1, c.end - 1):
        if c.tokens[k].text == "for":
            save, c.i = c.i, k + 1
            c.take_any("the", "a", "another")
            c.take("next")
            value = c.value()
            c.i += 1
            c.take_any("more", "further", "additional")
            word, behind = c.text(), c.i + 1
            after = c.kind(1)
            c.i = save
            if value is not None and word in _ROW_WORDS and after in _CLOSING:
                del c.tokens[k:behind]
                c.end = len(c.tokens) - 1
                c.partners = partners(c.tokens)
                return min(value, 10_000), "row" if word.startswith("row") else "round"
            break
    return None, kind


def _on_so_many(c: Cursor) -> None:
    """Takes "on these 7 sts": the rows are worked on all that stands."""
    i = c.i
    if c.take_any("on", "over", "across") and c.take_any("these", "those", "the", "all"):
        c.take_any("same", "last", "first", "rem", "remaining")
        if c.value() is not None and c.text(1) in ("st", "sts", "stitches", "sc", "hdc", "dc", "tr", "htr"):
            c.i += 2
            c.take("only")
            return
        if c.take_any("sts", "stitches"):
            return
    c.i = i


def _names_rows(c: Cursor) -> bool:
    """True for "as Row 2", "as the last row": the rows that are meant."""
    ahead = 2 if c.text(1) == "the" else 1
    return c.text(ahead) in _ROW_WORDS or c.text(ahead) in ("last", "previous") or c.kind(ahead) is T.ORDINAL


def count_of_rows(c: Cursor, kind: str) -> tuple[int | None, str]:
    """ "Work 9 rnds even:", "Next 8 rows:": how many, and their kind; the cursor moves past it."""
    start = c.i
    if c.take_any("finish", "end", "ending"):
        c.take("off")
        c.take("with")
    article = False
    while word := c.take_any("work", "next", "for", "the", "another", "a", "further"):
        article = article or word in ("a", "another")
    if article:
        c.take_any("final", "last")
    value = c.value()
    if value is None and article and c.text() in _ROW_WORDS and c.text(1) in ("of", "in"):
        # "finish with a row of sc"
        value, c.i = 1, c.i - 1
    if value is None:
        c.i = start
        return _rows_at_end(c, kind)
    c.i += 1
    c.take_any("more", "further", "additional")
    word = c.take_any(*_ROW_WORDS)
    if not word:
        c.i = start
        return None, kind
    kind = "row" if word.startswith("row") else "round"
    _on_so_many(c)
    i = c.i
    c.take_any("more", "further", "additional")
    if as_set_here(c, led=False):
        c.i = i
        return min(value, 10_000), kind
    while c.kind() is T.WORD and c.text() in _PLAINLY and not (c.text() == "as" and _names_rows(c)):
        c.i += 1
    _on_so_many(c)
    if c.kind() in (T.COLON, T.COMMA, T.DASH):
        c.i += 1
    return min(value, 10_000), kind
