"""Colours told in a row: before their stitches, behind them, or as so many tiles."""

from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.places.nouns import PREPOSITIONS
from tracker.notation.phrase.places.stops import stop_here
from tracker.notation.phrase.places.where import where_here
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.phrase.works.work import work_here
from tracker.notation.scan import T
from tracker.notation.tree import (
    ANY,
    Item,
    Kind,
    Say,
    Stated,
    Where,
    Which,
    Work,
)
from tracker.records import replace

_ALONG = ("across", "around", "to", "along")
"""What follows a colour that is worked to the end."""
_BEHIND_TILES = frozenset(
    "fasten fo finish cut turn tile tiles block blocks bl bls blk blks square squares sq box boxes".split()
)
"""What may stand behind the last tile of a row."""


def colours_here(c: Cursor) -> list[Item] | None:
    """ "(A) 4, (B) 2", "A: 4", "4A", "A 3": so many plain stitches in a colour."""
    start = c.i
    colours = c.context.colours
    counted = c.kind(2) is T.NUMBER and stitch_here(c, 3) is not None
    if c.text() in ("in", "with") and c.text(1) in colours | _HUES and (counted or c.kind(2) is T.OPEN):
        # "in white 4 sc", "in blue [2 sc, dec] 6 times"
        c.i += 2
        return [Say("colour", "", c.span_from(start))]
    by = 1 if c.kind(3) is T.TIMES or c.text(3) == "x" else 0
    if c.kind() is T.OPEN and c.text(1) in colours and c.kind(2) is T.CLOSE and c.kind(3 + by) is T.NUMBER:
        colour, number, length = c.text(1), c.value(3 + by), 4 + by
    elif c.text() in colours and c.kind(1) is T.COLON and c.kind(2) is T.NUMBER:
        colour, number, length = c.text(), c.value(2), 3
    elif c.text() in colours and c.kind(1) is T.NUMBER:
        colour, number, length = c.text(), c.value(1), 2
    elif c.text() in colours and (c.kind(1) is T.TIMES or c.text(1) == "x") and c.kind(2) is T.NUMBER:
        colour, number, length = c.text(), c.value(2), 3
    elif c.kind() is T.NUMBER and c.text(1) in colours:
        colour, number, length = c.text(1), c.value(), 2
    elif (
        c.text() in colours
        and (
            c.kind(1) in (T.COMMA, T.END, T.PERIOD, T.SEMICOLON, T.DASH, T.OPEN)
            or c.token(1).fresh
            or c.text(1) in ("fasten", "fo", "finish", "cut")
        )
        and _in_tiles(c)
    ):
        colour, number, length = c.text(), 1, 1
    else:
        return None
    after = c.kind(length)
    if (
        not c.token(length).fresh
        and after not in (T.COMMA, T.SEMICOLON, T.PERIOD, T.END, T.CLOSE, T.OPEN, T.STAR, T.DASH, T.EQUALS)
        and not stitch_here(c, length)
        and c.text(length) not in ("rep", "x", "turn", "fasten", "fo", "finish", "cut")
    ):
        return None
    placed = stitch_here(c, length)
    if (
        c.kind(length - 1) is T.NUMBER
        and placed is not None
        and c.text(length + placed.tokens) in ("in", "into", "around", "over")
    ):
        # "(A) 1 sc in 2nd ch from hook": the colour, and what is worked in it
        c.i += length - 1
        return [Say("colour", "", c.span_from(start))]
    c.i += length
    stitch = stitch_here(c)
    tile = next((s.name for s in c.context.specials.values() if s.base == "tile"), None)
    name = c.context.base if tile is None else tile
    if stitch is not None and stitch.special is None and stitch.name not in ("inc", "dec"):
        name = stitch.name
        c.i += stitch.tokens
    span = c.span_from(start)
    letters = colour.upper() if len(colour) <= 2 else colour
    return [Work(name, number or 0, Where(Which.STRAIGHT, span), span, colour=letters)]


def tiles_counted(c: Cursor) -> Stated | None:
    """ "3 blocks: W, P, W": how many there are, before the colours say which; None for other words."""
    start, number = c.i, c.value()
    stitch = stitch_here(c, 1) if number is not None else None
    if number is None or stitch is None or stitch.special is None or stitch.special.base != "tile":
        return None
    at = 1 + stitch.tokens
    if c.kind(at) is not T.COLON or c.text(at + 1) not in c.context.colours:
        return None
    c.i += at + 1
    return Stated((("tile", number),), c.span_from(start))


def _in_tiles(c: Cursor) -> bool:
    """True for a row of letters alone, "W, P, P, W", in a piece of tiles: each letter is one."""
    tiles = any(special.base == "tile" for special in c.context.specials.values())
    words = [token.text for token in c.tokens[c.i : c.end] if token.kind is T.WORD][:30]
    rest = next((k for k, word in enumerate(words) if word not in c.context.colours), len(words))
    return tiles and (rest == len(words) or words[rest] in _BEHIND_TILES)


def colour_in(c: Cursor) -> list[Item] | None:
    """ "R in each st around": plain stitches named by nothing but their colour; None for other words."""
    start = c.i
    if (
        c.text() not in c.context.colours
        or c.text(1) not in ("in", "into", "across", "around")
        or stitch_here(c)
    ):
        return None
    colour = c.text()
    c.i += 1
    stop = stop_here(c) if c.text() not in PREPOSITIONS or c.text() in _ALONG else None
    where = None if stop is not None else where_here(c)
    if stop is not None:
        where = (Where(Which.EACH, c.span_from(start), 0, (Kind(ANY),), stop=stop),)
    if where is None:
        c.i = start
        return None
    where = tuple(
        replace(w, stop=stop_here(c)) if w.which is Which.EACH and w.stop is None else w for w in where
    )
    name = colour.upper() if len(colour) <= 2 else colour
    return [Work(c.context.base, 1, w, c.span_from(start), colour=name) for w in where]


def in_colour(c: Cursor, found: list[Item]) -> list[Item]:
    """ "Sc 9 G, sc 6 C": the colour that the stitches just read are worked in, named behind their number."""
    only = found[0] if len(found) == 1 else None
    if (
        not isinstance(only, Work)
        or only.where.which is not Which.STRAIGHT
        or c.text() not in c.context.colours
        or c.kind(1) not in (T.COMMA, T.SEMICOLON, T.PERIOD, T.END, T.CLOSE, T.OPEN, T.STAR, T.DASH)
    ):
        return found
    c.i += 1
    colour = c.text(-1)
    return [replace(only, colour=colour.upper() if len(colour) <= 2 else colour)]


_HUES = frozenset(
    "white black gray grey red pink blue green yellow orange purple brown beige cream tan rust navy teal gold "
    "silver mint lilac peach coral mustard aqua turquoise ivory violet lavender khaki fawn maroon burgundy ecru "
    "charcoal".split()
)
"""Colours that a yarn is called by without being introduced."""


def hue_in_bracket(c: Cursor, close: int) -> list[Item] | None:
    """ "(gray) 10 sc, (white) 4 sc": the colour, and the stitches behind it; None for any other bracket."""
    words = [c.tokens[k] for k in range(c.i + 1, close)]
    if (
        not 0 < len(words) < 4
        or any(t.kind is not T.WORD for t in words)
        or not _HUES & {t.text for t in words}
    ):
        return None
    start = c.i
    c.i = close + 1
    said: list[Item] = [Say("colour", "", c.span_from(start))]
    return [*said, *(work_here(c) or ())] if c.value() is not None else said
