"""Rows set out so that places and not signs part them: "| 4-9 | Rep rows 2 and 3 | 20 |", "r6 sc across 8".

A text comes in; where a table of rows stands in it, lines with labels and counts come out in its place, one for each.
"""

import re
from itertools import pairwise

from tracker.expressions import expression

_TABLE = expression(
    r"^[ ]*\|?[ ]*(?P<word>Rows?|Rnds?|Rds?|Rounds?|R|No\.?|\#)[ ]*(?:no\.?|\#|number)?[ ]*\|(?P<heads>[^\n]*)\n"
    r"(?:[ ]*[|:+ -]+\n)?(?P<lines>(?:[ ]*\|?[ ]*(?:(?:Rows?|Rnds?|Rds?|Rounds?|R)?[ ]?\d{1,3}[^|\n]{0,24}"
    r"|(?:\*\*|[-–—])?[ ]*)\|[^\n]*(?:\n|$))+)",
    re.IGNORECASE | re.MULTILINE,
    "|",
)
_NUMBER = expression(r"\d+(?:[ ](?:sts?|stitches|sc|hdc|dc|htr|tr))?\.?$", re.IGNORECASE)
"""A cell that is a count and no work."""
_COUNT = expression(r"\d+(?:[ ]*[a-z-]*\w*\b.{0,60})?$", re.IGNORECASE)


_WORK_HEAD = expression(
    r"work|instruction|direction|pattern|what|how|do\b|crochet|stitches to", re.IGNORECASE
)
_COLOUR_HEAD = expression(r"colou?r|yarn|shade", re.IGNORECASE)
"""What heads the columns of a table."""


_CELLS = expression(
    r"^[ ]*\|[ ]*(?P<label>(?:Rows?|Rnds?|Rounds?|R)[ ]?\d[^|\n]{0,30}?)[ ]*:?[ ]*\|[ ]*(?P<told>[^|\n]+?)[ ]*"
    r"(?:\|[ ]*(?P<count>\d[^|\n]{0,60}?)[ ]*)?\|[ ]*$",
    re.IGNORECASE | re.MULTILINE,
    "|",
)
"""A row of a table without a head: "| Row 2 | Ch 1, turn, sc across | 20 |"."""


_SPACED = expression(
    r"^[ ]*(?:Rows?|Rnds?|Rds?|Rounds?|R|No\.?|\#)[ ]{2,}[A-Za-z][^\n]{0,40}[ ]{2,}[A-Za-z#][^\n]{0,24}\n"
    r"(?:[ ]*(?:R|Rnd|Rd|Round|Row)?[ ]?\d{1,3}(?:[ ]?-[ ]?\d{1,3})?[ ]{2,}\S[^\n]*(?:\n|$))+",
    re.IGNORECASE | re.MULTILINE,
    ["  "],
)
"""A table of which blanks or tabs part the columns."""


_DOTTED = expression(
    r"^[ ]*(?:R|Rnd|Round)?[ ]?(?P<number>\d{1,3})[ ]*[·•][ ]*(?P<told>\S[^·•\n]*?)[ ]*[·•][ ]*"
    r"(?P<count>\d[^·•\n]{0,40}?)[ ]*$",
    re.MULTILINE,
    ["·", "•"],
)
"""Rounds that dots part from their numbers and counts: "4 · (2 sc, inc) around · 32"."""


def untabled(text: str) -> str:
    """The text with its tables of rows as lines.

    >>> untabled("| Row | Work | Sts |\\n|---|---|---|\\n| 2 | Ch 1, turn, sc across | 20 |\\n")
    'Row 2: Ch 1, turn, sc across (20)\\n'
    """
    if "·" in text or "•" in text:
        dotted = [int(hit["number"]) for hit in _DOTTED.finditer(text)]
        if len(dotted) > 2 and all(after == before + 1 or after == 1 for before, after in pairwise(dotted)):
            text = _DOTTED.sub(lambda hit: f"Rnd {hit['number']}: {hit['told']} ({hit['count']})", text)
    text = _SPACED.sub(lambda hit: re.sub(r"(?<=\S)[ ]{2,}(?=\S)", " | ", hit.group()), text)
    if "|" not in text:
        return text
    text = _TABLE.sub(_lines, text)
    return _CELLS.sub(
        lambda hit: f"{hit['label']}: {hit['told']}" + (f" ({hit['count']})" if hit["count"] else ""), text
    )


