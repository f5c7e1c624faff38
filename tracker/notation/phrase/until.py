"""How long rows go on: "until 4 sts remain", "until there are 30 rows in all", "until Row 30 is worked".

Words or a cursor at "until" come in; a number comes out, or None with the cursor where it was when they ask for
something else.
"""

from tracker.expressions import expression
from tracker.notation.page.labelled.row_names import row_name
from tracker.notation.phrase.cursor import Cursor
from tracker.notation.scan import T

ROWS = frozenset("row rows rnd rnds rd rds round rounds r".split())
"""What rows and rounds are called before or behind a number."""
UNITS = frozenset("cm mm in ins inch inches \" ″ ” ' ft feet foot yd yds yard yards".split())
"""What lengths are told in."""
_UNTIL_STITCHES = expression(
    r"(?:until|till) (?:(?:there|are|is|you|have|only|a|total|of|the|just|row|has|count|reach|get|to|stitch) )*"
    r"(?P<many>\d{1,4}) (?:sts?|stitches|stitch|sc|hdc|dc|tr|htr|dtr)"
    r"(?: (?:remain|remains|remaining|rem|left|are|in|all|total|across|on|the|row|altogether|hook|wide|each|at))*"
    r"(?: , (?:which|that|this) (?:is|will be|makes) (?:row|rnd|round) \d{1,4})?"
)
""""Until 4 sts remain", perhaps "which is Row 9", and nothing that could narrow it to a part of the row."""


def measured(c: Cursor, ahead: int = 0) -> bool:
    """True where a length stands so many words ahead: "20 inches", "12.5 cm", "a length of 30 cm", "desired length"."""
    while c.text(ahead) in _BEFORE_LENGTHS:
        ahead += 1
    if c.text(ahead) in ("length", "measure", "measures"):
        return True
    if c.value(ahead) is None:
        return False
    ahead += 1
    while c.kind(ahead) in (T.PERIOD, T.HYPHEN) and c.value(ahead + 1) is not None:
        ahead += 2  # "12.5", "10-12"
    if c.text(ahead + 1) == "/" and c.value(ahead + 2) is not None:
        ahead += 3  # "12 1/2"
    ahead += c.text(ahead) in ("½", "¼", "¾")
    return c.text(ahead + (c.kind(ahead) is T.HYPHEN)) in UNITS


_BEFORE_LENGTHS = frozenset(
    "a the your any full total desired required finished preferred about approx".split()
)


_TILES = expression(r"\b(?:tiles?|blocks?|squares?|bls?|blks?)\b")


def stitches_told(until: str, tiles: bool = False) -> int | None:
    """How many stitches the words behind "until" ask for, or `tiles` of a piece made of them; None for other words."""
    words = _TILES.sub("sts", until) if tiles else until
    hit = _UNTIL_STITCHES.fullmatch(words)
    return int(hit["many"]) if hit else None


_SO_FAR = "there are you you've have worked made done completed crocheted a total of end the".split()
"""What may stand before how many rows there are then."""


def rows_in_all(c: Cursor) -> int | None:
    """ "until there are 30 rows in all", "until Row 30 is worked": how many rows there are then."""
    i = c.i
    c.i += 1
    while c.take_any(*_SO_FAR):
        pass
    if c.kind() is T.WORD and c.text(1) in ("is", "has", "counts", "measures") and c.text(3) in ROWS:
        c.i += 2  # "until the throw has 40 rows"
    if c.text() in ROWS and (row := c.value(1)) is not None and c.kind(2) is not T.HYPHEN:
        # "until Row 30", "until the end of Row 30"
        c.i += 2
        while c.take_any("is", "has", "been", "worked", "complete", "completed", "done", "inclusive"):
            pass
        return row
    value = c.value()
    if value is not None and c.text(1) in ("patt", "pattern", "full", "complete") and c.text(2) in ROWS:
        c.i += 1  # "until 15 patt rows have been worked"
    if value is not None and c.text(1) in ROWS and c.text(2) not in ("before", "from", "remain", "below"):
        c.i += 2
        while c.take_any(
            "in",
            "all",
            "total",
            "have",
            "been",
            "are",
            "worked",
            "complete",
            "completed",
            "done",
            "altogether",
            "long",
            "deep",
            "high",
        ):
            pass
        return value
    c.i = i
    return None


