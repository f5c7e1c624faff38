"""Stitches that a row defines where it first works them: "shell of (3 dc, ch 2, 3 dc)", "5 dc in next st (fan made)".

The text comes in; for each name that nothing else defines, its Special comes out.
"""

import re

from tracker.expressions import expression
from tracker.notation.definitions.specials import special_of
from tracker.notation.pattern import Special
from tracker.notation.phrase.cursor import Context, key_of
from tracker.notation.scan import scan
from tracker.problems import Source, Span

_NAME = r"(?:(?:half|small|large|big|little|corner|edge|beg(?:inning)?)[ -])?(?:shell|fan|scallop|petal|V-?st(?:itch)?)"
_OF = expression(
    rf"\b(?P<name>{_NAME})\s+of\s+(?P<body>\([^()]{{3,80}}\))",
    re.IGNORECASE,
    ["l of", "n of", "p of", "t of", "h of"],
)
_MADE = expression(
    rf"(?P<body>\([^()]{{3,80}}\)|\b\d+\s?(?:sc|hdc|dc|htr|tr))\s+(?:all\s+)?in(?:to)?\s+[^.,;:()*\d]{{2,40}}?\s*"
    rf"[(\[–—-]\s*(?:1st\s+|first\s+|one\s+|a\s+)?(?P<name>{_NAME})\s+(?:made|formed|completed|worked)\b",
    re.IGNORECASE,
    ["made", "formed", "completed", "worked"],
)


_CALLED = expression(
    r"(?P<body>\b(?:\d\s?)?(?:sc|hdc|dc|htr|tr)(?:(?:,\s?(?:and\s)?|\sand\s)(?:ch\s?\d|(?:\d\s?)?(?:sc|hdc|dc|htr|tr))){1,6})"
    rf"\s+[(\[](?:(?:a|one|forms|this is a)\s)?(?P<name>V|{_NAME})[)\]]",
    re.IGNORECASE,
    ["[v]", "(v)", "shell]", "shell)", "fan]", "fan)", "v-st"],
)
""" "In 5th ch: dc, ch 1, dc [V]", "2 dc, ch 2 and 2 dc (shell)": what is worked, and then its name."""

_NAMED_BEHIND = expression(
    rf"(?P<body>\([^()]{{3,80}}\))\s+(?:all\s+)?in(?:to)?\s+(?!same)[^.,;:()*]{{2,40}}?\s[(\[](?:(?:a|one)\s)?(?P<name>{_NAME})[)\]]",
    re.IGNORECASE,
    ["shell]", "shell)", "fan]", "fan)", "v-st", "petal)", "petal]", "scallop)", "scallop]"],
)
""" "(2 dc, ch 2, 2 dc) in next sp (shell)"."""


_BEGUN = expression(
    r"\b(?:ch(?:ain)?\s?\d|\d\s?ch)\b(?:\s*\([^()\n]{0,24}\))?,\s*(?:turn,\s*)?$", re.IGNORECASE
)
"""The chain that is the first stitch of it: "ch 3, 4 dc in same st (first shell made)" tells of one less."""


def defined_in_rows(source: Source, context: Context) -> list[Special]:
    """The stitches that rows name and define in the same breath; those defined already are left."""
    out: list[Special] = []
    seen = set(context.specials)
    for told in (_OF, _MADE, _CALLED, _NAMED_BEHIND):
        for hit in told.finditer(source.text):
            name = " ".join(hit["name"].lower().split())
            if key_of(name) in seen or _BEGUN.search(source.text, max(0, hit.start() - 40), hit.start()):
                continue
            span = Span(hit.start("body"), hit.end("body"))
            tokens = scan(source.text, span.start, span.end)
            special = special_of(f"{name}: ", name, name, hit["body"], tokens, context, span, hit["body"])
            if special is not None:
                seen.add(key_of(name))
                out.append(special)
    return out
