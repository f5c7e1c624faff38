"""Rows shaped at both ends, told at once: "Inc 1 st at each end of next row and every foll 4th row until 34 sts".

The cursor stands at the beginning of a row's text, or behind "row" in a reference; what is told comes out and the
cursor moves past it, or None with the cursor where it was.
"""

from tracker.notation.page.labelled.row_names import GROWS, SHRINKS, row_name
from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.until import ROWS, stitches_told
from tracker.notation.scan import T
from tracker.problems import Span
from tracker.records import dataclass

_LEADS = frozenset(
    "then cont continue continuing keep keeping work working in pattern patt correct even at the same time as set and "
    "established est sc hdc dc tr htr now on to".split()
)
"""What may stand before the shaping and changes nothing."""
_STS = ("st", "sts", "stitch", "stitches", "sc", "hdc", "dc", "tr", "htr")
_ENDS = ("end", "ends", "side", "sides", "edge", "edges")
_SIDES = frozenset(("rs", "ws"))
"""Rows of one side are one in two."""
_OTHER = ("other", "alt", "alternate", "second")


@dataclass(frozen=True, slots=True)
class Shaping:
    """Rows that grow or shrink at both ends."""

    how: str
    """"inc ends", "dec ends", or "dec first" and the like for one edge."""
    words: Span
    """The words that say so."""
    by: int
    """Stitches at each end."""
    first: int
    """Which of the rows from here is shaped first."""
    every: int
    """One row in so many is shaped after it."""
    further: int | None
    """How many are shaped after the first; None when the stitches tell."""
    stitches: int | None
    """How many stitches stand at the end; None when not said."""
    at_once: int = 0
    """How many rows are shaped one after another behind the first, before those of `every`."""
    even_after: int = 0
    """Plain rows behind the last that is shaped: 1 for "every RS row until 4 sts rem, ending with a WS row"."""


def shaping_here(c: Cursor) -> Shaping | None:
    """The shaping told here."""
    start = c.i
    found = _shaping(c)
    if found is None:
        c.i = start
    return found


def _shaping(c: Cursor) -> Shaping | None:
    while c.text() in _LEADS or c.kind() is T.COMMA:
        c.i += 1
    word, begins = c.text(), c.i
    if word not in GROWS | SHRINKS:
        return None
    c.i += 1
    by = c.value()
    if by is not None:
        c.i += 1
    elif c.take("a") or c.text() in _STS:
        by = 1
    return _told_when(c, word, by or 1, begins)


def shaping_after(c: Cursor, before: Shaping) -> Shaping | None:
    """ ", then at each end of every row until 3 sts rem": more shaping behind some that is told already."""
    start = c.i
    while c.kind() in (T.COMMA, T.SEMICOLON) or c.text() in ("then", "and", "now"):
        c.i += 1
    found = None
    if c.i > start and c.text() in GROWS | SHRINKS:
        found = _shaping(c)
    elif c.i > start:
        found = _told_when(c, before.how[:3], before.by, c.i)
    if found is None:
        c.i = start
    return found


def _told_when(c: Cursor, word: str, by: int, begins: int) -> Shaping | None:
    """Behind "dec 1 st": at which edge, in which rows, and how long."""
    c.take_any(*_STS)
    where = _which_edge(c)
    if not where:
        return None
    words = c.span_from(begins)
    c.take_any("of", "on")
    c.take("the")
    timing = _first_row(c)
    if timing is None or by > 20:
        return None
    sided = {token.text for token in c.tokens[begins : c.i]} & _SIDES
    first, every, further = timing
    then = _then_every(c)
    at_once = 0
    if then is not None:
        # "on next 3 rows, then on foll 2 alt rows": the first of them one after another
        at_once = min(further or 0, 2000)
        every, further = then
    times, stitches = _how_long(c)
    if times is not None:
        further = times if then is not None else times - 1
    if further is None and stitches is None:
        if then is not None or first < every or every == 0:
            # told without an end
            return None
        further = 0
    even_after = int(bool(sided) and every == 2 and bool(ends := _ends_on(c)) and ends not in sided)
    how = f"{'inc' if word in GROWS else 'dec'} {where}"
    return Shaping(how, words, by, first, max(1, every), further, stitches, at_once, even_after)


def _which_edge(c: Cursor) -> str:
    """ "At each end", "at neck edge", "at beg": "ends", or "first" and "last" for one edge; "" for neither."""
    if not c.take_any("at", "on") and not (c.text() in ("each", "both", "either") and c.text(1) in _ENDS):
        return ""
    if c.take_any("each", "both", "either"):
        return "ends" if c.take_any(*_ENDS) else ""
    c.take("the")
    if c.text(1) == "edge" and c.text() not in ("outer", "bottom", "top", "lower", "upper", "long"):
        c.i += 2
        return "first"
    if word := c.take_any("beg", "beginning", "start", "end"):
        return "last" if word == "end" else "first"
    return ""


