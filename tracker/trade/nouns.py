"""One or several of what a row holds, as it is said and as it is written: "bobbles", "ch-1 sps", "double crochet".

A name as it is said or written comes in; the same name for several goes out. The names of stitches that are doings, and
abbreviations, stay as they are; what is a thing takes its plural.
"""

from tracker.expressions import expression
from tracker.trade.stitches import STITCHES

_DOINGS = ("crochet", "treble", "together", "front", "back", "tog", "htr", "inc", "dec")
"""How names end that are the same for one and for several."""
_BEHIND = expression(r" (?:in|into|around|only|below|down)\b")
"""A name that tells where its stitch goes is no noun that could take a plural."""
_VOWEL = expression(r"[aeiou]")
_SHORT = ("sp", "st", "sts", "rnd", "lp")
"""Abbreviations that take a plural of their own."""


def several(name: str) -> str:
    """What more than one of it is called.

    >>> several("ch-2 sp"), several("puff stitch"), several("box"), several("bobble"), several("daisy"), several("V-st")
    ('ch-2 sps', 'puff stitches', 'boxes', 'bobbles', 'daisies', 'V-sts')
    >>> several("sc"), several("sc2tog"), several("bo"), several("double crochet"), several("C four F")
    ('sc', 'sc2tog', 'bo', 'double crochet', 'C four F')
    """
    last = name.split(" ")[-1].split("-")[-1]
    if name.endswith(_DOINGS) or not last or last[-1].isupper() or _BEHIND.search(name):
        return name
    if last in _SHORT:
        return name if last.endswith("s") else f"{name}s"
    short = STITCHES.get(last)
    if short is not None and last not in short.spoken.split(" ") or not _VOWEL.search(last):
        return name
    if last.endswith("s") and not last.endswith("ss"):
        return name
    if last.endswith(("ss", "x", "ch", "sh")):
        return f"{name}es"
    return f"{name[:-1]}ies" if last.endswith("y") and last[-2:-1] not in "aeiou" else f"{name}s"


def amount(number: int, name: str) -> str:
    """A number in figures and what it counts.

    >>> amount(1, "stitch"), amount(7, "tile"), amount(5, "sc"), amount(0, "ch-1 sp"), amount(3, "slst")
    ('1 stitch', '7 tiles', '5 sc', '0 ch-1 sps', '3 sl sts')
    """
    name = "sl st" if name == "slst" else name
    return f"{number} {name if number == 1 else several(name)}"


def a_(name: str) -> str:
    """ "a treble", "an increase"."""
    return f"an {name}" if name[:1] in "aeiou" else f"a {name}"
