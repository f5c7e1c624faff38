"""Words that stand on pages, in the order in which they are read.

Words with their places come in, a list for each page; lines of text go out: columns one after the other, what runs
along the top or bottom of every page dropped, words that were broken at a line's end mended. Any places will do.
"""

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

GUTTER = 9.0
"""Points; so much white at least stands between two columns."""
MARGIN = 0.11
"""The share of a page, at its top and at its bottom, in which running heads and feet stand."""
LINES_OF_A_COLUMN = 3
"""Fewer lines side by side are no columns."""
NARROWEST = 0.22
"""Of the width of what is printed; a narrower strip is the first column of a table."""


@dataclass(frozen=True, slots=True)
class Word:
    """One word of a page; places in points from its left and top edge."""

    text: str
    left: float
    right: float
    top: float
    bottom: float


@dataclass(frozen=True, slots=True)
class Sheet:
    """One page."""

    words: tuple[Word, ...]
    height: float


Line = tuple[Word, ...]


def text_of_sheets(sheets: Sequence[Sheet]) -> str:
    """All pages as one text."""
    running = _running(sheets)
    lines: list[str] = []
    known: set[float] = set()
    for sheet in sheets:
        printed = _lines(sheet.words)
        above = printed[:1] if len(sheets) == 1 and _over_a_title(printed, sheet) else []
        words = tuple(
            word
            for line in printed
            if not _is_running(line, sheet, running) and line not in above
            for word in line
        )
        page = _in_order(words, 0, known)
        if lines and page and _runs_over([line for line in lines[-2:] if line], page):
            while not lines[-1]:
                lines.pop()
        lines += page
    return "\n".join(_mended(lines)) + "\n"


def _lines(words: Sequence[Word]) -> list[Line]:
    """Words that share a base line, from the top down, each line from left to right."""
    rows: list[list[Word]] = []
    for word in sorted(words, key=lambda w: (w.bottom, w.left)):
        tall = max(1.0, word.bottom - word.top)
        if rows and abs(rows[-1][0].bottom - word.bottom) <= 0.35 * tall:
            rows[-1].append(word)
        else:
            rows.append([word])
    return [tuple(sorted(row, key=lambda w: w.left)) for row in rows]


def _in_order(words: Sequence[Word], depth: int, known: set[float]) -> list[str]:
    """The lines of a stretch of a page; columns within it one after the other.

    `known` are the places between columns on the pages before; those of this one are added.
    """
    lines = _lines(words)
    if not lines:
        return []
    found = _gutter(lines) if depth < 4 else None
    if found is not None:
        known.add(found)
    elif depth == 0:
        found = next((place for place in known if _ends_beside(lines, place)), None)
    if found is None:
        return _told(lines)
    out: list[str] = []
    band: list[Line] = []
    for line in lines:
        if any(word.left < found < word.right for word in line) or _bridged(line, found):
            out += _band(band, found, depth, known)
            band = []
            out += _told([line])
        else:
            band.append(line)
    return out + _band(band, found, depth, known)


def _band(lines: Sequence[Line], gutter: float, depth: int, known: set[float]) -> list[str]:
    left = [word for line in lines for word in line if word.right <= gutter]
    right = [word for line in lines for word in line if word.right > gutter]
    if not left or not right:
        return _told(lines)
    before, after = _in_order(left, depth + 1, known), _in_order(right, depth + 1, known)
    return [*before, *([] if _runs_over(before, after) else [""]), *after, ""]


_LABEL = re.compile(r"(?:ROW|RND|ROUND|R)S?[ ]?\d|\d+[.:)]")


_LEADS_ON = frozenset("sk skip miss next last first in into of each and to from the around over with".split())
"""Words that no line of a pattern ends with unless the next goes on with it."""


def _runs_over(before: Sequence[str], after: Sequence[str]) -> bool:
    """True where what ends a column goes on at the top of the next: "… turn. 12 dc, 1" / "ch-2 sp"."""
    last, first = (before[-1].rstrip() if before else ""), (after[0].lstrip() if after else "")
    if (
        not last
        or not first
        or last.endswith((".", "!", "?"))
        or last.endswith(":")
        and not first[0].islower()
    ):
        return False
    if last.count("(") > last.count(")") or last.split()[-1].lower() in _LEADS_ON:
        return True
    capitals = last.isupper() and first.isupper() and len(first) > 25 and not _LABEL.match(first)
    chains = last.endswith(" ch") and first[:1].isdigit()
    return first[:1].islower() or last.endswith(",") or capitals or chains


def _bridged(line: Line, at: float) -> bool:
    """True when the words on both sides of a place stand as close as within a sentence."""
    before = max((word.right for word in line if word.right <= at), default=None)
    after = min((word.left for word in line if word.left >= at), default=None)
    return before is not None and after is not None and after - before < GUTTER


def _gutter(lines: Sequence[Line]) -> float | None:
    """The middle of the white strip between two columns, None where there is but one."""
    first = min(line[0].left for line in lines)
    last = max(max(word.right for word in line) for line in lines)
    width = last - first
    starts = {
        word.left
        for line in lines
        for k, word in enumerate(line)
        if k == 0 or word.left - line[k - 1].right >= GUTTER
    }
    best: tuple[int, float, float] | None = None
    for start in sorted(starts):
        place = start - GUTTER / 2
        if not first + NARROWEST * width <= place <= last - NARROWEST * width:
            continue
        score = _side_by_side(lines, place)
        if score and (best is None or (score, -abs(place - first - width / 2)) > best[:2]):
            best = (score, -abs(place - first - width / 2), place)
    return best[2] if best else None


