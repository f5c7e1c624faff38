"""Phrases that begin with a colour, and tiles told by number before their colours."""

from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.row.colours import tiles_counted
from tracker.notation.phrase.row.reading import Reading
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.scan import T
from tracker.notation.tree import Chain, Group, Item, Prose, Repeat, Say, Work

_LETTERS = frozenset("a b c d e f g h mc cc".split())
"""What a colour is called that stands alone."""


def colour_ahead(c: Cursor, reading: Reading, items: list[Item]) -> bool:
    """ "Black sc in next 4 sts", "C1, 1 ch, …"."""
    ahead = _told_ahead(c, items) if c.text() in c.context.colours else 0
    if not ahead:
        return False
    start = c.i
    c.i += ahead
    items.append(Say("colour", "", c.span_from(start)))
    return True


def stitch_of_colours(c: Cursor, reading: Reading, items: list[Item]) -> bool:
    """ "Sc (A) 4, (B) 4": the stitch that so many of each colour are of, told once before them."""
    stitch = stitch_here(c)
    if stitch is None or stitch.special is not None or stitch.name != c.context.base:
        return False
    n = stitch.tokens
    n += c.kind(n) is T.COLON
    star = c.kind(n) is T.STAR
    n += star
    boxed = c.kind(n) is T.OPEN and c.text(n + 1) in c.context.colours and c.kind(n + 2) is T.CLOSE
    counted = star and c.kind(n) is T.NUMBER and c.text(n + 1) in c.context.colours
    if not (boxed and c.kind(n + 3) is T.NUMBER or counted):
        return False
    start = c.i
    c.i += n - star
    items.append(Say("remark", "", c.span_from(start)))
    return True


def each_colour(c: Cursor, reading: Reading, items: list[Item]) -> bool:
    """ "With each colour in turn: (dc in next 2, 2 dc in next) 4 times": as often as there are colours, untold."""
    if c.text(1) not in ("each", "every") or c.text(2) not in ("color", "colour", "yarn", "shade", "strand"):
        return False
    start = c.i
    c.i += 3
    while c.kind() is T.WORD and c.text() in ("in", "turn", "its"):
        c.i += 1
    reading.unread = True
    items.append(Prose("", c.span_from(start)))
    return True


def colour_of_row(c: Cursor, reading: Reading, items: list[Item]) -> bool:
    """ "MC: sc in each st", and behind the label "Rnd 2 – B. Join in any sp"."""
    lone = not items and c.i < 2 and c.text() in _LETTERS and (c.kind(1) is T.PERIOD or _before_work(c))
    if not lone and (c.text() not in c.context.colours or c.kind(1) is not T.COLON or c.kind(2) is T.NUMBER):
        return False
    if lone and (stitch_here(c) is not None or c.kind(2) in (T.END, T.OPEN)):
        return False
    start = c.i
    c.i += 2
    items.append(Say("colour", "", c.span_from(start)))
    return True


def _before_work(c: Cursor) -> bool:
    """True for the dash of "B – 2 dc in each hdc"; not in "B – 2, A – 3", and not in tiles."""
    tiles = any(special.base == "tile" for special in c.context.specials.values())
    counted = c.kind(2) is T.NUMBER and c.kind(3) is not T.WORD
    return c.kind(1) is T.DASH and not tiles and not counted


def counted_tiles(c: Cursor, reading: Reading, items: list[Item]) -> bool:
    """ "3 blocks: W, P, W": a count."""
    tiles = tiles_counted(c)
    if tiles is not None:
        reading.tell(tiles)
    return tiles is not None


def _told_ahead(c: Cursor, items: list[Item]) -> int:
    """How many tokens a colour takes that is told ahead of its row, or of the stitches behind it; 0 for none."""
    if stitch_here(c) is not None:
        return 0
    if len(c.text()) > 2 and stitch_here(c, 1) is not None:
        return 1
    first = not any(isinstance(item, (Work, Group, Repeat, Chain)) for item in items)
    lone = c.kind(1) is T.COMMA and c.text(2) not in c.context.colours and c.text(3) not in c.context.colours
    if not first or not lone or len(c.text()) != 2:
        return 0
    return 0 if any(special.base == "tile" for special in c.context.specials.values()) else 2
