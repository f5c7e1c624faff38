"""A text into lines, and lines into blocks: rows, the foundation, notes, headings, definitions, prose.

Cleaned text comes in; blocks with offsets come out, in order, covering every line that says anything.
"""

import re
from collections.abc import Sequence

from tracker.expressions import expression
from tracker.notation.page.behind import WORKS, with_rows_behind
from tracker.notation.page.block import Page
from tracker.notation.page.blocks import Blocks
from tracker.notation.page.labelled.labels import label_at, lettered, stand_alone, starts_in
from tracker.notation.page.labelled.missed import gaps, with_missed
from tracker.notation.page.labelled.unnumbered import by_name, every_second, unnumbered
from tracker.notation.page.sized.size_names import size_names

MAX_LINES = 200_000


def lay_out(text: str) -> Page:
    """The blocks of a cleaned text."""
    lines, cut = _lines(text)
    sizes = size_names(text)
    labels = {(a, b): label_at(text[a:b]) for a, b in lines if b - a < 2000}
    if rounds := unnumbered(text, labels):
        labels |= rounds
    elif gaps(labels):
        lines, labels = with_missed(text, lines, labels)
    labels |= every_second(text, labels)
    labels |= by_name(text, labels)
    unlabelled = [place for place, label in labels.items() if label is None]
    numbered = len(labels) - len(unlabelled)
    bare = numbered + sum(label_at(text[a:b], bare=True) is not None for a, b in unlabelled)
    alone = stand_alone(text, lines)
    letters = [(place, label) for place in unlabelled if (label := lettered(text[slice(*place)])) is not None]
    by_letter = len(letters) > 1 and not any(label is not None and label.numbers for label in labels.values())
    if by_letter:
        labels.update(letters)
    allow_bare = bare >= 3 and (numbered == 0 or bare - numbered >= 3 and _tells_work(text, unlabelled))
    if bare - numbered == 2 and not any(label is not None and label.numbers for label in labels.values()):
        # a small piece of two rounds, "1. dc in 4th ch …" and "2. 1 ch, 1 sc in each …"
        two = [text[a:b] for a, b in unlabelled if label_at(text[a:b], bare=True) is not None]
        allow_bare = all(WORKS.search(line) for line in two)
    return Blocks(text, lines, labels, sizes, allow_bare, alone).page(cut, by_letter)


def _tells_work(text: str, places: Sequence[tuple[int, int]]) -> bool:
    """True where lines that numbers begin, beside rows with labels, tell work: "1. BODY" names a part."""
    told = [text[a:b] for a, b in places if label_at(text[a:b], bare=True) is not None]
    return sum(WORKS.search(line) is not None for line in told) * 2 >= len(told)


