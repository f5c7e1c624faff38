"""Where an "each" or a repeat ends: "across", "to end", "to last 2 sts", "to next corner", "to marker"."""

from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.pieces import piece_here
from tracker.notation.phrase.places.nouns import (
    POSTS,
    STS,
    chain_at,
    kind_here,
    kinds_here,
    number_here,
    spaced,
    turning_chain,
)
from tracker.notation.scan import T
from tracker.notation.tree import SPACE, Kind, Stop

_ALONG = ("across", "around", "round", "along")
_ROW = ("row", "rnd", "round", "edge")
_PARTS = frozenset("back front sleeve yoke body side shoulder neck panel left right".split())
"""What a row may go across on its way to a stop."""
_MIDDLES = ("center", "centre", "middle", "central")
_CENTRES = frozenset("st sts stitches stitch sc dc hdc htr tr treble double single half ch 3 sp".split())
"""What follows "center" when it names a stitch."""
_ENDS_THERE = (T.COMMA, T.SEMICOLON, T.PERIOD, T.CLOSE, T.STAR, T.END)
"""What follows "center" when it names the half of the row."""


def stop_here(c: Cursor) -> Stop | None:
    """The stop that stands here, with the cursor behind it; None, with the cursor where it was, for none."""
    i = c.i
    c.take("evenly")
    if _along_side(c):
        return Stop(at="corner")
    found = _along(c)
    j = c.i
    while c.take_any("evenly", "even"):
        pass
    stop: Stop | None = None
    if c.take_any("until", "till"):
        behind = c.i
        stop = _until(c)
        if stop is None:
            c.i = behind
            if c.take("you") and c.take_any("reach", "get", "come", "are"):
                # "until you reach the corner sc", "until you get to the next ch-2 sp"
                c.take_any("to", "at")
            else:
                c.i = behind
            stop = _to(c)
    elif c.take("to") or c.take("up", "to"):
        stop = _to(c)
    if stop is not None:
        return stop
    c.i = j if found else i
    return Stop() if found else None


def _along_side(c: Cursor) -> bool:
    """Takes "along side", "across the side", of a round with corners; false when none stands here."""
    i = c.i
    if c.take_any("along", "across", "down") and not piece_here(c):
        c.take_any("the", "this", "that", "next")
        if c.take_any("side", "straight") and c.text() not in ("edge", "edges", "of"):
            return True
    c.i = i
    return False


def _along(c: Cursor) -> bool:
    """Takes "across", "around the row", "all round"; False when none of it stands here."""
    found = False
    if c.text() in ("around", "round", "over") and chain_at(c, 1) is not None:
        return False
    if piece_here(c) or c.text() in ("around", "round") and c.text(1 if c.text(1) != "the" else 2) in POSTS:
        return False
    if c.text() == "all" and c.text(1) == "the" and c.text(2) == "way":
        # "all the way across"
        c.i += 3
        found = True
    if c.take_any(*_ALONG, "throughout"):
        found = True
        if c.text() in ("each", "all", "every") and c.text(1) in ("side", "sides"):
            c.i += 2
        if c.text() in ("row", "rnd", "edge"):
            c.i += 1
        if c.take("the"):
            c.take_any(*_ROW)
        if c.text() in _PARTS and c.text(1) in ("to", "until", "till", "up"):
            # "dc in each dc across back to next ch-1 sp"
            c.i += 1
    if c.text() == "after" and c.text(1) in ("it", "that", "this") or c.text() == "thereafter":
        # "and in every chain after it"
        c.i += 1 if c.text() == "thereafter" else 2
        found = True
    if c.text() == "all" and c.text(1) in _ALONG:
        c.i += 2
        found = True
    return found


def _until(c: Cursor) -> Stop | None:
    """After "until": "1 st remains", "last 3 sts"."""
    if c.take_any("you", "reach", "reaching"):
        c.take_any("reach", "get", "come")
        c.take("to")
    c.take("the")
    if c.take("end"):
        if c.take("of"):
            c.take_any("the", "this")
            c.take_any("row", "rnd", "round")
        return Stop()
    last = c.take("last")
    told = bool(c.take("there", "are") or c.take("have") and c.text(-2) == "you")
    c.take_any("only", "just", "about")
    value = number_here(c)
    kinds = kinds_here(c)
    c.text(1) in ("left", "remaining", "unworked") and c.take_any("is", "are")
    remains = c.take_any("remain", "remains", "rem", "are", "left", "remaining") or told
    if not remains and c.take_any("from", "before"):
        c.take("the")
        remains = c.take_any("end")
        if not remains:
            return None
    if not last and (value is None or not remains):
        return None
    c.take_any("left", "remain", "unworked")
    return Stop(value or 1, kinds)


