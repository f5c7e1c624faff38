"""Numbers as they stand in a row, each with the other numbers it may have been meant to be.

A stretch of a pattern comes in; figures with their spans come out, of a list of sizes the one of the size that is
worked. A figure written as a word is mended as a word.
"""

import re
from collections.abc import Iterator

from tracker.load import Loaded
from tracker.notation.page.sized.sizes import chosen
from tracker.notation.scan import T, scan
from tracker.problems import Fix, Span
from tracker.records import dataclass
from tracker.trade.numbers import NUMBER_WORDS, ORDINAL_WORDS, TIMES_WORDS, spoken_number

LARGEST = 100_000
_NEXT = re.compile(r"\b(?:next|first|last)\s+$", re.IGNORECASE)
_ALONE = re.compile(r"\s+(?=(?:st|sc|dc|hdc|tr|htr|ch|sp|lp|loop|chain|stitch)\b)")
""" "sk next 2 sc", whose noun is one as well as several."""
_IN = re.compile(r"\s+(?:sc|hdc|dc|tr|htr)\s+(?:in|into)\b")
_ONE = re.compile(r"\b1\s?(?:sc|hdc|dc|tr|htr)\b")
""" "1 sc in next st": where a pattern tells one without a figure, "2 sc in next st" becomes "sc in next st"."""


@dataclass(frozen=True, slots=True)
class Figure:
    """A number in the text."""

    span: Span
    value: int
    style: str
    """"figure", "word", "times" ("twice") or "ordinal" ("4th")."""
    lone: Span | None = None
    """The figure with the blank behind it, where one of the thing is told without a figure: "next 2 sc", "next sc"."""

    def as_(self, value: int) -> Fix | None:
        """The edit that makes it another number, None where that can't be one."""
        if not 0 < value < LARGEST or value == self.value:
            return None
        if self.style == "word":
            return Fix(self.span, spoken_number(value))
        if value == 1 and self.lone is not None:
            return Fix(self.lone, "")
        if self.style == "times":
            return Fix(self.span, {1: "once", 2: "twice"}.get(value, f"{value} times"))
        if self.style == "ordinal":
            return Fix(self.span, _ordinal(value))
        return Fix(self.span, str(value))


def figures_in(loaded: Loaded, span: Span) -> Iterator[Figure]:
    """All figures of a stretch, in order."""
    text = loaded.source.text
    sizes, size = loaded.pattern.sizes, loaded.pattern.size
    told_one = _ONE.search(text[:100_000]) is not None
    tokens = scan(text, span.start, span.end)
    if len(sizes) > 1:
        tokens, _ = chosen(tokens, len(sizes), sizes.index(size) if size in sizes else 0)
    for token in tokens:
        own = text[token.start : token.end]
        if token.kind is T.NUMBER and own.isdigit():
            bare = _NEXT.search(text[: token.start][-8:]) or not told_one and _IN.match(text, token.end)
            alone = _ALONE.match(text, token.end) if bare else None
            whole = Span(token.start, alone.end()) if alone is not None else None
            yield Figure(Span(token.start, token.end), token.value, "figure", whole)
        elif token.kind is T.NUMBER:
            hits = list(re.finditer(r"\d+|[–—-]", own))
            at = sizes.index(size) if size in sizes else 0
            if len(hits) == len(sizes) and hits[at].group().isdigit():
                hit = hits[at]
                yield Figure(
                    Span(token.start + hit.start(), token.start + hit.end()), int(hit.group()), "figure"
                )
        elif token.kind is T.ORDINAL:
            yield Figure(Span(token.start, token.end), token.value, "ordinal")
        elif token.kind is T.WORD and token.text in TIMES_WORDS:
            yield Figure(Span(token.start, token.end), TIMES_WORDS[token.text], "times")
        elif token.kind is T.WORD and token.text in NUMBER_WORDS and token.text not in ("a", "an"):
            yield Figure(Span(token.start, token.end), NUMBER_WORDS[token.text], "word")
        elif token.kind is T.WORD and token.text in ORDINAL_WORDS and ORDINAL_WORDS[token.text] > 2:
            yield Figure(Span(token.start, token.end), ORDINAL_WORDS[token.text], "ordinal")
        elif token.kind is T.WORD and (glued := re.fullmatch(r"([a-z]+)(\d{1,3})", token.text)):
            # "x6", "ch3": a number glued to its word
            start = token.start + glued.start(2)
            yield Figure(Span(start, token.start + glued.end(2)), int(glued[2]), "figure")


def _ordinal(value: int) -> str:
    ending = "th" if value % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(value % 10, "th")
    return f"{value}{ending}"