_CHAIN_BEHIND = expression(
    r"(?:.{0,80}\bmultiple\b[^\n]{0,80}?[.;:]|.{5,200}[.!])\s+"
    r"(?=(?:(?:begin|start)\s+by\s+chaining\s+\d+"
    r"|(?:with\s+[\w ]{1,20},\s*)?(?:loosely\s+)?ch(?:ain)?\s+\d+)\b[^.;:]{0,30}\.?\s*$)",
    re.IGNORECASE,
)
""""Multiple of 3 + 1. Ch 31.": a foundation behind what it is a multiple of."""
_PATTERN_SAID = expression(
    r"[^.\n]{0,60}\brows?\b[^.\n]{0,40}\b(?:patt(?:ern)?|fabric)\.\s+(?=(?:work|cont|continue)\b)",
    re.IGNORECASE,
)
""" "These 2 rows form the pattern. Work 20 rows more in pattern.": what is worked is told behind it."""
_NAMED_ROW = expression(
    r"\s*(?!(?:note|tip|repeat|rep|as|next|and|then)\b)(?-i:[A-Z][A-Za-z' -]{2,24})"
    r"(?:\s?\([^()\n]{1,20}\))?(?:\s?(?::|\s[–—-])\s+|\.[—–]\s*)"
    r"(?=(?:(?:Rows?|Rnds?|Rounds?|R)\s?\d{1,3}|(?:next|1st|2nd|inc|dec|foundation|set-up)\s+(?:row|rnd|round))"
    r"\b[^:.]{0,12}[:.])"
    r"|\s*(?!(?:note|tip|repeat|rep|as|next|and|then)\b)[a-z][a-z'-]{2,14}(?:\s[a-z]{2,10})?(?:\s?[x×]\s?\d{1,2})?\s?:\s+"
    r"(?=(?:Row|Rnd|Round|R)\s?1\s?[:.])",
    re.IGNORECASE,
)
""" "Handle: Row 1: …", "legs x4: row 1: …": the name of a part before its first row."""
_KIND_ROW = expression(
    r"\s*(?!(?:note|tip|repeat|rep|as|next|and|then|from|work|works|worked|for|on|end|ending|last|first|each|every|in|of|at|with|join|turn"
    r"|after|before|between|through|until|till|to|all|odd|even|rs|ws|see|also|chart"
    r"|like|same|this|these|both|up|or|across|chain|ch|do|mark|place)\b)(?-i:[A-Z][a-z'-]{2,14}(?:\s(?!and|or|for|of|in)[a-z]{3,12})?)\s+"
    r"(?=(?-i:[Rr]nds?|[Rr]ows?|[Rr]ounds?)\s\d{1,3}(?:\s?(?:-|–|to|and|&)\s?\d{1,3})?(?:\s?\((?:RS|WS)\))?\s?:\s*\S)",
    re.IGNORECASE,
)
""" "Cuff rnd 1: …", "Cuff rnds 2-7: …": rows numbered anew below a name that each of them bears."""
_MARGIN_ROW = expression(
    r"\s*(?!(?:note|tip|repeat|rep|as|next|and|then|from|work|works|worked|for|on|end|ending|last|first|each|every|join|turn"
    r"|after|before|between|through|until|till|all|odd|even|see|also|chart|like|same|this|these|both|across|chain|mark|place"
    r"|follow|with|main|into|over|of|the|in|at|to|or|up|ch|do|by|foundation|setup|work|new|final)\b)[a-z]{3,12}\s+"
    r"(?=(?:[Rr]nds?|[Rr]ows?|[Rr]ounds?|R)\s?\d{1,3}(?:\s?(?:-|–|to|and|&)\s?\d{1,3})?\s?:\s*\S)"
)
""" "thumb Rnd 1: …", "hand  Rnds 7-9: …": the same in small letters, below what is over."""
_NAMED_JOIN = expression(
    r"[ ]*(?-i:[A-Z][A-Za-z' -]{2,24}):[ ]+(?=(?:re-?)?(?:join|attach)\b[^.:;]{5,100}\.\s+"
    r"(?:Rows?|Rnds?|Rounds?|R)[ ]?1[ ]?[:.(])",
    re.IGNORECASE,
    ["join", "attach"],
)
""" "Trim: Join B in any free loop of Rnd 4. Rnd 1: …": a part, and how the yarn is joined for it."""
_OVER = expression(r"[.)\]}!:\d]\s*$")
_CAPS_ROW = expression(
    r"\s*(?P<name>(?!(?:ROW|RND|ROUND|NOTE|WITH)S?\b)[A-Z][A-Z' &/-]{2,24}?)(?:\s?\([^()\n]{1,20}\))?\s+"
    r"(?=(?:Row|Rnd|Round|Rd|R)\s?1\b[^:.\n]{0,12}[:.)]|(?:[Cc]h|CH|[Cc]hain)\s\d)"
)
""" "HEAD Rnd 1: …", "BEAK Ch 5. Rnd 1: …": a part's name in capitals before its first row, with no mark."""
_DEFINED_WITHIN = expression(
    r"(?<=[.;:])\s+(?=[A-Z][\w-]*(?:[ ][\w-]+){0,2}\s*(?:=\s*\S|\([a-z][\w -]{0,12}\):\s))"
    r"|(?<=\.)\s+(?=Ch \d (?:at|counts|does|is)\b)"
    r"|(?<=[.;:])\s+(?=(?:1|[Oo]ne|[Aa])\s[a-z][\w-]{0,11}(?:\s?\([a-z-]{1,8}\))?\s*=\s*[\w(*]{1,12}[ ,]+\S)"
    r"|(?<=[;:])\s+(?=[a-z][\w-]{0,11}(?:[ ][a-z]{2,8})?\s*=\s*[\w(*]{2,}[ ,]+\S)"
    r"|(?<=[a-z)]\.)\s+(?=[a-z][\w-]{1,9}\s*=\s*[\w(*]{2,}[ ,]+\S)"
    r"|(?<=;)\s+(?=[A-Za-z]{2,7}\s?[–—-]\s\d\s(?:ch|tr|dc)\b)"
)
""" "Worked from the bottom up. Mesh = ch 1, sk 1 st, dc in next dc.": a definition behind a sentence; "sp = ch 2, …;
bl = 3 dc …": one behind another."""


