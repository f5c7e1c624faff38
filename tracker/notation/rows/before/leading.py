"""Words between rows that say where the row after them begins, or through what it goes; what a row hands to the next.

The words and their tokens come in; what they put at the head of that row goes out: an edge it is worked along,
stitches passed over and yarn joined anew, or that it is worked through both layers.
"""

import re
from collections.abc import Callable, Sequence
from itertools import pairwise

from tracker.expressions import expression
from tracker.notation.phrase.cursor import Context, Cursor
from tracker.notation.phrase.row.sentences import read_row
from tracker.notation.scan import Token
from tracker.notation.tree import (
    LAYERS,
    SPACE,
    Chain,
    Edge,
    Group,
    Item,
    Join,
    Kind,
    Leave,
    Mark,
    Repeat,
    Say,
    Skip,
    Travel,
    Turn,
    Turning,
    Which,
    Work,
)
from tracker.problems import Span
from tracker.records import replace

_ALONG_EDGE = (
    (
        "base",
        expression(
            r"\b(?:free|unused|remaining|opposite|other|underside|bottom)\b.{0,30}?\b(?:foundation|beginning|starting|base)"
            r"(?:\s+(?:ch|chain|row|edge))?|\balong\s+(?:the\s+)?(?:foundation|starting)\s+(?:ch|chain)\b",
            re.IGNORECASE,
        ),
    ),
)
"""Words between rows that move the work to another edge."""
_JOINS_ANEW = expression(
    r"\b(?:skip|sk|miss|leav\w+)\b.{1,80}\b(?:re)?(?:join|attach)|\b(?:re)?(?:join|attach)\w*\b.{1,40}\b(?:unworked|skipped|missed)\b",
    re.IGNORECASE,
)
"""Stitches passed over before the yarn is joined, or yarn joined to what an earlier row left."""
_JOINS_IN_LOOPS = expression(
    r"\b(?:(?:join|attach|insert)\w*|working(?=[^.]{9,80}?\b(?:join|attach)))\b[^.]{1,60}?"
    r"\b(?:front|back|free|unused|remaining)\s+(?:loops?|lps?)\b[^.]{0,30}?\bof\s+(?:the\s+)?"
    r"(?:(?:rows?|rnds?|rounds?|r)\s*(?P<row>\d{1,3})|(?P<nth>\d{1,3})(?:st|nd|rd|th)\s+(?:row|rnd|round)\b)",
    re.IGNORECASE,
)
"""Yarn joined in the loops that a round left free: "join pink in a front loop of round 11"."""
_JOINS_IN_ANY = expression(
    r"\b(?:re)?(?:join|attach)\b[^.;,]{1,40}?\b(?:in|to|into)\s+any\b[^.;,]{1,30}",
    re.IGNORECASE,
    ["join", "attach"],
)
"""Where the next round begins: "Break off A, join B to any 2-ch sp."."""
_BOTH_LAYERS = expression(
    r"\b(?:(?:through|thru)\s+both\s+(?:layers|thicknesses|sides)|both\s+(?:layers|sides)\s+tog(?:ether)?)\b",
    re.IGNORECASE,
)

_STITCHED = expression(r"\b\d{1,3}\s(?:sc|hdc|dc|htr|tr|sl\s?sts?|ss)\b", re.IGNORECASE)


def shut(items: list[Item], words: str) -> list[Item]:
    """Items of a row that works an opening shut: so many stitches through both layers use up all that stand there.

    Words of the row come in beside them; a row that says nothing of layers comes out as it was.
    """
    told = [item for item in items if isinstance(item, Say) and item.kind == "layers"]
    if not told and _BOTH_LAYERS.search(words) is None:
        return items
    for k, (item, after) in enumerate(pairwise(items)):
        if (
            isinstance(item, Work)
            and item.where.loop == LAYERS
            and isinstance(after, Work)
            and item.stitch == after.stitch
            and after.where.which is Which.STRAIGHT
        ):
            # "sc both sides together, 5 sc": told once, and how many behind it
            items = [*items[:k], *items[k + 1 :]]
            break
    return [
        replace(
            item, count=item.count * item.where.many, where=replace(item.where, which=Which.EVENLY, many=1)
        )
        if isinstance(item, Work) and item.where.which in (Which.NEXT, Which.STRAIGHT)
        else item
        for item in items
    ]


