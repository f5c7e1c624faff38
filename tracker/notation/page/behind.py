"""Where rows that work others again, or go on even, are told behind others in the same line.

A line comes in, with where the rows in it begin so far; where all its rows begin comes out.
"""

import re
from collections.abc import Sequence

from tracker.expressions import expression
from tracker.notation.page.block import Line
from tracker.notation.page.labelled.labels import Label, label_at
from tracker.notation.page.signs import RERUN
from tracker.trade.spellings import stitch_named

_AGAIN_WITHIN = expression(
    r"(?<=[.;)\]}])\s+(?=(?:[Rr]ep(?:eat)?\s+(?:[Rr](?:ows?|nds?|ounds?)\s+\d[\d\s,&-]{0,12}(?:and\s+\d+\s+)?"
    r"|(?:the\s+)?\d+(?:st|nd|rd|th)\s+(?:(?:and|to|&|-)\s+\d+(?:st|nd|rd|th)\s+)?(?:rows?|rnds?|rounds?)\s+"
    r"|(?:the\s+)?(?:last|these)\s+(?:\w+\s+)?(?:rows?|rnds?|rounds?)\s+)"
    r"|(?:[Rr]ep(?:eat)?|[Ww]ork|[Dd]o)\s+this\s+(?:row|rnd|round)\s+)(?:until|till|for|\d+\s+(?:more\s+)?times|\w+\s+(?:more\s+)?times"
    r"|once\s+more|twice))"
)
_EVEN = (
    r"(?:(?:\d{1,3}|one|two|three|four|five|six|seven|eight|nine|ten)\s+(?:more\s+|further\s+)?(?:rows?|rnds?|rounds?)"
    r"\s*(?:(?:even|straight|plain|more|in\s+(?:sc|hdc|dc|htr|tr|patt(?:ern)?|plain)|without\s+shaping|on\s+these)\b|[.;,(]|$)"
    r"|(?:even|straight|without\s+shaping|in\s+(?:est(?:ablished)?\s+)?patt(?:ern)?)\s+(?:for|until)\b)"
)
_EVEN_BEHIND = expression(
    r"(?:(?<=[.;,)\]])\s+|\s+(?=then\b))(?=(?:(?:and|then|now)\s+){0,2}(?:work|continue|cont)\s+(?:(?:a\s+further|another)\s+)?"
    rf"{_EVEN}|(?:and\s+)?then\s+(?:a\s+further\s+|another\s+)?(?:\d{{1,3}}|one|two|three|four|five|six)\s+(?:more\s+)?"
    r"(?:rows?|rnds?|rounds?)\s+(?:even|straight|plain|without\s+shaping)\b)",
    re.IGNORECASE,
    ["row", "rnd", "round", "even", "straight", "shaping", "patt"],
)
""" "…, sc2tog. (10 sts) Work 4 rows even.": rows that go on, told behind others in the same line."""
WORKS = expression(
    r"\b(?:\d+\s*(?:sc|dc|hdc|tr|htr|single|double|half|treble)"
    r"|(?:sc|dc|hdc|tr|htr|crochet|treble)\s+(?:in|into|on|over|through|around|across|to|each|next|tbl|blo|flo|\d+)|inc|dec)\b",
    re.IGNORECASE,
)
"""Stitches worked, as a row tells them."""


def with_rows_behind(line: str, starts: Sequence[int]) -> list[int]:
    """The starts with those of rows told behind others: "Row 2: …. Repeat Row 2 until there are 28 rows."."""
    found = list(starts)
    if ("ep" in line or "this r" in line) and (". " in line or "; " in line or ") " in line or "} " in line):
        found += [
            hit.end()
            for hit in _AGAIN_WITHIN.finditer(line)
            if WORKS.search(line, max((s for s in starts if s < hit.start()), default=0), hit.start())
        ]
    may = ("ork" in line or "ont" in line or "then " in line) and len(line) > 20
    if may and ((label := label_at(line)) or RERUN.match(line)):
        first = label.end if label is not None else 0
        found += [
            hit.end() for hit in _EVEN_BEHIND.finditer(line, first) if line[first : hit.start()].strip()
        ]
    return sorted({*found}) if len(found) > len(starts) else found


