"""What a label names that does not say so: rows or rounds, by what its part does."""

import re
from collections.abc import Sequence

from tracker.expressions import expression
from tracker.notation.page.block import Block
from tracker.notation.page.labelled.called import rounds_called_rows
from tracker.problems import Source

_SHORT = expression(r"r?\s?\d+(?!\d*(?:st|nd|rd|th)\b)", re.IGNORECASE)
"""A label that names neither rows nor rounds: "R3:", "3."."""
_TURNS = expression(r"(?<!not )(?<!n't )\bturn\b", re.IGNORECASE)
_JOINS_ROUND = expression(
    r"(?:\b(?:sl(?:ip)?[\s-]?st(?:itch)?|ss|join)\b[^.;(]{0,24}?\b(?:first|1st|top|beg\w*|to\s+(?:join|close))\b"
    r"|\bjoin(?=\s*(?:[,;.]|turn|rnd|round|with\s+(?:a\s+)?(?:sl|ss))))[^.;(]{0,24}\.?\s*(?:[(\[].*)?$",
    re.IGNORECASE,
)
"""How a round ends, turned or not: "sl st to first sc. (28)"."""
_IN_ROUNDS = expression(
    r"\b(?:rounds?|rnds?|rings?|circle|spiral\w*|join\w*|a?mr\d*|mc\d+|around"
    r"|(?:ss|sl(?:ip)?[\s-]?st(?:itch)?)\s+(?:to|in|into)\s+(?:the\s+)?(?:first|1st))\b",
    re.IGNORECASE,
)
"""Words of a piece that goes round."""


class Kinds:
    """Which parts of a page are worked in rows and which in rounds."""

    def __init__(self, blocks: Sequence[Block], source: Source) -> None:
        self.source = source
        self.short_rows = _short_rows(blocks, source)
        """By part: True where "R3:" is a row, because the part turns."""
        self.round_rows = rounds_called_rows(blocks, source.text)
        """Parts whose rounds are called rows: begun in a ring, closed each, and never turned."""

    def of(self, block: Block) -> str:
        """ "row" or "round", for a block with a label or without."""
        label = block.label
        if label is None:
            return "row"
        if block.part in self.round_rows:
            return "round"
        if _SHORT.match(self.source.text, block.start):
            return "row" if self.short_rows.get(block.part) else "round"
        return label.kind


def _short_rows(blocks: Sequence[Block], source: Source) -> dict[str | None, bool]:
    """By part: True where "R3:" is a row: the part turns, or nothing speaks of rounds."""
    short: dict[str | None, bool] = {}
    for block in blocks:
        if block.label is not None and block.job == "row":
            text = source.text[block.start : block.end]
            if _SHORT.match(text):
                turns = _TURNS.search(text) is not None and _JOINS_ROUND.search(text) is None
                short[block.part] = short.get(block.part, False) or turns
    whole = any(short.values())
    if short and not whole and not _IN_ROUNDS.search(source.text):
        return dict.fromkeys(short, True)
    return {part: turns or (whole and part is None) for part, turns in short.items()}
