"""A first row that only chains: "Row 1: Ch 21.", "R1: chain 4, join to form a ring": the foundation of the second.

What stands behind a row's label comes in; whether it is nothing but a foundation comes out.
"""

import re

from tracker.expressions import expression
from tracker.notation.page.labelled.labels import Label

_RING = r"(?:an?\s+|the\s+)?(?:magic|adjustable)\s+(?:ring|circle|loop)"
_CHAINS = (
    r"(?:a\s+)?(?:(?:foundation|starting|base|loose)\s+)?ch(?:ain)?s?\s*(?:of\s+)?\d{1,4}(?:\s*(?:sts?|ch)\b)?"
    r"|\d{1,4}\s*ch(?:ain)?s?\b"
)
_JOINED = (
    r"(?:and\s+|then\s+)?(?:join|close|sl\.?\s?st|slst|slip\s+st(?:itch)?|ss)\b[^:\n.;,]{0,50}?"
    r"\b(?:ring|circle|loop|round|rnd|(?:first|1st|beg\w*)\s+ch(?:ain)?)\b[^:\n.;,]{0,24}"
)
_ALONE = expression(
    r"\s*(?:(?:with|using|in)\s[^.;:,\n]{1,40},\s*)?(?:(?:make|work|create|begin\s+with|start\s+with)\s+)?"
    rf"(?:{_CHAINS}|{_RING})(?:\s*(?:[;,]\s*|\.\s+)?(?:loosely|(?:and\s+)?turn|(?:to\s+)?form\s+a\s+ring|do\s+not\s+twist"
    rf"|without\s+twisting|ch(?:ain)?\s*[1-6]\b|being\s+careful\s+not\s+to\s+twist|{_JOINED}))*\s*[.,;]?\s*"
    r"(?:[(\[][^()\[\]\n]{1,30}[)\]]|(?:[–—=-]|:)\s*\d{1,4}\s*(?:ch|chs|sts?)\b)?\s*\.?\s*",
    re.IGNORECASE,
    ["ch", "ring", "circle", "loop"],
)


def only_chains(label: Label, text: str) -> bool:
    """True for a first row whose text, up to the end of its line, makes a foundation and nothing on it.

    >>> row = Label("row", (1,), "Row 1", 0, 6)
    >>> only_chains(row, " Ch 21, turn. (21 ch)"), only_chains(row, " Ch 21, sc in 2nd ch from hook.")
    (True, False)
    """
    first = label.many is None and tuple(label.numbers) in ((), (0,), (1,)) and label.kind != "edging"
    return first and _ALONE.fullmatch(text) is not None
