"""Sizes that go on elsewhere: "Size Small: go to Sides.", "Baby: skip to Rnd 9.", "For S, stop here."

A line and the names of the sizes come in; which of them leave the rows that follow, and until which row, comes out.
"""

import re

from tracker.expressions import expression
from tracker.notation.page.sized.conditions import sizes_named

_LEAVES = expression(
    r"[\s*_(\[•-]*(?:(?:for|if\s+(?:you(?:'re|\s+are)\s+)?(?:making|working)|making|working)\s+)?(?:the\s+|a\s+)?(?:sizes?\s+)?"
    r"(?P<names>[\w/.+'-]+(?:[\s,&]+(?:and\s+|or\s+)?[\w/.+'-]+){0,6}?)(?:\s+sizes?)?(?:\s+only)?(?:\s*[:,–—-]\s*|\s+)(?:you\s+)?(?:can\s+)?"
    r"(?:now\s+)?(?:go|skip|jump|move|proceed|continue|stop)\b(?P<whither>[^.!\n]{0,60})[.!]?[\s*_)\]]*$",
    re.IGNORECASE,
    ["go", "skip", "jump", "move", "proceed", "continue", "stop"],
)
_UNTIL = expression(r"\b(?:rows?|rnds?|rounds?|r)\s?(?P<row>\d{1,3})\b", re.IGNORECASE)
_ONWARD = expression(
    r"\s*(?:on|ahead|straight|directly|here|now|there)?\s*(?:(?:to|with|at|from|and|then)\s+\S.*)?$",
    re.IGNORECASE,
)


_SENTENCE = expression(r"(?<=[.)\]!])\s+(?=[A-Z*_(])")


def left_behind(line: str, names: tuple[str, ...]) -> int | None:
    """Where such a sentence begins at the end of a row's line, "… (40) Size S: go to Body."; None where none does."""
    for hit in _SENTENCE.finditer(line) if names else ():
        if leaves_at(line[hit.end() :], names) is not None:
            return hit.end()
    return None


def leaves_at(line: str, names: tuple[str, ...]) -> tuple[tuple[str, ...], int] | None:
    """The sizes that leave the rows behind a line, and the number of the row from which they are back, or 0.

    >>> leaves_at("Size S: go to SIDES.", ("S", "M")), leaves_at("*Baby size: skip to Rnd 9.*", ("Baby", "Child"))
    ((('S',), 0), (('Baby',), 9))
    >>> leaves_at("S: go round with sc", ("S", "M")) is None
    True
    """
    hit = _LEAVES.match(line) if names else None
    told = sizes_named(hit["names"], names) if hit is not None else None
    if hit is None or not told or len(told) == len(names) or _ONWARD.match(hit["whither"]) is None:
        return None
    until = _UNTIL.search(hit["whither"])
    return told, int(until["row"]) if until is not None else 0
