"""Other pieces that a round goes along: "of first leg", "along leg 2", "around the other foot".

A round that joins pieces is worked over stitches of each; how many there are is what its own words and count say.
"""

from tracker.notation.phrase.cursor import Cursor
from tracker.notation.scan import T

_BEFORE = frozenset("of along on around round across over from in into to onto".split())
"""What stands before a piece."""
_WHICH = frozenset("first second third 1st 2nd 3rd other left right same next each previous last".split())
_OF_TWO = frozenset("first second 1st 2nd other".split())
_SIDES = frozenset("side panel section flap front back".split())
"""What the two parts of a piece may be called that were worked one after the other: "of the second side"."""
_STITCHES = frozenset("treble double dc tr triple d".split())
"""What is left of a stitch's name behind "half"."""
PIECES = frozenset(
    "leg legs arm arms foot feet paw paws ear ears horn horns finger fingers toe toes piece pieces "
    "sleeve sleeves tube tubes sock socks wing wings fin fins tail "
    "fluke flukes".split()
)
_BODIES = ("body", "head", "torso")
_CHAINS = frozenset("ch chain chs chains".split())


def piece_here(c: Cursor) -> int:
    """How many tokens from the cursor name a piece, its preposition first; 0 when none does.

    Chains between pieces count as one: "along ch 2", "along the other side of ch 2".
    """
    if c.text() not in _BEFORE:
        return 0
    n = 1
    if c.text(n) == "the":
        n += 1
    side = False
    other = c.text() in ("along", "on", "in", "across") and c.text(n) in ("other", "opposite", "both")
    if other and c.text(n + 1) in ("side", "sides") and c.text(n + 2) == "of":
        side = True
        n += 4 if c.text(n + 3) == "the" else 3
    if (side or c.text() == "along") and c.text(n) in _CHAINS:
        n += 1
        if c.kind(n) is T.HYPHEN:
            n += 1
        return n + 1 if c.value(n) is not None else n
    which = c.text(n)
    if which in _WHICH:
        n += 1
    halves = which in _OF_TWO and c.text(n) in ("half", "halves") and c.text(n + 1) not in _STITCHES
    sides = c.text() == "of" and which in _OF_TWO and which != "other" and c.text(n) in _SIDES
    if c.text(n) not in PIECES and not halves and not sides:
        return 0
    n += 1
    return n + 1 if c.kind(n) is T.NUMBER else n


def through_piece(c: Cursor) -> int:
    """How many tokens "through first arm and body" takes: what lies in front is caught, one stitch in each still."""
    if c.text() != "through":
        return 0
    if c.text(1) == "both" and c.text(3) in ("and", "&") and c.text(5) in _BEFORE:
        # "through both band and circle in the next 36 sts"
        return 5
    n = 2 if c.text(1) in ("the", "both") else 1
    n += c.text(n) in ("the", "both")
    n += c.text(n) in _WHICH
    if c.text(1) == "both" and c.text(n) in ("layers", "pieces", "parts", "thicknesses"):
        # "sl st through both layers in each st": there the place is told
        return n + 1 if c.kind(n + 1) is not T.WORD else 0
    if c.text(n) in _BODIES and c.text(n + 1) in ("and", "&"):
        # "through body and first arm"
        n += 2
        n += c.text(n) == "the"
        n += c.text(n) in _WHICH
        return n + 1 if c.text(n) in PIECES else 0
    if c.text(n) not in PIECES:
        return 0
    n += 1
    n += c.kind(n) is T.NUMBER and c.text(n + 1) in ("and", "&")
    if c.text(n) in ("and", "&") and c.text(n + 1) in (*_BODIES, "the"):
        n += 3 if c.text(n + 1) == "the" else 2
    return n
