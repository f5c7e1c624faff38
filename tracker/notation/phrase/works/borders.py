"""A border told edge by edge: "sc evenly around, working 30 sc along top and bottom, 33 sc along each side and 1 extra
sc in each corner".

The cursor stands on the phrase; stitches whose places are not counted come out, or None with the cursor where it was.
"""

from collections.abc import Sequence

from tracker.notation.phrase.cursor import STOPS, Cursor
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.scan import T
from tracker.notation.tree import Item, Kind, Say, Where, Which, Work

_LEADS = (
    "work",
    "working",
    "with",
    "make",
    "making",
    "place",
    "placing",
    "put",
    "putting",
    "plus",
    "and",
    "have",
)
_ALONG = ("along", "across", "down", "up", "on", "over", "to", "for")
_EDGES = frozenset("side sides edge edges end ends top bottom".split())
_OTHERS = frozenset("top bottom long short longer shorter end ends".split())
"""Words of edges beside which "each side" means two of them."""
_EDGE_WORDS = frozenset(
    "each every both all the of two 2 three 3 four 4 long short longer shorter side sides edge edges end ends top "
    "bottom and row rows outer".split()
)
_MORE = ("more", "extra", "additional")
_FEWEST = 2
"""Edges that have to be meant before it is a border that is told."""


def border_here(c: Cursor, items: Sequence[Item]) -> list[Item] | None:
    """One step of a border: what it goes round, what each edge takes, or what each corner does."""
    start = c.i
    if (told := _around(c, start)) is not None:
        return told
    c.i = start
    if (told := _along(c, start)) is not None:
        return told
    c.i = start
    if (told := _per_row(c, start, items)) is not None:
        return told
    c.i = start
    if (told := _corners(c, start, items)) is None:
        c.i = start
    return told


def _per_row(c: Cursor, start: int, items: Sequence[Item]) -> list[Item] | None:
    """ ", 1 sc per row" behind "sc in each row end": what each takes, told once more."""
    last = next((item for item in reversed(items) if not isinstance(item, Say)), None)
    number = c.value()
    stitch = stitch_here(c, 1) if number is not None else None
    if not isinstance(last, Work) or last.where.which is not Which.ROW_END or stitch is None:
        return None
    c.i += 1 + stitch.tokens
    if number != last.count or stitch.name != last.stitch or not (c.take("per") and c.take("row")):
        return None
    c.take_any("end", "side")
    return [Say("remark", "", c.span_from(start))]


def _around(c: Cursor, start: int) -> list[Item] | None:
    """ "Sc evenly around all four edges, working …" where what follows tells each edge by number."""
    c.take_any("work", "working")
    stitch = stitch_here(c)
    if stitch is None or stitch.special is not None:
        return None
    if c.text(stitch.tokens) != "evenly" and not (
        c.text(stitch.tokens) in ("around", "along", "round")
        and {"sides", "edges"} & {c.text(stitch.tokens + n) for n in range(1, 5)}
    ):
        return None
    c.i += stitch.tokens
    while c.kind() is T.WORD and c.text() not in ("working", "with", "placing", "making", "as"):
        c.i += 1
    end = c.i
    if c.kind() is T.OPEN and (inside := _in_bracket(c)) is not None:
        return inside
    while c.kind() in (T.COMMA, T.COLON, T.SEMICOLON) or c.take("as", "follows"):
        if c.kind() in (T.COMMA, T.COLON, T.SEMICOLON):
            c.i += 1
    i = c.i
    if _along(c, c.i) is not None:
        c.i = end
        return [Say("remark", "", c.span_from(start))]
    c.i = i
    # "sc evenly down side to corner, working 28 sc": that many
    number = c.value(1) if c.text() in ("working", "making") else None
    named = stitch_here(c, 2) if number is not None else None
    if number is None or named is None or named.name != stitch.name or c.kind(2 + named.tokens) not in STOPS:
        return None
    c.i += 2 + named.tokens
    span = c.span_from(start)
    return [Work(stitch.name, number, Where(Which.EVENLY, span), span)]


