"""Printed blocks in working order: "Rows 5 and 7" and "all even rows" are put between the others."""

from tracker.notation.pattern import Aside, Row, Setup

Block = Setup | Row | Aside | tuple[Row, int]
"""A block as printed; with a number, one of several times that a row is worked."""

_MOST = 100_000
"""Numbers of one row that are looked at."""
_FURTHEST = 20_000
"""How far "all even rows" reach beyond the first of them; no piece has so many rows."""


def ordered(blocks: tuple[Setup | Row | Aside, ...]) -> list[Block]:
    """Blocks in working order."""
    out: list[Block] = []
    run: list[Row | Aside] = []
    for block in blocks:
        if isinstance(block, Row) and block.numbers:
            last = next((r for r in reversed(run) if isinstance(r, Row)), None)
            if last is not None and (
                last.part != block.part or last.kind != block.kind or block.numbers[0] == 1
            ):
                out.extend(_interleaved(run))
                run = []
            run.append(block)
        elif isinstance(block, Aside) and run:
            run.append(block)
        else:
            out.extend(_interleaved(run))
            run = []
            out.append(block)
    out.extend(_interleaved(run))
    return out


def _gapped(row: Row) -> bool:
    """True for a row whose numbers leave out others: "Rows 5 and 7", "all even rows"."""
    return row.alternate or row.numbers[-1] - row.numbers[0] != len(row.numbers) - 1


def _interleaved(run: list[Row | Aside]) -> list[Block]:
    """Numbered rows of one part, in the order of their numbers where any of them leaves gaps."""
    rows = [r for r in run if isinstance(r, Row)]
    if not any(map(_gapped, rows)) or len(rows) < 2 and not any(r.alternate for r in rows):
        return list(run)
    placed = _placed(rows)
    out: list[Block] = []
    previous: Row | None = None
    for n in sorted(placed):
        r = placed[n]
        if _gapped(r):
            out.append((r, n))
        elif r is not previous:
            out.append(r)
        previous = r
    out.extend(r for r in run if isinstance(r, Aside))
    return out


def _placed(rows: list[Row]) -> dict[int, Row]:
    """Which row each number stands for; "all even rows" fill what the others leave."""
    placed: dict[int, Row] = {}
    for r in rows:
        if not r.alternate:
            for n in r.numbers[:_MOST]:
                placed.setdefault(n, r)
    last = max(placed, default=0)
    for r in rows:
        if r.alternate:
            start = r.numbers[0]
            placed.setdefault(start, r)
            end = min(max(last, start, r.numbers[-1]), start + _FURTHEST)
            for n in range(start, end + 1, 2):
                placed.setdefault(n, r)
    return placed