def _to(c: Cursor) -> Stop | None:
    """After "to": "end", "last 2 sts", "within 3 sts of corner", "next corner", "marker", "center st"."""
    c.take("within")
    c.take("the")
    if c.take("end"):
        if c.take("of"):
            c.take("the")
            c.take_any("foundation", "base", "starting", "beginning")
            c.take_any("row", "rnd", "round", "ch", "chain", "side")
        return Stop()
    if c.text() in ("beg", "beginning", "start") and (c.kind(1) in _ENDS_THERE or c.text(1) == "of"):
        # "sc to beg, join": where the round began
        c.i += 1
        if c.take("of"):
            c.take_any("the", "this")
            c.take_any("row", "rnd", "round")
        return Stop()
    if c.take_any("last", "within", "final") or (c.value() is not None and c.text(-1) == "within"):
        return _to_last(c)
    if _middle_of_corner(c):
        return Stop(at="corner")
    before = c.i
    ahead = number_here(c)
    if ahead is not None:
        c.take_any("st", "sts", "stitch", "stitches", "sc", "dc", "hdc", "tr")
        if not (c.take("before") or c.take("from")):
            c.i, ahead = before, None
    c.take("the")
    one_of_them = c.text() in ("next", "each") and c.text(1) in _MIDDLES and c.text(2) in _CENTRES
    if one_of_them:
        c.i += 1
    if c.text() in _MIDDLES and (many := c.value(1)) is not None and c.text(2) in _CENTRES:
        # "to center 3 sts"
        c.i += 3
        return Stop((ahead or 0) * 2 + many, at="middle")
    if c.text() in (*_MIDDLES, "marked") and c.text(1) in _CENTRES:
        c.i += 1
        middle = kind_here(c)
        if one_of_them and c.text() != "of":
            # "to next center dc": the middle of the next corner, for there are several
            return Stop(ahead or 0, at="corner")
        if ahead is None and middle is not None and middle.name == "sp":
            return Stop(at="half")
        if c.take("of"):
            next_one = c.take("next") or c.take("each") or c.take("the", "next")
            c.take("the")
            if (many := c.value()) is not None and (many % 2 or next_one):
                # "to centre tr of 3", "of next 3-tr group": of those worked in one place
                c.i += 1
                c.i += c.kind() is T.HYPHEN
                kind_here(c)
                c.take_any("group", "gr", "corner")
                for at in ("at", "in"):
                    # "to centre sc of 3 at corner"
                    c.take(at, "corner") or c.take(at, "the", "corner") or c.take(at, "next", "corner")
                return Stop(ahead or 0, at="corner")
            if c.take_any("corner", "corners"):
                c.take_any("group", "st", "sts", "sc")
                return Stop(ahead or 0, at="corner")
            kind_here(c)
        return Stop(ahead or 0, at="center")
    if c.text() in _MIDDLES and ahead is None and (c.value(1) is not None or c.text(1) == "corner"):
        # "to centre 2-ch sp"
        before_it = c.i
        c.i += 1
        c.take("corner")
        if spaced(c) is not None or c.take_any("sp", "space"):
            return Stop(at="half")
        c.i = before_it
    if c.text() in _MIDDLES and c.kind(1) in _ENDS_THERE:
        c.i += 1
        return Stop(at="half")
    if ahead is not None and (joined := _joined(c)) is not None:
        return Stop(ahead, (joined,), at="stitch")
    if ahead is not None and c.take_any("marker", "m"):
        return Stop(ahead, at="marker")
    if ahead is not None and (mark := _so_many_before(c, ahead)) is not None:
        return mark
    if ahead is not None:
        c.i = before
    return _to_thing(c)


def _middle_of_corner(c: Cursor) -> bool:
    """Takes "2nd sc of corner", "2nd of next 3-sc group": the middle of what is worked in a corner."""
    i = c.i
    nth = c.token().value if c.kind() is T.ORDINAL else 0
    if nth > 1:
        c.i += 1
        kind_here(c)
        if c.take_any("of", "in"):
            c.take_any("next", "the", "each", "every")
            c.take("next")
            many = c.value()
            if many is not None:
                c.i += 1
                c.i += c.kind() is T.HYPHEN
                kind_here(c)
            if c.take_any("corner", "group", "gr", "grp") and many in (None, 2 * nth - 1):
                c.take_any("group", "st", "sts")
                return True
    c.i = i
    return False


def _so_many_before(c: Cursor, ahead: int) -> Stop | None:
    """ "Next ch-2 sp", "corner": what a row is worked up to so many stitches before."""
    i = c.i
    c.take_any("next", "each", "following", "first", *_MIDDLES)
    c.take_any(*_MIDDLES)
    if c.text() in ("ch", "chain", "corner") or c.value() is not None:
        corner = c.text() == "corner"
        if (space := spaced(c)) is not None:
            return Stop(ahead, at="corner") if corner else Stop(ahead, (space,), at="space")
        if corner and c.take("corner"):
            c.take_any("st", "sts", "stitch", "sc", "dc", "hdc", "tr")
            return Stop(ahead, at="corner")
    c.i = i
    return None


