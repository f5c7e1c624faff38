"""The parts of a piece, and what is done between its rows: foundation chains, stuffing, fastening off.

A pattern and its fabric come in; stretches of rows and the doings before each row go out.
"""

import re
from bisect import bisect_left
from collections.abc import Mapping

from tracker.fabric.model import HIDDEN, Fabric
from tracker.notation.page.signs import noun_of
from tracker.notation.pattern import Aside, Pattern, Row, Setup
from tracker.notation.tree import Chain, Group, Join, Work
from tracker.program.joining import JOINS, Joining, Layout, last_edges, layout_of, seams_told
from tracker.records import dataclass

JOINING = "Joining"
"""Name of the part in which many alike become one."""
FINISHING = "Finishing"
"""Name of the part with what is done once every copy is made, where a section of the pattern says so."""
BEHIND_ALL = (JOINING, FINISHING)
"""Parts without rows."""
_NOUNS = re.compile(
    r"\b(square|coaster|motif|hexagon|block|patch|tile|star|flower|leaf|panel|strip|mitten|sock|slipper)s?\s*$",
    re.IGNORECASE,
)
"""What a title may say that one of several is."""


@dataclass(frozen=True, slots=True)
class Part:
    """Rows that belong together, worked once or several times."""

    name: str | None
    copies: int
    first: int
    """Index of its first row."""
    last: int
    """Index of its last row; first − 1 when it has none."""


def chains_of(aside: Setup | Aside) -> int:
    """Chains of a foundation to be counted, 0 for anything else."""
    if isinstance(aside, Setup):
        for item in aside.items:
            if isinstance(item, Chain):
                return item.count
    return 0


def noun_in(pattern: Pattern) -> str:
    """What one of several copies is called: "square" where the pattern says to make thirty squares, or its title ends
    so; or "".
    """
    if pattern.copies <= 1:
        return ""
    titled = _NOUNS.search(pattern.title)
    said = next((noun for said in (pattern.title, *pattern.notes) if (noun := noun_of(said))), "")
    return said or (titled[1].lower() if titled else "")


def parts_of(pattern: Pattern, fabric: Fabric) -> tuple[Part, ...]:
    """Stretches of rows of one part each."""
    copies = dict(pattern.parts)
    whole = max(1, pattern.copies)
    out: list[Part] = []
    index = 1
    for stretch in fabric.stretches:
        for k, placed in enumerate(stretch.rows):
            at = index + k
            if out and out[-1].name == placed.part:
                out[-1] = Part(placed.part, out[-1].copies, out[-1].first, at)
            else:
                out.append(Part(placed.part, max(1, copies.get(placed.part or "", whole)), at, at))
        index += stretch.length
        if out:
            out[-1] = Part(out[-1].name, out[-1].copies, out[-1].first, index - 1)
    if not out and pattern.blocks:
        out.append(Part(None, whole, 1, 0))
    if len(out) == 1 and out[0].copies > 1 and fabric.length and _joins(pattern):
        out.append(Part(JOINING, 1, fabric.length + 1, fabric.length))
    elif out and out[-1].copies > 1 and fabric.length and _finishes(pattern):
        out.append(Part(FINISHING, 1, fabric.length + 1, fabric.length))
    return tuple(out)


def _joins(pattern: Pattern) -> bool:
    """True when words behind the rows join what was made several times."""
    return any(isinstance(block, Aside) and JOINS.search(block.text) for block in pattern.blocks)


def _finishes(pattern: Pattern) -> bool:
    """True when a section of its own says what is done once every copy is made."""
    return any(isinstance(block, Aside) and block.part == FINISHING for block in pattern.blocks)


def _comes_last(block: Setup | Aside, part: str | None) -> bool:
    """True for what belongs to the part without rows behind all copies."""
    if not isinstance(block, Aside):
        return False
    return bool(JOINS.search(block.text)) if part == JOINING else block.part == FINISHING


def _seams(pattern: Pattern, fabric: Fabric, copies: int, after: Aside) -> tuple[Aside, ...]:
    """The joining step by step, behind the pattern's own words for it; none where it does not say how they lie."""
    layout = layout_of(pattern, copies)
    told = _told(pattern, fabric, layout) if layout is not None else ()
    return tuple(Aside(words, after.span, JOINING) for words in told)


def _told(pattern: Pattern, fabric: Fabric, layout: Layout) -> tuple[str, ...]:
    return seams_told(layout, last_edges(fabric), noun_in(pattern) or "piece")


