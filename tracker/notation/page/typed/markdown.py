"""Markdown and its like taken off a text: heavy and slanted print, lists, headings.

A text comes in at three points of its cleaning; the same text without the signs comes out. A star may begin a repeat,
so only those go that stand about a label, a name, a count, or before an item of a list.
"""

import re

from tracker.expressions import expression

_LABEL = r"(?:Rows?|Rnds?|Rounds?|R)[ ]?\d"
_BOXED_NAME = expression(r"^[ ]*\[(?P<name>[A-Z][A-Za-z' -]{2,24})\][ ]*$", re.MULTILINE, ["["])
"""The name of a part in a bracket: "[BACK]"."""
_BREAK = expression(r"[ ]*<br ?/?>[ ]*(?P<last>(?=\n|\Z))?", re.IGNORECASE, ["<br"])
_QUOTED = expression(r"^[ ]*>[ ]?", re.MULTILINE, [">"])
"""What marks every line of a pattern that is quoted as a whole."""
_ESCAPED = expression(r"\\(?=[*_#()\[\]+.-])", holds=["\\"])
"""What keeps a sign of Markdown from being one: "\\*dc in next st; rep from \\* across"."""
_BOLD_NAME = expression(
    r"^(?P<blank>[ ]*)\*\*(?P<name>[A-Z][\w '&/-]{1,40}:?)\*\*(?=[ ]+(?:\(|(?:Rows?|Rnds?|Rounds?|R)[ ]?\d"
    r"|Ch\b|With\b|Make\b))",
    re.MULTILINE,
    "**",
)
""" "**HEAD** Rnd 1: …": the name of a part in heavy print before its rows."""
_SLANTED_LABEL = expression(
    r"^(?P<blank>[ ]*(?:[-+*][ ]+)?)(?P<sign>\*|_)(?P<label>(?:Rows?|Rnds?|Rounds?|R)[ ]?\d[^*_\n]{0,40}?)(?P=sign)"
    r"(?=[ ]*(?:[:.–—-]|[ ]\S|$))",
    re.MULTILINE | re.IGNORECASE,
    ["*r", "_r"],
)
"""A label in slanted print: "*Row 1:* Sc in …"."""
_LISTED_LABEL = expression(
    rf"^[ ]*(?:[-+*][ ]+(?=[*_]{{1,2}}{_LABEL})|(?:(?<=\n\n)|(?<=[.)\]:]\n))\d{{1,3}}[.)][ ]+(?=[*_]{{0,2}}{_LABEL})"
    r"|(?P<number>\d{1,3})[.)][ ]+(?=[*_]{0,2}(?:Rows?|Rnds?|Rounds?|R)[ ]?(?P=number)\b))",
    re.MULTILINE | re.IGNORECASE,
)
"""What numbers or marks an item of a list that is a row: "1. Row 1: …", "- **Row 1:** …"."""
_ITEMS = tuple("-+*0123456789")
"""What an item of a list begins with."""
_UNDERSCORED = expression(r"(?<![\w_])_(?=[^\s_])(?P<words>[^_\n]{1,80})(?<=\S)_(?![\w_])", holds=["_"])
"""Words in slanted print, which no other sign of a pattern looks like: "_24 sc_"."""
_TICK_BOX = expression(r"^[ ]*(?:[-*][ ]+)?\[[ xX]?\](?=[ ])", re.MULTILINE, ["[ ]", "[x]", "[]"])
"""A box to tick before each line."""
_LISTED_ROW = expression(
    r"^(?P<blank>[ ]*)[-*+](?=[ ]+(?:Rows?|Rnds?|Rounds?|R)[ ]?\d)",
    re.IGNORECASE | re.MULTILINE,
    ["- r", "* r", "+ r"],
)
""" "- Rnd 2: …": rows as items of a list."""
_LISTED_PART = expression(
    r"^[ ]*\d{1,2}[.)][ ]+(?=[A-Z][A-Z &'/-]{2,30}(?:[ ]?[(\[][^()\[\]\n]{1,40}[)\]])?:?[ ]*$)", re.MULTILINE
)
"""What numbers the name of a part: "2. TUMMY (white)"."""
_STAR_BULLET = expression(
    r"^[ ]*\*[ ]+(?=[A-Z][\w-]{0,14}(?: [\w-]+){0,3}(?: ?\([^()\n]{1,30}\))?:[ ])", re.MULTILINE, "*"
)
"""A star that only marks a line of a list: "* Cl (cluster): dc3tog in same sp.", as others bullet theirs."""
_MARKDOWN_HEADING = expression(r"^[ ]*#{1,6}[ ]+(?=\S)", re.MULTILINE, "#")
_BOLD = expression(
    r"\*\*(?P<words>(?:Row|Rnd|Round|R)s? ?[^*\n]{1,40}?:?|[A-Z][\w ,()\[\]{}/–-]{1,60}:)\*\*"
    r"|__(?P<more>[^_\n]{1,60})__",
    re.IGNORECASE,
    ["**", "__"],
)
_EMPHASIS = expression(
    r"(?<=[ ])(?P<sign>\*{1,2}|_{1,2})"
    r"(?P<count>[(\[](?:[^()\[\]*\n]|[(\[][^()\[\]*\n]{1,40}[)\]]){1,60}[)\]])(?P=sign)(?=[ ]*$)",
    re.MULTILINE,
    ["*(", "_(", "*[", "_["],
)
"""A count in slanted or heavy print at the end of a line: "*(21 sc)*"."""
_HEAVY_COUNT = expression(
    r"(?<=[ ])\*\*(?P<count>(?:[=–—-][ ]?)?\d{1,4}[ ]?[A-Za-z][^*\n]{0,60})\*\*(?=[.]?[ ]*$)",
    re.MULTILINE,
    ["**"],
)
"""The same without brackets: "**24 sts**"."""
_TOLD_COUNT = expression(
    r"(?P<head>^[ ]*|(?<=[.!?;,)\]])[ ]+)(?:(?:stitch|st|sts)[ ]counts?|total(?:[ ](?:number[ ]of[ ])?(?:sts"
    r"|stitches))?|counts?|(?:no\.?|number|\#)[ ]of[ ](?:sts|stitches)|sts|stitches)[ ]?[:=][ ]?"
    r"(?P<count>\d{1,4}(?:[ ]?[(\[][\d, :/–-]{1,40}[)\]])*(?:[ ][a-z][a-z0-9 ,&+-]{0,50})?)\.?[ ]*$",
    re.MULTILINE | re.IGNORECASE,
    ["t:", "l:", "s:", " :", "="],
)
"""A count that is said to be one: "Stitch count: 24", "Total: 24 sc", on its row's line or on its own."""