def _joined(c: Cursor) -> Kind | None:
    """ "Sc3tog of previous row", "dec": the decrease that a row is worked up to."""
    i = c.i
    c.take_any("next", "previous", "prev", "last", "center", "centre")
    kind = kind_here(c)
    if kind is None or not (kind.name == "dec" or kind.name.endswith("tog")):
        c.i = i
        return None
    if c.take_any("of", "in", "on", "from"):
        c.take_any("the", "previous", "prev", "last")
        c.take_any("previous", "prev", "last")
        c.take_any("row", "rnd", "round")
        c.take("below")
    return kind


def _to_last(c: Cursor) -> Stop | None:
    """After "to last": "2 sts", "sc", "5-dc group", "3 sts before corner", "within 2 sts of next corner"."""
    i = c.i
    value = number_here(c)
    if c.text() == "row" and c.text(1) in ("end", "ends"):
        c.i += 2
        return Stop(value or 1, (Kind("row end"),))
    if value is not None and c.kind() is T.HYPHEN and c.kind(1) is T.WORD and c.text(1) not in STS:
        c.i, value = i, None
    kinds = kinds_here(c)
    if value is None and not kinds:
        return None
    many = 1 if value is None else value
    behind = c.i
    if c.take("and") and c.take_any("last", "next") and kind_here(c) is not None:
        # "to last dc and last ch-1 sp": the one that is named second lies behind the other
        return Stop(many, kinds)
    c.i = behind
    if c.take("of"):
        c.take_any("next", "the", "each")
        if c.take("corner"):
            c.take_any("sp", "space", "st", "ch")
            return Stop(many, kinds, at="corner")
        c.take_any("row", "rnd")
    behind = c.i
    if c.take("before"):
        c.take_any("the", "next", "center", "centre")
        c.take_any("next", "center", "centre", "corner")
        if (space := spaced(c) or (Kind(SPACE) if c.take_any("sp", "space") else None)) is not None:
            # "to last dc before ch-2 sp"
            return Stop(many, (space,), at="stitch")
        c.i = behind
    if (c.take("before") or c.take("at")) and not c.take_any("corner", "marker"):
        c.i = behind
    return Stop(many, kinds)


_OPENINGS = frozenset("handle strap loop lp gap arch opening buttonhole armhole slit thumbhole".split())


_MET_FIRST = ("corner", "marker", "m", "sp", "space")
"""What "to first …" may name, where "first" is no more than the next one."""


def _to_thing(c: Cursor) -> Stop | None:
    """After "to": a corner, a marker, a space, the turning chain, or so many stitches before one of them."""
    while c.text() in ("first", "next") and (c.text(1) in ("ch", "chain") or c.value(1) is not None):
        c.i += 1
    if space := (spaced(c) if c.text() in ("ch", "chain", "corner") or c.value() is not None else None):
        return Stop(at="space", kinds=(space,))
    opening = int(c.text() in ("next", "first", "each", "second"))
    if c.text(opening) in _OPENINGS:
        # "sc in each sc to handle": the chains that it is made of
        c.i += opening + 1
        c.take_any("sp", "space", "loop", "lp", "ch", "chain")
        return Stop(at="space", kinds=(Kind(SPACE),))
    if (c.text() == "first" or c.kind() is T.ORDINAL and c.token().value == 1) and c.text(1) in _MET_FIRST:
        c.i += 1
    if c.take_any("next", "each") or c.text() in ("corner", "marker", "m", "tch", "sp", "space"):
        if c.take("corner"):
            if spaced(c) is None:
                c.take_any("sp", "space", "st", "stitch", "sc", "dc", "hdc", "tr", "ch")
            return Stop(at="corner")
        if c.take_any("marker", "m"):
            return Stop(at="marker")
        if space := spaced(c) or (Kind(SPACE) if c.take_any("sp", "space") else None):
            if c.text() == "or" and "end" in (c.text(1), c.text(2)):
                # "to next sp or end"
                c.i += 2 if c.text(1) == "end" else 3
            return Stop(at="space", kinds=(space,))
        if c.take("tch"):
            return Stop(left=1, kinds=(Kind("tch"),))
    if c.text() in ("turning", "beg", "top", "t") or c.value() is not None and c.kind(1) is T.HYPHEN:
        c.take("top")
        c.take("of")
        if turning_chain(c) is not None:
            return Stop(left=1, kinds=(Kind("tch"),))
    if c.text() in STS or c.value() is not None:
        value = number_here(c)
        kinds = kinds_here(c)
        if c.take("before") or c.take("from"):
            c.take_any("the", "end", "marker", "corner", "last")
            return Stop(value or 0, kinds)
    return None