def joining_at(
    pattern: Pattern, fabric: Fabric, part: Part, asides: tuple[Setup | Aside, ...], at: int
) -> Joining | None:
    """How far the joining is at one of the doings of its part, counted from 0; None where it is not led.

    `part`: the one of which many are made.
    """
    layout = layout_of(pattern, part.copies)
    told = _told(pattern, fabric, layout) if layout is not None else ()
    texts = tuple(aside.text if isinstance(aside, Aside) else "" for aside in asides)
    first = next((nth for nth in range(len(texts)) if texts[nth : nth + len(told)] == told), None)
    if layout is None or not told or first is None:
        return None
    return Joining(layout, min(max(-1, at - first), len(told)), noun_in(pattern) or "piece")


def _goes_on_unseen(row: Row, starts: list[int]) -> bool:
    """True for rows worked again until something is so, of which nobody knows how many: told in their own words.

    `starts`: where the labels of the rows begin that are worked.
    """
    at = bisect_left(starts, row.label_span.start)
    return row.rerun is not None and bool(row.rerun.until) and starts[at : at + 1] != [row.label_span.start]


def asides_of(
    pattern: Pattern, fabric: Fabric, parts: tuple[Part, ...]
) -> dict[tuple[int, int], tuple[Setup | Aside, ...]]:
    """What is done before each row, by part and row: it comes after the last row printed before it."""
    printed: list[tuple[int, int]] = []
    index = 1
    for stretch in fabric.stretches:
        for k, placed in enumerate(stretch.rows):
            last = index + k + len(stretch.rows) * (stretch.times - 1)
            printed.append((placed.label_span.start, last))
        index += stretch.length
    printed.sort()
    spans = [start for start, _ in printed]
    highest: list[int] = []
    for _, last in printed:
        highest.append(max(last, highest[-1]) if highest else last)
    out: dict[tuple[int, int], tuple[Setup | Aside, ...]] = {}
    for block in pattern.blocks:
        if isinstance(block, Row) and _goes_on_unseen(block, spans):
            block = Setup((), block.span, block.part)
        elif (
            isinstance(block, Row)
            or isinstance(block, Setup)
            and not any(isinstance(i, Chain | Join | Work | Group) for i in block.items)
        ):
            continue
        at = bisect_left(spans, block.span.start) - 1
        row = highest[at] + 1 if at >= 0 else 1
        last_part = len(parts) - 1
        if parts and parts[-1].name in BEHIND_ALL and not _comes_last(block, parts[-1].name):
            last_part -= 1
        part = next((k for k, one in enumerate(parts) if one.first <= row <= one.last), last_part)
        if (
            isinstance(block, Aside)
            and part > 0
            and parts[part].name not in BEHIND_ALL
            and row == parts[part].first
            and block.part == parts[part - 1].name
        ):
            part -= 1
        if part >= 0:
            out[(part, row)] = (*out.get((part, row), ()), block)
    if parts and parts[-1].name == JOINING:
        key = (len(parts) - 1, fabric.length + 1)
        words = [block for block in out.get(key, ()) if isinstance(block, Aside)]
        if words:
            out[key] = (*out[key], *_seams(pattern, fabric, parts[0].copies, words[-1]))
    return out


def ground_of(
    part: int,
    parts: tuple[Part, ...],
    fabric: Fabric,
    asides: Mapping[tuple[int, int], tuple[Setup | Aside, ...]],
) -> int:
    """Index of the first row of the fabric that a part goes on from: its own, or that of the part it shapes."""
    while part > 0 and _goes_on(part, parts, fabric, asides):
        part -= 1
    return parts[part].first


def _goes_on(
    part: int,
    parts: tuple[Part, ...],
    fabric: Fabric,
    asides: Mapping[tuple[int, int], tuple[Setup | Aside, ...]],
) -> bool:
    """True where the first row of a part is worked onto the whole of the last row of the part before."""
    one, before = parts[part], parts[part - 1]
    if one.last < one.first or before.last != one.first - 1 or one.copies > 1 or before.copies > 1:
        return False
    if any(isinstance(aside, Setup) for aside in asides.get((part, one.first), ())):
        return False
    top, below = fabric.row(before.last).worked.elements, fabric.row(one.first).worked.below
    on_top, met = ([e.kind for e in elements if e.kind != HIDDEN] for elements in (top, below))
    return bool(met) and met in (on_top, on_top[::-1])


def row_numbered(fabric: Fabric, number: int, mine: Part | None) -> int | None:
    """Index of the row with a number, in a part if that has one; None where there is none."""
    found: int | None = None
    at = 1
    for stretch in fabric.stretches:
        for k, placed in enumerate(stretch.rows):
            if placed.number is None:
                continue
            off = number - placed.number
            turn, rest = divmod(off, stretch.step) if stretch.step else (0, off)
            if rest or not 0 <= turn < stretch.times:
                continue
            index = at + turn * len(stretch.rows) + k
            if mine is not None and mine.first <= index <= mine.last:
                return index
            found = index if found is None else found
        at += stretch.length
    return found
