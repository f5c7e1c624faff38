"""Lines into blocks: which are rows, which the foundation, which notes, headings, definitions, prose.

Cleaned text comes in; blocks with offsets come out, in order, covering every line that says anything.
"""

import re

from tracker.expressions import expression
from tracker.notation.definitions.edges import EDGE_DEFINED
from tracker.notation.definitions.head import head_of
from tracker.notation.page.block import Block, Page, ended_by, told_apart
from tracker.notation.page.clean import BETWEEN_PAGES
from tracker.notation.page.labels import ALONE, label_at, lettered, starts_in
from tracker.notation.page.missed import gaps, with_missed
from tracker.notation.page.signs import (
    BEGUN,
    CONTINUES,
    FINISHING,
    LISTS,
    MAKE,
    NAMED_SETUP,
    NOTES,
    RERUN,
    SETUP,
    STARTERS,
    TELLS_OF_CHAINS,
    TURNS_CORNER,
    WORKING,
    behind_the_count,
    defines,
    heading,
    heading_words,
    like_part,
    many_of,
    named_alone,
    part_told,
    piece_told,
    titled,
)
from tracker.notation.page.size_names import size_names
from tracker.notation.page.sizes import condition_at, named_for
from tracker.notation.page.wrapped import goes_on, names_a_row, whole_line

MAX_LINES = 200_000