def _ends_beside(lines: Sequence[Line], place: float) -> bool:
    """True where the last column of a text is only a line or two long, beside one that nothing crosses."""
    crossed = any(
        any(word.left < place < word.right for word in line) or _bridged(line, place) for line in lines
    )
    beside = [line for line in lines if line[-1].left >= place]
    return not crossed and bool(beside) and beside == list(lines[: len(beside)])


def _side_by_side(lines: Sequence[Line], place: float) -> int:
    """How many lines stand on both sides of a place, in stretches that nothing crosses."""
    together = left = right = 0
    for line in (*lines, None):
        if line is not None and not (
            any(word.left < place < word.right for word in line) or _bridged(line, place)
        ):
            left += line[0].right <= place
            right += line[-1].left >= place
            continue
        if min(left, right) >= LINES_OF_A_COLUMN:
            together += min(left, right)
        left = right = 0
    return together


def _told(lines: Sequence[Line]) -> list[str]:
    """Lines as text, an empty one where more white stands between two than is usual."""
    gaps = sorted(b[0].bottom - a[0].bottom for a, b in pairwise(lines))
    usual = gaps[len(gaps) // 3] if gaps else 0.0
    out: list[str] = []
    for k, line in enumerate(lines):
        if k and line[0].bottom - lines[k - 1][0].bottom > 1.45 * usual + 1:
            out.append("")
        out.append(_spaced(line))
    return out


def _spaced(line: Line) -> str:
    pieces = [line[0].text]
    for one, other in pairwise(line):
        pieces.append("   " if other.left - one.right > 2 * GUTTER else " ")
        pieces.append(other.text)
    return "".join(pieces)


# -- what runs along every page


def _shape(line: Line) -> str:
    """The words without their numbers, and how tall they are: a title is no running head of the same words."""
    tall = round(max(word.bottom - word.top for word in line))
    return f"{tall} {_words(line)}"


def _words(line: Line) -> str:
    return re.sub(r"\d+", "0", " ".join(word.text for word in line)).strip().lower()


def _over_a_title(lines: Sequence[Line], sheet: Sheet) -> bool:
    """True for a small line at the top of the only page, with the tallest one below it: a running head, no title."""
    if len(lines) < 4 or not _at_edge(lines[0], sheet) or _OF_TERMS.search(_words(lines[0])):
        return False
    tall = [max(word.bottom - word.top for word in line) for line in lines]
    return tall[1] == max(tall) and tall[1] > 1.3 * tall[0]


_OF_TERMS = re.compile(r"\b(?:us|uk|american|british|terms?)\b")


def _at_edge(line: Line, sheet: Sheet) -> bool:
    return line[0].bottom < MARGIN * sheet.height or line[0].top > (1 - MARGIN) * sheet.height


def _running(sheets: Sequence[Sheet]) -> frozenset[str]:
    """Lines that stand at the edge of two pages or more, whatever their numbers."""
    seen: Counter[str] = Counter()
    for sheet in sheets:
        seen.update({_shape(line) for line in _lines(sheet.words) if _at_edge(line, sheet)})
    enough = max(2, (len(sheets) + 2) // 3)
    return frozenset(shape for shape, times in seen.items() if times >= enough)


_PAGE_NUMBER = re.compile(r"\W*(?:page\s*)?0(?:\s*(?:of|/|von)\s*0)?\W*$|\W*[ivx]{1,5}\W*$")

_OF_THE_SHOP = re.compile(r"©|\bcopyright\b|\ball rights reserved\b|\bwww\.|https?://")


def _is_running(line: Line, sheet: Sheet, running: frozenset[str]) -> bool:
    if not _at_edge(line, sheet):
        return False
    words = _words(line)
    if _PAGE_NUMBER.match(words) or _OF_THE_SHOP.search(words):
        return True
    return _shape(line) in running and not re.match(r"(?:row|rnd|round|r)s?\s*0", words)


# -- words broken at the end of a line

_BROKEN = re.compile(r"(?P<head>[A-Za-z]+)(?P<hyphen>[-\u2010\u00ad])$")
_GLUED = frozenset(
    (
        "ch v x y t sl front back double half single triple treble post right left non self mid turning multi "
        "three two four five six shell picot pre semi all one set medium stand make rev reverse"
    ).split()
)
"""First parts of words that are written with a hyphen in the middle of a line as well."""


def _mended(lines: Sequence[str]) -> list[str]:
    """Lines with words that were broken at the end of one made whole."""
    known = {word.lower() for line in lines for word in re.findall(r"[A-Za-z]+(?:-[A-Za-z]+)*", line)}
    out: list[str] = []
    for line in lines:
        if not line.strip():
            if out and out[-1]:
                out.append("")
            continue
        hit = _BROKEN.search(out[-1]) if out else None
        rest = re.match(r"(?P<tail>[a-z]+|\d+)", line)
        if hit is None or rest is None:
            out.append(line)
            continue
        head, tail = hit["head"].lower(), rest["tail"]
        soft = hit["hyphen"] != "-"
        keep = not soft and (
            tail.isdigit()
            or f"{head}-{tail}" in known
            or f"{head}{tail}" not in known
            and (head in _GLUED or len(head) == 1)
        )
        # the broken word stays where it began, and what follows it goes on below
        first, _, after = line.partition(" ")
        out[-1] = (out[-1] if keep else out[-1][: hit.start("hyphen")]) + first
        if after.strip():
            out.append(after.strip())
    while out and not out[-1]:
        out.pop()
    return out
