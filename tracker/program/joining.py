"""Many alike made into one: which lies beside which, edges that meet, the order of joining. A pattern and its fabric
come in; a Layout and sentences go out.

None where the pattern says nothing of how many lie across and down, or where they are not as many as are made. Along
one seam all edges are joined in one go, first the seams that run across, then those that run down (common practice, no
source: fewest ends, and every crossing lies flat).
"""

import re

from tracker.fabric.model import HIDDEN, SP, Fabric, WorkedRow
from tracker.notation.pattern import Aside, Pattern
from tracker.records import dataclass
from tracker.trade.numbers import number_of, spoken_number

JOINS = re.compile(
    r"\b(?:joining|assembly|lay (?:them|the|out|all)"
    r"|join (?:them|the (?:squares|motifs|pieces|blocks|patches|hexagons))|"
    r"(?:sew|crochet|whipstitch|slip stitch) (?:them|(?:the )?(?:squares|motifs|pieces|blocks|patches)) together)\b",
    re.IGNORECASE,
)
"""Words that join pieces made before, and belong after the last of them."""
_NUMBER = r"(\d{1,3}|one|two|three|four|five|six|seven|eight|nine|ten|twelve)"
_ROWS_OF = re.compile(
    rf"\b{_NUMBER}\s+rows?\s+of\s+{_NUMBER}\b(?!\s*(?:sc|dc|hdc|tr|st|ch)\b)", re.IGNORECASE
)
_BY = re.compile(
    rf"\b{_NUMBER}\s*(?:by|x|×)\s*{_NUMBER}\s+(?:squares|motifs|blocks|patches)\b"
    rf"|\b{_NUMBER}\s+(?:squares\s+)?(?:wide|across)\s+(?:and|by)\s+{_NUMBER}\s+(?:squares\s+)?(?:high|long|down|deep)\b",
    re.IGNORECASE,
)
MOST_PAIRS = 400
"""Pairs of edges told one by one; of a larger piece each seam is told as a whole."""


@dataclass(frozen=True, slots=True)
class Seam:
    """Edges joined in one go."""

    across: bool
    """True when it runs from side to side, between two rows of pieces."""
    pairs: tuple[tuple[int, int], ...]
    """Numbers of the pieces that meet, from 1, in the order joined."""


@dataclass(frozen=True, slots=True)
class Layout:
    """How the pieces lie."""

    down: int
    """Rows of pieces."""
    across: int
    """Pieces in a row."""
    facing: str = ""
    """"right sides together", "wrong sides together", or nothing where the pattern does not say."""

    @property
    def seams(self) -> tuple[Seam, ...]:
        """In the order they are joined."""
        wide = self.across
        starts = range(0, self.down * wide, wide)
        flat = [
            Seam(True, tuple((start + at, start + wide + at) for at in range(1, wide + 1)))
            for start in starts[:-1]
        ]
        upright = [
            Seam(False, tuple((start + at, start + at + 1) for start in starts)) for at in range(1, wide)
        ]
        return (*flat, *upright)


@dataclass(frozen=True, slots=True)
class Joint:
    """One step of the joining: a pair of edges, or a whole seam where there are very many."""

    seam: int
    """Its number, from 1."""
    pairs: tuple[tuple[int, int], ...]
    """Numbers of the pieces that meet."""
    across: bool
    begins: bool
    """True for the first of its seam."""
    ends: bool


@dataclass(frozen=True, slots=True)
class Joining:
    """How far the joining is."""

    layout: Layout
    joint: int
    """The one in hand, from 0; -1 before the first, and as many as there are when all are done."""
    noun: str

    @property
    def now(self) -> Joint | None:
        """The step in hand; None before the first and after the last."""
        joints = joints_of(self.layout)
        return joints[self.joint] if 0 <= self.joint < len(joints) else None

    @property
    def counted(self) -> tuple[int, int, str]:
        """Steps done, steps in all, and what they are called; (0, 0, "") where none is in hand."""
        if (now := self.now) is None:
            return 0, 0, ""
        return self.joint, len(joints_of(self.layout)), "seams" if len(now.pairs) > 1 else "edges"

    @property
    def pieces(self) -> str:
        """ "squares 4 and 7"; "" where no step is in hand."""
        if (now := self.now) is None:
            return ""
        (one, other), last = now.pairs[0], now.pairs[-1]
        to = f", to {last[0]} and {last[1]}" if len(now.pairs) > 1 else ""
        return f"{self.noun}s {one} and {other}{to}"

    @property
    def seam(self) -> str:
        """ "Seam 2 of 5"; "" where no step is in hand."""
        return f"Seam {now.seam} of {len(self.layout.seams)}" if (now := self.now) is not None else ""


def joints_of(layout: Layout) -> tuple[Joint, ...]:
    """The steps in the order joined."""
    seams = layout.seams
    if sum(len(seam.pairs) for seam in seams) > MOST_PAIRS:
        return tuple(Joint(nth, seam.pairs, seam.across, True, True) for nth, seam in enumerate(seams, 1))
    return tuple(
        Joint(nth, (pair,), seam.across, at == 0, at == len(seam.pairs) - 1)
        for nth, seam in enumerate(seams, 1)
        for at, pair in enumerate(seam.pairs)
    )


def layout_of(pattern: Pattern, copies: int) -> Layout | None:
    """The layout that a pattern's words tell for so many pieces."""
    told = [block.text for block in pattern.blocks if isinstance(block, Aside)] + list(pattern.notes)
    facing = next(
        (f"{hit[1].lower()} sides together" for text in told
         if (hit := re.search(r"\b(right|wrong)\s+sides?\s+(?:facing\s+)?together\b", text, re.IGNORECASE))), "",
    )  # fmt: skip
    for text in told:
        if hit := _ROWS_OF.search(text):
            down, across = number_of(hit[1].lower()) or 0, number_of(hit[2].lower()) or 0
        elif hit := _BY.search(text):
            across, down = (number_of(word.lower()) or 0 for word in hit.groups() if word)
        else:
            continue
        if down * across == copies and copies > 1:
            return Layout(down, across, facing)
    return None


