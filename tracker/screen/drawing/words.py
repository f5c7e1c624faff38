"""Text made fit for a terminal's cells: cleaned, measured, clipped and wrapped.

Comes in: any text, a stranger's pattern above all. Goes out: the same with nothing in it that a terminal could obey, in
pieces of known width. Cleaning gives one character for each, so that places in a text stay places in it.
"""

import unicodedata

from rich.cells import cell_len, get_character_cell_size

Run = tuple[str, str]
"""Text, and the role it is drawn in."""
Line = tuple[Run, ...]

HARMLESS = "\N{REPLACEMENT CHARACTER}"
"""Stands where a control character stood."""
_OBEYED = {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"}
"""Controls, bidi marks and other unseen characters, line and paragraph separators: a terminal may act on these."""


def shown(text: str) -> str:
    """The text with every character that a terminal could obey made visible.

    >>> shown("ch\\x1b]8;;1\\u202e")
    'ch�]8;;1�'
    """
    if text.isascii() and text.isprintable():
        return text
    return "".join(
        " " if mark in "\t\n" else HARMLESS if unicodedata.category(mark) in _OBEYED else mark
        for mark in text
    )


def width_of(text: str) -> int:
    """Cells of a terminal that a text takes."""
    return len(text) if text.isascii() else cell_len(text)


def clipped(text: str, width: int) -> str:
    """The text, cut with "…" where it is wider than so many cells."""
    if width_of(text) <= width:
        return text
    out, used = [], 0
    for mark in text:
        used += get_character_cell_size(mark)
        if used > width - 1:
            break
        out.append(mark)
    return "".join(out) + "…" if width > 0 else ""


def wrapped(text: str, width: int) -> tuple[tuple[int, int], ...]:
    """Where the lines of a text begin and end: characters from 0, ends excluded, spaces at breaks left out.

    >>> wrapped("dc in next dc", 8)
    ((0, 5), (6, 13))
    """
    lines: list[tuple[int, int]] = []
    start = last_space = -1
    at = used = 0
    for at, mark in enumerate(text):
        if start < 0:
            if mark == " ":
                continue
            start, used, last_space = at, 0, -1
        used += get_character_cell_size(mark)
        if mark == " ":
            last_space = at
        if used > width:
            end = last_space if last_space > start else at
            lines.append((start, end))
            start = end + 1 if last_space > start else at
            used = width_of(text[start : at + 1])
            last_space = -1
    if start >= 0 and start < len(text):
        lines.append((start, len(text.rstrip(" "))))
    return tuple(lines)


def lines_of(text: str, width: int, most: int) -> tuple[str, ...]:
    """The text in at most so many lines; what does not fit ends in "…"."""
    spans = wrapped(text, width)
    out = [text[start:end].strip() for start, end in spans[:most]]
    if len(spans) > most and out:
        out[-1] = clipped(text[spans[most - 1][0] :].strip(), width)
    return tuple(out)


def filled(line: Line, width: int, role: str = "ground") -> Line:
    """The line made exactly so many cells wide."""
    out: list[Run] = []
    left = width
    for text, drawn in line:
        used = width_of(text)
        if used > left:
            text = clipped(text, left)
            used = width_of(text)
        if text:
            out.append((text, drawn))
        left -= used
        if left <= 0:
            break
    return (*out, (" " * left, role)) if left > 0 else tuple(out)


def apart(left: Line, right: Line, width: int) -> Line:
    """Two ends of one line; the right one gives way where both have no room."""
    used = sum(width_of(text) for text, _ in left)
    room = width - used - 2
    wanted = sum(width_of(text) for text, _ in right)
    if wanted <= room:
        return (*left, (" " * (width - used - wanted), "ground"), *right)
    return filled((*left, ("  ", "ground"), *filled(right, max(0, room))), width)