def lay_out(text: str) -> Page:
    """The blocks of a cleaned text."""
    lines, cut = _lines(text)
    sizes = size_names(text)
    labels = {(a, b): label_at(text[a:b]) for a, b in lines if b - a < 2000}
    if gaps(labels):
        lines, labels = with_missed(text, lines, labels)
    unlabelled = [place for place, label in labels.items() if label is None]
    numbered = len(labels) - len(unlabelled)
    bare = numbered + sum(label_at(text[a:b], bare=True) is not None for a, b in unlabelled)
    alone = sum(1 for a, b in lines if b - a < 40 and ALONE.fullmatch(text, a, b)) >= 3
    letters = [(place, label) for place in unlabelled if (label := lettered(text[slice(*place)])) is not None]
    by_letter = len(letters) > 1 and not any(label is not None and label.numbers for label in labels.values())
    if by_letter:
        labels.update(letters)
    allow_bare = bare >= 3 and (numbered == 0 or bare - numbered >= 3)
    if bare == 2 and numbered == 0:
        # a small piece of two rounds, "1. dc in 4th ch …" and "2. 1 ch, 1 sc in each …"
        two = [text[a:b] for a, b in unlabelled if label_at(text[a:b], bare=True) is not None]
        allow_bare = all(_WORKS_BEFORE.search(line) for line in two)
    blocks: list[Block] = []
    parts: list[tuple[str, int]] = []
    title = ""
    copies = 1
    part: str | None = None
    section = ""
    only: tuple[str, ...] = ()
    once: tuple[int, tuple[str, ...]] | None = None
    blank = True
    block: Block | None = None
    seen_row = False
    k = -1
    queue = list(lines)
    while k + 1 < len(queue):
        k += 1
        start, end = queue[k]
        raw = text[start:end]
        line = raw.strip()
        if set(line) <= set("-=_~#. "):
            blank = BETWEEN_PAGES not in raw
            continue
        label = labels.get((start, end))
        if label is None and (allow_bare or alone or (start, end) not in labels):
            label = label_at(raw, bare=allow_bare, alone=alone)
        if label is not None and not title and not seen_row and label.numbers == () and blank and k == 0:
            label = None
        if label is not None and label.kind == "edging" and not seen_row and section == "define":
            # "Edge: sc through both loops" in a list of stitches
            label = None
        so_far = text[block.start : block.end] if block is not None and not blank else ""
        if label is not None and so_far and names_a_row(so_far, raw):
            label = None
        elif label is None and block is not None and block.job != "title" and goes_on(so_far, raw):
            block.end = end
            continue
        if label is not None:
            own = named_for(raw[label.start : label.end], sizes) or only
            block = Block("row", start + label.start, end, label, start + label.end, part, own)
            blocks.append(block)
            seen_row, blank, section = True, False, ""
            if once is not None and once[0] == start:
                only = once[1]
            continue
        if (
            block is not None
            and block.job == "row"
            and not blank
            and not text[block.text_start : block.end].strip()
        ):
            # the label had a line of its own
            block.end = end
            continue
        may = section != "define" and (blank or ended_by(text, block)) and (seen_row or "make" in raw.lower())
        piece = piece_told(raw) if may else None
        if piece is not None:
            part = titled(piece["name"])
            made = MAKE.search(piece["make"] or "")
            parts.append((part, many_of(made) if made else 1))
            section, block, blank, only = "", None, True, ()
            queue.insert(k + 1, (start + piece.start("rest"), end))
            continue
        condition = condition_at(raw, sizes)
        if condition is not None and (condition[0] or {"all", "both"} & set(raw.lower().split())):
            before = only
            only, length = condition
            block = None
            if raw[length:].strip():
                queue.insert(k + 1, (start + length, end))
                if only and label_at(raw[length:]) is not None and _ALL_SIZES.search(text, end) is None:
                    # "L only – R9: …", and nothing says where all sizes go on: of this row alone
                    once = (start + length, before)
            blank = True
            continue
        if (
            not title
            and not seen_row
            and not (SETUP.match(raw) and not TELLS_OF_CHAINS.match(raw))
            and not ("=" in raw and defines(raw))
            and not blocks
        ):
            title = " ".join(line.strip("*_#~= ").split())[:200]
            made = MAKE.search(title)
            if made and "make" in made.group().lower():
                copies = many_of(made)
            blocks.append(Block("title", start, end))
            block, blank = None, False
            continue
        ended = ended_by(text, block)
        setup = (
            SETUP.match(raw) is not None
            and not TELLS_OF_CHAINS.match(raw)
            or NAMED_SETUP.match(raw) is not None
        )
        small = block is not None and not blank and line[:1].islower()
        words = "" if small else heading_words(line)
        listed = not seen_row and LISTS.fullmatch(line) is not None
        if words in NOTES or listed:
            section, block, blank = "note", None, True
            if listed or any(word in words for word in ("abbrev", "stitch", "special", "key")):
                section = "define"
            continue
        if words in WORKING:
            section, block, blank = "", None, True
            continue
        if words in FINISHING:
            section, block, part, blank, only = "finishing", None, "Finishing", True, ()
            continue
        if (
            not setup
            and heading(line, blank, ended)
            and not RERUN.match(raw)
            and not (sizes and size_names(line) == sizes)
            and not (section in ("define",) and head_of(raw))
        ):
            follows = next(
                (
                    queue[j]
                    for j in range(k + 1, min(len(queue), k + 6))
                    if text[queue[j][0] : queue[j][1]].strip()
                ),
                None,
            )
            told = part_told(line)
            name = named_alone(told)
            made = MAKE.search(line)
            only_made = made is not None and len(made.group().split()) == 2 and made.end() == len(line)
            if follows is not None and (head_of(raw) is None or name != told or only_made):
                part = titled(name) if name else part
                parts.append((part or "", many_of(made) if made else 1))
                section, block, blank, only = "", None, True, ()
                continue
        defining = (
            head_of(raw)
            if (
                not seen_row
                or section == "define"
                or blank
                or block is None
                or block.job in ("define", "note", "aside", "title")
                or ended
            )
            else None
        )
        if (
            defining is not None
            and not setup
            and (section == "define" or defines(raw) or defines(whole_line(text, queue[k:], labels)))
        ):
            pieces = [
                hit.start()
                for hit in re.finditer(
                    r"(?<=\S)\s{2,}(?=[A-Za-z][\w ]{0,20}\s*=\s*\S)"
                    r"|(?<=[;,])\s+(?=[A-Za-z][\w/ -]{0,20}(?:\s*\([^)]{1,20}\))?\s*=\s*\S)"
                    r"|(?<=;)\s+(?=[A-Za-z][\w/ -]{0,20}(?:\s*\([^)]{1,20}\))?\s*:\s+\S)"
                    r"|(?<=;)\s+(?=[A-Za-z]{2,7}\s[–—-]\s\d\s(?:ch|tr|dc)\b)"
                    r"|(?<=\.)\s+(?=(?:[A-Z][\w -]{0,20}|[a-z]{2,5}\d?[a-z]{0,4})\s*(?:\([^)]{1,14}\)\s*)?[:=]\s)",
                    raw,
                )
            ]
            if pieces:
                cuts = [start + piece for piece in pieces]
                queue[k : k + 1] = zip((start, *cuts), (*cuts, end), strict=True)
                end = cuts[0]
            block = Block("define", start, end, part=part)
            blocks.append(block)
            blank = False
            continue
        if (
            setup
            and section not in ("finishing",)
            and not (block is not None and block.job in ("row", "define") and not blank and not ended)
        ):
            block = Block("setup", start, end, part=part, sizes=only)
            blocks.append(block)
            blank, section = False, ""
            continue
        if (
            (RERUN.match(raw) or like_part(raw, parts))
            and seen_row
            and (
                ended
                or blank
                or (line[:1].isupper() or line.startswith("rep"))
                and not _GOES_ON.search(text[block.start : block.end])
                if block
                else True
            )
        ):
            block = Block("rerun", start, end, None, start, part, only)
            blocks.append(block)
            blank = False
            continue
        if block is not None and not blank:
            if block.job in ("define", "note") and EDGE_DEFINED.match(raw) or told_apart(text, block, line):
                block = Block("note", start, end, part=part)
                blocks.append(block)
                continue
            if block.job == "define" and defining is not None and text[block.end - 1] == ".":
                # "Edge stitch: sc through both loops …": the next word that is explained, not more of the last
                block = Block("note", start, end, part=part)
                blocks.append(block)
                continue
            if (
                block.job in ("row", "setup", "rerun")
                and (STARTERS.match(raw) or line[:1].isupper() and BEGUN.match(raw))
                and (ended or line[:1].isupper() and text[block.end - 1].isdigit())
                and not re.match(
                    r"\s*(?:fasten off|fo\b|finish off|do not|don't|end off)", raw, re.IGNORECASE
                )
            ):
                block = Block("aside", start, end, part=part, sizes=only)
                blocks.append(block)
                continue
            if block.job in ("row", "rerun") and (
                TURNS_CORNER.match(raw) or behind_the_count(text[block.start : block.end], raw)
            ):
                block = Block("aside", start, end, part=part, sizes=only)
                blocks.append(block)
                continue
            block.end = end
            continue
        if (
            block is not None
            and block.job in ("row", "rerun")
            and line[:1].islower()
            and text[block.start : block.end].rstrip()[-1:] not in (".", ")", "]", "}", ":")
        ):
            block.end = end
            blank = False
            continue
        if block is not None and block.job in ("row", "rerun") and CONTINUES.match(raw) and len(line) < 90:
            block.end = end
            blank = False
            continue
        job = "note" if not seen_row or section == "note" else "aside"
        block = Block(job, start, end, part=part, sizes=only)
        blocks.append(block)
        blank = False
    return Page(blocks, title, parts, sizes, copies, cut, by_letter)


