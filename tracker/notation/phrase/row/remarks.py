"""Sentences that tell something and work nothing: kept word for word as remarks."""

from collections.abc import Iterable

from tracker.notation.phrase.cursor import SLIPS, Cursor
from tracker.notation.phrase.deeds.deed import deed_here
from tracker.notation.phrase.places.nouns import PREPOSITIONS
from tracker.notation.phrase.row.counts import count_in, sentence_end
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.phrase.told.turning import turning_statement
from tracker.notation.scan import T, Token
from tracker.notation.tree import Item, Say
from tracker.problems import Span
from tracker.trade.numbers import NUMBER_WORDS

_WORKABLE = frozenset(
    "in into next each ch chs sk skip skipping miss same last first rep repeat repeating across "
    "around st sts sp sps work rem remaining unworked "
    "inc dec increase decrease stitch stitches space spaces lp lps loop tog together evenly".split()
)

_AGAIN = frozenset("rep repeat repeating".split())
"""Of these, the ones that alone make work of a sentence: "Repeat between asterisks to end."."""


def workable(c: Cursor, start: int, end: int) -> bool:
    """True when tokens speak of stitches in a way that could change the work."""
    numbers = words = 0
    i = c.i
    for k in range(start, end):
        token = c.tokens[k]
        if token.kind in (T.NUMBER, T.ORDINAL, T.STAR):
            numbers += 1
        elif token.kind is T.WORD:
            c.i = k
            if token.text in _WORKABLE:
                words += 2 if token.text in _AGAIN else 1
            elif token.text in NUMBER_WORDS and token.text != "one":
                numbers += 1
            elif stitch_here(c) is not None and token.text not in ("p", "block", "spike", "slip", "blocks"):
                words += 2
    c.i = i
    return words >= 2 or (words >= 1 and numbers >= 1)


_REMARK_STARTS = frozenset(
    "note tip it this these that you your if be remember mark check count stuff insert weave block "
    "there hint photo see i we sure always don't take put sew close attach pull thread press let by "
    "pm move hold fold seam whipstitch steam wash lay embroider".split()
)
"""Words that begin a remark; those that may begin work as well are not among them."""
_CHAIN_STARTS = frozenset(
    "ch turning beg the chain chs tch this these do skipped counts does starting first".split()
)
"""Words that begin a statement about the turning chain."""


_ROWS = ("row", "rows", "rnd", "rnds", "round", "rounds")
_BEGIN = frozenset("begins begin starts start ends end".split())
_SEAMED = frozenset("ends end edges edge sides side".split())
"""What a seam closes."""
_TO_THE_MAKER = frozenset("it you i we your remember if".split())
"""Of these, the ones that begin a remark whatever else is said."""


def remark_ahead(c: Cursor, items: list[Item], fastened: bool) -> bool:
    """A sentence after the first that tells something and works nothing: kept as a remark.

    `fastened`: the yarn was fastened off before it.
    """
    end = sentence_end(c)
    first = c.text()
    if fastened:
        if c.kind() is T.OPEN and c.i in c.partners and count_in(c, c.partners[c.i]) is not None:
            return False
        if not _labelled_work(c, end):
            say(c, items, end)
            return True
    statement = turning_statement(_outside(c, c.i, end))
    if statement is not None and first in _CHAIN_STARTS and end - c.i < 24 and not _works_behind(c, end):
        items.append(statement)
        c.i = end
        return True
    words = {c.tokens[k].text for k in range(c.i, end)}
    if {"spiral", "spirals", "continuous"} & words and not any(
        c.tokens[k].kind is T.NUMBER for k in range(c.i, end)
    ):
        say(c, items, end)
        return True
    if first in SLIPS and {"together", "tog"} & words and _SEAMED & words:
        # "Sl st short ends together.": a seam, and no stitch of the row
        say(c, items, end)
        return True
    if first in ("each", "every", "all") and c.text(1) in _ROWS and _BEGIN & words:
        # "Each row after the first begins with ch 1, turn."
        say(c, items, end)
        return True
    if (
        first in ("note", "nb", "tip", "hint", "remember", "mark", "photo")
        or first == "make"
        and c.text(1) == "sure"
    ):
        say(c, items, end)
        return True
    if first in _REMARK_STARTS and (not words & {"rep", "repeat"} or first in _TO_THE_MAKER):
        say(c, items, end)
        return True
    if not workable(c, c.i, end):
        i = c.i
        deed = deed_here(c)
        c.i = i
        if deed is None and stitch_here(c) is None and c.kind() is T.WORD:
            say(c, items, end, "words")
            return True
    return False


def fastens_off(items: Iterable[Item]) -> bool:
    """True where the yarn is fastened off among items."""
    return any(isinstance(item, Say) and item.kind == "fasten off" for item in items)


def _works_behind(c: Cursor, end: int) -> bool:
    """True for "ch 3, which counts as dc, 2 dc in same st": said of a chain that is made there, with work behind it."""
    i, found = c.i, False
    for k in range(c.i, end - 1):
        if c.tokens[k].kind in (T.COMMA, T.SEMICOLON):
            c.i = k + 1
            c.take_any("and", "then", "now")
            number = int(c.value() is not None)
            stitch = stitch_here(c, number)
            past = number + (stitch.tokens if stitch is not None else 0)
            behind = c.text(past) in PREPOSITIONS | {"next", "each"}
            alone = number and c.i + past == end  # "…, 11 dc."
            found = found or c.text() in _DOES or stitch is not None and bool(behind or alone)
    c.i = i
    return found


_DOES = frozenset("turn work make sk skip miss join".split())
"""What begins work behind a statement."""


def _outside(c: Cursor, start: int, end: int) -> Cursor:
    """The tokens of a sentence without what stands in brackets."""
    tokens = []
    i = start
    while i < end:
        if c.tokens[i].kind is T.OPEN and i in c.partners:
            i = c.partners[i] + 1
            continue
        tokens.append(c.tokens[i])
        i += 1
    at = c.tokens[min(end, len(c.tokens) - 1)].start
    return Cursor([*tokens, Token(T.END, "", at, at)], c.context)


def _labelled_work(c: Cursor, end: int) -> bool:
    """True for a sentence behind "fasten off" that begins the next piece of work."""
    words = {c.tokens[k].text for k in range(c.i, end)}
    chains = any(
        c.tokens[k].text == "ch" and T.NUMBER in (c.tokens[k - 1].kind, c.tokens[k + 1].kind)
        for k in range(c.i, end)
    )
    return "join" in words and chains and workable(c, c.i, end)


def say(c: Cursor, items: list[Item], end: int, kind: str = "remark") -> None:
    """Keeps everything up to a token as a remark, or as words of which no more is known than that they work nothing."""
    span = Span(c.tokens[c.i].start, c.tokens[max(c.i, end - 1)].end)
    items.append(Say(kind, "", span))
    c.i = max(end, c.i + 1)
