"""Loops of a stitch: "blo", "in back lps only", "3rd loop", "unused loops"."""

from tracker.notation.phrase.cursor import Cursor
from tracker.notation.tree import Where, Which
from tracker.records import replace

LOOP_WORDS = frozenset("loop loops lp lps bar hump bump".split())
LEFT_FREE = frozenset(("free", "unused", "unworked", "remaining", "rem", "leftover"))
"""What is said of loops that nothing was worked into."""
_OF = ("of", "on", "along", "at", "from", "in", "left")
"""What stands behind loops of a stitch, or of the foundation, that are told to remain."""
_HALVES = frozenset("half halves strand strands thread threads leg legs".split())
"""What others call the loops of a stitch; told only with the stitch behind them."""


def loop_words(c: Cursor) -> str:
    """Takes "blo", "in back lps only", "both loops", "3rd loop": "back", "front", "both", "third" or ""."""
    i = c.i
    c.take_any("in", "into", "through", "thru", "using", "working", "work", "under")
    c.take_any("in", "into", "through")
    c.take_any("the", "any", "each", "next") if c.text(1) in {
        "front",
        "back",
        *LEFT_FREE,
    } else c.take("the")
    unused = c.take_any(*LEFT_FREE)
    if unused in ("rem", "remaining") and c.text() in LOOP_WORDS and c.text(1) not in _OF:
        # "3 sc in each rem lp around": the loops of chains that are left
        c.i = i
        return ""
    if unused and c.text() in ("loop", "loops", "lp", "lps"):
        c.i += 1
        return "free"
    word = c.text()
    if word in ("blo", "flo") or (word in ("bl", "fl", "blp", "flp", "tbl") and c.text(1) not in ("st",)):
        c.i += 1
        c.take("only")
        side = "front" if "f" in word[:2] else "back"
    elif word in ("back", "front", "both", "third", "3rd", "horizontal", "rear") and (
        c.text(1) in LOOP_WORDS or c.text(1) in _HALVES and c.text(2) in ("of", "only")
    ):
        c.i += 2
        c.take("only")
        side = {"3rd": "third", "horizontal": "third", "rear": "back"}.get(word, word)
    else:
        c.i = i
        return ""
    if c.take("left"):
        c.take("free")
        unused = "free"
    return f"free {side}" if unused and side in ("front", "back") else side


def in_loop(where: tuple[Where, ...] | None, loop: str) -> tuple[Where, ...] | None:
    """The places with the loop said of them; loops said to be free belong to the place as it is."""
    if where is None:
        return None
    if loop == "free":
        if all(w.kinds and w.kinds[0].name == "ch" and w.which is Which.NEXT for w in where):
            return tuple(replace(w, loop="base") for w in where)
        return where
    return tuple(replace(w, loop=loop) for w in where)
