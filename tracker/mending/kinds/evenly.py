"""What makes rows that are worked again grow or shrink each time, taken out.

A row comes in that drifts; edits go out after which it is worked even, likeliest first.
"""

import re
from collections.abc import Iterator

from tracker.load import Loaded
from tracker.notation.pattern import Row
from tracker.problems import Fix, Span

_MORE = re.compile(
    r"(?<=[\s,;:.])(?:(?:[2-9]\s+(?:sc|hdc|dc|tr|htr)\s+(?:in|into)\s+(?:the\s+)?(?:first|last|next|same)\s+\w+)|inc|dec|\w{2,3}2tog),\s*"
)
_FEWER = re.compile(r"\s+to\s+last\s+\d+\s+sts?,\s*(?:\w{2,3}2tog|dec|inc|[2-9]\s+\w+)\b[^,;.()\[\]]{0,30}")


def worked_even(loaded: Loaded, row: Row) -> Iterator[Fix]:
    """An increase or a decrease that stands before or behind plain stitches, taken out."""
    start = row.label_span.end
    text = loaded.source.text[start : row.span.end]
    for hit in _MORE.finditer(text):
        yield Fix(Span(start + hit.start(), start + hit.end()), "")
    for hit in _FEWER.finditer(text):
        yield Fix(
            Span(start + hit.start(), start + hit.end()),
            " around" if row.kind == "round" else " across",
        )
