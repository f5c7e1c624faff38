"""A row of a table as one line of a pattern.

Cells come in, as texts; a line goes out. Any number of cells serves, and none gives an empty line.
"""

import re
from collections.abc import Iterable, Sequence
from itertools import pairwise

_LABEL = re.compile(
    r"(?:(?:rows?|rnds?|rounds?|r)\.?\s*\d[\d\s,&–-]*(?:\([^)]*\)\s*|\[[\d\s,]*\]\s*|[RW]S\s*)*"
    r"|(?:\d{1,3}(?:st|nd|rd|th)|next|last|foundation|set-?up|first)\b[\w\s,&()\[\]{}–-]{0,30}\s?(?:rows?|rnds?|rounds?)"
    r"(?:\s*\([^)]*\))?)[.:]?$",
    re.IGNORECASE,
)
_NUMBER = re.compile(
    r"\d{1,4}(?:(?:\s*[-–,&]\s*|\s+(?:and|to|through)\s+)\d{1,4}){0,9}(?:\s?[(\[][\d\s,]*[)\]])?"
    r"(?:\s*[(\[][A-Za-z][A-Za-z ]{0,18}[)\]]|\s+[RW]S)?[.:]?$"
)
_COUNT = re.compile(r"[(\[]?\s*=?\s*\d{1,5}(?:\s+[\w -]{1,20}(?:,\s*\d+\s+[\w -]{1,20})*)?\s*[)\]]?$")
_HEADS = {"row": "Row", "rows": "Row", "rnd": "Rnd", "rnds": "Rnd", "round": "Rnd", "rounds": "Rnd"}
_OF_A_HEAD = re.compile(r"\s*(?:#|\bno\b\.?|\bnumber\b|\bnr\b\.?)\s*$|[\s:.]+$")
_COUNTS = frozenset(
    "sts stitches st stitch count counts total totals st-count stitch-count sts. st. # of no. number".split()
)
_COLOURS = frozenset(("colour", "color", "colours", "colors", "yarn", "col", "col."))


def lines_of_table(rows: Iterable[Sequence[str]]) -> list[str]:
    """A table as lines; a column headed "Row" or "Round" lends its word to the numbers under it.

    >>> lines_of_table([["Row", "What to do", "Stitches"], ["1", "Ch 1, sc in each st", "24"]])
    ['Row 1: Ch 1, sc in each st (24)']
    >>> lines_of_table([["Rnd #", "Sts", "Work", "Colour"], ["1", "6", "sc in magic ring", "A"]])
    ['Rnd 1: With A, sc in magic ring (6)']
    >>> lines_of_table([["1", "6 sc in magic ring", "6"], ["2-3", "Ch 1, sc in each st", "6"]])
    ['1: 6 sc in magic ring (6)', '2-3: Ch 1, sc in each st (6)']
    """
    word = ""
    lines: list[str] = []
    heads: list[str] = []
    rows = list(rows)
    numbered = _numbered([row[0].strip() for row in rows if row and any(cell.strip() for cell in row)])
    for k, row in enumerate(rows):
        cells = [" ".join(cell.split()) for cell in row]
        if not any(cells):
            continue
        if k == 0 and (head := _HEADS.get(_OF_A_HEAD.sub("", cells[0].lower()).strip())) and len(cells) > 1:
            word = head
            heads = [cell.lower() for cell in cells]
            continue
        if len(cells) == len(heads):
            cells = _by_heads(cells, heads)
        if word and _NUMBER.match(cells[0]):
            several = len(re.findall(r"\d+", cells[0].split("(")[0])) > 1
            cells[0] = f"{word}{'s' if several else ''} {cells[0]}"
        elif numbered and len(cells) > 1:
            lines.append(_labelled([cell for cell in cells if cell]))
            continue
        lines.append(line_of(cells))
    return lines


def _by_heads(cells: Sequence[str], heads: Sequence[str]) -> list[str]:
    """The cells of a row with its colour before its work and its count behind it, as the heads tell which they are."""
    counts = [
        k for k, head in enumerate(heads) if k and set(head.split()) <= _COUNTS and _COUNT.match(cells[k])
    ]
    colours = [k for k, head in enumerate(heads) if k and head in _COLOURS and cells[k]]
    work = [cells[k] for k in range(1, len(cells)) if k not in (*counts, *colours) and cells[k]]
    if not work or len(counts) > 1 or len(colours) > 1:
        return list(cells)
    if colours:
        work[0] = f"With {cells[colours[0]]}, {work[0]}"
    return [cells[0], *work, *(cells[k] for k in counts)]


def _numbered(firsts: Sequence[str]) -> bool:
    """True for a column without a head in which rows are numbered from 1: "1", "2", "3-5"."""
    numbers = [re.findall(r"\d+", first)[:2] for first in firsts if _NUMBER.match(first)]
    told = [(int(each[0]), int(each[-1])) for each in numbers]
    rises = all(after[0] == before[1] + 1 for before, after in pairwise(told))
    return len(told) == len(firsts) > 1 and told[0][0] == 1 and rises


def line_of(cells: Sequence[str]) -> str:
    """One row of a table.

    >>> line_of(["Rnd 2", "2 sc in each st", "12 sts"]), line_of(["Hook", "4 mm"])
    ('Rnd 2: 2 sc in each st (12 sts)', 'Hook  4 mm')
    """
    kept = [cell for cell in cells if cell]
    if len(kept) > 1 and _LABEL.match(kept[0]):
        return _labelled(kept)
    return "  ".join(kept)


def _labelled(cells: Sequence[str]) -> str:
    """A label, what is worked, and a count where the last cell is one."""
    label, *rest = cells
    if len(rest) > 1 and _COUNT.match(rest[-1]):
        count = rest.pop().strip("()[] =")
        rest[-1] = f"{rest[-1].rstrip(' .')} ({count})"
    return f"{label.rstrip('.: ')}: {' '.join(rest)}"
