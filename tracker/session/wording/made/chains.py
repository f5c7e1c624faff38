"""Turning chains and what they stand for, and the chain in which a row's last stitch lands.

A step of a worked row comes in; words go out, without a capital and without a full stop.
"""

import re

from tracker.expressions import expression
from tracker.fabric.model import CH, HIDDEN, SP, Element, Placed, Step, WorkedRow
from tracker.notation.tree import Chain, Work
from tracker.program.cues import printed_range
from tracker.program.places import Program
from tracker.session.wording.made.telling import Telling
from tracker.trade.nouns import a_
from tracker.trade.numbers import spoken_number, spoken_ordinal
from tracker.trade.stitches import parts_of


def turning_words(
    step: Step, worked: WorkedRow, telling: Telling, square: list[Element] | None = None
) -> str:
    """The turning chain, and what it stands for; `square`: elements of a square that begins with one."""
    item = step.item
    if not isinstance(item, Chain) and square is None:
        return telling.written(item)
    made = worked.elements[step.made_from : step.made_to] if square is None else tuple(square)
    turned = sum(e.chains for e in made if e.turning)
    words = f"chain {spoken_number(item.count if isinstance(item, Chain) else turned)}"
    if made and made[0].kind == SP:
        return words
    if made and made[0].kind == HIDDEN:
        return f"{words}; it is no stitch"
    space = next((element for element in made if element.kind == SP), None)
    if space is not None:
        return f"{words}: {a_(telling.stitch(made[0].kind))} and its {space_said(space, telling)}"
    return f"{words}: your first {telling.stitch(made[0].kind)}" if made else words


def chain_landing(worked: WorkedRow, target: Element) -> str:
    """Where the last stitch goes, when that is a chain: "the top of the chain three"."""
    where, _, chains = worked.landing.partition("/")
    if chains.isdigit() and where == "top":
        return f"the top of the chain {spoken_number(int(chains))}"
    if chains.isdigit() and where.isdigit():
        return f"the {spoken_ordinal(int(where))} chain of the chain {spoken_number(int(chains))}"
    return f"the top of the chain {spoken_number(target.chains)}" if target.chains else ""


def landing(worked: WorkedRow) -> str:
    """The same for the row as a whole; "" when its last stitch is one like the others."""
    return chain_landing(worked, Element(CH)) if worked.landing else ""


def space_said(space: Element, telling: Telling) -> str:
    return "window" if telling.mesh else f"chain-{spoken_number(space.chains)} space"


def lands(known: str, where: str, words: str) -> str:
    """The landing of a last stitch, unless the words have told it."""
    if not where or where in words:
        return ""
    return f"; the last goes in {where}{', counted from the base' if known[:1].isdigit() else ''}"


def landed(words: str, where: str) -> str:
    """A landing behind the stitches, before what else is told: "in the last stitch, the top of …"."""
    doing_it, stop, remarks = words.partition(". ")
    if where and doing_it.endswith((" in the last stitch", " in the last chain")):
        where = where.replace("; the last goes in", ",")
    return f"{doing_it}{where}{stop}{remarks}"


def first_of_foundation(item: Work, made: list[Element], telling: Telling) -> str:
    """A row's first stitch, in its foundation chain, with what the chains skipped before it are."""
    legs = parts_of(item.stitch)[2]
    chains = [spoken_ordinal(item.where.nth + leg) for leg in range(legs)]
    if legs > 1 and made and len(made[0].into) == legs:
        words = f"{telling.stitch(item.stitch)} in the {', '.join(chains[:-1])} and {chains[-1]} chain"
    else:
        words = f"{telling.stitch(item.stitch)} in the {chains[0]} chain"
    if item.count > 1:
        words = f"{spoken_number(item.count)} {words}"
    turning = [element for element in made if element.turning]
    if not turning:
        return words
    skipped = spoken_number(item.where.nth - 1)
    if any(element.kind == SP for element in turning):
        stands_for = f"{a_(telling.stitch(turning[0].kind))} and its {space_said(turning[-1], telling)}"
        return f"{words}; the {skipped} skipped are {stands_for}"
    return f"{words}; the {skipped} skipped are your first"


def chain_untold(program: Program, row: int) -> str:
    """ "Begin each with its turning chain.": of rows worked even that tell of none, where the row before has one."""
    placed = program.fabric.row(row)
    if placed.kind != "row" or row < 2 or printed_range(program, row)[0] != row or _begins_with_chain(placed):
        return ""
    words = program.source.words(placed.worked.row.span)
    if not _EVEN.search(words) or "ch" in words.lower():
        return ""
    return "Begin each with its turning chain." if _begins_with_chain(program.fabric.row(row - 1)) else ""


_EVEN = expression(r"\brows?\b.*\beven\b|\beven(?:ly)?\b.*\brows?\b", re.IGNORECASE | re.DOTALL)


def _begins_with_chain(placed: Placed) -> bool:
    first = placed.worked.elements[:1]
    return placed.kind == "row" and any(one.turning or one.kind == HIDDEN for one in first)
