"""The designer's own words, with the names of stitches in other terms and the figure of one size.

A stretch of a source comes in, a text goes out in which only those words differ. A text in the same terms stays as
it is, to the letter.
"""

import re
from dataclasses import dataclass

from tracker.notation.page.sizes import chosen
from tracker.notation.phrase.cursor import Context, Cursor, stitch_here
from tracker.notation.scan import T, Token, scan
from tracker.notation.tree import Pattern
from tracker.problems import Source, Span
from tracker.trade.stitches import said, written

_SWAPS = (
    (re.compile(r"\b(?:skip|sk)(?=\s)", re.IGNORECASE), "miss"),
    (re.compile(r"\bskipping(?=\s)", re.IGNORECASE), "missing"),
    (re.compile(r"\bskipped\b", re.IGNORECASE), "missed"),
    (re.compile(r"\bgauge\b", re.IGNORECASE), "tension"),
    (re.compile(r"\byoh?(?=\b)", re.IGNORECASE), "yrh"),
    (re.compile(r"\byarn over(?: hook)?\b", re.IGNORECASE), "yarn round hook"),
)
_SWAPS_BACK = (
    (
        re.compile(
            r"\bmiss(?=\s+(?:\d|next|first|last|one|two|three|a\b|the\b|all\b|rem\b|each\b|ch\b))",
            re.IGNORECASE,
        ),
        "sk",
    ),
    (re.compile(r"\bmissing(?=\s+(?:\d|next|first|last|one|two|a\b|the\b))", re.IGNORECASE), "skipping"),
    (re.compile(r"\bmissed\b", re.IGNORECASE), "skipped"),
    (re.compile(r"\btension\b", re.IGNORECASE), "gauge"),
    (re.compile(r"\byrh\b", re.IGNORECASE), "yo"),
    (re.compile(r"\byarn round hook\b", re.IGNORECASE), "yarn over"),
)
_TERMS = re.compile(
    r"\b(?P<a>u\.?k\.?|british|english|u\.?s\.?a?\.?|american)"
    r"(?P<b>\s*(?:crochet\s+)?(?:terms?|terminology|abbreviations|stitch(?:es)? names|notation|pattern|stitches)\b)"
    r"|(?P<c>\b(?:terms?|terminology|abbreviations)(?:\s+(?:used|are|in|is|throughout))*\s*[:=]?\s*"
    r"(?:in\s+)?(?:standard\s+)?)(?P<d>u\.?k\b\.?|british|u\.?s\b\.?|american)",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Tongue:
    """What a pattern is written from, and in which terms it is to be written."""

    source: Source
    pattern: Pattern
    uk: bool
    context: Context
    """As the pattern was read."""
    index: int
    """Of the size that is written, from 0."""

    def name(self, stitch: str) -> str:
        """A stitch as it is written."""
        if stitch == "slst":
            return "ss" if self.uk else "sl st"
        return written(stitch, self.uk)

    @property
    def skip(self) -> str:
        return "miss" if self.uk else "sk"


def own_words(tongue: Tongue, span: Span, lines: bool = False) -> str:
    """The words of a span; `lines` keeps them on their lines."""
    text = tongue.source.text[span.start : span.end]
    pieces: list[str] = []
    at = span.start
    for start, end, words in _changes(tongue, span):
        pieces += [tongue.source.text[at:start], words]
        at = end
    text = "".join((*pieces, tongue.source.text[at : span.end]))
    if tongue.uk is not tongue.pattern.uk:
        for found, instead in _SWAPS if tongue.uk else _SWAPS_BACK:
            text = found.sub(lambda hit, instead=instead: _cased(hit.group(), instead), text)  # type: ignore[misc]
        text = _TERMS.sub(lambda hit: _termed(hit, tongue.uk), text)
    return text if lines else " ".join(text.split())


def _changes(tongue: Tongue, span: Span) -> list[tuple[int, int, str]]:
    tokens = scan(tongue.source.text, span.start, span.end)
    out: list[tuple[int, int, str]] = []
    sizes = len(tongue.pattern.sizes)
    if sizes > 1:
        tokens, _ = chosen(tokens, sizes, tongue.index)
    text = tongue.source.text
    translates = tongue.uk is not tongue.pattern.uk
    cursor = Cursor(tokens, tongue.context)
    while cursor.kind() is not T.END:
        token = cursor.token()
        if token.kind is T.NUMBER and text[token.start : token.end] != token.text and len(token.text) < 13:
            if not text[token.start : token.end].isdigit():
                out.append((token.start, token.end, token.text))
        elif translates and token.kind is T.WORD and (found := _named(cursor, tongue)):
            out.append(found[0])
            cursor.i += found[1]
            continue
        cursor.i += 1
    return out


def _named(cursor: Cursor, tongue: Tongue) -> tuple[tuple[int, int, str], int] | None:
    """A stitch's name that is another one in the other terms, and how many tokens it takes."""
    stitch = stitch_here(cursor)
    if stitch is None or stitch.special is not None or stitch.name in ("inc", "dec"):
        return None
    if stitch.name.startswith("inc:"):
        name, tail = stitch.name[4:], " inc"
    else:
        name, tail = stitch.name, ""
    if name != "slst" and written(name, True) == written(name, False):
        return None
    last: Token = cursor.token(stitch.tokens - 1)
    start, end = cursor.token().start, last.end
    before = tongue.source.text[start:end]
    if name == "slst" and before.lower() not in ("ss", "sl st"):
        return None
    spelled = re.search(r"[A-Za-z]{5,}", before) is not None and not tail and not stitch.loop
    words = said(name, tongue.uk) if spelled else tongue.name(name) + tail
    if stitch.loop:
        words += {"back": "-blo", "front": "-flo"}.get(stitch.loop, "")
    if before.endswith("s") and not words.endswith("s") and name != "slst":
        words += "s"
    return (start, end, _cased(before, words)), stitch.tokens


def _cased(before: str, words: str) -> str:
    """Words with the capitals of those they stand for."""
    if before.isupper() and len(before) > 2:
        return words.upper()
    return words[:1].upper() + words[1:] if before[:1].isupper() else words


def _termed(hit: re.Match[str], uk: bool) -> str:
    short = "UK" if uk else "US"
    return f"{short}{hit['b']}" if hit["a"] else f"{hit['c']}{short}"
