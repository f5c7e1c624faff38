"""Stops that mark an abbreviation and end no sentence: "1 tr. into 4th ch. from hook", "2 d. c. in next sp".

A text comes in; it comes out with blanks in their place.
"""

from tracker.expressions import expression

_STOPPED = expression(
    r"\b(?P<word>ch|chs|tr|dc|d\.c|dtr|htr|sc|hdc|ss|sl|st|sts|sp|sps|lp|lps|rep|foll|beg|rem|tog|sk|patt|cl|rnd|dec|decrease|inc|increase|alt|prev|Rep|Ch|Sl|Sk|Rem|Foll)\.(?=\s*[a-z0-9,;)+])"
    r"(?![^\S\n]+\d{1,4}(?:[^\S\n]?[(\[:][\d :,()\[\]–—-]{1,40})?[^\S\n]+[a-z][a-z -]{0,20}"
    r"(?:,[^\S\n]\d[^\n.]{0,50})?\.?[^\S\n]*(?:\n|\Z))"
)
"""Stops of abbreviations; not that of a sentence with a count behind it: "1 dc in each dc. 30 dc"."""
_STOPPED_WITHIN = expression(
    r"\b(?P<word>ch|chs|tr|dc|dtr|htr|sc|hdc|ss|sl|st|sts|sp|sps|lp)\."
    r"(?=[ ](?:from|in|into|of|and|to|on|across|around|over|at|for|each|remaining)\b|[,;])"
    r"|\bthe[ ](?P<chain>ch)\.(?=[ ]\d)|\b[Ss]l\.[ ]?st\b\.?(?=[ ]*[a-z,;)])"
    r"|\b(?:[Rr]ep|[Rr]pt)\.(?=[ ](?:from|between|bet|to|the|this|last|across|around|until|once|twice|rows?"
    r"|rnds?|rounds?|Rows?|Rnds?|Rounds?|\*|\d+[ ](?:more|times)))",
    0,
    (
        "ep. ",
        "pt. ",
        *(f". {word}" for word in "from in of and to on across around over at for each remaining".split()),
        *".,|.;|the ch.|sl.".split("|"),
    ),
)
"""The same where the next word can begin no sentence: "in 2nd ch. from hook", "rep. from *"."""
_STOPPED_SLIP = expression(r"\b(?P<sl>[Ss]l)\.[ ]?st\b(?:\.(?=\s+[a-z0-9]|[,;)]))?", holds=["l.st", "l. st"])
"""Slip stitches with their stops: "join with sl. st. in first sc"."""
_STOPPED_SKIP = expression(r"\b(?P<sk>[Ss]k(?:ip)?)\.(?=[ ][a-z0-9])", holds=["sk.", "skip."])
_STOPPED_APART = expression(r"\b([DdSs])\. [Cc]\.(?P<ends>(?=\s*\n|\s+[A-Z]))?")
"""Old books: "2 d. c. in next space"; at the end of a sentence its stop stays."""
_STOPPED_WHOLE = expression(
    r"\b(?P<name>(?:[Hh]\.)?[DdSs]\.[Cc]|[DdHh]\.tr)\.(?P<ends>(?=\s*\n\s*[^a-z\s]|\s*\Z|\s+[A-Z](?![A-Z]?[,;.])))?",
    holds=["d.c.", "s.c.", "d.tr.", "h.tr."],
)
"""Names in letters with stops: "6 s.c. in ring", "h.d.c."."""


def without_stops(text: str) -> str:
    """The text with no stop behind an abbreviation, as far as it can be told from the end of a sentence."""
    if not _has_such_stops(text):
        return text
    text = _STOPPED_SLIP.sub(lambda hit: f"{hit['sl']} st", text)
    text = _STOPPED_SKIP.sub(r"\g<sk> ", text)
    text = _STOPPED_WHOLE.sub(
        lambda hit: hit["name"].replace(".", "") + ("." if hit["ends"] is not None else ""), text
    )
    if len(_STOPPED_APART.findall(text)) >= 3:
        text = _STOPPED_APART.sub(lambda hit: hit[1] + "c" + ("." if hit["ends"] is not None else ""), text)
    if len(_STOPPED.findall(text)) >= 6:
        # "1 tr. into 4th ch. from hook": stops that only mark an abbreviation
        text = _STOPPED.sub(lambda hit: hit["word"].replace(".", "") + " ", text)
    else:
        text = _STOPPED_WITHIN.sub(lambda hit: hit.group().replace(".", " "), text)
    return text


_GOES_ON = frozenset("abcdefghijklmnopqrstuvwxyz0123456789,;)+")
"""What follows a stop that ends no sentence."""


def _has_such_stops(text: str) -> bool:
    """True where any stop is followed by what goes on; most texts have none, and need no search."""
    goes_on = any(piece.lstrip()[:1] in _GOES_ON for piece in text.split(".")[1:])
    return goes_on or any(name in text for name in ("D. C", "S. C", "D.C", "S.C"))
