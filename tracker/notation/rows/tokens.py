"""Tokens of a row as they are read: worded plainly, for one size, its colours and squares told apart.

A stretch of the text comes in; tokens go out. A row that is longer than a row can be is cut, and that is reported.
"""

from collections.abc import Sequence

from tracker.notation.coloured import SIGNS, numbered, parted, squares_parted
from tracker.notation.definitions.filet.edges import spelled_out
from tracker.notation.page.block import Block
from tracker.notation.page.sized.sizes import chosen, told_wrong
from tracker.notation.phrase.cursor import Context
from tracker.notation.plain.worded import said_plainly
from tracker.notation.scan import T, Token, scan
from tracker.problems import Label, Problem, Severity, Source, Span

MAX_ROW_TOKENS = 20_000
"""Tokens of a row that are read; a long one has some hundreds."""


_GOING_ON = frozenset("work cont continue then rep repeat".split())
"""How words of further rows begin."""


class RowTokens:
    """Tokens of one text, for one of its sizes."""

    def __init__(self, source: Source, context: Context, sizes: tuple[str, ...], index: int) -> None:
        self._source = source
        self._context = context
        self._sizes = sizes
        self._index = index
        self._squares = frozenset(
            key for key, special in context.specials.items() if special.base in ("window", "block")
        )
        """What rows call the squares of filet."""
        self._numbered = any(colour[-1:].isdigit() for colour in context.colours)

    def of(self, start: int, end: int, only: Sequence[str] = ()) -> list[Token]:
        """Tokens of a stretch of the text, with the figures of one size in them.

        `only`: the sizes that the stretch is for; empty for all.
        """
        letters = self._context.specials.keys() | self._context.colours
        tokens = said_plainly(scan(self._source.text, start, end), letters)
        if len(tokens) > MAX_ROW_TOKENS:
            self._context.problems.append(
                Problem(
                    "T107",
                    Severity.WARNING,
                    "A row is longer than a row can be; the rest of it was not read",
                    Label(Span(start, min(end, start + 40))),
                )
            )
            tokens = [*tokens[:MAX_ROW_TOKENS], Token(T.END, "", end, end)]
        if len(self._sizes) > 1:
            size = self._sizes[self._index]
            section = (len(only), only.index(size)) if len(only) > 1 and size in only else None
            tokens, odd = chosen(tokens, len(self._sizes), self._index, section)
            if tokens[0].text in _GOING_ON:
                # "Work straight in dc for 24 [26] rows": how many are plain only now
                tokens = said_plainly(tokens, letters)
            told = self._context.row, self._context.part
            self._context.problems.extend(told_wrong(wrong, len(self._sizes), *told) for wrong in odd)
        if self._squares and len(tokens) > 5:
            tokens = squares_parted(tokens, self._squares)
        if self._numbered:
            tokens = numbered(tokens, self._context.colours)
        if self._context.colours and any(token.text in SIGNS for token in tokens):
            tokens = parted(tokens, self._context.colours)
        return spelled_out(tokens, self._context.edges) if self._context.edges else tokens

    def many_told(self, block: Block, many: int | None) -> int | None:
        """How many rows a label tells for the size that is read: "Next 8 (10, 12) rnds"; `many` where it tells none.

        A list of another length than there are sizes is reported; not "Rows 4-21 (4-25, 4-29)", a list of ranges.
        """
        text = self._source.text
        figures, odd = chosen(scan(text, block.start, block.text_start), len(self._sizes), self._index)
        told = self._context.row, self._context.part
        self._context.problems.extend(
            told_wrong(wrong, len(self._sizes), *told)
            for wrong in odd
            if not any(sign in text[wrong.start : wrong.end] for sign in "-–—")
        )
        return next((t.value for t in figures if t.kind is T.NUMBER), many) if many is not None else None
