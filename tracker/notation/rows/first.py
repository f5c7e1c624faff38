"""A first row that is told together with its foundation: "Ch 21. Sl st in 2nd ch from hook and in each ch to end".

The items of a foundation's text come in; where its row begins among them comes out.
"""

import re
from collections.abc import Sequence

from tracker.expressions import expression
from tracker.notation.page.block import Block, Page
from tracker.notation.pattern import Row
from tracker.notation.tree import Chain, Edge, Group, Item, Join, Kind, Prose, Repeat, Skip, Which, Work
from tracker.problems import Problem, Source, Span
from tracker.records import replace

FIRST_ROW = expression(
    r"\s*[(,—–-]?\s*\b(?:for|as|is|forms?|counts?\s+as|makes?)\s+(?:the\s+)?"
    r"(?:(?:1st|first|foundation)\s+row|row\s+(?:1|one))\b(?:\s+(?:made|complete))?\s*\)?"
    r"|\(\s*(?:(?:1st|first|foundation)\s+row|row\s+(?:1|one))(?:\s+(?:made|complete))?\s*\)",
    re.IGNORECASE,
    ["row"],
)
"""Words behind a foundation that name the row told with it: "… in each ch across for Row 1"."""


def row_within(items: Sequence[Item], named: str, block: Block, page: Page) -> tuple[int, str, str] | None:
    """Where a row begins among a foundation's items, "row" or "round", and what the row is called; None for no row.

    `named` are the words that say that it is the first row, empty where none do.
    """
    begun = _begun(items)
    if begun is None:
        return None
    following = next((b for b in page.blocks if b.start > block.start and b.label and b.label.numbers), None)
    number = following.label.numbers[0] if following is not None and following.label else 0
    alone = following is None or block.part is not None and following.part != block.part
    if begun[1] == "round" and not alone and number != 2:
        # a round that is numbered elsewhere: these are words about the ring, or abbreviations
        return None
    one = "foundation" not in named.lower() if named else alone or number == 2
    word = "Rnd" if begun[1] == "round" else "Row"
    return (*begun, f"{word} 1" if one else f"Foundation {word.lower()}")


def first_row_unread(items: Sequence[Item], block: Block, page: Page, source: Source) -> Row | None:
    """The row that words behind a foundation work, and that is not read; None where there is none, or Row 1 follows.

    It is told word for word and never claimed, so that nothing that stands on it is either.
    """
    following = next((b for b in page.blocks if b.start > block.start and b.label), None)
    if following is None or following.label is None or following.part != block.part:
        return None
    numbers = following.label.numbers
    for item in items:
        words = source.words(item.span) if isinstance(item, Prose) else ""
        lost = (
            bool(words) and len(numbers) > 0 and numbers[0] == 2 and _WORKED_ALONG.search(words) is not None
        )
        # "Ch 20, *sc in each of the 22 sc of a flag, ch 6; rep from * for each flag", and then "Next row:"
        lost = (
            lost or not numbers and isinstance(item, Repeat) and any(isinstance(x, Work) for x in item.items)
        )
        if lost:
            span = Span(item.span.start, block.end)
            told = (Prose(source.words(span), span),)
            own, label = ((1,), "Row 1") if numbers else ((), "Next row")
            return Row("row", own, label, span, told, (), span, block.part, unread=True)
    return None


_WORKED_ALONG = expression(
    r"\b(?:sc|hdc|dc|htr|tr|single|double|treble)s?\b[^.;]{0,30}\b(?:in|into|across|along|to)\b",
    re.IGNORECASE,
)


def _begun(items: Sequence[Item]) -> tuple[int, str] | None:
    """Index of the first item of a row that a foundation's text goes on with, and "row" or "round"; None for none.

    A slip stitch with nothing behind it only closes the chain into a ring.
    """
    chained = False
    ring: int | None = None
    for k, item in enumerate(items):
        if isinstance(item, Chain):
            chained = True
        elif isinstance(item, Skip):
            if chained and ring is None and _skips_to_work(item, items[k + 1 :]):
                return k, "round" if _goes_round(items[k:]) else "row"
        elif isinstance(item, Join):
            if ring is None and not (item.where is None and item.stitch == "slst"):
                ring = k + 1
        elif isinstance(item, (Work, Group, Repeat)):
            place = _place(item)
            closes = isinstance(item, Work) and item.stitch == "slst"
            if place is Which.RING or ring is not None and not closes:
                return (ring or 0), "round"
            if (
                (place is Which.FROM_HOOK or _in_nth_chain(item))
                and (chained or isinstance(item, Repeat) and isinstance(item.items[0], Chain))
                and not (closes and _only_closes(items[k + 1 :]))
            ):
                return k, "round" if _goes_round(items[k:]) else "row"
            if closes:
                ring = k + 1
    return None


def _goes_round(items: Sequence[Item]) -> bool:
    """True for "…; working along the other side of the chain, …"."""
    return any(isinstance(item, Edge) and item.name in ("other", "base") for item in items)


def _skips_to_work(skip: Skip, after: Sequence[Item]) -> bool:
    """True for "beginning in 2nd ch from hook: sl st, sc, hdc", where stitches follow one by one along the chain."""
    works = [item for item in after if isinstance(item, (Work, Group, Repeat))]
    along = bool(works) and _place(works[0]) in (Which.STRAIGHT, Which.NEXT, Which.EACH)
    only = works[0] if len(works) == 1 else None
    alone = isinstance(only, Work) and only.stitch == "slst" and only.count == 1
    alone = alone and _place(works[0]) is not Which.EACH
    chains = skip.where.which is Which.NEXT and skip.where.kinds[:1] == (Kind("ch"),)
    return along and not alone and (skip.where.which is Which.FROM_HOOK or chains)


def _place(item: Work | Group | Repeat) -> Which | None:
    """Where the first stitch of an item goes."""
    while isinstance(item, Repeat):
        first = next((inside for inside in item.items if isinstance(inside, (Work, Group, Repeat))), None)
        if first is None:
            return None
        item = first
    return item.where.which


def _in_nth_chain(item: Work | Group | Repeat) -> bool:
    """True for "sc into the second chain and each chain", counted from the hook though nobody says so, and for a round
    in one chain, "6 sc in first ch"."""
    if not isinstance(item, Work) or item.stitch == "slst":
        return False
    whole = item.where.which in (Which.FIRST, Which.MADE) and item.where.many == 1 and item.count > 3
    return (item.where.which is Which.NTH or whole) and item.where.kinds[:1] == (Kind("ch"),)


def _only_closes(after: Sequence[Item]) -> bool:
    """True when nothing is worked along the chain behind a slip stitch in it."""
    first = next((item for item in after if isinstance(item, (Work, Group, Repeat))), None)
    return first is None or _place(first) is Which.RING


def told_at_first_row(problems: list[Problem], before: int, block: Block, page: Page) -> None:
    """What is wrong with a foundation shows in the row that is worked into it: the problems from an index on."""
    row = next((b.label.text for b in page.blocks if b.start > block.start and b.label), None)
    for k in range(before, len(problems)):
        if problems[k].row is None and problems[k].code == "C211":
            problems[k] = replace(problems[k], row=row)
