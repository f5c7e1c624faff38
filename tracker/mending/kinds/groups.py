"""Groups worked in one place, made even, and what tells that the words of a row are likelier wrong than its count.

A row comes in whose count differs; edits go out, likeliest first. A group is nearly always the same from both ends, and
one slip in it counts once for every place that it is worked in.
"""

import re
from collections.abc import Iterator

from tracker.load import Loaded
from tracker.mending.kinds.numbers import worked
from tracker.notation.pattern import Row
from tracker.notation.tree import ANY
from tracker.problems import Fix, Span
from tracker.trade.stitches import STITCHES

_GROUP = re.compile(r"[(\[]([^()\[\]]*)[)\]]")
_PART = re.compile(
    r"(?P<many>\d{1,2})\s(?P<name>sc|hdc|dc|tr|htr|dtr)\b|\bch\s?\d\b|\b\d\s?ch\b|\b(?:sc|hdc|dc|tr|htr|dtr)\b"
)
_FAR = 6
"""So many more or fewer are no slip in a count, save where a figure of it is another."""


def uneven_groups(loaded: Loaded, row: Row) -> Iterator[Fix]:
    """ "(2 dc, ch 2, 3 dc) in next sp": one of the numbers made the other, in both ways."""
    start = row.label_span.end
    for hit in _GROUP.finditer(loaded.source.text, start, row.span.end):
        parts = list(_PART.finditer(hit[1]))
        if len(parts) < 3 or any(
            one["name"] != other["name"] for one, other in zip(parts, reversed(parts), strict=True)
        ):
            continue
        # behind the chain that is its first stitch a group begins with one fewer
        before = loaded.source.text[start : hit.start()]
        begun = int(_BEGUN.search(before) is not None and not set("*[") & set(before))
        halves = zip(parts[: len(parts) // 2], reversed(parts), strict=False)
        pairs = [
            (one, other, begun if k == 0 else 0)
            for k, (one, other) in enumerate(halves)
            if one["many"]
            and other["many"]
            and int(one["many"]) + (begun if k == 0 else 0) != int(other["many"])
        ]
        if len(pairs) != 1:
            continue
        first, last, fewer = pairs[0]
        for wrong, value in ((last, int(first["many"]) + fewer), (first, int(last["many"]) - fewer)):
            at = hit.start(1) + wrong.start("many")
            if value > 0:
                yield Fix(Span(at, at + len(wrong["many"])), str(value))


_BEGUN = re.compile(r"\b(?:ch\s?[2-9]|[2-9]\s?ch)\b(?:\s*\([^()]{0,30}\))?,\s*$", re.IGNORECASE)


def far_from_stated(loaded: Loaded, row: Row) -> bool:
    """True where a row makes so many more or fewer than its count that this is hardly a slip of one figure."""
    for placed in worked(loaded, row)[:1]:
        made = placed.worked
        for stated in row.stated:
            for name, number in stated.counts:
                if name not in ("", ANY) and name not in STITCHES:
                    continue
                there = made.makes.get(name, 0) if name in STITCHES else made.stitches
                if abs(there - number) >= _FAR and not _one_figure(str(there), str(number)):
                    return True
    return False


def _one_figure(one: str, other: str) -> bool:
    """True for numbers that differ in one figure, or in the order of two."""
    same = len(one) == len(other)
    return same and (
        sum(a != b for a, b in zip(one, other, strict=True)) == 1 or sorted(one) == sorted(other)
    )