_GOES_ON = expression(r"(?:[,;*(]|\b(?:then|and|or|to|of|in|for|you|not|from))\s*$", re.IGNORECASE)
"""How a line ends that is not over: what follows belongs to it, though it looks like a row."""
_ALL_SIZES = expression(r"\ball\s+sizes\b", re.IGNORECASE, ["sizes"])
_CHAIN_BEHIND = expression(
    r"(?:.{0,80}\bmultiple\b[^\n]{0,80}?[.;:]|.{5,200}[.!])\s+"
    r"(?=(?:(?:begin|start)\s+by\s+chaining\s+\d+"
    r"|(?:with\s+[\w ]{1,20},\s*)?(?:loosely\s+)?ch(?:ain)?\s+\d+)\b[^.;:]{0,30}\.?\s*$)",
    re.IGNORECASE,
)
""""Multiple of 3 + 1. Ch 31.": a foundation behind what it is a multiple of."""
_PATTERN_SAID = expression(
    r"[^.\n]{0,60}\brows?\b[^.\n]{0,40}\bpatt(?:ern)?\.\s+(?=(?:work|cont|continue)\b)",
    re.IGNORECASE,
)
""" "These 2 rows form the pattern. Work 20 rows more in pattern.": what is worked is told behind it."""
_NAMED_ROW = expression(
    r"\s*(?!(?:note|tip|repeat|rep|as|next|and|then)\b)(?-i:[A-Z][A-Za-z' -]{2,24})"
    r"(?:\s?\([^()\n]{1,20}\))?\s?(?::|\s[–—-])\s+"
    r"(?=(?:(?:Rows?|Rnds?|Rounds?|R)\s?\d{1,3}|(?:next|1st|2nd|inc|dec|foundation|set-up)\s+(?:row|rnd|round))"
    r"\b[^:.]{0,12}[:.])",
    re.IGNORECASE,
)
""" "Handle: Row 1: …": the name of a part before its first row."""
_CAPS_ROW = expression(
    r"\s*(?P<name>(?!(?:ROW|RND|ROUND|NOTE|WITH)S?\b)[A-Z][A-Z' &/-]{2,24}?)(?:\s?\([^()\n]{1,20}\))?\s+"
    r"(?=(?:Row|Rnd|Round|Rd|R)\s?1\b[^:.\n]{0,12}[:.)]|(?:[Cc]h|CH|[Cc]hain)\s\d)"
)
""" "HEAD Rnd 1: …", "BEAK Ch 5. Rnd 1: …": a part's name in capitals before its first row, with no mark."""
_AGAIN_WITHIN = expression(
    r"(?<=[.)\]])\s+(?=[Rr]ep(?:eat)?\s+(?:[Rr](?:ows?|nds?|ounds?)\s+\d[\d\s,&-]{0,12}(?:and\s+\d+\s+)?"
    r"|(?:the\s+)?last\s+(?:\w+\s+)?(?:rows?|rnds?|rounds?)\s+)(?:until|till|for|\d+\s+(?:more\s+)?times|\w+\s+(?:more\s+)?times"
    r"|once\s+more|twice))"
)
_WORKS_BEFORE = expression(
    r"\b(?:\d+\s*(?:sc|dc|hdc|tr|htr)|(?:sc|dc|hdc|tr|htr)\s+(?:in|\d)|inc|dec)\b", re.IGNORECASE
)
"""Rows that others repeat behind them in the same line: "Row 2: …. Repeat Row 2 until there are 28 rows."."""
_DEFINED_WITHIN = expression(
    r"(?<=[.;:])\s+(?=[A-Z][\w-]*(?:[ ][\w-]+){0,2}\s*(?:=\s*\S|\([a-z][\w -]{0,12}\):\s))"
    r"|(?<=\.)\s+(?=Ch \d (?:at|counts|does|is)\b)"
    r"|(?<=[;:])\s+(?=[a-z][\w-]{0,11}(?:[ ][a-z]{2,8})?\s*=\s*[\w(*]{2,}[ ,]+\S)"
    r"|(?<=;)\s+(?=[A-Za-z]{2,7}\s?[–—-]\s\d\s(?:ch|tr|dc)\b)"
)
""" "Worked from the bottom up. Mesh = ch 1, sk 1 st, dc in next dc.": a definition behind a sentence; "sp = ch 2, …;
bl = 3 dc …": one behind another."""


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
        if not starts and ("=" in line or "):" in line or ";" in line) and len(line) > 20:
            may = "=" in line or "):" in line or ";" in line or ". Ch " in line
            starts = [hit.end() for hit in _DEFINED_WITHIN.finditer(line)] if may else []
        if not starts and ("ultiple" in line or "haining" in line) and (hit := _CHAIN_BEHIND.match(line)):
            starts = [hit.end()]
        if not starts and "att" in line and (hit := _PATTERN_SAID.match(line)):
            starts = [hit.end()]
        if begun and (hit := _NAMED_ROW.match(line)) or starts and (hit := _CAPS_ROW.match(line)):
            starts = [hit.end(), *(start for start in starts if start > hit.end())]
        if ". " in line and ("ep" in line):
            again = [
                hit.end()
                for hit in _AGAIN_WITHIN.finditer(line)
                if _WORKS_BEFORE.search(
                    line, max((s for s in starts if s < hit.start()), default=0), hit.start()
                )
            ]
            starts = sorted({*starts, *again}) if again else starts
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