_REPEATS = frozenset("repeats reps repetitions".split())
_THEN_THERE = tuple(
    "in all total have been are is worked complete completed done altogether made of the pattern patt".split()
)
"""What may stand behind how many there are."""


def named_in_all(c: Cursor) -> tuple[str, int] | None:
    """ "until there are 11 cable rows in all": the name and how many; "" for "until 8 pattern repeats are done"."""
    i = c.i
    c.i += 1
    while c.take_any(*_SO_FAR):
        pass
    many = c.value()
    c.i += 1
    words: list[str] = []
    while many is not None and len(words) < 3 and c.kind() is T.WORD and c.text() not in ROWS | _REPEATS:
        words.append(c.text())
        c.i += 1
    repeats = set(words) <= {"full", "complete", "patt", "pattern", "whole"} and c.text() in _REPEATS
    name = row_name(" ".join(words)) if words and c.text() in ROWS else ""
    if many is None or not (repeats or name and name not in ("patt", "full", "complete", "more", "even")):
        c.i = i
        return None
    c.i += 1
    while c.take_any(*_THEN_THERE):
        pass
    return "" if repeats else name, many


def total_told(c: Cursor) -> int | None:
    """ "for a total of 20 rows", "for 21 rows total", "through Row 21": how many rows there are then."""
    if c.text() in ("to", "through", "thru") and c.text(1) in ROWS and (row := c.value(2)) is not None:
        c.i += 3
        return row
    if c.text() != "for":
        return None
    first = 4 if (c.text(1), c.text(2), c.text(3)) == ("a", "total", "of") else 1
    value = c.value(first)
    if (
        value is None
        or c.text(first + 1) not in ROWS
        or first == 1
        and c.text(3) not in ("total", "altogether")
        and (c.text(3), c.text(4)) not in (("in", "all"), ("in", "total"))
    ):
        return None
    c.i += first + 2
    c.take_any("total", "altogether") or c.take_any("in") and c.take_any("total", "all")
    return value


def stripes_here(c: Cursor) -> int | None:
    """ ": 2 rows B, 2 rows C, 1 row A": how many rows the stripes have together; None when no list stands here."""
    i = c.i
    c.i += 1
    total = 0
    while (value := c.value()) is not None and value <= 10_000:
        c.i += 1
        if not c.take_any(*ROWS):
            break
        total += value
        c.take_any("of", "in", "with", "each")
        while c.kind() in (T.WORD, T.HYPHEN) and c.text() not in ("and", "then"):
            c.i += 1
        while c.kind() is T.COMMA or c.text() in ("and", "then", "&"):
            c.i += 1
    else:
        if total and c.kind() in (T.PERIOD, T.END, T.SEMICOLON, T.OPEN):
            return total
    c.i = i
    return None


def last_rows(c: Cursor) -> int:
    """ "last 2 rows", "previous row", "prev 2 rnds", "these 2 rows", "this row": how many; 0 for none."""
    i = c.i
    if c.text() == "this" and c.text(1) in ROWS:
        c.i += 2
        return 1
    word = c.text()
    if word in ("last", "previous", "prev", "preceding", "above") or (
        c.value() is not None and c.text(1) in ROWS and c.text(-1) in ("these", "those", "the")
    ):
        if word in ("last", "previous", "prev", "preceding", "above"):
            c.i += 1
        value = c.value()
        if value is not None:
            c.i += 1
        if c.take_any(*ROWS):
            return min(value or 1, 10_000)
        if value is None and c.text(-2) == "the" and c.kind() in (T.END, T.PERIOD, T.OPEN):
            # "The same as the last."
            return 1
    c.i = i
    return 0
