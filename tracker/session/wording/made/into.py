"""Where stitches go, in words: " in the first space", " two rows below", " in the back loops".

A place of the tree and the step that was worked there come in; words go out, with a blank before them, ""
where the place is a matter of course.
"""

import re

from tracker.fabric.model import CH, SP, Element, Step, WorkedRow
from tracker.notation.tree import LAYERS, SPACE, Join, Where, Which
from tracker.session.wording.made.chains import chain_landing
from tracker.session.wording.made.telling import Telling
from tracker.trade.numbers import spoken_number, spoken_ordinal

_MAGIC = re.compile(r"\b(?:magic|adjustable|sliding|mr|mc|amr)\b", re.IGNORECASE)
"""Words and letters for a ring that is made as the first stitches go into it (common practice, no source)."""


def rows_below(where: Where) -> str:
    """ "two rows below", as the pattern counts them: one below the row that others go into is one row below.

    >>> from types import SimpleNamespace as S
    >>> rows_below(S(down=3)), rows_below(S(down=2))
    ('two rows below', 'one row below')
    """
    return f"{spoken_number(where.down - 1)} row{'' if where.down == 2 else 's'} below"


def into_spaces(step: Step, worked: WorkedRow) -> bool:
    """True for stitches that all go into spaces."""
    made = [e for e in worked.elements[step.made_from : step.made_to] if e.into]
    below = [worked.below[e.into[-1]] for e in made if e.into[-1] < len(worked.below)]
    return bool(below) and all(element.kind == SP for element in below)


def loop_said(loop: str, many: int) -> str:
    """ " in the back loops", " through both layers"; "" where nothing is said of loops."""
    if loop == LAYERS:
        return " through both layers"
    return f" in the {loop} loop{'s' if many > 1 else ''}" if loop in ("back", "front", "third") else ""


def where_to(where: Where, step: Step, worked: WorkedRow, telling: Telling, each: int, places: int) -> str:
    """Where it goes, with a blank before it; "" where that is a matter of course."""
    made = [e for e in worked.elements[step.made_from : step.made_to] if e.into]
    below = [worked.below[e.into[-1]] for e in made if e.into[-1] < len(worked.below)]
    spaces = into_spaces(step, worked)
    passed_over = where.down > 1 and _PASSED_OVER.search(telling.source.words(where.span))
    if len(where.kinds) > 1 and where.kinds[1].inside or _unseen_space(where, below) or passed_over:
        return f" {telling.read(f'in {telling.source.words(where.span)}')}"
    if where.which is Which.RING:
        told_of = any(isinstance(item, Join) and item.stitch == "magic" for item in worked.row.items)
        makes_it = step.made_from == 0 and not told_of and _MAGIC.search(telling.source.words(where.span))
        return " in a magic ring" if makes_it else " in the ring"
    if where.which is Which.SAME:
        return (
            " in the same space"
            if spaces or where.kinds and where.kinds[0].name == SPACE
            else " in the same stitch"
        )
    if (
        where.which is Which.TOP
        or where.which is Which.NTH
        and where.kinds
        and where.kinds[0].name in (CH, "tch")
    ):
        found = chain_landing(worked, below[-1]) if below else ""
        return f" in {found}" if found else f" in the {spoken_ordinal(where.nth)} chain" if where.nth else ""
    if where.which is Which.NTH:
        return f" in the {spoken_ordinal(where.nth)} stitch"
    if spaces and _A_CHAIN_OF.search(telling.source.words(where.span)):
        return f" {telling.read(f'in {telling.source.words(where.span)}')}"
    if spaces:
        if places > 1:
            return f" in each of {spoken_number(places)} spaces"
        edge = {Which.FIRST: "first ", Which.LAST: "last "}.get(where.which, "")
        wide = "" if telling.mesh or below[0].chains == 1 else f"chain-{spoken_number(below[0].chains)} "
        return f" in the {edge}{wide}space"
    chain = bool(below) and below[-1].kind == CH or bool(where.kinds) and where.kinds[0].name == CH
    if made and not below and worked.below:
        # the other side of a foundation, of which only the side worked first is kept
        chain = all(element.kind == CH for element in worked.below)
    thing = "chain" if chain else "stitch"
    if where.which is Which.FIRST and places == 1:
        return f" in the first {thing}"
    if where.which is Which.LAST and places == 1:
        return f" in the last {thing}"
    if places == 1 and below and not chain and not telling.mesh and _over_a_space(step, worked, made[0]):
        return f" in the next {telling.stitch(below[-1].kind)}"
    return f" in one {thing}" if each > 1 and places == 1 else ""


_A_CHAIN_OF = re.compile(
    r"\b(?:\d(?:st|nd|rd|th)|first|second|third|fourth|cent(?:er|re)|middle) (?:ch|chain)s? of\b",
    re.IGNORECASE,
)
"""In "dc in 3rd ch of next ch-5": one chain of a space, and not anywhere in it."""


def _over_a_space(step: Step, worked: WorkedRow, first: Element) -> bool:
    """True where a space that no word tells to skip lies before the stitch that is worked into."""
    return any(element.kind == SP for element in worked.below[step.at : first.into[0]])


_PASSED_OVER = re.compile(r"\b(?:skipped|missed|unworked|unused)\b", re.IGNORECASE)
"""In "dc in next skipped sc 3 rows below": no other stitch of that row."""


def _unseen_space(where: Where, below: list[Element]) -> bool:
    """True for one place that words call a space and that is none of those known: "joined ch-2 sp", a corner's."""
    named = bool(where.kinds) and where.kinds[0].name in (SPACE, "corner sp")
    one = where.which in (Which.NEXT, Which.FIRST, Which.LAST) and where.many == 1
    return named and one and not any(element.kind == SP for element in below)
