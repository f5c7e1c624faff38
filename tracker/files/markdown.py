"""Markdown as a pattern is read: headings and list items are lines, signs of emphasis are gone, stars of repeats stay.

Text comes in, text goes out. Any text will do: what is no Markdown is left as it is. A star means a repeat more often
than emphasis in a pattern, so a single one is only taken away where it can be nothing else.
"""

import re

from tracker.files.cells import lines_of_table

_FENCE = re.compile(r"^\s*(?:```|~~~)")
_RULE = re.compile(r"^\s{0,3}(?:(?:-\s*){3,}|(?:_\s*){3,}|(?:\*\s*){3,})$")
_HEADING = re.compile(r"^\s{0,3}#{1,6}\s+(?P<words>.*?)\s*#*\s*$")
_UNDERLINE = re.compile(r"^\s{0,3}(?:=+|-{2,})\s*$")
_BULLET = re.compile(r"^(?P<blank>\s*)[-+•]\s+(?:\[[ xX]\]\s+)?(?=\S)")
_STAR_BULLET = re.compile(r"^(?P<blank>\s*)\*\s+(?:\[[ xX]\]\s+)?(?=\S)")
_GOES_BACK = re.compile(r"(?:\*|asterisks?|stars?)\s*(?:s\b)?", re.IGNORECASE)
_TABLE_ROW = re.compile(r"^\s*\|.*\|\s*$")
_TABLE_RULE = re.compile(r"^\s*\|?\s*:?-{2,}:?\s*(?:\|\s*:?-{2,}:?\s*)*\|?\s*$")
_BOLD = re.compile(r"(?<![*\w])\*\*(?=[^\s*])(?P<words>[^*\n]{1,200}?)(?<=[^\s*])\*\*(?![*\w])")
_BOLD_LABEL = re.compile(
    r"^(?P<blank>\s*)\*\*(?P<words>(?=[^*\n]*\d|[^*\n]*\b(?:row|rnd|round))[^*\n]{1,40}?)(?P<mark>:\*\*|\*\*:)(?=\s)",
    re.IGNORECASE,
)
"""A label in heavy print, which is no double star however many of those stand behind it."""
_LOW_BOLD = re.compile(r"(?<![_\w])__(?=\S)(?P<words>[^_\n]{1,200}?)(?<=\S)__(?![_\w])")
_LOW = re.compile(r"(?<![_\w])_(?=\S)(?P<words>[^_\n]{1,200}?)(?<=\S)_(?![_\w])")
_TO_DOUBLE = re.compile(r"\b(?:from|to|at|and|between|until)\s+\*\*(?!\w)", re.IGNORECASE)
_LINK = re.compile(r"!?\[(?P<words>[^\]\n]*)\]\((?:[^()\s]|\([^()\s]*\))*(?:\s+\"[^\"\n]*\")?\)")
_PICTURE = re.compile(r"!\[[^\]\n]*\]\([^)\n]*\)")
_ESCAPED = re.compile(r"\\([\\`*_{}\[\]()#+\-.!|<>~×x&])")
_COMMENT = re.compile(r"<!--.*?-->", re.DOTALL)
_TAG = re.compile(r"</?(?:b|i|em|strong|u|sup|sub|span|div|p|center|font|small)(?:\s[^<>]*)?>", re.IGNORECASE)
_BREAK = re.compile(r"<br\s*/?>", re.IGNORECASE)


def plain(text: str) -> str:
    """Markdown as plain lines.

    >>> plain("## Cuff\\n\\n**Row 1:** *Sc, ch 1; rep from \\\\* across.")
    'Cuff\\n\\nRow 1: *Sc, ch 1; rep from * across.'
    """
    lines = _COMMENT.sub("", text.replace("\r\n", "\n").replace("\r", "\n")).split("\n")
    if lines and lines[0].strip() == "---" and "---" in (line.strip() for line in lines[1:40]):
        # what stands before the page for a site's machinery
        lines = lines[1 + next(k for k, line in enumerate(lines[1:]) if line.strip() == "---") + 1 :]
    out: list[str] = []
    k = 0
    while k < len(lines):
        line = lines[k]
        k += 1
        if _FENCE.match(line):
            continue
        if _TABLE_ROW.match(line) and k < len(lines) and _TABLE_RULE.match(lines[k]):
            end = k + 1
            while end < len(lines) and _TABLE_ROW.match(lines[end]):
                end += 1
            out += lines_of_table(_cells(row) for row in (line, *lines[k + 1 : end]))
            k = end
            continue
        if _UNDERLINE.match(line) and out and out[-1].strip():
            out.append("")
            continue
        if _RULE.match(line):
            out.append("")
            continue
        if heading := _HEADING.match(line):
            out += ["", _inline(heading["words"]), ""] if out and out[-1] else [_inline(heading["words"]), ""]
            continue
        out.append(_inline(_without_bullet(line)))
    return "\n".join(_one_blank(out))


def _without_bullet(line: str) -> str:
    line = re.sub(r"^\s{0,3}(?:>\s?)+", "", line)
    if _BULLET.match(line):
        return _BULLET.sub(lambda hit: hit["blank"], line)
    if star := _STAR_BULLET.match(line):
        rest = line[star.end() :]
        # "* dc in next, ch 1; rep from * across" begins a repeat and no item of a list
        if not _GOES_BACK.search(_BOLD.sub("", rest)):
            return star["blank"] + rest
    return line


def _inline(line: str) -> str:
    line = _BREAK.sub("\n", _PICTURE.sub("", line))
    line = _TAG.sub("", _LINK.sub(lambda hit: hit["words"], line))
    line = _BOLD_LABEL.sub(lambda hit: f"{hit['blank']}{hit['words']}:", line)
    if not _TO_DOUBLE.search(line):
        line = _BOLD.sub(lambda hit: hit["words"], line)
    line = _LOW.sub(lambda hit: hit["words"], _LOW_BOLD.sub(lambda hit: hit["words"], line))
    line = re.sub(r"(?<!`)`([^`\n]+)`(?!`)", r"\1", line)
    bare = line.strip()
    if bare.count("*") == 2 and bare.startswith("*") and bare.endswith("*") and "rep" not in bare.lower():
        line = line.replace("*", "")
    return _ESCAPED.sub(r"\1", line).rstrip()


def _cells(row: str) -> list[str]:
    return [_inline(cell.strip()) for cell in re.split(r"(?<!\\)\|", row.strip().strip("|"))]


def _one_blank(lines: list[str]) -> list[str]:
    out: list[str] = []
    for line in lines:
        if line.strip() or out and out[-1].strip():
            out.append(line)
    while out and not out[-1].strip():
        out.pop()
    return out
