"""Rounds that a pattern calls rows, as old leaflets do.

The blocks of a page come in; the parts in which a row is a round come out.
"""

import re
from collections.abc import Sequence

from tracker.expressions import expression
from tracker.notation.page.block import Block

_RING = expression(
    r"\bin(?:to)?\s+(?:the\s+)?(?:ring|circle|loop)\b", re.IGNORECASE, ["ring", "circle", "loop"]
)
_CLOSED = expression(
    r"\b(?:(?:sl(?:ip)?[\s-]?st(?:itch)?|slst|join)\b|s\.?\s?s\b\.?)"
    r"(?:\s+to\s+(?:close|join)\b|[^.;(]{0,24}?\b(?:first|top|beg\w*|\d(?:st|nd|rd|th))\b)",
    re.IGNORECASE,
)
_TURNED = expression(r"(?<!not )(?<!n't )\bturn\b", re.IGNORECASE, ["turn"])


def rounds_called_rows(blocks: Sequence[Block], text: str) -> set[str | None]:
    """Parts of which every row is closed and none turned, the first of them worked into a ring."""
    rows: dict[str | None, list[str]] = {}
    for block in blocks:
        if (
            block.job == "row"
            and block.label is not None
            and block.label.kind == "row"
            and block.label.numbers
        ):
            rows.setdefault(block.part, []).append(text[block.start : block.end])
    return {
        part
        for part, told in rows.items()
        if len(told) > 1
        and _RING.search(told[0]) is not None
        and all(_CLOSED.search(words) is not None and _TURNED.search(words) is None for words in told)
    }
