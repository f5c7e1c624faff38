"""What is left when the rows are done, to tick off: ends, blocking, joining. A Program comes in; entries go out."""

import re
from collections.abc import Callable

from tracker.charts.layout.colours import colours_of
from tracker.fabric.model import CH
from tracker.notation.pattern import Aside
from tracker.notation.tree import Travel
from tracker.paper.leaf import Entry
from tracker.program.joining import last_edges, layout_of, map_of
from tracker.program.parts import JOINING, Part
from tracker.program.places import Program

MOST_LOOKED = 1000
"""Rows of a part looked at for yarn that is begun."""
MOST_MEASURED = 60
"""Copies that get a line of their own for the size they block to."""


def ends_of(program: Program, part: int) -> int:
    """Ends to weave in for one copy of a part: two for every length of yarn that its words begin.

    A ball that gives out on the way adds two more; that nobody can know beforehand.
    """
    one = program.parts[part]
    if one.name == JOINING:
        layout = layout_of(program.pattern, program.parts[0].copies)
        return 2 * len(layout.seams) if layout else 0
    begun = 0
    for row in range(one.first, min(one.last, one.first + MOST_LOOKED) + 1):
        placed = program.fabric.row(row)
        items = placed.worked.row.items
        fresh = any(isinstance(item, Travel) and item.fresh for item in items)
        first = row == one.first and (
            part == 0 or not placed.worked.below or placed.worked.below[0].kind == CH
        )
        begun += 1 if first or fresh else 0
    return 2 * max(begun, _colours_begun(program, one) if begun else 0)


def _colours_begun(program: Program, part: Part) -> int:
    """Colours a part is worked in, by the pattern's words."""
    last = min(part.last, part.first + MOST_LOOKED)
    rows = tuple(program.fabric.rows(part.first, last))
    letters = colours_of(program.source, program.pattern, rows).rows.values()
    return len({letter for row in letters for letter in row if letter})


def layout_told(program: Program) -> tuple[str, ...]:
    """How the pieces lie, a line a row, in words that need no picture; () where the pattern does not say."""
    layout = layout_of(program.pattern, program.parts[0].copies) if program.parts else None
    if layout is None:
        return ()
    rows = [", ".join(words.split()) for words in map_of(layout)]
    named = [f"Row {nth}" for nth in range(1, len(rows) + 1)]
    named[0], named[-1] = "Top row", "Bottom row"
    edges = last_edges(program.fabric)
    told = [f"{name}: {row}." for name, row in zip(named, rows, strict=True)]
    if edges and len(set(edges)) == 1:
        told.append(
            f"Every edge has {edges[0]} stitches between its corners, so they meet stitch for stitch."
        )
    elif edges:
        told.append(
            f"The edges have {', '.join(map(str, edges))} stitches between the corners; they do not agree."
        )
    return tuple(told)


def finishing_of(program: Program, plain: Callable[[str], str]) -> tuple[tuple[Entry, ...], tuple[str, ...]]:
    """The list to tick off, and the names of the copies whose blocked size is to be noted.

    `plain`: words as the sheet prints them.
    """
    out: list[Entry] = []
    last = program.parts[-1] if program.parts else None
    if last is None:
        return (), ()
    for aside in program.asides(len(program.parts) - 1, last.last + 1):
        text = aside.text if isinstance(aside, Aside) else program.source.words(aside.span)
        text = " ".join(text.split())
        seam = re.match(r"Seam |On to ", text)
        lines = [text] if seam else re.split(r"(?<=[.!?])\s+(?=[A-Z])", text)
        out += [Entry("", "", (plain(line),)) for line in lines if line.strip()]
    out.append(Entry("", "", (_ends(program),)))
    copies = max(part.copies for part in program.parts)
    measured: tuple[str, ...] = ()
    if copies > 1 and not any(part.name for part in program.parts[:1]):
        noun = (program.noun or "piece").capitalize()
        measured = tuple(f"{noun} {nth}" for nth in range(1, min(copies, MOST_MEASURED) + 1))
    return tuple(out), measured


def _ends(program: Program) -> str:
    """How many ends there are, part by part."""
    each = [(part.name, ends_of(program, at), part.copies) for at, part in enumerate(program.parts)]
    told = [
        f"{name or (program.noun or 'piece')} {many}" + (f" × {copies}" if copies > 1 else "")
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