def said_of_chain(items: list[Item]) -> list[Item]:
    """ "Ch 2, turn. Row 2: Hdc in each hdc, not counting ch-2 as a st": what is said of the chain, put beside it."""
    late = next((k for k, item in enumerate(items) if isinstance(item, Turning)), None)
    chain = next((k for k, item in enumerate(items[: late or 0]) if isinstance(item, Chain)), None)
    if late is None or chain is None or not isinstance(items[late - 1], (Work, Group, Repeat)):
        return items
    told = items[late]
    if (
        not isinstance(told, Turning)
        or told.counts
        or any(isinstance(i, (Work, Group)) for i in items[:chain])
    ):
        return items
    return [*items[: chain + 1], told, *items[chain + 1 : late], *items[late + 1 :]]


_BELOW = ("st below", "stitch below")
"""What a stitch is called that a turning chain stands on."""


def under_the_chain(items: list[Item], text: str) -> list[Item]:
    """ "3 ch, 1 tr into st below": what a row works first behind its turning chain goes into the stitch under that."""
    first = next((k for k, item in enumerate(items) if isinstance(item, (Work, Group, Repeat, Skip))), None)
    if first is None or not any(isinstance(item, Chain) for item in items[:first]):
        return items
    item = items[first]
    if not isinstance(item, (Work, Group)) or item.where.which is not Which.NEXT or item.where.around:
        return items
    span = item.span
    if item.where.many != 1 or item.where.loop or not text[span.start : span.end].lower().endswith(_BELOW):
        return items
    under = replace(item, where=replace(item.where, which=Which.SAME, nth=0))
    return [*items[:first], under, *items[first + 1 :]]


def lead_told(
    words: str, span: Span, tokens: Callable[[int, int], list[Token]], context: Context
) -> list[Item]:
    """What stands ahead of the row after an aside; nothing where the aside says nothing of that.

    "With RS facing and working in free loops of foundation ch, join yarn" gives the edge; "Sk next 9 unworked sts for
    neck, join yarn in next st" the skip and the new start.
    """
    for name, told in _ALONG_EDGE:
        if told.search(words) is not None:
            return [Edge(name, span)]
    if (loops := _JOINS_IN_LOOPS.search(words)) is not None:
        return [Edge("free", span, int(loops["row"] or loops["nth"]))]
    if _BOTH_LAYERS.search(words) is not None:
        # "Fold flat and close with 2 sc through both sides." is all of it
        return [] if _STITCHED.search(words) is not None else [Say("layers", "", span)]
    if _JOINS_ANEW.search(words) is None:
        hit = _JOINS_IN_ANY.search(words) if len(words) == span.end - span.start else None
        return (
            [] if hit is None else _joined(tokens(span.start + hit.start(), span.start + hit.end()), context)
        )
    before, base = len(context.problems), context.base
    items = read_row(Cursor(tokens(span.start, span.end), context)).items
    del context.problems[before:]  # an aside that is not understood is no fault of the pattern
    context.base = base
    if not all(isinstance(item, (Say, Skip, Leave, Travel)) for item in items):
        return []
    moves = [item for item in items if not isinstance(item, Say)]
    if not moves or not isinstance(moves[-1], Travel) or any(isinstance(i, Travel) for i in moves[:-1]):
        return []
    return [
        Skip(item.where, item.span) if isinstance(item, Leave) and item.where is not None else item
        for item in moves
    ]


def _joined(tokens: list[Token], context: Context) -> list[Item]:
    """Yarn joined in any of some places; nothing where it is not told so."""
    before, base = len(context.problems), context.base
    items = read_row(Cursor(tokens, context)).items
    del context.problems[before:]
    context.base = base
    return items if len(items) == 1 and isinstance(items[0], Travel) and items[0].where else []


_RISES = 7
"""Chains that a round may rise on; a longer one hangs a loop."""


