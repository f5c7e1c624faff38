"""A row of a table as one line of a pattern.

Cells come in, as texts; a line goes out. Any number of cells serves, and none gives an empty line.
"""

import re
from collections.abc import Iterable, Sequence

_LABEL = re.compile(r"(?:rows?|rnds?|rounds?|r)\.?\s*\d[\d\s,&–-]*(?:\([^)]*\))?[.:]?$", re.IGNORECASE)
_NUMBER = re.compile(r"\d{1,4}(?:\s*[-–]\s*\d{1,4})?[.:]?$")
_COUNT = re.compile(r"[(\[]?\s*=?\s*\d{1,5}(?:\s+[\w -]{1,20}(?:,\s*\d+\s+[\w -]{1,20})*)?\s*[)\]]?$")
_HEADS = {"row": "Row", "rows": "Row", "rnd": "Rnd", "rnds": "Rnd", "round": "Rnd", "rounds": "Rnd"}


def lines_of_table(rows: Iterable[Sequence[str]]) -> list[str]:
    """A table as lines; a column headed "Row" or "Round" lends its word to the numbers under it.

    >>> lines_of_table([["Row", "What to do", "Stitches"], ["1", "Ch 1, sc in each st", "24"]])
    ['Row 1: Ch 1, sc in each st (24)']
    """
    word = ""
    lines: list[str] = []
    for k, row in enumerate(rows):
        cells = [" ".join(cell.split()) for cell in row]
        if not any(cells):
            continue
        if k == 0 and (head := _HEADS.get(cells[0].lower().rstrip(":."))) and len(cells) > 1:
            word = head
            continue
        if word and _NUMBER.match(cells[0]):
            cells[0] = f"{word if '-' not in cells[0] and '–' not in cells[0] else word + 's'} {cells[0]}"
        lines.append(line_of(cells))
    return lines


def line_of(cells: Sequence[str]) -> str:
    """One row of a table.

    >>> line_of(["Rnd 2", "2 sc in each st", "12 sts"]), line_of(["Hook", "4 mm"])
    ('Rnd 2: 2 sc in each st (12 sts)', 'Hook  4 mm')
    """
    kept = [cell for cell in cells if cell]
    if len(kept) > 1 and _LABEL.match(kept[0]):
        rest = kept[1:]
        if len(rest) > 1 and _COUNT.match(rest[-1]):
            count = rest.pop().strip("()[] =")
            rest[-1] = f"{rest[-1].rstrip(' .')} ({count})"
        return f"{kept[0].rstrip('.: ')}: {' '.join(rest)}"
    return "  ".join(kept)
