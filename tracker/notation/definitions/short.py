"""Words of a definition as most abbreviate them: "chain three, 3dc" as "ch 3, 3 dc".

A text comes in and comes out in small letters; it is for looking at, since places in it are not those of the pattern.
"""

import re

from tracker.expressions import expression
from tracker.trade.numbers import NUMBER_WORDS

_NAMES = {
    "half double crochet": "hdc", "single crochet": "sc", "double crochet": "dc", "half treble crochet": "htr",
    "half treble": "htr", "treble crochet": "tr", "treble": "tr", "slip stitch": "sl st", "chain stitch": "ch",
    "chain st": "ch", "chain": "ch", "d.c.": "dc", "s.c.": "sc", "ch.": "ch", "stitch": "st", "stitche": "st",
}  # fmt: skip
_NUMBER = "one|two|three|four|five|six"
_NOUN = r"(?:[sdt]c|[hd]?tr|hdc|chain|ch|st|single|double|half|treble)\w*\b"
_NAME = "|".join(re.escape(name) for name in _NAMES)
_GLUED = expression(r"(?<=\d)(?=(?:[sdt]c|[hd]?tr|hdc|ch)\b)")
_CHAINED = expression(r"(?<=\bch)-(?=\d[,;.)]|\d$)")
_VERB = expression(r"\b(?:work|make|place|put)\s+(?=\d|a\s|dc\b|tr\b|ch\b)")
_MANY = expression(r"(?<=\d\s(?:sc|dc|tr))s\b|(?<=\d\s(?:hdc|htr|dtr))s\b")
_ON = expression(r"\b(?:over|on|across)\s+(?=(?:the\s+)?(?:next|each|following|foll|last|first)\b)")
_WORDS = expression(
    rf"\b(?P<number>{_NUMBER})(?=[ ]{_NOUN})|(?<=ch[ ])(?P<behind>{_NUMBER})\b|(?<=chain[ ])(?P<after>{_NUMBER})\b"
    rf"|\b(?P<name>{_NAME})(?P<many>s?)(?![\w])(?P<of>[ ]of[ ](?=\d|{_NUMBER}))?"
)


def in_short(words: str) -> str:
    """The words with the names of stitches and the numbers beside them abbreviated.

    >>> in_short("Chain three, 3 double crochets in next space"), in_short("chain of 2, skip two stitches")
    ('ch 3, 3 dc in next space', 'ch 2, skip 2 sts')
    """
    low = _ON.sub("in ", _GLUED.sub(" ", words.lower()))
    low = (
        low.replace("following ", "next ")
        .replace("foll ", "next ")
        .replace("your hook", "hook")
        .replace("chs", "ch")
    )
    low = _MANY.sub("", low)
    low = _VERB.sub("", _CHAINED.sub(" ", low))
    for _ in range(2):
        low = _WORDS.sub(_short, low)
    return low


def _short(hit: re.Match[str]) -> str:
    number = hit["number"] or hit["behind"] or hit["after"]
    if number:
        return str(NUMBER_WORDS[number])
    name = _NAMES[hit["name"]]
    return name + (hit["many"] if name == "st" else "") + (" " if hit["of"] else "")
