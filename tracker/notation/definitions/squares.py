"""Squares of filet ("open mesh: ch 2, sk 2, dc in next dc") and tiles of corner-to-corner ("sl st, ch 3, 3 dc")."""

import re

from tracker.expressions import expression
from tracker.notation.tree import Special
from tracker.problems import Span

_WINDOWS = frozenset("om openmesh mesh open opensquare sp space window w openblock os opensp".split())


_BLOCKS = frozenset(
    "bl blk block solid solidmesh solidblock filledmesh fm cm closedmesh b filled filledsquare sm bk "
    "solidsquare".split()
)


_TILE_STARTS = expression(
    r"\b(?:ch\s*6|6\s*ch)\b.{0,40}?\b(?:4th|fourth)\s+ch(?:ain)?\s+from",
    re.IGNORECASE | re.DOTALL,
    ["4th", "fourth"],
)
_TILE_GOES_ON = expression(
    r"\b(?:ch\s*3|3\s*ch)\b\W{0,3}(?:work\s+)?\b3\s*(?:dc|tr)\s+in(?:to)?\s+(?:the\s+)?same", re.IGNORECASE
)

_CLOSED = expression(
    r"(?<!\d )\b(?:dc|tr|d c)\s+in(?:to)?\s+(?:the\s+|first\s+|next\s+|last\s+)*(?:dc|tr|d c|st)\b"
)
"""The one stitch at an edge of a block that is told apart from those within it."""


def undefined_tile(text: str) -> Special | None:
    """The tile of a corner-to-corner piece whose rows spell every tile out and that defines none; else None."""
    found = _TILE_STARTS.search(text)
    if found is None or _TILE_GOES_ON.search(text) is None:
        return None
    return Special("tile", (), 0, "tile", True, Span(found.start(), found.end()), found.group())


def square(keys: list[str], short: str, body: str, span: Span, text: str) -> Special | None:
    """A window, a block or a tile, as rows call it; None for anything else."""
    begins = any(key.startswith("beg") for key in keys)
    plain = {key.removeprefix("beginning").removeprefix("beg") for key in keys}
    low = re.split(r"\.\s", body.lower())[0]
    chains = re.search(r"\bch(?:ain)?\s*-?\s*(\d)|\b(\d)\s*ch\b", low)
    on = bool(
        re.search(
            r"\b(?:dc|tr|d c|treble|double crochet)s?\s+in(?:to)?\s+(?:the\s+)?(?:next|each|last|dc\b|tr\b)",
            low,
        )
    )
    if plain & _WINDOWS and chains and on and re.search(r"\b(?:sk|skip|miss)\b", low):
        fill = int(chains[1] or chains[2])
        if begins:
            fill = max(1, fill - 3)
        if 1 <= fill <= 3:
            return Special(short, (), fill, "beg window" if begins else "window", False, span, text)
    alone = re.fullmatch(r"\s*\d\s*(?:dc|tr|d c)s?\W*", low)
    if plain & _BLOCKS and (
        alone or on and (begins or not chains or re.search(r"\bin(?:to)?\b.*\bch-?\d", low))
    ):
        counts = [int(n) for n in re.findall(r"\b(\d)\s*(?:dc|tr|d c)\b", low)] + [
            int(n) for n in re.findall(r"next\s+(\d)\s+(?:dc|sts|tr|d c|st)", low)
        ]
        fill = min(counts) if counts else 1
        if begins or counts and not _CLOSED.search(low):
            # the number is told with the stitch that closes the block
            fill = max(1, fill - 1)
        if 1 <= fill <= 3:
            return Special(short, (), fill, "beg block" if begins else "block", False, span, text)
    if (
        plain & {"tile", "block", "bl", "blk", "square"}
        and re.search(r"\bch\s*[36]\b", low)
        and re.search(r"\b(?:3\s*(?:dc|hdc|tr)|4th ch)\b", low)
    ):
        return Special(short, (), 0, "beg tile" if begins else "tile", True, span, text)
    return None