def _closes(item: Item) -> bool:
    """True for what closes a round: "join", "sl st in first sc"."""
    return isinstance(item, Join) or (
        isinstance(item, Work)
        and item.stitch == "slst"
        and item.count == item.where.many == 1
        and item.where.which in (Which.FIRST, Which.TOP)
    )


def _goes_on(says: Sequence[Item]) -> bool:
    """False where the work ends behind the chain: "join, ch 1, fasten off"."""
    return not any(isinstance(item, Say) and item.kind == "fasten off" for item in says)


def handed_on(items: list[Item], ring: bool = False) -> tuple[list[Item], list[Item]]:
    """The items a row keeps, and "ch 3, turn" or "join, ch 3" printed at its end, which belongs to the next row.

    With `ring` the items are no row but what stands before the first: "Ch 4, join to form ring, ch 3."
    """
    items = _chain_behind_ending(items)
    last = len(items)
    while last and isinstance(items[last - 1], (Say, Turning, Mark, Leave)):
        last -= 1
    k = last
    while (
        k
        and isinstance(items[k - 1], (Turn, Chain, Turning))
        or k
        and isinstance(items[k - 1], Say)
        and k < last
    ):
        k -= 1
    tail = [item for item in items[k:last] if isinstance(item, (Turn, Chain, Turning))]
    chains = [item for item in tail if isinstance(item, Chain)]
    turned = any(isinstance(item, Turn) and item.turned for item in tail)
    if (
        not chains
        or not (
            turned or k and _closes(items[k - 1]) and chains[0].count <= _RISES and _goes_on(items[last:])
        )
        or k == 0
        or not (ring or any(isinstance(item, (Work, Group, Repeat)) for item in items[:k]))
    ):
        return items, []
    says = [item for item in items[k:] if isinstance(item, (Say, Leave))]
    carried: list[Item] = [
        *([Turn(next(item.span for item in tail if isinstance(item, Turn)))] if turned else []),
        *(item for item in items[k:] if isinstance(item, (Chain, Turning))),
    ]
    stays = [item for item in tail if isinstance(item, Turn) and not turned]
    return [*items[:k], *stays, *says], carried


def _chain_behind_ending(items: list[Item]) -> list[Item]:
    """ "…; rep from * ending with 1 tr in top of 3 ch, 3 ch, turn": the chain is no part of how the repeat ends."""
    for k in range(1, len(items)):
        repeat = items[k - 1]
        ending = repeat.ending if isinstance(repeat, Repeat) and isinstance(items[k], Turn) else None
        if not isinstance(repeat, Repeat) or ending is None or ending.how == "omit" or len(ending.items) < 2:
            continue
        chain = ending.items[-1]
        if isinstance(chain, Chain) and not any(isinstance(i, (Work, Group, Repeat)) for i in items[k:]):
            shorter = replace(repeat, ending=replace(ending, items=ending.items[:-1]))
            return [*items[: k - 1], shorter, chain, *items[k:]]
    return items


def risen(carried: list[Item], items: Sequence[Item]) -> list[Item]:
    """What a row was handed, without the chain of a round that begins with one of its own."""
    first = next((item for item in items if not isinstance(item, (Say, Mark))), None)
    if isinstance(first, (Work, Group)) and first.where.which is Which.FROM_HOOK:
        return [item for item in carried if not isinstance(item, Skip)]  # "in 2nd ch from hook" says it again
    twice = isinstance(first, (Chain, Travel)) or isinstance(first, Work) and first.stitch == "slst"
    return [] if twice and carried and isinstance(carried[0], Chain) else carried


def led_by(carried: list[Item], read: list[Item], items: list[Item]) -> list[Item]:
    """What a row's words were `read` as, behind what stands ahead of the row.

    "2 sc in each loop around" goes into the loops that a round left free where yarn was joined to them, into no spaces.
    """
    ahead = risen(carried, read)
    if any(isinstance(item, Edge) and item.name == "free" for item in ahead):
        items = [
            replace(item, where=replace(item.where, kinds=(Kind("st"),)))
            if isinstance(item, (Work, Group)) and item.where.kinds == (Kind(SPACE),)
            else item
            for item in items
        ]
    return [*ahead, *items]
