"""What a sentence about a row needs to know of its pattern: the names of stitches as they are said.

A program comes in; a Telling that names stitches and reads out stretches of the pattern's own words goes out.
"""

import re

from tracker.fabric.model import Placed
from tracker.notation.pattern import Aside, Row
from tracker.notation.tree import ANY, Item, Join, Skip, Travel
from tracker.problems import Span
from tracker.program.places import Program
from tracker.session.wording.made.own_words.reading import read_out
from tracker.session.wording.spelled import SQUARES, own_names
from tracker.trade.nouns import several
from tracker.trade.numbers import spoken_number
from tracker.trade.stitches import said

_PLACE = re.compile(r"\b(?:in|into|around|over|below)\b")


class Telling:
    """What a sentence needs to know of the pattern it is about."""

    __slots__ = ("_program", "mesh", "own", "placed", "source", "squares", "uk")

    def __init__(self, program: Program, mesh: int | None) -> None:
        self._program = program
        self.source = program.source
        self.own = own_names(program)
        """The stitches that the pattern defines, by what its rows call them, as they are said."""
        self.squares = {s.name: s for s in program.pattern.specials if s.base in SQUARES}
        """Those that are squares of filet or tiles."""
        self.placed = frozenset(
            s.name for s in program.pattern.specials if _PLACE.search(program.source.words(s.span))
        )
        """Those whose definition tells where they go, which a row that names no place goes by."""
        self.uk = program.told_uk
        self.mesh = mesh
        """Chains of a window in a filet row; None in any other."""

    def stitch(self, name: str, number: int = 1) -> str:
        """A stitch as it is said; those that are things rather than doings take a plural."""
        words = self.own.get(name) or (said(name, self.uk) if name != ANY else "stitch")
        return words if number == 1 else several(words)

    def told_before(self, item: Item, row: Row) -> bool:
        """True for what a row takes from words between it and the row before: those were told by themselves."""
        span = item.span
        if span.end > row.label_span.start or not isinstance(item, Skip | Travel | Join):
            return False
        asides = (block.span for block in self._program.pattern.blocks if isinstance(block, Aside))
        return any(aside.start <= span.start and span.end <= aside.end for aside in asides)

    def written(self, item: Item) -> str:
        """An item's own words, read out."""
        return self.words(item.span)

    def words(self, span: Span) -> str:
        """A stretch of the pattern's own words, read out."""
        return self.read(self.source.words(span))

    def read(self, words: str) -> str:
        """Words of the pattern's own, read out."""
        words = words.lower() if words.isupper() and " " in words else words
        return read_out(self._program, words, self.own)


def capital(words: str) -> str:
    """The words as they begin a sentence."""
    return words[:1].upper() + words[1:]


def row_name(placed: Placed) -> str:
    """ "row nine", "round four", or the label as printed.

    >>> from types import SimpleNamespace as S
    >>> row_name(S(number=9, kind="row", printed="Row 9")), row_name(S(number=None, kind="row", printed="Next row"))
    ('row nine', 'Next row')
    """
    if placed.number is None:
        again = _ROW_AGAIN.fullmatch(placed.printed)
        if again is None:
            return _PATTERN_ROW.sub("pattern row", placed.printed)
        return f"{_WORDS[again[1]]} {spoken_number(int(again[2]))}"
    return f"{'round' if placed.kind == 'round' else 'row'} {spoken_number(placed.number)}"


_ROW_AGAIN = re.compile(r"(Row|Rnd) (\d{1,5})")
_PATTERN_ROW = re.compile(r"^patt?(?: row)?$", re.IGNORECASE)
_WORDS = {"Row": "row", "Rnd": "round"}