def _lines(hit: re.Match[str]) -> str:
    """A table as lines with labels."""
    word = "Rnd" if hit["word"][:2].lower() in ("rn", "ro") and "w" not in hit["word"].lower() else "Row"
    heads = [head.strip() for head in hit["heads"].strip().removesuffix("|").split("|")]
    out = []
    for line in hit["lines"].rstrip("\n").split("\n"):
        number, *cells = (
            cell.strip() for cell in line.strip().removeprefix("|").removesuffix("|").split("|")
        )
        number = number.strip("*")
        told, count, colour = _of_columns(heads, cells)
        if not any(letter.isdigit() for letter in number):
            # "| | stuff the head | |": what is done between two rows
            out.append(told or line)
            continue
        label = (
            number
            if number[:1].isalpha()
            else f"{word}{'s' if re.search(r'[-–,&]', number) else ''} {number}"
        )
        if not told:
            out.append(line)
            continue
        told = f"With {colour}, {told}" if colour else told
        out.append(
            f"{label.rstrip(':')}: {told}" + (f" ({count})" if count and f"({count}" not in told else "")
        )
    return "\n".join(out) + ("\n" if hit["lines"].endswith("\n") else "")


def _of_columns(heads: list[str], cells: list[str]) -> tuple[str, str, str]:
    """The work, the count and the colour among the cells of a line; "" for what it has not."""
    working = next((k for k, head in enumerate(heads[: len(cells)]) if _WORK_HEAD.search(head)), None)
    painted = next((k for k, head in enumerate(heads[: len(cells)]) if _COLOUR_HEAD.search(head)), None)
    if working is None:
        working = next(
            (k for k, cell in enumerate(cells) if cell and k != painted and not _NUMBER.match(cell)), None
        )
    told = cells[working] if working is not None else ""
    rest = [cell for k, cell in enumerate(cells) if k not in (working, painted)]
    count = next((cell for cell in rest if _COUNT.match(cell)), "")
    return told, count, cells[painted] if painted is not None and working != painted else ""


_COUNT_FIRST = expression(
    r"^(?P<blank>[ ]*)[(\[](?P<count>\d{1,3}(?:[ ]\w{2,5})?)[)\]][ ]*"
    r"(?P<row>(?:R|Rnd|Rd|Round|Row)s?[ ]?\d{1,3}[^\n]*?)[ ]*\.?[ ]*$",
    re.IGNORECASE | re.MULTILINE,
)
""" "(18) R3: 6 x (sc, inc)": the count ahead of the label."""
_COUNTED = r"\d{1,3}(?:[ ](?:sts?|stitches|e?sc|hdc|dc|htr|tr|dtr|sps?|spaces|loops|lps|arches|shells))?"
_SLASHED = expression(
    rf"^(?P<row>[ ]*(?:R|Rnd|Rd|Round|Row)s?[ ]?\d{{1,3}}[^\n/]*?)[ ]/{{1,2}}[ ]?"
    rf"(?P<count>{_COUNTED}(?:,[ ]?{_COUNTED}){{0,3}})[ ]*\.?[ ]*$",
    re.IGNORECASE | re.MULTILINE,
    ["/"],
)
""" "Rd 3 … ss to first dc / 36 dc, 12 sp": the count behind a slash."""
_ENDS_IN_NUMBER = expression(
    r"^[ ]*(?:R|Rows?|Rnds?|Rounds?)[ ]?\d[^\n]*?(?P<before>[^\s\d][^\s]*|[x×]\d+)[ ]+(?P<count>\d{1,3})[ ]*$",
    re.IGNORECASE | re.MULTILINE,
)
_NUMBER_AT_END = expression(r"[ ]\d{1,3}[ ]*$", re.MULTILINE)
_LABELLED = expression(r"^[ ]*(?:R|Rows?|Rnds?|Rounds?)[ ]?\d[^\n]*$", re.IGNORECASE | re.MULTILINE)
_STITCH = expression(
    r"(?:e?sc|e?hdc|e?dc|d?tr|htr|ss|slst|st|ch|inc|dec|sk|next|last|first|x|rows?|rnds?|rep|to|and|of)$"
)


_FEWEST = 3
"""Lines that show how a pattern tells its counts."""


def counts_bracketed(text: str) -> str:
    """The text with the counts of a terse list, "r6 sc across 8" throughout, in brackets.

    A number behind a stitch may be how many are worked, so every row must end in one, and many of them behind what can
    have no number.
    """
    if len(_COUNT_FIRST.findall(text)) >= _FEWEST:
        text = _COUNT_FIRST.sub(r"\g<blank>\g<row> (\g<count>)", text)
    if len(_SLASHED.findall(text)) >= _FEWEST:
        text = _SLASHED.sub(r"\g<row> (\g<count>)", text)
    if _NUMBER_AT_END.search(text) is None:
        return text
    rows = len(_LABELLED.findall(text))
    if rows < 4:
        return text
    ends = [hit["before"].lower() for hit in _ENDS_IN_NUMBER.finditer(text)]
    sure = sum(_STITCH.match(word) is None for word in ends)
    if len(ends) < rows or sure * 5 < rows * 2:
        return text
    return _ENDS_IN_NUMBER.sub(
        lambda hit: hit.group()[: hit.start("count") - hit.start()] + f"({hit['count']})", text
    )
