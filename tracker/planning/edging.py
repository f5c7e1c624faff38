"""Edgings in words and figures: what each row end takes, what a number does to an edge, the four edges of a square.
Values come in; sentences go out.
"""

from tracker.fabric.model import Fabric
from tracker.program.row.row_ends import Edging, sides_at
from tracker.trade.numbers import spoken_number
from tracker.trade.stitches import STITCHES, height_of, said

DRAWS_IN, RUFFLES = 0.88, 1.12
"""Parts of the usual number below and above which it is said; 25 along 15 dc rows is a tight edge by common
practice."""


def along_in(fabric: Fabric) -> dict[int, tuple[Edging, ...]]:
    """Where a pattern itself works along row ends, by the index of that row."""
    return {index: sides for index, _ in fabric.rows() if (sides := sides_at(fabric, index))}


def told(plan: Edging, uk: bool = False) -> tuple[str, ...]:
    """What each row end takes, one sentence each."""
    return tuple(f"Row end {nth + 1}, {end_told(plan, nth, uk)}" for nth in range(len(plan.ends)))


def end_told(plan: Edging, nth: int, uk: bool = False) -> str:
    """What stands at a row end, counted from 0, what it takes and where: "a turning chain: two, around the chain." """
    end, takes = plan.ends[nth], plan.takes[nth]
    place = "a turning chain" if end.turning else f"a {_spoken(end.stitch, uk)}"
    if takes == 0:
        return f"{place}: none, pass it over."
    where = (
        "around the chain"
        if end.turning
        else "around its post"
        if height_of(end.stitch) > 1
        else "into its side"
    )
    return f"{place}: {spoken_number(takes)}, {where}."


def effect(plan: Edging) -> str:
    """ "draws in" or "ruffles" when the number does that by common practice; "" when the edge should lie flat."""
    part = plan.stitches / plan.usual if plan.usual else 1.0
    return "draws in" if part < DRAWS_IN else "ruffles" if part > RUFFLES else ""


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
    usual = f"common practice is about {round(plan.usual)}"
    follow = "Follow the pattern if that is what it asks for."
    match effect(plan):
        case "draws in":
            return f"{plan.stitches} is few for this edge ({usual}): it draws the edge in. {follow}"
        case "ruffles":
            return f"{plan.stitches} is many for this edge ({usual}): it may ruffle. {follow}"
        case _:
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


def _spoken(kind: str, uk: bool) -> str:
    return "decrease" if kind.endswith("tog") else said(kind, uk) if kind in STITCHES else kind