_GOES_ON = expression(r"(?:[,;*(]|\b(?:then|and|or|to|of|in|for|you|not|from))\s*$", re.IGNORECASE)
"""How a line ends that is not over: what follows belongs to it, though it looks like a row."""


def inside(text: str, end: int, line: Line) -> bool:
    """True where a line that looks like rows worked again is more of the block that ends at `end`."""
    begins = line.told[:1].isupper() or line.told.startswith("rep")
    if begins and not _GOES_ON.search(text, max(0, end - 40), end):
        return False
    return not begins_behind(text, line.start)


def begins_behind(text: str, start: int) -> bool:
    """True where rows that go on even begin behind a comma, in the midst of a line: "…, then work 4 rows even"."""
    before = text[:start].rstrip(" \t") if start and text[start - 1] in " \t" else ""
    hit = _EVEN_BEHIND.match(text, len(before)) if before[-1:] not in ("", "\n") else None
    return hit is not None and hit.end() == start


_LIKE_A_PART = expression(
    r"\s*(?:(?:work|make|crochet|begin|follow|rep(?:eat)?)\b[^.:;\n]{0,24}?\b(?:as|like|of|for)|(?:same\s+)?as|like|rep(?:eat)?)"
    r"\s+(?:(?:given|told|set|described|written|instructed)\s+)?(?:for\s+)?(?:the\s+)?",
    re.IGNORECASE,
)


def like_part(line: str, parts: list[tuple[str, int]]) -> bool:
    """True for a line that works a part as another one: "Work as for left mitten through Rnd 12"."""
    hit = _LIKE_A_PART.match(line)
    rest = line[hit.end() :].lower() if hit else ""
    names = [name.split("(")[0].strip().lower() for name, _ in parts[:-1] if name]
    # "as the first one": the part that goes by "First leg"
    first = rest.startswith("first one") and any(name.startswith("first ") for name in names)
    return first or any(map(rest.startswith, names))


_NAMED_AGAIN = expression(
    r"[\s*~=>#_]{0,12}(?P<name>(?-i:[A-Z][A-Za-z0-9' -]{2,24}?))\s*(?P<make>\([^)\n]{1,20}\))?\s*(?::|\s[–—-]\s)\s*"
    r"(?P<rest>(?:work|make|crochet|follow|same|as|like|rep(?:eat)?)\b.*)",
    re.IGNORECASE | re.DOTALL,
)
_OTHER_PIECE = ("second", "third", "2nd", "3rd", "other", "left", "right", "back", "front")


def piece_again(line: str, parts: list[tuple[str, int]]) -> re.Match[str] | None:
    """The name of a piece that is worked as another, where one line tells both: "Second leg: work as first leg"."""
    hit = _NAMED_AGAIN.match(line)
    if hit is None or hit["name"].lower().split()[0] not in _OTHER_PIECE or len(hit["name"].split()) > 3:
        return None
    again = like_part(hit["rest"], [*parts, (hit["name"], 1)]) or RERUN.match(hit["rest"])
    return hit if again else None


_STRIPED = expression(
    r"\s*(?:(?:(?:\d{1,2}|one|two|three|four)\s+(?:rounds?|rnds?|rows?)\s+(?:in\s+|of\s+|with\s+)?[a-z]{1,12}"
    r"[,;.]?\s*(?:(?:and|then)\s+)?){2,12}|"
    r"alternat\w+\s[a-z ]{3,40},?\s(?:\d{1,2}|one|two|three|four)\s(?:rounds?|rnds?|rows?)\s(?:of\s)?each\.?\s*)$",
    re.IGNORECASE,
)
_WORD = expression(r"[a-z]+", re.IGNORECASE)


def only_stripes(label: Label, rest: str) -> bool:
    """True for "Next 6 rounds: 2 rounds purple, 4 rounds green": the colours of rows to come, and no row."""
    if not label.many or label.numbers or _STRIPED.match(rest) is None:
        return False
    words = [word.lower() for word in _WORD.findall(rest)]
    return not any(stitch_named(word) is not None or word in ("pattern", "patt", "row") for word in words)


def reruns(line: str, parts: list[tuple[str, int]]) -> bool:
    """True for a line that works rows, or a part, again."""
    if not RERUN.match(line):
        return like_part(line, parts)
    label = label_at(line)
    return label is None or not only_stripes(label, line[label.end :])
