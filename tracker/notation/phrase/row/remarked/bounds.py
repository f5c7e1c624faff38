"""Words behind stitches that say how far they go, how often, or where they are otherwise: no remarks."""

from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.tree import Chain, Ending, Group, Item, Repeat, Stop, Turn, Where, Which, Work
from tracker.problems import Span
from tracker.records import replace
from tracker.trade.numbers import NUMBER_WORDS


def bounds(c: Cursor, start: int, items: list[Item]) -> bool:
    """True for words that say how far what was just worked goes, or where it is otherwise: "up to the marker"."""
    last = items[-1] if items else None
    first, *behind = (token.text for token in c.tokens[start : c.i])
    behind = [word for word in behind if word != "the"] or [""]
    if isinstance(last, Turn) and first in ("work", "go", "and") and behind[-1] in ("back", "again"):
        return True
    if isinstance(last, Chain) and first == "between" and len(items) > 1:
        return True  # "dc in each st around with ch 1 between each"
    if not isinstance(last, (Work, Repeat)):
        return False
    if first == "one" and {"after", "behind", "beyond"} & set(behind):
        return True  # "bpdc around the one behind that"
    if _again({first, *behind}) or _of_half({first, *behind}):
        return True
    if first in ("making", "forming", "working") and {"middle", "center", "centre", "every"} & set(behind):
        return True
    if (first.isdigit() or first in NUMBER_WORDS) and behind[0] in ("more", "extra", "further"):
        return not {"row", "rows", "rnd", "rnds", "round", "rounds", "time", "times"} & set(behind)
    if first == "changing":
        return behind[0] == "to" and stitch_here(c, start - c.i + 2) is not None
    if {"sp", "space"} & set(behind):
        return False  # "to center space, (2 dc, ch 2, 2 dc) in center space": what follows goes there
    if first in ("until", "till", "to"):
        return bool(_FAR & set(behind[:1] if first == "to" else behind))
    if first in ("as", "up"):
        return behind[0] in ("far", "to") and bool(_FAR & set(behind))
    return behind[0] == "not" if first == "but" else first in _BOUNDS


def chained_between(c: Cursor, start: int, items: list[Item]) -> bool:
    """ "Dc in each st around with ch 1 between each": stitch and chain by turns; of a row no chain behind the last.

    "Sc in next 3 dc with ch 2 between" has none behind its last either, nor has "5 dc in next dc with ch 1 between".
    """
    words = {token.text for token in c.tokens[start : c.i]}
    if len(items) < 2 or "between" not in words or not words <= _BETWEEN:
        return False
    each, chain = items[-2:]
    if not (isinstance(each, Work) and isinstance(chain, Chain)) or each.excepting:
        return False
    span = Span(each.span.start, c.span_from(start).end)
    where = each.where
    if where.which is not Which.EACH:
        return _few_between(each, chain, span, items)
    if where.stop not in (None, Stop()):
        return False
    once = replace(each, where=replace(where, which=Which.NEXT, many=1, stop=None))
    closed = (c.context.row or "").lower().startswith(("rnd", "round"))
    ending = None if closed else Ending("omit", (chain,), None, chain.span)
    items[-2:] = [Repeat((once, chain), span, None, stop=Stop(), ending=ending)]
    return True


def _few_between(each: Work, chain: Chain, span: Span, items: list[Item]) -> bool:
    """Puts chains between stitches of a number that is told, in as many places or all in one."""
    where, which = each.where, each.where.which
    several = where.many > 1 and which in (Which.NEXT, Which.FIRST, Which.LAST)
    if several or which is Which.STRAIGHT and each.count > 1:
        if several and where.nth or len(where.kinds) > 1:
            return False
        one = replace(where, which=Which.NEXT, many=1) if several else where
        once = replace(each, where=one, count=each.count if several else 1)
        times = where.many if several else each.count
        items[-2:] = [Repeat((once, chain), span, times, ending=Ending("omit", (chain,), None, chain.span))]
        return True
    if each.count > 1 and where.many == 1:
        once = replace(each, count=1, where=Where(Which.STRAIGHT, each.span))
        items[-2:] = [Group((once, *(each.count - 1) * (chain, once)), where, span)]
        return True
    return False


_BETWEEN = frozenset(
    "between each every the all st sts stitch stitches sc dc hdc tr htr one them and".split()
)


def _again(words: set[str]) -> bool:
    """True for "once more", "two times over", "work another row" behind what goes on to the end."""
    return (
        words
        <= {"once", "twice", "two", "three", "2", "3", "more", "again", "times", "time", "over", "another"}
        or words <= {"work", "make", "another", "more", "row", "rnd", "round", "rows", "rnds", "rounds"}
        and "another" in words
    )


def _of_half(words: set[str]) -> bool:
    """True for "for the first half", "half way round", and nothing else said."""
    return bool(words & {"half", "halfway", "quarter", "quarters", "third"}) and words <= _HALVES


_HALVES = frozenset(
    "half halfway quarter quarters third way round around across along the of through row rnd for on over first last "
    "one second other three two only sts stitches st".split()
)
_FAR = frozenset("center centre middle marker half halfway remain remains left".split())
"""What words tell that say how far."""
_BOUNDS = frozenset(
    "except excepting omitting skipping missing leaving stopping increasing decreasing doubling plus".split()
)
"""What begins words that change how far a row goes, or how many it makes."""