def labels_plain(text: str) -> str:
    """Labels and names of parts without heavy or slanted print, and signs that are themselves.

    >>> labels_plain("_Row 1:_ Ch 1, \\\\*sc in next st, _3 times_")
    'Row 1: Ch 1, *sc in next st, 3 times'
    """
    text = _BREAK.sub(lambda hit: "" if hit["last"] is not None else "\n", text)
    if ">" in text and all(line.lstrip().startswith(">") for line in text.split("\n") if line.strip()):
        text = _QUOTED.sub("", text)
    text = _BOXED_NAME.sub(lambda hit: hit["name"], text)
    text = _ESCAPED.sub("", text)
    text = _BOLD_NAME.sub(lambda hit: hit["blank"] + hit["name"], text)
    if any(line.lstrip(" ")[:1] in _ITEMS for line in text.split("\n")):
        text = _LISTED_LABEL.sub("", text)
    text = _SLANTED_LABEL.sub(lambda hit: hit["blank"] + hit["label"], text)
    return _UNDERSCORED.sub(lambda hit: hit["words"], text)


def lists_plain(text: str) -> str:
    """Items of a list without their marks, and headings without theirs."""
    text = _TICK_BOX.sub(lambda hit: " " * len(hit.group()), text)
    text = _LISTED_PART.sub(lambda hit: " " * len(hit.group()), text)
    text = _LISTED_ROW.sub(lambda hit: hit["blank"] + " ", text)
    text = _STAR_BULLET.sub(lambda hit: " " * len(hit.group()), text)
    return _MARKDOWN_HEADING.sub("", text)


def counts_plain(text: str) -> str:
    """Counts at the ends of lines as most write them, and what else is in heavy print without it.

    >>> counts_plain("Row 2: Sc across. Stitch count: 24")
    'Row 2: Sc across. (24)'
    """
    text = _EMPHASIS.sub(lambda hit: hit["count"], text)
    text = _HEAVY_COUNT.sub(lambda hit: hit["count"], text)
    text = _TOLD_COUNT.sub(lambda hit: f"{hit['head']}({hit['count']})", text)
    return _BOLD.sub(lambda hit: hit["words"] or hit["more"], text)
