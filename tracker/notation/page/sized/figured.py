"""How many sizes the figures of a pattern tell, whatever it calls them: "Ch 31 (35, 39)" tells three."""

import re
from collections import Counter

from tracker.expressions import expression

_IN_A_ROW = expression(r"[(\[{:/](?:(?<=\d.)|(?<=\d\s.)|(?<=[)\]}].)|(?<=[)\]}]\s.))\s*[\d–—-]", re.DOTALL)
"""What every list of figures holds, found in one go over a text: a mark that a figure stands before and behind."""
_BETWEEN = r"[ ]?[,;:/|][ ]?|[ ]"
_LISTED = expression(
    r"(?<![\d.,/])(?<!\d[–-])(?P<first>\d{1,3})[ ]?"
    rf"(?P<others>[(\[{{][ ]?(?:\d{{1,3}}|[–—-])(?:(?:{_BETWEEN})(?:\d{{1,3}}|[–—-]))*[ ]?[)\]}}]"
    rf"(?:[ ]?[(\[{{][ ]?(?:\d{{1,3}}|[–—-])(?:(?:{_BETWEEN})(?:\d{{1,3}}|[–—-]))*[ ]?[)\]}}])*)"
    r"|(?<![\d.,/-])\d{1,3}(?P<slashed>(?:[ ]?/[ ]?\d{1,3}){2,9})(?![/\d])"
    r"|(?<![\d.,:-])\d{1,3}(?P<parted>(?::[ ]?\d{1,3}){2,9})(?![:\d])"
)
""" "31 (35, 39)", "31 (35) (39)", "31 (35, 39) (43, 47)"; "31/35/39"; "31: 35: 39"."""
_CHAINED = expression(
    r"\bch(?:ain)?[ ](?P<one>\d{1,3})[ ]?[(\[{](?P<two>\d{1,3})[)\]}]"
    r"(?=[ ]*(?:[.,;:\n]|and\b|for\b|then\b|loosely\b|$))"
    r"|\b(?P<a>\d{1,3})[ ]?[(\[{](?P<b>\d{1,3})[)\]}][ ]*ch(?:ains?)?\b",
    re.IGNORECASE,
    ["ch"],
)
""" "Ch 31 (37).", "31 (37) ch": a foundation of two sizes."""
_WORKED = expression(
    r"[(\[{—–][ ]?\d{1,3}[ ]?[(\[{](?P<count>\d{1,3})[)\]}][ ](?:[A-Za-z]{2,12})"
    r"|\b\d{1,3}[ ]?[(\[{](?P<often>\d{1,3})[)\]}][ ](?:more[ ])?(?:times|rows|rnds|rounds|sts?|stitches)\b",
    re.IGNORECASE,
)
""" "(30 (36) sc)", "9 [13] times": figures of two sizes, which a count behind a number is not."""
_TOLD = expression(
    r"\b(?:figures?|numbers?|counts?|sizes?)\b[^.\n]{0,60}\b(?:brackets?|parenthes[ei]s)\b"
    r"|\b(?:larger|bigger|other|second)\b[^.\n]{0,30}\b(?:brackets?|parenthes[ei]s)\b|\bsizes\b|\(\w+\) sizes?\b"
    r"|(?:1st|2nd|first|second|larger|smaller|large|small|adult|child)(?:'s)?\s+size\s+only"
    r"|\b\d[\d–-]{0,4}\s?(?:months?|mos?|mths?|years?|yrs?)\s?[(\[]\s?\d[\d–-]{0,4}\s?(?:months?|mos?|mths?|years?|yrs?)[)\]]",
    re.IGNORECASE,
)
""" "Figures for the larger size are in brackets"."""


def figured(text: str) -> int:
    """How many figures the lists of a text have; 0 where it tells one size only.

    >>> figured("Ch 31 (35, 39).\\nRow 1: Sc in each ch across. (30 (34, 38) sc)"), figured("Sc in next 4 (24).")
    (3, 0)
    """
    if _IN_A_ROW.search(text) is None:
        return 0
    lengths: Counter[int] = Counter()
    for hit in _LISTED.finditer(text[:60_000]):
        others = hit["others"] or hit["slashed"] or hit["parted"]
        lengths[1 + len(re.findall(r"\d+|(?<![\d])[–—-](?!\d)", others))] += 1
    many, often = max(lengths.items(), key=lambda one: (one[0] > 2, one[1]), default=(0, 0))
    if many > 2:
        return many if often > 1 else 0
    return 2 if many == 2 and _of_two(text) else 0


def _of_two(text: str) -> bool:
    """True for figures of two sizes: "Ch 31 (37).", where others bear it out or the text says so."""
    chained = any((hit["one"] or hit["a"]) != (hit["two"] or hit["b"]) for hit in _CHAINED.finditer(text))
    worked = _WORKED.search(text) is not None
    told = _TOLD.search(text) is not None
    return chained and (worked or told) or worked and told