def _first_row(c: Cursor) -> tuple[int, int, int | None] | None:
    """ "Next row", "3rd row", "every other row", "next 5 rows": which is first, one in how many, how many further."""
    every = every_row(c)
    if every is not None:
        return (1 if every == 2 else every), every, None
    c.take_any("this", "next", "foll", "following")
    if (many := c.value()) is not None and c.text(1) in ROWS:
        c.i += 2
        return 1, 1, many - 1
    first = 1
    if c.kind() is T.ORDINAL:
        first = max(1, min(c.token().value, 200))
        c.i += 1
    elif c.take_any("alt", "alternate"):
        first = 2
    named = c.take_any(*ROWS)
    if not named and c.text() not in ("and", "then"):
        return None
    return first, 1, None


def _then_every(c: Cursor) -> tuple[int, int | None] | None:
    """ "And every foll 4th row", "then on foll 3 alt rows": one in how many, and how many of them when said."""
    i = c.i
    if c.kind() is T.COMMA:
        c.i += 1
    joined = c.take_any("and", "then")
    while c.take_any("then", "on", "in", "at", "of", "again"):
        pass
    every = every_row(c) if joined else None
    if every is not None:
        return every, None
    if joined and c.take_any("foll", "following", "next"):
        many = c.value()
        if many is not None:
            c.i += 1
        step = _ordinal(c)
        if step is not None and c.take_any(*ROWS):
            return step, 1 if many is None else many
        if many is not None and c.take_any(*ROWS):
            return 1, many
    c.i = i
    return None


def every_row(c: Cursor) -> int | None:
    """ "Every other row", "every foll 4th row", "each row": one row in how many; None where it does not stand here."""
    i = c.i
    if c.take_any("every", "each", "all"):
        c.take_any("foll", "following")
        step = _ordinal(c) or (2 if c.take_any(*_SIDES) else 1)
        if c.take_any(*ROWS):
            return step
    elif c.take_any(*_SIDES) and c.take("rows"):
        return 2
    c.i = i
    return None


def every_here(c: Cursor) -> int | None:
    """ "Every other row", "on every foll 4th row": one row in how many is worked so."""
    i = c.i
    c.take("on") or c.take("in")
    told = every_row(c)
    if told is None:
        c.i = i
    return told


def _ordinal(c: Cursor) -> int | None:
    if c.kind() is T.ORDINAL and c.token().value > 1:
        c.i += 1
        return min(c.token(-1).value, 200)
    if c.take_any(*_OTHER):
        c.take_any("foll", "following")
        return 2
    return None


def _how_long(c: Cursor) -> tuple[int | None, int | None]:
    """ "3 times", "until there are 34 sts", "to 34 sts": how often, or how many stitches there are then."""
    i = c.i
    if c.kind() is T.COMMA:
        c.i += 1
    c.take("a") and c.take("total") and c.take("of")
    told = c.times_here()
    if told is not None:
        c.i += told[1]
        c.take_any("more", "further")
        c.take("times")
        return min(told[0], 10_000), None
    c.take("for") and c.take("a") and c.take("total") and c.take("of")
    word = c.text()
    if word in ("until", "till", "to"):
        at = c.i
        while c.kind() in (T.WORD, T.NUMBER, T.HYPHEN):
            c.i += 1
        words = " ".join(t.text for t in c.tokens[at + 1 : c.i])
        stitches = stitches_told("until " + words)
        if stitches is not None:
            return None, stitches
    c.i = i
    return None, None


def _ends_on(c: Cursor) -> str:
    """ ", ending with a WS row": the side of the row that comes last; "" where none is told."""
    i = c.i
    c.i += c.kind() is T.COMMA
    if c.take_any("ending", "end", "finishing", "finish") and c.take_any("with", "on", "after"):
        c.take("a")
        side = c.take_any(*_SIDES)
        if side and c.take("row"):
            return side
    c.i = i
    return ""


def called_row(c: Cursor) -> str:
    """ "Dec row", "the increase rnd": the name of a row that goes by one; "" where none stands here."""
    i = c.i
    c.take("the")
    words: list[str] = []
    while c.kind() is T.WORD and len(words) < 2 and c.text() not in ROWS:
        words.append(c.text())
        c.i += 1
    if words and c.kind() is T.HYPHEN:
        c.i += 1
    if words and c.take_any("row", "rnd", "round"):
        return row_name(" ".join(words))
    c.i = i
    return ""
