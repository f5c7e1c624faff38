"""Places along the ends of rows: "in each of first 14 row ends", "in end of last row", "in side of each of 10 dc rows".

The cursor stands behind a preposition; a Where comes out, of so many row ends or, where `many` is 0, of all that are
left on that side but those its stop leaves. None for other words, and the cursor where it was.
"""

from tracker.notation.phrase.cursor import STOPS, Cursor
from tracker.notation.phrase.places.nouns import number_here
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.tree import Kind, Stop, Where, Which

_SIDES = frozenset("side sides end ends edge edges".split())
_ALL = ("each", "every", "all", "ea")
_ONE = ("next", "first", "last", "following", "foll", "final")
_REST = ("remaining", "rem", "other")


def row_ends_here(c: Cursor, start: int) -> Where | None:
    """The row ends that are named here; `start` is where the phrase began."""
    i = c.i
    found = _ends_of(c, start)
    if found is None:
        c.i = i
        found = _named(c, start)
    if found is None:
        c.i = i
    return found


def _lead(c: Cursor) -> tuple[str, int | None]:
    """ "Each of the first 14" as the word that says how many, "" for none, and their number."""
    c.take("the")
    lead = c.take_any(*_ALL)
    if lead and c.take("of"):
        c.take("the")
    within = c.take_any(*_ONE, *_REST)
    return within or lead, number_here(c)


def _ends_of(c: Cursor, start: int) -> Where | None:
    """ "In end of each row", "around side of each of next 10 dc rows", "in the end of last row"."""
    c.take("the")
    if c.text() not in _SIDES or c.text(1) not in ("of", "edge"):
        return None
    c.i += 2
    lead, number = _lead(c)
    stitch = stitch_here(c)
    if stitch is not None:
        c.i += stitch.tokens
    rows = c.take_any("row", "rows", "st", "stitch")
    if stitch is None and not rows and (lead not in _ALL and number is None):
        # "at the end of the other long side", and no row end
        return None
    if lead in _ONE and number is None and (stitch is not None or rows):
        number = 1
    return _along(c, start, number or 0)


def _named(c: Cursor, start: int) -> Where | None:
    """ "In each of next 14 row ends", "in the last row end", "in row ends", "around post of each edge dc"."""
    lead, number = _lead(c)
    if c.text() == "row" and c.text(1) in _SIDES:
        c.i += 2
    elif c.text() == "edge" and lead and (edge := stitch_here(c, 1)) is not None:
        c.i += 1 + edge.tokens
    else:
        return None
    return _along(c, start, number if number is not None else 1 if lead in _ONE else 0)


def _along(c: Cursor, start: int, many: int) -> Where:
    """Those row ends, with where the last of them is and what is said of the side once more."""
    _along_the_side(c)
    return Where(Which.ROW_END, c.span_from(start), many, stop=None if many else _left(c))


def _left(c: Cursor) -> Stop | None:
    """ "To the last row", "except the last 2 row ends": how many are left of all there are."""
    i = c.i
    if c.take("but") or c.take("except") or c.take("to"):
        c.take("for")
        c.take("the")
        if c.take("last"):
            many = number_here(c) or 1
            rows = c.take_any("row", "rows")
            if rows or c.kind() in STOPS and c.tokens[i].text != "to":
                c.take_any("end", "ends")
                return Stop(many, (Kind("row end"),))
    c.i = i
    return None


def _along_the_side(c: Cursor) -> None:
    """Takes "along the side", "down the left edge" behind "in the end of each row": it says the same once more."""
    i = c.i
    if c.take_any("along", "across", "up", "down"):
        c.take_any("the", "this", "one")
        c.take_any("left", "right", "side", "long", "short", "other", "first", "second")
        if c.take_any("side", "edge") or c.text(-1) == "side":
            c.take("edge")
            return
    c.i = i
