"""Rounds whose numbers stand before a dash: "1 - 6 sc into MR", "2 - inc x6", "11 / 12 / 13 – 18 sc".

A text comes in; it comes out with such numbers as labels, where they rise one after another from 1 and most of the
lines work stitches: else "2 - 6 sc" may be a range, or a line of a list.
"""

import re
from itertools import pairwise

from tracker.expressions import expression

_LINE = expression(
    r"^(?P<blank>[ ]*)(?P<first>\d{1,3})(?P<more>(?:[ ]?[/,&][ ]?\d{1,3}){0,4}|[-–]\d{1,3})[ ]+[-–—][ ]+"
    r"(?=\S)(?P<told>[^\n]*)",
    re.MULTILINE,
    [" - ", " – ", " — "],
)
_WORKS = expression(r"\b(?:e?sc|hdc|dc|htr|tr|inc(?:rease)?s?|dec(?:rease)?s?|ch|mr|magic)\b", re.IGNORECASE)
_FEWEST = 3
"""Lines that show how a pattern numbers its rounds."""


def dashes_as_labels(text: str) -> str:
    """The text with such numbers as labels.

    >>> dashes_as_labels("1 - 6 sc in MR\\n2 - 6 inc\\n3-5 - sc around").split("\\n")[1:]
    ['R2: 6 inc', 'R3-5: sc around']
    """
    found = list(_LINE.finditer(text))
    if len(found) < _FEWEST:
        return text
    numbers = [(int(hit["first"]), int(re.findall(r"\d+", hit["first"] + hit["more"])[-1])) for hit in found]
    rises = all(after[0] in (before[1] + 1, 1) for before, after in pairwise(numbers))
    works = sum(_WORKS.search(hit["told"]) is not None for hit in found)
    if numbers[0][0] != 1 or not rises or 3 * works < 2 * len(found):
        return text
    return _LINE.sub(lambda hit: f"{hit['blank']}R{hit['first']}{hit['more']}: {hit['told']}", text)
