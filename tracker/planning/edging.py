"""Edgings: what each row end takes, and what that does to the edge. Numbers or rows of a fabric come in; sentences
go out.

How many stitches the end of a row takes is common practice, no source (several teaching pages agree): a row of sc
1, of hdc 3 in 2 rows, of dc 2, of tr 3.
"""

from dataclasses import dataclass

from tracker.fabric.model import Placed
from tracker.notation.tree import Which, Work
from tracker.planning.spacing import evenly
from tracker.trade.numbers import spoken_number
from tracker.trade.stitches import STITCHES, height_of

_USUAL = {0: 0.5, 1: 1.0, 2: 1.5, 3: 2.0, 4: 3.0, 5: 3.5, 6: 4.0, 7: 4.5}
"""Stitches along one row end, by the height of the row's tallest stitch in chains."""
DRAWS_IN, RUFFLES = 0.88, 1.12
"""Parts of the usual number below and above which it is said; 25 along 15 dc rows is a tight edge by common
practice."""


@dataclass(frozen=True, slots=True)
class RowEnd:
    """The end of one row at the edge."""

    stitch: str
    """The stitch the row is made of, by the name inside."""
    turning: bool
    """True when a turning chain stands there, False for the row's last stitch."""


@dataclass(frozen=True, slots=True)
class Edging:
    """So many stitches along so many row ends."""

    ends: tuple[RowEnd, ...]
    takes: tuple[int, ...]
    """Stitches into each of them, in order."""
    usual: float
    """What common practice would put there."""

    @property
    def stitches(self) -> int:
        return sum(self.takes)


def usual_along(ends: tuple[RowEnd, ...]) -> float:
    """How many stitches the ends take by common practice.

    >>> usual_along((RowEnd("dc", True),) * 15)
    30.0
    """
    return sum(_USUAL.get(height_of(end.stitch), 2.0) for end in ends)


def edging(stitches: int, ends: tuple[RowEnd, ...]) -> Edging:
    """The stitches spread over the row ends; CannotSpace when there is no row end."""
    return Edging(ends, evenly(stitches, len(ends)), usual_along(ends))


def row_ends(rows: tuple[Placed, ...], first_turning: bool = False) -> tuple[RowEnd, ...]:
    """The ends of these rows at one side, beginning at the last row.

    A turning chain stands where a row begins, its last stitch where it ends, so at each side they alternate.
    `first_turning`: the side at which the last row began.
    """
    out = []
    turning = first_turning
    for nth, placed in enumerate(reversed(rows)):
        if nth and rows[len(rows) - nth].worked.turned:
            turning = not turning
        kinds = [element.kind for element in placed.worked.elements if element.is_stitch]
        tallest = max(kinds, key=height_of, default="sc")
        out.append(RowEnd(tallest, turning))
    return tuple(out)


def along_in(rows: tuple[tuple[int, Placed], ...]) -> dict[int, tuple[Edging, ...]]:
    """Where a pattern itself works along row ends, by the index of that row: what each row end takes, side by side.

    The row ends are those of the rows in front of it, of the part before when it begins a part of its own. The first
    side begins where the last row ended, the second at the foundation, beneath where the last row began.
    """
    out: dict[int, tuple[Edging, ...]] = {}
    taken: set[str | None] = set()
    for nth, (index, placed) in enumerate(rows):
        sides = sides_of(placed)
        if not sides:
            continue
        taken.add(placed.part)
        before = [
            one for _, one in rows[:nth] if one.kind == "row" and (one.part is None or one.part not in taken)
        ]
        if not before:
            continue
        own = tuple(one for one in before if one.part == before[-1].part)
        down, up = row_ends(own), row_ends(own, first_turning=True)[::-1]
        edges = []
        for side, (_, made, many) in enumerate(sides):
            ends = up if side % 2 else down
            edges.append(edging(made, ends[:many] if 1 < many < len(ends) else ends))
        out[index] = tuple(edges)
    return out


def sides_of(placed: Placed) -> tuple[tuple[int, int, int], ...]:
    """Each time a row works along row ends: index of its first stitch there, how many, and the row ends it names."""
    out = []
    for step in placed.worked.steps:
        item = step.item
        if (
            isinstance(item, Work)
            and item.where.which in (Which.ROW_END, Which.EVENLY)
            and not item.where.kinds
        ):
            made = [e for e in placed.worked.elements[step.made_from : step.made_to] if e.is_stitch]
            if made and not any(e.into for e in made):
                out.append((step.made_from, len(made), item.where.many))
    return tuple(out)


def told(plan: Edging) -> tuple[str, ...]:
    """What each row end takes, one sentence each."""
    out = []
    for nth, (end, takes) in enumerate(zip(plan.ends, plan.takes, strict=True), 1):
        place = "a turning chain" if end.turning else f"a {_spoken(end.stitch)}"
        if takes == 0:
            out.append(f"Row end {nth}, {place}: none, pass it over.")
            continue
        where = (
            "around the chain"
            if end.turning
            else "around its post"
            if height_of(end.stitch) > 1
            else "into its side"
        )
        out.append(f"Row end {nth}, {place}: {spoken_number(takes)}, {where}.")
    return tuple(out)


def summed(plan: Edging) -> str:
    """The whole in one sentence: "nine row ends take two and six take one"."""
    counts = sorted({takes: plan.takes.count(takes) for takes in plan.takes}.items(), reverse=True)
    parts = [
        f"{spoken_number(many)} {'row end' + ('s' if many > 1 else '') if nth == 0 else 'of them'}"
        f" {'take' if many > 1 else 'takes'} {spoken_number(takes) if takes else 'none'}"
        for nth, (takes, many) in enumerate(counts)
    ]
    return f"{plan.stitches} along {len(plan.ends)} row ends: {' and '.join(parts)}."


def verdict(plan: Edging) -> str:
    """What the number does to the edge, when common practice says it does anything; the pattern is followed all the
    same."""
    part = plan.stitches / plan.usual if plan.usual else 1.0
    usual = f"common practice is about {round(plan.usual)}"
    if part < DRAWS_IN:
        return (
            f"{plan.stitches} is few for this edge ({usual}): it draws the edge in. "
            "Follow the pattern if that is what it asks for."
        )
    if part > RUFFLES:
        return (
            f"{plan.stitches} is many for this edge ({usual}): it may ruffle. Follow "
            "the pattern if that is what it asks for."
        )
    return f"{plan.stitches} should lie flat ({usual})."


def compared(
    edges: tuple[int, int, int, int], names: tuple[str, ...] = ("top", "left side", "bottom", "right side")
) -> tuple[str, ...]:
    """The four edges of a square: where one is off, how to bring it to the others before the corner."""
    wanted = max(sorted(set(edges)), key=edges.count)
    if edges.count(wanted) == 1:
        wanted = sorted(edges)[2]
    out = []
    for name, have in zip(names, edges, strict=True):
        off = wanted - have
        if off > 0:
            out.append(
                f"The {name} has {have}, {off} fewer than {wanted}: work two in one "
                f"{_times(off)}, evenly, away from the corners."
            )
        elif off < 0:
            out.append(
                f"The {name} has {have}, {-off} more than {wanted}: work two together "
                f"{_times(-off)}, evenly, before the corner."
            )
    return tuple(out) or (f"All four edges have {wanted}; the corners are not in these numbers.",)


def _times(times: int) -> str:
    return {1: "once", 2: "twice"}.get(times, f"{times} times")


def _spoken(kind: str) -> str:
    return STITCHES[kind].spoken if kind in STITCHES else kind