def _in_bracket(c: Cursor) -> list[Item] | None:
    """ "(20 sc along each short side, 30 sc along each long side)": what each edge takes."""
    i, close = c.i, c.partners.get(c.i)
    out: list[Item] = []
    c.i += 1
    while close is not None and c.i < close:
        told = _along(c, c.i)
        if told is None:
            break
        out.extend(told)
        while c.kind() is T.COMMA or c.take("and"):
            c.i += c.kind() is T.COMMA
    if not out or c.i != close:
        c.i = i
        return None
    c.i += 1
    return out


def _along(c: Cursor, start: int) -> list[Item] | None:
    """ "33 sc (evenly) along each side": as many as all of those edges take."""
    c.take_any(*_LEADS)
    number = c.value()
    stitch = stitch_here(c, 1) if number is not None else None
    if number is None or stitch is None or stitch.special is not None:
        return None
    c.i += 1 + stitch.tokens
    c.take_any("evenly")
    if not c.take_any(*_ALONG):
        return None
    words = []
    while c.text() in _EDGE_WORDS:
        if c.text() == "and" and (c.text(1) not in _EDGE_WORDS or c.value(1) is not None):
            break
        words.append(c.text())
        c.i += 1
    edges = _how_many(words, {token.text for token in c.tokens})
    if (
        edges < _FEWEST
        or c.kind() not in (*STOPS, T.CLOSE)
        and c.text() not in ("and", "with", "plus", "working")
    ):
        return None
    span = c.span_from(start)
    return [Work(stitch.name, number * edges, Where(Which.EVENLY, span), span)]


def _how_many(words: Sequence[str], row: set[str]) -> int:
    """How many edges the words mean; 0 where that is not clear."""
    if not _EDGES & set(words):
        return 0
    for n, names in ((2, ("two", "2", "both")), (3, ("three", "3")), (4, ("four", "4"))):
        if set(names) & set(words):
            return n
    if "top" in words and "bottom" in words:
        return 2
    if not {"each", "every", "all"} & set(words):
        return 0
    if _OTHERS & (row | set(words)):
        return 2
    return 4 if {"corner", "corners", "four", "4"} & row else 0


def _corners(c: Cursor, start: int, items: Sequence[Item]) -> list[Item] | None:
    """ "1 extra sc in each corner" behind edges that are told by number: as many as four corners take."""
    c.take_any(*_LEADS)
    number = c.value()
    if number is None:
        return None
    c.i += 1
    extra = c.take_any(*_MORE)
    stitch = stitch_here(c)
    if stitch is None or stitch.special is not None:
        return None
    c.i += stitch.tokens
    if not c.take_any("in", "into", "at", "for"):
        return None
    if not c.take_any("each", "every", "all"):
        return None
    c.take("of")
    c.take("the")
    others = c.take_any("remaining", "rem", "other")
    corners = c.value()
    if corners is not None:
        c.i += 1
    if not c.take_any("corner", "corners"):
        return None
    told = [i for i in items if isinstance(i, Work)]  # looked through last: it may be long
    along_side = len(told) == 1 and told[0].where.which is Which.ROW_END and told[0].where.many == 0
    if not along_side and not any(i.where.which is Which.EVENLY and i.count for i in told):
        return None
    # one edge lies between two corners
    corners = corners or (2 if along_side else 3 if others else 4)
    c.take_any("st", "sts", "stitch")
    span = c.span_from(start)
    if extra or number % 2 == 0 or along_side:
        return [Work(stitch.name, number * corners, Where(Which.EVENLY, span), span)]
    # each of them is a corner for the round that follows
    return [Work(stitch.name, number, Where(Which.EVENLY, span, 1, (Kind("corner"),)), span)] * corners
