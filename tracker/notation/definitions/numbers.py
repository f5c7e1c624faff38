"""Rows told in bare numbers: "a number is that many sc in the back loop", and borders that no row writes.

The text of a pattern comes in; the stitch that a bare number counts and the one that stands unwritten at both ends of
every row come out, "" where the pattern says no such thing.
"""

import re
from collections.abc import Sequence

from tracker.expressions import expression
from tracker.notation.tree import Item, Repeat, Where, Which, Work
from tracker.trade.spellings import stitch_named

_NUMBERS = expression(
    r"\b(?:numbers?|numerals?|figures?)\b(?:[^.;\n]{0,40}?)"
    r"(?:\b(?:is|are|means?|stands?\s+for|shows?|tells?|gives?|refers?\s+to)\s+|[=:–—]\s*)"
    r"(?:you\s+)?(?:work\s+)?(?:(?:so|that|how)\s+many|(?:the|that)\s+number\s+of|as\s+many)\s+(?:\w+\s+)?"
    r"(?P<stitch>sc|hdc|dc|htr|tr)\b",
    re.IGNORECASE,
    ["number", "numeral", "figure"],
)
_ALONE = expression(
    r"\b(?:(?:plain|bare|lone|single)\s+numbers?|numbers?\s+(?:alone|only|by themselves|by itself|on (?:their|its) own"
    r"|without\s[^.=\n]{1,20}))\b[^.\n]{0,40}?"
    r"\b(?P<stitch>sc|hdc|dc|htr|tr|single crochets?|half double crochets?|double crochets?|half trebles?|trebles?)\b",
    re.IGNORECASE,
    ["number"],
)
_UNWRITTEN = expression(
    r"\b(?:border|edge|edging|end)\s+(?:st(?:itch)?(?:es)?)\b(?P<said>[^.\n]{0,140}?)\b(?:not|isn't|aren't|never)\s+"
    r"(?:written|shown|listed|given|included|mentioned|counted|told|repeated)\b",
    re.IGNORECASE,
    ["border", "edge", "edging", "end"],
)
_STITCH = expression(
    r"\b(sc|hdc|dc|htr|tr|single crochet|half double crochet|double crochet|half treble|treble)\b",
    re.IGNORECASE,
)


def bare_numbers(text: str, uk: bool) -> str:
    """The stitch that a number alone counts.

    >>> bare_numbers("How to read the rows: a number is that many sc in the back loop.", False)
    'sc'
    """
    hit = _NUMBERS.search(text) or _ALONE.search(text)
    stitch = stitch_named(hit["stitch"], uk) if hit is not None else None
    return stitch.name if stitch is not None else ""


def unwritten_border(text: str, uk: bool, plain: str) -> str:
    """The stitch at both ends of every row that no row writes; `plain` where it is not said which."""
    hit = _UNWRITTEN.search(text) if plain else None
    if hit is None:
        return ""
    named = _STITCH.search(hit["said"])
    stitch = stitch_named(named[1], uk) if named is not None else None
    return stitch.name if stitch is not None else plain


def bordered(items: Sequence[Item], border: str) -> list[Item]:
    """The items of a row with the stitch at both ends that none of them tells; as they are where there is none."""
    told = [k for k, item in enumerate(items) if isinstance(item, (Work, Repeat))]
    first = items[told[0]] if told else None
    if not border or isinstance(first, Work) and first.where.which is not Which.STRAIGHT or not told:
        return list(items)
    begins, ends = items[told[0]].span, items[told[-1]].span
    before = Work(border, 1, Where(Which.STRAIGHT, begins), begins)
    after = Work(border, 1, Where(Which.STRAIGHT, ends), ends)
    return [*items[: told[0]], before, *items[told[0] : told[-1] + 1], after, *items[told[-1] + 1 :]]
