"""US or UK: told from the pattern's own words.

Takes any text; gives the terms, how sure the telling is, and the words that speak against them.
Clues as the trade uses them (common practice, no source): "sc", "single crochet" and "gauge" are US; "htr", "miss",
"tension" and "yrh" are UK; number-first style leans UK; "dc" and "tr" alone prove nothing, and then the turning
chain before them tells.
"""

import re

from tracker.expressions import expression
from tracker.records import dataclass

_STATED = expression(
    r"\b(?:(?P<uk>u\.?k\.?|british|english)|(?P<us>u\.?s\.?a?\.?|american))\)?\s*(?:crochet\s+)?"
    r"(?:terms?|terminology|abbreviations|stitch(?:es)? names|notation|pattern|stitches)\b"
    r"|\b(?:terms?|terminology|abbreviations)(?:\s+(?:used|are|in|is|throughout))*\s*[:=]?\s*(?:in\s+)?(?:standard\s+)?"
    r"(?:(?P<uk2>u\.?k\b\.?|british)|(?P<us2>u\.?s\b\.?|american))",
    re.IGNORECASE,
    ["term", "abbreviations", "stitch", "notation", "pattern"],
)
_TITLED = expression(r"\s*[^\n]{0,80}\((?P<terms>uk|us)\)", re.IGNORECASE, ["(uk)", "(us)"])
"""A title that says it: "Tea Cosy (UK)"."""
_SINGLE = r"(?:e?sc|e?hdc)(?:\d*tog)?s?"
_US_ONLY = expression(
    # the first letters stand first because that is fast: the rest is tried only where one of them is
    r"(?:s(?<![a-z]s)(?:c(?:\d*tog)?s?|ingle crochet)|h(?<![a-z]h)(?:dc(?:\d*tog)?s?|alf double crochet)"
    rf"|e(?<![a-z]e)(?:sc|hdc)(?:\d*tog)?s?|f(?<![a-z]f)p{_SINGLE}|b(?<![a-z]b)p{_SINGLE}"
    rf"|r(?<![a-z]r)ev\s?{_SINGLE}|i(?<![a-z]i)nv\s?{_SINGLE})\b"
)
"""In a text of small letters."""
_UK_ONLY = expression(
    r"(?<!(?-i:[A-Za-z]))(?:(?:e?htr)(?:\d+tog)?s?|half treble|yrh|tension)\b"
    r"|\bmiss(?=\s+(?:\d|next|first|one|two|a\b|the\b))",
    re.IGNORECASE,
    ["htr", "half treble", "yrh", "tension", "miss"],
)
_UK_LEAN = expression(
    r"\b\d+\s?(?:ch|tr|dc|dtr)\s+(?:into|in\b)|\b\d-ch sp|\bss\s+(?:into|to|in)\b|\bcolour\b"
    r"|(?<!\bnext )(?<!\bfirst )(?<!\blast )\b\d+\s+ch\b",
    re.IGNORECASE,
)
_US_LEAN = expression(r"\bsk(?:ip)?\b|\bgauge\b|\bch-\d|\bch \d|\bcolor\b|\byo\b|\bsl st\b", re.IGNORECASE)
_CHAIN_FIRST = expression(
    r"(?:\b(?:rows?|rnds?|rounds?|r)\s*\d[^:\n]{0,24}[:.]|(?m:^)\s{0,4}\d{1,3}[:.)]|\b\d+(?:st|nd|rd|th)\s+(?:row|rnd|round)\s*[:.]|\bturn\b[,;.]?)\s*"
    r"(?:ch\s?(?P<a>\d)|(?P<b>\d)\s?ch)\b(?:\s*\([^)]*\))?(?:(?!\bsl\b|\bss\b)[^.:;*]){0,40}?\b(?:\d+\s+)?(?P<st>dc|tr)\b",
    re.IGNORECASE,
)
_CHAIN_COUNTS = expression(
    r"\b(?:ch[ -]?(?P<a>[34])|(?P<b>[34])[ -]?ch)\s*\(?(?:counts?\s+as|=|equals)\s+"
    r"(?:the\s+)?(?:first\s+|1\s+)?(?P<st>dc|tr)\b(?P<space>\s*(?:,|and|\+|plus)\s*(?:1[ -]?ch\b|ch[ -]?1\b))?",
    re.IGNORECASE,
)
"""A turning chain with the stitch it stands for: "ch 3 (counts as dc)"."""
_FROM_HOOK = expression(
    r"\b(?P<st>dc|tr)\s+in(?:to)?\s+(?:the\s+)?(?P<nth>2nd|second|4th|fourth|5th|fifth)\s+(?:ch|chain|st)\b",
    re.IGNORECASE,
)
"""The chain that a first row begins in, which tells how tall the stitch is: "dc in 4th ch from hook"."""
_TALL = {
    ("dc", "2nd"): 4, ("dc", "second"): 4, ("dc", "4th"): -4,
    ("dc", "fourth"): -4, ("tr", "4th"): 4, ("tr", "fourth"): 4, ("tr", "5th"): -4, ("tr", "fifth"): -4,
}  # fmt: skip
"""What that speaks for: above 0 for UK terms. Chains skipped by height are common practice (Craft Yarn Council, "Chains
for turning": sc 1, hdc 2, dc 3, tr 4)."""


