"""Stitches that a row defines where it first works them: "shell of (3 dc, ch 2, 3 dc)", "5 dc in next st (fan made)".

The text comes in; for each name that nothing else defines, its Special comes out.
"""

import re

from tracker.expressions import expression
from tracker.notation.definitions.specials import special_of
from tracker.notation.pattern import Special
from tracker.notation.phrase.cursor import Context, key_of
from tracker.notation.scan import T, scan
from tracker.problems import Source, Span
from tracker.records import replace

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


_CALLS = (
    r"(?:(?:granny|small|large|big|little|corner|edge|double|triple)[ -])?"
    r"(?:shell|fan|scallop|petal|V-?st(?:itch)?|cluster|group|bunch|tuft|crown|trefoil|clover|spray|block|puff"
    r"|popcorn|bobble)"
)
_SHORT = r"(?:\s?\((?:abbr\w*\.?\s)?(?P<abbr>[A-Za-z][\w-]{0,6})\))?"
_QUOTE = "[\"“”‘’']?"
_PLAIN = r"(?:sc|hdc|dc|htr|tr|dtr)"
_MADE_OF = rf"(?P<body>(?:\(|(?:\d[ ]?)?{_PLAIN}\b|ch[ ]?\d)(?:[^.;\n=]|\.(?=\w)){{2,120}})"
_LED = (
    r"(?:(?:always|here|simply|just|made\s(?:up\s)?of|worked\s(?:as|with)|formed\s(?:by|of|from)"
    r"|made\s(?:by|from|with)|a\s(?:group|set|cluster)\sof|working)\s+)*"
)
_SENTENCE = expression(
    rf"\b(?:(?P<led>says?|see|read)|an?|the|one|each|every|word|by)\s+{_QUOTE}(?P<name>{_CALLS})s?{_QUOTE}{_SHORT}\s*,?\s*"
    rf"(?:(?(led)(?:you\s)?(?:work|make)|(?!))|is|means|=|equals|stands\sfor|consists\sof|I\smean)\s+{_LED}{_MADE_OF}",
    re.IGNORECASE,
    [" is ", " means ", "=", "equals", "stands", "consists", "mean", " work ", " make "],
)
""" "A fan is 3 dc in one sp.", "The word fan means …", "where it says fan, work …"."""
_QUOTED = expression(
    rf"(?:^|(?<=[.;:]\s)){_QUOTE}(?P<name>{_CALLS})s?{_QUOTE}{_SHORT}\s+"
    rf"(?:is|are|means|stands?\sfor|consists?\sof)\s+{_LED}{_MADE_OF}",
    re.IGNORECASE | re.MULTILINE,
    [" is ", " are ", " means ", "stand", "consist"],
)
""" "“Fan” means 3 dc in one sp.", "Clusters are made of …", at the beginning of a sentence."""
_PLACE = r"(?:\s(?:all\s)?in(?:to)?\s(?:one|same|the\ssame|an?)\s\w+)"
_EQUALS = expression(
    rf"(?P<body>\b\d[ -]?{_PLAIN}s?\b(?:{_PLACE}|\sgroup)?|\([^()\n]{{5,60}}\){_PLACE}?)"
    rf"\s*=\s*(?:an?\s+|one\s+|1\s+)?{_QUOTE}(?P<name>{_CALLS}){_QUOTE}{_SHORT}\s*(?:[.;,)\n]|$)",
    re.IGNORECASE | re.MULTILINE,
    ["="],
)
""" "3-dc group = cluster", "(2 dc, ch 2, 2 dc) in one sp = shell"."""


_BEGUN = expression(
    r"\b(?:ch(?:ain)?\s?\d|\d\s?ch)\b(?:\s*\([^()\n]{0,24}\))?,\s*(?:turn,\s*)?$", re.IGNORECASE
)
"""The chain that is the first stitch of it: "ch 3, 4 dc in same st (first shell made)" tells of one less."""


def defined_in_rows(source: Source, context: Context) -> list[Special]:
    """The stitches that rows name and define in the same breath; those defined already are left."""
    out: list[Special] = []
    seen = set(context.specials)
    for told in (_OF, _MADE, _CALLED, _NAMED_BEHIND, _SENTENCE, _QUOTED, _EQUALS):
        for hit in told.finditer(source.text):
            name = " ".join(hit["name"].lower().split())
            short = (hit.groupdict().get("abbr") or "").lower()
            if key_of(name) in seen or _BEGUN.search(source.text, max(0, hit.start() - 40), hit.start()):
                continue
            span = Span(hit.start("body"), hit.end("body"))
            tokens = scan(source.text, span.start, span.end)
            if told is _EQUALS:
                tokens = [t for t in tokens if t.kind is not T.HYPHEN and t.text != "group"]
            special = special_of(f"{name}: ", name, name, hit["body"], tokens, context, span, hit["body"])
            if special is not None:
                seen.add(key_of(name))
                out.append(special)
                if short and key_of(short) not in seen:
                    seen.add(key_of(short))
                    out.append(replace(special, name=short))
    return out
