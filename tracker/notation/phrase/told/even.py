"""Rows that go on as those before: "Work even", "cont in est patt for 6 rows", and which rows are the pattern.

A cursor, or words between rows, come in; what they say goes out, or nothing with the cursor where it was.
"""

import re
from collections.abc import Sequence
from itertools import pairwise

from tracker.expressions import expression
from tracker.notation.phrase.cursor import STOPS, Cursor
from tracker.notation.phrase.until import ROWS
from tracker.notation.scan import T, Token
from tracker.trade.numbers import number_of

_LEADS = ("work", "continue", "cont", "keep", "working", "continuing")
_EVEN = frozenset("even straight plain".split())
_SET = frozenset("pattern patt pat established est set".split())
_BETWEEN = frozenset("in the as this same st stitch before above now given on going to".split())
"""Words between those that change nothing."""
_UNSHAPED = frozenset("shaping increasing decreasing inc dec increase decrease increases decreases".split())
_HOW_LONG = ("for", "until", "till", "by", "through", "thru")


def as_set_here(c: Cursor, led: bool = True) -> str:
    """ "even" for "Work even", "pattern" for "cont in est patt": rows that go on; "" for other words.

    `led` False: the words that lead to it, "Work 6 rows", are taken already.
    """
    start = c.i
    if led:
        if not c.take_any(*_LEADS):
            return ""
        c.take_any("to", "on")
        c.take_any("work", "working", "crochet", "keep")
    told = ""
    while True:
        word = c.text()
        if word in _EVEN:
            told = told or "even"
        elif word in _SET:
            told = "pattern"
        elif word == "without":
            c.i += 1
            c.take_any("any", "further", "more")
            if c.text() not in _UNSHAPED:
                break
            told = told or "even"
            while c.text(1) in ("or", "and") and c.text(2) in _UNSHAPED:
                c.i += 2
        elif word not in _BETWEEN:
            break
        c.i += 1
    if not told or not (c.kind() in STOPS or c.text() in _HOW_LONG or c.kind() is T.OPEN):
        c.i = start
        return ""
    return told


_BY_TURNS = frozenset("stripe stripes striping pattern patt pat sequence".split())
"""Words by which rows go on as several before them do, one after the other."""
_ENDING = frozenset("ending end ends finishing finish".split())


def rows_as_before(tokens: Sequence[Token]) -> str:
    """How so many rows go on of which no stitch is told: "even", "pattern" for those by turns; "" when not known.

    Rows that are named by number, other than the one they end with, say more than that.
    """
    for k, (word, number) in enumerate(pairwise(tokens)):
        said = {token.text for token in tokens[max(0, k - 4) : k]}
        if word.text in ROWS and number.kind is T.NUMBER and not _ENDING & said:
            return ""
    return "pattern" if any(token.text in _BY_TURNS for token in tokens) else "even"


_FORM = expression(
    r"\b(?:(?:these|those|last|above|the)\s+(?:last\s+)?(?P<last>\d{1,2}|two|three|four|five|six|seven|eight)\s+rows?"
    r"|(?P<this>(?:this|last|that)\s+row)|rows?\s+(?P<from>\d{1,3})(?:\s*(?:-|–|to|and|&)\s*(?:rows?\s+)?(?P<to>\d{1,3}))?"
    r"|(?P<nth>\d{1,3})(?:st|nd|rd|th)(?:\s*(?:-|–|to|and|&)\s*(?P<nth2>\d{1,3})(?:st|nd|rd|th))?\s+rows?)\s+"
    r"(?:are|is|now|will|together|\s)*(?:form|set|establish|make|create|repeat)\w*\s+(?:up\s+)?(?:for\s+)?"
    r"(?:the\s+|your\s+)?(?:stitch\s+)?patt",
    re.IGNORECASE,
    ["patt"],
)


def pattern_told(words: str) -> tuple[int, tuple[int, ...]]:
    """Which rows the words call the pattern: the last so many, or those of some numbers; (0, ()) where they call none.

    >>> pattern_told("These 2 rows form the pattern."), pattern_told("Rows 2-4 form the patt"), pattern_told("Turn.")
    ((2, ()), (0, (2, 3, 4)), (0, ()))
    """
    hit = _FORM.search(words) if len(words) < 20_000 else None
    if hit is None:
        return 0, ()
    if hit["this"]:
        return 1, ()
    if hit["last"]:
        return number_of(hit["last"].lower()) or 0, ()
    first = int(hit["from"] or hit["nth"])
    last = int(hit["to"] or hit["nth2"] or first)
    return 0, tuple(range(first, min(last, first + 60) + 1))
