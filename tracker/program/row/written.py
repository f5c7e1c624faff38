"""A group as it is written: of a row worked again with other stitches, "As Row 2, but in hdc", with those put in.

A program, a row and a beat of it come in; words go out, the pattern's own but for the names that were exchanged.
"""

import re
from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import TYPE_CHECKING

from tracker.notation.pattern import Row
from tracker.notation.tree import Group, Item, Repeat, Work
from tracker.problems import Span
from tracker.program.row.groups import Beat
from tracker.trade.stitches import STITCHES, written

if TYPE_CHECKING:
    from tracker.program.places import Program


def written_of(program: "Program", row: int, beat: Beat) -> str:
    """The words of a beat, with the stitches that are really worked."""
    words, own = program.source.words(beat.span), program.fabric.row(row).worked.row.span
    if own.start <= beat.span.start and beat.span.end <= own.end:
        return words
    exchanged = dict.fromkeys(
        (was.stitch, now.stitch)
        for step in beat.steps
        for now in _works((step.item,))
        for was in _printed(program).get(now.span, ())
        if was.stitch != now.stitch and was.stitch in STITCHES
    )
    for old, new in exchanged:
        named = _spelled(old, program.pattern.uk)
        words = named.sub(written(new, program.pattern.uk), words, count=1)
    return words


def _works(items: Sequence[Item]) -> Iterator[Work]:
    """All that is worked in items, in brackets as well."""
    for item in items:
        if isinstance(item, Work):
            yield item
        elif isinstance(item, Group | Repeat):
            yield from _works(item.items)


@lru_cache(maxsize=2)
def _printed(program: "Program") -> dict[Span, list[Work]]:
    """What is worked by the rows' own words, by where it is printed."""
    out: dict[Span, list[Work]] = {}
    for block in program.pattern.blocks:
        if isinstance(block, Row):
            for work in _works(block.items):
                if block.span.start <= work.span.start and work.span.end <= block.span.end:
                    out.setdefault(work.span, []).append(work)
    return out


@lru_cache(maxsize=64)
def _spelled(name: str, uk: bool) -> re.Pattern[str]:
    """Any spelling of a stitch."""
    stitch = STITCHES[name]
    names = (stitch.spoken_uk, stitch.uk) if uk else (stitch.spoken, stitch.name)
    return re.compile(rf"\b(?:{'|'.join(map(re.escape, names))})(?:s|es)?\b", re.IGNORECASE)
