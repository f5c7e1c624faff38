"""What is left when the rows are done, to tick off: ends, blocking, joining. A Program comes in; entries go out."""

import re
from collections.abc import Callable

from tracker.fabric.model import CH
from tracker.notation.tree import Travel
from tracker.paper.leaf import Entry
from tracker.program.places import Program

_NOUNS = re.compile(
    r"\b(square|coaster|motif|hexagon|block|patch|tile|star|flower|leaf|panel|strip|mitten|sock|slipper)s?\s*$",
    re.IGNORECASE,
)
MOST_MEASURED = 60
"""Copies that get a line of their own for the size they block to."""


def ends_of(program: Program, part: int) -> int:
    """Ends to weave in for one copy of a part: two for every length of yarn that its words begin.

    A ball that gives out on the way adds two more; that nobody can know beforehand.
    """
    one = program.parts[part]
    begun = 0
    for row in range(one.first, min(one.last, one.first + 1000) + 1):
        placed = program.fabric.row(row)
        items = placed.worked.row.items
        fresh = any(isinstance(item, Travel) and item.fresh for item in items)
        first = row == one.first and (
            part == 0 or not placed.worked.below or placed.worked.below[0].kind == CH
        )
        begun += 1 if first or fresh else 0
    return 2 * begun


def noun_for(program: Program) -> str:
    """What one of several copies is called: as the pattern says, else as its title ends, else "piece"."""
    hit = _NOUNS.search(program.pattern.title)
    return program.noun or (hit[1].lower() if hit else "piece")


def finishing_of(program: Program, plain: Callable[[str], str]) -> tuple[tuple[Entry, ...], tuple[str, ...]]:
    """The list to tick off, and the names of the copies whose blocked size is to be noted.

    `plain`: words as the sheet prints them.
    """
    out: list[Entry] = []
    last = program.parts[-1] if program.parts else None
    if last is None:
        return (), ()
    for aside in program.asides(len(program.parts) - 1, last.last + 1):
        text = " ".join(program.source.words(aside.span).split())
        out += [
            Entry("", "", (plain(line),))
            for line in re.split(r"(?<=[.!?])\s+(?=[A-Z])", text)
            if line.strip()
        ]
    out.append(Entry("", "", (_ends(program),)))
    copies = max(part.copies for part in program.parts)
    measured: tuple[str, ...] = ()
    if copies > 1 and len(program.parts) == 1:
        noun = noun_for(program).capitalize()
        measured = tuple(f"{noun} {nth}" for nth in range(1, min(copies, MOST_MEASURED) + 1))
    return tuple(out), measured


def _ends(program: Program) -> str:
    """How many ends there are, part by part."""
    each = [(part.name, ends_of(program, at), part.copies) for at, part in enumerate(program.parts)]
    told = [
        f"{name or noun_for(program)} {many}" + (f" × {copies}" if copies > 1 else "")
        for name, many, copies in each
        if many
    ]
    whole = sum(many * copies for _, many, copies in each)
    lead = f"Ends to weave in: {whole}"
    return (
        f"{lead} ({', '.join(told)})."
        if len(told) > 1 or any(copies > 1 for *_, copies in each)
        else f"{lead}."
    )