def _may_define(line: str) -> bool:
    """False where a line holds nothing that a definition within it has: as most lines, which need not be searched."""
    if "=" in line or "):" in line:
        return True
    return ";" in line and (
        ". Ch " in line or ".  Ch " in line or "- " in line or "– " in line or "— " in line
    )


def _lines(text: str) -> tuple[list[tuple[int, int]], bool]:
    """Starts and ends of the lines, cut where a further row begins in one; True when there were too many."""
    lines: list[tuple[int, int]] = []
    begun = False  # the first line is a title, whatever it says
    at = 0
    while at <= len(text):
        end = text.find("\n", at)
        end = len(text) if end < 0 else end
        line = text[at:end]
        starts = starts_in(line) if len(line) > 20 else []
        if not starts and len(line) > 20 and _may_define(line):
            starts = [hit.end() for hit in _DEFINED_WITHIN.finditer(line)]
        ends = line.rstrip()[-64:]
        if not starts and ("hain" in ends or "h " in ends) and (hit := _CHAIN_BEHIND.match(line)):
            told = "ultiple" in line or "haining" in line
            # "Worked sideways. Ch 10, turn.", below a blank line
            apart = begun and text[max(0, at - 2) : at] == "\n\n" and not label_at(line)
            starts = [hit.end()] if told or apart and not WORKS.search(line, 0, hit.end()) else starts
        if not starts and ("att" in line or "fabric" in line) and (hit := _PATTERN_SAID.match(line)):
            starts = [hit.end()]
        # looked for in the line: the rest of the text is not gone through at each of them
        head = line[:60].lower() if begun and ": " in line[:30] else ""
        if ("join" in head or "attach" in head) and (hit := _NAMED_JOIN.match(text, at)):
            starts = [hit.end() - at, *(start for start in starts if start > hit.end() - at)]
        margin = begun and line[:1].islower() and _OVER.search(text[max(0, at - 4) : at]) is not None
        if (
            begun
            and not (line[4:5].isdigit() and line[:4] in ("Row ", "Rnd "))
            and (hit := _NAMED_ROW.match(line) or _KIND_ROW.match(line))
            or margin
            and (hit := _MARGIN_ROW.match(line))
            or starts
            and (hit := _CAPS_ROW.match(line))
        ):
            starts = [hit.end(), *(start for start in starts if start > hit.end())]
        starts = with_rows_behind(line, starts)
        begun = begun or not line.isspace() and bool(line)
        last = at
        for more in starts:
            lines.append((last, at + more))
            last = at + more
        lines.append((last, end))
        at = end + 1
        if len(lines) > MAX_LINES:
            return lines, True
    return lines, False
