"""A text into tokens with spans.

Takes cleaned text; every character that is not a blank belongs to one token, so nothing is lost, and nothing
raises. One regular expression does it; the worked examples stand beside its lines.
"""

import re
from enum import IntEnum

from tracker.expressions import expression
from tracker.records import dataclass
from tracker.trade.numbers import number_of


class T(IntEnum):
    """Kinds of token."""

    NUMBER = 1
    ORDINAL = 2
    WORD = 3
    STAR = 4
    OPEN = 5
    CLOSE = 6
    COMMA = 7
    SEMICOLON = 8
    PERIOD = 9
    COLON = 10
    DASH = 11
    HYPHEN = 12
    TIMES = 13
    EQUALS = 14
    OTHER = 15
    END = 16


@dataclass(slots=True)
class Token:
    """One token. Not frozen, because a pattern has thousands of them and freezing triples the cost."""

    kind: T
    text: str
    """Lower case."""
    start: int
    end: int
    value: int = 0
    """Of numbers and ordinals."""
    fresh: bool = False
    """True for the first token of a line."""


_TOKEN = expression(
    r"""
    (?P<ordinal>\d+(?:st|nd|rd|th)\b)              # 4th
  | (?P<number>\d+)
  | (?P<spelled>\b(?:twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety)
      -(?:one|two|three|four|five|six|seven|eight|nine)\b)
  | (?P<word>(?:(?-i:[A-Za-z])\.){2,}(?!\w)         # s.c.
      |d?tr/r[fb]\b                               # tr/rf
      |(?:d|h|q|tr)\.tr\b                          # d.tr.
      |(?-i:[A-Za-z]+)\d+(?:tog|together|inc|dec)s?\b  # dc2tog
      |(?-i:[A-Za-z]+(?:'[A-Za-z]+)?))              # don't
  | (?P<star>\*+|(?:[§¶]|(?-i:[†‡])|(?-i:[☆★]))+|\#|\^)
  | (?P<open>[(\[{])
  | (?P<close>[)\]}])
  | (?P<comma>,)
  | (?P<semicolon>;)
  | (?P<period>[.!])
  | (?P<colon>:)
  | (?P<dash>[—–|]|(?<=\s)-+(?=\s)|--+)            # " - 24 sts", an en dash, "| 24 sts"
  | (?P<hyphen>-)
  | (?P<times>×)
  | (?P<equals>=)
  | (?P<other>\S)
    """,
    re.VERBOSE | re.IGNORECASE,
)

_KINDS = {
    "ordinal": T.ORDINAL, "number": T.NUMBER, "spelled": T.NUMBER, "word": T.WORD, "star": T.STAR,
    "open": T.OPEN, "close": T.CLOSE,
    "comma": T.COMMA, "semicolon": T.SEMICOLON, "period": T.PERIOD, "colon": T.COLON, "dash": T.DASH,
    "hyphen": T.HYPHEN, "times": T.TIMES, "equals": T.EQUALS, "other": T.OTHER,
}  # fmt: skip

_SPELLINGS = {
    "nxt": "next",
    "ea": "each",
    "foll": "following",
    "follg": "following",
    "wrk": "work",
    "thru": "through",
    "rpt": "rep",
    "sps": "sps",
    "stich": "stitch",
    "tfl": "flo",
}
"""Hasty spellings of common words."""

_HUGE = 10**12
"""No count in a pattern is larger; a longer number is read as this."""


def scan(text: str, start: int = 0, end: int | None = None) -> list[Token]:
    """Tokens of a stretch of text, the last one END."""
    end = len(text) if end is None else end
    tokens: list[Token] = []
    add = tokens.append
    line = text.find("\n", start)
    for hit in _TOKEN.finditer(text, start, end):
        at = hit.start()
        fresh = False
        while 0 <= line < at:
            fresh = True
            line = text.find("\n", at if line < at - 200 else line + 1)
        kind = _KINDS[hit.lastgroup or "other"]
        words = hit.group().lower()
        if kind is T.NUMBER or kind is T.ORDINAL:
            if hit.lastgroup == "spelled":
                # "thirty-one"
                words = str(number_of(words) or 0)
            digits = words if kind is T.NUMBER else words[:-2]
            value = int(digits) if len(digits) < 13 and digits.isascii() else _HUGE
            add(Token(kind, words, at, hit.end(), value, fresh))
        else:
            if kind is T.WORD:
                if "." in words or "/" in words:
                    words = words.replace(".", "").replace("/", "")
                words = _SPELLINGS.get(words, words)
                if words[-8:] == "together" and len(words) > 8 and words != "altogether":
                    words = words[:-5]  # "dc2together"
            elif words == "&":
                kind, words = T.WORD, "and"
            add(Token(kind, words, at, hit.end(), 0, fresh))
    add(Token(T.END, "", end, end))
    return tokens
