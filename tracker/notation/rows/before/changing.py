"""Whether what is said of rows worked again makes other rows of them: "Rep Row 2, making a bobble in 6th st".

What changes a row and is not understood leaves it unread; what the row does by itself, "working FPdc around each FPdc",
"having 2 dc more each row", says nothing new.
"""

import re
from collections.abc import Sequence

from tracker.expressions import expression
from tracker.notation.moved import as_told
from tracker.notation.pattern import Row
from tracker.notation.scan import T, Token
from tracker.notation.tree import (
    ANY,
    Chain,
    Group,
    Item,
    Leave,
    Prose,
    Repeat,
    Rerun,
    Say,
    Skip,
    Stated,
    Turn,
    Which,
    Work,
)
from tracker.problems import Source, Span
from tracker.trade.stitches import STITCHES, parts_of


def ends_unread(item: Item) -> bool:
    """True for a repeat whose last pass ends in words that are not understood."""
    ending = item.ending if isinstance(item, Repeat) else None
    return ending is not None and any(isinstance(inside, Prose) for inside in ending.items)


def may_change(rerun: Rerun, items: Sequence[Item], source: Source, *, grows: bool) -> bool:
    """True where what is said of rows that are worked again may make other rows of them.

    `items` is what was read behind the reference; `grows` tells that the rows named may be wider each time by
    themselves, so that "6 dc more in each row" says nothing new.
    """
    if _FOR_STITCHES.match(rerun.until):
        return True
    if _MEASURED.search(rerun.until):
        return False
    behind = [item for item in items if item.span.start >= rerun.span.end]
    whole = not behind and bool(items)  # words that tell no rows by number are the reference as a whole
    begin = rerun.span.start if whole else rerun.span.end
    behind = list(items) if whole else behind
    for k, item in enumerate(behind):
        before = source.text[begin : item.span.start]
        words = source.words(item.span).lower()
        later = "." in before or ";" in before
        then = behind[k + 1] if k + 1 < len(behind) else None
        if isinstance(item, Chain):
            # a turning chain of the next row, or one behind the row's end
            changes = not (later or isinstance(then, Turn) or before.rstrip().endswith("omitting"))
        elif isinstance(item, Work):
            # the last stitch of a row stands on the turning chain whether that is said again or not
            ended = item.where.which is Which.TOP and _ENDED.search(before) is not None
            changes = not (later and item.stitch == "slst" or ended)
        elif isinstance(item, (Group, Repeat, Skip, Leave)):
            changes = not later
        elif isinstance(item, Say) and item.kind == "colour":
            changes = not later and _FEWER.search(words) is not None
        elif isinstance(item, Prose) or isinstance(item, Say) and item.kind in ("remark", "words", "unsure"):
            changes = not later and _WORKS.search(words) is not None and _SAID_AGAIN.fullmatch(words) is None
        else:
            changes = False
        if changes and not (
            grows and _GROWTH.search(source.text, item.span.start, _sentence_end(source, item))
        ):
            return True
    return False


def _sentence_end(source: Source, item: Item) -> int:
    """Where the sentence ends that an item stands in."""
    end = source.text.find(".", item.span.end)
    return len(source.text) if end < 0 else end


def may_grow(items: Sequence[Item]) -> bool:
    """True for a row that may be wider or narrower than the one below: not for "sc in each st across"."""
    return any(
        isinstance(item, (Group, Leave, Skip))
        or isinstance(item, Work)
        and (item.count > 1 or item.stitch not in STITCHES or parts_of(item.stitch)[2] > 1)
        or isinstance(item, Repeat)
        and may_grow(item.items)
        for item in as_told(items)
    )


_ENDED = expression(r"\bend(?:ing|ed|s)?(?:\s+(?:each|every)\s+(?:row|rnd|round))?\s+with\s+$", re.IGNORECASE)
_FOR_STITCHES = expression(
    r"for \d+ (?:sts?|stitch(?:es)?|sc|dc|hdc|tr|htr)\b", re.IGNORECASE, holds=("for",)
)
_MEASURED = expression(r"\b(?:measures?|long|wide)\b", re.IGNORECASE, holds=("measure", "long", "wide"))
_FEWER = expression(r"\b(?:fewer|less|more|(?:in|de)creased)\b")
_WORKS = expression(
    r"\b(?:\d*(?:sts?|stitch(?:es)?|[hd]?sc|h?dc|h?tr|dtr|ch|chs|sps?|bobbles?|shells?|picots?|loops?|lps?|holes?)|"
    r"\w+\dtog|tog|together|inc\w*|dec\w*|omit\w*|marker|cent(?:er|re)|middle|between|over|around|twice|less|fewer|"
    r"adding|short|shorter|sooner|earlier|row ends|edges?)\b"
)
"""Words that tell what is worked, or where."""
_SAID_AGAIN = expression(
    r"(?!in (?:[hd]?sc|h?dc|h?tr|dtr)$)(?:always |still )?(?:(?:working|placing|making|going|keeping|putting) )?"
    r"(?:(?:every|each) row |always )?(?:"
    r"(?:(?:each |every |the )?((?:\w+ )?\w+) (?:around|round|in|into|over|on|above)(?: top of)?"
    r"(?: each| every| the)? \1\b(?: and )?)+|"
    r"(?:(?:1|one|an?) \w+ )?(?:around|round|into|in|over|behind)(?! (?:each|every) (?:other|second|alt))"
    r"(?: (?!(?:first|last|next|twice|other|second|alternate|\d\w*)\b)[\w-]+)+|"
    r"(?:the )?(?:last|end|final) (?:\w+ ){0,7}(?:in|into|on) .*(?:ch|chain|tch)\b.*)|"
    r"(?:on|over|across|along) (?:these|those|all|the) .*|omitting (?:the )?(?:last )?(?:turning )?ch(?:ain)?\b.*|"
    r"keeping (?:the |all )*(?:\w+ ){1,4}(?:in line|aligned|stacked|lined up|in place)|"
    r"(?:on completion|(?:so )?(?:that )?you should|(?:row|rnd|round) \d+ has) .*"
)
"""What such a row does by itself: "working FPdc around each FPdc", "working the last tr in 3rd of 5 ch"."""
_GROWTH = expression(
    r"\b(?:more|fewer|less|extra|adding|added|losing|gaining|having|inc\w*|dec\w*)\b",
    re.IGNORECASE,
    holds=("more", "fewer", "less", "extra", "add", "losing", "gaining", "having", "inc", "dec"),
)


def one_alone(row: Row) -> bool:
    """True for a row of nothing but one in each stitch, which shapes nothing."""
    return sum(isinstance(item, (Work, Group, Repeat)) for item in as_told(row.items)) < 2


def told_to_grow(tokens: Sequence[Token]) -> tuple[Stated, ...]:
    """ "Rep Row 2, increasing 6 sts each row": a count of what each row changes."""
    for k in range(len(tokens) - 5):
        by, what, how = tokens[k + 1], tokens[k + 2].text, tokens[k + 3].text
        if (
            tokens[k].text in ("increasing", "decreasing")
            and by.kind is T.NUMBER
            and by.value is not None
            and what in ("st", "sts", "stitches")
            and how in ("each", "every", "per")
            and tokens[k + 4].text in ("row", "rnd", "round")
        ):
            return (Stated(((ANY, by.value),), Span(tokens[k].start, tokens[k + 4].end), change=True),)
    return ()