@dataclass(frozen=True, slots=True)
class Terms:
    """Which names a pattern uses."""

    uk: bool
    stated: bool
    """True when the pattern itself says so."""
    against: tuple[tuple[int, int, str], ...]
    """Offsets and words that belong to the other terms."""


_OTHERS = expression(
    r"(?:\(|\bis |\bin |=\s?|[/,]\s?|\b)(?:u\.?[sk]\.?|american|british|english)\s+(?:terms?\s+)?$",
    re.IGNORECASE,
)
"""What stands before a name that is only told of as the other terms': "dc = double crochet (US sc)"."""


_EITHER = expression(r"u(?<![a-z]u)\.?[sk]\b|american|british|english")
"""The name of either terms in a text of small letters; the first letters stand first because that is fast."""


def _found(pattern: re.Pattern[str], text: str) -> tuple[tuple[int, int, str], ...]:
    """Names with where they stand, but for those said to be the other terms'."""
    small = text.lower()
    if len(small) != len(text):
        small = "".join(letter.lower() if letter.isascii() else letter for letter in text)
    places = [hit.span() for hit in pattern.finditer(small)]
    if _EITHER.search(small) is not None:
        places = [(a, b) for a, b in places if _OTHERS.search(text, max(0, a - 20), a) is None]
    # in most texts neither is named, and the names need not be looked at one by one
    return tuple([(a, b, text[a:b]) for a, b in places])


def terms_of(text: str) -> Terms:
    """The terms of a pattern.

    >>> terms_of("UK terms. 1 dc into each tr").uk, terms_of("Ch 3, dc in each st").uk
    (True, False)
    """
    text = text[:200_000]
    stated: bool | None = None
    for hit in _STATED.finditer(text):
        stated = bool(hit["uk"] or hit["uk2"])
        if re.search(
            r"\b(?:not|from|convert\w*|unlike|see)\s+(?:the\s+)?$", text[: hit.start()][-16:], re.IGNORECASE
        ):
            stated = None
            continue
        break
    titled = _TITLED.match(text)
    if stated is None and titled is not None:
        stated = titled["terms"].lower() == "uk"
    us_words = _found(_US_ONLY, text)
    uk_words = _found(_UK_ONLY, text)
    uk_stitches = tuple(w for w in uk_words if w[2].lower() not in ("tension", "miss"))
    if stated is not None:
        return Terms(stated, True, us_words if stated else uk_stitches)
    if us_words and uk_stitches:
        few, uk = (us_words, True) if len(us_words) < len(uk_stitches) else (uk_stitches, False)
        return Terms(uk, False, few)
    if 0 < len(us_words) <= _SLIPS:
        # every other sign is a UK one, the height of the turning chains too
        chains = _heights(text)
        if sum(chains) >= _SURE and min(chains) > 0 and _leaning(text) >= _SLIPS:
            return Terms(True, False, us_words)
    if 0 < len(uk_stitches) <= _SLIPS:
        chains = _heights(text)
        if sum(chains) <= -_SURE and max(chains) < 0 and _leaning(text) <= -_SLIPS:
            return Terms(False, False, uk_stitches)
    if us_words or uk_words:
        return Terms(not us_words, False, ())
    return Terms(sum(_heights(text)) + _leaning(text) > 0, False, ())


_SLIPS = 2
"""US names in a UK pattern that are slips of the pen; more of them tell that its terms are US."""
_SURE = 6
"""What the chains must speak for the UK then."""


def _heights(text: str) -> list[int]:
    """What each turning chain and each beginning in a foundation speaks for: above 0 for UK terms."""
    told: list[int] = []
    for hit in (*_CHAIN_FIRST.finditer(text), *_CHAIN_COUNTS.finditer(text)):
        chains, name = int(hit["a"] or hit["b"]), hit["st"].lower()
        # "4 ch (count as 1 tr, 1 ch)": three of them are the stitch
        chains -= hit.groupdict().get("space") is not None
        told.append({("dc", 1): 2, ("dc", 3): -2, ("tr", 3): 2, ("tr", 4): -2}.get((name, chains), 0))
    told += [_TALL.get((hit["st"].lower(), hit["nth"].lower()), 0) for hit in _FROM_HOOK.finditer(text)]
    return [speaks for speaks in told if speaks]


def _leaning(text: str) -> int:
    """What the wording speaks for: above 0 for UK terms."""
    return min(4, len(_UK_LEAN.findall(text))) - min(4, len(_US_LEAN.findall(text)))
