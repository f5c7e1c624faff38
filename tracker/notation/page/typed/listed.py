"""What is told in a sentence or as an entry of a list, set out as most write it: abbreviations, foundations, markers.

A text comes in: "blk., block (3 tr. on 3 sts.); sp., space (2 ch., miss 2, 1 tr.)". Each of them comes out with a line
of its own: "blk (block) = 3 tr. on 3 sts.".
"""

import re

from tracker.expressions import expression

_LEAD = r"(?P<lead>[;:]|\.?[—–]|(?<=\w)\.(?=\s))\s*"
_BODY = r"\s*[(\[](?P<body>[^()\[\]]{4,200})[)\]](?=\s*(?:[;.]|$))"
_ENTRY = expression(
    rf"{_LEAD}(?P<short>[A-Za-z]{{1,6}})\.?,\s+(?:an?\s+)?(?P<name>[a-z][a-z -]{{2,24}}?){_BODY}", holds=","
)
"""An abbreviation, the word it stands for, and how that is worked."""
_WORD = expression(rf"{_LEAD}(?P<name>[A-Za-z]{{3,12}}){_BODY}")
"""A word that is not abbreviated, among such entries."""
_LIST = expression(r"^[^\n]*\babbreviations?\b[^\n]*(?:\n[^\n]+)*", re.IGNORECASE | re.MULTILINE, ["abbrev"])

_MARKED = expression(
    r"(?<=[.;)\]] )Mark (?=(?:the )?\d+(?:st|nd|rd|th)(?:(?:,| and|, and| &) (?:the )?\d+(?:st|nd|rd|th))+"
    r" (?:sts|stitches|sc|hdc|dc|tr)\b)",
    holds=["mark "],
)
""" "… (60 hdc) Mark the 10th, 21st and 40th sts.": markers placed."""
_DASHED = expression(r"^[ ]*–[ ]+(?=[A-Z])", re.MULTILINE, ["– "])
"""Dashes that mark the lines of a list."""
_CHAINED = expression(
    r"^(?P<blank>[ ]*)(?:(?:base|foundation|starting|beginning|initial)[ ])?ch(?:ain)?s?(?:[ ]count)?[ ]*[:=–—-][ ]*"
    r"(?P<many>\d+(?:[ ]?[(\[][\d ,;:/–-]{1,40}[)\]])*(?:[ ]?/[ ]?\d+)*)(?:[ ]?(?:chs?|chains?|sts|stitches))?\.?[ ]*$",
    re.IGNORECASE | re.MULTILINE,
    ["ch"],
)
""" "Base ch: 48": a foundation told as an entry of a list."""

_SAMPLE = (
    r"(?:(?:the\s+|my\s+|this\s+)?(?:sample|example|swatch|size\s+shown|one\s+shown)|here|shown|pictured)"
)
_MULTIPLE = expression(
    r"^(?P<blank>[ ]*)(?:make\s+a\s+)?ch(?:ain)?s?\s+(?:that\s+is\s+|in\s+)?(?:a\s+|any\s+)?"
    r"(?P<rule>multiples?\s+of\s+\d+(?:,?\s*(?:\+|plus|then\s+add|and\s+add)\s*\d+)?)[^\n\d]{0,24}?"
    rf"(?:(?P<many>\d{{2,3}})(?:\s*(?:chs?|chains?|sts))?\s+(?:for\s+|in\s+)?{_SAMPLE}\b"
    rf"|{_SAMPLE}\b[^\d\n]{{0,20}}(?P<behind>\d{{2,3}})(?:\s*(?:chs?|chains?|sts))?)[).]*[ ]*$",
    re.IGNORECASE | re.MULTILINE,
    ["multiple"],
)
""" "Ch a multiple of 3 + 2 (sample: ch 29)": a foundation told by its rule, and how long the one shown is."""


def set_out(text: str) -> str:
    """The text with such entries on lines of their own.

    >>> set_out("Abbreviations.—Tr., treble; bl., block (3 tr.); sp., space (2 ch., miss 2 sts., 1 tr.).")
    'Abbreviations.—Tr., treble;\\nbl (block) = 3 tr.;\\nsp (space) = 2 ch., miss 2 sts., 1 tr..'
    """
    if len(_DASHED.findall(text)) > 2:
        text = _DASHED.sub(lambda hit: " " * len(hit.group()), text)
    text = _CHAINED.sub(r"\g<blank>Ch \g<many>.", _MARKED.sub("Place markers in ", text))
    text = _MULTIPLE.sub(
        lambda hit: f"{hit['blank']}Ch {hit['many'] or hit['behind']} ({hit['rule'].lower()}).", text
    )
    stopped: set[str] = set()
    out = _LIST.sub(lambda hit: _entries(hit, stopped), text)
    if stopped:
        # "10 sps., 1 blk. Turn": a stop that only marks the abbreviation
        names = "|".join(map(re.escape, sorted(stopped)))
        out = re.sub(rf"\b((?:{names})s?)\.(?=\s*[a-z0-9,;)])", r"\1 ", out)
    return out


def _entries(hit: re.Match[str], stopped: set[str]) -> str:
    """A list with each entry on a line of its own; `stopped` takes the abbreviations that have a stop."""
    words = hit.group()
    found = list(_ENTRY.finditer(words))
    if len(found) < 2:
        return words
    stopped |= {one["short"].lower() for one in found if words[one.end("short")] == "."}
    words = _ENTRY.sub(
        lambda one: f"{one['lead']}\n{one['short']} ({one['name']}) = {one['body'].strip()}", words
    )
    return _WORD.sub(lambda one: f"{one['lead']}\n{one['name']} = {one['body'].strip()}", words)
