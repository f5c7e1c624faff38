"""Rounds whose numbers have no word before them, or one that others don't use: "1 - 6 sc into MR", "~ 2 ~ inc x6",
"T3: 18 sc", "4th   18 sc", "5 .... 18 sc".

A text comes in; it comes out with such numbers as labels, where they rise one after another from 1 and most of the
lines work stitches: else "2 - 6 sc" may be a range, or a line of a list.
"""

import re
from itertools import pairwise

from tracker.expressions import expression

_MORE = r"(?P<more>(?:[ ]?[/,&][ ]?\d{1,3}){0,4}|[ ]?[-–][ ]?\d{1,3})"
_DASHED = expression(
    r"^(?P<blank>[ ]*)(?P<first>\d{1,3})(?P<more>(?:[ ]?[/,&][ ]?\d{1,3}){0,4}|[-–]\d{1,3})[ ]+[-–—][ ]+"
    r"(?=\S)(?P<told>[^\n]*)",
    re.MULTILINE,
    [" - ", " – ", " — "],
)
_BETWEEN_SIGNS = expression(
    rf"^(?P<blank>[ ]*)[~=_<\[({{·•—–-]{{1,3}}[ ]?(?P<first>\d{{1,3}}){_MORE}[ ]?[~=_>\])}}·•—–-]{{1,3}}[ ]*:?[ ]*"
    r"(?=[^\s,;.])(?P<told>[^\n]*)",
    re.MULTILINE,
)
""" "~ 3 ~ sc around", "[3] sc around"."""
_OWN_WORD = expression(
    r"^(?P<blank>[ ]*)(?P<word>[A-QT-Z]|Lap|Tour|Toer|Ronde|Runde|Ring|Circle)\.?[ ]?(?P<first>\d{1,3})"
    r"(?P<more>(?:[ ]?[-–&,][ ]?(?:(?P=word)\.?[ ]?)?\d{1,3})?)[ ]?[:.)=][ ]*(?=\S)(?P<told>[^\n]*)",
    re.MULTILINE,
)
""" "T3: sc around", "Lap 3. sc around"."""
_ORDINAL = expression(
    r"^(?P<blank>[ ]*)(?P<first>\d{1,3})(?:st|nd|rd|th)(?P<more>(?:[ ]?[-–&][ ]?\d{1,3}(?:st|nd|rd|th))?)"
    r"(?:[ ]{2,}|[ ]?[:.)—–|][ ]*)(?=\S)(?P<told>[^\n]*)",
    re.MULTILINE,
    ["1st"],
)
""" "3rd   sc around", "3rd: sc around"."""
_LEADERS = expression(
    r"^(?P<blank>[ ]*)(?P<first>\d{1,3})(?P<more>(?:[ ]?[-–][ ]?\d{1,3})?)[ ]*\.{2,}[ ]*(?=\S)(?P<told>[^\n]*)",
    re.MULTILINE,
    [".."],
)
""" "3 .... sc around"."""
_STYLES = (_DASHED, _BETWEEN_SIGNS, _OWN_WORD, _ORDINAL, _LEADERS)
_NAMED_ORDINAL = expression(
    r"\b(?P<lead>(?:as|like|rep(?:eat)?)[ ]+(?:the[ ]+)?)(?P<first>\d{1,3})(?:st|nd|rd|th)"
    r"(?=[ ]*(?:[.;,()\[]|[ ]{2}|$))",
    re.IGNORECASE | re.MULTILINE,
)
""" "Same as 2nd": a round that others name."""
_COUNT_LED = expression(r"[ ]*\.{3,}[ ]*(?P<count>\d{1,4}(?:[ ]\w{2,5})?)[ ]*$")
""" "6 sc into ring ....... 6"."""
_WORKS = expression(r"\b(?:e?sc|hdc|dc|htr|tr|inc(?:rease)?s?|dec(?:rease)?s?|ch|mr|magic)\b", re.IGNORECASE)
_FEWEST = 3
"""Lines that show how a pattern numbers its rounds."""


def dashes_as_labels(text: str) -> str:
    """The text with such numbers as labels.

    >>> dashes_as_labels("1 - 6 sc in MR\\n2 - 6 inc\\n3-5 - sc around").split("\\n")[1:]
    ['R2: 6 inc', 'R3-5: sc around']
    >>> dashes_as_labels("T1: 6 sc in MR\\nT2: 6 inc\\nT3: as T2").split("\\n")[1:]
    ['R2: 6 inc', 'R3: as Rnd 2']
    """
    for style in _STYLES:
        found = list(style.finditer(text))
        if len(found) >= _FEWEST and _numbered(found):
            text = style.sub(_label, text)
            if style is _OWN_WORD:
                for word in {hit["word"] for hit in found}:
                    text = re.sub(rf"\b{word}\.?[ ]?(?=\d{{1,3}}\b)", "Rnd ", text)
            elif style is _ORDINAL:
                text = _NAMED_ORDINAL.sub(r"\g<lead>Rnd \g<first>", text)
    return text


def _numbered(found: list[re.Match[str]]) -> bool:
    """True where the lines found are rounds one after another."""
    numbers = [(int(hit["first"]), int(re.findall(r"\d+", hit["first"] + hit["more"])[-1])) for hit in found]
    rises = all(after[0] in (before[1] + 1, 1) for before, after in pairwise(numbers))
    works = sum(_WORKS.search(hit["told"]) is not None for hit in found)
    return numbers[0][0] == 1 and rises and 3 * works >= 2 * len(found)


def _label(hit: re.Match[str]) -> str:
    """The line with its number as a label, and with its count in brackets."""
    told = _COUNT_LED.sub(r" (\g<count>)", hit["told"])
    more = re.sub(r"[^\d&,/–-]", "", hit["more"])
    return f"{hit['blank']}R{hit['first']}{more}: {told}"