def edges_of(row: WorkedRow) -> tuple[int, ...]:
    """Stitches between one corner and the next, all around; () for a round without corners.

    A corner is a space made in one place with stitches, or the middle of three in one place: it is in no edge.
    """
    elements = [element for element in row.elements if element.kind != HIDDEN]
    corners = [at for at, element in enumerate(elements) if element.corner]
    if any(elements[at].kind == SP for at in corners):
        widest = max(elements[at].chains for at in corners if elements[at].kind == SP)
        corners = [at for at in corners if elements[at].kind == SP and elements[at].chains == widest]
    if len(corners) < 3:
        return ()
    out = []
    for nth, start in enumerate(corners):
        end = corners[(nth + 1) % len(corners)] + (len(elements) if nth == len(corners) - 1 else 0)
        out.append(sum(elements[at % len(elements)].is_stitch for at in range(start + 1, end)))
    return tuple(out)


def corners_alike(row: WorkedRow) -> bool:
    """False for a round with narrower corners beside its own: joined to a neighbour there, or of a piece with more."""
    spaces = {element.chains for element in row.elements if element.corner and element.kind == SP}
    return len(spaces) < 2


def uneven(edges: tuple[int, ...]) -> tuple[tuple[int, int], ...]:
    """Opposite edges of a piece with four that do not have the same number, the fewer first.

    >>> uneven((40, 38, 40, 40)), uneven((26, 24, 26, 24))
    (((38, 40),), ())
    """
    if len(edges) != 4:
        return ()
    pairs = ((edges[0], edges[2]), (edges[1], edges[3]))
    return tuple((min(pair), max(pair)) for pair in pairs if pair[0] != pair[1])


def slipped(row: WorkedRow) -> tuple[tuple[int, int], ...]:
    """Opposite edges of a round that differ by a slip of the hand, the fewer first.

    Edges that differ by more are no edges: stitches spread along a border have their corners where the maker puts them.

    >>> [pair for pair in ((38, 40), (2, 58)) if _by_a_slip(*pair)]
    [(38, 40)]
    """
    return tuple(pair for pair in uneven(edges_of(row)) if _by_a_slip(*pair)) if corners_alike(row) else ()


def _by_a_slip(fewer: int, more: int) -> bool:
    return more - fewer <= max(3, more // 8)


def last_edges(fabric: Fabric) -> tuple[int, ...]:
    """The edges of the piece, by its last round; () for a piece that is no round or has no corners."""
    placed = fabric.row(fabric.length) if fabric.length else None
    if placed is None or placed.kind != "round" or not placed.worked.understood:
        return ()
    return edges_of(placed.worked)


def map_of(layout: Layout) -> tuple[str, ...]:
    """The pieces by their numbers as they lie, the right side up, a line a row.

    >>> map_of(Layout(2, 3))
    ('1  2  3', '4  5  6')
    """
    wide = len(str(layout.down * layout.across))
    return tuple(
        "  ".join(str(row * layout.across + at).rjust(wide) for at in range(1, layout.across + 1))
        for row in range(layout.down)
    )


def map_drawn(layout: Layout) -> tuple[str, ...]:
    """The same with the seams between, each by its number: those that run down are named above the first row.

    >>> print("\\n".join(map_drawn(Layout(2, 3))))
       seam 2    seam 3
     1    |    2    |    3
    ----------------------- seam 1
     4    |    5    |    6
    """
    wide = max(3, len(str(layout.down * layout.across)))
    head = ""
    for nth in range(1, layout.across):
        name = f"seam {layout.down - 1 + nth}"
        head = head.ljust(nth * (wide + 7) - 4 - len(name) // 2) + name
    rows = [
        "   |   ".join(str(row * layout.across + at).center(wide) for at in range(1, layout.across + 1))
        for row in range(layout.down)
    ]
    out = [head] if head else []
    for nth, row in enumerate(rows):
        rule = [f"{'-' * len(row)} seam {nth + 1}"] if nth < len(rows) - 1 else []
        out += [row.rstrip(), *rule]
    return tuple(out)


def seams_told(layout: Layout, edges: tuple[int, ...], noun: str) -> tuple[str, ...]:
    """The joining step by step: a sentence a pair, or a seam where there would be very many.

    `edges`: stitches on the edges of each piece; told when they agree, and when they do not.
    """
    many = spoken_number(len(layout.seams))
    together = f", {layout.facing}" if layout.facing else ""
    agree = len(set(edges)) == 1
    match = (
        f" {spoken_number(edges[0]).capitalize()} stitches on each edge; corner meets corner."
        if agree
        else " The edges do not have the same number: ease them in, a stitch at a time."
        if edges
        else ""
    )
    out = []
    for joint in joints_of(layout):
        way = "across" if joint.across else "down"
        head = f"Seam {spoken_number(joint.seam)} of {many}, {way}: "
        first, last = joint.pairs[0], joint.pairs[-1]
        if len(joint.pairs) > 1:
            out.append(f"{head}from {_pair(first)} to {_pair(last)}{together}.{match}")
        elif joint.begins:
            out.append(f"{head}{noun}s {_pair(first)}{together}.{match}")
        else:
            out.append(f"On to {_pair(first)}.{' Fasten off.' if joint.ends else ''}")
    return tuple(out)


def _pair(pair: tuple[int, int]) -> str:
    return f"{spoken_number(pair[0])} and {spoken_number(pair[1])}"
