"""The designer's own words, with the names of stitches in other terms and the figure of one size.

A stretch of a source comes in, a text goes out in which only those words differ. A text in the same terms stays as
it is, to the letter.
"""

import re

from tracker.notation.page.sized.sizes import chosen
from tracker.notation.pattern import Pattern
from tracker.notation.phrase.cursor import Context, Cursor
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.scan import T, Token, scan
from tracker.problems import Source, Span
from tracker.records import dataclass
from tracker.trade.spellings import stitch_named
from tracker.trade.stitches import parts_of, said, written

_SWAPS = (
    (re.compile(r"\b(?:skip|sk)(?=\s)", re.IGNORECASE), "miss"),
    (re.compile(r"\bskipping(?=\s)", re.IGNORECASE), "missing"),
    (re.compile(r"\bgauge\b", re.IGNORECASE), "tension"),
    (re.compile(r"\byoh?(?=\b)", re.IGNORECASE), "yrh"),
    (re.compile(r"\byarn over(?: hook)?\b", re.IGNORECASE), "yarn round hook"),
)
_SWAPS_BACK = (
    (
        re.compile(
            r"\bmiss(?=\s+(?:\d|next|first|last|one|two|three|a\b|the\b|all\b|rem\b|each\b|ch\b|st\b))",
            re.IGNORECASE,
        ),
        "skip",
    ),
    (re.compile(r"\bmissing(?=\s+(?:\d|next|first|last|one|two|a\b|the\b))", re.IGNORECASE), "skipping"),
    (re.compile(r"\btension\b", re.IGNORECASE), "gauge"),
    (re.compile(r"\byrh\b", re.IGNORECASE), "yo"),
    (re.compile(r"\byarn round hook\b", re.IGNORECASE), "yarn over"),
)
_LADDER = re.compile(r"sc|dc|tr|single|double|treble|triple|half|\bss\b|\bsl st\b", re.IGNORECASE)
"""Names without one of these are the same in both terms: "crab stitch"."""
_SPELLED = re.compile(r"crochet|single|double|treble|triple|half", re.IGNORECASE)
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
    """As the pattern was read; its specials also under their names in the other terms."""
    index: int
    """Of the size that is written, from 0."""

    def name(self, stitch: str) -> str:
        """A stitch as it is written."""
        if stitch == "slst":
            return "ss" if self.uk else "sl st"
        if any(special.name == stitch for special in self.pattern.specials):
            return name_of_special(stitch, self.pattern.uk, self.uk)
        return written(stitch, self.uk)

    @property
    def skip(self) -> str:
        return "miss" if self.uk else "sk"


def own_words(tongue: Tongue, span: Span, lines: bool = False) -> str:
    """The words of a span; `lines` keeps them on their lines."""
    tokens = scan(tongue.source.text, span.start, span.end)
    if len(tongue.pattern.sizes) > 1:
        tokens, _ = chosen(tokens, len(tongue.pattern.sizes), tongue.index)
    text = _changed(tongue.source.text, tokens, span, tongue.pattern.uk, tongue.uk, tongue.context)
    return text if lines else " ".join(text.split())


def name_of_special(name: str, was_uk: bool, uk: bool) -> str:
    """A name of the pattern's own in other terms; only one of several words holds another stitch's name.

    >>> name_of_special("x-dc", False, True), name_of_special("ddc", False, True)
    ('x-tr', 'ddc')
    """
    if uk is was_uk:
        return name
    plain = stitch_named(name, was_uk) if name.lower().startswith(("fp", "bp")) else None
    if plain is not None and parts_of(plain.name)[0]:
        # a raised stitch that the pattern only explains is the trade's
        return written(plain.name, uk)
    if name.isalnum():
        return name
    return _changed(name, scan(name), Span(0, len(name)), was_uk, uk, Context())


def _changed(text: str, tokens: list[Token], span: Span, was_uk: bool, uk: bool, context: Context) -> str:
    pieces: list[str] = []
    at = span.start
    cursor = Cursor(tokens, Context(uk=was_uk, specials=context.specials))
    while cursor.kind() is not T.END:
        token = cursor.token()
        found = _named(cursor, text, was_uk, uk) if token.kind is T.WORD and uk is not was_uk else None
        if found is not None:
            words, taken = found
            end = cursor.token(taken - 1).end
            pieces += [text[at : token.start], words]
            at, cursor.i = end, cursor.i + taken
            continue
        if token.text == "times" and token.start == token.end:
            # "twice (twice, 3 times)" is "2 times" in the size at hand
            pieces.append(" times")
        if token.kind is T.NUMBER and not text[token.start : token.end].isdigit():
            # the figure of one size, where a list of them stood
            pieces += [text[at : token.start], token.text]
            at = token.end
        cursor.i += 1
    out = "".join((*pieces, text[at : span.end]))
    if uk is not was_uk:
        for pattern, instead in _SWAPS if uk else _SWAPS_BACK:
            out = pattern.sub(lambda hit, instead=instead: _cased(hit.group(), instead), out)  # type: ignore[misc]
        out = _TERMS.sub(lambda hit: _termed(hit, uk), out)
    return out


def _named(cursor: Cursor, text: str, was_uk: bool, uk: bool) -> tuple[str, int] | None:
    """A stitch in the other terms and how many tokens its name takes, None where the terms agree on it."""
    stitch = stitch_here(cursor)
    if stitch is None or stitch.name in ("inc", "dec"):
        return None
    if stitch.special is not None:
        last = cursor.token(stitch.tokens - 1)
        own = text[cursor.token().start : last.end]
        return name_of_special(own, was_uk, uk), stitch.tokens
    name, tail = (stitch.name[4:], " inc") if stitch.name.startswith("inc:") else (stitch.name, "")
    before = text[cursor.token().start : cursor.token(stitch.tokens - 1).end]
    if not _LADDER.search(before) or name != "slst" and written(name, True) == written(name, False):
        return None
    if name == "slst":
        return (
            None
            if before.lower() not in ("ss", "sl st")
            else (_cased(before, "ss" if uk else "sl st"), stitch.tokens)
        )
    post, base, together = parts_of(name)
    if _SPELLED.search(before) and not tail and not stitch.loop:
        words = said(post + base, uk) + (f" {together} together" if together > 1 else "")
    else:
        words = written(name, uk) + tail + {"back": "-blo", "front": "-flo"}.get(stitch.loop, "")
    if before.endswith("s") and not words.endswith("s"):
        words += "s"
    return _cased(before, words), stitch.tokens


def _cased(before: str, words: str) -> str:
    """Words with the capitals of those they stand for."""
    if before[:2] in ("FP", "BP") and words[:2] in ("fp", "bp") and before[2:].islower():
        return words[:2].upper() + words[2:]
    if before.isupper() and len(before) > 2:
        return words.upper()
    if " " in before and before.istitle():
        return words.title()
    return words[:1].upper() + words[1:] if before[:1].isupper() else words


def _termed(hit: re.Match[str], uk: bool) -> str:
    short = "UK" if uk else "US"
    return f"{short}{hit['b']}" if hit["a"] else f"{hit['c']}{short}"
