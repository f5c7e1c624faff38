"""What words outside of the rows order for them: "Always skip the first st of every row", "Work on the centre 6 sts".

A sentence of the text comes in, and which rows it is for; the rows come out with it. Whether a row does what is
ordered nobody can tell where it makes one stitch into each, as many as stand below it: such a row is not claimed.
"""

import re
from collections.abc import Iterator, Sequence

from tracker.expressions import expression
from tracker.notation.pattern import Aside, Order, Row, Setup
from tracker.notation.rows.before.changing import may_grow
from tracker.problems import Span
from tracker.records import dataclass, replace

_ROW = r"(?:rows?|rnds?|rounds?)"
_SIDE = (
    r"(?:rs|ws|right[\s-]side|wrong[\s-]side|odd|even|other|second|2nd|alternate|alt|following|foll|single|"
    r"remaining)"
)
_THING = r"(?:sts?|stitch(?:es)?|sc|hdc|dc|htr|tr)"
_MANY = r"(?:\d{1,3}|an?|one|two|three|four|five|six|seven|eight|nine|ten|twelve)"
_LEADS = (
    rf"(?:(?:nb|note(?:\s+that)?|please|always|remember\s+to|be\s+sure\s+to|make\s+sure\s+to|now|then|and|but|throughout|"
    rf"from\s+(?:here|now|this\s+point)(?:\s+on(?:wards?)?)?|at\s+the\s+same\s+time|"
    rf"(?:on|in|at)\s+(?:the\s+)?(?:(?:beginning|beg|start|ends?)\s+of\s+)?(?:all|every|each|this|these|the|both)?\s*"
    rf"(?:{_SIDE}\s+)*{_ROW}|(?:all|every)\s+(?:{_SIDE}\s+)*{_ROW}|shap\w+(?:\s+[^\s.:;,]+){{0,4}}?(?:\s+as\s+follows)?)"
    r"[\s,:;–—-]+)*"
)
_DEED = (
    rf"(?:inc(?:rease)?|dec(?:rease)?|reduce|halve|double|skip|miss|omit|leave|lose|drop|ignore|add|"
    rf"(?:do\s+not|don['’]t|never)\s+(?:work|use)|(?:put|work|make)\s+(?:{_MANY}\b|the\s+(?:first|last)|twice|in\s+pairs)|"
    rf"{_MANY}\s+(?:{_THING}\s+)?(?:fewer|less|more)|\w{{1,3}}\dtog)\b"
)
_LEFT = (
    rf"(?:the\s+)?(?:first|last|next|end|outer|{_MANY})\s+(?:{_MANY}\s+)?{_THING}\s+(?:of\s+\w+\s+\w+\s+)?"
    r"(?:is|are|gets?|stays?|remains?)\b"
)
_ALWAYS = expression(
    rf"\b(?:every|each|all|any)\s+(?:{_SIDE}\s+)*{_ROW}\b|\bthroughout\b|\balways\b|"
    rf"\bfrom\s+(?:here|now|this\s+point)\b|\b(?:on|in|at)\s+(?:the\s+)?{_SIDE}\s+{_ROW}\b",
    re.IGNORECASE,
    ["every", "each", "all", "any", "throughout", "from", "row", "rnd", "round"],
)
_STANDING = expression(
    r"\bfrom\s+(?:here|now|this\s+point)\b|\bthroughout\b|\balways\b",
    re.IGNORECASE,
    ["from", "throughout", "always"],
)
_THIS = expression(
    rf"\b(?:this|that|last|previous)\s+{_ROW}\b", re.IGNORECASE, ["this", "that", "last", "prev"]
)
_ORDERED = expression(rf"\W*{_LEADS}(?:{_DEED}|{_LEFT})", re.IGNORECASE)
_NAMED = expression(
    rf"\b{_THING}\b|\bcent(?:er|re)\b|\bends?\b|\bedges?\b|tog(?:ether)?\b|\bpairs\b|\bto\s+\d",
    re.IGNORECASE,
)
_OF_CHAINS = expression(
    r"\b(?:ch(?:ain)?s?|sps?|spaces?|tail|yarn|loosely|tightly|carefully|behind|posts?|tails|marker|cm|inch\w*|turning)\b|\"",
    re.IGNORECASE,
)
_ON = expression(
    rf"\b(?:work(?:ing)?|continu\w+|cont|go\s+on|carry\s+on|proceed|keep\s+on)\b[^.;\n]{{0,20}}?\b(?:on|over|across)\s+"
    rf"(?:just\s+|only\s+)?(?:the\s+|these\s+|those\s+)?(?:first\s+|last\s+|next\s+|cent(?:er|re)\s+|middle\s+)?"
    rf"(?P<many>\d{{1,3}})\s+{_THING}\b|\bonly\s+(?:the\s+)?(?:first\s+|last\s+|cent(?:er|re)\s+)?(?P<only>\d{{1,3}})\s+"
    rf"{_THING}\s+are\b",
    re.IGNORECASE,
)
_SLIPPED = expression(
    rf"\s*(?:sl\s?st|slip\s?st(?:itch)?|slst|ss)\s+(?:over|across|along)\s+(?:the\s+|first\s+|next\s+)*{_MANY}\s+{_THING}\b"
    rf"|\s*(?:cast\s+o(?:n|ff)|bind\s+off)\b[^.\n]*\d|\s*(?:now\s+)?(?:unravel|undo|rip|frog)\b[^.\n]*\b(?:{_ROW}|{_THING})\b"
    rf"|\s*(?:\w+:\s*)?add\s+\d+\s+(?:more\s+|extra\s+)?ch(?:ain)?s?\b|[^.\n]{{0,30}}\bre-?join\s+{_MANY}\s+{_THING}\s+in\b|[^.\n]{{0,40}}\b(?:work\s+each\s+(?:half|side)|divide\s+the\s+{_THING}|in\s+pairs)\b",
    re.IGNORECASE,
)
_AS_ANOTHER = expression(
    r"\s*(?:(?:work(?:ed)?|make|crochet)\s+)?(?:exactly\s+|the\s+)?(?:as|same\s+as|like)\s+(?:for\s+)?(?:the\s+)?"
    r"(?!rows?\b|rnds?\b|rounds?\b|set\b|follows\b|est|before\b)(?:\w+\s+){1,3}?[^.\n]{0,40}?"
    r"\b(?:but|except|dec\w*|inc\w*|narrower|wider|fewer|less|more|revers\w+|omit\w*)\b",
    re.IGNORECASE,
    ["as ", "like"],
)
_SENTENCE = expression(r"[^.\n]+(?:\.(?=\S)[^.\n]*)*")


