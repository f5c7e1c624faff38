"""Rounds with no label at all, each a line of its own behind a ring: "MR 6" / "inc around (12)" / "(sc, inc) x 6 (18)".

A text and its lines with their labels come in; the labels that such lines would have come out. Only where nothing in
the text is numbered, and where most of those lines tell a count.
"""

import re
from collections.abc import Mapping

from tracker.expressions import expression
from tracker.notation.page.labelled.labels import Label
from tracker.notation.page.labelled.row_names import called

Place = tuple[int, int]
_STITCH = r"(?:e?sc|hdc|dc|htr|tr|inc(?:rease)?s?|dec(?:rease)?s?|invdec|sts?)"
_RING = expression(
    r"(?:(?:make\s+an?\s+)?(?:mr|mc|magic\s+(?:ring|circle|loop)|adjustable\s+ring)\b[^\n\d]{0,16}\d"
    rf"|\d{{1,2}}\s?{_STITCH}\s+(?:in|into)\s+(?:an?\s+|the\s+)?(?:mr|mc|(?:magic\s+)?(?:ring|circle|loop))\b)",
    re.IGNORECASE,
)
_WORK = expression(
    rf"\s*(?:[*(\[{{]\s*)*(?:\d{{1,3}}\s?(?:x\s*)?)?(?:\[|\()?{_STITCH}\b[^.\n]{{0,90}}"
    r"(?:\baround\b|\beach\b|\ball\b|[x×]\s?\d|\d\s?(?:x|times)\b|[(\[{=–—-]\s?\d)",
    re.IGNORECASE,
)
_COUNTED = expression(
    r"[(\[{=–—-]\s?\d{1,3}(?:\s?(?:sts?|sc|hdc|dc|stitches))?\s?[)\]}]?\s*\.?\s*$", re.IGNORECASE
)
_OFTEN = expression(
    r"\b(?:for\s+|[x×]\s?)?(\d{1,2})\s+(?:more\s+)?(?:rounds?|rnds?|rds?|rows?)\b", re.IGNORECASE
)
_ENDS = expression(r"\s*(?:fasten|finish|cut|break|tie|close|fo\b|end\b)", re.IGNORECASE)
_FEWEST = 4
"""Lines that show how a pattern tells its rounds."""


def unnumbered(text: str, labels: Mapping[Place, Label | None]) -> dict[Place, Label]:
    """Labels for rounds that have none; none where anything is numbered, or where they may be something else."""
    if any(label is not None for label in labels.values()) or _RING.search(text) is None:
        return {}
    found: dict[Place, Label] = {}
    number = counted = 0
    for place in labels:
        line = text[slice(*place)]
        if _RING.match(line.lstrip()):
            number = 1
        elif not number or not _WORK.match(line):
            number = 0 if _ENDS.match(line) else number
            continue
        often = _OFTEN.search(line)
        numbers = tuple(range(number, number + min(99, int(often[1]) if often else 1)))
        if not numbers:
            return {}
        found[place] = Label("round", numbers, called("round", numbers), 0, 0)
        counted += _COUNTED.search(line) is not None or _RING.match(line.lstrip()) is not None
        number = numbers[-1] + 1
    return found if len(found) >= _FEWEST and 3 * counted >= 2 * len(found) else {}