@dataclass(frozen=True, slots=True)
class Ordered:
    """What one sentence outside of the rows orders, and for which of them."""

    order: Order
    scope: str
    """"all" rows behind it, the "next" one, or "this", the one before."""
    part: str | None
    standing: bool = False
    """True for what holds from then on: it is no row, whatever it tells to work."""


def orders_in(text: str, start: int, end: int, part: str | None) -> Iterator[Ordered]:
    """What the sentences between two places of a text order.

    >>> [o.scope for o in orders_in("Always skip the first st of every row.", 0, 38, None)]
    ['all']
    """
    for hit in _SENTENCE.finditer(text, start, end):
        words, span = hit.group(), Span(hit.start(), hit.end())
        on = _ON.search(words)
        if on is not None:
            yield Ordered(Order(span, int(on["many"] or on["only"])), "next", part)
            continue
        ordered = _ORDERED.match(words) is not None and _NAMED.search(words) is not None
        if ordered and _OF_CHAINS.search(words) is None:
            scope = "all" if _ALWAYS.search(words) else "this" if _THIS.search(words) else "next"
            yield Ordered(Order(span), scope, part, _STANDING.search(words) is not None)
        elif _SLIPPED.match(words) is not None or _AS_ANOTHER.match(words) is not None:
            yield Ordered(Order(span, anyhow=True), "next", part)


def given(blocks: Sequence[Setup | Row | Aside], told: Sequence[Ordered]) -> list[Setup | Row | Aside]:
    """The blocks with what is ordered of each row; a row that shapes by its own words does what it is told."""
    out = list(blocks)
    rows = [k for k, block in enumerate(out) if isinstance(block, Row)]
    for one in told:
        at = one.order.span.start
        before = [k for k in rows if out[k].span.start < at]
        behind = [k for k in rows if out[k].span.start > at]
        if before and one.part is not None:
            behind = [k for k in behind if out[k].part == one.part]
        chosen = before[-1:] if one.scope == "this" else behind[:1] if one.scope == "next" else behind
        for k in chosen or (before[-1:] if one.scope == "all" else []):
            row = out[k]
            if isinstance(row, Row) and (row.rerun is not None or not may_grow(row.items)):
                out[k] = replace(row, orders=(*row.orders, one.order))
    return out
